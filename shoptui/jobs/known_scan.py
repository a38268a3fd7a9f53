"""What a scan or a typed line means that answers no question, where anything is known of it."""

from functools import partial

from shoptui.domain.inert import inert
from shoptui.domain.recognise import Reading
from shoptui.jobs.answers import Answer, stop
from shoptui.jobs.at import At
from shoptui.jobs.bind import bind_blank, row_of_box
from shoptui.jobs.commands import command_answer
from shoptui.jobs.matching import answer_of, matches_of, part_named
from shoptui.jobs.racks import numbered_row
from shoptui.jobs.receive import receive
from shoptui.jobs.unlisted import ask_unlisted_code
from shoptui.store.command_tags import command_named


def known(at: At, text: str, reading: Reading, count: int, *, typed: bool, row: bool) -> Answer | None:
    """Return what a text means: a command, a code that is known, a blank tag, a row; None for none of them.

    Args:
        at: Where it was scanned.
        text: As scanned.
        reading: As it was read.
        count: Pieces that it means.
        typed: Whether a hand typed it.
        row: Whether it can be a row's number.

    """
    command = command_named(text)
    if command is not None:
        kind = "position" if command.position else "command"
        return command_answer(at, command, count).of(kind, inert(text))
    matches = matches_of(at, reading)
    if matches:
        return answer_of(at, matches, reading, count).of("", inert(text))
    if at.turned_to == "remove" and not typed and not reading.refused and not reading.fails:
        return ask_unlisted_code(at, reading, text).of("unknown", inert(text))
    if reading.tag is not None:
        return bind_blank(at, reading.tag, partial(part_named, at)).of("blank tag", inert(text))
    return _row(at, text, count) if row else None


def _row(at: At, text: str, count: int) -> Answer:
    if at.station == "receiving":
        part = row_of_box(at, text)
        if part is not None:
            return receive(at, part, count).of("number", text)
        if at.box is None:
            return stop("No box is open. Scan the box first.", kind="number")
        return stop(f"The open box has no row {text}.", kind="number")
    if (counted := numbered_row(at, int(text), count)) is not None:
        return counted
    return stop(f"{text} alone means nothing here. Scan a code, or type words.", kind="number")
