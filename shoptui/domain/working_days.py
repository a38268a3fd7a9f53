"""Counting in working days."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, timedelta

_A_DAY = timedelta(days=1)
_DAYS_IN_A_WEEK = 7


class NoWorkingDaysError(ValueError):
    """A week without a working day: nothing could ever be counted."""


@dataclass(frozen=True, slots=True)
class WorkingDays:
    """Which days the shop and its suppliers work.

    A day on which nobody works, a filming day on a Saturday for instance, is a fine end of a count: only
    the working days are counted. The first day is not counted, the last is: from Monday to Tuesday is one.

    Args:
        weekdays: Days of the week on which people work, Monday is 0.
        holidays: Days on which nobody works.

    Examples:
        >>> days = WorkingDays((0, 1, 2, 3, 4), frozenset({date(2026, 11, 11)}))
        >>> days.add(date(2026, 11, 6), 3)  # Friday, over the weekend and the holiday
        datetime.date(2026, 11, 12)
        >>> days.between(date(2026, 11, 6), date(2026, 11, 12))
        3

    """

    weekdays: Collection[int] = (0, 1, 2, 3, 4)
    holidays: Collection[date] = frozenset()

    def __post_init__(self) -> None:
        """Refuse a week without a working day."""
        if not any(0 <= day < _DAYS_IN_A_WEEK for day in self.weekdays):
            raise NoWorkingDaysError(
                "At least one working day of the week was expected (0 is Monday, 6 is Sunday), none came."
            )

    def works(self, day: date) -> bool:
        """Return whether people work on a day."""
        return day.weekday() in self.weekdays and day not in self.holidays

    def add(self, day: date, count: int) -> date:
        """Return the day that is so many working days later; with 0 the day itself."""
        return self._step(day, count, _A_DAY)

    def subtract(self, day: date, count: int) -> date:
        """Return the day that is so many working days earlier; with 0 the day itself."""
        return self._step(day, count, -_A_DAY)

    def between(self, first: date, last: date) -> int:
        """Return how many working days come after the first day, the last included; negative backwards."""
        if last < first:
            return -self.between(last, first)
        weeks, rest = divmod((last - first).days, _DAYS_IN_A_WEEK)
        from_it = first.weekday() + 1
        count = sum([day % _DAYS_IN_A_WEEK in self.weekdays for day in range(from_it, from_it + rest)])
        if weeks:
            count += weeks * sum([day in self.weekdays for day in range(_DAYS_IN_A_WEEK)])
        if self.holidays:
            count -= sum([first < day <= last and day.weekday() in self.weekdays for day in self.holidays])
        return count

    def _step(self, day: date, count: int, step: timedelta) -> date:
        if count < 0:
            raise ValueError(f"A number of working days of 0 or more was expected, not {count}.")
        while count:
            day += step
            count -= self.works(day)
        return day
