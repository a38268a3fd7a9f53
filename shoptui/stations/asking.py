"""What is asked at this moment: by the last scan, or by the program itself of what concerns its screens."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.scan import Scanning
from shoptui.stations.hearing import Hearing

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp

LEFT = "The question was left, and is dropped; nothing changed."


class Asking:
    """The open question of one terminal.

    Args:
        app: The application, on whose screens it was asked.
        scanning: The brain, which has the questions of scans.
        hearing: Says what is asked.

    """

    def __init__(self, app: "ShopApp", scanning: Scanning, hearing: Hearing) -> None:
        self._app = app
        self._scanning = scanning
        self._hearing = hearing
        self.own: Answer | None = None
        """What the program itself asks."""

    @property
    def open_question(self) -> Answer | None:
        """What is asked at this moment, by the program itself or by the last scan.

        An answer that would only take another scan or words as its follow-up asks nothing; one with something
        to pick shows that. What was asked on another screen is asked no longer.
        """
        asked = self._asked
        return asked if self._hearing.asked_on is self._app.shell_in_front else None

    @property
    def _asked(self) -> Answer | None:
        asked = self.own or self._scanning.question
        return asked if asked is not None and (asked.asks or asked.offers) else None

    def drop_what_was_left(self) -> None:
        """Drop the question of another screen, with words: an Enter here is meant for something else."""
        asked = self._asked
        if asked is not None and self.open_question is None:
            self.drop()
            if asked.asks:
                self._hearing.hear(stop(LEFT))

    @property
    def takes_words(self) -> bool:
        """Whether words typed now are a note on what was done, before they are words for the list."""
        offer = self._scanning.question
        return offer is not None and offer.question is not None and offer.question.words is not None

    def withdraw_offer(self) -> None:
        """Forget that the next scan could carry on what was done: something else was begun in between.

        Nothing is said, since nothing was asked; a question stays open.
        """
        offer = self._scanning.question
        if offer is not None and not offer.asks:
            self._scanning.drop()

    def drop(self) -> None:
        """Drop the open question without a word: what comes next says enough."""
        self.own = None
        self._scanning.drop()

    def ask(self, text: str, yes: Callable[[], object], said: str, *, kind: str = "") -> None:
        """Ask something that concerns the screen, not the shop."""

        def take() -> Answer:
            yes()
            return done(said)

        self.ask_for(text, Question(yes=take), kind=kind)

    def ask_for(self, text: str, question: Question, *, kind: str = "") -> None:
        """Ask for something that concerns the screen; what no question foresees comes with `settle`."""
        self.own = Answer(Said.QUESTION, text, kind=kind, question=question)
        self._hearing.hear(self.own)

    def settle(self, answer: Answer) -> None:
        """Say what became of a question that concerns the screen."""
        self.take_own()
        self._hearing.hear(answer)

    def take_own(self) -> Answer | None:
        """Return what the program itself asks, which is asked no longer."""
        own, self.own = self.own, None
        return own

    def is_asking(self, kind: str) -> bool:
        """Return whether a question of the program's own is open."""
        return self.own is not None and self.own.kind == kind
