"""Parts: the whole list of this terminal's build, and one part's card."""

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import BindingType
from textual.widget import Widget

from shoptui.domain.records import Order, Part
from shoptui.jobs.answers import Answer, stop
from shoptui.jobs.copy_list import no_copy
from shoptui.jobs.part_list import PartLine, part_lines
from shoptui.jobs.send_out import nothing_to_send
from shoptui.stations.card import Fact
from shoptui.stations.file_form import file_form
from shoptui.stations.keys import HERE_KEYS, here, quiet
from shoptui.stations.labels.screen import look_at_label, print_thing
from shoptui.stations.list_and_card import ListAndCard
from shoptui.stations.long_list import LongList
from shoptui.stations.parts.copy_form import copy_form
from shoptui.stations.parts.deeds import what_next
from shoptui.stations.parts.facts import part_facts
from shoptui.stations.parts.forms import add_form, order_form, send_out_form
from shoptui.stations.parts.rows import PART_COLUMNS, part_row
from shoptui.stations.records.record_form import record_form
from shoptui.stations.records.screen import Records
from shoptui.stations.station import RowCardStation


class Parts(RowCardStation):
    """The list of parts with the card of one."""

    station_name = "parts"
    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+o", "order", "Order", "Order the part from a supplier", "parts.order"),
        here("ctrl+t", "send_out", "Send out", "Send the part to an outside shop", "parts.send_out"),
        here("ctrl+g", "next", "Other", "Open, hold, release, take back, cancel, gone", "parts.next"),
        here("ctrl+e", "edit", "Edit", "Change what the list says of the part", "parts.edit"),
        here("ctrl+k", "print", "Print", "Print the part's label, or those of all listed", "parts.print"),
        here("ctrl+n", "add", "Add a part", "Add a part that has no code", "parts.add"),
        here("ctrl+l", "orders", "Orders", "All orders, the part's last one first", "parts.orders"),
        here("ctrl+y", "copy", "Copy a list", "Copy lines from another build's list", "parts.copy"),
        here("ctrl+d", "look", "Label", "Show the label, to be scanned off the glass", "parts.look"),
        quiet(
            "ctrl+f", "file", "Photo, file", "Keep a photo or a file with the part", "parts.file", HERE_KEYS
        ),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._guest = 0
        """Id of a part of another build that was scanned or looked for, listed last; 0: none."""

    def body(self) -> Iterable[Widget]:
        """A list and its card."""
        yield ListAndCard(*PART_COLUMNS, empty="No parts yet. Import the list, or add a part (Ctrl+N).")

    @property
    def part(self) -> Part | None:
        """The part under the cursor."""
        row = self.shown_list().row
        return self.shop_app.shop.parts.get(row.key) if row and isinstance(row.key, int) else None

    def heading(self) -> str:
        """Return the build and how many lines its list has."""
        lines = len(self.shown_list().rows) - bool(self._guest)
        return f"Parts: {lines} lines{' and one of another list' if self._guest else ''}"

    def reload(self) -> None:
        """Read the parts of the build again."""
        shop, build = self.shop_app.shop, self.shop_app.scanning.at.build
        lines = part_lines(shop, build.id if build else None)
        if not self._guest or any(line.part.id == self._guest for line in lines):
            self._guest = 0
            guests: tuple[PartLine, ...] = ()
        else:
            theirs = part_lines(shop, shop.parts.get(self._guest).build)
            guests = tuple(line for line in theirs if line.part.id == self._guest)
        self.shown_list().set_rows([part_row(line) for line in (*lines, *guests)])
        self.show_card()

    def row_card(self) -> tuple[str, tuple[Fact, ...]] | None:
        """Return the card of the part under the cursor."""
        part = self.part
        return None if part is None else part_facts(self.shop_app.scanning.at, part)

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Show the part's card."""
        message.stop()
        self.shown_list().point_at(message.row.key)
        self.both.opened = True
        self.show_card()

    def show_answer(self, answer: Answer) -> None:
        """A part that was scanned is shown."""
        if answer.show == "parts" and answer.part and answer.subject:
            self.visit(answer.subject)

    def visit(self, subject: int) -> None:
        """Show a part's card; one of another build gets a row, so that no key acts on another part."""
        self.refresh_from_shop()
        if not self.shown_list().has(subject) or self._guest not in (0, subject):
            self._guest = subject
            self.reread()
        self.shop_app.clear_line()
        self.shown_list().narrow("")
        self.shown_list().point_at(subject)
        self.both.opened = True
        self.show_card()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Grey what needs a part."""
        if action in ("order", "send_out", "next", "edit", "file", "print", "look") and self.is_mounted:
            return None if self.part is None else True
        return super().check_action(action, parameters)

    def action_order(self) -> None:
        """Order the part under the cursor."""
        if (part := self.part) is not None:
            self.shop_app.push_screen(order_form(self.shop_app.scanning.at, part))

    def action_send_out(self) -> None:
        """Send the part under the cursor out."""
        if (part := self.part) is None:
            return
        if words := nothing_to_send(self.shop_app.shop, part):
            self.shop_app.talk.do(lambda: stop(words, kind="part", part=part.code, subject=part.id))
        else:
            self.shop_app.push_screen(send_out_form(self.shop_app.scanning.at, part))

    def action_next(self) -> None:
        """Ask what becomes of the part under the cursor; a number typed before says of how many."""
        if (part := self.part) is not None:
            app = self.shop_app
            count = app.intake.take_count()
            app.talk.do(lambda: what_next(app.scanning.at, part, count))

    def action_edit(self) -> None:
        """Change what the list says of the part under the cursor."""
        if (part := self.part) is not None:
            self.shop_app.push_screen(record_form(self.shop_app.scanning.at, part))

    def action_file(self) -> None:
        """Keep a photo or a file with the part under the cursor."""
        if (part := self.part) is not None:
            self.shop_app.push_screen(file_form(self.shop_app.scanning.at, part))

    def action_print(self) -> None:
        """Print the label of the part under the cursor, or of those listed."""
        if (part := self.part) is not None:
            parts = self.shop_app.shop.parts
            print_thing(self, part, [parts.get(key) for key in self.ids])

    def action_look(self) -> None:
        """Show the label of the part under the cursor."""
        if (part := self.part) is not None:
            look_at_label(self, part)

    def action_orders(self) -> None:
        """List the orders, with the cursor on the last one that the part is on."""
        part, shop = self.part, self.shop_app.shop
        of_part = [
            order.id
            for order in shop.orders.all()
            if part and any(line.part == part.id for line in order.lines)
        ]
        self.shop_app.push_screen(Records(Order, self.station_name, max(of_part, default=0)))

    def action_copy(self) -> None:
        """Copy lines from another build's list."""
        if words := no_copy(self.shop_app.scanning.at):
            self.shop_app.talk.do(lambda: stop(words))
        else:
            self.shop_app.push_screen(copy_form(self.shop_app.scanning.at))

    def action_add(self) -> None:
        """Add a part."""
        self.shop_app.push_screen(add_form(self.shop_app.scanning.at))

    def step_back(self) -> None:
        """From the card to the list."""
        self.both.opened = False
        if self._guest:
            self._guest = 0
            self.reread()
