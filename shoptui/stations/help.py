"""One page of help for each station: what it answers, the scans that work there, and the keys."""

from typing import TYPE_CHECKING, cast

from textual.app import ComposeResult

from shoptui.stations.card import Card, Fact
from shoptui.stations.help_pages import EVERYWHERE, PAGES
from shoptui.stations.keyboard import Keyboard
from shoptui.stations.page import Page
from shoptui.stations.station_list import BY_NAME

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp


class HelpPage(Page):
    """Help for one station."""

    def __init__(self, station: str) -> None:
        super().__init__()
        self._station = station

    def compose(self) -> ComposeResult:
        """One card holds the page."""
        yield Card()

    def on_mount(self) -> None:
        """Fill the page."""
        keyboard = cast("ShopApp", self.app).keyboard
        station = BY_NAME[self._station]
        card = self.query_one(Card)
        card.border_title = self.BACK_WORDS
        card.show(
            f"{station.title} ({keyboard.words(f'station.{station.name}')}): {station.answers}",
            help_facts(self._station, keyboard),
        )
        card.focus()


def help_facts(station: str, keyboard: Keyboard) -> tuple[Fact, ...]:
    """Return the lines of a station's page, with the keys as they are now."""
    page = PAGES[station]
    told = {name for name, _ in page.keys}
    own = [
        (action.name, f"{action.tooltip[0].lower()}{action.tooltip[1:]}")
        for action in keyboard.actions.values()
        if action.place == station and action.name not in told
    ]
    # The way back is read last.
    back = [row for row in page.keys if row[0] == "Escape"]
    keys = [*(row for row in page.keys if row not in back), *own, *back]
    rows = (
        ("", page.about),
        ("", ""),
        ("Scans", ""),
        *page.scans,
        ("", ""),
        ("Keys", ""),
        *keys,
        ("", ""),
        ("Everywhere", ""),
        *EVERYWHERE,
    )
    return tuple(
        Fact(keyboard.words(label) if label in keyboard.actions else label, text) for label, text in rows
    )
