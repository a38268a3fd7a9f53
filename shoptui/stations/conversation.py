"""What a person says to the program: scans, typed lines, replies and keys, and what each is answered with."""

from dataclasses import replace
from typing import TYPE_CHECKING

from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer, done, stop
from shoptui.jobs.matching import taken_for
from shoptui.jobs.scan import DROPPED, ONLY_DROPPED, Scanning
from shoptui.jobs.undo import undo
from shoptui.stations.asking import Asking
from shoptui.stations.form import Form
from shoptui.stations.hearing import Hearing
from shoptui.stations.job_queue import Job
from shoptui.stations.long_work import LongWork
from shoptui.stations.question import QuestionPanel, Reply, Way
from shoptui.stations.shell import Shell
from shoptui.stations.station import is_no_count, is_number
from shoptui.stations.typed import Typed
from shoptui.stations.wrong import in_words

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp

LET_GO = "words to let go"
UNKNOWN = ("words", "number")
"""What is taken for one of these stands for nothing."""


class Conversation:
    """One terminal's scans, lines and replies, each a job of the queue.

    Args:
        app: The application, whose screens show what is said.
        scanning: The brain that the command line uses as well.
        asking: Knows what is asked at this moment.
        hearing: Says what was answered.

    """

    def __init__(self, app: "ShopApp", scanning: Scanning, asking: Asking, hearing: Hearing) -> None:
        self.scanning = scanning
        self._app = app
        self._asking = asking
        self._hearing = hearing
        self._count = 1
        self._card = scanning.card.kept
        self._let_go_of = ""
        self._work = LongWork(app)

    def do(self, job: Job) -> None:
        """Put something that a key or a tap asked for at the end of the queue; it drops the open question."""

        def run() -> Answer | None:
            asked = self._asking.open_question
            dropped = asked if asked is not None and asked.asks else None
            self._asking.drop()
            answer = job()
            if dropped is None or answer is None or (dropped.card and dropped.subject == answer.subject):
                return answer  # nothing was asked, or the same card was turned to something else
            return replace(answer, text=f"{answer.text} {DROPPED}")

        self._app.jobs.later(run)

    def run_job(self, job: Job) -> Answer | None:
        """Run a job and say what it answered; whatever goes wrong becomes a sentence."""
        self._asking.drop_what_was_left()
        try:
            answer = job()
        except Exception as error:  # noqa: BLE001 - somebody is at work here: it is said, and the work goes on
            self._app.log(error)
            answer = stop(in_words(error))
        if answer is not None:
            if answer.question is not None and answer is not self._asking.own:
                self.scanning.asked(answer)
            self._hearing.hear(answer)
            if answer.work is not None:
                self._work.begin(answer, answer.work)
        self._remember_card()
        return answer

    def _remember_card(self) -> None:
        """What lies open at the lift is written down, so that closing the program does not lose it."""
        card = self.scanning.card
        if card.kept != self._card:
            self._card = card.kept
            card.remember(self.scanning.shop, self.scanning.terminal)

    def put_card_down(self) -> None:
        """Lay the lift's card aside."""
        self.scanning.card.put_down()
        self._remember_card()

    def card_again(self) -> None:
        """Take up the card that lay open at the lift when the program was closed."""
        if self.scanning.card.part is None:
            self._app.jobs.later(self.scanning.card_again)

    def take_scan(self, text: str, count: int = 1, *, twice: bool = False) -> Answer:
        """Give the brain a scan; a question of the screen's own is dropped by it, with words."""
        own = self._asking.take_own()
        answer = self.scanning.take(text, count, twice=twice)
        return answer if own is None else replace(answer, text=f"{answer.text} {DROPPED}")

    def take_line(self, text: str, *, twice: bool = False) -> Answer | None:
        """Take a typed line: an answer to the open question, a row, a code, or words for the list."""
        if text.strip() == "?":
            self._app.action_help_page()
            return None
        screen = self._app.screen
        if self._asking.open_question is not None and isinstance(screen, Shell):
            reply = screen.query_one(QuestionPanel).picked(text)
            if reply is not None:
                return self._replied(reply)
        if (
            is_no_count(text)
            and self._asking.open_question is None
            and taken_for(self.scanning.at, text) in UNKNOWN
        ):
            return stop(f"A whole number from 1 was expected; {inert(text)} came.", kind="number")
        self._asking.take_own()
        station, count = self._app.station_screen, self.take_count()
        if (
            self._asking.open_question is None
            and not (self._asking.takes_words and not is_number(text))
            and station is screen
            and station is not None
            and station.take_line(text, count)
        ):
            self.scanning.drop()
            return None
        if is_number(text) and self._asking.open_question is None and not self.scanning.card_of_joints:
            self._asking.withdraw_offer()
            self._count = int(text)
            words = f"{text} of what is scanned next, or of the next row's number. Escape: one again."
            return done(words, kind="number", qty=self._count)
        return self.scanning.take(text.strip(), count, twice=twice, typed=True)

    def take_count(self) -> int:
        """Return the count that was typed before the scan that is coming, and forget it."""
        count, self._count = self._count, 1
        return count

    def undo(self) -> None:
        """Take back the last thing done here; a question that was begun goes first, and nothing with it."""

        def run() -> Answer:
            asked = self._asking.open_question
            begun = asked is not None and asked.asks
            if asked is self.scanning.question and self.scanning.asks_after_deed:
                begun = False
            self._asking.drop()
            return stop(ONLY_DROPPED) if begun else undo(self.scanning.at)

        self._app.jobs.later(run)

    def reply(self, reply: Reply) -> None:
        """Answer the open question."""
        self._app.jobs.later(lambda: self._replied(reply))

    def _replied(self, reply: Reply) -> Answer | None:
        own = self._asking.take_own()
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
        if self._asking.open_question is None:
            self._asking.withdraw_offer()
        if self._work.under_way:
            self._work.stop()
        elif self._asking.open_question is not None:
            self.reply(Reply(Way.NO, ""))
        elif app.typed.text and not isinstance(app.screen, Form):
            self._let_go(app.typed.text)
        elif self._count > 1:
            self.take_count()
            self._hearing.hear(done("One of what is scanned next."))
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
            self._hearing.hear(stop(f"Escape again lets go of the words “{text}”.", kind=LET_GO))

    def words_changed(self) -> None:
        """Take back what was said of letting go of words: they are others now."""
        self._let_go_of = ""
        self._hearing.unsay(LET_GO)
