"""What `torque` says of a bolt beside its torque: thread, loads, how far it engages, how long it must be."""

import argparse
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from shoptui.domain.fasteners.designations import Designation
from shoptui.domain.fasteners.engagement import Material, mm
from shoptui.domain.fasteners.figures import FastenerError, PlaceError, significant
from shoptui.domain.fasteners.fit import RULE_OF_THUMB, Fit, fit
from shoptui.domain.fasteners.lengths import bolt_into_mm, bolt_length_mm, washer_thickness_mm
from shoptui.domain.fasteners.measures import Measures, measures
from shoptui.domain.fasteners.strength import proof_load_n, ultimate_load_n
from shoptui.domain.inert import inert


@dataclass(frozen=True, slots=True)
class Engaged:
    """How a bolt engages.

    Args:
        measures: What it goes through and into; its length too, where that was found.
        fit: How it engages.
        length_mm: The shortest length made that does, where the designation has none.

    """

    measures: Measures
    fit: Fit
    length_mm: float | None


def measures_given(arguments: argparse.Namespace) -> Measures | None:
    """Return what the options say that a bolt goes through and into, None where they say nothing.

    Raises:
        FastenerError: They cannot be read, or the grip is missing.

    """
    said = [
        _read_alone(name, form, getattr(arguments, name))
        for name, form in _FORMS.items()
        if getattr(arguments, name) is not None
    ]
    found = measures(", ".join(said)) if said else None
    if found is not None and found.grip is None:
        raise FastenerError("--grip was expected too, what the bolt goes through, such as --grip 22.")
    return found


_LENGTH = "a length such as 22, 22 mm or 7/8in"
_WANTED = {
    "into": f"one of {', '.join(Material)}, nut",
    "washers": 'how many, a whole number, with another thickness behind it such as "2 3.5",',
}
_FORMS = {
    **{name: f"{name} {{}}" for name in ("grip", "into", "hole", "spacer")},
    "washers": "{0} washers {2}",
}


def _read_alone(name: str, form: str, value: str) -> str:
    """Return an option as `measures` reads it; what that refuses is said of the option, as it was typed."""
    value = value.strip()
    words = form.format(*value.partition(" ")) if name == "washers" else form.format(value)
    try:
        measures(words)
    except PlaceError:
        came = inert(value, 40) or "nothing"
        raise FastenerError(f"--{name}: {_WANTED.get(name, _LENGTH)} was expected; {came} came.") from None
    return words


def engaged(fastener: Designation, given: Measures) -> Engaged:
    """Return how a bolt engages; one without a length has the shortest made that does.

    Raises:
        FastenerError: No such length is made, or no list here has it.

    """
    if fastener.length_mm is not None:
        return Engaged(given, fit(fastener, given), None)
    if given.material is None and given.hole is None:
        given = replace(given, nut=True)
    length = _shortest(fastener, given)
    given = replace(given, length=length)
    return Engaged(given, fit(fastener, given), length)


def _shortest(fastener: Designation, given: Measures) -> float:
    thread, grip = fastener.thread, (given.grip or 0.0) + (given.spacer or 0.0)
    if given.nut:
        return bolt_length_mm(
            thread, grip, washers=given.washers, washer_mm=given.washer, nut_mm=given.nut_height
        )
    under = given.washers * (given.washer or washer_thickness_mm(thread)) if given.washers else 0.0
    return bolt_into_mm(thread, given.material or Material.STEEL, grip + under, given.hole)[0]


def thread_values(fastener: Designation) -> dict[str, Any]:
    """Return a bolt's thread and loads as JSON has them."""
    thread = fastener.thread
    return {
        "pitch_mm": round(thread.pitch_mm, 4),
        "pitch_diameter_mm": round(thread.pitch_diameter_mm, 3),
        "minor_diameter_mm": round(thread.minor_mm, 3),
        "stress_area_mm2": round(thread.stress_area_mm2, 2),
        **{f"{name}_load_n": round(load) for name, load in _loads(fastener)},
    }


def thread_words(fastener: Designation) -> Iterator[str]:
    """Yield a bolt's thread and loads in words."""
    thread = fastener.thread
    yield (
        f"Thread: pitch {thread.pitch_mm:.4g} mm, pitch diameter {thread.pitch_diameter_mm:.3f} mm, minor "
        f"diameter {thread.minor_mm:.3f} mm, stress area {significant(thread.stress_area_mm2)} mm2."
    )
    loads = ", ".join(f"{name} {significant(load / 1000)} kN" for name, load in _loads(fastener))
    yield f"Loads: {loads}."


def _loads(fastener: Designation) -> Iterator[tuple[str, float]]:
    strength = fastener.strength
    if strength is not None:
        yield "proof", proof_load_n(strength, fastener.thread, fastener.length_mm)
        yield "ultimate", ultimate_load_n(strength, fastener.thread, fastener.length_mm)


def engaged_values(found: Engaged | None) -> dict[str, Any]:
    """Return how a bolt engages as JSON has it; nothing where it was not asked."""
    if found is None:
        return {}
    figures = found.fit.engagement
    names = ("engaged_mm", "turns", "least_mm", "careful_mm", "too_long_mm")
    return {
        "bolt_length_mm": found.length_mm,
        "engagement": {
            "measures": str(found.measures),
            **{name: None if figures is None else round(getattr(figures, name), 2) for name in names},
            "told": [*found.fit.told, *([found.fit.spaced] if found.fit.spaced else [])],
            "findings": list(found.fit.findings),
            "caution": f"{RULE_OF_THUMB.capitalize()}.",
        },
    }


def engaged_words(found: Engaged) -> Iterator[str]:
    """Yield how a bolt engages in words."""
    if found.length_mm is not None:
        yield f"Length: {mm(found.length_mm)} mm is the shortest made that does."
    yield f"Engagement ({found.measures}): {'; '.join(filter(None, (*found.fit.told, found.fit.spaced)))}."
    for words in found.fit.findings:
        yield f"! {words}."
    yield f"Engagement is {RULE_OF_THUMB}."
