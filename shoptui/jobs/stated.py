"""What a person states of a joint's fasteners by typing: values, how many, an extension at the wrench."""

import re
from dataclasses import dataclass
from decimal import Decimal

from shoptui.domain.fasteners.doubts import angle_doubt, doubt
from shoptui.domain.fasteners.figures import FastenerError, number, positive
from shoptui.domain.fasteners.passes import passes
from shoptui.domain.fasteners.sheet_values import DEGREES
from shoptui.domain.fasteners.units import Unit, converted, unit
from shoptui.domain.inert import inert
from shoptui.domain.joint_sheets import Asked
from shoptui.domain.records import How, Reading

COUNT = "count"
"""What is agreed where it is known how many fasteners are meant."""


@dataclass(frozen=True, slots=True)
class Stated:
    """What was stated, before it is written down.

    Args:
        values: One for each fastener, or one for all of them.
        unit: A unit of torque, or `deg`.
        count: Fasteners.
        how: Whether the value was set, or read of each.
        notes: What stays visible beside it: an extension, a reason, what was said yes to.
        agreed: What was asked about and answered.
        new: How many of them are new by the books; None where that does not matter.

    """

    values: tuple[Decimal, ...]
    unit: str
    count: int
    how: How
    notes: tuple[str, ...] = ()
    agreed: frozenset[str] = frozenset()
    new: int | None = None


_VALUES = re.compile(
    r"(?:(?P<count>\d{1,2})\s*[xX\u00d7]\s*)?(?P<values>[\d.,]+(?:(?:\s*;\s*|\s+)[\d.,]+)*)\s*(?P<unit>[^\d\s;.,].*)?",
    re.ASCII,
)
_EXTENSION = re.compile(
    r"ext(?:ension)?\s+([\d.,]+)(?:\s*mm)?(?:[\s,;]+([\d.,]+)\s*(?:deg|\u00b0)?)?", re.IGNORECASE
)


def stated(text: str, left: int, expected: str, how: How) -> Stated | str | None:
    """Return what typed words state; a sentence where they state what cannot be; None where nothing.

    One value is that of one fastener, unless how many was typed before it.

    Args:
        text: As typed: `110`, `3 x 110`, `108 110 111`, `81 lbf ft`.
        left: Fasteners that are still to be tightened.
        expected: Unit that is meant where none is typed.
        how: Whether values are set or read with the tool in hand.

    >>> stated("3 x 110", 5, "N m", How.SET).count
    3
    >>> stated("108 110", 5, "N m", How.MEASURED).values
    (Decimal('108'), Decimal('110'))
    >>> stated("108 110", 1, "N m", How.MEASURED)
    '2 readings came for the 1 fastener that is left; type one for each.'

    """
    match = _VALUES.fullmatch(text.strip())
    if match is None:
        return None
    try:
        values = tuple(positive(each, "A reading") for each in re.split(r"[\s;]+", match["values"]))
        named = _unit(match["unit"], expected)
    except FastenerError as error:
        return str(error)
    if match["count"]:
        if len(values) > 1 or not int(match["count"]):
            return f"How many and one value, such as 3 x 110, was expected; {inert(text, 40)} came."
        count = int(match["count"])
    else:
        count = len(values)
    if count > left:
        fasteners = f"the {left} fastener{'s' * (left != 1)} that {'is' if left == 1 else 'are'} left"
        return f"{count} readings came for {fasteners}; type one for each."
    sure = frozenset({COUNT} if match["count"] or len(values) > 1 else ())
    return Stated(values, named, count, How.MEASURED if len(values) > 1 else how, agreed=sure)


def states_figures(text: str) -> bool:
    """Return whether typed words can only be readings or an extension, never the name of a thing.

    >>> [states_figures(each) for each in ("1150 115", "3 x 110 N m", "ext 60 45", "4 door hinges")]
    [True, True, True, False]
    """
    found = stated(text, 99, DEGREES, How.MEASURED)
    return isinstance(found, Stated) or extension(text.strip()) is not None


def begins_figures(text: str) -> bool:
    """Return whether what is being typed can become readings, or an extension.

    >>> [begins_figures(each) for each in ("8", "3 x", "ext 60", "exhaust", "")]
    [True, True, True, False, False]
    """
    return text[:1].isdigit() or text.casefold().startswith("ext ")


def _unit(typed: str | None, expected: str) -> str:
    """Return the unit that was typed; degrees where an angle was."""
    if not typed:
        return expected
    if typed.strip().lower().startswith(("deg", "\u00b0", "\u00ba")):
        return DEGREES
    return unit(typed)


def extension(text: str) -> tuple[Decimal, Decimal] | str | None:
    """Return length in millimetres and angle of an extension that was typed, a sentence, or None.

    >>> extension("ext 60"), extension("extension 60 mm 45 deg"), extension("110")
    ((Decimal('60'), Decimal('0')), (Decimal('60'), Decimal('45')), None)
    """
    match = _EXTENSION.fullmatch(text.strip())
    if match is None:
        return None
    try:
        return positive(match[1], "A length of the extension"), number(match[2] or "0", "An angle")
    except FastenerError as error:
        return str(error)


def doubts(said: Stated, asked: Asked, expected: str, deviation: float) -> tuple[str, ...]:
    """Return what is to be asked about before it is written down, each in words, with numbers.

    Args:
        said: What was stated.
        asked: What the sheet asks for.
        expected: Unit that was expected.
        deviation: What the tool may deviate, in per cent.

    """
    if DEGREES in {said.unit, expected}:
        return tuple(dict.fromkeys(filter(None, (_angle(each, said.unit, asked) for each in said.values))))
    own, sheet = Unit(said.unit), asked.value
    told = []
    if said.unit not in (expected, sheet.unit):
        for each in said.values:
            about = converted(each, own, sheet.unit).rounded
            came = f"{each:f} {own} came, about {about:f} {sheet.unit}"
            told.append(f"A value in {expected} was expected; {came}")
    for each in said.values:
        there = converted(each, own, sheet.unit).rounded
        found = doubt(there, sheet, deviation)
        if found is not None:
            typed = "" if own is sheet.unit else f"{each:f} {own}: "
            told.append(typed + (_pass(there, asked) or found.words))
    return tuple(dict.fromkeys(told))


def read_amiss(reading: Reading, asked: Asked, deviation: float) -> tuple[str, ...]:
    """Return how what was written down is not as the sheet says; the unit that was expected is forgotten."""
    said = Stated((positive(reading.value, "A reading"),), reading.unit, reading.fasteners, reading.how)
    return outside(said, asked, deviation)


def outside(said: Stated, asked: Asked, deviation: float) -> tuple[str, ...]:
    """Return how values are not as the sheet says, in whatever unit they were meant to be."""
    return doubts(said, asked, DEGREES if asked.by_angle else said.unit, deviation)


def above(reading: Reading, asked: Asked) -> bool:
    """Return whether a reading is more than its sheet allows: what was given that much is not good so."""
    value = positive(reading.value, "A reading")
    if reading.unit == DEGREES or asked.by_angle:
        return reading.unit == DEGREES and asked.by_angle and value > asked.angles[-1].high
    return converted(value, Unit(reading.unit), asked.value.unit).exact > asked.value.high


def _pass(value: Decimal, asked: Asked) -> str:
    """Say so if a value is that of a pass before the last."""
    if asked.target is None or len(asked.steps) < 2 or asked.by_angle:  # noqa: PLR2004 - one step is the last
        return ""
    for place, each in enumerate(passes(asked.target, len(asked.steps))[:-1], 1):
        if each == value:
            last = f"{asked.target:f} {asked.value.unit}"
            return f"{value:f} {asked.value.unit} is pass {place} of {len(asked.steps)}, the last is {last}"
    return ""


def _angle(value: Decimal, named: str, asked: Asked) -> str:
    """Say how an angle is not the one turned last; what is typed is never the sum of all of them."""
    if named != DEGREES:
        return f"{value:f} {named} came where the angle turned last, in degrees, was expected"
    if not asked.angles:
        return f"{value:f} deg came, and the sheet asks for a torque"
    last = asked.angles[-1]
    found = angle_doubt(value, last)
    if found is None:
        return ""
    if len(asked.angles) > 1 and value == sum(each.target or each.low for each in asked.angles):
        return f"{value:f} deg is all {len(asked.angles)} angles together, the last is {last}"
    return found.words
