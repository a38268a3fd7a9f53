"""What a reading looks like beside its sheet's value: as it says, outside, ten times off, another unit."""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from shoptui.domain.fasteners.sheet_values import DEGREES, NO_TOLERANCE, SheetAngle, SheetValue
from shoptui.domain.fasteners.units import Unit, converted


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

    >>> from shoptui.domain.fasteners.sheet_values import sheet_value
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
    if found := _tenfold(reading, low, high, said, sheet.unit):
        return found
    for other in (Unit.N_M, Unit.LBF_FT, Unit.LBF_IN, Unit.KGF_M):
        there = converted(reading, other, sheet.unit).rounded
        if other is not sheet.unit and low <= there <= high:
            return Doubt(Amiss.UNIT, f"{said}, but {reading:f} {other} is {there:f} {sheet.unit}")
    return Doubt(Amiss.OUTSIDE, f"{said}: {_beyond(reading, low, high, sheet.unit)} what is allowed")


def angle_doubt(reading: Decimal, sheet: SheetAngle) -> Doubt | None:
    """Return why an angle is to be asked about, None if it is as the sheet says.

    Where the sheet has no tolerance its number is the number.

    >>> from shoptui.domain.fasteners.sheet_values import sheet_angle
    >>> angle_doubt(Decimal(97), sheet_angle("90 deg +/- 5")).words
    '97 deg is not 90 +/- 5 deg: 2 deg above what is allowed'
    >>> angle_doubt(Decimal(92), sheet_angle("90 deg")).words
    '92 deg is not 90 deg: 2 deg above, no tolerance on the sheet'
    """
    if sheet.low <= reading <= sheet.high:
        return None
    said = f"{reading:f} {DEGREES} is not {sheet}"
    if found := _tenfold(reading, sheet.low, sheet.high, said, DEGREES):
        return found
    by = _beyond(reading, sheet.low, sheet.high, DEGREES)
    return Doubt(
        Amiss.OUTSIDE, f"{said}: {by}{' what is allowed' if sheet.has_tolerance else f', {NO_TOLERANCE}'}"
    )


def _tenfold(reading: Decimal, low: Decimal, high: Decimal, said: str, named: str) -> Doubt | None:
    for times in (Decimal(10), Decimal("0.1")):
        if low <= reading * times <= high:
            meant = f"{(reading * times).normalize():f} {named}"
            return Doubt(Amiss.TENFOLD, f"{said}, but {meant} is")
    return None


def _beyond(reading: Decimal, low: Decimal, high: Decimal, named: str) -> str:
    way, by = ("below", low - reading) if reading < low else ("above", reading - high)
    return f"{by.normalize():f} {named} {way}"


def _allowed(sheet: SheetValue, deviation_percent: float) -> tuple[Decimal, Decimal]:
    if sheet.low != sheet.high:
        return sheet.low, sheet.high
    share = Decimal(str(deviation_percent)) / 100
    return sheet.low * (1 - share), sheet.high * (1 + share)
