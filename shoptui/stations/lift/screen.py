"""The lift: what can go on, what is on, and the card of the part in hand."""

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import BindingType
from textual.widget import Widget

from shoptui.domain.places import State
from shoptui.jobs.answers import Answer
from shoptui.jobs.install import ask_install
from shoptui.jobs.put_away import bin_name
from shoptui.jobs.remove import ask_remove, removal_bin
from shoptui.stations.keys import here
from shoptui.stations.lift.rows import LIFT_COLUMNS, NOT_HERE, lift_facts, lift_row
from shoptui.stations.list_and_card import ListAndCard
from shoptui.stations.listed import Row
from shoptui.stations.long_list import LongList
from shoptui.stations.station import CardStation


class Lift(CardStation):
    """The list of what the lift can do, and the card."""

    station_name = "lift"
    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+g", "install", "Install", "Install the part of the card", "lift.install"),
        here("ctrl+x", "remove", "Remove", "Remove the part of the card", "lift.remove"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._in_hand = 0
        """Id of the part last spoken of, which has a row in any case; 0: none."""
        self._pieces = 1
        self._off: bool | None = None
        """Whether the card asks to take the part in hand off; None where nothing is asked."""
        self._only_in_hand = 0
        """Id of the part that has a row for no other reason; 0: none."""

    def on_mount(self) -> None:
        """Take up the card that lay open when the program was closed."""
        self.shop_app.talk.card_again()

    def body(self) -> Iterable[Widget]:
        """A list and its card."""
        yield ListAndCard(*LIFT_COLUMNS, empty="Nothing is on the vehicle, and nothing is here to go on.")

    @property
    def part(self) -> int | None:
        """Id of the part of the card."""
        row = self.shown_list().row
        return row.key if row and isinstance(row.key, int) else None

    def heading(self) -> str:
        """Return where removed things go."""
        into = removal_bin(self.shop_app.scanning.at)
        return f"Lift: scan a part. Removed things go to {bin_name(into) if into else 'the bench'}"

    def reload(self) -> None:
        """Read what is here and what is on again."""
        at = self.shop_app.scanning.at
        build, hand = at.build, self._in_hand
        rows = list[tuple[int, Row]]()
        self._only_in_hand = 0
        for part in at.shop.parts.all():
            ours = build is None or part.build == build.id
            row = lift_row(at, part, in_hand=part.id == hand) if ours or part.id == hand else None
            if row is not None:
                rows.append(row)
                if part.id == hand and (not ours or row[0] == NOT_HERE):
                    self._only_in_hand = hand
        rows.sort(key=lambda pair: pair[0])
        self.shown_list().set_rows([row for _, row in rows])
        self._show_card()

    def on_long_list_pointed(self) -> None:
        """Show the card of the row under the cursor."""
        self._show_card()

    def _show_card(self) -> None:
        at = self.shop_app.scanning.at
        if self.part is None:
            self.both.card.show("", ())
        elif self.both.card_is_seen:
            pieces, off = (self._pieces, self._off) if self.part == self._in_hand else (1, None)
            self.both.card.show(*lift_facts(at, at.shop.parts.get(self.part), pieces, off=off))

    def on_resize(self) -> None:
        """A card that comes into view with the room is drawn."""
        self._show_card()

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Take the part in hand, as its scan does."""
        message.stop()
        app, key = self.shop_app, message.row.key
        if isinstance(key, int):
            app.talk.later(lambda: app.talk.take_scan(app.shop.parts.get(key).code))

    def show_answer(self, answer: Answer) -> None:
        """Show the card of the part that is spoken of; a card that was put down is gone."""
        if answer.part and answer.subject and answer.show == "lift":
            asked = answer.question is not None
            self._off = answer.state == State.INSTALLED if asked else None
            self._take_in_hand(answer.subject, answer.qty, opened=asked)
        elif answer.kind == "command" and self.shop_app.scanning.card is None:
            self._lay_aside()

    def visit(self, subject: int) -> None:
        """Point at a part."""
        self._off = None
        self._take_in_hand(subject, 1, opened=True)

    def _take_in_hand(self, part: int, qty: int, *, opened: bool) -> None:
        self._in_hand, self._pieces = part, max(1, qty)
        self.refresh_from_shop()
        if not self.shown_list().has(part) or self._only_in_hand not in (0, part):
            self.reread()
        self.shop_app.clear_line()
        self.shown_list().narrow("")
        self.shown_list().point_at(part)
        self.both.opened = opened
        self._show_card()

    def _lay_aside(self) -> None:
        self._in_hand, self._off = 0, None
        self.both.opened = False
        if self._only_in_hand:
            self.reread()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Grey what needs a part."""
        if action in ("install", "remove") and self.is_mounted:
            return None if self.part is None else True
        return super().check_action(action, parameters)

    def action_install(self) -> None:
        """Open the install card of the part."""
        app, part = self.shop_app, self.part
        if part is not None:
            app.talk.do(lambda: ask_install(app.scanning.at, app.shop.parts.get(part)))

    def action_remove(self) -> None:
        """Open the remove card of the part."""
        app, part = self.shop_app, self.part
        if part is not None:
            app.talk.do(lambda: ask_remove(app.scanning.at, app.shop.parts.get(part)))

    def step_back(self) -> None:
        """Lay the card aside."""
        self.shop_app.talk.put_card_down()
        self._lay_aside()
