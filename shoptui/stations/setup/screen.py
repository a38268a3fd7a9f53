"""Set-up: this terminal's build, settings, keys, the scanner, stopped codes, the look, the store's health."""

from collections.abc import Callable, Generator, Iterable, Mapping
from typing import ClassVar

from textual.binding import BindingType
from textual.widget import Widget

from shoptui.jobs.answers import Answer, Steps, done, stop
from shoptui.jobs.at import shown
from shoptui.jobs.check import checking
from shoptui.jobs.record_forms import FORMS
from shoptui.jobs.shop_settings import in_words
from shoptui.stations.card import Fact
from shoptui.stations.field import Field
from shoptui.stations.form import Form
from shoptui.stations.keys import here
from shoptui.stations.labels.printers import Printers
from shoptui.stations.labels.screen import Labels
from shoptui.stations.list_and_card import ListAndCard
from shoptui.stations.long_list import LongList
from shoptui.stations.marks import Tone
from shoptui.stations.records.screen import Records
from shoptui.stations.setup.keys_screen import KeysScreen
from shoptui.stations.setup.rows import (
    SETUP_COLUMNS,
    Line,
    What,
    build_rows,
    check_row,
    keys_row,
    labels_row,
    learn_row,
    look_rows,
    printers_row,
    record_lines,
    scanner_row,
    settings_row,
)
from shoptui.stations.setup.scanner_page import ScannerPage
from shoptui.stations.setup.settings_form import settings_form
from shoptui.stations.station import CardStation, StationScreen


class SetUp(CardStation):
    """The lines that can be set."""

    station_name = "setup"
    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+k", "labels", "Labels", "What lacks a label; blank tags, printers", "setup.labels"),
        here("ctrl+g", "check", "Check the store", "Check the whole store", "setup.check"),
        here("ctrl+t", "scanner", "Scanner", "What the scanner sends", "setup.scanner"),
    ]

    _LISTS: ClassVar[dict[What, Callable[[], StationScreen]]] = {
        What.KEYS: KeysScreen,
        What.LABELS: lambda: Labels("setup"),
        What.PRINTERS: lambda: Printers("setup"),
    }
    """Lists that lie over the lines."""

    def __init__(self) -> None:
        super().__init__()
        self._problems: tuple[Fact, ...] | None = None
        self._count: int | None = None

    def body(self) -> Iterable[Widget]:
        """A list and its card."""
        yield ListAndCard(*SETUP_COLUMNS, empty="Nothing to set.")

    def heading(self) -> str:
        """Return the shop and this terminal's name."""
        app = self.shop_app
        return f"Set-up: {app.shop.settings.name or 'the shop'}, terminal {app.terminal}"

    def reload(self) -> None:
        """Read what is set again."""
        app = self.shop_app
        self.shown_list().set_rows(
            [
                *build_rows(app.shop.builds.all(), app.scanning.at.build),
                *record_lines(app.shop),
                settings_row(app.shop.settings),
                keys_row(app.keyboard.changed),
                scanner_row(app.shop.settings.scanner_prefix),
                labels_row(app.shop),
                printers_row(),
                learn_row(app.scanning.unlearned),
                check_row(self._count),
                *look_rows(app.theme),
            ]
        )
        self._show_card()

    def on_screen_resume(self) -> None:
        """What was stopped meanwhile is no change of the shop, so it is always read again."""
        self._seen = -1

    def _show_card(self) -> None:
        app = self.shop_app
        if self._problems is not None:
            self.both.card.show("Health of the store", self._problems)
            return
        facts = (
            Fact("shop", app.shop.settings.name),
            Fact("store", str(app.shop.database.folder)),
            Fact("terminal", app.terminal),
            Fact("parts", str(len(app.shop.parts))),
            Fact("orders", str(len(app.shop.orders))),
            Fact("boxes", str(len(app.shop.boxes))),
            Fact("bins", str(len(app.shop.bins))),
            Fact("working days", in_words(app.shop.settings)["working_days"]),
            Fact("working hours", app.shop.settings.working_hours),
            Fact("holidays", in_words(app.shop.settings)["holidays"]),
        )
        self.both.card.show("This terminal", tuple(fact for fact in facts if fact.text))

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Do what the line says."""
        message.stop()
        app, line = self.shop_app, message.row.key
        if not isinstance(line, Line):
            return
        match line.what:
            case What.BUILD if isinstance(line.which, int):
                number = line.which
                app.talk.do(lambda: self._work_on(number))
            case What.RECORDS:
                kind = next(kind for kind, form in FORMS.items() if form.one == line.which)
                app.push_screen(Records(kind, self.station_name))
            case What.SETTINGS:
                app.push_screen(settings_form(app))
            case What.KEYS | What.LABELS | What.PRINTERS:
                app.push_screen(self._LISTS[line.what]())
            case What.SCANNER:
                self.action_scanner()
            case What.LEARN:
                self._learn()
            case What.CHECK:
                self.action_check()
            case What.LOOK:
                app.set_look(str(line.which))
                self.reload()

    def _work_on(self, number: int) -> Answer:
        app = self.shop_app
        build = app.shop.builds.get(number)
        app.shop.remember(app.terminal, build=number)
        return done(f"This terminal works on {build.title} now.", kind="vehicle", subject=number)

    def _learn(self) -> None:
        app = self.shop_app
        code = app.scanning.unlearned
        if not code:
            app.hearing.hear(
                stop("No code was stopped since the program was opened, so there is none to learn.")
            )
            return

        def save(values: Mapping[str, str]) -> Answer:
            part = app.shop.parts.by_code(values["part"].strip())
            if part is None:
                return stop("A part's code or tag was expected; no part is called that. See Parts (F8).")
            return app.scanning.learn_on_purpose(part)

        app.push_screen(
            Form(
                f"Learn {shown(code)} as plain text",
                (Field("part", "Part", "its code or tag"),),
                save,
                about="Its check fails, so it may have been misread. From now on it stands for this part.",
            )
        )

    def action_scanner(self) -> None:
        """Show the scanner page."""
        self.shop_app.push_screen(ScannerPage(self.shop_app.shop.settings.scanner_prefix))

    def action_labels(self) -> None:
        """List what lacks a label."""
        self.shop_app.push_screen(self._LISTS[What.LABELS]())

    def action_check(self) -> None:
        """Check the whole store."""
        work = Steps("Checking the whole store", self._check)
        self.shop_app.talk.do(lambda: done(f"{work.words} ...", work=work))

    def _check(self) -> Generator[tuple[int, int], None, Answer]:
        problems = yield from checking(self.shop_app.shop)
        facts: list[Fact] = []
        for problem in problems:
            facts.append(Fact("", f"! {problem.where}: {problem.what}", Tone.BAD))
            facts.append(Fact("", f"  {problem.remedy}"))
        self._problems = tuple(facts) or (Fact("", "+ The store is sound.", Tone.GOOD),)
        self._count = len(problems)
        self.both.opened = True
        self.reload()
        if problems:
            return stop(f"The whole store was checked: {len(problems)} problems, listed here.")
        return done("The whole store was checked: it is sound.")

    def step_back(self) -> None:
        """From the card to the lines."""
        self._problems = None
        self.both.opened = False
        self._show_card()
