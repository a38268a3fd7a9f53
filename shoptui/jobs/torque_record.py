"""A build's torque record, for the folder that goes with the vehicle: joints, their sheets and readings."""

from collections.abc import Iterable, Iterator
from typing import Any

from shoptui.domain.odometers import in_unit, unit_then
from shoptui.domain.places import HANDED_OVER, State
from shoptui.domain.records import Build, Reading, What
from shoptui.jobs.joint_tally import deviation_then
from shoptui.jobs.joint_words import is_generic, source_words, stands_words
from shoptui.jobs.joints import JointAt, all_joints, day_of, readings_at, unfinished
from shoptui.jobs.no_longer_asked import no_longer_asked
from shoptui.jobs.on_leaving import joints_left
from shoptui.jobs.positions import on_vehicle
from shoptui.store.shop import Shop

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
        "wrench_checked",
        "wrench_deviation",
        "who",
        "date",
        "odometer",
        "note",
    ),
    *("counts", "struck_out", "odometer_unit", "handed_over", "passes", "pattern"),
)


def record_of(shop: Shop, build: Build | None, *, only_open: bool = False) -> tuple[JointAt, ...]:
    """Return the joints of what is on a vehicle, or on all unfinished ones, by vehicle, section and part.

    What left with a vehicle that was handed over stands there as it did then; what was built in and stayed
    here is not of it any more. What has readings and is no joint any more is among them, with no pieces.

    Args:
        shop: The shop.
        build: The vehicle; None for all.
        only_open: Leave out what is done and not due.

    """
    builds = unfinished(shop) if build is None else (build.id,)
    found = [*_there(shop, builds), *no_longer_asked(shop, builds)]
    return tuple(sorted((each for each in found if each.needs_somebody or not only_open), key=_order))


def _there(shop: Shop, builds: Iterable[int | None]) -> Iterator[JointAt]:
    """Yield the joints of what is on vehicles, and of what left with them and is not on again."""
    wanted, there = set(builds), set[tuple[int, str]]()
    for each in all_joints(shop, wanted):
        is_finished = each.build is not None and each.build.status != "open"
        if not is_finished or on_vehicle(shop.book, each.part.id).total():
            there.add((each.part.id, each.position))
            yield each
    gone = sorted(shop.book.parts_at(State.GONE, HANDED_OVER))
    left = joints_left(shop, (number for number in gone if shop.parts.get(number).build in wanted))
    yield from (each for each in left if (each.part.id, each.position) not in there)


def _order(each: JointAt) -> tuple[int, bool, str, int, str]:
    section = each.part.section.casefold()
    return each.part.build or 0, not section, section, each.part.id, each.position


def as_values(shop: Shop, joints: tuple[JointAt, ...]) -> list[dict[str, Any]]:
    """Return the record as JSON has it."""
    return [
        {
            **_joint_values(shop, each),
            "open": each.is_open,
            "due": each.standing.is_due,
            "generic": is_generic(each.joint),
            "again": again_words(shop, each),
            **_of_joint(each),
            "readings": [_reading_values(shop, each, reading) for reading in readings_at(shop, each)],
        }
        for each in joints
    ]


def rows(shop: Shop, joints: tuple[JointAt, ...]) -> Iterator[tuple[Any, ...]]:
    """Yield a row for each reading, and one for a joint that has none, under `COLUMNS`."""
    for each in joints:
        head, tail = tuple(_joint_values(shop, each).values()), tuple(_of_joint(each).values())
        readings = readings_at(shop, each)
        for reading in readings:
            values = _reading_values(shop, each, reading).values()
            yield (*head, *("" if value is None else value for value in values), *tail)
        if not readings:
            yield (*head, *([""] * (len(COLUMNS) - len(head) - len(tail))), *tail)


def left_day(each: JointAt) -> str:
    """Return the day on which a joint left with its vehicle, empty while it is here."""
    return each.handed_over.isoformat() if each.handed_over else ""


def _of_joint(each: JointAt) -> dict[str, Any]:
    """Return what stands behind the readings in a row; columns that others read by their place stay there."""
    joint = each.joint
    return {
        "handed_over": left_day(each),
        "passes": joint.passes if joint.fasteners else "",
        "pattern": joint.pattern,
    }


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
        "wrench_checked": reading.checked.isoformat() if reading.checked else "",
        "wrench_deviation": deviation_then(shop, reading) if reading.wrench is not None else "",
        "who": "" if reading.who is None else shop.people.get(reading.who).name,
        "date": day_of(shop, reading).isoformat(),
        "odometer": reading.odometer,
        "note": reading.note,
        "counts": "yes" if counts(each, reading) and struck is None else "no",
        "struck_out": "" if struck is None else struck.note,
        "odometer_unit": odometer_unit(each, reading),
    }


def taken_back(shop: Shop, reading: Reading) -> bool:
    """Return whether a reading was undone, a slip of the hand; what was struck out with a reason was not."""
    struck = shop.readings.struck_by(reading.id)
    return struck is not None and shop.history.transaction(struck.transaction).undoes == reading.transaction


def again_words(shop: Shop, each: JointAt) -> str:
    """Return when a joint that is done is to be checked again: now, at which odometer, on which day."""
    joint, stands = each.joint, each.standing
    if stands.is_open or not each.pieces:
        return ""
    if stands.is_due:
        return stands.why.replace("to be checked again", "now")
    build = each.build
    unit = build.odometer_unit if build else "km"
    told = []
    if stands.left_km is not None and build is not None and build.odometer is not None:
        left = round(in_unit(stands.left_km, unit))
        told.append(
            f"at {build.odometer + left} {unit}" + ("" if each.handed_over else f", {left} {unit} from now")
        )
    elif joint.again_after and not _checked(each, shop):
        told.append(
            f"{joint.again_after} {unit} after it was tightened; no odometer reading was written down"
        )
    if stands.due_day is not None:
        told.append(f"on {stands.due_day.isoformat()}")
    return ", or ".join(told) + (", whichever comes first" if len(told) > 1 else "")


def _checked(each: JointAt, shop: Shop) -> bool:
    """Return whether somebody checked a joint again since it was tightened: then it is not due any more."""
    return any(row.what is What.CHECKED and counts(each, row) for row in readings_at(shop, each))


def odometer_unit(each: JointAt, reading: Reading) -> str:
    """Return the unit of a reading's odometer, whatever the vehicle's counts in today; empty without one."""
    return "" if reading.odometer is None or each.build is None else unit_then(each.build, reading)


def counts(each: JointAt, reading: Reading) -> bool:
    """Return whether a reading says something of the joint as it is; a check, of what it checked."""
    numbers = [counted.id for counted in each.counted]
    if reading.what in (What.TIGHTENED, What.SIGNED):
        return reading.id in numbers
    if reading.what is What.ACCEPTED:
        return any((row.value, row.unit) == (reading.value, reading.unit) for row in each.counted)
    checked = reading.what is What.CHECKED or (reading.what is What.SECOND and each.second is not None)
    return checked and bool(numbers) and reading.id > max(numbers)
