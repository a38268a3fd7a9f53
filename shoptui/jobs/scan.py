"""One scan, one answer: what a text is taken for, and which job that starts at which station.

The command line and every screen hand their scans and typed lines to the same `Scanning`, so that they
mean the same everywhere.
"""

from dataclasses import dataclass, field, replace

from shoptui.domain.inert import inert
from shoptui.domain.lookup import Match
from shoptui.domain.recognise import Reading, read
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Choice, Question, Said, stop
from shoptui.jobs.at import At
from shoptui.jobs.bind import ask_what, bind_blank, learn, row_of_box
from shoptui.jobs.box_list import expected_in
from shoptui.jobs.commands import command_answer
from shoptui.jobs.meanings import meaning_of, part_meaning
from shoptui.jobs.parcels import unknown_parcel
from shoptui.jobs.receive import receive
from shoptui.jobs.remove import ask_unlisted
from shoptui.store.command_tags import command_named
from shoptui.store.shop import Shop

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
    unlearned: str = field(default="", init=False)
    """The last code that failed the check of its form: learned only on purpose."""

    @property
    def at(self) -> At:
        """Where the jobs stand."""
        return At(self.shop, self.terminal, self.station, self.build, self.who)

    def take(self, text: str, count: int = 1, *, twice: bool = False) -> Answer:
        """Take one scan, or one line of words and Enter; return what it was taken for and did.

        Args:
            text: As scanned, untrimmed.
            count: Pieces that it means, typed before it.
            twice: Whether the same code came twice faster than a hand can scan.

        """
        self.shop.refresh()
        open_ = self.question
        if open_ is not None and open_.question is not None:
            answer = self._reply(open_, text)
            if answer is not None:
                return self._keep(answer, text)
        self.question = None
        answer = self._ask_twice(text, count) if twice else self._meaning(text, count)
        if open_ is not None and answer.kind != "command":
            answer = replace(answer, text=f"{answer.text} (The question before was dropped.)")
        return self._keep(answer, text)

    def typed(self, text: str) -> Answer:
        """Take a typed line and Enter: as a scan, except that blanks at its ends were never meant."""
        return self.take(text.strip())

    def yes(self) -> Answer:
        """Answer the open question with yes."""
        open_, self.question = self.question, None
        if open_ is None or open_.question is None:
            return stop("No question is open.", kind="command")
        if open_.question.yes is None:
            self.question = open_
            return replace(open_, text=f"This needs more than a yes. {_plain(open_.text)}")
        return self._keep(open_.question.yes(), open_.code)

    def drop(self) -> None:
        """Let the open question go; nothing changes."""
        self.question = None

    def learn_on_purpose(self, part: Part) -> Answer:
        """Learn the last code that failed its check as plain text for a part."""
        if not self.unlearned:
            return stop("No code was stopped, so there is none to learn.")
        code, self.unlearned = self.unlearned, ""
        return learn(self.at, code, part)

    def _keep(self, answer: Answer, text: str) -> Answer:
        answer = answer.of("unknown", inert(text))
        self.question = answer if answer.question is not None else None
        return answer

    def _reply(self, open_: Answer, text: str) -> Answer | None:
        """Return the answer to the open question if the scan is one, else None."""
        question = open_.question
        assert question is not None  # noqa: S101 - seen by the caller
        command = command_named(text)
        if command is not None and command.word in ("yes", "no"):
            if command.word == "no":
                self.question = None
                return stop("Dropped; nothing changed.", kind="command")
            return self.yes()
        if question.yes is not None and inert(text) == open_.code:
            return self.yes()
        if text.isdigit() and 1 <= int(text[:ROW_DIGITS]) <= len(question.choices):
            self.question = None
            return question.choices[int(text) - 1].take()
        answer = question.accepts(text) if question.accepts else None
        return None if answer is None else answer.of(open_.kind, inert(text))

    def _ask_twice(self, text: str, count: int) -> Answer:
        return Answer(
            Said.QUESTION,
            "The same code came twice at once; it was counted once. Enter: it is a second piece.",
            question=Question(yes=lambda: self._meaning(text, count)),
        )

    def _meaning(self, text: str, count: int) -> Answer:
        at = self.at
        command = command_named(text)
        if command is not None:
            return command_answer(at, command).of("position" if command.position else "command", inert(text))
        reading = read(text)
        if reading.refused:
            return stop(reading.refused, kind="unknown")
        matches = self._narrowed(self.shop.codes.find(reading))
        if matches:
            return self._matched(matches, reading, count).of("", inert(text))
        if reading.tag is not None:
            return bind_blank(at, reading.tag, self._part_named).of("blank tag", inert(text))
        return self._unknown(reading, text, count)

    def _narrowed(self, matches: tuple[Match, ...]) -> tuple[Match, ...]:
        """Narrow several matches by the open box, then by the build at this terminal."""
        if len(matches) < 2:  # noqa: PLR2004 - one needs no narrowing
            return matches
        at, parts = self.at, self.shop.parts
        if self.station == "receiving" and at.box is not None:
            short = {line.part for line in expected_in(self.shop, at.box) if line.short}
            fitting = tuple(match for match in matches if match.kind == "part" and match.record in short)
            if fitting:
                return fitting
        build = at.build
        if build is not None:
            own = tuple(
                match
                for match in matches
                if match.kind == "part" and parts.get(match.record).build == build.id
            )
            if own:
                return own
        return matches

    def _matched(self, matches: tuple[Match, ...], reading: Reading, count: int) -> Answer:
        if len(matches) == 1:
            return meaning_of(self.at, matches[0], reading, count)
        choices = tuple(
            Choice(_label(self.shop, match), lambda match=match: meaning_of(self.at, match, reading, count))  # type: ignore[misc]
            for match in matches
        )
        listed = "; ".join(f"{number} {choice.label}" for number, choice in enumerate(choices[:4], 1))
        return Answer(
            Said.QUESTION,
            f"This code means {len(matches)} things. Which? {listed}. Its number, then Enter.",
            kind=matches[0].kind,
            question=Question(choices=choices),
        )

    def _part_named(self, text: str) -> Part | None:
        """Return the part that a text names without doubt."""
        matches = [
            match for match in self._narrowed(self.shop.codes.find(read(text))) if match.kind == "part"
        ]
        return self.shop.parts.get(matches[0].record) if len(matches) == 1 else None

    def _unknown(self, reading: Reading, text: str, count: int) -> Answer:
        at = self.at
        if text.isascii() and text.isdigit() and len(text) <= ROW_DIGITS:
            return self._row(text, count)
        if reading.fails:
            self.unlearned = text
            return stop(f"{reading.fails} Scan it again.", kind="unknown")
        if self.station == "receiving" and (reading.s10 or reading.sscc) and at.box is None:
            return unknown_parcel(at, text, reading.form).of("tracking", inert(text))
        if self.station == "lift" and " " in text.strip() and text.isprintable():
            return ask_unlisted(at, inert(text.strip())).of("words", inert(text))
        shown = inert(text)
        form = "" if reading.form == "text" else f"{reading.form} "
        if self.station == "receiving" and at.box is not None:
            ask = "Which row is it? Its number and Enter, or scan the part's tag: then it is learned."
        elif self.station == "receiving":
            return self._unknown_at_the_door(at, text, form)
        else:
            ask = "Scan the part's own tag, and it is learned for it; anything else drops it."
        return ask_what(at, text, f"Nobody knows {form}{shown}. {ask}", self._part_named).of("unknown", shown)

    def _unknown_at_the_door(self, at: At, text: str, form: str) -> Answer:
        """With no box open, an unknown code can be a parcel's as well as a part's."""
        parcel = unknown_parcel(at, text, "number")
        part = ask_what(at, text, "", self._part_named)

        def answer(reply: str) -> Answer | None:
            for question in (parcel.question, part.question):
                if question is not None and question.accepts is not None:
                    got = question.accepts(reply)
                    if got is not None:
                        return got
            return None

        return Answer(
            Said.UNKNOWN,
            f"Nobody knows {form}{inert(text)}. A new parcel: scan or type its order number. "
            "A part: scan its own tag, and it is learned.",
            question=Question(accepts=answer),
        )

    def _row(self, text: str, count: int) -> Answer:
        at = self.at
        if self.station == "receiving":
            part = row_of_box(at, text)
            if part is not None:
                return receive(at, part, count).of("number", text)
            if at.box is None:
                return stop("No box is open, so it has no rows. Scan the box first.", kind="number")
            return stop(f"The open box has no row {text}.", kind="number")
        return stop(f"{text} alone means nothing here. Scan a code, or type words.", kind="number")

    def card_again(self) -> Answer | None:
        """Return the Lift's card that was open when the program was closed, None if there was none."""
        memory = self.at.memory
        if memory.card_part is None:
            return None
        answer = part_meaning(
            replace_station(self.at, "lift"), self.shop.parts.get(memory.card_part), 1, verb=memory.card_verb
        )
        return self._keep(answer.of("part", answer.part), answer.part)


def replace_station(at: At, station: str) -> At:
    """Return the same terminal, seen from another station."""
    return replace(at, station=station)


def _label(shop: Shop, match: Match) -> str:
    if match.kind != "part":
        return match.kind
    part = shop.parts.get(match.record)
    build = "" if part.build is None else f" ({inert(shop.builds.get(part.build).code)})"
    where = f", {'/'.join(part.positions)}" if part.positions else ""
    return f"{inert(part.description)}{where}{build}"


def _plain(text: str) -> str:
    return text.removeprefix("This needs more than a yes. ")
