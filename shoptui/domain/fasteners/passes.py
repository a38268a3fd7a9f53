"""Tightening in steps: passes as values, and torque then angle as its sheet writes it."""

import re
from dataclasses import dataclass
from decimal import Context, Decimal
from itertools import pairwise

from shoptui.domain.fasteners.figures import FastenerError, above_zero, positive
from shoptui.domain.fasteners.units import Unit, unit
from shoptui.domain.inert import inert

MOST_PASSES = 6
"""More passes than any sheet asks for; no source."""

_FULL_TURN = 360


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


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do to each fastener before the next step begins.

    Args:
        torque: To this torque, in the unit; None for a step by angle.
        unit: Of the torque.
        angle_deg: Further by this angle; None for a step by torque.

    """

    torque: Decimal | None = None
    unit: Unit = Unit.N_M
    angle_deg: Decimal | None = None

    def __str__(self) -> str:
        """As it stands on the card."""
        return f"{self.torque} {self.unit}" if self.angle_deg is None else f"{self.angle_deg} deg further"


_ANGLE = re.compile(r"([\d.,]+)\s*(?:\u00b0|\u00ba|deg(?:rees?)?\.?)", re.IGNORECASE | re.ASCII)
_TORQUE = re.compile(r"([\d.,]+)\s*(\D.*)?", re.ASCII)


def steps(text: str, usual: Unit = Unit.N_M) -> tuple[Step, ...]:
    """Return the steps of a sheet's value: torques first, rising, then angles, never added up.

    Args:
        text: Steps joined by a plus sign; an angle has a degree sign or `deg` behind it.
        usual: Unit of a torque that has none behind it.

    Raises:
        FastenerError: A step that is neither, an angle of 0 or past 360 degrees, torques that do not rise,
            or an angle before the last torque.

    >>> [str(step) for step in steps("40 N m + 90\u00b0 + 90\u00b0")]
    ['40 N m', '90 deg further', '90 deg further']

    """
    found = tuple(_step(piece.strip(), usual) for piece in text.split("+"))
    torques = [step for step in found if step.angle_deg is None]
    if not torques or any(step.angle_deg is not None for step in found[: len(torques)]):
        raise FastenerError(f"A torque, then angles, was expected; {inert(text, 40) or 'nothing'} came.")
    values = [step.torque for step in torques if step.torque is not None]
    if len({step.unit for step in torques}) > 1 or any(after <= before for before, after in pairwise(values)):
        raise FastenerError(f"Torques in one unit that rise were expected; {inert(text, 40)} came.")
    return found


def _step(piece: str, usual: Unit) -> Step:
    if match := _ANGLE.fullmatch(piece):
        angle = positive(match[1], "An angle")
        if angle > _FULL_TURN:
            raise FastenerError(f"An angle up to {_FULL_TURN} degrees was expected; {angle} came.")
        return Step(angle_deg=angle)
    if match := _TORQUE.fullmatch(piece):
        named = unit(match[2]) if (match[2] or "").strip() else usual
        return Step(positive(match[1], "A torque"), named)
    raise FastenerError(
        f"A step such as 40 N m or 90 deg was expected; {inert(piece, 40) or 'nothing'} came."
    )
