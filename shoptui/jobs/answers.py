"""What a scan or a job says back: done, question, stop or unknown, in words, with the facts beside them."""

from collections.abc import Callable, Generator
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

from shoptui.domain.records import Part, Person
from shoptui.jobs.steps import progress


class Said(StrEnum):
    """The four answers."""

    DONE = "done"
    QUESTION = "question"
    STOP = "stop"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Choice:
    """One numbered way to answer a question."""

    label: str
    take: Callable[[], "Answer"]


@dataclass(frozen=True, slots=True)
class Question:
    """What an open question can be answered with.

    Args:
        yes: What Enter, the same scan again or the command tag `yes` does; None if it needs more than a yes.
        choices: What a number and Enter picks, 1 first.
        accepts: What another scan or typed line may answer; it returns None for what is no answer, and the
            question is then dropped, with words.
        words: What typed words may answer that stand for nothing here: a note, a file's path.
        again: Whether the same scan again says yes: not where it may be misread, and then is so twice.
        badge_again: What the badge does that answered the question before this one: it may have been read
            twice, and then answers nothing. None where a badge gives no signature.
        no: What Escape or the command tag `no` does, where there is something to go back to; None lets it
            go. Nothing changes by it.

    """

    yes: Callable[[], "Answer"] | None = None
    choices: tuple[Choice, ...] = ()
    accepts: "Callable[[str], Answer | None] | None" = None
    words: "Callable[[str], Answer | None] | None" = None
    again: bool = True
    badge_again: "Callable[[Person], Answer] | None" = None
    no: "Callable[[], Answer] | None" = None


@dataclass(frozen=True, slots=True)
class Work:
    """Something that takes longer than a blink, done beside everything else, before its answer is known.

    Args:
        words: What is done, in a few words.
        run: Does it, in any thread; what it is given is told how far it is of how much, and returns whether
            to go on.
        finish: Given what that returned, writes it down and answers, in the shop's own thread.
        unit: In what it is said how far it is: `MB`; empty where that is clear from the words.
        in_unit: How many of what is counted are one of that.

    >>> copying = Work("Copying", lambda go_on: None, done, "MB", 1_000_000)
    >>> copying.far(50_000_000, 199_000_001)
    '50 of 200 MB'

    """

    words: str
    run: "Callable[[Callable[[int, int], bool]], Any]"
    finish: "Callable[[Any], Answer]"
    unit: str = ""
    in_unit: int = 1

    def far(self, done: int, all_: int) -> str:
        """Return how far it is, as one says it."""
        return f"{done // self.in_unit} of {-(-all_ // self.in_unit)} {self.unit}".rstrip()

    def at_once(self) -> "Answer":
        """Do it here and now; whoever listens for steps is told how far it is."""
        return self.finish(self.run(progress(self.words)))


@dataclass(frozen=True, slots=True)
class Steps:
    """Something that reads the shop for longer than a blink: step by step in the shop's own thread.

    Args:
        words: What is done, in a few words.
        begin: Yields before each step how far it is of how much; returns the answer. Whatever else is done
            meanwhile comes between two steps.

    """

    words: str
    begin: "Callable[[], Generator[tuple[int, int], None, Answer]]"


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer of the program.

    Args:
        said: Which of the four.
        text: One or two plain sentences: what happened or what is asked, and what to do next.
        kind: What the scan was taken for: part, box, order, tracking, bin, bag, vehicle, badge, wrench,
            position, command, blank tag, number, words, unknown.
        code: What was scanned, inert (control characters shown as pictures).
        part: Code of the part concerned.
        qty: Pieces concerned.
        state: State of the ledger that they are in now.
        where: Where, in words.
        question: How an open question is answered; present where said is question, and where an unknown
            code may be learned.
        show: Station that should come to the front, empty for the one in front.
        subject: Id of the record that the station should show: part, bin or box by `kind`.
        field: Name of the field that a form should go to; empty where none alone is wrong.
        card: What the lift's card of the part would do: install, mock up, take down, remove, assemble, take
            apart; empty where no card is open.
        joint: Name of the joint that is asked about, at the position in `where`; empty where none is.
        work: What is to be done before the true answer is known; this one only says that it was begun.

    """

    said: Said
    text: str
    kind: str = ""
    code: str = ""
    part: str = ""
    qty: int = 0
    state: str = ""
    where: str = ""
    question: Question | None = None
    show: str = ""
    subject: int = 0
    field: str = ""
    card: str = ""
    joint: str = ""
    work: Work | Steps | None = None

    @property
    def asks(self) -> bool:
        """Whether it waits for an answer; what is done or stopped can at most be carried on."""
        return self.question is not None and self.said in (Said.QUESTION, Said.UNKNOWN)

    @property
    def offers(self) -> bool:
        """Whether there is something to pick, though what is done does not wait for it."""
        return self.question is not None and bool(self.question.choices) and not self.asks

    def of(self, kind: str, code: str) -> "Answer":
        """Return the answer with what was scanned, where it does not say so itself."""
        if (self.kind or not kind) and (self.code or not code):
            return self
        return replace(self, kind=self.kind or kind, code=self.code or code)


def done(text: str, **facts: object) -> Answer:
    """Return an answer that something was done."""
    return Answer(Said.DONE, text, **facts)  # type: ignore[arg-type]


def stop(text: str, **facts: object) -> Answer:
    """Return an answer that nothing changed, and why."""
    return Answer(Said.STOP, text, **facts)  # type: ignore[arg-type]


def ask_about(part: Part, text: str, question: Question, *, qty: int = 0) -> Answer:
    """Return a question about pieces of a part."""
    facts = {"kind": "part", "part": part.code, "subject": part.id, "qty": qty}
    return Answer(Said.QUESTION, text, question=question, **facts)  # type: ignore[arg-type]


def ask_on_card(part: Part, card: str, text: str, question: Question, **facts: object) -> Answer:
    """Return what a part's card at the lift asks, turned to what it would do, with further facts."""
    facts |= {"part": part.code, "subject": part.id, "show": "lift", "card": card}
    return Answer(Said.QUESTION, text, question=question, **facts)  # type: ignore[arg-type]
