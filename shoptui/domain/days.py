"""Days in words, the same in every locale: said, and read as they are said."""

import re
from datetime import date

_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_LONG_MONTHS = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)
_HALF_A_YEAR = 182
_EXAMPLES = (2026, 2028)
"""Years of which one has every day that there is."""

_SHORTEST = 3
"""Letters of a month that tell it from all others."""


def day_words(day: date, today: date) -> str:
    """Return a day as people say it; the year only where it could be mistaken.

    >>> day_words(date(2026, 11, 12), date(2026, 11, 4)), day_words(date(2025, 3, 7), date(2026, 11, 4))
    ('Thu 12 Nov', 'Fri 7 Mar 2025')
    """
    words = day_with_year(day)
    return words if abs((day - today).days) > _HALF_A_YEAR else words.removesuffix(f" {day.year}")


def day_with_year(day: date) -> str:
    """Return a day as it is written on what stays for years.

    >>> day_with_year(date(2026, 11, 12))
    'Thu 12 Nov 2026'

    """
    return f"{_WEEKDAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]} {day.year}"


def day_said(text: str, today: date | None) -> date | None:
    """Return the day that somebody says with the month as a word; None if it is not said so.

    Args:
        text: `12 Nov`, `Thu 12 Nov`, `Nov 12`, `12 November 2026`.
        today: Where no year is said, the one that brings the day nearest to this is meant.

    Raises:
        ValueError: No such day, no such weekday, or no year where none can be meant.

    >>> day_said("thu 12 nov", date(2026, 11, 25)), day_said("5 Feb", date(2026, 11, 25)).year
    (datetime.date(2026, 11, 12), 2027)

    """
    match = _SAID.fullmatch(text.strip())
    month = _month(match["month"] or match["before"]) if match else 0
    if match is None or not month:
        return None
    number = int(match["day"] or match["after"])
    if match["year"]:
        found = _on(int(match["year"]), month, number)
    elif today is None:
        found = next((day for year in _EXAMPLES if (day := _on(year, month, number)) is not None), None)
        if found is not None:
            told = f"{found.day} {_MONTHS[month - 1]} {found.year}"
            raise ValueError(f"Which year is not said; write such as {told}.")
    else:
        years = (today.year - 1, today.year, today.year + 1)
        days = [day for year in years if (day := _on(year, month, number)) is not None]
        found = min(days, key=lambda day: abs(day - today), default=None)
    if found is None:
        year = match["year"] or ("any year" if today is None else "any year near this one")
        raise ValueError(f"There is no {number} {_MONTHS[month - 1]} in {year}.")
    weekday = (match["weekday"] or "").title()[:_SHORTEST]
    if weekday and weekday != _WEEKDAYS[found.weekday()]:
        told = f"{found.day} {_MONTHS[month - 1]} {found.year}"
        raise ValueError(f"{told} is a {_WEEKDAYS[found.weekday()]}, not a {weekday}.")
    return found


_SAID = re.compile(
    r"(?:(?P<weekday>mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s+)?"
    r"(?:(?P<day>\d{1,2})(?:st|nd|rd|th)?\.?\s*(?P<month>[a-z]{3,9})|(?P<before>[a-z]{3,9})\.?\s*(?P<after>\d{1,2}))"
    r"\.?(?:,?\s+(?P<year>\d{4}))?",
    re.ASCII | re.IGNORECASE,
)


def _month(word: str) -> int:
    """Return the number of a month, 0 for a word that is none."""
    word = word.lower()
    return next(
        (
            number
            for number, name in enumerate(_LONG_MONTHS, 1)
            if name.startswith(word) or word == "sept" == name[:4]
        ),
        0,
    )


def _on(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
