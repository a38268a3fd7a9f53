"""The kits of a list: each row may name the one that it is in, and a kit's contents are the rows that do."""

from shoptui.domain.inert import inert
from shoptui.domain.records import KitLine, Part
from shoptui.domain.tables import Reading
from shoptui.jobs.at import name
from shoptui.jobs.kit import refused
from shoptui.jobs.part_links import Draft, Link, Links
from shoptui.store.shop import Shop

Kits = dict[Link, tuple[tuple[int, int], ...]]
"""The line of a kit, or one that is there, to the lines of its contents and how many of each one holds."""


def find_kits(shop: Shop, reading: Reading, drafts: list[Draft], links: dict[int, Links]) -> Kits:
    """Return what is in each kit that rows name; a kit in a kit, or in itself, is a trouble.

    A row says how many one kit holds; where it does not, the quantities do: four of a row and one kit are
    four in each.
    """
    of_line = {draft.line: draft for draft in drafts}
    kits: dict[Link, list[tuple[int, int]]] = {}
    for draft in drafts:
        for kit in links[draft.line].kit:
            if trouble := _trouble(shop, kit, draft, of_line, links):
                reading.trouble(draft.line, "kit", trouble)
                continue
            each = _each(draft, of_line[kit].qty if isinstance(kit, int) else 1)
            if each is None:
                reading.trouble(
                    draft.line,
                    "kit",
                    f"{draft.qty} pieces cannot be shared among the kits; "
                    f'say how many one holds: "{inert(draft.kit[0], 40)}*2".',
                )
                continue
            kits.setdefault(kit, []).append((draft.line, each))
    return {kit: tuple(lines) for kit, lines in kits.items()}


def kit_lines(inside: tuple[tuple[int, int], ...], made: dict[int, Part]) -> tuple[KitLine, ...]:
    """Return a kit's contents, once the rows are parts."""
    return tuple(KitLine(made[line].id, each) for line, each in inside)


def _trouble(shop: Shop, kit: Link, draft: Draft, of_line: dict[int, Draft], links: dict[int, Links]) -> str:
    """Say why a row cannot be in a kit; empty if it can."""
    if isinstance(kit, Part):
        return refused(shop, kit, ())
    if kit == draft.line:
        return f"{name(draft.part)} cannot be in itself."
    if links[kit].kit:
        return f"{name(of_line[kit].part)} is in a kit itself; a kit in a kit is not possible."
    if of_line[kit].here or of_line[kit].part.original:
        return f"{name(of_line[kit].part)} is a kit: what is on hand stands in the rows of its contents."
    return ""


def _each(draft: Draft, kits: int) -> int | None:
    _, said = draft.kit
    if said is not None:
        return said
    each, over = divmod(draft.qty, max(1, kits))
    return None if over or not each else each
