"""Units of torque: read as people write them, turned exactly, and rounded as the source was."""

import re
from dataclasses import dataclass
from decimal import Context, Decimal
from enum import StrEnum
from fractions import Fraction

from shoptui.domain.fasteners.figures import FastenerError, positive
from shoptui.domain.inert import inert


class Unit(StrEnum):
    """A unit of torque; its value is how it is written everywhere."""

    N_M = "N m"
    LBF_FT = "lbf ft"
    LBF_IN = "lbf in"
    KGF_M = "kgf m"
    KGF_CM = "kgf cm"
    OZF_IN = "ozf in"
    DAN_M = "daN m"
    MILLI_N_M = "mN m"


_G = Fraction("9.80665")
_LBF = Fraction("0.45359237") * _G
_FOOT = Fraction("0.3048")

IN_N_M: dict[Unit, Fraction] = {
    Unit.N_M: Fraction(1),
    Unit.LBF_FT: _LBF * _FOOT,
    Unit.LBF_IN: _LBF * _FOOT / 12,
    Unit.KGF_M: _G,
    Unit.KGF_CM: _G / 100,
    Unit.OZF_IN: _LBF * _FOOT / 12 / 16,
    Unit.DAN_M: Fraction(10),
    Unit.MILLI_N_M: Fraction(1, 1000),
}
"""One of each in newton metres, exact: pound, foot and standard gravity are defined (NIST SP 811, app. B),
as are the prefixes of ten and of a thousandth (SI Brochure, table 7)."""

_FORCES = {
    "n": "N",
    "dan": "daN",
    "mn": "mN",
    **dict.fromkeys(("newton", "newtons"), "N"),
    **dict.fromkeys(("lbf", "lb", "lbs", "pound", "pounds", "poundforce"), "lbf"),
    **dict.fromkeys(("kgf", "kg", "kp", "kilopond"), "kgf"),
    **dict.fromkeys(("ozf", "oz", "ounce", "ounces"), "ozf"),
}
_LENGTHS = {
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), "m"),
    "cm": "cm",
    **dict.fromkeys(("ft", "foot", "feet"), "ft"),
    **dict.fromkeys(("in", "inch", "inches"), "in"),
}
_JOINTS = re.compile("[\\s.*\u00b7\u22c5\u2022\u2219\u00d7-]+")
"""What stands between force and length: a blank, a point on or above the line, a cross, a dash."""


def unit(text: str) -> Unit:
    """Return the unit that a text names, force first or length first, joined in any way that sheets use.

    Raises:
        FastenerError: None of those here.

    >>> unit("N\u00b7m"), unit("Nm"), unit("ft-lbs"), unit("inch pounds")
    (<Unit.N_M: 'N m'>, <Unit.N_M: 'N m'>, <Unit.LBF_FT: 'lbf ft'>, <Unit.LBF_IN: 'lbf in'>)

    """
    mega = text.strip().startswith("MN")  # a million newtons, which no fastener has
    words = [word for word in _JOINTS.split(text.strip().lower()) if word and not mega]
    if len(words) == 1:
        words = _parted(words[0])
    if len(words) == len(("force", "length")):
        for force, length in (words, words[::-1]):
            named = f"{_FORCES.get(force)} {_LENGTHS.get(length)}"
            if named in _NAMES:
                return Unit(named)
    raise FastenerError(
        f"A unit of torque was expected ({', '.join(Unit)}); {inert(text.strip(), 40) or 'nothing'} came."
    )


_NAMES = frozenset(map(str, Unit))


def _parted(word: str) -> list[str]:
    """Part a word such as `nm` or `ftlb`; `mN` is a millinewton, which is no torque."""
    if word == "mn":
        return [word]
    return next(
        ([word[:at], word[at:]] for at in range(1, len(word)) if {word[:at], word[at:]} <= _ALL), [word]
    )


_ALL = _FORCES.keys() | _LENGTHS.keys()


@dataclass(frozen=True, slots=True)
class Converted:
    """A torque in another unit.

    Args:
        exact: The product, nothing rounded.
        rounded: With the digits that the source's own digits carry.

    """

    exact: Fraction
    rounded: Decimal


def converted(value: Decimal, source: Unit, target: Unit) -> Converted:
    """Turn a torque into another unit.

    The rounded value is rounded once, half to even, from the exact product, to the finest power of ten that
    is no finer than the last digit of the source. So 90 lbf ft, which says whole pound-feet, becomes whole
    newton metres. Source: NIST SP 811, 7.9 and B.7 (from memory).

    >>> converted(Decimal("90"), Unit.LBF_FT, Unit.N_M).rounded
    Decimal('122')
    >>> converted(Decimal("36"), Unit.N_M, Unit.LBF_FT).rounded
    Decimal('26.6')
    """
    factor = IN_N_M[source] / IN_N_M[target]
    exact = Fraction(value) * factor
    if factor == 1:
        return Converted(exact, value)
    step = Fraction(10) ** _exponent(value) * factor
    place = 0
    while Fraction(10) ** place > step:
        place -= 1
    while Fraction(10) ** (place + 1) <= step:
        place += 1
    steps = round(exact / Fraction(10) ** place)  # half to even
    return Converted(exact, Decimal(steps).scaleb(place))


def _exponent(value: Decimal) -> int:
    exponent = value.as_tuple().exponent
    return exponent if isinstance(exponent, int) else 0


def decimal(exact: Fraction, digits: int = 10) -> Decimal:
    """Return an exact value with so many significant digits, rounded half to even.

    >>> decimal(IN_N_M[Unit.LBF_FT], 17)
    Decimal('1.3558179483314004')
    """
    return Context(prec=digits).divide(Decimal(exact.numerator), Decimal(exact.denominator))


class OtherUnitError(FastenerError):
    """A value that came with a unit of its own: it is asked about, never silently turned.

    Args:
        words: The sentence.
        value: As typed.
        unit: As typed.

    """

    def __init__(self, words: str, value: Decimal, unit: Unit) -> None:
        super().__init__(words)
        self.value = value
        self.unit = unit


_WITH_UNIT = re.compile(r"\s*([+-]?[\d.,]+)\s*(.*)", re.DOTALL | re.ASCII)


def torque(text: str, expected: Unit, what: str = "A torque") -> Decimal:
    """Return a torque typed in a unit that is known from where it is typed.

    Raises:
        OtherUnitError: It names another unit.
        FastenerError: No number above zero, or no unit of torque behind it.

    >>> torque("66 Nm", Unit.N_M)
    Decimal('66')
    >>> torque("66 lb-ft", Unit.N_M)
    Traceback (most recent call last):
    shoptui.domain.fasteners.units.OtherUnitError: A torque in N m was expected; 66 lbf ft came: about 89 N m.

    """
    match = _WITH_UNIT.fullmatch(text)
    if match is None or not match[2].strip():
        return positive(text, what)
    value, named = positive(match[1], what), unit(match[2])
    if named is not expected:
        about = converted(value, named, expected).rounded
        raise OtherUnitError(
            f"{what} in {expected} was expected; {value} {named} came: about {about:f} {expected}.",
            value,
            named,
        )
    return value
