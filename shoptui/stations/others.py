"""What other terminals change: looked for, and shown as soon as a screen has time for it."""

from time import perf_counter
from typing import TYPE_CHECKING

from shoptui.jobs.answers import stop
from shoptui.stations.receiving.open_box import OpenBox
from shoptui.stations.wrong import in_words

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp
    from shoptui.stations.station import StationScreen

LOOK_EVERY = 0.25
"""Seconds between two looks for what other terminals did."""

REST = 0.03
"""Seconds from a change to its showing at the least: of several at once the last is shown."""


class Others:
    """Keeps the screens of one terminal to what is true in the shop.

    Args:
        app: The application.

    """

    def __init__(self, app: "ShopApp") -> None:
        self._app = app
        self.version = 0
        """Counts the changes of the shop: a screen that has seen fewer reads again."""
        self.telling = False
        """Whether a change waits to be shown."""
        self._box = OpenBox(app.shop, app.terminal)
        self._wrong = ""
        self._rests_until = 0.0
        """Moment before which no list is read again."""

    def look(self) -> None:
        """Take in what others did; where nothing else is to be done, let the store tidy up."""
        app = self._app
        try:
            app.shop.refresh()
            if app.jobs.idle:
                app.shop.database.idle()
        except (ValueError, OSError) as error:
            # Four times a second the same is wrong: it is said once.
            if self._wrong != (words := in_words(error)):
                self._wrong = words
                app.hearing.hear(stop(words))
        else:
            self._wrong = ""

    def shop_changed(self) -> None:
        """Have a change shown soon, here or elsewhere as it was made."""
        self.version += 1
        if not self.telling and self._app.is_running:
            self.telling = True
            self._app.set_timer(max(REST, self._rests_until - perf_counter()), self._tell)

    def _tell(self) -> None:
        self.telling = False
        app = self._app
        app.intake.settings_changed()
        app.keyboard.prefix = app.shop.settings.scanner_prefix
        app.jobs.later(self._box.went_on)
        station = app.station_screen
        if station is not None and station is app.screen:
            # A card that waits to be drawn must not wait for the list beside it.
            station.call_after_refresh(self._read_again, station)

    def _read_again(self, station: "StationScreen") -> None:
        start = perf_counter()
        station.refresh_from_shop()
        # A list that takes long to read is read less often, so that scans are never held up by it.
        end = perf_counter()
        self._rests_until = end + 2 * (end - start)
