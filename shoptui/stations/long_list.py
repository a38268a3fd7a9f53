"""The one list of the program: columns, row numbers, a cursor and a filter, drawn line by line.

Only the lines in view are ever drawn, so ten thousand rows cost no more on screen than ten. Cells are outside
text: they are made inert when they are drawn, and nothing in them is read as markup.
"""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, field
from itertools import repeat
from typing import ClassVar

from rich.cells import cell_len, set_cell_size
from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip

from shoptui.domain.inert import inert
from shoptui.stations.marks import CURSOR, Tone

LIST_KEYS = Binding.Group("List")
MARGIN = 2
"""Cells before the row number: the cursor's mark and a blank."""


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
    hay: str = field(default="", compare=False)


def haystack(row: Row) -> str:
    """Return the words of a row as they are searched."""
    return " ".join((*row.cells, row.find)).casefold()


class LongList(ScrollView, can_focus=True, inherit_bindings=False):
    """A list of rows of any length."""

    DEFAULT_CSS = """
    LongList {
        height: 1fr;
        background: $background;
        color: $foreground;
        overflow-x: hidden;
        & > .long-list--head { color: $primary; text-style: bold; }
        & > .long-list--number { color: $foreground; text-style: dim; }
        & > .long-list--cursor { background: $block-cursor-blurred-background; color: $foreground; }
        & > .long-list--good { color: $text-success; }
        & > .long-list--warn { color: $text-warning; }
        & > .long-list--bad { color: $text-error; text-style: bold; }
        & > .long-list--quiet { color: $foreground; text-style: dim; }
        &:focus > .long-list--cursor {
            background: $block-cursor-background; color: $block-cursor-foreground; text-style: bold;
        }
        &:ansi > .long-list--cursor { text-style: reverse; background: ansi_default; color: ansi_default; }
        &:nocolor > .long-list--good { color: $foreground; }
        &:nocolor > .long-list--warn { color: $foreground; }
        &:nocolor > .long-list--bad { color: $foreground; text-style: bold; }
        &:nocolor > .long-list--quiet { color: $foreground; text-style: none; }
        &:nocolor > .long-list--number { color: $foreground; text-style: none; }
        &:nocolor > .long-list--head { color: $foreground; text-style: bold underline; }
    }
    """
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "long-list--head",
        "long-list--number",
        "long-list--cursor",
        *(f"long-list--{tone}" for tone in Tone if tone is not Tone.PLAIN),
    }
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", "Up", show=False, tooltip="One row up", id="list.up", group=LIST_KEYS),
        Binding(
            "down", "move(1)", "Down", show=False, tooltip="One row down", id="list.down", group=LIST_KEYS
        ),
        Binding(
            "pageup",
            "page(-1)",
            "Page up",
            show=False,
            tooltip="A page up",
            id="list.pageup",
            group=LIST_KEYS,
        ),
        Binding(
            "pagedown",
            "page(1)",
            "Page down",
            show=False,
            tooltip="A page down",
            id="list.pagedown",
            group=LIST_KEYS,
        ),
        Binding(
            "home", "end(-1)", "First", show=False, tooltip="The first row", id="list.home", group=LIST_KEYS
        ),
        Binding("end", "end(1)", "Last", show=False, tooltip="The last row", id="list.end", group=LIST_KEYS),
        Binding("enter", "open", "Open", show=False, tooltip="Open the row", id="list.open", group=LIST_KEYS),
    ]

    class Opened(Message):
        """A row was opened: Enter, a second tap, or its number."""

        def __init__(self, source: "LongList", row: Row) -> None:
            super().__init__()
            self.source = source
            self.row = row

        @property
        def control(self) -> "LongList":
            """The list."""
            return self.source

    class Pointed(Message):
        """The cursor is on another row, or on none."""

        def __init__(self, source: "LongList", row: Row | None) -> None:
            super().__init__()
            self.source = source
            self.row = row

        @property
        def control(self) -> "LongList":
            """The list."""
            return self.source

    def __init__(self, *columns: Column, empty: str = "Nothing here.", id: str | None = None) -> None:  # noqa: A002 - Textual's own word
        super().__init__(id=id)
        self.columns = columns
        self.empty = empty
        self._rows: tuple[Row, ...] = ()
        self._hay: list[str] | None = None
        self._shown: Sequence[int] = ()
        self._words = ""
        self._cursor = 0
        self._layout: tuple[int, tuple[tuple[int, int], ...]] = (0, ())

    # What is in it

    @property
    def rows(self) -> tuple[Row, ...]:
        """All rows, filtered out or not."""
        return self._rows

    @property
    def shown(self) -> tuple[Row, ...]:
        """The rows that the filter lets through."""
        return tuple(self._rows[number] for number in self._shown)

    @property
    def row(self) -> Row | None:
        """The row under the cursor."""
        return self._rows[self._shown[self._cursor]] if self._cursor < len(self._shown) else None

    def set_rows(self, rows: Sequence[Row]) -> None:
        """Show other rows; the cursor stays on the row with the same key, or near where it was."""
        before = self.row
        self._rows = tuple(rows)
        self._hay = None
        self._shown = self._matching(range(len(self._rows)))
        self._settle(before)

    def set_columns(self, *columns: Column) -> None:
        """Show other columns; rows that fit them come with the next `set_rows`."""
        self.columns = columns
        self._rows = ()
        self._hay, self._shown, self._cursor = None, (), 0
        self._layout = (0, ())
        self.refresh()

    def narrow(self, words: str) -> None:
        """Show only rows that have all the words; no words show all.

        A number that is no longer than the row numbers points at its row instead of hiding the others, since
        a number and Enter opens a row.
        """
        words = words.casefold().strip()
        if words.isdecimal() and len(words) <= len(str(len(self._rows))):
            self.point(int(words) - 1)
            words = ""
        if words == self._words:
            return
        among: Sequence[int] = range(len(self._rows))
        if self._words and words.startswith(self._words):
            among = self._shown
        before, self._words = self.row, words
        self._shown = self._matching(among)
        self._settle(before if not words else None)

    def _matching(self, among: Sequence[int]) -> Sequence[int]:
        if not self._words:
            return range(len(self._rows))
        if self._hay is None:
            self._hay = [haystack(row) for row in self._rows]
        hay = self._hay
        for word in self._words.split():
            among = [number for number in among if word in hay[number]]
        return among

    def _settle(self, before: Row | None) -> None:
        """Put the cursor where it belongs after the rows in view have changed."""
        cursor = min(self._cursor, max(0, len(self._shown) - 1)) if before is not None else 0
        if before is not None:
            same = (place for place, number in enumerate(self._shown) if self._rows[number].key == before.key)
            cursor = next(same, cursor)
        self._cursor = cursor
        self.virtual_size = Size(self.size.width, len(self._shown) + 1)
        self._follow()
        self.refresh()
        self.post_message(self.Pointed(self, self.row))

    # The cursor

    def point(self, number: int) -> None:
        """Put the cursor on a row of the whole list, counted from 0, if the filter shows it."""
        place = number if isinstance(self._shown, range) else _place(self._shown, number)
        if 0 <= place < len(self._shown):
            self._go(place)

    def point_at(self, key: Hashable) -> None:
        """Put the cursor on the row of a key, if it is there."""
        for number, row in enumerate(self._rows):
            if row.key == key:
                self.point(number)
                return

    def numbered(self, number: int) -> Row | None:
        """Return the row that has this number on screen, counted from 1."""
        return self._rows[number - 1] if 1 <= number <= len(self._rows) else None

    def _go(self, place: int) -> None:
        place = max(0, min(place, len(self._shown) - 1))
        if place == self._cursor or not self._shown:
            return
        before, self._cursor = self._cursor, place
        scrolled = self._follow()
        if not scrolled:
            for line in (before, place):
                self.refresh_line(line + 1)
        self.post_message(self.Pointed(self, self.row))

    def _follow(self) -> bool:
        """Scroll so that the cursor is in view; return whether that moved the list."""
        height = max(1, self.size.height - 1)
        top = round(self.scroll_y)
        wanted = min(max(top, self._cursor - height + 1), self._cursor)
        if wanted == top:
            return False
        self.scroll_to(y=wanted, animate=False, force=True, immediate=True)
        self.refresh()
        return True

    def action_move(self, rows: int) -> None:
        """Move the cursor by rows."""
        self._go(self._cursor + rows)

    def action_page(self, pages: int) -> None:
        """Move the cursor by pages."""
        self._go(self._cursor + pages * max(1, self.size.height - 2))

    def action_end(self, side: int) -> None:
        """Move the cursor to the first or the last row."""
        self._go(0 if side < 0 else len(self._shown) - 1)

    def action_open(self) -> None:
        """Open the row under the cursor."""
        if (row := self.row) is not None:
            self.post_message(self.Opened(self, row))

    def on_click(self, event: events.Click) -> None:
        """Point at a row; a tap on the row that is pointed at opens it."""
        place = event.y - 1 + round(self.scroll_y)
        if event.y < 1 or place >= len(self._shown):
            return
        if place == self._cursor:
            self.action_open()
        else:
            self._go(place)

    # Drawing

    def on_resize(self) -> None:
        """Keep the cursor in view when the room changes."""
        self._layout = (0, ())
        self.virtual_size = Size(self.size.width, len(self._shown) + 1)
        self._follow()

    def _widths(self) -> tuple[tuple[int, int], ...]:
        """Return (column, cells) of the columns that have room, in order."""
        width = self.scrollable_content_region.width
        if self._layout[0] != width:
            room = width - MARGIN - len(str(len(self._rows))) - 1
            shown = [number for number, column in enumerate(self.columns) if width >= column.since]
            fixed = sum(self.columns[number].width + 1 for number in shown)
            sharing = [number for number in shown if not self.columns[number].width]
            share, over = divmod(max(0, room - fixed), len(sharing) or 1)
            extra = dict.fromkeys(sharing[:over], 1)
            self._layout = (
                width,
                tuple(
                    (number, self.columns[number].width or share + extra.get(number, 0)) for number in shown
                ),
            )
        return self._layout[1]

    def render_line(self, y: int) -> Strip:
        """Draw one line of what is in view."""
        width = self.scrollable_content_region.width
        base = self.rich_style
        if y == 0:
            return self._head(base).adjust_cell_length(width, base)
        place = y - 1 + round(self.scroll_y)
        if place >= len(self._shown):
            words = self._nothing() if place == 0 else ""
            return Strip([Segment(words, base)]).adjust_cell_length(width, base)
        return self._line(place, base).adjust_cell_length(width, base)

    def _nothing(self) -> str:
        if self._words:
            return f'  Nothing here matches "{inert(self._words)}". Escape lets go of the words.'
        return f"  {self.empty}"

    def _style(self, name: str, base: Style) -> Style:
        return base + self.get_component_rich_style(f"long-list--{name}", partial=True)

    def _head(self, base: Style) -> Strip:
        style = self._style("head", base)
        number = " " * (MARGIN + len(str(len(self._rows))) + 1)
        cells = [
            _cell(self.columns[column].title, width, right=self.columns[column].right)
            for column, width in self._widths()
        ]
        return Strip([Segment(number + " ".join(cells), style)])

    def _line(self, place: int, base: Style) -> Strip:
        row = self._rows[self._shown[place]]
        here = place == self._cursor
        if here:
            base = self._style("cursor", base)
        number = f"{self._shown[place] + 1:>{len(str(len(self._rows)))}} "
        segments = [
            Segment(f"{CURSOR if here else ' '} ", base),
            Segment(number, base if here else self._style("number", base)),
        ]
        toned = base if here or row.tone is Tone.PLAIN else self._style(row.tone, base)
        cells = (*row.cells, *repeat("", len(self.columns) - len(row.cells)))
        for column, width in self._widths():
            spec = self.columns[column]
            text = _cell(inert(cells[column], limit=max(1, width)), width, right=spec.right)
            segments.append(Segment(text, toned if spec.toned else base))
            segments.append(Segment(" ", base))
        return Strip(segments)


def _place(shown: Sequence[int], number: int) -> int:
    try:
        return shown.index(number)
    except ValueError:
        return -1


def _cell(text: str, width: int, *, right: bool) -> str:
    if right and (short := width - cell_len(text)) > 0:
        return " " * short + text
    return set_cell_size(text, width)
