"""What the rows of a list say of each other: installed after, replaces, in a kit.

A row may name one that stands further down, so references are found when all rows are read.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from shoptui.domain.inert import inert
from shoptui.domain.names import Names
from shoptui.domain.records import Part
from shoptui.domain.tables import Reading


@dataclass(frozen=True, slots=True)
class Draft:
    """A part of a list before it is in the shop: its references are still words.

    Args:
        line: Where it stands.
        part: Without id and references.
        qty: Pieces in the list.
        codes: Codes with the pieces that one scan means.
        after: Names of what must be on first.
        replaces: Names of what comes off for it.
        here: Pieces that lie in the shop already.
        bin: Id of the bin in which they lie, or nothing: on the bench.
        kit: Name of the kit that it is in, and how many of it one kit holds if that is said.

    """

    line: int
    part: Part
    qty: int
    codes: tuple[tuple[str, int], ...]
    after: tuple[str, ...]
    replaces: tuple[str, ...]
    here: int = 0
    bin: int | str = ""
    kit: tuple[str, int | None] = ("", None)


Link = int | Part
"""What a reference means: the line of another row, or a part that is there."""


@dataclass(frozen=True, slots=True)
class Links:
    """What one row is installed after, what it replaces, and which kit it is in, at most one."""

    after: tuple[Link, ...]
    replaces: tuple[Link, ...]
    kit: tuple[Link, ...]


def find_links(
    reading: Reading, drafts: list[Draft], there: list[Part], numbers: Mapping[int, str]
) -> dict[int, Links]:
    """Return what each line says of others.

    Args:
        reading: Gathers what cannot be found.
        drafts: The rows.
        there: Parts of the build that are in the shop.
        numbers: Line to the row's number in the list, by which its other rows may name it.

    """
    names: Names[Link] = Names()
    for part in there:
        names.add(part, part.code, part.number, part.description)
        names.add(part, part.tag)
    for draft in drafts:
        code = draft.part.code or numbers.get(draft.line, "")
        names.add(draft.line, code, draft.part.number, draft.part.description)
        names.add(draft.line, draft.part.tag)
    links = {}
    for draft in drafts:
        kit, _ = draft.kit
        links[draft.line] = Links(
            _found(reading, names, draft.line, "install after", draft.after),
            _found(reading, names, draft.line, "replaces", draft.replaces),
            _found(reading, names, draft.line, "kit", (kit,) if kit else ()),
        )
    _refuse_cycles(reading, {line: found.after for line, found in links.items()}, drafts)
    return links


def _found(
    reading: Reading, names: Names[Link], line: int, column: str, wanted: tuple[str, ...]
) -> tuple[Link, ...]:
    found = []
    for name in wanted:
        links = names.find(name)
        if len(links) == 1:
            found.append(links[0])
        elif links:
            reading.trouble(
                line, column, f"{inert(name)} stands for {len(links)} parts; give the code of one."
            )
        else:
            reading.trouble(
                line, column, f"No part has {inert(name)} as its code, tag, maker's number or description."
            )
    return tuple(found)


def _refuse_cycles(reading: Reading, after: dict[int, tuple[Link, ...]], drafts: list[Draft]) -> None:
    """Note a part that would have to be on before itself. Parts that are there never wait for new ones."""
    called = {draft.line: inert(draft.part.code or draft.part.description, 40) for draft in drafts}
    settled: set[Link] = set()
    for start, first in after.items():
        path: list[Link] = [start]
        waiting = [iter(first)]
        while waiting:
            following = next(waiting[-1], None)
            if following is None:
                settled.add(path.pop())
                waiting.pop()
            elif following in path:
                cycle = [*path[path.index(following) :], following]
                words = " after ".join(called[line] for line in cycle if isinstance(line, int))
                alone = len(set(cycle)) == 1
                told = f"{words.split(' after ')[0]} waits for itself." if alone else ""
                reading.trouble(start, "install after", told or f"Each waits for the other: {words}.")
            elif isinstance(following, int) and following not in settled:
                path.append(following)
                waiting.append(iter(after[following]))
