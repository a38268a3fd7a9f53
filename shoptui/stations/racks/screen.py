"""The racks: every bin and what is in it, counted there, moved, made and withdrawn."""

from collections.abc import Callable, Iterable
from typing import ClassVar

from textual.binding import BindingType
from textual.widget import Widget

from shoptui.domain.places import UNSORTED, Place
from shoptui.domain.records import Bin
from shoptui.jobs.answers import Answer
from shoptui.jobs.at import At, shown
from shoptui.jobs.bins import inside, withdraw_bin
from shoptui.jobs.count import bin_counted, counted_so_far, left, row_counted
from shoptui.jobs.move_bin import ask_move_all
from shoptui.jobs.racks import count_bin, count_said
from shoptui.stations.keys import here
from shoptui.stations.labels.screen import look_at_label, print_thing
from shoptui.stations.list_and_card import ListAndCard
from shoptui.stations.long_list import LongList
from shoptui.stations.parts.facts import part_facts
from shoptui.stations.racks.bins_form import rows_form
from shoptui.stations.racks.rows import (
    BIN_COLUMNS,
    CONTENT_COLUMNS,
    COUNT_COLUMNS,
    bench_row,
    bin_facts,
    bin_row,
    content_row,
    count_rows,
)
from shoptui.stations.records.record_form import new_form, record_form
from shoptui.stations.station import CardStation

BENCH = 0
"""Stands for the bench where a bin's id is expected."""

NO_BINS = "No bins yet. Make one (Ctrl+N), scan a blank bin tag, or import them."


class Racks(CardStation):
    """The list of bins, or what is in one of them, or how far its count is."""

    station_name = "racks"
    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+g", "count", "Count", "Count the bin; then compare with the books", "racks.count"),
        here("ctrl+o", "move_all", "Move all", "Move all that is in the bin into another", "racks.move"),
        here("ctrl+n", "new_bin", "New bin", "Make a bin, a drawer or a bag", "racks.new"),
        here("ctrl+k", "print", "Print", "Print the label of the bin, or of all listed", "racks.print"),
        here("ctrl+e", "edit_bin", "Edit", "Rename the bin, or say where it stands now", "racks.edit"),
        here("ctrl+x", "withdraw", "Withdraw", "Take the empty bin off the list", "racks.withdraw"),
        here("ctrl+l", "rows", "Bins in rows", "Make all bins of a rack in one go", "racks.rows"),
        here("ctrl+d", "look", "Label", "Show the label, to be scanned off the glass", "racks.look"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._bin: int | None = None
        self._columns: object = None
        self._taken_up = False
        """Whether a count that was open when the program was closed has been shown again."""

    def body(self) -> Iterable[Widget]:
        """A list and its card."""
        yield ListAndCard(*BIN_COLUMNS, empty=NO_BINS)

    @property
    def _at(self) -> At:
        return self.shop_app.scanning.at

    @property
    def _counting(self) -> Bin | None:
        """The bin that is looked at, where it is being counted here."""
        found = bin_counted(self._at)
        return found if found is not None and found.id == self._bin else None

    @property
    def _meant(self) -> Bin | None:
        """The bin that a key is about: the one that is looked into, else the one under the cursor."""
        row = self.shown_list().row
        number = self._bin if self._bin is not None else row.key if row else None
        return self.shop_app.shop.bins.get(number) if isinstance(number, int) and number else None

    def heading(self) -> str:
        """Return which bin is looked at, and what is being counted."""
        at, counting = self._at, bin_counted(self._at)
        count = "" if counting is None else f"{shown(counting.code)} is being counted"
        if counting is not None and counting.id == self._bin:
            return f"Racks: counting {shown(counting.code)}, {counted_so_far(at).total()} so far"
        if self._bin is None:
            return f"Racks: {count}" if count else "Racks: where is it?"
        if self._bin == BENCH:
            return "Racks: on the bench, not put away yet"
        found = at.shop.bins.get(self._bin)
        return f"Racks: bin {shown(found.code)} {found.words}".rstrip() + (f"; {count}" if count else "")

    def reload(self) -> None:
        """Read the bins, the one bin, or its count again."""
        shop, at, shown_list = self.shop_app.shop, self._at, self.shown_list()
        if not self._taken_up:
            self._taken_up = True
            counting = bin_counted(at)
            self._bin = counting.id if counting else self._bin
        if self._bin and shop.bins.get(self._bin).withdrawn:
            self._bin = None
        counting = self._counting
        columns = BIN_COLUMNS if self._bin is None else COUNT_COLUMNS if counting else CONTENT_COLUMNS
        if columns is not self._columns:
            self._columns = columns
            shown_list.set_columns(*columns)
        if self._bin is None:
            bench = [bench_row(shop)] if inside(shop, UNSORTED) else []
            shown_list.empty = NO_BINS
            shown_list.set_rows([*bench, *(bin_row(shop, found) for found in shop.bins.all())])
        elif counting is not None:
            shown_list.empty = "Nothing is booked in this bin. Scan what is in it."
            shown_list.set_rows(count_rows(at, counting))
        else:
            shown_list.empty = "Nothing is in this bin."
            shown_list.set_rows([content_row(*each) for each in inside(shop, self._bin or UNSORTED)])
        self._show_card()
        self.refresh_bindings()

    def on_long_list_pointed(self) -> None:
        """Show the card of the row under the cursor."""
        self._show_card()
        self.refresh_bindings()

    def _show_card(self) -> None:
        row, shop = self.shown_list().row, self.shop_app.shop
        key = row.key if row else None
        if isinstance(key, int) and self._bin is None:
            self.both.card.show(*bin_facts(shop, shop.bins.get(key) if key else None))
        elif isinstance(key, int):
            self.both.card.show(*part_facts(self._at, shop.parts.get(key)))
        elif isinstance(key, tuple) and isinstance(key[1], Place):
            self.both.card.show(*part_facts(self._at, shop.parts.get(key[0])))
        else:
            self.both.card.show("", ())

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Look into the bin; in a bin, show the part's card, or count it where it has no label."""
        message.stop()
        app, key = self.shop_app, message.row.key
        if isinstance(key, int) and self._bin is None:
            self._look_into(key)
        elif isinstance(key, int):
            app.talk.do(lambda: row_counted(self._at, app.shop.parts.get(key), message.qty))
        elif isinstance(key, tuple):
            self.both.opened = True

    def _look_into(self, number: int | None) -> None:
        before, self._bin = self._bin, number
        self.shop_app.scanning.bin_shown = number or None
        self.both.opened = False
        self.shop_app.clear_line()
        self.reread()
        if number is None and before is not None:
            self.shown_list().point_at(before)

    def show_answer(self, answer: Answer) -> None:
        """Look into a bin that was scanned; show a part that was scanned where it lies or is counted."""
        if answer.part and answer.subject and (counting := bin_counted(self._at)) is not None:
            if self._bin != counting.id:
                self._look_into(counting.id)
            self.shown_list().point_at(answer.subject)
        elif answer.subject and (answer.show == "racks" or answer.kind == "bin"):
            if answer.part:
                self._show_part(answer.subject)
            else:
                self._look_into(answer.subject)

    def visit(self, subject: int) -> None:
        """Look into a bin."""
        self._look_into(subject)

    def _show_part(self, part: int) -> None:
        shop = self.shop_app.shop
        for place, _ in shop.book.places(part):
            if any(found.id == part and at == place for found, at, _ in inside(shop, place.where)):
                self._look_into(place.where if isinstance(place.where, int) else BENCH)
                self.shown_list().point_at((part, place))
                return

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Grey what needs a bin."""
        if action in ("move_all", "edit_bin", "withdraw", "print", "look") and self.is_mounted:
            return None if self._meant is None else True
        return super().check_action(action, parameters)

    def action_count(self) -> None:
        """Count the bin that is meant; while it is counted, compare; with none meant, ask which."""
        meant = self._meant
        self.shop_app.talk.do(
            (lambda: count_said(self._at)) if meant is None else (lambda: count_bin(self._at, meant))
        )

    def action_move_all(self) -> None:
        """Ask which bin takes all that is in the one that is meant."""
        self._do(ask_move_all)

    def action_withdraw(self) -> None:
        """Withdraw the bin that is meant."""
        self._do(withdraw_bin)

    def _do(self, job: Callable[[At, Bin], Answer]) -> None:
        if (meant := self._meant) is not None:
            self.shop_app.talk.do(lambda: job(self._at, meant))

    def action_new_bin(self) -> None:
        """Make a bin."""
        self.shop_app.push_screen(new_form(self._at, Bin))

    def action_edit_bin(self) -> None:
        """Rename the bin that is meant, or say where it stands now."""
        if (meant := self._meant) is not None:
            self.shop_app.push_screen(record_form(self._at, meant))

    def action_rows(self) -> None:
        """Make bins in rows."""
        self.shop_app.push_screen(rows_form(self.shop_app))

    def action_print(self) -> None:
        """Print the label of the bin that is meant, or of those listed."""
        if (meant := self._meant) is not None:
            shown = self.ids if self._bin is None else ()
            bins = self.shop_app.shop.bins
            print_thing(self, meant, [bins.get(key) for key in shown if key])

    def action_look(self) -> None:
        """Show the label of the bin that is meant."""
        if (meant := self._meant) is not None:
            look_at_label(self, meant)

    def step_back(self) -> None:
        """From the card to the bin, from the bin to the bins; a count that is left is spoken of."""
        if self.both.opened:
            self.both.opened = False
        elif self._bin is not None:
            was_counted = self._counting is not None
            self._look_into(None)
            if was_counted:
                self.shop_app.jobs.later(lambda: left(self._at))
