"""A code that nobody knows: a parcel, an original that came off, or something to learn."""

from dataclasses import replace
from functools import partial

from shoptui.domain.cells import CellError
from shoptui.domain.fasteners.hardware import hardware_designation
from shoptui.domain.inert import inert
from shoptui.domain.recognise import Reading
from shoptui.domain.records import HARDWARE, Part
from shoptui.jobs.answers import Answer, Question, Said, stop
from shoptui.jobs.at import At
from shoptui.jobs.bind import ask_what
from shoptui.jobs.edit import make
from shoptui.jobs.joint_question import CARD
from shoptui.jobs.parcels import unknown_parcel
from shoptui.jobs.stated import states_figures
from shoptui.jobs.tighten import ask_joints
from shoptui.jobs.unlisted import ask_unlisted

NO_ORDER = "no order"


def unknown(at: At, reading: Reading, text: str, *, typed: bool) -> Answer:
    """Say that a code is not known and ask what it is, as the station suggests."""
    shown = inert(text)
    if reading.refused or reading.fails:
        return stop(reading.refused or f"{reading.fails} Scan it again.", kind="unknown")
    if at.station == "lift" and typed and (at.card_verb == CARD or states_figures(text)):
        return _no_reading(at, text)
    nobody_knows = _nobody_knows(reading, text)
    if at.station == "receiving":
        return _at_the_door(at, reading, text, nobody_knows)
    if at.station == "lift" and (typed or " " in text.strip()) and text.isprintable() and text.strip():
        return ask_unlisted(at, inert(text.strip())).of("words", shown)
    if at.station == "hardware" and typed and any(map(str.isalpha, text)):
        return _new_kind(at, text)
    ask = "Scan the part's own tag, and it is learned for it; anything else drops it."
    return ask_what(at, text, f"{nobody_knows} {ask}").of("unknown", shown)


def _no_reading(at: At, text: str) -> Answer:
    """Say that no joint asks for what was typed; figures are asked for again by the card that lies open."""
    shown = inert(text)
    if at.card_verb == CARD and at.card_part is not None and states_figures(text):
        asked = ask_joints(at, at.shop.parts.get(at.card_part))
        words = f"Nothing asked for “{shown}”, it was not written down. {asked.text}"
        return replace(asked, text=words).of("words", shown)
    return stop(
        f"No joint asks for “{shown}” now; nothing was written down. Ctrl+L opens a part's joints; "
        "Escape lays the card aside.",
        kind="words",
    )


def _new_kind(at: At, text: str) -> Answer:
    """Ask whether a designation that was typed is a new kind of hardware; else it can be learned."""
    try:
        designation = hardware_designation(text)
    except CellError as error:
        return stop(f"{error} Nothing changed.", kind="words")
    values = {"designation": designation}
    asked = ask_what(
        at,
        text,
        f"No hardware is called {inert(designation)}. Enter: write it down as a new kind. Or scan a part's "
        "tag, and it is learned for that.",
    ).of("words", inert(text))
    assert asked.question is not None  # noqa: S101 - it asks
    made = partial(make, at, Part, values, build=None, kind=HARDWARE)
    return replace(asked, question=replace(asked.question, yes=lambda: replace(made(), show="hardware")))


def _nobody_knows(reading: Reading, text: str) -> str:
    form = "" if reading.form == "text" else f"{reading.form} "
    return f"Nobody knows {form}{inert(text)}."


def _at_the_door(at: At, reading: Reading, text: str, nobody_knows: str) -> Answer:
    """A parcel's number asks for its order; any other code can be a parcel's as well as a thing's."""
    shown = inert(text)
    if reading.s10 or reading.sscc:
        return unknown_parcel(at, text, reading.form).of("tracking", shown)
    ask = (
        "A new parcel: scan or type its order number; Enter: no order is known. "
        "A part: scan its own tag, and it is learned."
        if at.box is None
        else "A thing: its row's number and Enter, or scan the part's tag. "
        "Another parcel: its order number, or the words “no order”."
    )
    thing, parcel = ask_what(at, text, "").question, unknown_parcel(at, text, "number").question
    assert thing is not None  # noqa: S101 - both ask
    assert parcel is not None  # noqa: S101
    ways = (thing.accepts, parcel.accepts)

    def answer(reply: str) -> Answer | None:
        if " ".join(reply.casefold().split()) == NO_ORDER and parcel.yes is not None:
            return parcel.yes()
        return next((got for way in ways if way is not None and (got := way(reply)) is not None), None)

    def nothing(reply: str) -> Answer | None:
        """A slip of a finger does not take the place of the code that is asked about."""
        return None if inert(reply) == shown else replace(asked, text=f"Nor {inert(reply)}. {ask}")

    # With a box open an Enter too many must not lay it aside.
    yes = parcel.yes if at.box is None else None
    asked = Answer(
        Said.UNKNOWN,
        f"{nobody_knows} {ask}",
        question=Question(yes=yes, accepts=answer, words=nothing, again=False),
    ).of("unknown", shown)
    return asked
