"""Whether a joint is done, open again, or due to be looked at: what happened to it, in order, decides."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.surfaces import Prepared

WHEELS_KM = 50.0
"""After this distance wheel fasteners are checked again, where the vehicle's own manual says nothing else.
Common practice: published advice goes from 25 to 100 miles."""


class Happened(StrEnum):
    """What can happen to a joint."""

    TIGHTENED = "tightened"
    LOOSENED = "loosened"
    CHECKED = "checked and good"
    FAILED = "failed its check"


@dataclass(frozen=True, slots=True)
class Event:
    """One thing that happened.

    Args:
        what: See `Happened`; a clamped part that is removed or loosened is LOOSENED.
        day: When.
        odometer_km: Of the vehicle then; None if it was not read.
        fasteners: How many were tightened; 1 where a check was signed. Else the whole joint is meant.

    """

    what: Happened
    day: date
    odometer_km: float | None = None
    fasteners: int = 1


@dataclass(frozen=True, slots=True)
class Rule:
    """When a joint is looked at again.

    Args:
        after_km: This far after it was tightened; None never.
        after_days: So many days after; None never.

    """

    after_km: float | None = None
    after_days: int | None = None

    def __post_init__(self) -> None:
        """Refuse a distance or time that is none."""
        for value, what in ((self.after_km, "A distance"), (self.after_days, "A number of days")):
            if value is not None and value <= 0:
                raise FastenerError(f"{what} above 0 until the check was expected; {value:g} came.")


@dataclass(frozen=True, slots=True)
class Standing:
    """How a joint stands.

    Args:
        is_open: Whether it is not done.
        why: In words, why it is open or due; empty if neither.
        is_due: Whether it is done and is to be checked again now.
        left_km: Distance until then, below 0 beyond it; None where distance does not matter or is not known.
        due_day: Day of it; None where time does not matter.

    """

    is_open: bool
    why: str = ""
    is_due: bool = False
    left_km: float | None = None
    due_day: date | None = None


def standing(
    events: Iterable[Event], fasteners: int, rule: Rule, *, today: date, odometer_km: float | None
) -> Standing:
    """Return how a joint stands.

    Args:
        events: All that happened to it, oldest first, without what was struck out.
        fasteners: How many it has; 0 for a check that is signed.
        rule: When it is looked at again.
        today: To count days to.
        odometer_km: To count distance to; None if nobody read it.

    >>> day = date(2026, 11, 4)
    >>> at = {"today": day, "odometer_km": 160.0}
    >>> standing([Event(Happened.TIGHTENED, day, 100, 3)], 5, Rule(50), **at).why
    '3 of 5 tightened'
    >>> standing([Event(Happened.TIGHTENED, day, 100, 5)], 5, Rule(50), **at).why
    'to be checked again, 10 km over'

    """
    needed = fasteners or 1
    done, reason, since = 0, "", None
    for event in events:
        match event.what:
            case Happened.TIGHTENED:
                done, reason, since = min(done + event.fasteners, needed), "", event
            case Happened.LOOSENED:
                done, reason = 0, "loosened since"
            case Happened.FAILED:
                done, reason = 0, "failed its check"
            case Happened.CHECKED:
                since = None
    if done < needed:
        words = f"{done} of {fasteners} tightened" if fasteners else "not signed"
        return Standing(is_open=True, why=reason or words)
    return _again(since, rule, today, odometer_km) if since else Standing(is_open=False)


def _again(since: Event, rule: Rule, today: date, odometer_km: float | None) -> Standing:
    """Say whether a joint that is done is due, by distance or by day, whichever comes first."""
    left_km = due_day = None
    over = []
    if rule.after_km is not None and since.odometer_km is not None and odometer_km is not None:
        left_km = since.odometer_km + rule.after_km - odometer_km
        if left_km <= 0:
            over.append(f"{abs(left_km):.0f} km over")
    if rule.after_days is not None:
        due_day = since.day + timedelta(days=rule.after_days)
        if due_day <= today:
            over.append(f"{(today - due_day).days} days over")
    if over:
        return Standing(
            is_open=False,
            why=f"to be checked again, {over[0]}",
            is_due=True,
            left_km=left_km,
            due_day=due_day,
        )
    return Standing(is_open=False, left_km=left_km, due_day=due_day)


def why_not_tightened_again(prepared: Prepared, *, by_angle: bool) -> str:
    """Say why a re-check must not turn the fasteners, empty if a wrench at the value may.

    >>> why_not_tightened_again(Prepared.LOCKED, by_angle=False)
    'threadlocker: turning it breaks the bond; look, and do not tighten again'
    """
    if by_angle:
        return "tightened by angle: a torque says nothing of it; look, and do not tighten again"
    if prepared is Prepared.LOCKED:
        return f"{prepared}: turning it breaks the bond; look, and do not tighten again"
    return ""
