"""One page of help for each station: what it answers, the scans that work there, and the keys."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.screen import ModalScreen

from shoptui.stations.card import Card, Fact
from shoptui.stations.help_pages import PAGES
from shoptui.stations.station_list import BY_NAME

EVERYWHERE: tuple[Fact, ...] = (
    Fact("Everywhere"),
    Fact("words", "narrow the list; Enter opens the first match"),
    Fact(
        "number, Enter",
        "is that row; where there is no such row, it counts the next scan; with a question open, that answer",
    ),
    Fact("number, scan", "typed right before a scan, without Enter, it is always a count"),
    Fact("Enter", "with a question open: yes. The same scan again says yes too"),
    Fact("Escape", "goes one step back; nothing typed is lost without asking"),
    Fact("F1", "this page; so does ? and Enter"),
    Fact("F2 to F12", "the stations, as they stand at the foot of the screen"),
    Fact("Ctrl+Z", "takes back the last thing done at this terminal; in a form, the last typing"),
    Fact("Ctrl+P", "finds every station and everything that can be done here"),
    Fact("Ctrl+R", "shows the last twenty answers"),
    Fact("Tab", "goes to the next field, list, card or question; the arrows work in it"),
    Fact("Ctrl+Q", "asks, then leaves; everything is saved already. Ctrl+C is the same"),
    Fact("mouse, finger", "a tap points at a row, a second tap opens it; keys and stations can be tapped"),
)


class HelpPage(ModalScreen[None]):
    """Help for one station."""

    DEFAULT_CSS = """
    HelpPage {
        align: center top;
        & > Card {
            width: 100%;
            height: 1fr;
            margin-bottom: 2;
            border: round $border;
            background: $surface;
        }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,enter,f1", "dismiss", "Back", tooltip="Close the help", id="help.back"),
    ]

    def __init__(self, station: str) -> None:
        super().__init__()
        self._station = station

    def compose(self) -> ComposeResult:
        """One card holds the page."""
        yield Card()

    def on_mount(self) -> None:
        """Fill the page."""
        station = BY_NAME[self._station]
        page = PAGES[self._station]
        facts = [
            Fact("", page.about),
            Fact(),
            Fact("Scans"),
            *(Fact(what, does) for what, does in page.scans),
            Fact(),
            Fact("Keys"),
            *(Fact(key, does) for key, does in page.keys),
            Fact(),
            *EVERYWHERE,
        ]
        card = self.query_one(Card)
        card.border_title = "Escape goes back"
        card.show(f"{station.title} ({station.key_words}): {station.answers}", facts)
        card.focus()

    def on_click(self) -> None:
        """Go back on a tap."""
        self.dismiss()
