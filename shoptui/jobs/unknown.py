"""A code that nobody knows: a parcel, an original that came off, or something to learn."""

from shoptui.domain.inert import inert
from shoptui.domain.recognise import Reading
from shoptui.jobs.answers import Answer, Question, Said, stop
from shoptui.jobs.at import At
from shoptui.jobs.bind import ask_what
from shoptui.jobs.parcels import unknown_parcel
from shoptui.jobs.remove import ask_unlisted


def unknown(at: At, reading: Reading, text: str, *, typed: bool) -> Answer:
    """Say that a code is not known and ask what it is, as the station suggests."""
    shown = inert(text)
    if reading.refused:
        return stop(reading.refused, kind="unknown")
    if reading.fails:
        return stop(f"{reading.fails} Scan it again.", kind="unknown")
    if at.station == "receiving" and (reading.s10 or reading.sscc):
        return unknown_parcel(at, text, reading.form).of("tracking", shown)
    if at.station == "receiving" and at.box is None:
        return _at_the_door(at, reading, text).of("unknown", shown)
    if at.station == "lift" and (typed or " " in text.strip()) and text.isprintable() and text.strip():
        return ask_unlisted(at, inert(text.strip())).of("words", shown)
    ask = (
        "Which row is it? Its number and Enter, or scan the part's tag: then it is learned."
        if at.station == "receiving"
        else "Scan the part's own tag, and it is learned for it; anything else drops it."
    )
    return ask_what(at, text, f"{_nobody_knows(reading, text)} {ask}").of("unknown", shown)


def _nobody_knows(reading: Reading, text: str) -> str:
    form = "" if reading.form == "text" else f"{reading.form} "
    return f"Nobody knows {form}{inert(text)}."


def _at_the_door(at: At, reading: Reading, text: str) -> Answer:
    """With no box open, an unknown code can be a parcel's as well as a part's."""
    parcel = unknown_parcel(at, text, "number")
    part = ask_what(at, text, "")

    def answer(reply: str) -> Answer | None:
        for each in (parcel.question, part.question):
            if each is not None and each.accepts is not None and (got := each.accepts(reply)) is not None:
                return got
        return None

    return Answer(
        Said.UNKNOWN,
        f"{_nobody_knows(reading, text)} A new parcel: scan or type its order number. "
        "A part: scan its own tag, and it is learned.",
        question=Question(accepts=answer),
    )
