"""Hardware: every kind with its stock against what the parts not installed still need."""

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import BindingType
from textual.widget import Widget

from shoptui.jobs.answers import Answer
from shoptui.jobs.hardware import Stand, stands
from shoptui.jobs.racks import count_where_it_lies
from shoptui.stations.card import Fact
from shoptui.stations.hardware.rows import HARDWARE_COLUMNS, hardware_facts, hardware_row
from shoptui.stations.keys import here
from shoptui.stations.labels.screen import look_at_label, print_thing
from shoptui.stations.list_and_card import ListAndCard
from shoptui.stations.long_list import LongList
from shoptui.stations.parts.deeds import what_next
from shoptui.stations.parts.forms import order_form
from shoptui.stations.records.record_form import new_hardware, record_form
from shoptui.stations.station import RowCardStation

NOTHING = "No hardware yet. Make a kind (Ctrl+N), or import them with the shop."
ENOUGH = "Nothing is to be bought: there is enough of all. All kinds: Ctrl+L."


class Hardware(RowCardStation):
    """The list of kinds with the card of one; or, of them, what is to be bought."""

    station_name = "hardware"
    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+l", "to_buy", "To buy", "Only what is to be bought; then all again", "hardware.to_buy"),
        here("ctrl+o", "order", "Order", "Order what is short, in whole packs", "hardware.order"),
        here("ctrl+t", "count", "Count", "Count the drawer that it lies in", "hardware.count"),
        here("ctrl+k", "print", "Print", "Print its label, or those of all listed", "hardware.print"),
        here("ctrl+g", "next", "Other", "Hold, return to stock, cancel, gone", "hardware.next"),
        here("ctrl+e", "edit", "Edit", "Change what is known of it", "hardware.edit"),
        here("ctrl+n", "add", "New", "Write down a kind of hardware", "hardware.new"),
        here("ctrl+d", "look", "Label", "Show the label, to be scanned off the glass", "hardware.look"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._buying = False
        self._stands: dict[int, Stand] = {}

    def body(self) -> Iterable[Widget]:
        """A list and its card."""
        yield ListAndCard(*HARDWARE_COLUMNS, empty=NOTHING)

    @property
    def stand(self) -> Stand | None:
        """The kind under the cursor."""
        row = self.shown_list().row
        return self._stands.get(row.key) if row and isinstance(row.key, int) else None

    def heading(self) -> str:
        """Return how many kinds there are, and of how many some are to be bought."""
        short = sum(each.short for each in self._stands.values())
        told = f"{short} to buy" if short else "enough of all"
        return f"Hardware: {len(self._stands)} kinds, {told}{', these alone' if self._buying else ''}"

    def reload(self) -> None:
        """Read stock and need again."""
        self._stands = {each.part.id: each for each in stands(self.shop_app.shop)}
        shown = self.shown_list()
        shown.empty = ENOUGH if self._buying and self._stands else NOTHING
        shown.set_rows(
            [hardware_row(each) for each in self._stands.values() if each.short or not self._buying]
        )
        self.show_card()

    def on_long_list_pointed(self) -> None:
        """Whether a key leads anywhere depends on the row too."""
        self.refresh_bindings()

    def row_card(self) -> tuple[str, tuple[Fact, ...]] | None:
        """Return the card of the kind under the cursor."""
        each = self.stand
        return None if each is None else hardware_facts(self.shop_app.scanning.at, each)

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Show the card of the kind."""
        message.stop()
        self.both.opened = True
        self.show_card()

    def show_answer(self, answer: Answer) -> None:
        """Show a kind that was scanned."""
        if answer.show == "hardware" and answer.subject:
            self.visit(answer.subject)

    def visit(self, subject: int) -> None:
        """Show the card of a kind."""
        self._buying = False
        self.reread()
        self.shop_app.clear_line()
        self.shown_list().narrow("")
        self.shown_list().point_at(subject)
        self.both.opened = True
        self.show_card()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Grey what needs a kind."""
        if action in ("order", "count", "print", "look", "next", "edit") and self.is_mounted:
            return None if self.stand is None else True
        return super().check_action(action, parameters)

    def action_to_buy(self) -> None:
        """List only what is to be bought, or all again."""
        self._buying = not self._buying
        self.both.opened = False
        self.reread()

    def action_order(self) -> None:
        """Order the kind under the cursor."""
        if (each := self.stand) is not None:
            self.shop_app.push_screen(order_form(self.shop_app.scanning.at, each.part))

    def action_count(self) -> None:
        """Count the drawer in which the kind under the cursor lies."""
        if (each := self.stand) is not None:
            app = self.shop_app
            app.talk.do(lambda: count_where_it_lies(app.scanning.at, each.part))

    def action_print(self) -> None:
        """Print the label of the kind under the cursor, or of those listed."""
        if (each := self.stand) is not None:
            print_thing(self, each.part, [self._stands[key].part for key in self.ids])

    def action_look(self) -> None:
        """Show the label of the kind under the cursor."""
        if (each := self.stand) is not None:
            look_at_label(self, each.part)

    def action_next(self) -> None:
        """Ask what becomes of the kind under the cursor; a number typed before says of how many."""
        if (each := self.stand) is not None:
            app = self.shop_app
            count = app.intake.take_count()
            app.talk.do(lambda: what_next(app.scanning.at, each.part, count))

    def action_edit(self) -> None:
        """Change what is known of the kind under the cursor."""
        if (each := self.stand) is not None:
            self.shop_app.push_screen(record_form(self.shop_app.scanning.at, each.part))

    def action_add(self) -> None:
        """Write down a kind of hardware."""
        at = self.shop_app.scanning.at
        self.shop_app.push_screen(new_hardware(at))

    def step_back(self) -> None:
        """From the card to the list, from what is to be bought to all."""
        if self.both.opened:
            self.both.opened = False
        elif self._buying:
            self.action_to_buy()
