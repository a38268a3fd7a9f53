"""A torque tool was checked: it is good from that day on, or what it tightened before is open again."""

from collections import Counter
from dataclasses import replace
from datetime import date
from decimal import Decimal
from functools import partial

from shoptui.domain.cautions import moves_by
from shoptui.domain.cells import CellError
from shoptui.domain.cells import day as day_typed
from shoptui.domain.days import day_words
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.inert import inert
from shoptui.domain.records import Reading, What, Wrench
from shoptui.domain.wrenches import CHECK_POINTS, found_in, may_deviate
from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.at import At
from shoptui.jobs.joint_words import joint_name
from shoptui.jobs.joints import JointAt, joints_of
from shoptui.jobs.on_leaving import joints_left
from shoptui.jobs.place_words import today
from shoptui.jobs.reading_row import row
from shoptui.jobs.wrench_words import readings_since
from shoptui.store.readings import strike
from shoptui.store.shop import Shop

FAILED = "failed its check"
MOST_NAMED = 3
"""Joints that are named in a sentence: as many as fit beside the counts."""


def ask_of_tool(wrench: Wrench, text: str, question: Question) -> Answer:
    """Return a question about a torque tool."""
    return Answer(Said.QUESTION, text, kind="wrench", subject=wrench.id, question=question)


def passed(at: At, wrench: Wrench, day: date | None = None, found: str = "") -> Answer:
    """Write down a check that a tool passed: it may be used again, and its uses are counted from then on.

    Args:
        at: Where it is said.
        wrench: The tool.
        day: Day of the check; None for now.
        found: What was found, in words; empty where nobody typed it.

    """
    shop, wrench = at.shop, at.shop.wrenches.get(wrench.id)
    now = today(shop)
    day = now if day is None else day
    if (why := _why_not_then(shop, wrench, day)) is not None:
        return stop(why, kind="wrench", subject=wrench.id)
    last = next((each.id for each in shop.readings.latest_with(wrench.id)), 0) if day == now else 0
    told = "today" if day == now else f"on {day_words(day, now)}"
    behind = f", {found}" if found else ""
    with at.doing(f"wrench {inert(wrench.code)} was checked {told} and is good{behind}") as tx:
        tx.change(wrench, barred="", gone=False, checked=day, checked_after=last, cycles=0)
    words = f"{inert(wrench.code)} was checked {told} and may be used{behind}."
    return done(words, kind="wrench", subject=wrench.id)


def _why_not_then(shop: Shop, wrench: Wrench, day: date) -> str | None:
    """Say why a check of a day says nothing of a tool as it is now; None if it does."""
    now = today(shop)
    if day > now:
        return f"{day_words(day, now)} is still to come; a day until today was expected."
    if wrench.checked is not None and day < wrench.checked:
        return f"Its last check was on {day_words(wrench.checked, now)}; a day since then was expected."
    if wrench.barred:
        edits = reversed(shop.history.edits_of(shop.wrenches.table, wrench.id))
        barred = next((each.transaction for each in edits if each.field == "barred"), None)
        since = shop.history.transaction(barred).when.astimezone().date() if barred else None
        if since is not None and day < since:
            why = f"It is barred since {day_words(since, now)} ({inert(wrench.barred)})"
            return f"{why}; a check before that does not say that it is good."
    return None


def ask_of_check(at: At, wrench: Wrench) -> Answer:
    """Ask for the day of a check, and for what was found at the check points, either or both."""
    points = ", ".join(map(str, CHECK_POINTS))
    return ask_of_tool(
        wrench,
        f"Check of {inert(wrench.code)}: type the day on its paper (12 Nov), or what was found at {points} % "
        f"of {wrench.high:g} {inert(wrench.unit)}, in per cent (1.5 -2 0.8), or both.",
        Question(words=partial(_typed, at, wrench)),
    )


def _typed(at: At, wrench: Wrench, text: str) -> Answer:
    """Take what was typed of a check: one that is out of what is permitted at any point failed."""
    try:
        said, figures = found_in(text)
        day = day_typed(said, today(at.shop)) if said else None
    except (FastenerError, CellError) as error:
        return _once_more(at, wrench, str(error))
    found, permitted = _found_words(figures), may_deviate(wrench)
    if not figures:
        return passed(at, wrench, day)
    if not permitted:
        return _once_more(at, wrench, "Write down first what it may deviate (Set-up, F12), or type the day.")
    if any(abs(each) > Decimal(str(permitted)) for each in figures):
        return ask_failed(at, wrench, f"{found}, {permitted:g} % are permitted")
    return passed(at, wrench, day, found)


def _once_more(at: At, wrench: Wrench, words: str) -> Answer:
    asked = ask_of_check(at, wrench)
    return replace(asked, text=f"{words} {asked.text}")


def _found_words(figures: tuple[Decimal, ...]) -> str:
    """Return what was found: `found +1.5 % at 20 %, -2 % at 60 %, +0.8 % at 100 %`."""
    return "found " + ", ".join(
        f"{each:+f} % at {point} %" for each, point in zip(figures, CHECK_POINTS, strict=False)
    )


def ask_failed(at: At, wrench: Wrench, found: str = "") -> Answer:
    """Say which joints are open again if a tool failed its check, and ask whether it did."""
    shop, wrench = at.shop, at.shop.wrenches.get(wrench.id)
    lead = f"{inert(wrench.code)} failed" + (f": {found}" if found else "")
    opens = _opens_words(shop, wrench, doubted(shop, wrench), len(_checks_doubted(shop, wrench)), "will be")
    return ask_of_tool(
        wrench,
        f"{lead}. {opens} Enter: it failed, and is barred.",
        Question(yes=partial(failed, at, wrench, found)),
    )


def failed(at: At, wrench: Wrench, found: str = "") -> Answer:
    """Bar a tool that failed its check; what it tightened since its last good one is open again.

    Joints that were only looked at with it since are due again: those checks are struck out.
    """
    shop, wrench = at.shop, at.shop.wrenches.get(wrench.id)
    person, code = at.person, inert(wrench.code)
    why = f"wrench {code} {FAILED}"
    with at.doing() as tx:
        joints, checks = doubted(shop, wrench), _checks_doubted(shop, wrench)
        words = _opens_words(shop, wrench, joints, len(checks), "are")
        tx.change(wrench, barred=FAILED, gone=False)
        for each in joints:
            tx.state(row(at, each, What.FAILED, person, why))
        for reading in checks:
            tx.state(strike(reading, why, person.id if person else None))
        tx.say(f"{why}{f', {found}' if found else ''}; {_joints_words(joints)} open again")
    lay_down(at, wrench)
    return done(f"{code} is barred. {words}", kind="wrench", subject=wrench.id)


def doubted(shop: Shop, wrench: Wrench) -> tuple[JointAt, ...]:
    """Return the joints that count as done by what a tool tightened since its last good check.

    Those of vehicles that were handed over too: whoever has the vehicle has to be told. What a moving vehicle
    depends on comes first.
    """
    since = tuple(readings_since(shop, wrench))
    numbers = {each.id for each in since}
    parts = map(shop.parts.get, sorted({each.part for each in since}))
    return tuple(
        each
        for part in sorted(parts, key=lambda part: not moves_by(part.section, part.description))
        for each in (*joints_of(shop, part), *joints_left(shop, (part.id,)))
        if any(reading.id in numbers for reading in each.counted)
    )


def _checks_doubted(shop: Shop, wrench: Wrench) -> tuple[Reading, ...]:
    return tuple(each for each in readings_since(shop, wrench) if each.what is What.CHECKED)


def _joints_words(joints: tuple[JointAt, ...]) -> str:
    return "1 joint" if len(joints) == 1 else f"{len(joints)} joints"


def _opens_words(shop: Shop, wrench: Wrench, joints: tuple[JointAt, ...], checks: int, be: str) -> str:
    """Say how many joints a failed check opens again, on which vehicles, and which they are."""
    now = today(shop)
    since = "" if wrench.checked is None else f", {day_words(wrench.checked, now)}"
    again = f" Checks made with it that no longer count: {checks}." if checks else ""
    if not joints:
        return f"Nothing that is on was tightened with it since its last good check{since}.{again}"
    on = ", ".join(f"{count} on {vehicle}" for vehicle, count in _vehicles(shop, joints).items())
    named = "; ".join(
        f"{joint_name(each)} of {inert(each.part.description, 60)}" for each in joints[:MOST_NAMED]
    )
    more = f" and {len(joints) - MOST_NAMED} more" if len(joints) > MOST_NAMED else ""
    be = "is" if be == "are" and len(joints) == 1 else be
    head = f"{_joints_words(joints)} tightened with it since its last good check{since}, {be} open again"
    return f"{head}: {on} ({named}{more}).{again}"


def _vehicles(shop: Shop, joints: tuple[JointAt, ...]) -> Counter[str]:
    """Return vehicle to how many of the joints are on it; what is finished is said."""
    found: Counter[str] = Counter()
    for each in joints:
        build = None if each.part.build is None else shop.builds.get(each.part.build)
        finished = " (finished)" if build is not None and build.status != "open" else ""
        found["the bench" if build is None else f"{inert(build.title or build.code, 40)}{finished}"] += 1
    return found


def lay_down(at: At, wrench: Wrench) -> None:
    """Let nobody at this terminal have a tool in hand that is barred now."""
    if at.wrench is not None and at.wrench.id == wrench.id:
        at.take_up(None)
