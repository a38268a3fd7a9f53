"""A list of rows with a header, read as people's spreadsheets write it, every trouble named by its line.

Nothing here knows where the rows come from.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from shoptui.domain.cells import NAME_LIMIT, CellError, words
from shoptui.domain.inert import inert

T = TypeVar("T")
D = TypeVar("D")

SHOWN = 20
"""Troubles that are named one by one."""


@dataclass(frozen=True, slots=True)
class Trouble:
    """What is wrong at one place of a file; line 0 is the file as a whole."""

    line: int
    column: str
    sentence: str

    def __str__(self) -> str:
        """Say it, with its place."""
        place = f"Line {self.line}" if self.line else ""
        if self.column:
            place += f", {self.column}" if place else self.column
        return f"{place}: {self.sentence}" if place else self.sentence


class ImportRefusedError(ValueError):
    """A file of which nothing was taken; `troubles` says why, in the order of its lines."""

    def __init__(self, name: str, troubles: Iterable[Trouble]) -> None:
        self.name = name
        self.troubles = tuple(sorted(troubles, key=lambda trouble: trouble.line))
        super().__init__(self.text())

    def text(self) -> str:
        """Return the troubles as lines, the first twenty one by one."""
        more = len(self.troubles) - SHOWN
        lines = [str(trouble) for trouble in self.troubles[:SHOWN]]
        if more > 0:
            lines.append(f"and {more} more.")
        return "\n".join([f"Nothing was imported from {inert(self.name)}.", *lines])


@dataclass(frozen=True, slots=True)
class Column:
    """One column that a list may have.

    Args:
        name: As documented.
        also: Other headers that mean the same, as people's spreadsheets have them.
        needed: Whether a list without it is refused.

    """

    name: str
    also: tuple[str, ...] = ()
    needed: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """One row: the line on which it begins, and the cells of the known columns, empty ones left out."""

    line: int
    cells: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Table:
    """The rows of a list, and the headers that nobody here knows."""

    rows: tuple[Row, ...]
    ignored: tuple[str, ...]


def header_key(text: str) -> str:
    """Return a header as headers are compared: letters and digits only, lower case.

    >>> header_key(" Maker's_Number ")
    'makersnumber'
    """
    return "".join(character for character in text.casefold() if character.isalnum())


def read_table(lines: Iterable[tuple[int, Sequence[str]]], columns: Sequence[Column], name: str) -> Table:
    """Return a list's rows.

    Args:
        lines: Line number and cells, the header first; lines without any text are passed over.
        columns: Columns that there may be.
        name: The list's name, for the error.

    Raises:
        ImportRefusedError: No header, a needed column is missing or one stands twice, text beyond the header.

    """
    filled = ((line, cells) for line, cells in lines if any(cell.strip() for cell in cells))
    first = next(filled, None)
    if first is None:
        raise ImportRefusedError(
            name, [Trouble(0, "", "A header and rows were expected; the file is empty.")]
        )
    names, ignored = _header(first, columns, name)
    rows, troubles = [], []
    for line, cells in filled:
        found = {}
        for at, cell in enumerate(cells):
            if at >= len(names):
                if cell.strip():
                    troubles.append(Trouble(line, "", f"{inert(cell, 40)} stands beyond the last header."))
            elif names[at] and cell.strip():
                found[names[at]] = cell
        if found:
            rows.append(Row(line, found))
    if troubles:
        raise ImportRefusedError(name, troubles)
    return Table(tuple(rows), ignored)


def _header(
    first: tuple[int, Sequence[str]], columns: Sequence[Column], file: str
) -> tuple[list[str], tuple[str, ...]]:
    """Return the known name of each column, empty for an unknown one, and the unknown headers."""
    line, cells = first
    known = {header_key(each): column.name for column in columns for each in (column.name, *column.also)}
    names = [known.get(header_key(cell), "") for cell in cells]
    troubles = [
        Trouble(line, name, "Two columns of the header mean this; leave one.")
        for name in dict.fromkeys(names)
        if name and names.count(name) > 1
    ]
    missing = [column.name for column in columns if column.needed and column.name not in names]
    if missing:
        came = ", ".join(inert(cell, 20) for cell in cells if cell.strip())
        wanted = " and ".join(f'"{each}"' for each in missing)
        troubles.append(Trouble(line, "", f"The header lacks {wanted}; it has {inert(came, 160)}."))
    if troubles:
        raise ImportRefusedError(file, troubles)
    unknown = (cell for cell, known_as in zip(cells, names, strict=True) if cell.strip() and not known_as)
    return names, tuple(inert(cell.strip(), 40) for cell in unknown)


@dataclass(slots=True)
class Reading:
    """Reads rows cell by cell and gathers what is wrong, so that all of it can be said at once."""

    name: str
    troubles: list[Trouble] = field(default_factory=list)

    def trouble(self, line: int, column: str, sentence: str) -> None:
        """Note what is wrong at one place."""
        self.troubles.append(Trouble(line, column, sentence))

    def text(self, row: Row, column: str, *, limit: int = NAME_LIMIT, lines: bool = False) -> str:
        """Return a cell's words, empty if it is empty or wrong."""
        return self.take(row, column, lambda cell: words(cell, limit=limit, lines=lines), "")

    def take(self, row: Row, column: str, read: Callable[[str], T], default: D) -> T | D:
        """Return what a cell says; the default if it is empty, or wrong, which is then noted."""
        cell = row.cells.get(column)
        if cell is None:
            return default
        try:
            return read(cell)
        except CellError as error:
            self.trouble(row.line, column, str(error))
            return default

    def finish(self) -> None:
        """Refuse the whole list if anything was wrong.

        Raises:
            ImportRefusedError: Something was.

        """
        if self.troubles:
            raise ImportRefusedError(self.name, self.troubles)
