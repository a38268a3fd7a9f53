"""A torque tool in words: what it can, and until when it may be trusted; taking it in hand."""

from dataclasses import replace

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.records import Wrench
from shoptui.domain.wrenches import next_check, why_not_used
from shoptui.jobs.at import At
from shoptui.jobs.joints import day_of
from shoptui.jobs.place_words import today
from shoptui.store.shop import Shop


def scale_words(wrench: Wrench) -> str:
    """Return the marks of its scale and what it may deviate: `20 to 200 N m, 4 % either way`."""
    deviation = f", {wrench.deviation_percent:g} % either way" if wrench.deviation_percent else ""
    return f"{wrench.low:g} to {wrench.high:g} {inert(wrench.unit)}{deviation}"


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


def why_not_now(shop: Shop, wrench: Wrench) -> str:
    """Say why a tool may not be used now, empty if it may: barred, past its date, or used too often.

    Its uses are those that were typed in and those that stand in the readings since its last check.
    """
    used = 0
    for reading in shop.readings.latest_with(wrench.id):
        if wrench.checked is None or day_of(shop, reading) < wrench.checked:
            break
        used += reading.fasteners
    return why_not_used(replace(wrench, cycles=wrench.cycles + used), today(shop))


def in_hand(at: At, text: str) -> str | None:
    """Take a tool or a badge in hand by its scan; return what to say of it, None if it is neither.

    A tool that is barred is not taken, and the one before it was laid down: nothing is in hand then.
    """
    if (wrench := at.shop.wrenches.by_code(text)) is not None:
        if wrench.barred:
            at.shop.remember(at.terminal, wrench=None)
            return (
                f"{inert(wrench.code)} is barred ({inert(wrench.barred)}); nothing is in hand: scan another."
            )
        at.shop.remember(at.terminal, wrench=wrench.id)
        return ""
    if (person := at.shop.people.by_code(text)) is not None:
        at.shop.remember(at.terminal, person=person.id, badge_at=at.shop.clock())
        return f"{inert(person.name)} is at this terminal now."
    return None
