"""Filming: what is still missing before a day, why, who acts next, and whether it can be ready."""

from collections.abc import Hashable, Iterable
from typing import TYPE_CHECKING, ClassVar

from textual.binding import BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from shoptui.domain.days import day_words
from shoptui.domain.shoots import Shoot
from shoptui.jobs.answers import Answer
from shoptui.jobs.missing import NEXT, MissingLine, MissingReport, NoShootError, find_shoot, missing
from shoptui.jobs.place_words import today
from shoptui.stations.filming.deeds import what_next
from shoptui.stations.filming.forms import day_form
from shoptui.stations.filming.rows import (
    MISSING_COLUMNS,
    against_facts,
    against_row,
    in_full,
    missing_facts,
    missing_row,
    shots_facts,
)
from shoptui.stations.keys import HERE_KEYS, here, quiet
from shoptui.stations.list_and_card import ListAndCard
from shoptui.stations.long_list import LongList
from shoptui.stations.station import CardStation

if TYPE_CHECKING:
    from shoptui.jobs.against import Against


class Filming(CardStation):
    """The list of what is missing before one filming day."""

    station_name = "filming"
    DEFAULT_CSS = """
    Filming {
        & #in-full { height: 5; padding: 0 1; border-top: solid $border; color: $foreground; display: none; }
        &.-in-full #in-full { display: block; }
        &.-wide .body ListAndCard > LongList { width: 2fr; }
        &.-wide .body ListAndCard > Card { width: 1fr; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+g", "filmed", "Filmed", "A shot was filmed, or is called off", "filming.filmed"),
        here("ctrl+o", "shots", "Shots", "The shots of the day and how they stand", "filming.shots"),
        here(
            "ctrl+t", "change", "Change", "Change the day: when, its shots, what they need", "filming.change"
        ),
        here("ctrl+n", "add", "New day", "A new filming day", "filming.add"),
        here(
            "ctrl+y", "day(1)", "Next day", "The filming day after this one; then the first", "filming.next"
        ),
        quiet("ctrl+x", "part", "The part", "The part's own card", "filming.part", HERE_KEYS),
        quiet("right", "day(1)", "Next day", "The filming day after this one", "filming.right", HERE_KEYS),
        quiet("left", "day(-1)", "Day before", "The filming day before", "filming.left", HERE_KEYS),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._shoot: int | None = None
        self._report: MissingReport | None = None
        self._lines: dict[Hashable, MissingLine | Against] = {}
        self._shots = False

    def body(self) -> Iterable[Widget]:
        """A list and its card; where that cannot be seen, the row under the cursor in full."""
        yield ListAndCard(*MISSING_COLUMNS, empty="Nothing is missing.")
        yield Static("", id="in-full", markup=False)

    def on_mount(self) -> None:
        """Write the row out whenever its card goes out of sight."""
        self.watch(self.both, "opened", self._show_in_full)

    @property
    def _days(self) -> list[Shoot]:
        return sorted(self.shop_app.shop.shoots.all(), key=lambda shoot: (shoot.date, shoot.id))

    def heading(self) -> str:
        """Return the day and how it stands."""
        report = self._report
        if report is None:
            return "Filming: no filming day to come"
        day = day_words(report.day, report.today)
        return f"Filming {day}, {report.shoot.title}: {report.ready} of {report.wanted} ready"

    def reload(self) -> None:
        """Ask again what is missing."""
        shop = self.shop_app.shop
        day = today(shop)
        if self._shoot is not None and shop.shoots.get(self._shoot).withdrawn:
            self._shoot = None
        try:
            shoot = find_shoot(shop, NEXT, day) if self._shoot is None else shop.shoots.get(self._shoot)
        except NoShootError as error:
            self._report, self._lines = None, {}
            self.shown_list().empty = str(error)
            self.shown_list().set_rows([])
        else:
            self._report = missing(shop, shoot, day)
            self._lines = {}
            rows = []
            for piece in self._report.to_decide:
                rows.append(against_row(piece))
                self._lines[rows[-1].key] = piece
            for line in self._report.lines:
                rows.append(missing_row(line))
                self._lines[rows[-1].key] = line
            self.shown_list().empty = "Nothing is missing: every part is as its shots need it."
            self.shown_list().set_rows(rows)
        self._show_card()
        self.refresh_bindings()

    def on_long_list_pointed(self) -> None:
        """Show the card of the row under the cursor."""
        self._shots = False
        self._show_card()

    def _show_card(self) -> None:
        row = self.shown_list().row
        line = self._lines.get(row.key) if row else None
        if self._report is None:
            self.both.card.show("", ())
        elif self._shots or line is None:
            self.both.card.show(*shots_facts(self.shop_app.shop, self._report))
        elif isinstance(line, MissingLine):
            self.both.card.show(*missing_facts(self._report, line))
        else:
            self.both.card.show(*against_facts(line))
        self._show_in_full()

    def _show_in_full(self) -> None:
        row = self.shown_list().row
        line = self._lines.get(row.key) if row else None
        self.set_class(line is not None and not self.both.card_is_seen, "-in-full")
        self.query_one("#in-full", Static).update(Content(in_full(line) if line else ""))

    def on_resize(self) -> None:
        """Whether the card can be seen beside the list depends on the room."""
        self._show_in_full()

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Show the whole line; once more shows the part."""
        message.stop()
        if self.both.card_is_seen:
            self.action_part()
        else:
            self.both.opened = True

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Grey what leads nowhere."""
        if action == "part" and self.is_mounted:
            return None if self.shown_list().row is None else True
        if action in ("filmed", "change", "shots") and self.is_mounted:
            return None if self._report is None else True
        if action == "day" and self.is_mounted and isinstance(parameters[0], int):
            return None if self._other_day(parameters[0]) is None else True
        return super().check_action(action, parameters)

    def _other_day(self, step: int) -> Shoot | None:
        """Return the day after or before this one; after the last comes the first."""
        days = self._days
        if self._report is None:
            return days[-1] if days else None
        place = [day.id for day in days].index(self._report.shoot.id)
        return days[(place + step) % len(days)] if len(days) > 1 else None

    def action_day(self, step: int) -> None:
        """Look at another filming day."""
        if (day := self._other_day(step)) is not None:
            self.visit(day.id)

    def action_part(self) -> None:
        """Go to the part's own card."""
        row = self.shown_list().row
        if row is not None and (line := self._lines.get(row.key)) is not None:
            self.shop_app.visit("parts", line.part.id)

    def action_filmed(self) -> None:
        """Ask what was filmed."""
        if (report := self._report) is not None:
            at = self.shop_app.scanning.at
            self.shop_app.talk.do(lambda: what_next(at, report))

    def action_change(self) -> None:
        """Change the day."""
        if (report := self._report) is not None:
            self.shop_app.push_screen(day_form(self.shop_app.scanning.at, report.shoot))

    def action_add(self) -> None:
        """Write down a new day."""
        self.shop_app.push_screen(day_form(self.shop_app.scanning.at, None))

    def show_answer(self, answer: Answer) -> None:
        """A day that was written down is shown."""
        if answer.show == "filming" and answer.subject:
            self.visit(answer.subject)

    def visit(self, subject: int) -> None:
        """Look at a filming day."""
        self._shoot = subject
        self._shots = False
        self.both.opened = False
        self.reread()

    def action_shots(self) -> None:
        """Show the shots, or the line again."""
        self._shots = not self._shots
        self.both.opened = self._shots
        self._show_card()

    def step_back(self) -> None:
        """From the card to the list, from another day to the next one."""
        if self.both.opened:
            self._shots = False
            self.both.opened = False
        elif self._shoot is not None:
            self._shoot = None
            self.reread()
