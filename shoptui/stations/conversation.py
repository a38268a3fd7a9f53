"""What is said between a person and the program: scans and typed lines in, answers and questions out.

Everything goes through one queue, so that answers come in the order of the scans, and a slow job never holds
up the keys.
"""

import asyncio
from collections import deque
from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.matching import taken_for
from shoptui.jobs.scan import ONLY_DROPPED, Scanning
from shoptui.jobs.undo import undo
from shoptui.stations.form import Form
from shoptui.stations.long_work import LongWork
from shoptui.stations.question import QuestionPanel, Reply, Way
from shoptui.stations.said import Heard
from shoptui.stations.shell import Shell
from shoptui.stations.station import is_no_count, is_number
from shoptui.stations.typed import Typed
from shoptui.stations.wrong import in_words

if TYPE_CHECKING:
    from textual.screen import Screen

    from shoptui.stations.app import ShopApp

KEPT_ANSWERS = 20
LET_GO = "words to let go"
UNKNOWN = ("words", "number")
"""What is taken for one of these stands for nothing."""

DROPPED = "(The question before was dropped.)"
LEFT = "The question was left, and is dropped; nothing changed."
LONGEST = 300
"""Cells of an answer that are shown over a page."""

PAGE_SECONDS = 4.0
"""How long an answer stands over a page."""

Job = Callable[[], Answer | None]


class Conversation:
    """One terminal's scans, lines, questions and answers.

    Args:
        app: The application, whose screens show what is said.
        scanning: The brain that the command line uses as well.

    """

    def __init__(self, app: "ShopApp", scanning: Scanning) -> None:
        self.scanning = scanning
        self.heard: deque[Heard] = deque(maxlen=KEPT_ANSWERS)
        self._app = app
        self._jobs: asyncio.Queue[Job] = asyncio.Queue()
        self._own: Answer | None = None
        self._asked_on: Screen[Any] | None = None
        """The screen that the open question was asked on: on no other can it be answered."""
        self._count = 1
        self._card = scanning.card_now
        self._let_go_of = ""
        self._work = LongWork(app)

    # The queue

    def later(self, job: Job) -> None:
        """Put a job at the end of the queue."""
        self._jobs.put_nowait(job)

    def do(self, job: Job) -> None:
        """Put something that a key or a tap asked for at the end of the queue; it drops the open question."""

        def run() -> Answer | None:
            asked = self.open_question
            dropped = asked if asked is not None and asked.asks else None
            self._own = None
            self.scanning.drop()
            answer = job()
            if dropped is None or answer is None or (dropped.card and dropped.subject == answer.subject):
                return answer  # nothing was asked, or the same card was turned to something else
            return replace(answer, text=f"{answer.text} {DROPPED}")

        self.later(run)

    async def work_through(self) -> None:
        """Run the jobs one after the other, for ever."""
        while True:
            self.run_job(await self._jobs.get())
            self._jobs.task_done()
            # Others get their turn: a hundred scans in the queue must not freeze the keys.
            await asyncio.sleep(0)

    @property
    def idle(self) -> bool:
        """Whether nothing waits to be done."""
        return self._jobs.empty()

    async def all_done(self) -> None:
        """Wait until every job in the queue has been answered."""
        await self._jobs.join()

    def run_job(self, job: Job) -> Answer | None:
        """Run a job and say what it answered; whatever goes wrong becomes a sentence."""
        self.drop_what_was_left()
        try:
            answer = job()
        except Exception as error:  # noqa: BLE001 - somebody is at work here: it is said, and the work goes on
            self._app.log(error)
            answer = stop(in_words(error))
        if answer is not None:
            if answer.question is not None and answer is not self._own:
                self.scanning.asked(answer)
            self.hear(answer)
            if answer.work is not None:
                self._work.begin(answer, answer.work)
        self._remember_card()
        return answer

    def _remember_card(self) -> None:
        """What lies open at the lift is written down, so that closing the program does not lose it."""
        if self.scanning.card_now != self._card:
            self._card = self.scanning.card_now
            self.scanning.remember_card()

    def put_card_down(self) -> None:
        """Lay the lift's card aside."""
        self.scanning.put_card_down()
        self._remember_card()

    def card_again(self) -> None:
        """Take up the card that lay open at the lift when the program was closed."""
        if self.scanning.card is None:
            self.later(self.scanning.card_again)

    # In

    def take_scan(self, text: str, count: int = 1, *, twice: bool = False) -> Answer:
        """Give the brain a scan; a question of the screen's own is dropped by it, with words."""
        own, self._own = self._own, None
        answer = self.scanning.take(text, count, twice=twice)
        return answer if own is None else replace(answer, text=f"{answer.text} {DROPPED}")

    def take_line(self, text: str, *, twice: bool = False) -> Answer | None:
        """Take a typed line: an answer to the open question, a row, a code, or words for the list."""
        if text.strip() == "?":
            self._app.action_help_page()
            return None
        screen = self._app.screen
        if self.open_question is not None and isinstance(screen, Shell):
            reply = screen.query_one(QuestionPanel).picked(text)
            if reply is not None:
                return self._replied(reply)
        if is_no_count(text) and self.open_question is None and taken_for(self.scanning.at, text) in UNKNOWN:
            return stop(f"A whole number from 1 was expected; {inert(text)} came.", kind="number")
        self._own = None
        station, count = self._app.station_screen, self.take_count()
        if (
            self.open_question is None
            and not (self._takes_words and not is_number(text))
            and station is screen
            and station is not None
            and station.take_line(text, count)
        ):
            self.scanning.drop()
            return None
        if is_number(text) and self.open_question is None and not self.scanning.card_of_joints:
            self.withdraw_offer()
            self._count = int(text)
            words = f"{text} of what is scanned next, or of the next row's number. Escape: one again."
            return done(words, kind="number", qty=self._count)
        return self.scanning.take(text.strip(), count, twice=twice, typed=True)

    def take_count(self) -> int:
        """Return the count that was typed before the scan that is coming, and forget it."""
        count, self._count = self._count, 1
        return count

    # Out

    def hear(self, answer: Answer) -> None:
        """Show an answer, ring for what needs a look, and bring its station forward."""
        app = self._app
        self.heard.appendleft(Heard(app.shop.clock(), answer))
        if answer.said is not Said.DONE:
            app.bell()
        if answer.show:
            app.bring_forward(answer.show)
        if answer.asks or answer.offers:
            self._asked_on = app.shell_in_front
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

    # Questions

    @property
    def open_question(self) -> Answer | None:
        """What is asked at this moment, by the program itself or by the last scan.

        An answer that would only take another scan or words as its follow-up asks nothing; one with something
        to pick shows that. What was asked on another screen is asked no longer.
        """
        asked = self._asked
        return asked if self._asked_on is self._app.shell_in_front else None

    @property
    def _asked(self) -> Answer | None:
        asked = self._own or self.scanning.question
        return asked if asked is not None and (asked.asks or asked.offers) else None

    def drop_what_was_left(self) -> None:
        """Drop the question of another screen, with words: an Enter here is meant for something else."""
        asked = self._asked
        if asked is not None and self.open_question is None:
            self.drop_question()
            if asked.asks:
                self.hear(stop(LEFT))

    @property
    def _takes_words(self) -> bool:
        """Whether words typed now are a note on what was done, before they are words for the list."""
        offer = self.scanning.question
        return offer is not None and offer.question is not None and offer.question.words is not None

    def withdraw_offer(self) -> None:
        """Forget that the next scan could carry on what was done: something else was begun in between.

        Nothing is said, since nothing was asked; a question stays open.
        """
        offer = self.scanning.question
        if offer is not None and not offer.asks:
            self.scanning.drop()

    def undo(self) -> None:
        """Take back the last thing done here; an open question goes first, and nothing with it."""

        def run() -> Answer:
            asked = self.open_question
            self.drop_question()
            return stop(ONLY_DROPPED) if asked is not None and asked.asks else undo(self.scanning.at)

        self.later(run)

    def drop_question(self) -> None:
        """Drop the open question without a word: what comes next says enough."""
        self._own = None
        self.scanning.drop()

    def ask(self, text: str, yes: Callable[[], object], said: str, *, kind: str = "") -> None:
        """Ask something that concerns the screen, not the shop."""

        def take() -> Answer:
            yes()
            return done(said)

        self.ask_for(text, Question(yes=take), kind=kind)

    def ask_for(self, text: str, question: Question, *, kind: str = "") -> None:
        """Ask for something that concerns the screen; what no question foresees comes with `settle`."""
        self._own = Answer(Said.QUESTION, text, kind=kind, question=question)
        self.hear(self._own)

    def settle(self, answer: Answer) -> None:
        """Say what became of a question that concerns the screen."""
        self._own = None
        self.hear(answer)

    def is_asking(self, kind: str) -> bool:
        """Return whether a question of the program's own is open."""
        return self._own is not None and self._own.kind == kind

    def reply(self, reply: Reply) -> None:
        """Answer the open question."""
        self.later(lambda: self._replied(reply))

    def _replied(self, reply: Reply) -> Answer | None:
        own, self._own = self._own, None
        if own is not None and own.question is not None:
            if reply.way is Way.YES and own.question.yes is not None:
                return own.question.yes()
            return done("Left as it was.")
        match reply.way:
            case Way.YES:
                return self.scanning.yes()
            case Way.CHOICE:
                return self.scanning.typed(str(reply.number))
        return self.scanning.no() or done("Left as it was; nothing changed.")

    def back(self) -> bool:
        """Take one step back in what is not a screen's own; return whether there was one."""
        app = self._app
        if self.open_question is None:
            self.withdraw_offer()
        if self._work.under_way:
            self._work.stop()
        elif self.open_question is not None:
            self.reply(Reply(Way.NO, ""))
        elif app.typed.text and not isinstance(app.screen, Form):
            self._let_go(app.typed.text)
        elif self._count > 1:
            self.take_count()
            self.hear(done("One of what is scanned next."))
        else:
            return False
        return True

    def _let_go(self, text: str) -> None:
        """Nothing typed is lost by one slip of a finger."""
        if self._let_go_of == text:
            self._app.typed = Typed()
            self._let_go_of = ""
        else:
            self._let_go_of = text
            self.hear(stop(f"Escape again lets go of the words “{text}”.", kind=LET_GO))

    def words_changed(self) -> None:
        """Take back what was said of letting go of words: they are others now."""
        self._let_go_of = ""
        if self.heard and self.heard[0].answer.kind == LET_GO:
            self.heard.popleft()
            if isinstance(self._app.screen, Shell):
                self._app.screen.show_said()
