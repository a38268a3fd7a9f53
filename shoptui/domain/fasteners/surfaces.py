"""What rubs when a fastener is tightened: nut factor, frictions, and how far the preload scatters by them."""

from dataclasses import dataclass, replace
from enum import StrEnum

from shoptui.domain.fasteners.figures import up_to_one


class Prepared(StrEnum):
    """How the sheet wants the threads; a value for one is never turned into a value for another."""

    NOT_SAID = "not said"
    DRY = "dry"
    OILED = "oiled"
    LOCKED = "threadlocker"


class Given(StrEnum):
    """What of the surfaces a person knows; the rest is usual."""

    NOTHING = "nothing"
    FACTOR = "nut factor"
    FRICTION = "friction"


@dataclass(frozen=True, slots=True)
class Surfaces:
    """What rubs.

    Args:
        words: In words, to be said among the assumptions.
        factor: Nut factor, for the short form.
        thread_friction: For the long form.
        head_friction: Likewise, under the head.
        scatter: How far the preload lies to either side of the likely one, as a fraction.
        given: What of it is known.

    """

    words: str
    factor: float
    thread_friction: float
    head_friction: float
    scatter: float
    given: Given = Given.NOTHING


DRY_SCATTER, OILED_SCATTER, STRETCH_SCATTER = 0.35, 0.25, 0.10
"""Of preload by torque wrench, unlubricated and lubricated, and by measured stretch of the bolt
(NASA-STD-5020B, table 3, as quoted)."""

_DRY = Surfaces("dry threads", 0.20, 0.15, 0.15, DRY_SCATTER)

SURFACES = {
    # K 0.20 is the handbook's for zinc plating or where nothing is said; with frictions of 0.15 the long form
    # comes to the same (Shigley's Mechanical Engineering Design, example of a 3/4-16 bolt, from memory).
    Prepared.DRY: _DRY,
    Prepared.NOT_SAID: replace(_DRY, words="dry threads assumed: how they are prepared is not said"),
    # K 0.18: the same table, lubricated; TM 9-6115-604-34 takes 10 % off the dry torque for engine oil.
    # Frictions of 0.12: a supplier's table for lubricated bolts after VDI 2230.
    Prepared.OILED: Surfaces("oiled threads", 0.18, 0.12, 0.12, OILED_SCATTER),
}
"""Where nothing more is known of a joint. Threadlocker has none: its maker's sheet says what it does."""


def with_nut_factor(factor: float) -> Surfaces:
    """Return surfaces of which the nut factor is known.

    Raises:
        FastenerError: Not above 0 and up to 1.

    """
    up_to_one(factor, "A nut factor")
    return replace(_DRY, words=f"nut factor {factor:g} as given", factor=factor, given=Given.FACTOR)


def with_friction(thread: float, head: float) -> Surfaces:
    """Return surfaces of which the frictions are known.

    Raises:
        FastenerError: One is not above 0 and up to 1.

    """
    return replace(
        _DRY,
        words="frictions as given",
        thread_friction=up_to_one(thread, "A friction in the threads"),
        head_friction=up_to_one(head, "A friction under the head"),
        given=Given.FRICTION,
    )
