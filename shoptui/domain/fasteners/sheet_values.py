"""A torque or an angle as its sheet writes it, and what it allows."""

import re
from dataclasses import dataclass
from decimal import Decimal

from shoptui.domain.fasteners.figures import FastenerError, positive
from shoptui.domain.fasteners.units import Unit, unit
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
    return f"{low:f} to {high:f} {named}"


_FIGURE = r"[\d.,]+"
_FORMS = re.compile(
    rf"(?P<first>{_FIGURE})\s*"
    rf"(?:(?P<own>[^\d\s%+,.-][^\d%+]*?)??\s*"
    rf"(?:(?:\u00b1|\+\s?/?\s?-)\s*(?P<more>{_FIGURE})\s*(?P<percent>%)?"
    rf"|(?:to|-|\u2013|\.\.\.?|\u2026)\s*(?P<last>{_FIGURE})))?\s*(?P<unit>[^\d\s%+].*)?",
    re.ASCII,
)
"""A figure, with plus and minus or with the last of a range; a unit behind either figure or behind both."""


def sheet_value(text: str, usual: Unit) -> SheetValue:
    """Return the torque that a sheet's words mean: one value, plus and minus, or low to high.

    Args:
        text: As the sheet has it, its unit behind it.
        usual: Unit where it has none.

    Raises:
        FastenerError: Another form, values not above 0, two units, or a range that does not rise.

    >>> str(sheet_value("110\u00b110 Nm", Unit.N_M)), str(sheet_value("65-75 ft-lb", Unit.N_M))
    ('110 +/- 10 N m', '65 to 75 lbf ft')

    """
    match = _FORMS.fullmatch(text.strip())
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


_SIGN = re.compile(r"(?<=[\d.,%])\s*(?:\u00b0|\u00ba|deg(?:rees?)?\b\.?)", re.IGNORECASE | re.ASCII)


def has_degrees(text: str) -> bool:
    """Return whether a degree sign or `deg` stands behind a figure.

    >>> has_degrees("40 N m + 90\u00b0 \u00b1 5"), has_degrees("40 N m")
    (True, False)
    """
    return _SIGN.search(text) is not None


def is_bare(text: str) -> bool:
    """Return whether words are figures alone, with no unit and no degrees behind them."""
    match = _FORMS.fullmatch(text.strip())
    return match is not None and not match["own"] and not match["unit"]


def sheet_angle(text: str) -> SheetAngle:
    """Return the angle that a sheet's words mean: one, plus and minus, or low to high.

    Raises:
        FastenerError: Another form, an angle of 0 or past a full turn, or a range that does not rise.

    >>> str(sheet_angle("90\u00b0 \u00b15\u00b0")), str(sheet_angle("85 to 95 deg"))
    ('90 +/- 5 deg', '85 to 95 deg')

    """
    match = _FORMS.fullmatch(_SIGN.sub(" ", text).strip())
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
    more = positive(match["more"], "A tolerance") if match["more"] else Decimal(0)
    if match["percent"]:
        more = (first * more / 100).quantize(_FINEST).normalize()
    if more >= first:
        raise FastenerError(f"A tolerance below the value was expected; {first} +/- {more} came.")
    return first - more, first + more, first
