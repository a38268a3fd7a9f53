"""Today: what needs somebody now."""

from collections.abc import Iterable

from textual.widget import Widget

from shoptui.stations.long_list import Column, LongList
from shoptui.stations.station import StationScreen


class Today(StationScreen):
    """The list of what needs somebody."""

    station_name = "today"

    def body(self) -> Iterable[Widget]:
        """One list."""
        yield LongList(Column("what", 14, toned=True), Column("words"), empty="Nothing needs anybody now.")

    def shown_list(self) -> LongList:
        """Return the list."""
        return self.query_one(LongList)
