"""Rows, columns and the filter of a list, without a screen."""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

from rich.cells import cell_len, set_cell_size

from shoptui.stations.marks import Tone


@dataclass(frozen=True, slots=True)
class Column:
    """One column.

    Args:
        title: Heading, in words.
        width: Cells; 0 takes what the others leave, shared evenly.
        right: Whether cells stand at the right, as quantities do.
        since: The list must be this many cells wide before the column is shown.
        toned: Whether the row's tone colours it: the column that holds the word of the state.

    """

    title: str
    width: int = 0
    right: bool = False
    since: int = 0
    toned: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """One row.

    Args:
        key: What the row stands for: stays the same while cells change.
        cells: One text for each column.
        tone: How the toned columns look.
        find: Further words that find the row, beside its cells.

    """

    key: Hashable
    cells: tuple[str, ...]
    tone: Tone = Tone.PLAIN
    find: str = ""


class Listed:
    """Rows and which of them the filter lets through.

    >>> listed = Listed()
    >>> listed.fill([Row(1, ("Brake rotor",)), Row(2, ("Hub",)), Row(3, ("Brake hose",))])
    >>> listed.narrow("brake ho")
    >>> [row.key for row in listed.shown]
    [3]
    >>> listed.narrow("h")
    >>> [row.key for row in listed.shown]
    [2, 3]
    """

    def __init__(self) -> None:
        self.rows: tuple[Row, ...] = ()
        self.words = ""
        self.numbers: Sequence[int] = ()
        """Places, in the whole list, of the rows that are let through, the best match first."""
        self._hay: list[str] | None = None
        self._names: list[str] = []
        """What each row is called: its first cell, with a blank before it."""

    @property
    def shown(self) -> tuple[Row, ...]:
        """The rows that the filter lets through."""
        return tuple(self.rows[number] for number in self.numbers)

    def fill(self, rows: Sequence[Row]) -> None:
        """Hold other rows; the filter stays."""
        self.rows = tuple(rows)
        self._hay = None
        self.numbers = self._matching(range(len(self.rows)))

    def narrow(self, words: str) -> None:
        """Let only rows through that have all the words; more letters search what the fewer ones found."""
        words = words.casefold().strip()
        among = self.numbers if self.words and words.startswith(self.words) else range(len(self.rows))
        self.words = words
        self.numbers = self._matching(among)

    def _matching(self, among: Sequence[int]) -> Sequence[int]:
        if not self.words:
            return range(len(self.rows))
        if self._hay is None:
            # Once for all letters: folding ten thousand rows takes longer than searching them.
            self._hay = [" ".join(("", *row.cells, row.find)).casefold() for row in self.rows]
            self._names = [f" {row.cells[0]}".casefold() if row.cells else "" for row in self.rows]
        hay = self._hay
        for word in self.words.split():
            among = [number for number in among if word in hay[number]]
        return self._best_first(among)

    def _best_first(self, found: Sequence[int]) -> Sequence[int]:
        """Put rows whose name begins with the words first, then names with them, then other cells.

        Within each, where a word begins goes before the middle of one; what is alike keeps its order.
        """
        names, hay, begun = self._names, self._hay or [], f" {self.words}"
        head = {number for number in found if names[number].startswith(begun)}
        ranked = sorted(head)
        left = [number for number in sorted(found) if number not in head]
        for texts, words in (
            (names, [f" {word}" for word in self.words.split()]),
            (names, self.words.split()),
            (hay, [f" {word}" for word in self.words.split()]),
        ):
            better = left
            for word in words:
                better = [number for number in better if word in texts[number]]
            if better:
                taken = set(better)
                ranked += better
                left = [number for number in left if number not in taken]
        return ranked + left

    def place(self, number: int) -> int | None:
        """Return where a row of the whole list stands among those let through, None if it does not."""
        try:
            return self.numbers.index(number)
        except ValueError:
            return None

    def number(self, key: Hashable) -> int | None:
        """Return the place, in the whole list, of the row of a key."""
        return next((number for number, row in enumerate(self.rows) if row.key == key), None)


def widths(columns: Sequence[Column], width: int, room: int) -> tuple[tuple[int, int], ...]:
    """Return which columns a list shows, and the cells of each.

    Args:
        columns: The columns.
        width: Cells of the whole list.
        room: Cells of it that are left for columns, with a blank after each.

    >>> widths((Column("part"), Column("code", 6), Column("maker", 9, since=90)), 80, 70)
    ((0, 62), (1, 6))

    """
    shown = [number for number, column in enumerate(columns) if width >= column.since]
    fixed = sum(columns[number].width + 1 for number in shown)
    sharing = [number for number in shown if not columns[number].width]
    share, over = divmod(max(0, room - fixed), len(sharing) or 1)
    extra = dict.fromkeys(sharing[:over], 1)
    return tuple((number, columns[number].width or share + extra.get(number, 0)) for number in shown)


def cell(text: str, width: int, *, right: bool) -> str:
    """Return a text cut or filled to a width in terminal cells.

    >>> cell("12", 4, right=True), cell("rotor", 3, right=False)
    ('  12', 'rot')
    """
    if right and (short := width - cell_len(text)) > 0:
        return " " * short + text
    return set_cell_size(text, width)
