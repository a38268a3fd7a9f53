"""Whether a bolt or stud engages far enough: its designation held against what it goes through and into."""

from dataclasses import dataclass

from shoptui.domain.fasteners.designations import Designation
from shoptui.domain.fasteners.engagement import Engagement, Material, Nut, engagement, mm, with_spacer
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.lengths import nut_height_mm, washer_thickness_mm, washers_under_head
from shoptui.domain.fasteners.measures import Measures
from shoptui.domain.fasteners.threads import SAME

MOST_ADDED = 2
"""Washers that mend a bolt that is too long; a higher stack does not. Common practice, no source."""

RULE_OF_THUMB = "a rule of thumb, the maker's sheet goes first"


@dataclass(frozen=True, slots=True)
class Fit:
    """How a fastener engages.

    Args:
        engagement: The figures; None where too little is known.
        told: Sentences without a full stop: how far, that one rule only is met, or what is not known.
        spaced: What a spacer leaves of it; empty where there is none.
        findings: Short, bottoming out or close to it, with numbers and what would mend it.

    """

    engagement: Engagement | None
    told: tuple[str, ...]
    spaced: str = ""
    findings: tuple[str, ...] = ()


def fit(fastener: Designation, measures: Measures) -> Fit:
    """Return how a fastener engages; the length is that of its designation where no other is said.

    Examples:
        >>> from shoptui.domain.fasteners.measures import measures
        >>> from shoptui.domain.fasteners.reading import designation
        >>> found = fit(designation("M10 x 40"), measures("grip 22, into steel, hole 16"))
        >>> found.told
        ('16 mm of thread engage in steel, 10.7 turns',)
        >>> found.findings[0].partition(": ")[2]
        '18 mm of bolt reach into 16 mm of thread, 2 mm too long: 2 washers of 2 mm under the head, or a \
bolt 3.5 mm shorter'

    """
    length = fastener.length_mm if measures.length is None else measures.length
    if length is None or measures.grip is None:
        what = "how long the bolt or stud is" if length is None else "its grip, what it goes through,"
        return Fit(None, (f"not judged: {what} is not written down",))
    try:
        into = _into(fastener, measures)
        grip = measures.grip + _washers_mm(fastener, measures)
    except FastenerError as error:
        return Fit(None, (f"not judged: {str(error).rstrip('.')}",))
    bare = engagement(fastener.thread, into, length_mm=length, grip_mm=grip, threaded_hole_mm=measures.hole)
    found, spaced = bare, ""
    if measures.spacer:
        found, spaced = with_spacer(
            fastener.thread,
            into,
            length_mm=length,
            grip_mm=grip,
            spacer_mm=measures.spacer,
            threaded_hole_mm=measures.hole,
        )
    told = f"{mm(found.engaged_mm)} mm of thread engage {_where(measures)}, {mm(found.turns)} turns"
    findings = tuple(
        words if words.startswith("short") else f"{words}: {_mended(fastener, measures, found)}"
        for words in found.findings
    )
    return Fit(found, tuple(filter(None, (told, found.remark))), spaced, findings)


def _into(fastener: Designation, measures: Measures) -> Material | Nut:
    if measures.nut:
        return Nut(measures.nut_height or nut_height_mm(fastener.thread))
    return measures.material or Material.STEEL


def _where(measures: Measures) -> str:
    if measures.nut:
        return "in the nut"
    return f"in {measures.material}" if measures.material else "in steel (nobody wrote down into what)"


def _washers_mm(fastener: Designation, measures: Measures) -> float:
    if not measures.washers:
        return 0.0
    return measures.washers * (measures.washer or washer_thickness_mm(fastener.thread))


def _mended(fastener: Designation, measures: Measures, found: Engagement) -> str:
    """Say what leaves room below it and enough engaged: washers, a shorter bolt, else a deeper thread."""
    beyond, over = found.engaged_mm + found.too_long_mm, found.over_mm
    if beyond - over < found.least_mm - SAME:
        return f"full thread {mm(over)} mm deeper"
    shorter = f"a bolt {mm(over)} mm shorter"
    try:
        thick = measures.washer or washer_thickness_mm(fastener.thread)
    except FastenerError:
        return shorter
    count = washers_under_head(over, thick)
    if count > MOST_ADDED or beyond - count * thick < found.least_mm - SAME:
        return shorter
    more = " more" * bool(measures.washers)
    return f"{count}{more} washer{'s' * (count != 1)} of {mm(thick)} mm under the head, or {shorter}"
