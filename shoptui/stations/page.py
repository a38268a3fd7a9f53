"""A page that lies over a screen to be read, and goes away again."""

from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.screen import ModalScreen

BESIDE = 4
"""Cells at the right where a tap means the scroll bar, also if it misses that a little."""


class Page(ModalScreen[None]):
    """Holds one thing that scrolls; Escape, Enter or a tap goes back."""

    DEFAULT_CSS = """
    Page {
        align: center top;
        & > VerticalScroll {
            width: 100%;
            height: 1fr;
            margin-bottom: 2;
            border: round $border;
            border-title-color: $foreground;
            background: $surface;
            padding: 0 1;
        }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,enter", "dismiss", "Back", tooltip="Close this page", id="page.back"),
    ]
    BACK_WORDS: ClassVar[str] = "Escape or a tap goes back"

    def on_click(self, event: events.Click) -> None:
        """Go back, unless somebody scrolls."""
        if event.screen_x < self.size.width - BESIDE:
            self.dismiss()
