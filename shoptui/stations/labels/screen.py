"""The labels that are lacking, over the station that they were asked for from."""

from collections.abc import Iterable, Sequence
from typing import Any, ClassVar

from textual.binding import BindingType
from textual.widget import Widget

from shoptui.domain.records import Bin, Box, Build, Part, Person, Wrench
from shoptui.jobs.label_kinds import KINDS, kind_of
from shoptui.jobs.label_preview import preview
from shoptui.jobs.print_and_ask import ask_each
from shoptui.jobs.print_lacking import print_said
from shoptui.stations.keys import here
from shoptui.stations.labels.look import LabelPage
from shoptui.stations.labels.print_form import PrintForm
from shoptui.stations.labels.printers import Printers
from shoptui.stations.labels.rows import LABEL_COLUMNS, PAGE, Line, label_rows
from shoptui.stations.labels.what import blanks, commands, things
from shoptui.stations.long_list import LongList
from shoptui.stations.station import StationScreen

CARRIES_ONE = (Bin, Box, Build, Part, Person, Wrench)
"""Kinds of records that carry a label."""


class Labels(StationScreen):
    """What lacks a label, and what was printed of which nobody has said how it came out.

    Args:
        station: Name of the station beneath.

    """

    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+k", "print", "Print all", "Print all labels that are lacking", "labels.print"),
        here("ctrl+t", "printers", "Printers", "The printers, and a test page for each", "labels.printers"),
    ]

    def __init__(self, station: str) -> None:
        super().__init__()
        self.station_name = station  # type: ignore[misc]  # a class's own elsewhere; here the one beneath

    def body(self) -> Iterable[Widget]:
        """One list."""
        yield LongList(*LABEL_COLUMNS, empty="Nothing carries a label.")

    def shown_list(self) -> LongList:
        """Return the list."""
        return self.query_one(LongList)

    def heading(self) -> str:
        """Return what it is."""
        return "Labels: what lacks one. Enter prints"

    def reload(self) -> None:
        """Read what is lacking again."""
        self.shown_list().set_rows(list(label_rows(self.shop_app.scanning.at)))

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Open the form of the line, or ask how it came out."""
        message.stop()
        app, line = self.shop_app, message.row.key
        at = app.scanning.at
        if not isinstance(line, Line):
            return
        if line.run:
            app.talk.do(lambda: ask_each(at, (line.run,)))
        elif line.blank is not None:
            app.push_screen(PrintForm(at, blanks(at, line.blank)))
        elif line == PAGE:
            app.push_screen(PrintForm(at, commands(at)))
        else:
            app.push_screen(PrintForm(at, things(at, KINDS[line.many])))

    def action_print(self) -> None:
        """Print all that is lacking, one kind after the other."""
        self.shop_app.talk.do(lambda: print_said(self.shop_app.scanning.at))

    def action_printers(self) -> None:
        """Show the printers."""
        self.shop_app.push_screen(Printers(self.station_name))

    def step_back(self) -> None:
        """Back to the station beneath."""
        self.shop_app.clear_line()
        self.dismiss()


def print_thing(screen: StationScreen, thing: Any, listed: Sequence[Any] = ()) -> None:  # noqa: ANN401 - any record
    """Open the form that prints a thing's label, or those of others on the list of its kind."""
    at = screen.shop_app.scanning.at
    kind = kind_of(at.shop, thing)
    alike = [each for each in listed if kind_of(at.shop, each) is kind]
    screen.shop_app.push_screen(PrintForm(at, things(at, kind, thing, alike)))


def look_at_label(screen: StationScreen, thing: Any) -> None:  # noqa: ANN401 - any record that carries a tag
    """Show a thing's label, with its tag to be scanned off the glass."""
    shop = screen.shop_app.shop
    label = kind_of(shop, thing).label(shop, thing)
    screen.shop_app.push_screen(LabelPage(label, preview(shop, label)))
