"""What the printed torque record says of joints, readings and wrenches, in words that need no program."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from shoptui.domain.fasteners.sheet_values import DEGREES
from shoptui.domain.inert import inert
from shoptui.domain.records import How, Joint, Reading, What
from shoptui.domain.wrenches import next_check
from shoptui.jobs.at import name_and_code, spoken
from shoptui.jobs.joint_tally import deviation_then, outside_words, within_by_deviation
from shoptui.jobs.joint_words import fasteners_words, is_generic, source_words, value_words
from shoptui.jobs.joints import JointAt, day_of, readings_at
from shoptui.jobs.torque_record import again_words, counts, odometer_unit, taken_back
from shoptui.jobs.wrench_words import scale_words, why_not_now
from shoptui.store.shop import Shop

_NOTE = 300
"""Cells of a note, a reason."""

HANDBOOK_ONLY = "tightened to a handbook's value, not to a specification"


@dataclass(frozen=True, slots=True)
class Line:
    """One reading of the record.

    Args:
        day: Its day.
        odometer: With its unit; empty where nobody wrote it down.
        what: What was done, to what value.
        wrench: With what, and when that was last checked then; empty where no tool was needed.
        who: Who did it.
        note: All else that is to be known: what was asked about, an extension, why it was accepted.
        mark: Why it says nothing of the joint as it is: outside the sheet, struck out, no longer counts.

    """

    day: str
    odometer: str
    what: str
    wrench: str
    who: str
    note: str
    mark: str

    def __str__(self) -> str:
        """As a sentence."""
        at = f", at {self.odometer}" if self.odometer else ""
        told = f"{self.day}{at}: " + ", ".join(filter(None, (self.what, self.wrench, f"by {self.who}")))
        told += f" ({self.note})" if self.note else ""
        return f"{self.mark}: {told}" if self.mark else told


def name_at(each: JointAt) -> str:
    """Return a joint with its position as one says it: `Wheel nuts at left front`."""
    at = f" at {spoken(each.position)}" if each.position else ""
    return f"{inert(each.joint.name)}{at}"


def standing_words(shop: Shop, each: JointAt) -> str:
    """Return how a joint stands, for somebody who reads it once."""
    out_of_it = sum(bool(outside_words(shop, each.joint, reading)) for reading in each.counted)
    although = f", {out_of_it} of it accepted although outside the sheet" if out_of_it else ""
    if each.is_open:
        return f"NOT DONE: {inert(each.standing.why, _NOTE)}{although}"
    if each.standing.is_due:
        return (
            f"done, TO BE CHECKED AGAIN NOW{each.standing.why.removeprefix('to be checked again')}{although}"
        )
    return f"done, but {HANDBOOK_ONLY}{although}" if is_generic(each.joint) else f"done{although}"


def lines_of(shop: Shop, each: JointAt) -> Iterator[Line]:
    """Yield what was stated of a joint there, oldest first; what was undone is of no use to anybody."""
    for reading in _told(shop, each):
        yield _line(shop, each, reading)


def _told(shop: Shop, each: JointAt) -> Iterator[Reading]:
    return (reading for reading in readings_at(shop, each) if not taken_back(shop, reading))


def _line(shop: Shop, each: JointAt, reading: Reading) -> Line:
    odometer = "" if reading.odometer is None else f"{reading.odometer} {odometer_unit(each, reading)}"
    return Line(
        day_of(shop, reading).isoformat(),
        odometer.rstrip(),
        _what(reading),
        wrench_then(shop, reading),
        person(shop, reading.who),
        "; ".join(_notes(shop, each, reading)),
        _mark(shop, each, reading),
    )


def person(shop: Shop, who: int | None) -> str:
    """Return who it was."""
    return "a person who gave no name" if who is None else inert(shop.people.get(who).name)


def _what(reading: Reading) -> str:
    value = f"{inert(reading.value)} {inert(reading.unit)}"
    if reading.what is What.ACCEPTED:
        return f"{value} accepted although it is outside the sheet"
    if reading.what is What.SECOND:
        return "second check"
    if reading.what is What.CHECKED:
        return "checked again and found good"
    if reading.what is not What.TIGHTENED:
        return reading.what.value
    if reading.unit == DEGREES:
        return f"{reading.fasteners} turned {value} further, as read"
    how = "as set" if reading.how is How.SET else "as read"
    return f"{reading.fasteners} tightened to {value}, {how}"


def wrench_then(shop: Shop, reading: Reading) -> str:
    """Return the tool of a reading, and its last check before it."""
    if reading.wrench is None:
        return "a wrench that nobody wrote down" if reading.what is What.TIGHTENED else ""
    checked = f", last checked {reading.checked.isoformat()}" if reading.checked else ""
    return f"wrench {inert(shop.wrenches.get(reading.wrench).code)}{checked}"


def _notes(shop: Shop, each: JointAt, reading: Reading) -> Iterator[str]:
    if within_by_deviation(shop, each.joint, reading):
        yield f"within the {deviation_then(shop, reading):g} % that the wrench may deviate"
    if reading.note:
        yield inert(reading.note, _NOTE)
    if (strike := shop.readings.struck_by(reading.id)) is not None:
        day = day_of(shop, strike).isoformat()
        yield f"struck out {day} by {person(shop, strike.who)}: {inert(strike.note, _NOTE)}"


def _mark(shop: Shop, each: JointAt, reading: Reading) -> str:
    if shop.readings.struck_by(reading.id) is not None:
        return "STRUCK OUT"
    if reading in each.outside:
        return "OUTSIDE THE SHEET" if each.left else "OUTSIDE THE SHEET, no longer counts"
    if counts(each, reading) or reading.what in (What.FAILED, What.LOOSENED):
        return ""
    return "NO LONGER COUNTS"


def asked_for(shop: Shop, each: JointAt) -> tuple[str, str, str, str]:
    """Return fasteners, value, sheet and when it is checked again; empty where nothing is to be said."""
    joint, again = each.joint, again_words(shop, each)
    source = source_words(shop, joint)
    if not joint.fasteners:
        return "", "", source, again
    none = "none: a handbook's value" if is_generic(joint) else "nobody wrote down which one says so"
    return fasteners_words(joint, each.wanted), _value(shop, joint), source or none, again


def _value(shop: Shop, joint: Joint) -> str:
    """Return the value, in how many passes it is reached, and in what order of the fasteners."""
    told = value_words(shop, joint)
    told += f", in {joint.passes} passes" if joint.passes > 1 else ""
    return f"{told}, order: {inert(joint.pattern)}" if joint.pattern and joint.fasteners > 1 else told


def accepted(shop: Shop, joints: Iterable[JointAt]) -> Iterator[tuple[JointAt, str]]:
    """Yield what counts although it is outside its sheet: what was read, why, and who accepted it when."""
    for each in joints:
        for reading in readings_at(shop, each):
            struck = shop.readings.struck_by(reading.id) is not None
            if reading.what is What.ACCEPTED and not struck and counts(each, reading):
                when = day_of(shop, reading).isoformat()
                yield each, f"{inert(reading.note, _NOTE)}; by {person(shop, reading.who)}, {when}"


def wrenches(shop: Shop, joints: Iterable[JointAt]) -> tuple[tuple[str, ...], ...]:
    """Return the tools of all readings: code, name, scale, last check, next check, why not to be used."""
    used = {reading.wrench for each in joints for reading in _told(shop, each)}
    found = []
    for number in sorted(each for each in used if each is not None):
        wrench = shop.wrenches.get(number)
        due = next_check(wrench)
        checked = wrench.checked.isoformat() if wrench.checked else "nobody wrote one down"
        later = due.isoformat() if due and not wrench.gone else ""
        why_not = why_not_now(shop, wrench)
        found.append(
            (inert(wrench.code), inert(wrench.name), scale_words(wrench), checked, later, inert(why_not))
        )
    return tuple(found)


def together(rows: Iterable[tuple[JointAt, str]]) -> Iterator[tuple[str, str, str]]:
    """Yield part, joint and words; a joint of which the same is said at several positions stands once."""
    spots: dict[tuple[str, str, str], list[str]] = {}
    for each, words in rows:
        spots.setdefault((name_and_code(each.part), inert(each.joint.name), words), []).append(each.position)
    for (part, joint, words), found in spots.items():
        at = ", ".join(spoken(spot) for spot in dict.fromkeys(found) if spot)
        yield part, f"{joint} at {at}" if at else joint, words


def finished_words(shop: Shop) -> str:
    """Name the vehicles that a record of all leaves out: who looks for one should not take it for lost."""
    out = [each for each in shop.builds.all() if each.status != "open"]
    named = ", ".join(f"{inert(each.title, 200)} ({inert(each.code)})" for each in out)
    return f"Finished, with a record of its own (--build CODE): {named}." if out else ""
