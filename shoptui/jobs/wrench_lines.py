"""What is to be done about the torque tools themselves: at Today, and in the check of the whole store."""

from collections.abc import Iterator
from datetime import date

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.problems import Problem
from shoptui.domain.records import Wrench
from shoptui.domain.wrenches import CYCLES, next_check, wider_than_type
from shoptui.jobs.at import shown
from shoptui.jobs.today_line import NOTE, SOON, WARNING, TodayLine
from shoptui.jobs.wrench_words import PAPERS_FIRST, uses_since, why_not_now
from shoptui.store.shop import Shop

FEW_USES = CYCLES // 10
"""A tool with no more of them left before its check is brought up, as one whose day comes near."""


def wrench_lines(shop: Shop, day: date) -> Iterator[TodayLine]:
    """Yield the torque tools that may not be used, that are to be checked soon, or whose papers are in doubt.

    A tool that is gone needs nobody.
    """
    for wrench in shop.wrenches.all():
        if wrench.gone:
            continue
        why = why_not_now(shop, wrench)
        told = [why, "" if why else _soon(shop, wrench, day), wider_than_type(wrench)]
        if words := "; ".join(filter(None, told)):
            called = inert(wrench.name or wrench.code)
            mark = WARNING if why else NOTE
            yield TodayLine(
                "wrench", f"{called} ({inert(wrench.code)}): {inert(words, 200)}", "wrenches", wrench.id, mark
            )


def _soon(shop: Shop, wrench: Wrench, day: date) -> str:
    due = next_check(wrench)
    if due is not None and due <= day + SOON:
        return f"to be checked by {day_words(due, day)}"
    left = CYCLES - uses_since(shop, wrench)
    return f"to be checked within {left} uses" if left <= FEW_USES else ""


def wrenches(shop: Shop) -> Iterator[Problem]:
    """Find tools that are said to deviate further than their type permits."""
    for wrench in shop.wrenches.all():
        if not wrench.gone and (words := wider_than_type(wrench)):
            remedy = f"Read its papers again; {PAPERS_FIRST}."
            yield Problem(f"wrench {shown(wrench.code)}", words, remedy)
