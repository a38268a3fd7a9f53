"""What happened to one joint, in order: readings, clamped parts that came off; and how it stands by that."""

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from datetime import date

from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.rechecks import Event, Happened, Rule, Standing, standing
from shoptui.domain.joint_sheets import NO_SHEET, asked_or_none
from shoptui.domain.odometers import driven_now, driven_then, in_km, in_unit
from shoptui.domain.places import HANDED_OVER, State
from shoptui.domain.records import Build, Joint, Part, Reading, What
from shoptui.domain.wrenches import may_deviate
from shoptui.jobs.stated import read_amiss
from shoptui.store.shop import Shop

_HAPPENED = {
    What.TIGHTENED: Happened.TIGHTENED,
    What.SIGNED: Happened.TIGHTENED,
    What.CHECKED: Happened.CHECKED,
    What.FAILED: Happened.FAILED,
    What.LOOSENED: Happened.LOOSENED,
}

CHANGED = "its sheet changed since"
TO_READ = "to be read in the newer edition of its sheet"
SECOND_MISSING = "second check missing"


class Tally:
    """What happened to a joint, one thing after the other."""

    def __init__(self, shop: Shop, joint: Joint, build: Build | None) -> None:
        self._shop = shop
        self._joint = joint
        self._build = build
        self._events: list[Event] = []
        self._why = ""
        self.counted: list[Reading] = []
        self.outside: list[Reading] = []
        self.second: int | None = None

    def take(self, transaction: int, row: Reading | None) -> None:
        """Take one reading, or a clamped part that came off."""
        done = self._shop.history.transaction(transaction)
        day = done.when.astimezone().date()
        if row is None and done.undoes and all(each.transaction < done.undoes for each in self.counted):
            return  # it was put on and taken back, after it was tightened where it is again
        what = What.LOOSENED if row is None else row.what
        if what is What.SECOND:
            self.second = row.who if row else None
            return
        if row is not None and what is What.ACCEPTED:
            row = self._accepted(row)
            if row is None:
                return
            self.counted.append(row)
            what, self.second = What.TIGHTENED, None
        elif row is not None and what in (What.TIGHTENED, What.SIGNED):
            if row.sheet_says != self._joint.sheet_says:
                self._why = "" if self.counted else CHANGED
                return
            self._why, self.second = "", None
            if outside_words(self._shop, self._joint, row):
                self.outside.append(row)
                return
            self.counted.append(row)
        elif what is not What.CHECKED:
            self.counted, self.outside, self.second = [], [], None
            self._why = row.note if row else ""
            if row is not None and row.note and what is What.LOOSENED:
                self._why = f"{what}: {row.note}"
        self._events.append(Event(_HAPPENED[what], day, self._km(row), row.fasteners or 1 if row else 1))

    def _accepted(self, by: Reading) -> Reading | None:
        """Return the last reading outside the sheet with the value that was accepted, no longer outside."""
        for reading in reversed(self.outside):
            if (reading.value, reading.unit) == (by.value, by.unit):
                self.outside.remove(reading)
                return reading
        return None

    def _km(self, row: Reading | None) -> float | None:
        return None if row is None or self._build is None else driven_then(self._build, row)

    def standing(self, wanted: int, day: date) -> Standing:
        """Return how the joint stands on a day."""
        joint, build = self._joint, self._build
        if joint.read_in is not None:
            return Standing(is_open=True, why=TO_READ)
        unit = build.odometer_unit if build else "km"
        rule = Rule(in_km(joint.again_after, unit) or None, joint.again_days or None)
        now = standing(
            self._events,
            wanted,
            rule,
            today=day,
            odometer_km=driven_now(build) if build else None,
        )
        if joint.fasteners and asked_or_none(joint) is None:
            return Standing(is_open=True, why=NO_SHEET)
        if now.is_open:
            words = self._why or now.why
            if self.outside:
                words += f", outside the sheet: {outside_words(self._shop, joint, self.outside[-1])}"
            return replace(now, why=words)
        if joint.second_check and self.second is None:
            return Standing(is_open=True, why=SECOND_MISSING)
        if now.is_due and now.left_km is not None and unit == "mi":
            over = in_unit(abs(now.left_km), unit)
            return replace(now, why=f"to be checked again, {over:.0f} {unit} over")
        return now


def outside_words(shop: Shop, joint: Joint, reading: Reading) -> str:
    """Say how a reading is not what the joint's sheet says, empty if it is: such a one makes nothing done.

    What the tool might deviate then widens a single value, as when the reading was asked about.
    """
    if reading.what is not What.TIGHTENED:
        return ""
    try:
        asked = asked_or_none(joint)
        return "; ".join(read_amiss(reading, asked, deviation_then(shop, reading))) if asked else ""
    except FastenerError:
        return ""


def deviation_then(shop: Shop, reading: Reading) -> float:
    """Return what the tool of a reading might deviate when it was taken, in per cent; 0 without a tool."""
    if reading.deviation_percent is not None:
        return reading.deviation_percent
    return 0.0 if reading.wrench is None else may_deviate(shop.wrenches.get(reading.wrench))


def within_by_deviation(shop: Shop, joint: Joint, reading: Reading) -> bool:
    """Return whether a reading is as the sheet says only because its tool might deviate."""
    with suppress(FastenerError):
        asked = asked_or_none(joint) if reading.what is What.TIGHTENED else None
        return (
            asked is not None
            and bool(read_amiss(reading, asked, 0))
            and not read_amiss(reading, asked, deviation_then(shop, reading))
        )
    return False


def loosened(shop: Shop, part: Part, joint: Joint, position: str, since: int) -> Iterator[int]:
    """Yield the transactions in which a part that the joint clamps came off, after one.

    What leaves with its vehicle stays on it.
    """
    for clamped in (part.id, *joint.clamps):
        for entry in shop.history.latest_of_part(clamped):
            if entry.transaction <= since:
                break
            source, target = entry.move.source, entry.move.target
            if source.state not in _FIXED or target.state in _FIXED or target.where == HANDED_OVER:
                continue
            where = source.where if source.state is State.INSTALLED else ""
            elsewhere = clamped != part.id and (not position or where not in part.positions)
            if (where == position or elsewhere) and not shop.history.is_undone(entry.transaction):
                yield entry.transaction


_FIXED = (State.INSTALLED, State.ASSEMBLED)
"""States in which a joint holds a part."""
