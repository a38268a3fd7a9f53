"""What Ctrl+P finds: every station, and everything that can be done on the screen in front."""

from collections.abc import Callable, Iterator
from functools import partial
from typing import TYPE_CHECKING, cast

from textual.command import CommandPalette, DiscoveryHit, Hit, Hits, Provider, SearchIcon
from textual.content import Content

from shoptui.stations.keys import HERE_KEYS
from shoptui.stations.station_list import STATIONS
from shoptui.stations.themes import THEMES

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp

Command = tuple[str, str, Callable[[], object]]


class Palette(CommandPalette):
    """The page of Ctrl+P, with a mark that every terminal has instead of a picture two cells wide.

    Without colour the row pointed at is underlined: the framework would reverse it, which does not arrive.
    """

    DEFAULT_CSS = """
    Palette:nocolor CommandList > .option-list--option-highlighted { text-style: underline; }
    """

    def on_mount(self) -> None:
        """Put the mark before the field, as it stands before the line."""
        self.query_one(SearchIcon).icon = ">"


class ShopCommands(Provider):
    """Actions of the screen in front, those of all screens, the stations, and the looks."""

    @property
    def shop_app(self) -> "ShopApp":
        """The application, by its own type."""
        return cast("ShopApp", self.app)

    def _commands(self) -> Iterator[Command]:
        app = self.shop_app
        screen = self.screen
        for active in screen.active_bindings.values():
            binding = active.binding
            if binding.group is HERE_KEYS and active.enabled:
                yield binding.description, binding.tooltip, partial(screen.run_action, binding.action)
        yield "Undo", "Take back the last thing done at this terminal", app.action_undo
        yield "Earlier answers", "Read the last twenty answers", app.action_earlier
        yield "Help", "What can be done here, and which scans work", app.action_help_page
        for station in STATIONS:
            yield (
                f"{station.title} ({app.keyboard.words(f'station.{station.name}')})",
                station.answers,
                partial(app.action_station, station.name),
            )
        for theme, words in THEMES.items():
            yield f"Look: {words}", "Change the colours", partial(app.set_look, theme)
        yield "Leave (quit, exit, close)", "Close the program; everything is saved already", app.action_leave

    async def search(self, query: str) -> Hits:
        """Yield what matches."""
        matcher = self.matcher(query)
        for title, words, run in self._commands():
            if (score := matcher.match(title)) > 0:
                yield Hit(score, matcher.highlight(title), run, help=words)

    async def discover(self) -> Hits:
        """Yield everything."""
        for title, words, run in self._commands():
            yield DiscoveryHit(Content(title), run, help=words)
