"""A torque or an angle as its sheet writes it, and what it allows."""

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from shoptui.domain.fasteners.figures import FastenerError, above_zero, number, positive
from shoptui.domain.fasteners.sheet_words import plain_value
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
        return _printed(self.low, self.high, self.target, self.unit)


@dataclass(frozen=True, slots=True)
class SheetAngle:
    """An angle of a sheet, by which a fastener is turned further, in degrees.

    Args:
        low: Least that the sheet allows.
        high: Most; the same where the sheet has no tolerance.
        target: The angle itself; None in a range.

    """

    low: Decimal
    high: Decimal
    target: Decimal | None

    @property
    def has_tolerance(self) -> bool:
        """Whether the sheet allows more than the one number."""
        return self.low != self.high

    def __str__(self) -> str:
        """As it stands on the card; it is read back as the same angle."""
        return _printed(self.low, self.high, self.target, DEGREES)


DEGREES = "deg"
NO_TOLERANCE = "no tolerance on the sheet"
FULL_TURN = 360


def _printed(low: Decimal, high: Decimal, target: Decimal | None, named: str) -> str:
    if low == high:
        return f"{low:f} {named}"
    if target is not None and high - target == target - low:
        return f"{target:f} +/- {high - target:f} {named}"
    if target is not None:
        return f"{target:f} +{high - target:f}/-{target - low:f} {named}"
    return f"{low:f} to {high:f} {named}"


_FIGURE = r"[\d.,]+"
_FORMS = re.compile(
    rf"(?P<first>{_FIGURE})\s*"
    rf"(?:(?P<own>[^\d\s%+,.-][^\d%+]*?)??\s*"
    rf"(?:(?:\u00b1|\+\s?/?\s?-)\s*(?P<more>{_FIGURE})\s*(?P<percent>%)?"
    rf"|\+\s?(?P<up>{_FIGURE})\s*%?\s*/\s*-\s?(?P<down>{_FIGURE})\s*(?P<up_percent>%)?"
    rf"|-\s?(?P<below>{_FIGURE})\s*%?\s*/\s*\+\s?(?P<above>{_FIGURE})\s*(?P<below_percent>%)?"
    rf"|(?:to|-|\.\.\.?|\u2026)\s*(?P<last>{_FIGURE})))?\s*(?P<unit>[^\d\s%+/].*)?",
    re.ASCII | re.IGNORECASE,
)
"""A figure, with plus and minus, with each of the two its own, or with the last of a range; a unit behind
either figure or behind both."""

_IN_BOTH = re.compile(
    r"(?P<sheet>.*?)\s*(?:[(\[]\s*(?P<bracketed>\d[^()\[\]]*)[)\]]|/\s*(?P<behind>\d.*))", re.ASCII
)
"""A torque and the same in another unit, in brackets or behind a stroke."""
_SAME_PERCENT = 3
"""Figures further apart are not one torque: sheets round the second to fives. Common practice, no source."""


def sheet_value(text: str, usual: Unit) -> SheetValue:
    """Return the torque that a sheet's words mean: one value, plus and minus, or low to high.

    Args:
        text: As the sheet has it, its unit behind it; the same in another unit behind that is only compared.
        usual: Unit where it has none.

    Raises:
        FastenerError: Another form, values not above 0, two units that say two torques, or a range that does
            not rise.

    >>> str(sheet_value("110\u00b110 Nm", Unit.N_M)), str(sheet_value("65-75 ft-lb", Unit.N_M))
    ('110 +/- 10 N m', '65 to 75 lbf ft')
    >>> str(sheet_value("80 Nm -5/+10", Unit.N_M)), str(sheet_value("110 N m (81 lb ft)", Unit.N_M))
    ('80 +10/-5 N m', '110 N m')

    """
    written = plain_value(text)
    if both := _IN_BOTH.fullmatch(written):
        other = both["bracketed"] or both["behind"]
        return _compared(sheet_value(both["sheet"], usual), sheet_value(other, usual))
    match = _FORMS.fullmatch(written)
    if match is None:
        raise FastenerError(
            "A torque such as 110 N m, 110 +/- 10 N m or 100 to 120 N m was expected; "
            f"{inert(text.strip(), 40) or 'nothing'} came."
        )
    units = {unit(each) for each in (match["own"], match["unit"]) if each}
    if len(units) > 1:
        raise FastenerError(f"A torque in one unit was expected; {inert(text.strip(), 40)} came.")
    low, high, target = _bounds(match, "A torque")
    return SheetValue(low, high, units.pop() if units else usual, target)


def _compared(sheet: SheetValue, other: SheetValue) -> SheetValue:
    """Return the first of two that are to be the same torque in two units."""
    if sheet.unit is other.unit:
        raise FastenerError(f"A torque in two units was expected; {sheet} and {other} came.")
    for here, there in ((sheet.low, other.low), (sheet.high, other.high)):
        turned = converted(there, other.unit, sheet.unit)
        if abs(turned.exact / Fraction(here) - 1) * 100 > _SAME_PERCENT:
            about = f"{there:f} {other.unit} is about {turned.rounded:f} {sheet.unit}"
            raise FastenerError(f"One torque in two units was expected; {sheet} and {other} came: {about}.")
    return sheet


_SIGN = re.compile(r"(?<=[\d.,%])\s*(?:\u00b0|\u00ba|deg(?:rees?)?\b\.?)", re.IGNORECASE | re.ASCII)


def has_degrees(text: str) -> bool:
    """Return whether a degree sign or `deg` stands behind a figure, or a part of a turn is said.

    >>> [has_degrees(each) for each in ("40 N m + 90\u00b0 \u00b1 5", "40 N m then half a turn", "40 N m")]
    [True, True, False]
    """
    return _SIGN.search(plain_value(text)) is not None


def is_bare(text: str) -> bool:
    """Return whether words are figures alone, with no unit and no degrees behind them."""
    match = _FORMS.fullmatch(plain_value(text))
    return match is not None and not match["own"] and not match["unit"]


def sheet_angle(text: str) -> SheetAngle:
    """Return the angle that a sheet's words mean: one, plus and minus, or low to high.

    Raises:
        FastenerError: Another form, an angle of 0 or past a full turn, or a range that does not rise.

    >>> str(sheet_angle("90\u00b0 \u00b15\u00b0")), str(sheet_angle("85 to 95 deg"))
    ('90 +/- 5 deg', '85 to 95 deg')

    """
    match = _FORMS.fullmatch(_SIGN.sub(" ", plain_value(text)).strip())
    if match is None or match["own"] or match["unit"]:
        raise FastenerError(
            "An angle such as 90 deg, 90 deg +/- 5 or 85 to 95 deg was expected; "
            f"{inert(text.strip(), 40) or 'nothing'} came."
        )
    low, high, target = _bounds(match, "An angle")
    if high > FULL_TURN:
        raise FastenerError(f"An angle up to {FULL_TURN} degrees was expected; {high:f} came.")
    return SheetAngle(low, high, target)


_FINEST = Decimal("0.000001")
"""What is printed is read back: a share of a value has no more digits than a number may have."""


def _bounds(match: re.Match[str], what: str) -> tuple[Decimal, Decimal, Decimal | None]:
    """Return the least, the most, and the value itself; None for it in a range."""
    first = positive(match["first"], what)
    if match["last"]:
        last = positive(match["last"], what)
        if last <= first:
            raise FastenerError(f"A range that rises was expected; {first} to {last} came.")
        return first, last, None
    up, down = _tolerance(match)
    if match["percent"] or match["up_percent"] or match["below_percent"]:
        up, down = ((first * each / 100).quantize(_FINEST).normalize() for each in (up, down))
    if down >= first:
        raise FastenerError(f"A tolerance below the value was expected; {first} - {down} came.")
    return first - down, first + up, first


def _tolerance(match: re.Match[str]) -> tuple[Decimal, Decimal]:
    """Return how far above the value is allowed, and how far below; one of the two may be nothing."""
    if match["more"]:
        more = positive(match["more"], "A tolerance")
        return more, more
    ways = (match["up"] or match["above"], match["down"] or match["below"])
    if not all(ways):
        return Decimal(0), Decimal(0)
    up, down = (number(each, "A tolerance") for each in ways)
    above_zero(up + down, "A tolerance")
    return up, down
