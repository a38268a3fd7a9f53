"""A row of things to tap, each with the key that does the same."""

from collections.abc import Sequence
from dataclasses import dataclass

from rich.cells import cell_len
from textual import events
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget


@dataclass(frozen=True, slots=True)
class Tap:
    """One thing to tap.

    Args:
        action: What it does, as an action of the application or the screen.
        key: The key that does the same, in words.
        label: In words.
        here: Whether it is the one in front.
        able: Whether it can be done now.

    """

    action: str
    key: str
    label: str
    here: bool = False
    able: bool = True


class TapBar(Widget):
    """Draws the row and says what was tapped.

    Args:
        last: So many at the end are shown in any case; others before them give way where there is no room.
        id: The widget's.

    """

    DEFAULT_CSS = """
    TapBar {
        height: 1;
        background: $panel;
        color: $foreground;
    }
    """

    taps: reactive[tuple[Tap, ...]] = reactive(())

    class Tapped(Message):
        """A thing was tapped."""

        def __init__(self, tap: Tap) -> None:
            super().__init__()
            self.tap = tap

    def __init__(self, *, last: int = 0, id: str) -> None:  # noqa: A002 - so the framework calls it
        super().__init__(id=id)
        self._last = last

    @property
    def shown(self) -> tuple[Tap, ...]:
        """What there is room for."""
        return fitting(self.taps, self.size.width, self._last)

    def render(self) -> Content:
        """Draw the row."""
        parts: list[Content | tuple[str, str]] = []
        for tap in self.shown:
            if tap.here:
                parts.append((f"{tap.key} {tap.label}", "bold reverse"))
            elif tap.able:
                parts.extend(((tap.key, "bold $text-accent"), Content(f" {tap.label}")))
            else:
                parts.append((f"{tap.key} {tap.label}", "dim"))
            parts.append(Content(" "))
        return Content.assemble(*parts)

    def on_click(self, event: events.Click) -> None:
        """Find what was tapped."""
        tap = tapped(self.shown, event.x)
        if tap is not None and tap.able:
            self.post_message(self.Tapped(tap))


def fitting(taps: Sequence[Tap], width: int, last: int) -> tuple[Tap, ...]:
    """Return the things that fit into a row; the last ones stay, those before them go from the end on.

    >>> taps = (Tap("a", "^O", "Order"), Tap("b", "^T", "Send out"), Tap("c", "^P", "More"))
    >>> [tap.label for tap in fitting(taps, 20, last=1)]
    ['Order', 'More']
    """
    ends = tuple(taps[len(taps) - last :])
    room = width + 1 - sum(map(_cells, ends))  # the blank after the last one may be cut
    shown = []
    for tap in taps[: len(taps) - last]:
        room -= _cells(tap)
        if room < 0:
            break
        shown.append(tap)
    return (*shown, *ends)


def _cells(tap: Tap) -> int:
    return cell_len(tap.key) + cell_len(tap.label) + 2


def tapped(taps: Sequence[Tap], x: int) -> Tap | None:
    """Return the thing that is drawn at a cell of the row.

    >>> taps = (Tap("a", "F2", "Today"), Tap("b", "F3", "Receiving"))
    >>> tapped(taps, 8).label, tapped(taps, 9).label, tapped(taps, 40)
    ('Today', 'Receiving', None)
    """
    start = 0
    for tap in taps:
        start += _cells(tap)
        if x < start:
            return tap
    return None
