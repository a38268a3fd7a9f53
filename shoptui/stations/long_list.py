"""The one list of the program: columns, row numbers, a cursor and a filter, drawn line by line.

Only the lines in view are ever drawn, so ten thousand rows cost no more on screen than ten.
"""

from collections.abc import Hashable, Sequence
from typing import TYPE_CHECKING, ClassVar, cast

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip

from shoptui.domain.inert import inert
from shoptui.stations.keys import quiet
from shoptui.stations.list_lines import Lines
from shoptui.stations.list_look import LIST_CSS, PARTS
from shoptui.stations.listed import Column, Listed, Row

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp

LIST_KEYS = Binding.Group("List")


class LongList(ScrollView, can_focus=True, inherit_bindings=False):
    """A list of rows of any length."""

    DEFAULT_CSS = LIST_CSS
    COMPONENT_CLASSES: ClassVar[set[str]] = {f"long-list--{part}" for part in PARTS}
    BINDINGS: ClassVar[list[BindingType]] = [
        quiet("up", "move(-1)", "Up", "One row up", "list.up", LIST_KEYS),
        quiet("down", "move(1)", "Down", "One row down", "list.down", LIST_KEYS),
        quiet("pageup", "page(-1)", "Page up", "A page up", "list.pageup", LIST_KEYS),
        quiet("pagedown", "page(1)", "Page down", "A page down", "list.pagedown", LIST_KEYS),
        quiet("home", "end(-1)", "First", "The first row", "list.home", LIST_KEYS),
        quiet("end", "end(1)", "Last", "The last row", "list.end", LIST_KEYS),
        quiet("enter", "open", "Open", "Open the row", "list.open", LIST_KEYS),
    ]

    class Opened(Message):
        """A row was opened: Enter, a second tap, or its number; `qty` pieces of it are meant.

        `chosen` is whether a hand moved to it, or named it, since the list last came to rest.
        """

        def __init__(self, row: Row, qty: int = 1, *, chosen: bool = True) -> None:
            super().__init__()
            self.row = row
            self.qty = qty
            self.chosen = chosen

    class Pointed(Message):
        """The cursor is on another row, or on none."""

        def __init__(self, row: Row | None) -> None:
            super().__init__()
            self.row = row

    def __init__(self, *columns: Column, empty: str = "Nothing here.") -> None:
        super().__init__()
        self._lines = Lines(columns, self._look)
        self.empty = empty
        self._listed = Listed()
        self._cursor = 0
        self._moved_to = False

    # What is in it

    @property
    def rows(self) -> tuple[Row, ...]:
        """All rows, filtered out or not."""
        return self._listed.rows

    @property
    def shown(self) -> tuple[Row, ...]:
        """The rows that the filter lets through."""
        return self._listed.shown

    @property
    def row(self) -> Row | None:
        """The row under the cursor."""
        numbers = self._listed.numbers
        return self.rows[numbers[self._cursor]] if self._cursor < len(numbers) else None

    def set_rows(self, rows: Sequence[Row]) -> None:
        """Show other rows; the cursor stays on the row with the same key, or near where it was."""
        before = self.row
        self._listed.fill(rows)
        self._settle(before)

    def set_columns(self, *columns: Column) -> None:
        """Show other columns; rows that fit them come with the next `set_rows`."""
        self._lines = Lines(columns, self._look)
        self._cursor = 0
        self._listed.fill(())
        self.refresh()

    def narrow(self, words: str) -> None:
        """Show only rows that have all the words; no words show all.

        A number that is no longer than the row numbers hides none, since with Enter it opens its row; nor
        does it go there before that: it can be a count for what is in view, or the answer to a question.
        """
        words = words.casefold().strip()
        if words.isdecimal() and len(words) <= self._digits:
            words = ""
        if words != self._listed.words:
            before = self.row
            self._listed.narrow(words)
            self._settle(before if not words else None)

    def _settle(self, before: Row | None) -> None:
        """Put the cursor where it belongs after the rows in view have changed."""
        shown = len(self._listed.numbers)
        number = self._listed.number(before.key) if before is not None else None
        place = self._listed.place(number) if number is not None else None
        if place is None:
            place = min(self._cursor, max(0, shown - 1)) if before is not None else 0
        self._cursor = place
        self.virtual_size = Size(self.size.width, shown + 1)
        self._follow()
        self.refresh()
        self.post_message(self.Pointed(self.row))

    @property
    def _digits(self) -> int:
        return len(str(len(self.rows)))

    # The cursor

    def point(self, number: int) -> None:
        """Put the cursor on a row of the whole list, counted from 0, if the filter shows it."""
        place = self._listed.place(number)
        if place is not None:
            self._go(place)

    def point_at(self, key: Hashable) -> None:
        """Put the cursor on the row of a key, if it is there."""
        number = self._listed.number(key)
        if number is not None:
            self.point(number)

    def has(self, key: Hashable) -> bool:
        """Return whether a row has this key, filtered out or not."""
        return self._listed.number(key) is not None

    def numbered(self, number: int) -> Row | None:
        """Return the row that has this number on screen, counted from 1."""
        return self.rows[number - 1] if 1 <= number <= len(self.rows) else None

    def _go(self, place: int) -> None:
        place = max(0, min(place, len(self._listed.numbers) - 1))
        if place == self._cursor or not self._listed.numbers:
            return
        before, self._cursor = self._cursor, place
        if not self._follow():
            self.refresh_line(before + 1)
            self.refresh_line(place + 1)
        self.post_message(self.Pointed(self.row))

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

    @property
    def moved_to(self) -> bool:
        """Whether a hand moved to the row since the list last came to rest."""
        return self._moved_to

    def rest(self) -> None:
        """Forget that a hand moved here: the next Enter may be meant for what was said since."""
        self._moved_to = False

    def action_move(self, rows: int) -> None:
        """Move the cursor by rows."""
        self._moved_to = True
        self._go(self._cursor + rows)

    def action_page(self, pages: int) -> None:
        """Move the cursor by pages."""
        self._moved_to = True
        self._go(self._cursor + pages * max(1, self.size.height - 2))

    def action_end(self, side: int) -> None:
        """Move the cursor to the first or the last row."""
        self._moved_to = True
        self._go(0 if side < 0 else len(self._listed.numbers) - 1)

    def action_open(self) -> None:
        """Open the row under the cursor; a number typed before says how many of it."""
        if (row := self.row) is not None:
            qty = cast("ShopApp", self.app).intake.take_count()
            self.post_message(self.Opened(row, qty, chosen=self._moved_to))

    def open(self, row: Row, qty: int = 1) -> None:
        """Open a row that was named."""
        self.post_message(self.Opened(row, qty))

    def on_click(self, event: events.Click) -> None:
        """Point at a row; a tap on the row that is pointed at opens it."""
        place = event.y - 1 + round(self.scroll_y)
        if event.y < 1 or place >= len(self._listed.numbers):
            return
        self._moved_to = True
        if place == self._cursor:
            self.action_open()
        else:
            self._go(place)

    # Drawing

    def on_resize(self) -> None:
        """Keep the cursor in view when the room changes."""
        self.virtual_size = Size(self.size.width, len(self._listed.numbers) + 1)
        self._follow()

    def render_line(self, y: int) -> Strip:
        """Draw one line of what is in view."""
        width = self.scrollable_content_region.width
        base = self.rich_style
        place = y - 1 + round(self.scroll_y)
        if y == 0:
            strip = self._lines.head(width, self._digits, base)
        elif place < len(self._listed.numbers):
            number, here = self._listed.numbers[place], place == self._cursor
            strip = self._lines.row(self.rows[number], number + 1, width, self._digits, base, here=here)
        else:
            strip = Strip([Segment(self._nothing() if place == 0 else "", base)])
        return strip.adjust_cell_length(width, base)

    def _nothing(self) -> str:
        if self._listed.words:
            return f'  Nothing here matches "{inert(self._listed.words)}". Escape lets go of the words.'
        app = cast("ShopApp", self.app)
        return f"  {app.keyboard.follow(self.empty, app.current_mode)}"

    def _look(self, name: str, base: Style) -> Style:
        return base + self.get_component_rich_style(f"long-list--{name}", partial=True)
