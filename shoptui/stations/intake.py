"""Where keys go: to the scanner, to the line, or on to whatever has the focus.

It sits before the framework's own forwarding, so a key that belongs to a scan presses no button, triggers no
binding and lands in no field, whatever has the focus.
"""

from functools import partial
from typing import TYPE_CHECKING

from textual import events
from textual.message import Message
from textual.widgets import Input, TextArea

from shoptui.domain.recognise import read
from shoptui.jobs.answers import Answer, stop
from shoptui.stations.form_fields import FormFields
from shoptui.stations.key_names import key_words
from shoptui.stations.question import QuestionPanel
from shoptui.stations.scanner import Decoder, Incomplete, Scan
from shoptui.stations.setup.scanner_page import ScannerPage
from shoptui.stations.shell import Shell
from shoptui.stations.station import StationScreen, is_number
from shoptui.stations.typed import Typed
from shoptui.stations.typing_field import TypingField

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp


UNCHECKED = (
    "A scan went into the field: without {} before it, only codes with a check digit are told from typing. "
    "Nothing was done with it."
)
"""Its Enter is not passed on, since it would press whatever Enter presses there."""


def is_checked(text: str) -> bool:
    """Return whether a text is a code that passes its own check, which typing hardly ever does."""
    return read(text).checked


class Intake:
    """Takes keys before anything else sees them."""

    def __init__(self, app: "ShopApp") -> None:
        settings = app.shop.settings
        self._app = app
        self._focused: object = None
        self._typed_beside: Answer | None = None
        """The question that was open when a letter last went to a form's field."""
        self.decoder = Decoder(
            is_checked, prefix=settings.scanner_prefix, twice_seconds=settings.twice_seconds
        )

    def settings_changed(self) -> None:
        """Tell scans by what is set now."""
        settings = self._app.shop.settings
        self.decoder.prefix, self.decoder.twice_seconds = settings.scanner_prefix, settings.twice_seconds

    def key(self, event: events.Key) -> bool:
        """Take a key; return whether it was taken."""
        screen = self._app.screen
        if isinstance(screen, ScannerPage | StationScreen) and screen.take_key(event):
            return True
        if isinstance(screen, ScannerPage):
            return False
        self._notice_focus()
        decision = self.decoder.key(event.key, event.character, event.time)
        for happened in decision.events:
            self._happened(happened)
        if not self.decoder.capturing:
            self._app.reading = False
        if decision.unchecked and self._app.in_field is not None:
            self._app.jobs.later(
                partial(stop, UNCHECKED.format(key_words(self.decoder.prefix)), kind="unknown")
            )
            return True
        return decision.taken or self._for_the_line(event)

    def paste(self, event: events.Paste) -> bool:
        """Take a paste; return whether it was taken."""
        app = self._app
        decision = self.decoder.paste(event.text, event.time)
        for happened in decision.events:
            self._happened(happened)
        if decision.taken:
            return True
        if app.in_field is not None or not isinstance(app.screen, Shell):
            return False
        line, *_ = [*event.text.splitlines(), ""]
        app.typed = app.typed.insert(line)
        return True

    def look(self) -> None:
        """Give up a scan that stands still, and show one that takes its time.

        Most are over before anybody could read that they are read: drawing it would only hold up the answer.
        """
        now = Message().time  # by the clock of the keys, which is not the same one on every system
        for happened in self.decoder.tick(now):
            self._happened(happened)
        self._app.reading = self.decoder.capturing

    def _notice_focus(self) -> None:
        """A scan's letters lie in one field: what was typed into another is none of its tail."""
        focused = self._app.in_field
        if focused is not self._focused:
            self._focused = focused
            self.decoder.forget_typing()

    def _happened(self, happened: Scan | Incomplete) -> None:
        app = self._app
        if isinstance(happened, Incomplete):
            app.jobs.later(partial(stop, happened.words, kind="unknown"))
            return
        if happened.take_back:
            self._take_back(happened.take_back)
        screen = app.screen
        if isinstance(screen, FormFields) and screen.take_scan(happened.text, twice=happened.twice):
            return
        if app.typed.text and not is_number(app.typed.text):
            # Somebody has begun to look for something else: the scan does not carry on what was offered.
            app.jobs.later(app.asking.withdraw_offer)
        count = self.take_count()
        app.jobs.later(partial(app.talk.take_scan, happened.text, count, twice=happened.twice))

    def _take_back(self, letters: int) -> None:
        """Take a scan's letters out of the field, or the line, that they were passed on to."""
        app = self._app
        field = app.in_field
        if field is None:
            app.typed = app.typed.take_back(letters)
        else:
            # The field may not have seen its last letters yet: this goes through the same queue.
            field.call_later(_take_out, field, letters)

    def take_count(self) -> int:
        """Return the pieces that a scan or a key means: a number typed before it is its count."""
        app = self._app
        text = app.typed.text
        if is_number(text):
            app.typed = Typed()
            return int(text)
        return app.talk.take_count()

    def _for_the_line(self, event: events.Key) -> bool:
        """Put a letter into the line, or hand the line over; also beneath a page without fields."""
        app = self._app
        if app.in_field is not None:
            return self._beside_a_field(event)
        if event.is_printable and event.character:
            app.typed = app.typed.insert(event.character)
            return True
        text = app.typed.text
        if event.key in ("enter", "ctrl+j"):
            return self._enter(text, event.time)
        if text and (after := app.typed.key(event.key)) is not None:
            app.typed = after
            self.decoder.forget_typing()
            return True
        if event.key in ("up", "down") and (panel := self._question()) is not None and not text:
            panel.action_move(-1 if event.key == "up" else 1)
            return True
        return False

    def _beside_a_field(self, event: events.Key) -> bool:
        """Enter answers a question also while a field has the focus, unless something was typed meanwhile.

        What was typed may be a scan without prefix, whose Enter must not say yes to anything.
        """
        asked = self._app.asking.open_question
        if event.key in ("enter", "ctrl+j"):
            return asked is not self._typed_beside and self._agree()
        if event.is_printable:
            self._typed_beside = asked
        return False

    def _enter(self, text: str, time: float) -> bool:
        """Enter: the line's words, else the open question's answer, else the list's."""
        app = self._app
        if text:
            app.typed = Typed()
            twice = not is_number(text) and self.decoder.is_twice(text, time)
            app.jobs.later(partial(app.talk.take_line, text, twice=twice))
            return True
        return self._agree() or self._question() is not None

    def _question(self) -> QuestionPanel | None:
        """The ways to answer the open question, if one can be seen."""
        screen = self._app.screen
        if self._app.asking.open_question is None or not isinstance(screen, Shell):
            return None
        return screen.query_one(QuestionPanel)

    def _agree(self) -> bool:
        """Answer the open question with the row that was moved to, else yes; return whether there is one."""
        panel = self._question()
        reply = panel.default() if panel is not None else None
        if reply is not None:
            self._app.talk.reply(reply)
        return reply is not None


def _take_out(field: Input | TextArea, letters: int) -> None:
    if isinstance(field, TypingField):
        field.take_out(letters)
    elif isinstance(field, TextArea):
        row, column = field.cursor_location
        field.delete((row, max(0, column - letters)), (row, column))
