"""Torque and preload: short form with a nut factor, long form with frictions, loads to aim at.

Forces in newtons, lengths in millimetres, torques in newton metres, stresses in megapascals.
"""

import math

from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.threads import System, Thread

MM_M = 1000

_HEX_AND_HOLE = {
    5: (6.88, 5.5),
    6: (8.88, 6.6),
    8: (11.63, 9),
    10: (14.63, 11),
    12: (16.63, 13.5),
    14: (19.64, 15.5),
    16: (22.49, 17.5),
    18: (25.34, 20),
    20: (28.19, 22),
}
"""Bearing face of a hexagon head (ISO 4014, least) and medium hole (ISO 273) by metric size; from
memory, and checked by the tightening torques that VDI 2230 makes of them."""

_USUAL_MEAN = 1.25
"""Mean bearing diameter over nominal where no measures are listed: a face of 1.5 d on a hole of d
(NASA-TM-106943 eq. 2, which writes it as 0.625 d for the radius)."""


def bearing_diameter_mm(thread: Thread) -> float:
    """Return the mean diameter on which a hexagon head rubs, over a medium hole.

    >>> from shoptui.domain.fasteners.threads import metric
    >>> round(bearing_diameter_mm(metric(10)), 3), bearing_diameter_mm(metric(24))
    (12.815, 30.0)
    """
    if has_head_measures(thread):
        face, hole = _HEX_AND_HOLE[int(thread.major_mm)]
        return (face + hole) / 2
    return _USUAL_MEAN * thread.major_mm


def has_head_measures(thread: Thread) -> bool:
    """Return whether the head and its hole are listed, not estimated."""
    return thread.system is System.METRIC and thread.major_mm in _HEX_AND_HOLE


def short_form_nm(nut_factor: float, preload_n: float, thread: Thread) -> float:
    """Return the torque T = K F d.

    >>> from shoptui.domain.fasteners.threads import metric
    >>> round(short_form_nm(0.2, 34_200, metric(12)), 1)
    82.1
    """
    return nut_factor * preload_n * thread.major_mm / MM_M


def long_form_nm(
    thread_friction: float, head_friction: float, preload_n: float, thread: Thread, bearing_mm: float
) -> float:
    """Return the torque F (0.16 P + 0.58 d2 mu_thread + mu_head Dkm / 2) (VDI 2230, step R13, as quoted)."""
    return preload_n / MM_M * _arm_mm(thread_friction, head_friction, thread, bearing_mm)


def _arm_mm(thread_friction: float, head_friction: float, thread: Thread, bearing_mm: float) -> float:
    """Torque by preload: what pitch, threads and head each take."""
    return (
        0.16 * thread.pitch_mm
        + 0.58 * thread.pitch_diameter_mm * thread_friction
        + bearing_mm / 2 * head_friction
    )


def nut_factor(thread_friction: float, head_friction: float, thread: Thread, bearing_mm: float) -> float:
    """Return the nut factor with which the short form gives what the long form gives."""
    return _arm_mm(thread_friction, head_friction, thread, bearing_mm) / thread.major_mm


def friction_of(factor: float, thread: Thread, bearing_mm: float) -> float:
    """Return the one friction, in the threads and under the head, that a nut factor stands for.

    Raises:
        FastenerError: The pitch alone takes more.

    """
    pitch_alone = nut_factor(0, 0, thread, bearing_mm)
    if factor <= pitch_alone:
        raise FastenerError(
            f"A nut factor above {pitch_alone:.3f} was expected for {thread}, which its pitch alone takes; "
            f"{factor:g} came."
        )
    each = nut_factor(1, 1, thread, bearing_mm) - pitch_alone
    return (factor - pitch_alone) / each


def preload_at_proof_n(fraction: float, proof_mpa: float, thread: Thread) -> float:
    """Return the preload that is a fraction of the proof load."""
    return fraction * proof_mpa * thread.stress_area_mm2


def preload_at_yield_n(fraction: float, yield_mpa: float, thread_friction: float, thread: Thread) -> float:
    """Return the preload at which tension and torsion together reach a fraction of yield.

    The equivalent stress (von Mises) in the circle of the stress diameter (VDI 2230, as quoted). For
    Unified threads the stress diameter of ASME B1.1 stands in the same formula.
    """
    diameter = thread.stress_diameter_mm
    twist = (
        1.5
        * thread.pitch_diameter_mm
        / diameter
        * (thread.pitch_mm / (math.pi * thread.pitch_diameter_mm) + 1.155 * thread_friction)
    )
    return thread.stress_area_mm2 * fraction * yield_mpa / math.sqrt(1 + 3 * twist**2)
