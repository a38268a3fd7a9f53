"""A tag drawn in the terminal, to be scanned off the glass."""

from rich.segment import Segment
from rich.style import Style
from textual.filter import LineFilter
from textual.geometry import Size
from textual.strip import Strip
from textual.widget import Widget

from shoptui.labels.screen import ROWS, WHITE, Cell, cells

WHITE_ROWS = 1
"""Above and below the bars, so that nothing dark touches them."""


class Glass(Widget):
    """The bars of a code, black on white whatever the look: a scanner knows no other.

    Args:
        code: What they carry.

    """

    DEFAULT_CSS = """
    Glass { height: auto; width: auto; }
    """

    def __init__(self, code: str) -> None:
        super().__init__()
        bars = cells(code, ROWS)
        white = (Cell(" ", WHITE, WHITE),) * len(bars[0])
        self._rows = (*(white,) * WHITE_ROWS, *bars, *(white,) * WHITE_ROWS)

    def get_content_width(self, container: Size, viewport: Size) -> int:  # noqa: ARG002 - Textual calls it so
        """Return the columns that the bars and their quiet zones take."""
        return len(self._rows[0])

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002 - likewise
        """Return the rows."""
        return len(self._rows)

    def get_line_filters(self) -> list[LineFilter]:
        """Let no look change black and white, also where all else is without colour."""
        return []

    def render_line(self, y: int) -> Strip:
        """Draw one row of cells."""
        return Strip(
            [
                Segment(cell.character, Style(color=cell.colour, bgcolor=cell.behind))
                for cell in (self._rows[y] if y < len(self._rows) else ())
            ]
        )
