"""Tightening in steps: passes as values, and torque then angle as its sheet writes it."""

import re
from decimal import Context, Decimal
from itertools import pairwise

from shoptui.domain.fasteners.figures import FastenerError, above_zero
from shoptui.domain.fasteners.sheet_values import (
    SheetAngle,
    SheetValue,
    has_degrees,
    is_bare,
    sheet_angle,
    sheet_value,
)
from shoptui.domain.fasteners.sheet_words import plain_value
from shoptui.domain.fasteners.units import Unit
from shoptui.domain.inert import inert

MOST_PASSES = 6
"""More passes than any sheet asks for; no source."""


def passes(target: Decimal, count: int) -> tuple[Decimal, ...]:
    """Return the value of each pass, rising to the target.

    Args:
        target: In the sheet's unit, as the sheet writes it.
        count: How many passes.

    Raises:
        FastenerError: A target not above 0, or a count that is none.

    >>> [str(value) for value in passes(Decimal("110"), 3)]
    ['33', '77', '110']
    >>> passes(Decimal("8.5"), 1)
    (Decimal('8.5'),)

    """
    above_zero(target, "A torque")
    if not 1 <= count <= MOST_PASSES:
        raise FastenerError(f"1 to {MOST_PASSES} passes were expected; {count} came.")
    return (*(_rounded(target * share) for share in _SHARES.get(count) or _even(count)), target)


_SHARES = {1: (), 2: (Decimal("0.5"),), 3: (Decimal("0.3"), Decimal("0.7"))}
"""Of the target, before the last pass: ASME PCC-1 has 20 to 30 %, then 50 to 70 %, then all."""


def _even(count: int) -> tuple[Decimal, ...]:
    """Begin as three passes do, and rise by even steps."""
    first = _SHARES[3][0]
    return tuple(first + (1 - first) * step / (count - 1) for step in range(count - 1))


def _rounded(value: Decimal) -> Decimal:
    """As a scale can be set: two digits."""
    return Decimal(f"{Context(prec=2).plus(value):f}")


_STEP = re.compile(r"(?<!/)(?<!/ )\+(?!\s?/?\s?-|\s?[\d.,]+[^+/\d]{0,9}/\s?-)", re.ASCII)
"""A plus sign between two steps, not that of plus and minus, nor that of `+10/-5` or `-5/+10`."""


def steps_of(text: str) -> list[str]:
    """Return the pieces of a sheet's value in plain signs, in order.

    >>> steps_of("20 + 80 -5/+10 Nm, then 90 deg")
    ['20', '80 -5/+10 Nm', '90 deg']
    """
    return [piece.strip() for piece in _STEP.split(plain_value(text))]


def unclear_steps(text: str) -> str:
    """Say that of several steps nobody can know which are torques."""
    return (
        "A torque with its unit, then angles with deg behind each, such as 20 N m + 90 deg + 90 deg, was "
        f"expected; {inert(text.strip(), 40)} came."
    )


def steps(text: str, usual: Unit = Unit.N_M) -> tuple[SheetValue | SheetAngle, ...]:
    """Return the steps of a sheet's value: torques first, rising, then angles, never added up.

    Args:
        text: Steps joined by a plus sign, each with its own tolerance or none; an angle has a degree sign or
            `deg` behind it. Figures alone are torques until one has its unit behind it, then angles where
            one with a degree sign follows; several of them without any unit could be either.
        usual: Unit of torques that have none behind them.

    Raises:
        FastenerError: A step that is neither or could be either, an angle of 0 or past 360 degrees, torques
            that do not rise, or an angle before the last torque.

    >>> [str(step) for step in steps("40 +- 2 N m + 90 + 90\u00b0 \u00b1 5\u00b0")]
    ['40 +/- 2 N m', '90 deg', '90 +/- 5 deg']

    """
    pieces = steps_of(text)
    if not all(pieces):
        raise FastenerError(
            f"Steps such as 40 N m + 90 deg were expected; {inert(text, 40) or 'nothing'} came."
        )
    last = max((at for at, piece in enumerate(pieces) if has_degrees(piece)), default=-1)
    named = next(
        (at for at, piece in enumerate(pieces) if not has_degrees(piece) and not is_bare(piece)), last
    )
    turned = [
        at for at, piece in enumerate(pieces) if has_degrees(piece) or (named < at < last and is_bare(piece))
    ]
    torques = [piece for at, piece in enumerate(pieces) if at not in turned]
    if not torques or turned != list(range(len(torques), len(pieces))):
        raise FastenerError(f"A torque, then angles, was expected; {inert(text, 40) or 'nothing'} came.")
    if len(torques) > 1 and turned and all(map(is_bare, torques)):
        raise FastenerError(unclear_steps(text))
    values = _rising(torques, usual, text)
    return (*values, *(sheet_angle(pieces[at]) for at in turned))


def _rising(pieces: list[str], usual: Unit, text: str) -> tuple[SheetValue, ...]:
    """Return the torques; a unit behind a later one counts for those before it that have none."""
    values: list[SheetValue] = []
    for piece in reversed(pieces):
        values.insert(0, sheet_value(piece, values[0].unit if values else usual))
    if len({value.unit for value in values}) > 1 or any(
        after.low <= before.low or after.high <= before.high for before, after in pairwise(values)
    ):
        raise FastenerError(f"Torques in one unit that rise were expected; {inert(text, 40)} came.")
    return tuple(values)
