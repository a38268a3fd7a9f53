"""Days in words, the same in every locale."""

from datetime import date

_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_HALF_A_YEAR = 182


def day_words(day: date, today: date) -> str:
    """Return a day as people say it; the year only where it could be mistaken.

    >>> day_words(date(2026, 11, 12), date(2026, 11, 4)), day_words(date(2025, 3, 7), date(2026, 11, 4))
    ('Thu 12 Nov', 'Fri 7 Mar 2025')
    """
    words = f"{_WEEKDAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]}"
    return words if abs((day - today).days) <= _HALF_A_YEAR else f"{words} {day.year}"
