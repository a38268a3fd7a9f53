"""Torque tools: what one suits, how far it may deviate, when it is checked again, whether it may be used."""

import re
from datetime import date
from decimal import Decimal

from shoptui.domain.fasteners.figures import FastenerError, number, significant
from shoptui.domain.fasteners.units import IN_N_M, Unit, converted, unit
from shoptui.domain.inert import inert
from shoptui.domain.records import Wrench

MONTHS = 12

CYCLES = 5000
"""Uses after which a tool is checked, or twelve months, whichever comes first, where its owner's rule says
nothing else (ISO 6789:2003 as a tool maker quotes it)."""

SMALL_NM = 10
"""Tools whose highest value is no more may deviate further (ISO 6789, as quoted in a checking manual)."""

CHECK_POINTS = (20, 60, 100)
"""Where a tool is checked, in per cent of its highest value (ISO 6789, as quoted in a checking manual)."""

_WIDE = frozenset({"I A", "I D", "II D", "II E", "II F", "II G"})
_NARROW = frozenset({"I B", "I C", "I E", "II A", "II B", "II C"})
"""Types of ISO 6789 that may deviate by 6 %, and by 4 %: I indicates, II is set. II A was seen quoted, the
others are from memory."""

_TYPES = {"I": "A to E", "II": "A to G"}
_TYPE = re.compile(
    r"(?:(?:ISO 6789(?:-1)?[\s,:]+)?type\s*)?(?P<type>II?|[12])(?:[\s,-]*(?:class\s*)?(?P<letter>[A-Z]))?",
    re.IGNORECASE,
)


def kind_of_tool(text: str) -> str:
    """Return a type of ISO 6789 as it is written here, or setting or indicating where no letter is known.

    Raises:
        FastenerError: It is neither.

    >>> [kind_of_tool(each) for each in ("2a", "IIA", "type II class A", "Type I, class B", "II", "Setting")]
    ['II A', 'II A', 'II A', 'I B', 'setting', 'setting']
    >>> kind_of_tool("I G")
    Traceback (most recent call last):
    shoptui.domain.fasteners.figures.FastenerError: Type I has the classes A to E; I G came.

    """
    said = text.strip()
    if said.casefold() in ("setting", "indicating"):
        return said.casefold()
    match = _TYPE.fullmatch(said)
    if match is None:
        raise FastenerError(
            "A type of ISO 6789 such as II A was expected, or else setting or indicating; "
            f"{inert(said, 40) or 'nothing'} came."
        )
    one = {"1": "I", "2": "II"}.get(match["type"], match["type"].upper())
    if not match["letter"]:
        return "setting" if one == "II" else "indicating"
    found = f"{one} {match['letter'].upper()}"
    if found not in _WIDE | _NARROW:
        raise FastenerError(f"Type {one} has the classes {_TYPES[one]}; {inert(said, 40)} came.")
    return found


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


def permitted_by_type(wrench: Wrench) -> float | None:
    """Return what a tool's type permits, whatever the unit of its scale; None where no type is known.

    >>> permitted_by_type(Wrench(1, "", "", "", unit="lbf in", high=80, kind="II A"))
    6
    """
    return permitted_percent(wrench.kind, wrench.high * float(IN_N_M[unit(wrench.unit)]))


def may_deviate(wrench: Wrench) -> float:
    """Return what a tool may deviate to either side in per cent: its own papers go before its type.

    Returns 0 where neither is known: its readings are then taken at their word.
    """
    return wrench.deviation_percent or permitted_by_type(wrench) or 0


def wider_than_type(wrench: Wrench) -> str:
    """Say that a tool's own deviation is more than its type permits, empty if it is not.

    >>> wider_than_type(Wrench(1, "", "", "", high=200, kind="II A", deviation_percent=6))
    'its papers say 6 %, II A permits 4 %'
    """
    permitted = permitted_by_type(wrench)
    if permitted is None or wrench.deviation_percent <= permitted:
        return ""
    return f"its papers say {wrench.deviation_percent:g} %, {wrench.kind} permits {permitted:g} %"


_FOUND = re.compile(r"(?P<day>.*?)\s*(?P<found>[+-]?[\d.,]+(?:\s*%)?(?:[\s;/]+[+-]?[\d.,]+(?:\s*%)?){2})")


def found_in(text: str) -> tuple[str, tuple[Decimal, ...]]:
    """Part what was typed of a check into its day and what was found at each check point, in per cent.

    Raises:
        FastenerError: A figure that is none, or that no tool shows.

    >>> found_in("12 Nov 1.5 -2 0,8 %"), found_in("2026-11-12")
    (('12 Nov', (Decimal('1.5'), Decimal('-2'), Decimal('0.8'))), ('2026-11-12', ()))

    """
    match = _FOUND.fullmatch(text.strip().replace("\u2212", "-"))
    if match is None:
        return text.strip(), ()
    figures = tuple(number(each, "A deviation") for each in re.split(r"[\s;/%]+", match["found"]) if each)
    if any(abs(each) >= 100 for each in figures):  # noqa: PLR2004 - per cent
        raise FastenerError(f"Deviations below 100 % were expected; {inert(match['found'], 40)} came.")
    return match["day"].rstrip(" ,:;"), figures


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
        return f"{'gone' if wrench.gone else 'barred'}: {wrench.barred}"
    due = next_check(wrench)
    if due is None:
        return "never checked"
    if wrench.cycles >= CYCLES:
        return f"its check is due after {CYCLES} uses"
    return "its check is overdue" if due < today else ""


def since_check(wrench: Wrench, reading: int, day: date) -> bool:
    """Return whether a reading made with a tool came after its last good check: doubted if the next fails.

    Args:
        wrench: The tool.
        reading: Id of the reading; readings are numbered in the order in which they came.
        day: Its day.

    Where only the day of the check is known, what was tightened on that very day is doubted too.

    >>> tool = Wrench(1, "", "", "", checked=date(2026, 5, 1))
    >>> since_check(tool, 7, date(2026, 5, 1)), since_check(tool, 7, date(2026, 4, 30))
    (True, False)

    """
    return reading > wrench.checked_after and (wrench.checked is None or day >= wrench.checked)
