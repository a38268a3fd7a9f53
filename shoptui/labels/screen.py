"""A symbol for the terminal, to be scanned off the glass: two modules in each column.

A column with a black and a white module is a left half block, any other a blank; all have explicit black and
white, since named colours are whatever a terminal's theme says, and were not read.
"""

from dataclasses import dataclass
from itertools import cycle

from shoptui.labels.symbols import QUIET, symbol

BLACK, WHITE = "#000000", "#ffffff"
HALF = "\N{LEFT HALF BLOCK}"
ROWS = 6
"""Rows of a terminal that are as tall as 15 % of the symbol's length, and more."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of the terminal: a character, its colour and the colour behind it."""

    character: str
    colour: str
    behind: str


def cells(text: str, rows: int = ROWS) -> tuple[tuple[Cell, ...], ...]:
    """Return the rows of cells of a symbol with its quiet zones.

    Raises:
        TextError: No symbol can carry the text.

    >>> rows = cells("BAARK2Y")
    >>> len(rows), len(rows[0])
    (6, 66)

    """
    row = tuple(_row(text))
    return (row,) * rows


def columns(text: str) -> int:
    """Return how many columns a text's symbol takes, to see whether a screen is wide enough."""
    return -(-(symbol(text).modules + 2 * QUIET) // 2)


def _row(text: str) -> list[Cell]:
    modules = [WHITE] * QUIET
    for colour, run in zip(cycle((BLACK, WHITE)), symbol(text).runs, strict=False):
        modules += [colour] * run
    modules += [WHITE] * (QUIET + len(modules) % 2)
    return [
        Cell(" ", left, left) if left == right else Cell(HALF, left, right)
        for left, right in zip(modules[::2], modules[1::2], strict=True)
    ]
