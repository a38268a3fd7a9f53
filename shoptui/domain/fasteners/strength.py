"""How strong a fastener is: property classes, grades, stainless groups."""

from dataclasses import dataclass
from enum import StrEnum

from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.threads import INCH_MM, SAME, System, Thread

PSI_MPA = 0.006894757293168361
"""One pound-force per square inch, from the exact pound, standard gravity and inch."""


class Scale(StrEnum):
    """By what rule a strength is named."""

    CLASS = "class"
    GRADE = "grade"
    STAINLESS = "stainless"


@dataclass(frozen=True, slots=True)
class Strength:
    """A strength as it is marked: `10.9`, grade `8`, `A2-70`; on a nut class `10` or grade `8`."""

    scale: Scale
    name: str

    def __str__(self) -> str:
        """As it stands in a designation."""
        return f"grade {self.name}" if self.scale is Scale.GRADE else self.name


@dataclass(frozen=True, slots=True)
class Limits:
    """Stresses of a strength at a size.

    Args:
        tensile_mpa: Minimum tensile strength.
        yield_mpa: Minimum yield strength, or stress at 0.2 % strain.
        proof_mpa: Proof stress.
        remark: How the proof stress is known where the standard gives none.

    """

    tensile_mpa: float
    yield_mpa: float
    proof_mpa: float
    remark: str = ""


_CLASSES: dict[str, tuple[tuple[float, Limits], ...]] = {
    "4.6": ((39, Limits(400, 240, 225)),),
    "4.8": ((39, Limits(420, 340, 310)),),
    "5.6": ((39, Limits(500, 300, 280)),),
    "5.8": ((39, Limits(520, 420, 380)),),
    "6.8": ((39, Limits(600, 480, 440)),),
    "8.8": ((16, Limits(800, 640, 580)), (39, Limits(830, 660, 600))),
    "9.8": ((16, Limits(900, 720, 650)),),
    "10.9": ((39, Limits(1040, 940, 830)),),
    "12.9": ((39, Limits(1220, 1100, 970)),),
}
"""ISO 898-1: up to this diameter in mm, these stresses. Tensile and proof from 8.8 on follow from
published load tables; yield, and the classes below 8.8, are from memory."""

_LOW = (33_000, 36_000, 60_000)
_GRADES: dict[str, tuple[tuple[float, tuple[int, int, int]], ...]] = {
    "1": ((1.5, _LOW),),
    "2": ((0.75, (55_000, 57_000, 74_000)), (1.5, _LOW)),
    "5": ((1.0, (85_000, 92_000, 120_000)), (1.5, (74_000, 81_000, 105_000))),
    "8": ((1.5, (120_000, 130_000, 150_000)),),
}
"""SAE J429: up to this diameter in inches, proof, yield and tensile in psi, as quoted in published
secondary tables; grade 1 as far as they give it for long bolts of grade 2."""

_LEAST_INCH = 0.25
_LONG_MM = 6 * INCH_MM
"""Bolts of grade 2 that are longer have the stresses of grade 1 (SAE J429, as quoted)."""

_STAINLESS = {"50": (500, 210), "70": (700, 450), "80": (800, 600)}
"""ISO 3506-1: tensile and 0.2 % strain in MPa; from memory."""

_PROOF_OF_YIELD = 0.85
"""Proof stress of yield where no standard gives it (Machinery's Handbook, as quoted in a public source)."""

BOLT_CLASSES = tuple(_CLASSES)
BOLT_GRADES = tuple(_GRADES)
NUT_CLASSES = ("04", "05", "5", "6", "8", "9", "10", "12")
"""ISO 898-2; from memory."""
NUT_GRADES = ("2", "5", "8")
"""SAE J995; from memory."""
STAINLESS = tuple(f"{group}-{number}" for group in ("A1", "A2", "A3", "A4", "A5") for number in _STAINLESS)


def limits(strength: Strength, thread: Thread, length_mm: float | None = None) -> Limits:
    """Return the stresses of a bolt, screw or stud.

    Args:
        strength: As marked.
        thread: Its thread: stresses depend on the diameter.
        length_mm: Nominal length, where it is known.

    Raises:
        FastenerError: A strength of another system of threads, or a size that its standard does not cover.

    >>> from shoptui.domain.fasteners.threads import metric
    >>> limits(Strength(Scale.CLASS, "8.8"), metric(18)).proof_mpa
    600

    """
    belongs(strength, thread)
    match strength.scale:
        case Scale.CLASS:
            for most, found in _CLASSES.get(strength.name, ()):
                if thread.major_mm <= most:
                    return found
        case Scale.GRADE:
            inches = thread.major_mm / INCH_MM
            rows = _GRADES.get(strength.name, ())
            if strength.name == "2" and length_mm is not None and length_mm > _LONG_MM:
                rows = _GRADES["1"]
            for largest, row in rows:
                if _LEAST_INCH - SAME <= inches <= largest + SAME:
                    proof, at_yield, tensile = (psi * PSI_MPA for psi in row)
                    return Limits(tensile, at_yield, proof)
        case Scale.STAINLESS:
            tensile, at_yield = _STAINLESS[strength.name[-2:]]
            remark = f"{_PROOF_OF_YIELD:g} of the yield stress was taken for the proof stress of {strength}"
            return Limits(tensile, at_yield, _PROOF_OF_YIELD * at_yield, remark)
    raise FastenerError(
        f"{_SAYS[strength.scale]} gives no strength of {strength} for {thread}: the maker's sheet is needed."
    )


_SAYS = {Scale.CLASS: "ISO 898-1", Scale.GRADE: "SAE J429 (1/4 to 1 1/2 in)", Scale.STAINLESS: "ISO 3506-1"}


def belongs(strength: Strength, thread: Thread) -> None:
    """Refuse a strength that is marked on another system's fasteners.

    Raises:
        FastenerError: A class or stainless group on a Unified thread, a grade on a metric one.

    """
    of = System.UNIFIED if strength.scale is Scale.GRADE else System.METRIC
    if thread.system is of:
        return
    expected = "a class such as 10.9" if of is System.UNIFIED else "a grade such as grade 8"
    raise FastenerError(f"{strength} is of {of} fasteners; {expected} was expected for {thread}.")


def proof_load_n(strength: Strength, thread: Thread, length_mm: float | None = None) -> float:
    """Return the load that leaves no lasting stretch, as `limits` knows the stress."""
    return limits(strength, thread, length_mm).proof_mpa * thread.stress_area_mm2


def ultimate_load_n(strength: Strength, thread: Thread, length_mm: float | None = None) -> float:
    """Return the least load at which it may break, as `limits` knows the stress."""
    return limits(strength, thread, length_mm).tensile_mpa * thread.stress_area_mm2
