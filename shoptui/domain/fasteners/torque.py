"""What torque brings what preload: both forms side by side, with how far off either can be.

An estimate for people who know what they look at; for a joint that matters its maker's sheet says the value.
"""

from dataclasses import dataclass
from enum import StrEnum

from shoptui.domain.fasteners import forms
from shoptui.domain.fasteners.designations import Designation
from shoptui.domain.fasteners.figures import FastenerError, significant, up_to_one
from shoptui.domain.fasteners.strength import Limits, Scale, limits
from shoptui.domain.fasteners.surfaces import STRETCH_SCATTER, SURFACES, Given, Prepared, Surfaces
from shoptui.domain.fasteners.threads import Thread

GENERIC = "generic, not a specification"

CAUTION = (
    "Generic, not a specification: the maker's sheet, local codes and licensed practice come first. "
    "Never for brakes, steering, suspension, wheels, seats or belts."
)


@dataclass(frozen=True, slots=True)
class Spread:
    """A value with how low and how high it can be."""

    low: float
    likely: float
    high: float

    def times(self, factor: float) -> "Spread":
        """Return it in another unit."""
        return Spread(self.low * factor, self.likely * factor, self.high * factor)


class Of(StrEnum):
    """What a target is a fraction of."""

    PROOF = "proof"
    YIELD = "yield"


@dataclass(frozen=True, slots=True)
class Target:
    """How much of its strength a bolt is to be used.

    Args:
        fraction: Above 0, at most 1.
        of: Of the proof load; or of the yield stress, by tension and torsion together.

    """

    fraction: float
    of: Of

    def __post_init__(self) -> None:
        """Refuse what is no fraction."""
        up_to_one(self.fraction, f"A fraction of {self.of}")


USUAL_TARGET = Target(0.75, Of.PROOF)
"""For joints that are taken apart again (Shigley's Mechanical Engineering Design, as quoted publicly)."""


RELAXATION = 0.05
"""Of the preload is lost as the joint settles (NASA-TM-106943, as quoted)."""


def scattered(preload_n: float, scatter: float, relaxation: float = RELAXATION) -> Spread:
    """Return how low and how high a preload can come out (NASA-STD-5020B, eq. 3 and 4, as quoted).

    >>> scattered(14_400, 0.35)
    Spread(low=8892.0, likely=14400, high=19440.0)
    """
    low = preload_n * (1 - scatter) * (1 - relaxation)
    return Spread(round(low, 6), preload_n, round(preload_n * (1 + scatter), 6))


@dataclass(frozen=True, slots=True)
class Tightening:
    """What tightening a fastener comes to.

    Args:
        designation: Which fastener.
        target: Aimed at.
        preload_n: Left by a torque wrench that is set to the likely torque.
        short_nm: Torque by the short form: low and high where friction is as far off as the preload scatters.
        long_nm: Torque by the long form, likewise.
        long_first: Whether the long form is the one to go by.
        assumptions: Sentences without a full stop.
        caution: Short, and it defers to the maker's sheet.

    """

    designation: Designation
    target: Target
    preload_n: Spread
    short_nm: Spread
    long_nm: Spread
    long_first: bool
    assumptions: tuple[str, ...]
    caution: str

    @property
    def torque_nm(self) -> Spread:
        """Torque by the form to go by."""
        return self.long_nm if self.long_first else self.short_nm

    @property
    def method(self) -> str:
        """How it was found, in words."""
        form = "long form with frictions" if self.long_first else "short form with a nut factor"
        of = "the proof load" if self.target.of is Of.PROOF else "yield, by tension and torsion together"
        return f"{form}, aimed at {self.target.fraction * 100:g} % of {of}"

    @property
    def apart_percent(self) -> float:
        """How much more the long form gives than the short form."""
        return (self.long_nm.likely / self.short_nm.likely - 1) * 100


def tightening(
    designation: Designation, surfaces: Surfaces = SURFACES[Prepared.DRY], target: Target = USUAL_TARGET
) -> Tightening:
    """Return preload and torque of a bolt, screw or stud.

    Raises:
        FastenerError: Its strength is not said, or not given by its standard at this size.

    >>> from shoptui.domain.fasteners.reading import designation
    >>> found = tightening(designation("M10x1.25 10.9"))
    >>> round(found.preload_n.likely), round(found.torque_nm.likely, 1)
    (38096, 76.2)

    """
    thread, stresses = _of_bolt(designation)
    bearing_mm = forms.bearing_diameter_mm(thread)
    twist = surfaces.thread_friction
    if surfaces.given is Given.FACTOR:
        twist = forms.friction_of(surfaces.factor, thread, bearing_mm)
    aimed_n = _aimed_n(target, stresses, thread, twist)
    preload = scattered(aimed_n, surfaces.scatter)
    frictions = surfaces.thread_friction, surfaces.head_friction
    return Tightening(
        designation,
        target,
        preload,
        _needed(forms.short_form_nm(surfaces.factor, aimed_n, thread), surfaces.scatter),
        _needed(forms.long_form_nm(*frictions, aimed_n, thread, bearing_mm), surfaces.scatter),
        surfaces.given is Given.FRICTION,
        _assumptions(surfaces, target, stresses, thread, twist),
        _caution(designation, preload, stresses, thread),
    )


def _of_bolt(designation: Designation) -> tuple[Thread, Limits]:
    if not designation.is_bolt:
        raise FastenerError(f"A bolt, screw or stud was expected; {designation} came.")
    if designation.strength is None:
        raise FastenerError(
            f"How strong {designation} is was not said: a class such as 10.9, a grade such as grade 8 or a "
            "stainless group such as A2-70 was expected behind it."
        )
    return designation.thread, limits(designation.strength, designation.thread, designation.length_mm)


def _aimed_n(target: Target, stresses: Limits, thread: Thread, friction: float) -> float:
    if target.of is Of.PROOF:
        return forms.preload_at_proof_n(target.fraction, stresses.proof_mpa, thread)
    return forms.preload_at_yield_n(target.fraction, stresses.yield_mpa, friction, thread)


def _needed(torque_nm: float, scatter: float) -> Spread:
    """Torque that the aimed preload takes where the same scatter lies in the friction."""
    return Spread(torque_nm / (1 + scatter), torque_nm, torque_nm / (1 - scatter))


def _assumptions(
    surfaces: Surfaces, target: Target, stresses: Limits, thread: Thread, twist: float
) -> tuple[str, ...]:
    measured = forms.has_head_measures(thread)
    bearing = significant(forms.bearing_diameter_mm(thread))
    frictions = f"{surfaces.thread_friction:g} in the threads and {surfaces.head_friction:g} under the head"
    head = "hexagon head on a medium hole" if measured else "head face of 1.5 d"
    scatter = (
        f"scatters by {surfaces.scatter * 100:.0f} % by torque wrench "
        f"({STRETCH_SCATTER * 100:.0f} % where the bolt's stretch is measured)"
    )
    said = (
        surfaces.words,
        f"short form with a nut factor of {surfaces.factor:g}",
        f"long form with friction {frictions}",
        f"{head}, mean bearing diameter {bearing} mm",
        f"friction {twist:.2g} in the threads for the twist" if target.of is Of.YIELD else "",
        f"preload {scatter} and settles by {RELAXATION * 100:.0f} %",
        stresses.remark,
        thread.remark.removesuffix("."),
    )
    return tuple(words for words in said if words)


def _caution(designation: Designation, preload: Spread, stresses: Limits, thread: Thread) -> str:
    words = CAUTION
    share = preload.high / (stresses.proof_mpa * thread.stress_area_mm2)
    if share > 1:
        words += f" At the high end the preload is {share * 100:.0f} % of the proof load."
    if designation.strength is not None and designation.strength.scale is Scale.STAINLESS:
        words += " Stainless threads seize when dry."
    return words
