"""Draws the lines of a list, its heading and its rows, in the cells that there are.

Cells are outside text: they are made inert when they are drawn, and nothing in them is read as markup.
"""

from collections.abc import Callable, Sequence
from itertools import repeat

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from shoptui.domain.inert import inert
from shoptui.stations.listed import Column, Row, cell, widths
from shoptui.stations.marks import CURSOR, Tone

MARGIN = 2
"""Cells before the row number: the cursor's mark and a blank."""

Look = Callable[[str, Style], Style]
"""Gives the style of a part of the list on top of another one."""


class Lines:
    """The lines of a list.

    Args:
        columns: Its columns.
        look: How its parts look.

    """

    def __init__(self, columns: Sequence[Column], look: Look) -> None:
        self.columns = columns
        self._look = look
        self._fitted: tuple[tuple[int, int], tuple[tuple[int, int], ...]] = ((0, 0), ())

    def cells(self, width: int, digits: int) -> tuple[tuple[int, int], ...]:
        """Return (column, cells) of the columns that have room beside row numbers of so many digits."""
        if self._fitted[0] != (width, digits):
            self._fitted = (width, digits), widths(self.columns, width, width - MARGIN - digits - 1)
        return self._fitted[1]

    def head(self, width: int, digits: int, base: Style) -> Strip:
        """Return the heading."""
        titles = [
            cell(self.columns[column].title, cells, right=self.columns[column].right)
            for column, cells in self.cells(width, digits)
        ]
        return Strip([Segment(" " * (MARGIN + digits + 1) + " ".join(titles), self._look("head", base))])

    def row(self, row: Row, number: int, width: int, digits: int, base: Style, *, here: bool) -> Strip:
        """Return a row behind its number, counted from 1; `here` where the cursor is on it."""
        if here:
            base = self._look("cursor", base)
        segments = [
            Segment(f"{CURSOR if here else ' '} ", base),
            Segment(f"{number:>{digits}} ", base if here else self._look("number", base)),
        ]
        toned = base if here or row.tone is Tone.PLAIN else self._look(row.tone, base)
        texts = (*row.cells, *repeat("", len(self.columns) - len(row.cells)))
        for column, cells in self.cells(width, digits):
            spec = self.columns[column]
            text = cell(inert(texts[column], limit=max(1, cells)), cells, right=spec.right)
            segments.append(Segment(text, toned if spec.toned else base))
            segments.append(Segment(" ", base))
        return Strip(segments)
