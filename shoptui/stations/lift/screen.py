"""The lift: what can go on, what is on, and the card of the part in hand."""

from collections.abc import Callable, Iterable
from typing import ClassVar

from textual.binding import BindingType
from textual.widget import Widget

from shoptui.jobs.answers import Answer, Said, stop
from shoptui.jobs.joint_question import CARD
from shoptui.jobs.lift_card import ask_card
from shoptui.jobs.remove import goes_to
from shoptui.jobs.stated import begins_figures
from shoptui.stations.card import Fact
from shoptui.stations.keys import here
from shoptui.stations.lift.rows import LIFT_COLUMNS, NOT_HERE, lift_facts, lift_row
from shoptui.stations.list_and_card import ListAndCard
from shoptui.stations.listed import Row
from shoptui.stations.long_list import LongList
from shoptui.stations.parts.deeds import what_next
from shoptui.stations.station import RowCardStation

WHICH_ROW = "Which one? Scan it, or move to its row, or type the row's number; then Enter."


class Lift(RowCardStation):
    """The list of what the lift can do, and the card."""

    station_name = "lift"
    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+g", "turn('install')", "Install", "Install the part of the card", "lift.install"),
        here("ctrl+l", "turn('tighten')", "Tighten", "The joints of the part of the card", "lift.tighten"),
        here("ctrl+x", "turn('remove')", "Remove", "Remove it, take it down or apart", "lift.remove"),
        here("ctrl+t", "turn('mock up')", "Mock up", "Put the part on for trial", "lift.mock_up"),
        here("ctrl+o", "turn('assemble')", "Assemble", "Build it into another part", "lift.assemble"),
        here("ctrl+k", "next", "Other", "Strip, return to stock, core, gone", "lift.next"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._in_hand = 0
        """Id of the part last spoken of, which has a row in any case; 0: none."""
        self._pieces = 1
        self._verb = ""
        """What the card asks of the part in hand; empty where nothing is asked."""
        self._asked = ("", "")
        """Name and position of the joint that it asks about; empty where it asks about none."""
        self._only_in_hand = 0
        """Id of the part that has a row for no other reason; 0: none."""

    def on_mount(self) -> None:
        """Take up the card that lay open when the program was closed."""
        self.shop_app.talk.card_again()

    def on_screen_resume(self) -> None:
        """No row is meant before a hand moved to it."""
        self.shown_list().rest()

    def body(self) -> Iterable[Widget]:
        """A list and its card."""
        yield ListAndCard(*LIFT_COLUMNS, empty="Nothing is on the vehicle, and nothing is here to go on.")

    def _narrow(self) -> None:
        """Keep a card of joints in view while figures are typed: those are its readings."""
        if not (self.shop_app.scanning.card_of_joints and begins_figures(self.shop_app.typed.text)):
            super()._narrow()

    def take_line(self, text: str, count: int = 1) -> bool:
        """Take no figures for a row's number while a card of joints lies open."""
        figures = self.shop_app.scanning.card_of_joints and begins_figures(text)
        return not figures and super().take_line(text, count)

    @property
    def part(self) -> int | None:
        """Id of the part of the card: while something is asked of the part in hand, it stays that one."""
        if self._in_hand and self.shop_app.asking.open_question is not None:
            return self._in_hand
        row = self.shown_list().row
        return row.key if row and isinstance(row.key, int) else None

    def heading(self) -> str:
        """Return where removed things go."""
        at = self.shop_app.scanning.at
        turned = f"{at.turned_to}: " if at.turned_to else ""
        return f"Lift: {turned}scan a part. Removed things go to {goes_to(at)}"

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
        self.show_card()

    def row_card(self) -> tuple[str, tuple[Fact, ...]] | None:
        """Return the card of the part under the cursor; of the one in hand, as it was turned."""
        if self.part is None:
            return None
        at = self.shop_app.scanning.at
        part = at.shop.parts.get(self.part)
        if self.part != self._in_hand:
            return lift_facts(at, part)
        return lift_facts(at, part, self._pieces, self._verb, self._asked)

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Take the part in hand, as its scan does; two Enters too many must put nothing on the vehicle."""
        message.stop()
        app, key = self.shop_app, message.row.key
        if not message.chosen:
            app.jobs.later(lambda: stop(WHICH_ROW))
        elif isinstance(key, int):
            app.jobs.later(lambda: app.talk.take_scan(app.shop.parts.get(key).code, message.qty))

    def after_the_words(self, show: Callable[[], None]) -> None:
        """Show it at once: the card is what hands wait for, and it is made as fast as the words."""
        self.when_ready(show)

    def show_answer(self, answer: Answer) -> None:
        """Show the card of the part that is spoken of; a card that was put down is gone."""
        moved = self.shown_list().moved_to
        self.shown_list().rest()
        spoken_of = self.shop_app.shop.parts.by_code(answer.part) if answer.part else None
        if spoken_of is not None and spoken_of.id == answer.subject and answer.said is not Said.STOP:
            asked = answer.question is not None
            self._verb, self._asked = answer.card, (answer.joint, answer.where)
            self._take_in_hand(answer.subject, answer.qty, opened=asked)
        elif answer.kind == "command" and self.shop_app.scanning.card.part is None:
            self._lay_aside()
        elif not moved and self._in_hand and self.shop_app.scanning.card.part == self._in_hand:
            # Words that were no answer had narrowed the list: the keys still mean the part in hand.
            self.shown_list().point_at(self._in_hand)

    def visit(self, subject: int) -> None:
        """Point at a part."""
        self._verb = ""
        self._take_in_hand(subject, 1, opened=True)

    def _take_in_hand(self, part: int, qty: int, *, opened: bool) -> None:
        self._in_hand, self._pieces = part, max(1, qty)
        # The list is read again when there is time: nobody should wait for it to see the card.
        if not self.shown_list().has(part) or self._only_in_hand not in (0, part):
            self.reread()
        self.shop_app.clear_line()
        self.shown_list().narrow("")
        self.shown_list().point_at(part)
        self.both.opened = opened
        self.show_card()

    def _lay_aside(self) -> None:
        self._in_hand, self._verb = 0, ""
        self.both.opened = False
        if self._only_in_hand:
            self.reread()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Grey what needs a part."""
        if action in ("turn", "next") and self.is_mounted:
            return None if self.part is None else True
        return super().check_action(action, parameters)

    def action_turn(self, verb: str) -> None:
        """Turn the card of the part to installing, removing, mocking up or building in."""
        app, part = self.shop_app, self.part
        if part is not None:
            qty, named = self._how_many(), self._named_by_position(part)
            if verb == CARD and named is not None:
                app.talk.do(named)
            else:
                app.talk.do(lambda: ask_card(app.scanning.at, app.shop.parts.get(part), qty, verb))

    def _named_by_position(self, part: int) -> Callable[[], Answer] | None:
        """Return what opens the joint that a position named just now: it is meant, not its part's first."""
        named = self.shop_app.scanning.question
        if named is None or named.question is None or (named.kind, named.subject) != ("position", part):
            return None
        return named.question.yes

    def action_next(self) -> None:
        """Ask what becomes of the part."""
        app, part = self.shop_app, self.part
        if part is not None:
            qty = self._how_many()
            app.talk.do(lambda: what_next(app.scanning.at, app.shop.parts.get(part), qty))

    def _how_many(self) -> int:
        """Return the count that was typed before the key, else the one of the card."""
        count = self.shop_app.intake.take_count()
        return self._pieces if count == 1 and self.part == self._in_hand else count

    def step_back(self) -> None:
        """Lay the card aside."""
        self.shop_app.talk.put_card_down()
        self._lay_aside()
