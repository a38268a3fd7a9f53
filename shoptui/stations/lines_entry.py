"""The field of a form that holds a list: it says what is in it, and Enter or a tap opens the list."""

from collections.abc import Callable, Mapping
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from shoptui.domain.inert import inert
from shoptui.domain.row_text import rows_in


class LinesEntry(Widget, can_focus=True):
    """The field.

    Args:
        value: The lines, as `row_text` writes them.
        one: What one line is called.
        words: Says one line.
        name: Name of the field's value.

    """

    DEFAULT_CSS = """
    LinesEntry {
        width: 1fr;
        height: 1;
        background: $surface;
        color: $foreground;
        &:focus { background: $panel; text-style: bold; }
        &:ansi:focus { text-style: reverse; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("enter", "open", "Open", show=False)]

    value: reactive[str] = reactive("")

    class Opened(Message):
        """The list is to be opened."""

        def __init__(self, entry: "LinesEntry") -> None:
            super().__init__()
            self.entry = entry

    class Changed(Message):
        """The list is another one."""

    def __init__(self, value: str, one: str, words: Callable[[Mapping[str, str]], str], name: str) -> None:
        super().__init__(id=f"field-{name}")
        self.set_reactive(LinesEntry.value, value)
        self._one = one
        self._words = words

    def render(self) -> Content:
        """Say how many lines there are, and as many of them as have room."""
        lines = rows_in(self.value)
        many = f"{len(lines)} {self._one}{'s' * (len(lines) != 1)}" if lines else f"no {self._one} yet"
        told = "; ".join(self._words(line) for line in lines)
        text = inert(f"{many} (Enter): {told}" if told else f"{many} (Enter adds one)", limit=400)
        return Content(text).truncate(max(1, self.size.width), ellipsis=True)

    def watch_value(self) -> None:
        """Tell the form."""
        if self.is_mounted:
            self.post_message(self.Changed())

    def action_open(self) -> None:
        """Open the list."""
        self.post_message(self.Opened(self))

    def on_click(self, event: events.Click) -> None:
        """A tap opens the list."""
        event.stop()
        self.focus()
        self.action_open()
