"""Numbers as people write them on a sheet, and as many digits of one as mean something."""

import math
import re
from decimal import Decimal
from typing import TypeVar

from shoptui.domain.inert import inert

N = TypeVar("N", float, Decimal)

MOST = 10_000_000
"""More than any torque, length or force of a vehicle's fastener in any unit here; no source."""


class FastenerError(ValueError):
    """What cannot be read or computed; the words say what was expected and what came."""


class PlaceError(FastenerError):
    """What cannot be read, and where.

    Args:
        text: All that was typed.
        at: Where in it, 0 is the first sign.
        came: The piece that stands there.
        expected: What was expected, to go before `was expected`.

    """

    def __init__(self, text: str, at: int, came: str, expected: str) -> None:
        where = f'where "{inert(came, 20)}" stands' if came else "at its end"
        if came and text.count(came) > 1:
            where = f"at sign {at + 1}, {where}"
        super().__init__(f"{inert(text, 60) or 'Nothing'}: {where}, {expected} was expected.")
        self.text = text
        self.at = at


_NUMBER = re.compile(r"[+-]?(?:\d{1,9}(?:[.,]\d{1,9})?|[.,]\d{1,9})", re.ASCII)
_BOTH = re.compile(r"[+-]?[1-9]\d{0,2}(?:(?:\.\d{3}){1,2},|(?:,\d{3}){1,2}\.)\d{1,9}", re.ASCII)
"""One sign divides thousands and the other is the decimal point: it is plain which is which."""
_THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2},\d{3}", re.ASCII)


def number(text: str, what: str = "A number") -> Decimal:
    """Return a number with the digits that it was written with; a comma is a decimal point.

    Args:
        text: As typed.
        what: What it is, to begin a sentence with.

    Raises:
        FastenerError: No number, or a comma that could divide thousands too.

    >>> number("1,25"), number("90.0"), number("1.250,5"), number("1,250.5")
    (Decimal('1.25'), Decimal('90.0'), Decimal('1250.5'), Decimal('1250.5'))

    """
    plain = text.strip()
    if _THOUSANDS.fullmatch(plain):
        raise FastenerError(two_ways(what, plain))
    if _BOTH.fullmatch(plain):
        plain = plain.replace("." if plain.rindex(",") > plain.rindex(".") else ",", "")
    if not _NUMBER.fullmatch(plain):
        raise FastenerError(
            f"{what} such as 12.5 or 12,5 was expected; {inert(plain, 40) or 'nothing'} came."
        )
    return Decimal(plain.replace(",", "."))


def could_divide(value: Decimal) -> bool:
    """Return whether the point of a number, as it was written, could divide thousands.

    >>> [could_divide(Decimal(each)) for each in ("1.250", "1.25", "0.125", "1250.125")]
    [True, False, False, False]
    """
    return _THOUSANDS.fullmatch(f"{value:f}".replace(".", ",")) is not None


def two_ways(what: str, written: str) -> str:
    """Say the two numbers that `1,250` could be, each as it is taken for no other.

    >>> two_ways("A torque", "1,250")
    'A torque could be 1250 or 1.25 where 1,250 is written; write one of them.'
    """
    whole, rest = re.split("[.,]", written)
    fraction = (rest.rstrip("0") or "0") if rest.endswith("0") else f"{rest}0"
    return (
        f"{what} could be {whole}{rest} or {whole}.{fraction} where {written} is written; write one of them."
    )


def positive(text: str, what: str = "A number") -> Decimal:
    """Return a number above zero.

    Raises:
        FastenerError: No number, zero, below zero, or beyond all that a fastener can have.

    """
    return above_zero(number(text, what), what)


def above_zero(value: N, what: str) -> N:
    """Return a value that is above zero and finite.

    Raises:
        FastenerError: It is not.

    """
    if not 0 < value < MOST:
        raise FastenerError(f"{what} above 0 and below {MOST} was expected; {value} came.")
    return value


def up_to_one(value: float, what: str) -> float:
    """Return a fraction or a coefficient: above 0, at most 1.

    Raises:
        FastenerError: It is not; a per cent written for a fraction is the usual slip.

    """
    if not 0 < value <= 1:
        raise FastenerError(f"{what} above 0 and up to 1, such as 0.15, was expected; {value:g} came.")
    return value


def significant(value: float, digits: int = 3) -> str:
    """Return a value with so many significant digits, never with an exponent.

    >>> significant(76.249), significant(38131.2), significant(0.0), significant(99.96)
    ('76.2', '38100', '0', '100')
    """
    if value == 0:
        return "0"
    rounded = float(f"{value:.{digits - 1}e}")
    places = digits - 1 - math.floor(math.log10(abs(rounded)))
    return f"{rounded:.{max(places, 0)}f}"
