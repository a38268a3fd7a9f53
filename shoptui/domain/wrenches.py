"""Torque tools: what one suits, how far it may deviate, when it is checked again, whether it may be used."""

from datetime import date
from decimal import Decimal

from shoptui.domain.fasteners.figures import significant
from shoptui.domain.fasteners.units import Unit, converted, unit
from shoptui.domain.records import Wrench

MONTHS = 12

CYCLES = 5000
"""Uses after which a tool is checked, or twelve months, whichever comes first, where its owner's rule says
nothing else (ISO 6789:2003 as a tool maker quotes it)."""

SMALL_NM = 10
"""Tools whose highest value is no more may deviate further (ISO 6789, as quoted in a checking manual)."""

_WIDE = frozenset({"I A", "I D", "II D", "II E", "II F", "II G"})
_NARROW = frozenset({"I B", "I C", "I E", "II A", "II B", "II C"})
"""Types of ISO 6789 that may deviate by 6 %, and by 4 %: I indicates, II is set. II A was seen quoted, the
others are from memory."""


def permitted_percent(kind: str, highest_nm: float) -> float | None:
    """Return how far a tool may deviate to either side in per cent; None for no type of ISO 6789.

    The highest value of its scale decides, not the value that is set.

    >>> permitted_percent("II A", 200), permitted_percent("II A", 10), permitted_percent("I A", 200)
    (4, 6, 6)
    """
    if kind in _WIDE:
        return 6
    if kind in _NARROW:
        return 4 if highest_nm > SMALL_NM else 6
    return None


def why_unsuited(wrench: Wrench, value: Decimal, of: Unit) -> str:
    """Say why a torque cannot be tightened with a tool, empty if it can.

    Its range goes from the lowest to the highest marked value (ISO 6789-1:2017, 5.1.3, as a tool maker
    quotes it); a fifth of the highest, which is often named, is no limit.

    >>> why_unsuited(Wrench(1, "", "", "", low=20, high=200), Decimal(15), Unit.N_M)
    'its marks go from 20 to 200 N m, 15 N m is below'
    >>> why_unsuited(Wrench(1, "", "", "", low=20, high=200), Decimal(20), Unit.LBF_FT)
    ''
    """
    scale = unit(wrench.unit)
    there = float(converted(value, of, scale).exact)
    marks = f"its marks go from {wrench.low:g} to {wrench.high:g} {scale}"
    said = f"{value} {of}" if of is scale else f"{value} {of}, which is {significant(there)} {scale},"
    if there < wrench.low:
        return f"{marks}, {said} is below"
    if there > wrench.high:
        return f"{marks}, {said} is above"
    return ""


def next_check(wrench: Wrench) -> date | None:
    """Return the day of the next check; None if nobody knows when the last one was.

    >>> next_check(Wrench(1, "", "", "", checked=date(2024, 2, 29), interval_months=12))
    datetime.date(2025, 2, 28)
    """
    if wrench.checked is None:
        return None
    months = wrench.checked.month - 1 + wrench.interval_months
    year, month = wrench.checked.year + months // MONTHS, months % MONTHS + 1
    for day in range(wrench.checked.day, 0, -1):
        try:
            return date(year, month, day)
        except ValueError:
            continue
    return None


def why_not_used(wrench: Wrench, today: date) -> str:
    """Say why a tool may not be used, empty if it may.

    >>> why_not_used(Wrench(1, "", "", "", barred="dropped"), date(2026, 11, 25))
    'barred: dropped'
    """
    if wrench.barred:
        return f"barred: {wrench.barred}"
    due = next_check(wrench)
    if due is None:
        return "never checked"
    if wrench.cycles >= CYCLES:
        return f"its check is due after {CYCLES} uses"
    return "its check is overdue" if due < today else ""


def opens_again(used: date, last_good: date | None) -> bool:
    """Return whether a reading opens again when the tool that made it fails its check.

    Args:
        used: Day of the reading.
        last_good: Day of the last check that the tool passed; None if there was none.

    What was tightened on the very day of the good check is doubted too: nobody knows which came first.

    >>> opens_again(date(2026, 5, 1), date(2026, 5, 1)), opens_again(date(2026, 4, 30), date(2026, 5, 1))
    (True, False)

    """
    return last_good is None or used >= last_good
