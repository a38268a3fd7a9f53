"""When a torque tool is to be checked again, and whether it may be used."""

from datetime import date

from shoptui.domain.records import Wrench

MONTHS = 12


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
    return "its check is overdue" if due < today else ""
