"""A handbook value for a plain joint, a steel bracket or trim, that a person has marked so."""

from dataclasses import dataclass
from decimal import Decimal

from shoptui.domain.fasteners.designations import Designation
from shoptui.domain.fasteners.figures import FastenerError, significant
from shoptui.domain.fasteners.surfaces import SURFACES, Prepared
from shoptui.domain.fasteners.torque import GENERIC, Tightening, tightening
from shoptui.domain.fasteners.units import IN_N_M, Unit


class SheetNeededError(FastenerError):
    """No handbook value may stand in for the maker's sheet here."""


@dataclass(frozen=True, slots=True)
class Handbook:
    """A value that is no specification and never counts as one.

    Args:
        torque: In the unit, two digits.
        unit: Of it.
        tightening: What it was taken from, with its assumptions and caution.

    """

    torque: Decimal
    unit: Unit
    tightening: Tightening

    def __str__(self) -> str:
        """As it is shown, always with what it is."""
        return f"{self.torque:f} {self.unit}, {GENERIC}"


def handbook(designation: Designation, prepared: Prepared, *, plain: bool, unit: Unit = Unit.N_M) -> Handbook:
    """Return the handbook value of a plain joint: the short form at three quarters of the proof load.

    Each preparation has its own value; none is turned into another.

    Args:
        designation: Its bolts.
        prepared: Its threads.
        plain: Whether the lead has marked the joint as plain.
        unit: To be shown in.

    Raises:
        SheetNeededError: The joint is not plain, or no handbook covers how its threads are prepared.
        FastenerError: Strength not said, or not given at this size.

    >>> from shoptui.domain.fasteners.reading import designation
    >>> str(handbook(designation("M8 8.8"), Prepared.DRY, plain=True))
    '25 N m, generic, not a specification'

    """
    if not plain:
        raise SheetNeededError(
            f"The maker's sheet is needed for {designation}: no handbook value is given for a joint that "
            "is not marked as plain."
        )
    surfaces = SURFACES.get(prepared)
    if surfaces is None:
        raise SheetNeededError(f"The sheet of the {prepared} is needed: no handbook value is given with it.")
    found = tightening(designation, surfaces)
    value = found.torque_nm.likely / float(IN_N_M[unit])
    return Handbook(Decimal(significant(value, 2)), unit, found)
