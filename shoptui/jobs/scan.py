"""One scan, one answer: what a text is taken for, and which job that starts at which station.

The command line and every screen hand their scans and typed lines to the same `Scanning`, so that they
mean the same everywhere.
"""

from dataclasses import dataclass, field, replace

from shoptui.domain.inert import inert
from shoptui.domain.recognise import read
from shoptui.domain.records import Part, Person
from shoptui.jobs.answers import Answer, Question, Said, stop
from shoptui.jobs.at import At
from shoptui.jobs.bind import learn
from shoptui.jobs.card_in_hand import CardInHand
from shoptui.jobs.count import left_empty
from shoptui.jobs.joint_question import CARD
from shoptui.jobs.known_scan import known
from shoptui.jobs.lift_card import TURNS
from shoptui.jobs.matching import taken_for
from shoptui.jobs.meanings import part_meaning
from shoptui.jobs.stated import states_figures
from shoptui.jobs.unknown import unknown
from shoptui.store.command_tags import command_named
from shoptui.store.shop import Shop

ONLY_DROPPED = "The question is dropped; nothing changed. Undo again takes back the last thing done here."
FORGOTTEN = "What was written down is kept; what was only typed is not."
DROPPED = "(The question before was dropped.)"
NO_YES = "This needs more than a yes."
ROW_DIGITS = 3
"""Most digits of a row's number; longer ones are codes."""


@dataclass(slots=True)
class Scanning:
    """The scans of one terminal, one after the other.

    Args:
        shop: The shop.
        terminal: Name of the terminal.
        station: Station in front; may be set at any time.
        build: Code of a build that goes before the terminal's own.
        who: Badge or code of the person.

    """

    shop: Shop
    terminal: str
    station: str = "receiving"
    build: str = ""
    who: str = ""
    question: Answer | None = field(default=None, init=False)
    bin_shown: int | None = field(default=None, init=False)
    """Id of the bin that the racks show since it was scanned, or since a screen looked into it."""
    card: CardInHand = field(default_factory=CardInHand, init=False)
    """What lies open at the lift."""
    _asked_at: str = field(default="", init=False)
    _asked_first: Answer | None = field(default=None, init=False)
    """The open question as it was put: why it is asked again stands before these words alone."""
    _last_done: int = field(default=0, init=False)
    """Id of what was done last here before the scan that is being answered."""
    _after_deed: Question | None = field(default=None, init=False)
    """The question that was asked after something was done, of itself."""
    unlearned: str = field(default="", init=False)
    """The last code that failed the check of its form: learned only on purpose."""
    _badge: Person | None = field(default=None, init=False)
    """Whose badge answered the last question: read twice, it never answers the next one."""

    @property
    def at(self) -> At:
        """Where the jobs stand."""
        card = self.card
        return At(
            self.shop,
            self.terminal,
            self.station,
            self.build,
            self.who,
            card.part,
            card.verb,
            card.qty,
            card_joint=card.joint,
            said=card.said,
            said_of=card.said_of,
            bin_shown=self.bin_shown,
        )

    def take(self, text: str, count: int = 1, *, twice: bool = False, typed: bool = False) -> Answer:
        """Take one scan, or one typed line; return what it was taken for and did.

        Args:
            text: As scanned, untrimmed.
            count: Pieces that it means, typed before it.
            twice: Whether the same code came twice faster than a hand can scan.
            typed: Whether a hand typed it: only then a short number means a row or a choice.

        """
        self.shop.refresh()
        self._last_done = self._done_here()
        open_ = self.question
        if open_ is not None and not open_.asks and self.station != self._asked_at:
            # An offer belongs to the station that made it.
            open_ = self.question = None
        if open_ is not None and open_.question is not None:
            if (
                count > 1
                and open_.asks
                and (_is_yes(text) or taken_for(self.at, text) in ("badge", "wrench"))
            ):
                return self._once_more(
                    open_, f"{count} was typed before {inert(text, 40)}: nothing was done."
                )
            answer = self._badge_twice(open_, text) or self._reply(open_, text, typed=typed)
            if answer is not None:
                self._badge = self.shop.people.by_code(text)
                return self._replied(open_, answer, text)
            if typed and open_.card == CARD and taken_for(self.at, text) in ("number", "words"):
                # Values that nobody asked for: they must mean nothing else, and the work goes on.
                return self._once_more(open_, f"{inert(text, 40)} is no answer here.")
            if open_.asks and open_.question.yes is None and not text.strip():
                return self._once_more(open_, NO_YES)
        self.question = self._badge = None
        answer = self._ask_twice(text, count) if twice else self._meaning(text, count, typed=typed)
        if open_ is not None and open_.asks and answer.kind != "command":
            answer = replace(answer, text=f"{answer.text} {DROPPED}")
        if self.station != "racks" and (words := left_empty(self.at)):
            answer = replace(answer, text=f"{answer.text} {words}")
        answer = self._keep(answer, text)
        command = command_named(text)
        if self.station == "lift" and command is not None and command.word in TURNS:
            self.card.say(command.word)
        return answer

    def typed(self, text: str) -> Answer:
        """Take a typed line and Enter: as a scan, except that blanks at its ends were never meant."""
        return self.take(text.strip(), typed=True)

    def line(self, text: str) -> Answer:
        """Take one line of a script: a short number is a typed one, anything else a scan."""
        return self.take(text, typed=_is_row(text))

    def yes(self) -> Answer:
        """Answer the open question with yes."""
        open_ = self.question
        if open_ is None:
            return stop("No question is open.", kind="command")
        self._last_done, self._badge = self._done_here(), None
        return self._replied(open_, self._agreed(open_), open_.code)

    def no(self) -> Answer | None:
        """Let the open question go; return what it goes back to, None where that is nothing."""
        open_ = self.question
        self.drop()
        if open_ is None or open_.question is None or open_.question.no is None:
            return None
        return self._keep(open_.question.no().of(open_.kind, open_.code), open_.code)

    def _agreed(self, open_: Answer) -> Answer:
        """Do what a yes does; a question that a yes does not answer stays open."""
        if open_.question is None or open_.question.yes is None:
            return self._once_more(open_, NO_YES)
        self.question = None  # answered, also if what it starts cannot be done
        return open_.question.yes().of(open_.kind, open_.code)

    def _once_more(self, open_: Answer, why: str) -> Answer:
        """Return the open question as it was put, behind why it is asked again; two reasons would hide it."""
        first = self._asked_first
        put = first if first is not None and first.question is open_.question else open_
        self._asked_first = put
        return replace(open_, text=f"{why} {put.text}")

    def _done_here(self) -> int:
        last = next(self.shop.history.at_terminal(self.terminal), None)
        return 0 if last is None else last.id

    @property
    def asks_after_deed(self) -> bool:
        """Whether the open question only goes on after something was done: an undo means what was done."""
        return self.question is not None and self.question.question is self._after_deed

    @property
    def card_of_joints(self) -> bool:
        """Whether the lift's card lies open at a part's joints: figures are readings then, never counts."""
        return self.station == "lift" and self.card.part is not None and self.card.verb == CARD

    def drop(self) -> None:
        """Let the open question go; nothing changes."""
        self.card.let_go(self.question)
        self.question = None

    def learn_on_purpose(self, part: Part) -> Answer:
        """Learn the last code that failed its check as plain text for a part."""
        if not self.unlearned:
            return stop("No code was stopped, so there is none to learn.")
        code, self.unlearned = self.unlearned, ""
        return learn(self.at, code, part)

    def _keep(self, answer: Answer, text: str) -> Answer:
        answer = answer.of("unknown", inert(text))
        self.card.follow(answer)
        command = command_named(text)
        if answer.said is Said.DONE and command is not None and command.word == "done":
            self.card.put_down()
        if self.card.part is not None and self.shop.parts.get(self.card.part).withdrawn:
            self.card.put_down()  # its making was taken back
        if answer.show == "racks":
            self.bin_shown = answer.subject if answer.kind in ("bin", "bag") else None
        self.question = answer if answer.question is not None else None
        if self._done_here() != self._last_done:
            self._after_deed = answer.question
        self._asked_at = self.station
        return answer

    def asked(self, answer: Answer) -> None:
        """Take up a question that a key asked, as if a scan had."""
        kept = self.question is not None and self.question.question is answer.question
        self.question = answer
        self._badge = self._badge if kept else None
        self.card.follow(answer)
        if not kept and answer.asks and answer.card and answer.subject == self.card.part:
            self.card.say(answer.card, self.card.part)

    def _replied(self, open_: Answer, answer: Answer, text: str) -> Answer:
        """Keep what the open question was answered with."""
        self.card.spoken_to(open_)
        self.card.done(answer)
        return self._keep(answer, text)

    def _reply(self, open_: Answer, text: str, *, typed: bool) -> Answer | None:
        """Return the answer to the open question if the scan is one, else None."""
        question = open_.question
        assert question is not None  # noqa: S101 - seen by the caller
        command = command_named(text)
        begun = open_.asks and not self.asks_after_deed
        if command is not None and command.word == "undo" and begun:
            self.card.let_go(open_)
            return stop(ONLY_DROPPED, kind="command")
        if command is not None and command.word in ("yes", "no"):
            if command.word == "yes":
                answer = self._agreed(open_)
            else:
                self.card.let_go(open_)
                answer = question.no() if question.no is not None else stop("Dropped; nothing changed.")
            return replace(answer, kind="command")
        how_many = typed and _is_row(text) and question.accepts is not None
        if question.yes is not None and question.again and inert(text) == open_.code and not how_many:
            return self._agreed(open_)
        if typed and _is_row(text) and 1 <= int(text) <= len(question.choices):
            picked = question.choices[int(text) - 1].take()
            # What was scanned is still asked about: the same scan again says yes.
            return replace(picked, kind="number", code=open_.code if picked.question is not None else "")
        # A scanned number is a code, never a row. What stands for something is never a note.
        accepts = None if _is_row(text) and not typed else question.accepts
        reply = accepts(text) if accepts else None
        # Figures on a card of joints are readings, never the reason for one.
        noted = typed and self._stands_for_nothing(text) and not (open_.card == CARD and states_figures(text))
        if reply is None and question.words is not None and noted:
            reply = question.words(text)
        if reply is None:
            return None
        code = open_.code if reply.question is not None else inert(text)
        return replace(reply, kind=taken_for(self.at, text), code=code)

    def _badge_twice(self, open_: Answer, text: str) -> Answer | None:
        """Return what a badge is answered with that the question before was answered with, else None."""
        again = open_.question.badge_again if open_.question is not None else None
        person = self.shop.people.by_code(text)
        if again is None or person is None or self._badge is None or person.id != self._badge.id:
            return None
        return replace(again(person), kind="badge", code=open_.code)

    def _stands_for_nothing(self, text: str) -> bool:
        return not _is_row(text) and taken_for(self.at, text) in ("words", "number")

    def _ask_twice(self, text: str, count: int) -> Answer:
        return Answer(
            Said.QUESTION,
            "The same code came twice at once; it was counted once. Enter: it is a second piece.",
            question=Question(yes=lambda: self._meaning(text, count)),
        )

    def _meaning(self, text: str, count: int, *, typed: bool = False) -> Answer:
        at, reading = self.at, read(text)
        row = typed and _is_row(text) and not self.card_of_joints
        answer = known(at, text, reading, count, typed=typed, row=row)
        if answer is None:
            self.unlearned = text if reading.fails else ""
            answer = unknown(at, reading, text, typed=typed)
        return answer

    def card_again(self) -> Answer | None:
        """Return the Lift's card that was open when the program was closed, None if there was none."""
        self.card.take_up(self.shop, self.terminal)
        number, verb = self.card.part, self.card.verb
        if number is None:
            return None
        answer = part_meaning(replace(self.at, station="lift"), self.shop.parts.get(number), 1, verb=verb)
        if verb == CARD:
            answer = replace(answer, text=f"{FORGOTTEN} {answer.text}")
        return self._keep(answer.of("part", answer.part), answer.part)


def _is_yes(text: str) -> bool:
    command = command_named(text)
    return command is not None and command.word == "yes"


def _is_row(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) <= ROW_DIGITS
