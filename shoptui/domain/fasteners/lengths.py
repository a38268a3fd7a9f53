"""How long a bolt must be, and which washers and nuts go with it; in millimetres."""

import math

from shoptui.domain.fasteners.engagement import (
    DIAMETERS,
    PAST_THE_NUT,
    ROOM,
    Engagement,
    Material,
    engagement,
    mm,
    not_below_zero,
)
from shoptui.domain.fasteners.figures import FastenerError, above_zero
from shoptui.domain.fasteners.threads import SAME, System, Thread

LENGTHS_MM = (
    *(6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70),
    *(80, 90, 100, 110, 120, 130, 140, 150, 160, 180, 200),
)
"""Nominal lengths that bolts are made in (ISO 888, from memory)."""

NUT_MM = {5: 4.7, 6: 5.2, 8: 6.8, 10: 8.4, 12: 10.8, 14: 12.8, 16: 14.8, 18: 15.8, 20: 18.0}
"""Height of a hexagon nut (ISO 4032, largest, from memory)."""

WASHER_MM = {5: 1.0, 6: 1.6, 8: 1.6, 10: 2.0, 12: 2.5, 14: 2.5, 16: 3.0, 18: 3.0, 20: 3.0}
"""Thickness of a plain washer (ISO 7089, nominal, from memory)."""


def nut_height_mm(thread: Thread) -> float:
    """Return the height of the hexagon nut of a thread.

    Raises:
        FastenerError: No list here has it.

    """
    return _listed(thread, NUT_MM, "nut")


def washer_thickness_mm(thread: Thread) -> float:
    """Return how thick the plain washer of a thread is.

    Raises:
        FastenerError: No list here has it.

    """
    return _listed(thread, WASHER_MM, "washer")


def _listed(thread: Thread, table: dict[int, float], what: str) -> float:
    if thread.system is not System.METRIC or thread.major_mm not in table:
        raise FastenerError(
            f"{what.capitalize()}s of M5 to M20 are listed; {thread} came: measure one, and write {what} and "
            "its mm."
        )
    return table[int(thread.major_mm)]


def bolt_length_mm(
    thread: Thread,
    grip_mm: float,
    *,
    washers: int = 0,
    washer_mm: float | None = None,
    nut_mm: float | None = None,
) -> float:
    """Return the shortest length made that goes through grip and washers and two pitches past the nut.

    Args:
        thread: Metric; its plain washer and hexagon nut are taken where no others are given.
        grip_mm: Thickness of what is clamped, washers not counted.
        washers: How many washers, under head and nut together.
        washer_mm: Thickness of another washer.
        nut_mm: Height of another nut.

    Raises:
        FastenerError: A size without listed nut or washer, or nothing made that is as long.

    >>> from shoptui.domain.fasteners.threads import metric
    >>> bolt_length_mm(metric(10), 20, washers=2)
    40

    """
    above_zero(grip_mm, "A grip in mm")
    not_below_zero(washers, "A count of washers")
    nut = nut_height_mm(thread) if nut_mm is None else above_zero(nut_mm, "A height of a nut in mm")
    under = washer_mm if washer_mm is not None or not washers else washer_thickness_mm(thread)
    return _made(thread, grip_mm + washers * (under or 0.0) + nut + PAST_THE_NUT * thread.pitch_mm)


def bolt_into_mm(
    thread: Thread, material: Material, grip_mm: float, threaded_hole_mm: float | None = None
) -> tuple[float, Engagement]:
    """Return the shortest length made that engages by the careful rule, else by the daring one, and how far.

    Args:
        thread: Metric.
        material: What it goes into.
        grip_mm: All that it goes through first.
        threaded_hole_mm: Depth of full thread in a blind hole; None goes through.

    Raises:
        FastenerError: Nothing made is long enough and leaves a pitch of thread at the bottom.

    >>> from shoptui.domain.fasteners.threads import metric
    >>> bolt_into_mm(metric(10), Material.ALUMINIUM, 24)[0]
    45

    """
    least, careful = (count * thread.major_mm for count in DIAMETERS[material])
    first = _made(thread, grip_mm + least)
    most = math.inf if threaded_hole_mm is None else grip_mm + threaded_hole_mm - ROOM * thread.pitch_mm
    fit = [length for length in LENGTHS_MM if first <= length <= most + SAME]
    if not fit:
        raise FastenerError(
            f"One of {mm(grip_mm + least)} mm or more engages, one of more than {mm(most)} mm has no room at "
            "the bottom: none is made between."
        )
    length = next((each for each in fit if each >= grip_mm + careful - SAME), fit[-1])
    return length, engagement(
        thread, material, length_mm=length, grip_mm=grip_mm, threaded_hole_mm=threaded_hole_mm
    )


def _made(thread: Thread, least: float) -> float:
    if thread.system is not System.METRIC:
        raise FastenerError(
            f"Metric lengths are listed; {thread} came, which wants {mm(least)} mm or more: give its length."
        )
    for length in LENGTHS_MM:
        if length >= least - SAME:
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
    return math.ceil((not_below_zero(too_long_mm, "A length in mm") - SAME) / thickness_mm)
