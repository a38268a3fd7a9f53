"""The line at the foot of every screen: scanner, keyboard and search in one.

It never has the focus: whatever is typed outside a form's field is put in by the application, so no letter,
no blank and no scan can press a button or land in a list.
"""

from rich.cells import cell_len
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from shoptui.domain.inert import inert
from shoptui.stations.typed import Typed

HINT = "Scan, or type words, a number, a tag's letters. ?, Enter: help. Tap: digits"


class Line(Widget):
    """Shows what was typed and where the next letter goes."""

    DEFAULT_CSS = """
    Line {
        height: 1;
        background: $surface;
        color: $foreground;
    }
    """

    typed: reactive[Typed] = reactive(Typed())
    reading: reactive[bool] = reactive(default=False)
    """Whether a scan is coming in at this moment."""

    class Tapped(Message):
        """Somebody would type with a finger."""

    def on_click(self) -> None:
        """Ask for something to tap."""
        self.post_message(self.Tapped())

    def render(self) -> Content:
        """Draw the line; long words show their end, where the typing goes on."""
        if self.reading:
            return Content.assemble(("> ", "bold"), "reading a scan ...")
        text, at = self.typed.text, self.typed.at
        if not text:
            return Content.assemble(("> ", "bold"), (" ", "reverse"), " ", (HINT, "dim"))
        head, here, tail = _safe(text[:at]), _safe(text[at : at + 1]) or " ", _safe(text[at + 1 :])
        room = max(4, self.size.width - 4)
        while cell_len(head) > room:
            head = head[1:]
        return Content.assemble(("> ", "bold"), head, (here, "reverse"), tail)


def _safe(text: str) -> str:
    return inert(text, limit=len(text) * 2 + 1) if text else ""
