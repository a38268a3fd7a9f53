"""A torque tool in words: what it can, and until when it may be trusted."""

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.records import Wrench
from shoptui.domain.wrenches import next_check, why_not_used
from shoptui.jobs.answers import Answer, done, stop
from shoptui.jobs.at import At
from shoptui.jobs.place_words import today


def scale_words(wrench: Wrench) -> str:
    """Return the marks of its scale and what it may deviate: `20 to 200 N m, 4 % either way`."""
    deviation = f", {wrench.deviation_percent:g} % either way" if wrench.deviation_percent else ""
    return f"{wrench.low:g} to {wrench.high:g} {inert(wrench.unit)}{deviation}"


def wrench_scanned(at: At, wrench: Wrench) -> Answer:
    """Show a tool's calibration; one that may not be used rings."""
    now = today(at.shop)
    due = next_check(wrench)
    checked = (
        f"checked {day_words(wrench.checked, now)}, next check {day_words(due, now)}"
        if wrench.checked is not None and due is not None
        else "no check is written down"
    )
    words = f"{inert(wrench.name)}: {scale_words(wrench)}, {checked}."
    facts: dict[str, object] = {"kind": "wrench", "subject": wrench.id}
    if why := why_not_used(wrench, now):
        return stop(f"{words} Not to be used, {inert(why)}.", **facts)
    return done(words, **facts)
