"""How far a fastener engages, and what a spacer takes away; in millimetres."""

from dataclasses import dataclass
from enum import StrEnum

from shoptui.domain.fasteners.figures import FastenerError, above_zero
from shoptui.domain.fasteners.threads import SAME, Thread


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

PAST_THE_NUT = 2
"""Pitches that a bolt stands out of its nut (NASA-STD-5020B, 4.7.4, as quoted)."""


ROOM = 1
"""Pitches of thread that are left below a bolt in a blind hole: it may be a little over its length, a washer
thinner than listed, and it would clamp nothing. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Nut:
    """An open nut, which the bolt is to fill and to stand out of."""

    height_mm: float


@dataclass(frozen=True, slots=True)
class Engagement:
    """How far a thread engages.

    Args:
        engaged_mm: Of thread in thread.
        least_mm: What the more daring rule wants; of a nut, its height.
        careful_mm: What the more careful rule wants.
        turns: Threads that hold.
        too_long_mm: By how much it bottoms out, 0 where it does not.
        findings: Short, bottoming out or close to it, in sentences without a full stop, with numbers; none if
            all is well.
        remark: That it is enough by one rule and too little by another; empty if it is not.
        over_mm: By how much it leaves less than a pitch of thread below it, 0 where there is room.

    """

    engaged_mm: float
    least_mm: float
    careful_mm: float
    turns: float
    too_long_mm: float
    findings: tuple[str, ...]
    remark: str = ""
    over_mm: float = 0.0


def engagement(
    thread: Thread,
    into: Material | Nut,
    *,
    length_mm: float,
    grip_mm: float,
    threaded_hole_mm: float | None = None,
) -> Engagement:
    """Return how far a bolt or stud engages.

    Args:
        thread: Its thread.
        into: What it goes into.
        length_mm: Of a bolt under its head, of a stud what stands out of its root.
        grip_mm: All that it goes through first: parts, washers, spacers.
        threaded_hole_mm: Depth of full thread in a blind hole; None goes through.

    Raises:
        FastenerError: A length not above 0, or a grip below 0.

    >>> from shoptui.domain.fasteners.threads import metric
    >>> engagement(metric(12, 1.5), Material.STEEL, length_mm=40, grip_mm=30).findings
    ('short: 10 mm of thread engage, at least 12 mm (1 d in steel) are wanted, 2 mm more',)
    >>> engagement(metric(10), Nut(8.4), length_mm=30, grip_mm=21).findings
    ('short: 0.6 mm stand out of the nut, at least 3 mm (2 pitches) are wanted, 2.4 mm more',)

    """
    above_zero(length_mm, "A length in mm")
    not_below_zero(grip_mm, "A grip in mm")
    beyond = length_mm - grip_mm
    if isinstance(into, Nut):
        return _in_nut(thread, above_zero(into.height_mm, "A height of a nut in mm"), beyond)
    room = ROOM * thread.pitch_mm
    open_ = beyond + room
    hole = open_ if threaded_hole_mm is None else above_zero(threaded_hole_mm, "A depth of thread in mm")
    too_long = beyond - hole if beyond > hole + SAME else 0.0
    over = beyond + room - hole if beyond + room > hole + SAME else 0.0
    engaged = max(0.0, min(beyond, hole))
    daring, careful = DIAMETERS[into]
    least, wanted = daring * thread.major_mm, careful * thread.major_mm
    findings, remark = [], ""
    if too_long:
        findings.append(
            f"bottoms out: {mm(beyond)} mm of bolt reach into {mm(hole)} mm of thread, {mm(too_long)} mm too "
            "long"
        )
    elif over:
        findings.append(
            f"no room at the bottom: {mm(beyond)} mm of bolt reach into {mm(hole)} mm of thread, "
            f"{mm(room)} mm (a pitch) is to be left there"
        )
    if engaged < least - SAME:
        findings.append(
            f"short: {mm(engaged)} mm of thread engage, at least {mm(least)} mm ({daring:g} d in {into}) are "
            f"wanted, {mm(least - engaged)} mm more"
        )
    elif engaged < wanted - SAME:
        remark = f"enough by one rule, another wants {mm(wanted)} mm ({careful:g} d in {into})"
    turns = engaged / thread.pitch_mm
    return Engagement(engaged, least, wanted, turns, too_long, tuple(findings), remark, over)


def _in_nut(thread: Thread, height: float, beyond: float) -> Engagement:
    """Judge a bolt in an open nut: it fills the nut and stands out of it."""
    engaged, past = max(0.0, min(beyond, height)), PAST_THE_NUT * thread.pitch_mm
    findings = []
    if engaged < height - SAME:
        findings.append(
            f"short: {mm(engaged)} mm of the nut's {mm(height)} mm of thread engage, with {PAST_THE_NUT} "
            f"pitches past it {mm(height + past - beyond)} mm more are wanted"
        )
    elif beyond < height + past - SAME:
        findings.append(
            f"short: {mm(beyond - height)} mm stand out of the nut, at least {mm(past)} mm ({PAST_THE_NUT} "
            f"pitches) are wanted, {mm(height + past - beyond)} mm more"
        )
    return Engagement(engaged, height, height, engaged / thread.pitch_mm, 0.0, tuple(findings))


def with_spacer(
    thread: Thread,
    into: Material | Nut,
    *,
    length_mm: float,
    grip_mm: float,
    spacer_mm: float,
    threaded_hole_mm: float | None = None,
) -> tuple[Engagement, str]:
    """Return what is left of an engagement behind a spacer, and that in words.

    Raises:
        FastenerError: A length not above 0, or a grip or spacer below 0.

    >>> from shoptui.domain.fasteners.threads import metric
    >>> with_spacer(metric(12, 1.5), Material.STEEL, length_mm=26, grip_mm=8, spacer_mm=5)[1]
    'a spacer of 5 mm leaves 13 of 18 mm of thread, 8.7 of 12 turns'

    """
    not_below_zero(spacer_mm, "A spacer in mm")
    bare, left = (
        engagement(thread, into, length_mm=length_mm, grip_mm=grip, threaded_hole_mm=threaded_hole_mm)
        for grip in (grip_mm, grip_mm + spacer_mm)
    )
    words = (
        f"a spacer of {mm(spacer_mm)} mm leaves {mm(left.engaged_mm)} of {mm(bare.engaged_mm)} mm of thread, "
        f"{mm(left.turns)} of {mm(bare.turns)} turns"
    )
    return left, words


def not_below_zero(value: float, what: str) -> float:
    """Return a value that is 0 or more.

    Raises:
        FastenerError: It is less.

    """
    if value < 0:
        raise FastenerError(f"{what} of 0 or more was expected; {value:g} came.")
    return value


def mm(value: float) -> str:
    """Return millimetres, or turns, as they are said: to a tenth.

    >>> mm(12), mm(11.1125), mm(0.04)
    ('12', '11.1', '0.04')
    """
    return f"{value:.1g}" if 0 < value < _TENTH else f"{round(value, 1):g}"


_TENTH = 0.1
