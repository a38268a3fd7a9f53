"""What a joint's sheet asks for, read from its words: value, steps, passes, order; or a handbook's value."""

from contextlib import suppress
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from shoptui.domain.cautions import may_be_plain
from shoptui.domain.fasteners.figures import FastenerError, could_divide, two_ways
from shoptui.domain.fasteners.handbook import Handbook, handbook
from shoptui.domain.fasteners.passes import passes, steps, steps_of, unclear_steps
from shoptui.domain.fasteners.reading import designation
from shoptui.domain.fasteners.sheet_values import (
    NO_TOLERANCE,
    SheetAngle,
    SheetValue,
    has_degrees,
    sheet_value,
)
from shoptui.domain.fasteners.units import Unit, converted, torque
from shoptui.domain.records import Joint, Part


@dataclass(frozen=True, slots=True)
class Asked:
    """What a sheet asks for.

    Args:
        value: Its torque; where angles follow, the last torque before them.
        angles: Angles that follow; empty where torque is all.
        steps: What is done to every fastener before the next step begins, as it stands on the card.
        generic: Whether it is a handbook's: no specification, and never done to one.
        aim: What is aimed at within a range that the sheet leaves open; None where nobody picked it.

    """

    value: SheetValue
    angles: tuple[SheetAngle, ...]
    steps: tuple[str, ...]
    generic: bool = False
    aim: Decimal | None = None

    @property
    def target(self) -> Decimal | None:
        """What the tool is set to; None in a range until somebody picked it."""
        return self.value.target if self.aim is None else self.aim

    @property
    def by_angle(self) -> bool:
        """Whether an angle tightens it, so that a torque says nothing of it afterwards."""
        return bool(self.angles)


NO_SHEET = "no value: the maker's sheet is needed"


def value_text(text: str, usual: Unit) -> str:
    """Return a sheet's value in one way of writing, with its unit; it is read back as the same value.

    Raises:
        FastenerError: It is none, or more than any fastener of a vehicle has.

    >>> value_text("110+/-10", Unit.N_M), value_text("40 Nm + 90\u00b0 \u00b1 5", Unit.N_M)
    ('110 +/- 10 N m', '40 N m + 90 +/- 5 deg')

    """
    if has_degrees(text):
        found = steps(text, usual)
        for step in found:
            if isinstance(step, SheetValue):
                _can_be_meant(step)
        return " + ".join(map(str, found))
    if len(steps_of(text)) > 1:
        raise FastenerError(f"{unclear_steps(text)} Of torques alone the last is written, and its passes.")
    value = sheet_value(text, usual)
    _can_be_meant(value)
    return str(value)


MOST_N_M = 5000
"""More than any fastener of a vehicle is given, heavy wheels and hubs too. Common practice, no source."""


def _can_be_meant(value: SheetValue) -> None:
    """Refuse more than any fastener has, and `1.250`, which is a thousand and more on some sheets."""
    if _n_m(value.high, value.unit) > MOST_N_M:
        raise FastenerError(f"A torque up to {MOST_N_M} N m was expected; {value.high:f} {value.unit} came.")
    for figure in (value.low, value.high) if value.target is None else (value.target,):
        if could_divide(figure) and _n_m(figure * 1000, value.unit) <= MOST_N_M:
            raise FastenerError(two_ways("A torque", f"{figure:f}"))


def _n_m(value: Decimal, named: Unit) -> Fraction:
    return converted(value, named, Unit.N_M).exact


def names_unit(text: str) -> bool:
    """Return whether a sheet's value has a unit of its own behind each torque.

    >>> [names_unit(each) for each in ("110 N m", "110", "40 + 90 deg", "40 ft-lb + 90 deg")]
    [True, False, False, True]
    """
    try:
        return value_text(text, Unit.N_M) == value_text(text, Unit.LBF_FT)
    except FastenerError:
        return False


def joints_as_allowed(part: Part) -> tuple[Joint, ...]:
    """Return the joints of a part, none of them plain where somebody is hurt when it fails.

    A section or description that was changed after a joint was marked as plain opens that joint.

    >>> bolts = Joint("bolts", 2, "M8 8.8", plain=True)
    >>> bracket = Part(1, "", "", 1, "Bracket", joints=(bolts,))
    >>> [joints_as_allowed(replace(bracket, section=each))[0].plain for each in ("Trim", "Brakes")]
    [True, False]
    """
    if not any(joint.plain for joint in part.joints) or may_be_plain(part.section, part.description):
        return part.joints
    return tuple(replace(joint, plain=False) if joint.plain else joint for joint in part.joints)


def asked_by(joint: Joint) -> Asked | None:
    """Return what a joint's sheet asks for; None where it says no value, and no handbook may stand in.

    Raises:
        FastenerError: What is written down cannot be read.

    >>> asked_by(Joint("nuts", 5, value="110 N m", passes=3)).steps
    ('33 N m', '77 N m', '110 N m')
    >>> asked_by(Joint("bolts", 4, value="40 N m + 90 deg")).steps
    ('40 N m', '90 deg further (no tolerance on the sheet)')

    """
    if not joint.value:
        return _generic(joint) if joint.plain else None
    return _by_sheet(joint.value, joint.aim, joint.passes)


@lru_cache(maxsize=4_000)
def _by_sheet(text: str, aim_text: str, count: int) -> Asked:
    """Read a sheet's words; kept, since every list asks it of each joint, and many have the same value."""
    if has_degrees(text):
        return _turned(text, aim_text)
    value = sheet_value(text, Unit.N_M)
    aim = _aim(aim_text, value)
    return Asked(value, (), _steps(value, value.target or aim, count), aim=aim)


def asked_or_none(joint: Joint) -> Asked | None:
    """Return what a joint's sheet asks for; None where nobody wrote it, or nobody can read it."""
    with suppress(FastenerError):
        return asked_by(joint)
    return None


def _turned(text: str, aim_text: str) -> Asked:
    """Return what is asked for where angles follow a torque; the last of them is the one that is read."""
    found = steps(text)
    torques = [step for step in found if isinstance(step, SheetValue)]
    angles = [step for step in found if isinstance(step, SheetAngle)]
    told = [*map(str, torques), *(f"{angle} further" for angle in angles)]
    if not angles[-1].has_tolerance:
        told[-1] += f" ({NO_TOLERANCE})"
    return Asked(torques[-1], tuple(angles), tuple(told), aim=_aim(aim_text, torques[-1]))


def _aim(text: str, value: SheetValue) -> Decimal | None:
    return torque(text, value.unit, "An aim") if text and value.target is None else None


def _steps(value: SheetValue, target: Decimal | None, count: int) -> tuple[str, ...]:
    if target is None:
        return (str(value),)
    return tuple(f"{each:f} {value.unit}" for each in passes(target, count))


@lru_cache(maxsize=4_000)
def _generic(joint: Joint) -> Asked | None:
    """Return a handbook's value for a joint that is marked as plain, None where there is none."""
    found = handbook_of(joint)
    if found is None:
        return None
    value = SheetValue(found.torque, found.torque, found.unit, found.torque)
    return Asked(value, (), _steps(value, found.torque, joint.passes), generic=True)


def handbook_of(joint: Joint) -> Handbook | None:
    """Return the handbook's value of a plain joint with its assumptions, None where there is none."""
    try:
        return handbook(designation(joint.designation), joint.prepared, plain=joint.plain)
    except FastenerError:
        return None


def in_both(value: SheetValue, first: Unit) -> str:
    """Return a sheet's value in the unit that is shown first, the sheet's own beside it where that differs.

    >>> in_both(sheet_value("122 N m", Unit.N_M), Unit.LBF_FT), in_both(sheet_value("9", Unit.N_M), Unit.N_M)
    ('90.0 lbf ft (sheet: 122 N m)', '9 N m (about 80 lbf in)')

    """
    if value.unit is not first:
        return f"{_in(value, first)} (sheet: {value})"
    return f"{value} (about {_in(value, _SECOND.get(first, Unit.N_M))})"


_SECOND = {Unit.N_M: Unit.LBF_FT}


def _in(value: SheetValue, other: Unit) -> str:
    """Return a value in another unit; what is small in pound-feet is read in pound-inches."""
    low, high = (converted(each, value.unit, other).rounded for each in (value.low, value.high))
    if other is Unit.LBF_FT and low < _SMALL_LBF_FT:
        other = Unit.LBF_IN
        low, high = (converted(each, value.unit, other).rounded for each in (value.low, value.high))
    return f"{low:f} {other}" if low == high else f"{low:f} to {high:f} {other}"


_SMALL_LBF_FT = 15
"""Below this a value is printed in pound-inches, as sheets do; common practice, no source."""
