"""The header of a list, as people's spreadsheets write it: which column of ours each of its cells means."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from shoptui.domain.inert import inert


@dataclass(frozen=True, slots=True)
class Column:
    """One column that a list may have.

    Args:
        name: As documented.
        also: Other headers that mean the same, as people's spreadsheets have them.
        needed: Whether a list without it is refused.
        surer: Headers that say it more certainly than the name does. A column that has some may stand in a
            list several times: a row's surest cell that is not empty counts.

    """

    name: str
    also: tuple[str, ...] = ()
    needed: bool = False
    surer: tuple[str, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """All headers that mean it, the surest first."""
        return (*self.surer, self.name, *self.also)


@dataclass(frozen=True, slots=True)
class Header:
    """What a header says.

    Args:
        names: Known name of each column, empty for one that is left out.
        order: Places of the known columns, the surest of one name first.
        unknown: Headers that nobody here knows, safe to show.
        spare: Headers left out because another column says it more certainly, safe to show.
        written: Known name to the header as it is written.
        problems: Known name, or nothing, and what is wrong.

    """

    names: tuple[str, ...]
    order: tuple[int, ...]
    unknown: tuple[str, ...]
    spare: tuple[str, ...]
    written: Mapping[str, str]
    problems: tuple[tuple[str, str], ...]


def header_key(text: str) -> str:
    """Return a header as headers are compared: letters and digits only, lower case, `#` is a number.

    >>> header_key(" Maker's_Number "), header_key("Part #"), header_key("#")
    ('makersnumber', 'partnumber', '')
    """
    key = _letters(text)
    return _letters(text.replace("#", " number ")) if key else key


def _letters(text: str) -> str:
    return "".join(character for character in text.casefold() if character.isalnum())


_BRACKETS = re.compile(r"\(([^()]*)\)|\[([^\[\]]*)\]")


def read_header(cells: Sequence[str], columns: Sequence[Column]) -> Header:
    """Return what a header says; what is wrong with it stands in `problems`."""
    known = {header_key(each): column for column in columns for each in column.names}
    claims: dict[str, list[tuple[float, int]]] = {}
    for at, cell in enumerate(cells):
        if (found := _meant(cell, known)) is not None:
            claims.setdefault(found[0].name, []).append((found[1], at))
    problems, used, spare = [], dict[int, str](), list[int]()
    for column in columns:
        ranked = sorted(claims.get(column.name, ()))
        keep = len(ranked) if column.surer else 1
        if _clash(column, [rank for rank, _ in ranked]):
            problems.append((column.name, _clash_words(column, [cells[at] for _, at in ranked])))
        used.update((at, column.name) for _, at in ranked[:keep])
        spare += [at for _, at in ranked[keep:]]
    unknown = [at for at, cell in enumerate(cells) if cell.strip() and at not in used and at not in spare]
    problems += _lacking(cells, columns, set(used.values()))
    problems += _unheeded([cells[at] for at in unknown], columns, set(used.values()))
    return Header(
        tuple(used.get(at, "") for at in range(len(cells))),
        tuple(used),
        tuple(inert(cells[at].strip(), 40) for at in unknown),
        tuple(inert(cells[at].strip(), 40) for at in sorted(spare)),
        {name: cells[at] for at, name in reversed(used.items())},
        tuple(problems),
    )


def _meant(cell: str, known: Mapping[str, Column]) -> tuple[Column, float] | None:
    """Return the column that a header means, and how sure it is, 0 the surest.

    What stands in brackets is a unit and left out, unless it means another column: `Qty (on hand)`.
    """
    key = header_key(cell)
    if column := known.get(key):
        return column, _rank(column, key)
    bare = header_key(_BRACKETS.sub(" ", cell))
    column = known.get(bare)
    inside = [known.get(header_key("".join(found))) for found in _BRACKETS.findall(cell)]
    if column is None or any(other not in (None, column) for other in inside):
        return None
    return column, _rank(column, bare) + 0.5


def _rank(column: Column, key: str) -> int:
    if column.surer:
        return [header_key(each) for each in column.names].index(key)
    return 0 if key == header_key(column.name) else 1


def _clash(column: Column, ranks: Sequence[float]) -> bool:
    """Whether two headers mean one column and neither is surer; the documented name is surer than others."""
    if column.surer:
        return len(set(ranks)) < len(ranks)
    return len(ranks) > 1 and (ranks[0] == ranks[1] or ranks[0] >= 1)


def _clash_words(column: Column, headers: Sequence[str]) -> str:
    several = " and ".join(f'"{inert(each.strip(), 40)}"' for each in headers)
    return f'The columns {several} both mean this; leave one, or name the right one "{column.name}".'


def _lacking(cells: Sequence[str], columns: Sequence[Column], there: set[str]) -> list[tuple[str, str]]:
    missing = [column.name for column in columns if column.needed and column.name not in there]
    if not missing:
        return []
    came = ", ".join(inert(cell.strip(), 20) for cell in cells if cell.strip())
    wanted = " and ".join(f'"{each}"' for each in missing)
    return [("", f"The header lacks {wanted}; it has {inert(came, 160)}.")]


_AMOUNTS = frozenset(
    {"qty", "qtys", "quantity", "quantities", "pieces", "pcs", "count", "price", "prices", "cost", "costs"}
)
"""Words of a header that must not be passed over: a list without its quantities would be all ones."""


def _unheeded(unknown: Sequence[str], columns: Sequence[Column], there: set[str]) -> list[tuple[str, str]]:
    """Find headers that sound like a quantity or a price which no other column gives."""
    problems = []
    for cell in unknown:
        said = set(re.findall(r"[a-z]+", cell.casefold())) & _AMOUNTS
        meant = [
            column.name
            for column in columns
            if any(each.casefold().removesuffix("s") in _words(column) for each in said)
        ]
        if (
            meant
            and not there.intersection(meant)
            and not any(each.needed for each in columns if each.name in meant)
        ):
            names = " or ".join(f'"{each}"' for each in meant)
            problems.append(
                ("", f'The column "{inert(cell.strip(), 40)}" is not known; name it {names}, or take it out.')
            )
    return problems


def _words(column: Column) -> set[str]:
    return {word.removesuffix("s") for name in column.names for word in name.split()}
