"""The racks: every bin and what is in it."""

from collections.abc import Iterable

from textual.widget import Widget

from shoptui.domain.places import UNSORTED, Place
from shoptui.jobs.answers import Answer
from shoptui.stations.list_and_card import ListAndCard
from shoptui.stations.long_list import LongList
from shoptui.stations.parts.facts import part_facts
from shoptui.stations.racks.rows import (
    BIN_COLUMNS,
    CONTENT_COLUMNS,
    bench_row,
    bin_facts,
    bin_row,
    content_row,
    inside_of,
)
from shoptui.stations.station import CardStation

BENCH = 0
"""Stands for the bench where a bin's id is expected."""


class Racks(CardStation):
    """The list of bins, or what is in one of them."""

    station_name = "racks"

    def __init__(self) -> None:
        super().__init__()
        self._bin: int | None = None
        self._columns: object = None

    def body(self) -> Iterable[Widget]:
        """A list and its card."""
        yield ListAndCard(*BIN_COLUMNS, empty="No bins yet. Scan a blank bin tag, or import them.")

    def heading(self) -> str:
        """Return which bin is looked at."""
        if self._bin is None:
            return "Racks: where is it?"
        if self._bin == BENCH:
            return "Racks: on the bench, not put away yet"
        found = self.shop_app.shop.bins.get(self._bin)
        return f"Racks: bin {found.code} {found.words}".rstrip()

    def reload(self) -> None:
        """Read the bins, or the one bin, again."""
        shop, shown = self.shop_app.shop, self.shown_list()
        columns = BIN_COLUMNS if self._bin is None else CONTENT_COLUMNS
        if columns is not self._columns:
            self._columns = columns
            shown.set_columns(*columns)
        if self._bin is None:
            bins = [bin_row(shop, found) for found in shop.bins.all()]
            bench = [bench_row(shop)] if inside_of(shop, UNSORTED) else []
            shown.empty = "No bins yet. Scan a blank bin tag, or import them."
            shown.set_rows([*bench, *bins])
        else:
            shown.empty = "Nothing is in this bin."
            shown.set_rows([content_row(*each) for each in inside_of(shop, self._bin or UNSORTED)])
        self._show_card()
        self.refresh_bindings()

    def on_long_list_pointed(self) -> None:
        """Show the card of the row under the cursor."""
        self._show_card()

    def _show_card(self) -> None:
        row, shop = self.shown_list().row, self.shop_app.shop
        key = row.key if row else None
        if isinstance(key, int) and self._bin is None:
            self.both.card.show(*bin_facts(shop, shop.bins.get(key) if key else None))
        elif isinstance(key, tuple) and isinstance(key[1], Place):
            self.both.card.show(*part_facts(self.shop_app.scanning.at, shop.parts.get(key[0])))
        else:
            self.both.card.show("", ())

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Look into the bin; in a bin, show the part's card."""
        message.stop()
        key = message.row.key
        if isinstance(key, int) and self._bin is None:
            self._look_into(key)
        elif isinstance(key, tuple):
            self.both.opened = True

    def _look_into(self, number: int | None) -> None:
        before, self._bin = self._bin, number
        self.both.opened = False
        self.shop_app.clear_line()
        self.reread()
        if number is None and before is not None:
            self.shown_list().point_at(before)

    def show_answer(self, answer: Answer) -> None:
        """A bin that was scanned is looked into; a part that was scanned is shown where it lies."""
        if answer.show != "racks" or not answer.subject:
            return
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
            inside = inside_of(shop, place.where)
            if any(found.id == part and at == place for found, at, _ in inside):
                self._look_into(place.where if isinstance(place.where, int) else BENCH)
                self.shown_list().point_at((part, place))
                return

    def step_back(self) -> None:
        """From the card to the bin, from the bin to the bins."""
        if self.both.opened:
            self.both.opened = False
        elif self._bin is not None:
            self._look_into(None)
