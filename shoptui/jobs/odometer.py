"""An odometer that shows less than before, or counts in another unit: what is asked, and what follows."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace
from enum import StrEnum

from shoptui.domain.odometers import driven_now, driven_then, in_km, in_unit
from shoptui.domain.records import Build, Meter, Part, Reading
from shoptui.jobs.asked import Sense
from shoptui.jobs.record_form import Ask, Following
from shoptui.store.shop import Shop


class Said(StrEnum):
    """What a person can say of it."""

    CONVERTED = "converted"
    ALWAYS = "always"
    NEW = "new one"
    WRONG = "wrong before"
    EMPTY = "empty"


_HALF = 0.5
"""Of a unit: figures that were converted are whole ones again."""


def turned(sense: Sense, before: Build, after: Build, said: Collection[str]) -> Ask | Following:
    """Ask what an odometer's figure or unit means for re-checks, or return what changes with it.

    Args:
        sense: Where it is typed.
        before: The build as it is.
        after: As it is to be.
        said: What was answered to what was asked before.

    """
    if (before.odometer, before.odometer_unit) == (after.odometer, after.odometer_unit):
        return Following()
    readings = tuple(_readings(sense.shop, before))
    if before.odometer_unit == after.odometer_unit:
        return _lower(before, after, readings, said)
    other = _other_unit(sense.shop, before, after, readings, said)
    if isinstance(other, Ask):
        return other
    meant = replace(after, **other.changes)
    if Said.CONVERTED in said and after.odometer == before.odometer:
        return other
    unit = before.odometer_unit if Said.CONVERTED in said else after.odometer_unit
    lower = _lower(replace(before, odometer_unit=unit), meant, readings, said)
    return lower if isinstance(lower, Ask) else replace(other, changes={**other.changes, **lower.changes})


def _parts(shop: Shop, build: Build) -> Iterator[Part]:
    return (part for part in shop.parts.all() if part.build == build.id)


def _readings(shop: Shop, build: Build) -> Iterator[Reading]:
    """Yield what was stated of a vehicle's joints at a figure of its odometer, and was not struck out."""
    for part in _parts(shop, build):
        for reading in shop.readings.of_part(part.id):
            if reading.odometer is not None and shop.readings.struck_by(reading.id) is None:
                yield reading


def _until(readings: tuple[Reading, ...]) -> int:
    return max((reading.id for reading in readings), default=0)


def _other_unit(
    shop: Shop, before: Build, after: Build, readings: tuple[Reading, ...], said: Collection[str]
) -> Ask | Following:
    """Ask whether figures are converted, or were in the other unit all along."""
    was, unit = before.odometer_unit, after.odometer_unit
    distances = [part for part in _parts(shop, before) if any(joint.again_after for joint in part.joints)]
    if not readings and not distances:
        return Following()
    figure = after.odometer
    if before.odometer is not None and figure == before.odometer:
        figure = round(in_unit(in_km(before.odometer, was), unit))
    if Said.CONVERTED in said:
        meters = (*before.meters, Meter(_until(readings), was))
        others = tuple((part, {"joints": _in_other_unit(part, was, unit)}) for part in distances)
        words = f"Figures until now stay in {was}.{_converted_words(distances, was, unit)}"
        return Following({"odometer": figure, "meters": meters}, others, words)
    if Said.ALWAYS in said:
        until = _until(readings)
        meters = tuple(replace(each, unit=unit) if each.until == until else each for each in before.meters)
        if all(each.until != until for each in meters):
            meters = (*meters, Meter(until, unit))
        return Following({"meters": meters}, words=f"All figures until now are read as {unit}.")
    same = (
        "" if figure is None or figure == after.odometer else f": {before.odometer} {was} are {figure} {unit}"
    )
    return Ask(
        f"Its odometer counted in {was}. Are its figures converted, or were they always in {unit}? "
        "Its number, then Enter.",
        (
            (Said.CONVERTED, f"converted{same}; what was tightened at {was} stays so"),
            (Said.ALWAYS, f"always in {unit}: what was written down until now counts so too"),
        ),
    )


def _in_other_unit(part: Part, was: str, unit: str) -> tuple[object, ...]:
    """Return a part's joints with their distances in another unit: rather a check too early than too late."""
    return tuple(
        replace(joint, again_after=_distance(joint.again_after, was, unit)) if joint.again_after else joint
        for joint in part.joints
    )


def _distance(figure: int, was: str, unit: str) -> int:
    return max(1, int(in_unit(in_km(figure, was), unit)))


def _converted_words(parts: Iterable[Part], was: str, unit: str) -> str:
    """Say which distances to a re-check became which: the bare unit would leave open whether they did."""
    figures = sorted({joint.again_after for part in parts for joint in part.joints if joint.again_after})
    told = [f"{figure} {was} are {_distance(figure, was, unit)} {unit}" for figure in figures]
    return f" Distances to re-checks are converted: {', '.join(told)}." if told else ""


def _lower(
    before: Build, after: Build, readings: tuple[Reading, ...], said: Collection[str]
) -> Ask | Following:
    """Ask about a figure below one at which something was tightened: no re-check may vanish by it."""
    if not readings:
        return Following()
    unit = after.odometer_unit
    highest = max(driven_then(after, reading) or 0 for reading in readings)
    now = driven_now(after)
    if now is None:
        leave = "leave it empty: until somebody reads it no joint is due by distance"
        return Following() if Said.EMPTY in said else Ask(f"{_UNREAD} {_PICK}", ((Said.EMPTY, leave),))
    if now >= highest - in_km(_HALF, unit):
        return Following()
    until = _until(readings)
    last = max(highest, driven_now(before) or 0)
    if Said.NEW in said:
        meter = Meter(until, unit, behind_km=last - now)
        return Following({"meters": (*after.meters, meter)}, words="What was driven before counts on.")
    if Said.WRONG in said:
        meter = Meter(until, unit, most_km=now)
        words = f"What was tightened at more counts as tightened at {after.odometer} {unit}."
        return Following({"meters": (*after.meters, meter)}, words=words)
    shown = f"{in_unit(highest, unit):.0f} {unit}"
    return Ask(
        f"{after.odometer} {unit} came, and a joint was tightened or checked at {shown}. {_PICK}",
        (
            (Said.NEW, f"another odometer was put in: {after.odometer} {unit} count on from what was driven"),
            (
                Said.WRONG,
                f"{shown} was wrong: what was tightened at more counts from {after.odometer} {unit}",
            ),
        ),
    )


_UNREAD = "Joints were tightened at a figure of this odometer, and now there is none."
_PICK = "Typed wrong: Escape. Else its number, then Enter."
