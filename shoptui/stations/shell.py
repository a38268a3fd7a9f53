"""What every screen of the program has: heading, keys, open question, last answer, the line, the stations."""

from collections.abc import Iterable
from typing import TYPE_CHECKING, ClassVar, Generic, TypeVar, cast

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from shoptui.domain.inert import inert
from shoptui.stations.digits import DIGITS
from shoptui.stations.key_names import key_mark
from shoptui.stations.keys import EVERYWHERE_KEYS, HERE_KEYS, here
from shoptui.stations.line import Line
from shoptui.stations.question import QuestionPanel
from shoptui.stations.said import LastSaid
from shoptui.stations.station_list import STATIONS
from shoptui.stations.tap_bar import Tap, TapBar, fitting
from shoptui.stations.too_small import HEIGHT, WIDTH, TooSmall
from shoptui.stations.typed import Typed

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp

T = TypeVar("T")

_LAST = ("back", "undo")
"""Actions whose keys stand behind those of the screen: they work everywhere."""


class Shell(Screen[T], Generic[T]):
    """The frame of a screen; stations and forms fill its body."""

    DEFAULT_CSS = """
    Shell {
        layers: base cover;
        overflow: hidden;
        & > .heading { height: 1; background: $primary-muted; color: $text-primary; padding: 0 1; }
        & > .body { height: 1fr; }
        & > #digits { display: none; }
        &.-digits > #digits { display: block; }
        &.-low > TooSmall, &.-slim > TooSmall { display: block; }
        &:ansi > .heading { text-style: bold reverse; background: ansi_default; color: ansi_default; }
    }
    """
    HORIZONTAL_BREAKPOINTS = [(0, "-slim"), (WIDTH, "-fits"), (120, "-wide")]  # noqa: RUF012 - so typed
    VERTICAL_BREAKPOINTS = [(0, "-low"), (HEIGHT, "-tall")]  # noqa: RUF012 - likewise
    BINDINGS: ClassVar[list[BindingType]] = [
        here("escape", "back", "Back", "Go one step back", "screen.back"),
    ]

    @property
    def shop_app(self) -> "ShopApp":
        """The application, by its own type."""
        return cast("ShopApp", self.app)

    def compose(self) -> ComposeResult:
        """Lay the frame out."""
        yield Static("", classes="heading", markup=False)
        with Container(classes="body"):
            yield from self.body()
        yield TapBar(id="keys", last=3)
        yield QuestionPanel()
        yield LastSaid()
        yield Line()
        yield TapBar(id="digits")
        yield TapBar(id="stations")
        yield TooSmall()

    def body(self) -> Iterable[Widget]:
        """Return what fills the screen."""
        return ()

    def heading(self) -> str:
        """Return what stands at the top."""
        return ""

    def on_mount(self) -> None:
        """Follow the application's answers and keys."""
        self.bindings_updated_signal.subscribe(self, lambda _: self._keys_changed())
        self.watch(self.app, "typed", self._typed)
        self.watch(self.app, "reading", self._reading)
        self.query_one("#digits", TapBar).taps = DIGITS
        self.show_said()

    def on_screen_resume(self) -> None:
        """Take up what was said while another screen was in front; what was asked there is left."""
        self.shop_app.asking.drop_what_was_left()
        self.show_said()
        self._show_stations()
        self._show_keys()

    def _typed(self, typed: Typed) -> None:
        self.query_one(Line).typed = typed
        self.typed_changed(typed.text)

    def typed_changed(self, text: str) -> None:
        """Follow what was typed in the line."""

    def _reading(self, reading: bool) -> None:  # noqa: FBT001 - Textual calls it so
        self.query_one(Line).reading = reading

    def show_said(self) -> None:
        """Show the last answer and the open question."""
        if not self.is_mounted:
            return
        self.query_one(LastSaid).answer = self.shop_app.hearing.last_answer
        self.query_one(QuestionPanel).ask(self.shop_app.asking.open_question)

    def show_heading(self) -> None:
        """Write the heading again."""
        right = self._at_terminal()
        room = max(1, self.size.width - 2 - cell_len(right))
        left = inert(self.heading(), limit=max(1, room - 1))
        gap = " " * (room - cell_len(left))
        self.query_one(".heading", Static).update(Content(f"{left}{gap}{right}"), layout=False)

    def _at_terminal(self) -> str:
        """Return build and person of this terminal, for the heading."""
        at = self.shop_app.scanning.at
        build, person = at.build, at.person
        return "  ".join(
            words
            for words in (
                f"build {build.code}" if build else "no build chosen",
                person.name if person else "",
            )
            if words
        )

    def on_resize(self) -> None:
        """Fit the heading."""
        self.show_heading()
        self._show_stations()
        self.query_one(TooSmall).refresh()

    def _show_stations(self) -> None:
        taps = self._station_taps(short=False)
        if len(fitting(taps, self.size.width, 0)) < len(taps):
            taps = self._station_taps(short=True)
        self.query_one("#stations", TapBar).taps = taps

    def _station_taps(self, *, short: bool) -> tuple[Tap, ...]:
        front = self.app.current_mode
        mark = self.shop_app.keyboard.mark
        return (
            Tap("app.help_page", mark("help"), "Help"),
            *(
                Tap(
                    f"app.station('{station.name}')",
                    mark(f"station.{station.name}"),
                    (short and station.short) or station.title,
                    here=station.name == front,
                )
                for station in STATIONS
            ),
        )

    def _keys_changed(self) -> None:
        self._show_keys()
        self._show_stations()

    def _show_keys(self) -> None:
        if not self.is_mounted or not self.is_attached:
            return
        found = {
            active.binding.action: (
                self._rank(active.binding),
                Tap(
                    "app.undo" if active.binding.action == "undo" else active.binding.action,
                    key_mark(active.binding.key),
                    active.binding.description,
                    able=active.enabled,
                ),
            )
            for active in reversed(self.active_bindings.values())  # of several keys the first is shown
            if active.binding.show and active.binding.group in (HERE_KEYS, EVERYWHERE_KEYS)
        }
        taps = [tap for _, tap in sorted(found.values(), key=lambda ranked: ranked[0])]
        taps.append(Tap("app.command_palette", self.shop_app.keyboard.mark("more"), "More"))
        self.query_one("#keys", TapBar).taps = tuple(taps)
        self.show_heading()

    def _rank(self, binding: Binding) -> tuple[bool, int]:
        """Return where a key stands in the row: first what belongs to the screen, in the order it has there.

        A key that somebody changed is found last, and would stand where there is no room.
        """
        if binding.action in _LAST:
            return True, _LAST.index(binding.action)
        own = [each.id for each in type(self).BINDINGS if isinstance(each, Binding)]
        return False, own.index(binding.id) if binding.id in own else len(own)

    async def on_tap_bar_tapped(self, message: TapBar.Tapped) -> None:
        """Do what was tapped."""
        message.stop()
        await self.run_action(message.tap.action)

    def on_line_tapped(self) -> None:
        """Show the digits, or put them away."""
        self.toggle_class("-digits")

    def on_last_said_tapped(self) -> None:
        """Show the earlier answers."""
        self.shop_app.action_earlier()

    def on_question_panel_replied(self, message: QuestionPanel.Replied) -> None:
        """Answer the question."""
        message.stop()
        self.shop_app.talk.reply(message.reply)

    def action_back(self) -> None:
        """Go one step back: drop the question, then the words in the line, then what is open here."""
        if not self.shop_app.talk.back():
            self.step_back()

    def step_back(self) -> None:
        """Leave what is open on this screen."""
