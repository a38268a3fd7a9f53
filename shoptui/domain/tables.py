"""A list of rows with a header, read as people's spreadsheets write it, every trouble named by its line.

Nothing here knows where the rows come from.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from shoptui.domain.cells import NAME_LIMIT, CellError, words
from shoptui.domain.headers import Column, read_header
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
class Row:
    """One row: the line on which it begins, and the cells of the known columns, empty ones left out."""

    line: int
    cells: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Table:
    """The rows of a list.

    Args:
        rows: In their order.
        ignored: Headers that nobody here knows, safe to show.
        spare: Headers left out since another column says the same more certainly, safe to show.
        headers: Known name of a column to the header as it is written, which may name a unit.
        lone: Rows whose only filled cell stands in a column that is left out, under no name: headings may.

    """

    rows: tuple[Row, ...]
    ignored: tuple[str, ...]
    spare: tuple[str, ...] = ()
    headers: Mapping[str, str] = field(default_factory=dict)
    lone: tuple[Row, ...] = ()


def read_table(lines: Iterable[tuple[int, Sequence[str]]], columns: Sequence[Column], name: str) -> Table:
    """Return a list's rows.

    Args:
        lines: Line number and cells, the header first; lines without any text are passed over.
        columns: Columns that there may be.
        name: The list's name, for the error.

    Raises:
        ImportRefusedError: No header or no rows, a needed column is missing, two columns mean one, a column
            of quantities or prices that is not known, or text beyond the header.

    """
    filled = ((line, cells) for line, cells in lines if any(cell.strip() for cell in cells))
    first = next(filled, None)
    if first is None:
        raise ImportRefusedError(
            name, [Trouble(0, "", "A header and rows were expected; the file is empty.")]
        )
    header = read_header(first[1], columns)
    if header.problems:
        raise ImportRefusedError(name, [Trouble(first[0], *problem) for problem in header.problems])
    rows, lone, troubles = [], [], []
    for line, cells in filled:
        troubles += [
            Trouble(line, "", f"{inert(cell, 40)} stands beyond the last header.")
            for cell in cells[len(header.names) :]
            if cell.strip()
        ]
        found: dict[str, str] = {}
        for at in header.order:
            if at < len(cells) and cells[at].strip():
                found.setdefault(header.names[at], cells[at])
        if found:
            rows.append(Row(line, found))
        elif len(texts := [cell for cell in cells if cell.strip()]) == 1:
            lone.append(Row(line, {"": texts[0]}))
    if not rows and not troubles:
        troubles.append(Trouble(0, "", "Rows were expected below the header; there are none."))
    if troubles:
        raise ImportRefusedError(name, troubles)
    return Table(tuple(rows), header.unknown, header.spare, header.written, tuple(lone))


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
