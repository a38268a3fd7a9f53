"""A build's torque record, for the folder that goes with the vehicle: joints, their sheets and readings."""

from collections.abc import Iterator
from itertools import groupby
from typing import Any

from shoptui.domain.inert import inert
from shoptui.domain.odometers import unit_then
from shoptui.domain.records import Build, Reading, What
from shoptui.domain.wrapping import escaped, wrapped
from shoptui.jobs.at import name_and_code
from shoptui.jobs.joint_words import (
    fasteners_words,
    is_generic,
    joint_name,
    reading_words,
    source_words,
    stands_words,
    value_words,
)
from shoptui.jobs.joints import JointAt, all_joints, day_of, readings_at
from shoptui.jobs.place_words import today
from shoptui.store.shop import Shop

WIDTH = 80

COLUMNS = (
    *(
        "build",
        "part",
        "description",
        "position",
        "joint",
        "fasteners",
        "designation",
        "prepared",
        "sheet_value",
    ),
    *(
        "source",
        "stands",
        "what",
        "count",
        "value",
        "unit",
        "how",
        "wrench",
        "who",
        "date",
        "odometer",
        "note",
    ),
    *("counts", "struck_out", "odometer_unit"),
)


def record_of(shop: Shop, build: Build | None, *, only_open: bool = False) -> tuple[JointAt, ...]:
    """Return the joints of what is on a vehicle, or on all that are not finished, by section and part.

    Args:
        shop: The shop.
        build: The vehicle; None for all.
        only_open: Leave out what is done and not due.

    """
    found = all_joints(shop, None if build is None else (build.id,))
    kept = [each for each in found if each.needs_somebody or not only_open]
    return tuple(sorted(kept, key=lambda each: (each.part.section.casefold(), each.part.id, each.position)))


def as_values(shop: Shop, joints: tuple[JointAt, ...]) -> list[dict[str, Any]]:
    """Return the record as JSON has it."""
    return [
        {
            **_joint_values(shop, each),
            "open": each.is_open,
            "due": each.standing.is_due,
            "generic": is_generic(each.joint),
            "readings": [_reading_values(shop, each, reading) for reading in readings_at(shop, each)],
        }
        for each in joints
    ]


def rows(shop: Shop, joints: tuple[JointAt, ...]) -> Iterator[tuple[Any, ...]]:
    """Yield a row for each reading, and one for a joint that has none, under `COLUMNS`."""
    for each in joints:
        head = tuple(_joint_values(shop, each).values())
        readings = readings_at(shop, each)
        for reading in readings:
            values = _reading_values(shop, each, reading).values()
            yield (*head, *("" if value is None else value for value in values))
        if not readings:
            yield (*head, *([""] * (len(COLUMNS) - len(head))))


def _joint_values(shop: Shop, each: JointAt) -> dict[str, Any]:
    joint, part = each.joint, each.part
    return {
        "build": "" if part.build is None else shop.builds.get(part.build).code,
        "part": part.code,
        "description": part.description,
        "position": each.position,
        "joint": joint.name,
        "fasteners": each.wanted,
        "designation": joint.designation,
        "prepared": joint.prepared.value if joint.fasteners else "",
        "sheet_value": joint.value,
        "source": source_words(shop, joint),
        "stands": stands_words(each),
    }


def _reading_values(shop: Shop, each: JointAt, reading: Reading) -> dict[str, Any]:
    struck = shop.readings.struck_by(reading.id)
    return {
        "what": reading.what.value,
        "count": reading.fasteners,
        "value": reading.value,
        "unit": reading.unit,
        "how": reading.how.value,
        "wrench": "" if reading.wrench is None else shop.wrenches.get(reading.wrench).code,
        "who": "" if reading.who is None else shop.people.get(reading.who).name,
        "date": day_of(shop, reading).isoformat(),
        "odometer": reading.odometer,
        "note": reading.note,
        "counts": "yes" if _counts(each, reading) and struck is None else "no",
        "struck_out": "" if struck is None else struck.note,
        "odometer_unit": _odometer_unit(shop, each, reading),
    }


def as_text(shop: Shop, build: Build | None, joints: tuple[JointAt, ...]) -> str:
    """Return the record as text, 80 cells wide."""
    out = [*wrapped(_title(shop, build), WIDTH, "  "), *wrapped(_summary(joints), WIDTH, "  ")]
    for _, found in groupby(joints, key=lambda each: each.part.id):
        some = list(found)
        out += ["", *wrapped(name_and_code(some[0].part), WIDTH, "  ")]
        for each in some:
            box = _box(each)
            out += wrapped(f"{box} {joint_name(each)}: {_sheet(shop, each)}", WIDTH, "    ")
            out += wrapped(f"    {stands_words(each)}", WIDTH, "    ")
            for words in _readings(shop, each):
                out += wrapped(f"    - {words}", WIDTH, "      ")
    return "\n".join([*out, "", *wrapped(_FOOT, WIDTH, "")]) + "\n"


def as_markdown(shop: Shop, build: Build | None, joints: tuple[JointAt, ...]) -> str:
    """Return the record as Markdown; what came from outside is escaped."""
    out = [f"# {escaped(_title(shop, build))}", "", escaped(_summary(joints))]
    for _, found in groupby(joints, key=lambda each: each.part.id):
        some = list(found)
        out += ["", f"## {escaped(name_and_code(some[0].part))}"]
        for each in some:
            box = _box(each)
            out += ["", f"- {box} **{escaped(joint_name(each))}**: {escaped(_sheet(shop, each))}"]
            out.append(f"  - {escaped(stands_words(each))}")
            out += [f"  - {escaped(words)}" for words in _readings(shop, each)]
    return "\n".join([*out, "", escaped(_FOOT)]) + "\n"


_FOOT = (
    "Open joints and checks are to be done before the vehicle moves. What was struck out, or stood before a "
    "part came off again, is listed and does not count. The maker's sheets come first."
)


def _title(shop: Shop, build: Build | None) -> str:
    which = "all vehicles" if build is None else f"{inert(build.title)} ({inert(build.code)})"
    meter = ""
    if build is not None and build.odometer is not None:
        meter = f", odometer {build.odometer} {build.odometer_unit}"
    return f"Torque record: {which}, {today(shop).isoformat()}{meter}"


def _summary(joints: tuple[JointAt, ...]) -> str:
    if not joints:
        return "No joint of what is on is written down."
    made = [each for each in joints if not each.is_open]
    due = sum(each.standing.is_due for each in made)
    generic = sum(is_generic(each.joint) for each in made)
    outside = sum(len(each.outside) for each in joints if each.left)
    told = f"{len(made) - due} done, {len(joints) - len(made)} open, {due} to be checked again."
    if generic:
        told += f" {generic} of them tightened to a handbook's value, no specification."
    if outside:
        told += f" {outside} reading{'s' * (outside != 1)} OUTSIDE THE SHEET."
    return f"{len(joints)} joints and checks: {told}"


def _box(each: JointAt) -> str:
    """Return the mark of a joint: open, to be checked again, or done."""
    if each.is_open:
        return "[ ]"
    return "[!]" if each.standing.is_due else "[x]"


def _sheet(shop: Shop, each: JointAt) -> str:
    joint = each.joint
    told = [fasteners_words(joint, each.wanted)]
    if joint.fasteners:
        told += [value_words(shop, joint), f"sheet: {source_words(shop, joint) or 'not written down'}"]
    return "; ".join(told)


def _readings(shop: Shop, each: JointAt) -> Iterator[str]:
    for reading in readings_at(shop, each):
        words = reading_words(shop, reading, day_of(shop, reading).isoformat())
        if reading.odometer is not None:
            words += f", at {reading.odometer} {_odometer_unit(shop, each, reading)}"
        if shop.readings.struck_by(reading.id) is None and reading.what is not What.FAILED:
            if reading in each.outside:
                words = f"OUTSIDE THE SHEET: {words}{'' if each.left else ' (no longer counts)'}"
            elif not _counts(each, reading):
                words += " (no longer counts)"
        yield words


def _odometer_unit(shop: Shop, each: JointAt, reading: Reading) -> str:
    """Return the unit of a reading's odometer, whatever the vehicle's counts in today; empty without one."""
    if reading.odometer is None or each.part.build is None:
        return ""
    return unit_then(shop.builds.get(each.part.build), reading)


def _counts(each: JointAt, reading: Reading) -> bool:
    """Return whether a reading says something of the joint as it is; a check, of what it checked."""
    numbers = [counted.id for counted in each.counted]
    if reading.what in (What.TIGHTENED, What.SIGNED):
        return reading.id in numbers
    if reading.what is What.ACCEPTED:
        return any((row.value, row.unit) == (reading.value, reading.unit) for row in each.counted)
    checked = reading.what is What.CHECKED or (reading.what is What.SECOND and each.second is not None)
    return checked and bool(numbers) and reading.id > max(numbers)
