"""Today: what needs somebody now."""

from collections import Counter
from collections.abc import Iterable, Iterator

from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from shoptui.domain.days import day_words
from shoptui.jobs.place_words import today
from shoptui.jobs.today import today_lines
from shoptui.jobs.today_line import NOTE, READY, URGENT, WARNING, TodayLine
from shoptui.stations.labels.screen import Labels
from shoptui.stations.listed import Column, Row
from shoptui.stations.long_list import LongList
from shoptui.stations.marks import Tone
from shoptui.stations.records.screen import wrench_card
from shoptui.stations.station import StationScreen

TONES = {URGENT: Tone.BAD, WARNING: Tone.WARN, READY: Tone.GOOD, NOTE: Tone.PLAIN}


class Today(StationScreen):
    """One list of what needs somebody; Enter goes to where it is done."""

    station_name = "today"
    DEFAULT_CSS = """
    Today #in-full { height: 3; padding: 0 1; border-top: solid $border; color: $foreground; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._lines: dict[int, TodayLine] = {}

    def body(self) -> Iterable[Widget]:
        """The list, and beneath it the row under the cursor in full."""
        yield LongList(Column("what", 14, toned=True), Column("in words"), empty="Nothing needs anybody now.")
        yield Static("", id="in-full", markup=False)

    def shown_list(self) -> LongList:
        """Return the list."""
        return self.query_one(LongList)

    def heading(self) -> str:
        """Return the day."""
        day = today(self.shop_app.shop)
        late = sum(line.mark == URGENT for line in self._lines.values())
        return f"Today, {day_words(day, day)}: {len(self._lines)} things" + (f", {late} late" if late else "")

    def reload(self) -> None:
        """Read what needs somebody again."""
        shop = self.shop_app.shop
        self._lines = dict(enumerate(today_lines(shop, today(shop))))
        self.shown_list().set_rows(list(self._rows()))

    def _rows(self) -> Iterator[Row]:
        """Yield the rows; of several lines of one thing, each is the first, second ... of that."""
        seen = Counter[tuple[str, int]]()
        for number, line in self._lines.items():
            key = (line.kind, line.subject)
            cells = (f"{line.mark} {line.kind}".strip(), line.words)
            yield Row((*key, seen[key]), cells, TONES.get(line.mark, Tone.PLAIN), str(number))
            seen[key] += 1

    def on_long_list_pointed(self, message: LongList.Pointed) -> None:
        """Write the row out where it is too long for its line."""
        words = message.row.cells[1] if message.row else ""
        self.query_one("#in-full", Static).update(Content(words))

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Go to where it is done."""
        message.stop()
        line = self._lines[int(message.row.find)]
        if line.station == "labels":
            self.shop_app.push_screen(Labels(self.station_name))
        elif line.station == "wrenches":
            self.shop_app.push_screen(wrench_card(self.station_name, line.subject))
        else:
            self.shop_app.visit(line.station, line.subject)
