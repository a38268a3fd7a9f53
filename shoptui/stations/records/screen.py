"""One kind of record: the list of all, the card of one with its history, and its form."""

from collections.abc import Iterable
from typing import Any, ClassVar

from textual.binding import BindingType
from textual.widget import Widget

from shoptui.domain.records import Build, Wrench
from shoptui.jobs.answers import Answer
from shoptui.jobs.edit import sense_of
from shoptui.jobs.hand_over import hand_over
from shoptui.jobs.record_forms import FORMS
from shoptui.jobs.story import story
from shoptui.stations.card import Fact
from shoptui.stations.keys import here
from shoptui.stations.labels.screen import CARRIES_ONE, look_at_label, print_thing
from shoptui.stations.list_and_card import ListAndCard
from shoptui.stations.long_list import LongList
from shoptui.stations.marks import Tone
from shoptui.stations.records.record_form import new_form, record_form
from shoptui.stations.records.rows import LISTINGS, record_rows
from shoptui.stations.station import RowCardStation

LONGEST = 200
"""Letters of a field on a card."""

_TONES = {"!": Tone.BAD, "+": Tone.GOOD}
"""First letter of a card's words to how they look."""


def wrench_card(station: str, wrench: int) -> "Records":
    """Return the card of a torque tool, which has no station of its own, over the one in front."""
    return Records(Wrench, station, wrench, card=True)


class Records(RowCardStation):
    """All records of one kind, over the station that they were opened from.

    Args:
        kind: The record's dataclass.
        station: Name of the station beneath.
        first: Id of the record that the cursor begins on, 0 for the first.
        card: Whether that one's card is what is wanted, and the way back leads past the list.

    """

    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+n", "add", "New", "Make a new one", "records.add"),
        here(
            "ctrl+g",
            "hand_over",
            "Hand over",
            "The vehicle is finished and leaves, with all that is installed on it",
            "records.hand_over",
        ),
        here("ctrl+o", "card", "Card", "Show the card with its history, or the list again", "records.card"),
        here("ctrl+k", "print", "Print", "Print its label, or those of all listed", "records.print"),
        here("ctrl+d", "look", "Label", "Show the label, to be scanned off the glass", "records.look"),
    ]

    def __init__(self, kind: type, station: str, first: int = 0, *, card: bool = False) -> None:
        super().__init__()
        self.kind = kind
        self._card = card
        self._form = FORMS[kind]
        self._first = first
        self.station_name = station  # type: ignore[misc]  # a class's own elsewhere; here the one beneath

    def body(self) -> Iterable[Widget]:
        """A list and its card."""
        yield ListAndCard(
            *LISTINGS[self.kind].columns,
            empty=f"No {self._form.many} yet. Ctrl+N makes a new {self._form.one}.",
        )

    def heading(self) -> str:
        """Return what is listed."""
        return f"{self._form.many.capitalize()}: {len(self.shown_list().rows)}. Enter changes one"

    @property
    def record(self) -> Any:  # noqa: ANN401 - any record that has a form
        """The record under the cursor, None if there is none."""
        row = self.shown_list().row
        return (
            self.shop_app.shop.shelves[self.kind].get(row.key) if row and isinstance(row.key, int) else None
        )

    def reload(self) -> None:
        """Read the records again."""
        self.shown_list().set_rows(list(record_rows(self.shop_app.shop, self.kind)))
        if self._first:
            self.shown_list().point_at(self._first)
            self._first = 0
            self.both.opened = self._card
        self.show_card()

    def row_card(self) -> tuple[str, tuple[Fact, ...]] | None:
        """Return the card of the record under the cursor."""
        record = self.record
        return None if record is None else (self._form.called(record), tuple(self._facts(record)))

    def _facts(self, record: Any) -> Iterable[Fact]:  # noqa: ANN401 - any record that has a form
        shop = self.shop_app.shop
        if self._form.card is not None:
            yield from (
                Fact(label, words, _TONES.get(words[:1], Tone.PLAIN))
                for label, words in self._form.card(shop, record)
            )
        else:
            yield from self._fields(record)
        yield Fact()
        yield Fact("What happened")
        for sentence in reversed(story(shop, record)):
            yield Fact("", sentence)

    def _fields(self, record: Any) -> Iterable[Fact]:  # noqa: ANN401 - likewise
        sense = sense_of(self.shop_app.shop, record)
        for asked in self._form.asked_of(record):
            text = asked.write(sense, getattr(record, asked.name))
            if text:
                yield Fact(asked.label.lower(), asked.shown(text, LONGEST))

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Open the form of the record."""
        message.stop()
        self.shown_list().point_at(message.row.key)
        app, record = self.shop_app, self.record
        if record is not None:
            app.push_screen(record_form(app.scanning.at, record))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Only a vehicle is handed over; not all records carry a label."""
        if action == "hand_over":
            return self.kind is Build and (None if self.is_mounted and self.record is None else True)
        if action in ("print", "look"):
            return self.kind in CARRIES_ONE and (None if self.is_mounted and self.record is None else True)
        return super().check_action(action, parameters)

    def action_print(self) -> None:
        """Print the label of the record under the cursor, or of those listed."""
        if (record := self.record) is not None:
            shelf = self.shop_app.shop.shelves[self.kind]
            print_thing(self, record, [shelf.get(key) for key in self.ids])

    def action_look(self) -> None:
        """Show the label of the record under the cursor."""
        if (record := self.record) is not None:
            look_at_label(self, record)

    def action_hand_over(self) -> None:
        """Ask whether the vehicle under the cursor is handed over, and say what is open on it."""
        app, record = self.shop_app, self.record
        if record is not None:
            app.talk.do(lambda: hand_over(app.scanning.at, record))

    def action_add(self) -> None:
        """Open the form of a new one."""
        self.shop_app.push_screen(new_form(self.shop_app.scanning.at, self.kind))

    def action_card(self) -> None:
        """Show the card of the row under the cursor, or the list again."""
        self.both.opened = not self.both.opened
        self.show_card()

    def show_answer(self, answer: Answer) -> None:
        """A record that was just changed or made is pointed at."""
        if answer.kind == self._form.one and answer.subject:
            self.refresh_from_shop()
            self.shown_list().point_at(answer.subject)
            self.show_card()

    def step_back(self) -> None:
        """From the card to the list, from the list to the station beneath."""
        if self.both.opened and not self._card:
            self.both.opened = False
        else:
            self.shop_app.clear_line()
            self.dismiss()
