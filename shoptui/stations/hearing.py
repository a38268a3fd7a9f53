"""What is said to a person: shown, rung for, and kept for whoever reads it later."""

from collections import deque
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer, Said
from shoptui.stations.said import Heard
from shoptui.stations.shell import Shell

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp

KEPT_ANSWERS = 20
LONGEST = 300
"""Cells of an answer that are shown over a page."""

PAGE_SECONDS = 4.0
"""How long an answer stands over a page."""


class Hearing:
    """The last answers, newest first.

    Args:
        app: The application, whose screens show them.

    """

    def __init__(self, app: "ShopApp") -> None:
        self._app = app
        self.heard: deque[Heard] = deque(maxlen=KEPT_ANSWERS)
        self.asked_on: Shell[Any] | None = None
        """The screen in front when something was last asked or offered."""

    def hear(self, answer: Answer) -> None:
        """Show an answer, ring for what needs a look, and bring its station forward."""
        app = self._app
        self.heard.appendleft(Heard(app.shop.clock(), answer))
        if answer.said is not Said.DONE:
            app.bell()
        if answer.show:
            app.bring_forward(answer.show)
        if answer.asks or answer.offers:
            self.asked_on = app.shell_in_front
        if isinstance(app.screen, Shell):
            app.screen.show_said()
        else:
            # A page lies over the line that says it.
            words = inert(app.keyboard.follow(answer.text, app.current_mode), limit=LONGEST)
            app.notify(words, title=answer.said.upper(), timeout=PAGE_SECONDS, markup=False)
        if (station := app.station_screen) is not None:
            station.after_the_words(lambda: app.show_answer(station, answer))

    def say_instead(self, before: Answer, text: str) -> Answer:
        """Say something in the place of an answer if nothing was said since; return what stands there."""
        after = replace(before, text=text)
        if self.heard and self.heard[0].answer is before:
            self.heard[0] = Heard(self._app.shop.clock(), after)
            if isinstance(self._app.screen, Shell):
                self._app.screen.show_said()
            return after
        return before

    @property
    def last_answer(self) -> Answer | None:
        """What was said last."""
        return self.heard[0].answer if self.heard else None

    def unsay(self, kind: str) -> None:
        """Take back what was said last if it is of a kind: it is true no longer."""
        if self.heard and self.heard[0].answer.kind == kind:
            self.heard.popleft()
            if isinstance(self._app.screen, Shell):
                self._app.screen.show_said()
