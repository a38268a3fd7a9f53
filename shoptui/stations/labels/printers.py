"""The printers: a test page for each, what was measured on it, and the stock that labels are printed on."""

import asyncio
from collections.abc import Iterable, Iterator, Mapping
from functools import partial
from typing import ClassVar

from textual.binding import BindingType
from textual.widget import Widget

from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer
from shoptui.jobs.ask_for import decimal
from shoptui.jobs.asked import Sense
from shoptui.jobs.at import At
from shoptui.jobs.label_kinds import BLANKS, COMMANDS, KINDS
from shoptui.jobs.label_output import Onto
from shoptui.jobs.label_printers import (
    OWN,
    choice_of,
    measured,
    own_labels,
    print_test_page,
    printer_words,
    stock_named,
)
from shoptui.jobs.usual_outlet import outlet_of, outlet_words, usual_outlet
from shoptui.labels.descriptions import packaged
from shoptui.labels.errors import LabelError
from shoptui.labels.printing import can_print, queues
from shoptui.labels.stock import FOLDER as STOCK
from shoptui.labels.stock import stock_names
from shoptui.stations.card import Fact
from shoptui.stations.field import Field
from shoptui.stations.form import Form
from shoptui.stations.keys import here
from shoptui.stations.labels.print_form import Printing, stock_field
from shoptui.stations.list_and_card import ListAndCard
from shoptui.stations.listed import Column, Row
from shoptui.stations.long_list import LongList
from shoptui.stations.marks import Tone
from shoptui.stations.station import CardStation

PRINTER_COLUMNS = (Column("printer", 22), Column("mended on", 24, toned=True), Column("Enter does"))
MEASURED = "measured"
"""Key of the row that asks what was measured."""

MOST = 1000.0


class Printers(CardStation):
    """The print queues of this computer."""

    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+o", "card", "Stock", "Show the stock of each kind of label, or the list", "printers.card"),
        here("ctrl+t", "measured", "Measured", "Type in what was measured", "printers.measured"),
    ]

    def __init__(self, station: str) -> None:
        super().__init__()
        self.station_name = station  # type: ignore[misc]  # a class's own elsewhere; here the one beneath
        self._queues: tuple[str, ...] = ()
        self._known = False

    def body(self) -> Iterable[Widget]:
        """A list and its card."""
        yield ListAndCard(*PRINTER_COLUMNS, empty="No printer.")

    def heading(self) -> str:
        """Return how many there are."""
        if not self._known:
            return "Printers: asking the system which there are"
        return f"Printers: {len(self._queues) or 'no'} print queue{'s' if len(self._queues) != 1 else ''}"

    def on_mount(self) -> None:
        """Ask the system for its queues, which may take its time."""
        self.run_worker(self._find())

    async def _find(self) -> None:
        self._queues = await asyncio.to_thread(queues)
        self._known = True
        self.reread()

    def reload(self) -> None:
        """Read what is known of printers again."""
        self.shown_list().set_rows(list(self._rows()))
        self.both.card.show("Stock", tuple(_stock_facts(self.shop_app.scanning.at)))

    def _rows(self) -> Iterator[Row]:
        for queue in ("", *self._queues):
            stocks = [each.stock for each in self.shop_app.shop.settings.corrections if each.queue == queue]
            name = printer_words(queue) if queue or can_print() else "a file, by hand"
            words = f"+ {', '.join(map(inert, stocks))}" if stocks else "nothing measured"
            yield Row(queue, (name, words, "prints a test page"), Tone.GOOD if stocks else Tone.PLAIN)
        yield Row(MEASURED, ("the test page", "", "types in what was measured on it"))

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Print a test page, or ask what was measured on it."""
        message.stop()
        at, queue = self.shop_app.scanning.at, str(message.row.key)
        if queue == MEASURED:
            self.action_measured()
        else:
            self.shop_app.push_screen(test_form(at, queue))

    def action_measured(self) -> None:
        """Ask what was measured on a test page."""
        row = self.shown_list().row
        queue = str(row.key) if row is not None and row.key != MEASURED else ""
        self.shop_app.push_screen(measured_form(self.shop_app.scanning.at, queue))

    def action_card(self) -> None:
        """Show the stock, or the list again."""
        self.both.opened = not self.both.opened

    def step_back(self) -> None:
        """From the card to the list, from the list to what lies beneath."""
        if self.both.opened:
            self.both.opened = False
        else:
            self.shop_app.clear_line()
            self.dismiss()


def test_form(at: At, queue: str) -> Form:
    """Return the form that prints a test page."""
    file = "" if queue or can_print() else "~/test-page.pdf"

    def save(values: Mapping[str, str]) -> Answer:
        path, printer = outlet_of(values["where"])
        onto = Onto(file=path, print=path is None, queue=printer)
        return print_test_page(at, values["stock"].strip(), onto)

    return Printing(
        "Print a test page",
        (
            stock_field(at, choice_of(at.shop, "part").stock),
            Field("where", "To", "a printer, or a file", queue or file, check=outlet_of),
        ),
        save,
        about="It has a ruler across and one down, and bars of several widths. Print it at its actual size.",
    )


def measured_form(at: At, queue: str) -> Form:
    """Return the form that asks what was measured on a test page."""
    sides = {
        "across": ("Ruler across", "mm, as measured; empty: it is as long as it says"),
        "down": ("Ruler down", "likewise"),
        "left": ("Zero from the left", "mm from the page's edge; empty: it is right"),
        "top": ("Zero from the top", "likewise"),
    }
    asked = {side: decimal(side, *words, most=MOST) for side, words in sides.items()}
    sense = Sense(at.shop)

    def save(values: Mapping[str, str]) -> Answer:
        typed = {side: asked[side].read(sense, values[side]) for side in sides if values[side].strip()}
        return measured(at, values["stock"].strip(), values["queue"].strip(), **typed)

    return Form(
        "What was measured on the test page",
        (
            stock_field(at, choice_of(at.shop, "part").stock),
            Field("queue", "Printer", "its name; empty: the usual one, or by hand", queue, one_value=True),
            *(
                Field(side, label, hint, one_value=True, check=partial(asked[side].read, sense))
                for side, (label, hint) in sides.items()
            ),
        ),
        save,
        about="What is left empty is right. Labels on that stock by that printer are mended from then on.",
    )


def _stock_facts(at: At) -> Iterator[Fact]:
    """Yield what each kind is printed on, all stock there is, and where the shop's own belongs."""
    shop = at.shop
    theirs, ours = packaged() / STOCK, shop.database.folder / OWN / STOCK
    yield Fact("", f"For another one copy a file from {theirs} into {ours} under a new name, and change it.")
    yield Fact("Printed on")
    for layout in (*(kind.layout for kind in KINDS.values()), *BLANKS.values(), COMMANDS):
        usual = usual_outlet(at, layout)
        yield Fact(layout.replace("-", " "), f"{usual.stock}, to {outlet_words(usual)}")
    yield Fact("All stock")
    for name in stock_names(own_labels(shop)):
        try:
            yield Fact("", f"{name}: {stock_named(shop, name).words}")
        except LabelError as error:
            yield Fact("", f"! {error}", Tone.BAD)
