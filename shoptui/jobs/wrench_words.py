"""A torque tool in words: what it can, how often it was used, until when it is good; taking it in hand."""

from collections.abc import Iterator
from dataclasses import replace

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.records import Reading, What, Wrench
from shoptui.domain.wrenches import (
    CYCLES,
    may_deviate,
    next_check,
    permitted_by_type,
    since_check,
    why_not_used,
    wider_than_type,
)
from shoptui.jobs.at import At, shown
from shoptui.jobs.joints import day_of
from shoptui.jobs.place_words import today
from shoptui.store.shop import Shop

LAST_READINGS = 10
"""As many as a tool's card shows."""

PAPERS_FIRST = "where the tool's own papers say otherwise, they go first"


def marks_words(wrench: Wrench) -> str:
    """Return the marks of its scale: `20 to 200 N m`."""
    return f"{wrench.low:g} to {wrench.high:g} {inert(wrench.unit)}"


def scale_words(wrench: Wrench) -> str:
    """Return the marks of its scale and what it may deviate: `20 to 200 N m, 4 % either way`."""
    either_way = may_deviate(wrench)
    return marks_words(wrench) + (f", {either_way:g} % either way" if either_way else "")


def wrench_words(at: At, wrench: Wrench) -> str:
    """Return a tool in a sentence: its scale, its last check and its next, and why it may not be used."""
    now = today(at.shop)
    due = next_check(wrench)
    checked = (
        f"checked {day_words(wrench.checked, now)}, next check {day_words(due, now)}"
        if wrench.checked is not None and due is not None
        else "no check is written down"
    )
    words = f"{inert(wrench.name or wrench.code)}: {scale_words(wrench)}, {checked}."
    why = why_not_now(at.shop, wrench)
    return f"{words} Not to be used, {inert(why)}." if why else words


def readings_since(shop: Shop, wrench: Wrench) -> Iterator[Reading]:
    """Yield what was tightened or checked with a tool since its last good check, newest first.

    What was struck out is left out: it was a mistake, or was written down once more.
    """
    for reading in shop.readings.latest_with(wrench.id):
        if not since_check(wrench, reading.id, day_of(shop, reading)):
            return
        if shop.readings.struck_by(reading.id) is None:
            yield reading


def uses_since(shop: Shop, wrench: Wrench) -> int:
    """Return how often a tool was used since its last check: once for each fastener, and those typed in."""

    def counted() -> int:
        readings = readings_since(shop, wrench)
        return sum(each.fasteners for each in readings if each.what is What.TIGHTENED)

    return wrench.cycles + shop.readings.uses(wrench, counted)


def why_not_now(shop: Shop, wrench: Wrench) -> str:
    """Say why a tool may not be used now, empty if it may: gone, barred, past its date, or used too often."""
    why = why_not_used(wrench, today(shop))  # then nobody needs to count
    return why or why_not_used(replace(wrench, cycles=uses_since(shop, wrench)), today(shop))


def wrench_facts(shop: Shop, wrench: Wrench) -> Iterator[tuple[str, str]]:
    """Yield the lines of a tool's card, each with its label: scale, type, checks, uses, last readings."""
    now = today(shop)
    yield "scale", marks_words(wrench)
    yield "type", _kind_words(wrench)
    yield "may deviate", _deviation_words(wrench)
    if wrench.length_mm:
        yield "length", f"{wrench.length_mm:g} mm"
    due = next_check(wrench)
    yield "last check", "none is written down" if wrench.checked is None else day_words(wrench.checked, now)
    if due is not None and not wrench.gone:
        yield "next check", f"{day_words(due, now)}, or after {CYCLES} uses"
    yield "uses since", str(uses_since(shop, wrench))
    why = why_not_now(shop, wrench)
    yield "may be used", f"! no, {inert(why)}" if why else "+ yes"
    yield "", ""
    yield f"Last {LAST_READINGS} readings", ""
    none = True
    for reading, _ in zip(shop.readings.latest_with(wrench.id), range(LAST_READINGS), strict=False):
        none = False
        yield "", _reading_words(shop, reading)
    if none:
        yield "", "none yet"


def _kind_words(wrench: Wrench) -> str:
    how = "it is set" if wrench.is_set else "it is read"
    if permitted_by_type(wrench) is None:
        return f"{how}; no type of ISO 6789 is written down"
    return f"{wrench.kind} of ISO 6789: {how}"


def _deviation_words(wrench: Wrench) -> str:
    if wider := wider_than_type(wrench):
        return f"! {wider}: read the papers again"
    if wrench.deviation_percent:
        return f"{wrench.deviation_percent:g} % either way, by its papers"
    if permitted := permitted_by_type(wrench):
        return f"{permitted:g} % either way, by its type: {PAPERS_FIRST}"
    return "nobody wrote it down"


def _reading_words(shop: Shop, reading: Reading) -> str:
    """Return a reading in one line: `Wed 25 Nov: 5 x 110 N m, Wheel nuts at LF of WH-01, the lead`."""
    tightened = f"{reading.fasteners} x {reading.value} {reading.unit}"
    done = tightened if reading.what is What.TIGHTENED else reading.what.value
    at = f" at {inert(reading.position)}" if reading.position else ""
    part = shown(shop.parts.get(reading.part).code)
    who = inert(shop.people.get(reading.who).name) if reading.who is not None else "nobody's name"
    struck = ", struck out" if shop.readings.struck_by(reading.id) else ""
    day = day_words(day_of(shop, reading), today(shop))
    return f"{day}: {done}, {inert(reading.joint)}{at} of {part}, {who}{struck}"


def in_hand(at: At, text: str) -> str | None:
    """Take a tool or a badge in hand by its scan; return what to say of it, None if it is neither.

    A tool that is barred is not taken, and the one before it was laid down: nothing is in hand then.
    """
    if (wrench := at.shop.wrenches.by_code(text)) is not None:
        if wrench.barred:
            at.take_up(None)
            return (
                f"{inert(wrench.code)} is barred ({inert(wrench.barred)}); nothing is in hand: scan another."
            )
        at.take_up(wrench)
        return ""
    if (person := at.shop.people.by_code(text)) is not None:
        at.is_here(person)
        return f"{inert(person.name)} is at this terminal now."
    return None
