"""Hold pieces until somebody decides, release them, open sealed ones, put removed ones back into stock."""

from shoptui.domain import verbs
from shoptui.jobs.answers import Answer, stop
from shoptui.jobs.carry_out import carry_out
from shoptui.store.shop import Shop


def hold(shop: Shop, terminal: str, part: int, qty: int, *, note: str, who: int | None = None) -> Answer:
    """Set pieces that are here aside, where they lie: damaged, wrong, waiting for somebody's word."""
    note = " ".join(note.split())
    if not note:
        return stop("Say in a few words why it is held: damaged, wrong, over, or what it waits for.")
    return carry_out(
        shop,
        terminal,
        part,
        qty,
        "held",
        lambda _: verbs.hold(shop.book, part, qty, note=note),
        who=who,
        hint="It counts for nothing until it is released.",
    )


def release(
    shop: Shop, terminal: str, part: int, qty: int, *, note: str = "", who: int | None = None
) -> Answer:
    """Let held pieces be used after all, where they lie."""
    return carry_out(
        shop,
        terminal,
        part,
        qty,
        "released",
        lambda _: verbs.release(shop.book, part, qty, note=note),
        who=who,
    )


def open_part(shop: Shop, terminal: str, part: int, qty: int, *, who: int | None = None) -> Answer:
    """Open sealed pieces where they lie; asks first where an unfilmed shot needs them sealed."""
    return carry_out(
        shop, terminal, part, qty, "opened", lambda _: verbs.open_(shop.book, part, qty), who=who
    )


def return_to_stock(shop: Shop, terminal: str, part: int, qty: int, *, who: int | None = None) -> Answer:
    """Count removed pieces as usable stock again, where they lie."""
    return carry_out(
        shop,
        terminal,
        part,
        qty,
        "returned to stock",
        lambda _: verbs.return_to_stock(shop.book, part, qty),
        who=who,
    )
