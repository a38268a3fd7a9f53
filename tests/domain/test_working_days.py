"""Counts in working days; the values are those of numpy 2.4.6 (busday_offset, busday_count)."""

from datetime import date

import pytest

from shoptui.domain.working_days import NoWorkingDaysError, WorkingDays

HOLIDAYS = frozenset({date(2026, 12, 25), date(2026, 12, 28), date(2027, 1, 1)})
FIVE = WorkingDays((0, 1, 2, 3, 4), HOLIDAYS)
SIX = WorkingDays((0, 1, 2, 3, 4, 5), HOLIDAYS)


@pytest.mark.parametrize(
    ("days", "start", "count", "later", "earlier"),
    [
        # numpy.busday_offset: roll backward going forward in time, roll forward going back.
        (FIVE, "2026-11-06", 3, "2026-11-11", "2026-11-03"),
        (FIVE, "2026-11-07", 1, "2026-11-09", "2026-11-06"),
        (FIVE, "2026-12-23", 5, "2027-01-04", "2026-12-16"),
        (SIX, "2026-12-31", 1, "2027-01-02", "2026-12-30"),
        (SIX, "2026-11-08", 10, "2026-11-19", "2026-10-28"),
        (FIVE, "2028-02-28", 2, "2028-03-01", "2028-02-24"),
    ],
)
def test_steps_over_weekends_and_holidays(days, start, count, later, earlier):
    day = date.fromisoformat(start)
    assert days.add(day, count) == date.fromisoformat(later)
    assert days.subtract(day, count) == date.fromisoformat(earlier)


@pytest.mark.parametrize(
    ("days", "first", "last", "count"),
    [
        # numpy.busday_count over (first, last], that is with both ends a day later.
        (FIVE, "2026-11-06", "2026-11-12", 4),
        (FIVE, "2026-11-07", "2026-11-08", 0),
        (FIVE, "2026-12-18", "2027-01-08", 12),
        (SIX, "2026-12-18", "2027-01-08", 15),
    ],
)
def test_counts_between_days(days, first, last, count):
    first, last = date.fromisoformat(first), date.fromisoformat(last)
    assert days.between(first, last) == count
    assert days.between(last, first) == -count


def test_no_step_stays_where_it_is_even_on_a_sunday():
    assert FIVE.add(date(2026, 11, 8), 0) == date(2026, 11, 8)


def test_a_week_without_a_working_day_is_refused_in_words():
    with pytest.raises(NoWorkingDaysError, match="At least one working day"):
        WorkingDays(())


def test_a_count_below_none_is_refused():
    with pytest.raises(ValueError, match="0 or more was expected, not -1"):
        FIVE.add(date(2026, 11, 8), -1)
