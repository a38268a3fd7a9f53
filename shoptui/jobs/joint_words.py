"""A joint in words: what its sheet asks for, where that stands, and what a reading states."""

from contextlib import suppress

from shoptui.domain.days import day_with_year, day_words
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.reading import designation
from shoptui.domain.fasteners.surfaces import Prepared
from shoptui.domain.fasteners.torque import GENERIC
from shoptui.domain.fasteners.units import Unit
from shoptui.domain.inert import inert
from shoptui.domain.joint_sheets import NO_SHEET, asked_by, asked_or_none, in_both
from shoptui.domain.records import How, Joint, Reading, What
from shoptui.jobs.joints import JointAt, day_of
from shoptui.jobs.place_words import today
from shoptui.store.shop import Shop

NO_LONGER = "no longer asked for"
"""How something stands that has readings and is no joint of its part any more."""


def is_generic(joint: Joint) -> bool:
    """Return whether a joint is tightened to a handbook's value alone: never done to a specification."""
    return (asked := asked_or_none(joint)) is not None and asked.generic


def value_words(shop: Shop, joint: Joint) -> str:
    """Return the value in the shop's first unit and the other beside it, and that it is generic if it is.

    Angles are never added up.
    """
    try:
        asked = asked_by(joint)
    except FastenerError as error:
        return f"a value that cannot be read: {error}"
    if asked is None:
        return NO_SHEET
    told = in_both(asked.value, Unit(shop.settings.units))
    if asked.aim is not None:
        told += f", aim at {asked.aim:f} {asked.value.unit}"
    told += "".join(f" + {angle}" for angle in asked.angles)
    return f"{told}, {GENERIC}" if asked.generic else told


def fasteners_words(joint: Joint, count: int) -> str:
    """Return how many of what: `5 x M12 x 1.5 - 10.9, dry`; of threads only what is said, or assumed."""
    if not joint.fasteners:
        return "a check that is signed"
    try:
        named = str(designation(joint.designation)) if joint.designation else "fastener" + "s" * (count != 1)
    except FastenerError:
        named = inert(joint.designation, 40)
    threads = f", {joint.prepared}"
    if joint.prepared is Prepared.NOT_SAID:
        threads = ", dry assumed" if is_generic(joint) else ""
    extra = ", new ones" if joint.one_use else ""
    ride = ", at ride height" if joint.ride_height else ""
    return f"{count} x {named}{threads}{extra}{ride}"


def source_words(shop: Shop, joint: Joint) -> str:
    """Return where the value stands and who read it, empty where nobody said."""
    told = []
    if joint.sheet is not None:
        with suppress(KeyError):
            told.append(f"file {inert(shop.files.get(joint.sheet).name, 60)}{_kept(shop, joint.sheet)}")
    if joint.source:
        told.append(inert(joint.source, 120))
    if joint.page:
        told.append(f"page {inert(joint.page, 20)}")
    if told and joint.read_by:
        told.append(f"read by {inert(joint.read_by, 40)}")
    if joint.read_in is not None:
        told.append(f"not read there yet: this is from its older edition{_kept(shop, joint.read_in)}")
    return ", ".join(told)


def _kept(shop: Shop, file: int) -> str:
    day = edition_day(shop, file)
    return f", kept {day}" if day else ""


def edition_day(shop: Shop, file: int | None) -> str:
    """Return the day on which an edition of a sheet was kept, empty where nobody knows: `Tue 3 Nov 2026`."""
    kept = None if file is None else shop.history.file_kept(file)
    return "" if kept is None else day_with_year(kept.when.astimezone().date())


def joint_name(each: JointAt) -> str:
    """Return a joint with its position: `Wheel nuts at LF`."""
    at = f" at {inert(each.position)}" if each.position else ""
    return f"{inert(each.joint.name)}{at}"


def stands_words(each: JointAt) -> str:
    """Return how a joint stands: `done`, `open: 3 of 5 tightened`, `to be checked again, 10 km over`."""
    if not each.pieces:
        return NO_LONGER
    if each.is_open:
        return f"open: {inert(each.standing.why)}"
    if each.standing.is_due:
        return each.standing.why
    return f"done, {GENERIC}" if is_generic(each.joint) else "done"


def reading_words(shop: Shop, reading: Reading, day: str = "") -> str:
    """Return what a reading states: `5 set to 110 N m with T-200, the lead, Wed 25 Nov`.

    Args:
        shop: The shop.
        reading: The reading.
        day: Its day as it is to be written; empty for words.

    """
    told = _stated(shop, reading)
    who = inert(shop.people.get(reading.who).name) if reading.who is not None else "nobody's name"
    words = f"{told}, {who}, {day or day_words(day_of(shop, reading), today(shop))}"
    if reading.note:
        words += f" ({inert(reading.note, 200)})"
    if (strike := shop.readings.struck_by(reading.id)) is not None:
        words += f"; struck out: {inert(strike.note, 120)}"
    return words


def reading_deed(shop: Shop, reading: Reading) -> str:
    """Return what a reading states, as a part's history has it: `Nuts at LF: 5 set to 110 N m with T-200`."""
    at = f" at {inert(reading.position)}" if reading.position else ""
    note = f" ({inert(reading.note, 200)})" if reading.note else ""
    return f"{inert(reading.joint)}{at}: {_stated(shop, reading)}{note}"


def _stated(shop: Shop, reading: Reading) -> str:
    if reading.what is not What.TIGHTENED:
        used = "" if reading.wrench is None else f" with {inert(shop.wrenches.get(reading.wrench).code)}"
        return f"{reading.what.value}{used}"
    verb = "set to" if reading.how is How.SET else "read as"
    tool = "a wrench that nobody wrote down"
    if reading.wrench is not None:
        tool = inert(shop.wrenches.get(reading.wrench).code)
    return f"{reading.fasteners} {verb} {reading.value} {reading.unit} with {tool}"
