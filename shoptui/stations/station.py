"""A station: a screen with a list that the line narrows, read again when the shop changes."""

from collections.abc import Callable
from typing import TYPE_CHECKING, ClassVar

from textual import events

from shoptui.domain.recognise import read
from shoptui.jobs.answers import Answer
from shoptui.jobs.matching import taken_for
from shoptui.stations.card import Fact
from shoptui.stations.list_and_card import ListAndCard
from shoptui.stations.listed import Row
from shoptui.stations.long_list import LongList
from shoptui.stations.shell import Shell
from shoptui.stations.station_list import BY_NAME, Station

if TYPE_CHECKING:
    from textual.timer import Timer

NARROW_AFTER = 0.1
"""Seconds after the last letter before the list narrows: a scan without a prefix is over by then."""

COUNT_DIGITS = 3
"""Most digits of a count typed before a scan, and of a row's number."""


def is_number(text: str) -> bool:
    """Return whether a line is a count or a row's number.

    >>> is_number("12"), is_number("0"), is_number("9521234543213")
    (True, False, False)
    """
    return text.isascii() and text.isdecimal() and len(text) <= COUNT_DIGITS and int(text) > 0


def is_no_count(text: str) -> bool:
    """Return whether a line was meant as a number of pieces or of a row, and can be none.

    >>> is_no_count("-4"), is_no_count("0"), is_no_count("M8-4")
    (True, True, False)
    """
    bare = text.strip()
    return bare.lstrip("+-").isdecimal() and (bare[0] in "+-" or not int(bare))


class StationScreen(Shell[None]):
    """One station."""

    station_name: ClassVar[str] = ""

    def __init__(self) -> None:
        super().__init__()
        self._seen = -1
        self._narrowing: Timer | None = None
        self._awaited: Callable[[], None] | None = None

    @property
    def station(self) -> Station:
        """Which station this is."""
        return BY_NAME[self.station_name]

    def heading(self) -> str:
        """Return the station's name."""
        return self.station.title

    def shown_list(self) -> LongList | None:
        """Return the list that the line narrows and row numbers belong to."""
        return None

    def reload(self) -> None:
        """Read from the shop again; `refresh_from_shop` calls it when the screen can be seen."""

    def on_screen_resume(self) -> None:
        """Show what is true now."""
        self.refresh_from_shop()
        self._narrow()
        awaited, self._awaited = self._awaited, None
        if awaited is not None:
            awaited()
        if self.focused is None and (shown := self.shown_list()) is not None:
            self.set_focus(shown, scroll_visible=False)

    def refresh_from_shop(self) -> None:
        """Read again if anything changed since the screen was last in front."""
        version = self.shop_app.others.version
        if self._seen != version and self.is_mounted:
            self._seen = version
            self.reload()
        self.show_heading()

    def reread(self) -> None:
        """Read again although the shop did not change: something else is looked at."""
        self._seen = -1
        self.refresh_from_shop()

    def typed_changed(self, text: str) -> None:
        """Narrow the list a tenth of a second after the last letter."""
        if self._narrowing is not None:
            self._narrowing.stop()
        if text:
            self._narrowing = self.set_timer(NARROW_AFTER, self._narrow)
        else:
            self._narrow()

    def _narrow(self) -> None:
        if (shown := self.shown_list()) is None:
            return
        # What is typed at a question is its answer: the card that is asked about stays in view.
        text = "" if self.shop_app.asking.open_question is not None else self.shop_app.typed.text
        shown.narrow(text)
        if text and not is_number(text):
            # On a narrow screen the card hides the list that is being searched.
            for both in self.query(ListAndCard):
                both.opened = False

    def take_key(self, event: events.Key) -> bool:  # noqa: ARG002 - a station may wait for a key
        """Take a key before the scanner, the line and what has the focus; return whether it was taken."""
        return False

    def when_ready(self, show: Callable[[], None]) -> None:
        """Show something now, or as soon as the screen has come to the front for the first time."""
        if self.is_mounted:
            show()
        else:
            self._awaited = show

    def after_the_words(self, show: Callable[[], None]) -> None:
        """Show something once the words of an answer stand: nobody should wait for the list to read them."""
        if self.is_mounted and self.is_current:
            self.call_after_refresh(show)
        else:
            self.when_ready(show)

    def visit(self, subject: int) -> None:
        """Bring a record into view that another station points at."""

    def show_answer(self, answer: Answer) -> None:
        """Bring what an answer is about into view."""

    def take_line(self, text: str, count: int = 1) -> bool:
        """Take a typed line if it belongs to the list: a row's number, or words that are no code.

        Returns whether a row was opened; what is not taken is a scan. `count` pieces are meant by it.
        """
        shown = self.shown_list()
        if shown is None:
            return False
        if is_number(text):
            row = shown.numbered(int(text))
        elif self._is_code(text):
            return False
        else:
            shown.narrow(text)
            row = shown.row
        shown.narrow(self.shop_app.typed.text)
        if row is None:
            return False
        shown.point_at(row.key)
        self.open_row(row, count, by_number=is_number(text))
        return True

    def open_row(self, row: Row, qty: int, *, by_number: bool) -> None:  # noqa: ARG002 - stations tell apart
        """Open a row that was typed, by its number or by words that it is the first to match."""
        shown = self.shown_list()
        if shown is not None:
            shown.open(row, qty)

    def _is_code(self, text: str) -> bool:
        """Return whether a typed line stands for something; positions are words except at the lift."""
        kind = taken_for(self.shop_app.scanning.at, text)
        if kind == "position":
            return self.station_name == "lift"
        return kind not in ("words", "number") or read(text).checked


class CardStation(StationScreen):
    """A station with a list and the card of its row."""

    @property
    def both(self) -> ListAndCard:
        """The list and the card."""
        return self.query_one(ListAndCard)

    def shown_list(self) -> LongList:
        """Return the list."""
        return self.both.list

    @property
    def ids(self) -> list[int]:
        """Ids of the records on the list, as it is narrowed."""
        return [row.key for row in self.shown_list().shown if isinstance(row.key, int)]


class RowCardStation(CardStation):
    """A station whose card follows the row under the cursor."""

    def row_card(self) -> tuple[str, tuple[Fact, ...]] | None:
        """Return title and lines of the card of the row, None where the list is empty."""
        raise NotImplementedError

    def show_card(self) -> None:
        """Show the card of the row; it is made only where it can be seen."""
        if self.shown_list().row is None:
            self.both.card.show("", ())
        elif self.both.card_is_seen:
            self.both.card.show(*(self.row_card() or ("", ())))

    def on_long_list_pointed(self) -> None:
        """Show the card of the row under the cursor."""
        self.show_card()

    def on_resize(self) -> None:
        """A card that comes into view with the room is drawn."""
        self.show_card()
