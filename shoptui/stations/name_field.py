"""A field for a name that the shop may know: what matches is listed, and leaving takes the only one."""

from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from shoptui.domain.inert import inert
from shoptui.stations.known_names import KnownNames
from shoptui.stations.marks import CURSOR
from shoptui.stations.typing_field import TypingField

MOST_SHOWN = 5
NAME_KEYS = Binding.Group("Names")
BETWEEN = ";"
"""Stands between several names in one field."""


class Offered(Widget):
    """The names that match, numbered; a tap takes one."""

    DEFAULT_CSS = """
    Offered {
        /* It lies over the fields below: if they moved away, a tap on one of them would miss it. */
        overlay: screen;
        constrain: none inflect;
        height: auto;
        display: none;
        margin: 0 0 0 22;
        background: $panel;
        color: $foreground;
        &.-open { display: block; }
    }
    """

    names: reactive[tuple[str, ...]] = reactive((), layout=True)
    words: reactive[str] = reactive("", layout=True)
    """What is said instead of names, or beside the only one."""
    cursor: reactive[int] = reactive(-1)

    class Taken(Message):
        """A name was tapped."""

        def __init__(self, offered: "Offered", name: str) -> None:
            super().__init__()
            self.offered = offered
            self.name = name

    @property
    def _top(self) -> int:
        return max(0, self.cursor - MOST_SHOWN + 1)

    def render(self) -> Content:
        """Draw the names in view."""
        lines = []
        for place, name in list(enumerate(self.names))[self._top : self._top + MOST_SHOWN]:
            here = place == self.cursor
            mark = f"{CURSOR if here else ' '} {place + 1 if place < 9 else '':>1} "  # noqa: PLR2004 - one digit
            lines.append(Content.assemble((mark, "bold"), (inert(name, limit=200), "bold" if here else "")))
        more = len(self.names) - self._top - MOST_SHOWN
        words = f"({more} more)" if more > 0 else self.words
        if words:
            text = Content.styled(inert(words, limit=200), "dim")
            lines = [*lines[:-1], lines[-1] + Content("  ") + text] if lines else [text]
        return Content("\n").join(line.truncate(max(1, self.size.width), ellipsis=True) for line in lines)

    def on_click(self, event: events.Click) -> None:
        """Take the name that was tapped."""
        event.stop()
        place = event.y + self._top
        if 0 <= place < len(self.names):
            self.post_message(self.Taken(self, self.names[place]))


class NameInput(TypingField):
    """The field. Arrows go through the fields of the form; once something is typed, through the names listed.

    Args:
        known: The names that are known.
        text: What stands in it at first.
        hint: Shown while it is empty.
        name: Name of the field's value.
        closed: Whether only known names can be meant: several then stand behind one another with semicolons
            between, and what is listed is for the last one.
        one_value: Whether one name can stand in it, which the first key replaces.

    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "pick(-1)", "Up", show=False, tooltip="One up", id="name.up", group=NAME_KEYS),
        Binding("down", "pick(1)", "Down", show=False, tooltip="One down", id="name.down", group=NAME_KEYS),
    ]

    def __init__(
        self,
        known: KnownNames,
        text: str,
        hint: str,
        name: str,
        *,
        closed: bool = False,
        one_value: bool = False,
    ) -> None:
        super().__init__(text, hint, name, one_value=one_value)
        self.known = known
        self.closed = closed
        self.offered = Offered()
        self._stood = text
        """What stood in it when the cursor came."""
        self._put_away: str | None = None
        """The text for which the list was closed: it stays so until another is typed."""
        self._meant = ""
        """What was typed again after another name had been taken for it: it is meant as it stands."""
        self._taken_for = ""

    @property
    def asked(self) -> str:
        """The name that is being typed: the last one."""
        return self._parted[1].strip()

    @property
    def _parted(self) -> tuple[str, str]:
        """What stands before the name that is being typed, and that name."""
        if not self.closed or BETWEEN not in self.value:
            return "", self.value
        before, mark, last = self.value.rpartition(BETWEEN)
        return f"{before}{mark} ", last

    def offer(self, *, everything: bool = False) -> None:
        """List what matches what stands in the field now, or everything that can stand there instead."""
        text = "" if everything else self.asked
        names = self._fitting(text)
        words = ""
        if not names and text and not self.known.exact(text):
            words = "Not known here." if self.closed else "Not known here. Saving asks whether it is new."
        elif len(names) == 1 and text and not self.is_meant:
            words = "(Tab takes it)"
        self.offered.cursor = -1
        self.offered.names, self.offered.words = names, words
        shows = self.has_focus and self.value != self._put_away
        self.offered.set_class(shows and bool(names or words), "-open")

    def _fitting(self, text: str) -> tuple[str, ...]:
        """Return what a text may mean; where all that can be meant are few, also what it could be instead."""
        names, known = self.known.names, self.known
        if not self.closed or len(names) > MOST_SHOWN:
            return () if known.exact(text) else known.matches(text)
        if known.exact(text):
            return names
        # What stood there is whole: letters or a number behind it mean another one instead.
        begun = next((name for name in names if text.casefold().startswith(name.casefold())), "")
        more = text[len(begun) :].strip()
        if begun and more.isascii() and more.isdecimal():
            return names[int(more) - 1 : int(more)] if int(more) else ()
        return known.matches(more)

    @property
    def is_meant(self) -> bool:
        """Whether the text is known, or was typed again after another name was taken for it."""
        text = self.asked
        return self.known.exact(text) is not None or (bool(text) and text == self._meant)

    def on_focus(self) -> None:
        """Remember what stands there."""
        self._stood = self.value
        self._put_away = None

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Leave the arrows to the form until something is typed that names are listed for."""
        if action == "pick" and (self.value == self._stood or not self.offered.names):
            return False
        return super().check_action(action, parameters)

    def action_pick(self, rows: int) -> None:
        """Move among the names that are listed."""
        last = len(self.offered.names) - 1
        self.offered.cursor = max(0, min(self.offered.cursor + rows, last))

    def put_away(self) -> bool:
        """Close the list of names, and let another name that was begun be what stood there.

        Returns:
            Whether names were listed for something that was typed.

        """
        offers = self.offered.has_class("-open") and self.offered.names
        if not offers or self.value == self._stood:
            return False
        if self.closed and not self.is_meant and self.known.exact(self._stood):
            self.value = self._stood
            self.cursor_position = len(self.value)
        self.offered.cursor = -1
        self.offered.remove_class("-open")
        self._put_away = self.value
        return True

    def take(self, name: str) -> None:
        """Put a name that was picked into the field."""
        self.value = f"{self._parted[0]}{name}"
        self.cursor_position = len(self.value)
        self.offered.cursor = -1

    def settle(self) -> str | None:
        """Take the name that was moved to, or the only one that matches; return it if that is a guess."""
        text, offered = self.asked, self.offered
        if 0 <= offered.cursor < len(offered.names):
            self.take(offered.names[offered.cursor])
            return None
        if text and text == self._taken_for:
            self._meant = text
        exact = self.known.exact(text) if text else None
        found = (exact,) if exact else self._fitting(text) if text and not self.is_meant else ()
        if len(found) != 1 or found[0] == text:
            return None
        self._taken_for = text
        self.take(found[0])
        return None if exact else found[0]

    def mean(self) -> None:
        """Let the text stand as it is: it makes a new name."""
        self._meant = self.asked
