"""How far a fastener engages, how long a bolt must be, what a spacer takes away; in millimetres."""

import math
from dataclasses import dataclass
from enum import StrEnum

from shoptui.domain.fasteners.figures import FastenerError, above_zero
from shoptui.domain.fasteners.threads import System, Thread


class Material(StrEnum):
    """Of the hole or nut that the thread is cut in."""

    STEEL = "steel"
    CAST_IRON = "cast iron"
    BRASS = "brass"
    ALUMINIUM = "aluminium"
    ZINC = "zinc"
    PLASTIC = "plastic"


DIAMETERS: dict[Material, tuple[float, float]] = {
    Material.STEEL: (1.0, 1.5),
    Material.CAST_IRON: (1.5, 1.5),
    Material.BRASS: (1.5, 1.5),
    Material.ALUMINIUM: (1.5, 2.0),
    Material.ZINC: (1.5, 2.0),
    Material.PLASTIC: (1.5, 2.0),
}
"""Least engagement in diameters, by the more daring and the more careful rule of thumb: public sources
disagree. Aluminium: TM 9-6115-604-34 has two diameters."""


@dataclass(frozen=True, slots=True)
class Engagement:
    """How far a thread engages.

    Args:
        engaged_mm: Of thread in thread.
        least_mm: What the more daring rule wants.
        careful_mm: What the more careful rule wants.
        turns: Threads that hold.
        findings: Sentences without a full stop, with numbers; none if all is well.

    """

    engaged_mm: float
    least_mm: float
    careful_mm: float
    turns: float
    findings: tuple[str, ...]


def engagement(
    thread: Thread,
    material: Material,
    *,
    length_mm: float,
    grip_mm: float,
    threaded_hole_mm: float | None = None,
) -> Engagement:
    """Return how far a bolt or stud engages.

    Args:
        thread: Its thread.
        material: What it goes into.
        length_mm: Of a bolt under its head, of a stud what stands out of its root.
        grip_mm: All that it goes through first: parts, washers, spacers.
        threaded_hole_mm: Depth of full thread in a blind hole; None goes through, or is a nut.

    Raises:
        FastenerError: A length not above 0, or a grip below 0.

    >>> from shoptui.domain.fasteners.threads import metric
    >>> engagement(metric(12, 1.5), Material.STEEL, length_mm=40, grip_mm=30).findings
    ('short: 10 mm of thread engage, at least 12 mm (1 d in steel) are wanted, 2 mm more',)

    """
    above_zero(length_mm, "A length in mm")
    not_below_zero(grip_mm, "A grip in mm")
    beyond = length_mm - grip_mm
    findings = []
    if threaded_hole_mm is not None and beyond > above_zero(threaded_hole_mm, "A depth of thread in mm"):
        findings.append(
            f"bottoms out: {beyond:g} mm of bolt reach into {threaded_hole_mm:g} mm of thread, "
            f"{beyond - threaded_hole_mm:g} mm too long"
        )
    engaged = max(0.0, beyond if threaded_hole_mm is None else min(beyond, threaded_hole_mm))
    daring, careful = DIAMETERS[material]
    least, wanted = daring * thread.major_mm, careful * thread.major_mm
    if engaged < least:
        findings.append(
            f"short: {engaged:.3g} mm of thread engage, at least {least:.3g} mm ({daring:g} d in {material}) "
            f"are wanted, {least - engaged:.3g} mm more"
        )
    elif engaged < wanted:
        findings.append(
            f"between two rules: {engaged:.3g} mm of thread engage, in {material} {daring:g} d is "
            f"{least:.3g} mm and {careful:g} d is {wanted:.3g} mm"
        )
    return Engagement(engaged, least, wanted, engaged / thread.pitch_mm, tuple(findings))


def with_spacer(
    thread: Thread, material: Material, *, length_mm: float, grip_mm: float, spacer_mm: float
) -> tuple[Engagement, str]:
    """Return what is left of a stud's engagement behind a spacer, and that in words.

    Raises:
        FastenerError: A length not above 0, or a grip or spacer below 0.

    >>> from shoptui.domain.fasteners.threads import metric
    >>> with_spacer(metric(12, 1.5), Material.STEEL, length_mm=26, grip_mm=8, spacer_mm=5)[1]
    'a spacer of 5 mm leaves 13 of 18 mm of thread, 8.7 of 12 turns'

    """
    not_below_zero(spacer_mm, "A spacer in mm")
    bare = engagement(thread, material, length_mm=length_mm, grip_mm=grip_mm)
    left = engagement(thread, material, length_mm=length_mm, grip_mm=grip_mm + spacer_mm)
    words = (
        f"a spacer of {spacer_mm:g} mm leaves {left.engaged_mm:.3g} of {bare.engaged_mm:.3g} mm of thread, "
        f"{left.turns:.2g} of {bare.turns:.2g} turns"
    )
    return left, words


LENGTHS_MM = (
    *(6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70),
    *(80, 90, 100, 110, 120, 130, 140, 150, 160, 180, 200),
)
"""Nominal lengths that bolts are made in (ISO 888, from memory)."""

PAST_THE_NUT = 2
"""Pitches that a bolt stands out of its nut (NASA-STD-5020B, 4.7.4, as quoted)."""

_NUT_MM = {5: 4.7, 6: 5.2, 8: 6.8, 10: 8.4, 12: 10.8, 14: 12.8, 16: 14.8, 18: 15.8, 20: 18.0}
"""Height of a hexagon nut (ISO 4032, largest, from memory)."""

WASHER_MM = {5: 1.0, 6: 1.6, 8: 1.6, 10: 2.0, 12: 2.5, 14: 2.5, 16: 3.0, 18: 3.0, 20: 3.0}
"""Thickness of a plain washer (ISO 7089, nominal, from memory)."""


def bolt_length_mm(thread: Thread, grip_mm: float, *, washers: int = 0, nut_mm: float | None = None) -> float:
    """Return the shortest length made that goes through grip and washers and two pitches past the nut.

    Args:
        thread: Metric; its plain washer and hexagon nut are taken.
        grip_mm: Thickness of what is clamped, washers not counted.
        washers: How many plain washers, under head and nut together.
        nut_mm: Height of another nut.

    Raises:
        FastenerError: A size without listed nut or washer, or nothing made that is as long.

    >>> from shoptui.domain.fasteners.threads import metric
    >>> bolt_length_mm(metric(10), 20, washers=2)
    40

    """
    above_zero(grip_mm, "A grip in mm")
    not_below_zero(washers, "A count of washers")
    if thread.major_mm not in WASHER_MM or thread.system is not System.METRIC:
        raise FastenerError(f"Nuts and washers of M5 to M20 are listed; {thread} came: measure them.")
    size = int(thread.major_mm)
    nut = _NUT_MM[size] if nut_mm is None else above_zero(nut_mm, "A height of a nut in mm")
    least = grip_mm + washers * WASHER_MM[size] + nut + PAST_THE_NUT * thread.pitch_mm
    for length in LENGTHS_MM:
        if length >= least:
            return length
    raise FastenerError(f"Bolts up to {LENGTHS_MM[-1]} mm are listed; {least:.4g} mm are needed.")


def washers_under_head(too_long_mm: float, thickness_mm: float) -> int:
    """Return how many washers keep a bolt from bottoming out.

    Raises:
        FastenerError: A thickness not above 0, or a length below 0.

    >>> washers_under_head(3.5, WASHER_MM[10])
    2

    """
    above_zero(thickness_mm, "A thickness in mm")
    return math.ceil(not_below_zero(too_long_mm, "A length in mm") / thickness_mm)


def not_below_zero(value: float, what: str) -> float:
    """Return a value that is 0 or more.

    Raises:
        FastenerError: It is less.

    """
    if value < 0:
        raise FastenerError(f"{what} of 0 or more was expected; {value:g} came.")
    return value
