"""A torque as its sheet writes it, and what a reading beside it looks like."""

import re
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from shoptui.domain.fasteners.figures import FastenerError, positive
from shoptui.domain.fasteners.units import Unit, converted, unit
from shoptui.domain.inert import inert


@dataclass(frozen=True, slots=True)
class SheetValue:
    """A torque of a sheet, in the sheet's unit.

    Args:
        low: Least that the sheet allows.
        high: Most.
        unit: The sheet's.
        target: What is aimed at: the value itself; None in a range until a person picks it.

    """

    low: Decimal
    high: Decimal
    unit: Unit
    target: Decimal | None

    def __str__(self) -> str:
        """As it stands on the card; it is read back as the same value."""
        if self.low == self.high:
            return f"{self.low:f} {self.unit}"
        if self.target is not None and self.high - self.target == self.target - self.low:
            return f"{self.target:f} +/- {self.high - self.target:f} {self.unit}"
        return f"{self.low:f} to {self.high:f} {self.unit}"


_FIGURE = r"[\d.,]+"
_FORMS = re.compile(
    rf"(?P<first>{_FIGURE})\s*"
    rf"(?:(?:\u00b1|\+\s?/?\s?-)\s*(?P<more>{_FIGURE})\s*(?P<percent>%)?"
    rf"|(?:to|-|\u2013|\.\.\.?|\u2026)\s*(?P<last>{_FIGURE}))?\s*(?P<unit>[^\d\s%+].*)?",
    re.ASCII,
)


def sheet_value(text: str, usual: Unit) -> SheetValue:
    """Return the torque that a sheet's words mean: one value, plus and minus, or low to high.

    Args:
        text: As the sheet has it, its unit behind it.
        usual: Unit where it has none.

    Raises:
        FastenerError: Another form, values not above 0, or a range that does not rise.

    >>> str(sheet_value("110\u00b110 Nm", Unit.N_M)), str(sheet_value("65-75 ft-lb", Unit.N_M))
    ('110 +/- 10 N m', '65 to 75 lbf ft')

    """
    match = _FORMS.fullmatch(text.strip())
    if match is None:
        raise FastenerError(
            "A torque such as 110 N m, 110 +/- 10 N m or 100 to 120 N m was expected; "
            f"{inert(text.strip(), 40) or 'nothing'} came."
        )
    named = unit(match["unit"]) if match["unit"] else usual
    first = positive(match["first"], "A torque")
    if match["last"]:
        last = positive(match["last"], "A torque")
        if last <= first:
            raise FastenerError(f"A range that rises was expected; {first} to {last} came.")
        return SheetValue(first, last, named, None)
    more = positive(match["more"], "A tolerance") if match["more"] else Decimal(0)
    if match["percent"]:
        more = first * more / 100
    if more >= first:
        raise FastenerError(f"A tolerance below the value was expected; {first} +/- {more} came.")
    return SheetValue(first - more, first + more, named, first)


class Amiss(StrEnum):
    """What can be wrong with a reading; each is asked about, none is turned by itself."""

    OUTSIDE = "outside"
    TENFOLD = "ten times off"
    UNIT = "another unit"


@dataclass(frozen=True, slots=True)
class Doubt:
    """Why a reading is asked about.

    Args:
        amiss: What it looks like.
        words: In one sentence without a full stop, with numbers.

    """

    amiss: Amiss
    words: str


def doubt(reading: Decimal, sheet: SheetValue, deviation_percent: float = 0) -> Doubt | None:
    """Return why a reading is to be asked about, None if it is as the sheet says.

    Args:
        reading: In the sheet's unit.
        sheet: What it is to be.
        deviation_percent: What the tool may deviate; it widens a single value, never a range.

    >>> found = doubt(Decimal(90), sheet_value("122 N m", Unit.N_M), 4)
    >>> found.amiss, found.words
    (<Amiss.UNIT: 'another unit'>, '90 N m is not 122 N m, but 90 lbf ft is 122 N m')
    >>> doubt(Decimal(11), sheet_value("100 to 120", Unit.N_M)).words
    '11 N m is not 100 to 120 N m, but 110 N m is'

    """
    low, high = _allowed(sheet, deviation_percent)
    if low <= reading <= high:
        return None
    said = f"{reading:f} {sheet.unit} is not {sheet}"
    for times in (Decimal(10), Decimal("0.1")):
        if low <= reading * times <= high:
            meant = f"{(reading * times).normalize():f} {sheet.unit}"
            return Doubt(Amiss.TENFOLD, f"{said}, but {meant} is")
    for other in (Unit.N_M, Unit.LBF_FT, Unit.LBF_IN, Unit.KGF_M):
        there = converted(reading, other, sheet.unit).rounded
        if other is not sheet.unit and low <= there <= high:
            return Doubt(Amiss.UNIT, f"{said}, but {reading:f} {other} is {there:f} {sheet.unit}")
    way, by = ("below", low - reading) if reading < low else ("above", reading - high)
    return Doubt(Amiss.OUTSIDE, f"{said}: {by.normalize():f} {sheet.unit} {way} what is allowed")


def _allowed(sheet: SheetValue, deviation_percent: float) -> tuple[Decimal, Decimal]:
    if sheet.low != sheet.high:
        return sheet.low, sheet.high
    share = Decimal(str(deviation_percent)) / 100
    return sheet.low * (1 - share), sheet.high * (1 + share)


def readings_amiss(readings: int, fasteners: int) -> str:
    """Say so if fewer or more readings came than a joint has fasteners; empty if each has one.

    >>> readings_amiss(3, 5)
    '3 of 5 fasteners have a reading, 2 are still to be tightened'
    """
    if readings == fasteners:
        return ""
    if readings > fasteners:
        return f"{readings} readings came for {fasteners} fasteners"
    left = fasteners - readings
    return f"{readings} of {fasteners} fasteners have a reading, {left} are still to be tightened"
