"""The application: the stations, where keys go first, and what stands in front."""

import os
from functools import partial
from pathlib import Path
from typing import Any, ClassVar

from rich.text import Text
from textual import events
from textual.app import App
from textual.binding import BindingType
from textual.keys import key_to_character
from textual.reactive import reactive
from textual.screen import ModalScreen
from textual.widgets import Input, TextArea

from shoptui.domain.recognise import read
from shoptui.domain.records import Wrench
from shoptui.jobs.answers import Answer, stop
from shoptui.jobs.count import left
from shoptui.jobs.scan import Scanning
from shoptui.stations.actions import actions
from shoptui.stations.asking import Asking
from shoptui.stations.conversation import Conversation
from shoptui.stations.filming.screen import Filming
from shoptui.stations.form import Form
from shoptui.stations.hardware.screen import Hardware
from shoptui.stations.hearing import Hearing
from shoptui.stations.help import HelpPage
from shoptui.stations.intake import Intake
from shoptui.stations.job_queue import JobQueue
from shoptui.stations.keyboard import Keyboard
from shoptui.stations.keys import EVERYWHERE
from shoptui.stations.lift.screen import Lift
from shoptui.stations.others import LOOK_EVERY, Others
from shoptui.stations.palette import Palette, ShopCommands
from shoptui.stations.parts.screen import Parts
from shoptui.stations.racks.screen import Racks
from shoptui.stations.receiving.screen import Receiving
from shoptui.stations.records.reopen import offer_draft
from shoptui.stations.records.screen import Records, wrench_card
from shoptui.stations.said import EarlierAnswers
from shoptui.stations.setup.screen import SetUp
from shoptui.stations.shell import Shell
from shoptui.stations.station import StationScreen
from shoptui.stations.themes import OWN_THEMES, THEMES, USUAL, WITHOUT_COLOUR
from shoptui.stations.today.screen import Today
from shoptui.stations.typed import Typed
from shoptui.stations.wrong import details_of
from shoptui.store.shop import Shop

ONCE_SHOWN = 0.05
"""Seconds after which the first frame stands, and what it did not need is made ready."""

ANY_CODE = "(01)09521234543213"


class ShopApp(App[None], inherit_bindings=False):
    """The program on the screen of one terminal.

    Args:
        shop: The open shop; it belongs to this application's thread.
        terminal: Name of the terminal.
        build: Code of the build to work on, None for the terminal's own.
        keys: File with this person's keys; None for the usual ones.

    """

    TITLE = "shoptui"
    AUTO_FOCUS = None
    COMMANDS: ClassVar = {ShopCommands}
    MODES: ClassVar = {
        "today": Today,
        "receiving": Receiving,
        "lift": Lift,
        "filming": Filming,
        "racks": Racks,
        "hardware": Hardware,
        "parts": Parts,
        "setup": SetUp,
    }
    DEFAULT_MODE = "today"
    BINDINGS: ClassVar[list[BindingType]] = list(EVERYWHERE)

    typed: reactive[Typed] = reactive(Typed())
    reading: reactive[bool] = reactive(default=False)

    def __init__(
        self, shop: Shop, terminal: str, *, build: str | None = None, keys: Path | None = None
    ) -> None:
        # Without colour the terminal's own pair is used: greys would hide what colour said.
        super().__init__(ansi_color=True if "NO_COLOR" in os.environ else None)
        for theme in OWN_THEMES:
            self.register_theme(theme)
        look = shop.terminal(terminal).look
        self.theme = WITHOUT_COLOUR if self.no_color else look if look in THEMES else USUAL
        self.shop = shop
        self.terminal = terminal
        self.keyboard = Keyboard(actions(Shell), keys, shop.settings.scanner_prefix)
        self.scanning = Scanning(shop, terminal, station=self.DEFAULT_MODE, build=build or "")
        self.hearing = Hearing(self)
        self.asking = Asking(self, self.scanning, self.hearing)
        self.talk = Conversation(self, self.scanning, self.asking, self.hearing)
        self.jobs = JobQueue(self.talk.run_job)
        self.intake = Intake(self)
        self.others = Others(self)

    # Coming and going

    def on_mount(self) -> None:
        """Start the one worker, and look for what others do."""
        self.shop.watch(self.others.shop_changed)
        self.run_worker(self.jobs.work_through(), name="scans")
        self.set_interval(LOOK_EVERY, self._look)
        self.set_timer(ONCE_SHOWN, self._get_ready)
        self.keys_changed()
        if self.keyboard.trouble:
            self.hearing.hear(stop(self.keyboard.trouble))
        self.jobs.later(lambda: left(self.scanning.at))
        self.jobs.later(partial(offer_draft, self))

    def _look(self) -> None:
        self.intake.look()
        self.others.look()

    def keys_changed(self) -> None:
        """Go by the keys as the keyboard has them now."""
        self.set_keymap(self.keyboard.keymap)

    def _get_ready(self) -> None:
        """Load what reads codes, and their index: better now than under somebody's first scan."""
        self.shop.codes.find(read(ANY_CODE))

    def set_look(self, theme: str) -> None:
        """Change the colours, and keep them for this terminal."""
        self.theme = theme
        self.jobs.later(partial(self._keep_look, theme))

    def _keep_look(self, theme: str) -> None:
        self.shop.remember(self.terminal, look=theme)

    def action_leave(self) -> None:
        """Ask before leaving; asked twice is answered."""
        if self.asking.is_asking("leave"):
            self.exit()
            return
        self.asking.ask(
            f"Leave the program? Everything is saved. Enter or {self.keyboard.words('leave')} again leaves.",
            self.exit,
            "Good bye.",
            kind="leave",
        )

    def _fatal_error(self) -> None:
        """Say in a sentence that the program broke; the details go to a file, not to a person's screen."""
        self.bell()
        error = self._exception
        words = f"The screens stopped, which is a fault of the program ({type(error).__name__})."
        self.panic(Text(f"{words} What was acknowledged is saved. The details are in {details_of(error)}."))

    # Keys

    async def on_event(self, event: events.Event) -> None:
        """Let the scanner's keys and the line's letters be taken before anything else sees them."""
        taken = False
        if isinstance(event, events.Key) and not event.is_forwarded:
            taken = self.intake.key(event)
        elif isinstance(event, events.Paste) and not event.is_forwarded:
            taken = self.intake.paste(event)
        if taken:
            event.stop()
        else:
            await super().on_event(event)

    @property
    def in_field(self) -> Input | TextArea | None:
        """The form field that has the focus, if one has."""
        focused = self.screen.focused if self.screen_stack else None
        return focused if isinstance(focused, Input | TextArea) else None

    # Actions

    def action_station(self, name: str) -> None:
        """Go to a station; words that were typed for another one's list stay behind."""
        if name != self.scanning.station:
            self.clear_line()
        self.bring_forward(name)

    def bring_forward(self, name: str) -> None:
        """Show the station that an answer belongs to; a next scan that has begun in the line goes on."""
        if name != self.scanning.station and not self.intake.decoder.passing:
            self.clear_line()
        if isinstance(self.screen, ModalScreen):
            self.screen.dismiss()
        if name != self.scanning.station:
            self.asking.withdraw_offer()
        self.scanning.station = name
        self.switch_mode(name)

    def visit(self, station: str, subject: int) -> None:
        """Go to a station and bring a record into view there."""
        self.action_station(station)
        screen = self.station_screen
        if screen is not None and subject:
            screen.when_ready(lambda: screen.visit(subject))

    def show_answer(self, station: StationScreen, answer: Answer) -> None:
        """Show what an answer is about; a wrench has no station, so its card lies over the one in front.

        At the lift it is taken in hand, and what is worked on there stays in view.
        """
        is_list = isinstance(station, Records) and station.kind is Wrench
        card_wanted = answer.kind == "wrench" and answer.subject and not answer.asks
        if card_wanted and not is_list and station is self.screen and self.scanning.station != "lift":
            self.push_screen(wrench_card(station.station_name, answer.subject))
        else:
            station.show_answer(answer)

    @property
    def station_screen(self) -> StationScreen | None:
        """The station in front, or a list over it, also while a form or a page lies over that."""
        return next((each for each in reversed(self.screen_stack) if isinstance(each, StationScreen)), None)

    @property
    def shell_in_front(self) -> Shell[Any] | None:
        """The screen in front, also while a page lies over it."""
        return next((each for each in reversed(self.screen_stack) if isinstance(each, Shell)), None)

    def action_type(self, key: str) -> None:
        """Take a tap on a digit as its key: it goes where the key would go."""
        event = events.Key(key, key_to_character(key))
        # A message does not pass by whoever sent it; the keyboard's own keys come from the application.
        event.set_sender(self)
        self.post_message(event)

    def action_help_page(self) -> None:
        """Show the help for the station in front."""
        if isinstance(self.screen, HelpPage):
            self.screen.dismiss()
        elif not isinstance(self.screen, ModalScreen):
            self.push_screen(HelpPage(self.current_mode))

    def action_command_palette(self) -> None:
        """Find a station or something that can be done here."""
        if not isinstance(self.screen, Palette):
            self.push_screen(Palette(id="--command-palette"))

    def action_earlier(self) -> None:
        """Show the last answers."""
        if not isinstance(self.screen, ModalScreen):
            self.push_screen(EarlierAnswers(tuple(self.hearing.heard)))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """In a form, undo belongs to the form."""
        if action == "undo" and (self.in_field is not None or isinstance(self.screen, Form)):
            return False
        return super().check_action(action, parameters)

    def watch_typed(self) -> None:
        """What was said of words that have changed is said no longer."""
        self.talk.words_changed()

    def clear_line(self) -> None:
        """Let go of words that have led where they should."""
        self.typed = Typed()

    def action_undo(self) -> None:
        """Take back the last thing done at this terminal."""
        self.talk.undo()
