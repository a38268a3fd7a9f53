"""Screw threads: the pitches that standards list, and the diameters and areas that follow from a size.

Sources: ISO 724 and ASME B1.1 for the diameters of the basic profile, ISO 898-1 and ASME B1.1 for the stress
area, all as quoted in public secondary sources. Listed sizes are in `thread_tables`.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.thread_tables import METRIC, UNIFIED

INCH_MM = 25.4
SAME = 0.0005
"""Of an inch or a millimetre: two sizes that differ by less are one."""

MOST_PITCH = 0.25
"""Of the diameter, the most for a metric pitch that no list has: every listed one has less, as the table here
shows; common practice, no source."""

THIRD_CHOICE = (9, 11)
"""Of the listed sizes, those that ISO 261 gives as a third choice (from memory)."""


class System(StrEnum):
    """A family of threads."""

    METRIC = "metric"
    UNIFIED = "Unified"


@dataclass(frozen=True, slots=True)
class Thread:
    """A screw thread. Make one by `metric` or `unified`.

    Args:
        system: Its family.
        size: As its standard writes it: `10` of M10, `3/8`, `#10`.
        major_mm: Nominal diameter.
        pitch_mm: From one thread to the next.

    """

    system: System
    size: str
    major_mm: float
    pitch_mm: float

    @property
    def pitch_diameter_mm(self) -> float:
        """d2 = D2 = d - 0.649519 P (ISO 724)."""
        return self.major_mm - 0.649519 * self.pitch_mm

    @property
    def minor_mm(self) -> float:
        """Of the nut: d1 = D1 = d - 1.082532 P (ISO 724, from memory)."""
        return self.major_mm - 1.082532 * self.pitch_mm

    @property
    def root_mm(self) -> float:
        """Of the bolt: d3 = d - 1.226869 P (ISO 724; for Unified as in handbooks)."""
        return self.major_mm - 1.226869 * self.pitch_mm

    @property
    def stress_diameter_mm(self) -> float:
        """Of the circle that has the stress area: (d2 + d3) / 2, or d - 0.9743 / n for Unified threads."""
        if self.system is System.UNIFIED:
            return self.major_mm - 0.9743 * self.pitch_mm
        return (self.pitch_diameter_mm + self.root_mm) / 2

    @property
    def stress_area_mm2(self) -> float:
        """What carries the load (ISO 898-1; ASME B1.1)."""
        return math.pi / 4 * self.stress_diameter_mm**2

    @property
    def per_inch(self) -> int:
        """Threads to the inch, of a Unified thread."""
        return round(INCH_MM / self.pitch_mm)

    @property
    def series(self) -> str:
        """`coarse` or `fine`, `UNC` or `UNF`; empty, or `UNS`, for a pitch that no list here has."""
        if self.system is System.UNIFIED:
            _, *pitches = UNIFIED[self.size]
            return dict(zip(pitches, ("UNC", "UNF"), strict=True)).get(self.per_inch, "UNS")
        listed = METRIC.get(self.major_mm, ())
        if self.pitch_mm not in listed:
            return ""
        return "coarse" if self.pitch_mm == listed[0] else "fine"

    @property
    def remark(self) -> str:
        """Say so if no standard lists the pitch, or the size is a rare one; empty otherwise.

        >>> metric(10, 1.1).remark
        'No standard lists M10 with a pitch of 1.1 mm; 1.5, 1.25, 1, 0.75 are listed.'
        """
        if self.system is System.UNIFIED:
            listed = _listed_per_inch(self.size)
            if self.per_inch in listed:
                return ""
            some = " and ".join(map(str, listed))
            return (
                f"{self.size} with {self.per_inch} threads per inch is neither coarse nor fine; {some} are."
            )
        if self.series:
            return _THIRD.format(f"M{self.size}") if self.major_mm in THIRD_CHOICE else ""
        pitches = METRIC.get(self.major_mm)
        if not pitches:
            return f"No list here has the size M{self.size}."
        some = ", ".join(f"{pitch:g}" for pitch in pitches)
        return f"No standard lists M{self.size} with a pitch of {self.pitch_mm:g} mm; {some} are listed."

    def __str__(self) -> str:
        """As standards write it: the coarse metric pitch is understood, a Unified series is named."""
        if self.system is System.UNIFIED:
            return f"{self.size}-{self.per_inch} {self.series}"
        return f"M{self.size}" if self.series == "coarse" else f"M{self.size} x {self.pitch_mm:g}"


_THIRD = "ISO 261 has {} as a third choice, which is rare: measure it again."


def metric(major_mm: float, pitch_mm: float | None = None) -> Thread:
    """Return an ISO metric thread, with the coarse pitch where none is given.

    Raises:
        FastenerError: A size without a coarse pitch, or a pitch that cannot be one.

    >>> str(metric(10)), str(metric(10, 1.25)), round(metric(10).stress_area_mm2, 1)
    ('M10', 'M10 x 1.25', 58.0)

    """
    if not 1 <= major_mm <= 100:  # noqa: PLR2004 - beyond ISO 261's reach on a vehicle
        raise FastenerError(f"A metric size from M1 to M100 was expected; M{major_mm:g} came.")
    if pitch_mm is None:
        if major_mm not in METRIC:
            near = sorted(sorted(METRIC, key=lambda size: abs(size - major_mm))[:3])
            raise FastenerError(
                f"M{major_mm:g} has no coarse pitch in the lists: give its pitch, or a size such as "
                f"{', '.join(f'M{size:g}' for size in near)}."
            )
        pitch_mm = METRIC[major_mm][0]
    listed = METRIC.get(major_mm, ())
    if pitch_mm not in listed and not 0 < pitch_mm <= major_mm * MOST_PITCH:
        some = f": {', '.join(f'{pitch:g}' for pitch in listed)}" if listed else ""
        raise FastenerError(
            f"A pitch above 0 that is listed for M{major_mm:g}{some}, or one up to a quarter of the diameter "
            f"was expected; {pitch_mm:g} came. A length below the diameter has mm behind it."
        )
    return Thread(System.METRIC, f"{major_mm:g}", major_mm, pitch_mm)


def unified(size: str, per_inch: int | None = None, series: str = "") -> Thread:
    """Return a Unified thread.

    Args:
        size: `#10`, `3/8`, `1 1/4`, or decimal inches.
        per_inch: Threads to the inch; may be left out where the series says them.
        series: UNC, UNF, UN, UNS or nothing.

    Raises:
        FastenerError: An unknown size, or threads that the series does not have.

    >>> str(unified("3/8", 16)), str(unified("0.25", series="UNF"))
    ('3/8-16 UNC', '1/4-28 UNF')

    """
    size = _unified_size(size)
    inches, *pitches = UNIFIED[size]
    named = dict(zip(("UNC", "UNF"), pitches, strict=True)).get(series)
    if series in {"UNC", "UNF"} and not named:
        raise FastenerError(f"{size} {series} is not in the lists; {size}-{_listed_per_inch(size)[0]} is.")
    if per_inch is None:
        if not named:
            some = " or ".join(f"{size}-{listed}" for listed in _listed_per_inch(size))
            raise FastenerError(f"{size} leaves open how many threads to the inch: {some} was expected.")
        per_inch = int(named)
    if named and per_inch != named:
        raise FastenerError(f"{size} {series} has {named} threads per inch; {per_inch} came.")
    if not 2 / inches <= per_inch <= 100:  # noqa: PLR2004 - a pitch below half the diameter, none finer than 80 made
        raise FastenerError(f"{per_inch} threads per inch cannot be cut on {size}.")
    return Thread(System.UNIFIED, size, inches * INCH_MM, INCH_MM / per_inch)


def _listed_per_inch(size: str) -> list[int]:
    return [int(each) for each in UNIFIED[size][1:] if each]


def _unified_size(text: str) -> str:
    """Return the size as the table writes it."""
    if text in UNIFIED:
        return text
    try:
        inches = float(text)
    except ValueError:
        inches = 0.0
    for size, (diameter, *_) in UNIFIED.items():
        if abs(diameter - inches) < SAME:
            return size
    raise FastenerError(
        f"A Unified size from #0 to 1 1/2 such as #10, 1/4 or 7/16 was expected; {text} came."
    )
