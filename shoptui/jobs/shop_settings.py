"""The shop's settings: what can be written in each of them, and changing them."""

import re
from collections.abc import Callable
from datetime import date, time

from shoptui.domain.amounts import currency
from shoptui.domain.cells import CellError, day, listed, whole, words, yes
from shoptui.domain.inert import inert
from shoptui.domain.records import Settings
from shoptui.jobs.answers import Answer, done
from shoptui.jobs.at import At
from shoptui.jobs.import_cells import DAYS, working_days

UNITS = {"n": "N m", "l": "lbf ft"}
"""First letter to unit; SI and the inch system, each written as NIST SP 811 writes it."""

LONGEST_TWICE = 5.0
"""Seconds; beyond this a hand that scans two alike things would be asked each time."""

LONGEST_BADGE = 24 * 60
"""Minutes; a badge that lasts over night is somebody else's in the morning."""


def units(text: str) -> str:
    """Return the unit of torque that is shown first.

    Raises:
        CellError: Another one.

    >>> units("nm"), units("lbf-ft")
    ('N m', 'lbf ft')

    """
    plain = re.sub(r"[^a-z]", "", text.lower())
    if plain in {"nm", "newtonmetre", "newtonmeter"}:
        return UNITS["n"]
    if plain in {"lbfft", "lbft", "ftlb", "ftlbf"}:
        return UNITS["l"]
    raise CellError(f"{' or '.join(UNITS.values())} was expected; {inert(text, 40)} came.")


def week(text: str) -> tuple[int, ...]:
    """Return the days of the week on which the shop works.

    Raises:
        CellError: No days.

    >>> week("Mon, Tue fri")
    (0, 1, 4)

    """
    days = working_days(";".join(re.split(r"[\s,;|]+", text.strip())))
    if not days:
        raise CellError(f"Days such as Mon, Tue were expected; {inert(text, 40) or 'nothing'} came.")
    return days


def hours(text: str) -> str:
    """Return working hours, from when to when on one day; nothing where nothing is said.

    Raises:
        CellError: No such hours.

    >>> hours("8:00 - 17:30"), hours("8-17")
    ('08:00-17:30', '08:00-17:00')

    """
    if not text.strip():
        return ""
    wanted = f"Hours such as 08:00-17:00 were expected; {inert(text, 40)} came."
    found = _HOURS.fullmatch(words(text))
    if found is None:
        raise CellError(wanted)
    try:
        begin, end = (time(int(found[at]), int(found[at + 1] or 0)) for at in (1, 3))
    except ValueError as error:
        raise CellError(wanted) from error
    if begin >= end:
        raise CellError(f"Hours of one day, the earlier first, were expected; {inert(text, 40)} came.")
    return f"{begin:%H:%M}-{end:%H:%M}"


_HOURS = re.compile(r"(\d{1,2})(?::(\d{2}))?\s*(?:-|to|\N{EN DASH})\s*(\d{1,2})(?::(\d{2}))?", re.ASCII)


def holidays(text: str) -> tuple[date, ...]:
    """Return days on which nobody works, in order.

    Raises:
        CellError: One of them is no day.

    >>> holidays("2027-01-01, 2026-12-25")
    (datetime.date(2026, 12, 25), datetime.date(2027, 1, 1))

    """
    return tuple(sorted({day(each) for each in listed(text.replace(",", ";"))}))


def twice_seconds(text: str) -> float:
    """Return within how many seconds the same code again is one reading; 0 never takes it for one.

    Raises:
        CellError: No such time.

    >>> twice_seconds("0,4")
    0.4

    """
    plain = words(text).replace(",", ".")
    if not re.fullmatch(r"\d{1,3}(\.\d{1,3})?", plain, re.ASCII) or not float(plain) <= LONGEST_TWICE:
        raise CellError(
            f"Seconds from 0 to {LONGEST_TWICE:g}, such as 0.4, were expected; {inert(text, 40)} came."
        )
    return float(plain)


def badge_minutes(text: str) -> int:
    """Return after how many minutes a badge lapses.

    Raises:
        CellError: No such time.

    """
    minutes = whole(text)
    if not 1 <= minutes <= LONGEST_BADGE:
        raise CellError(f"Minutes from 1 to {LONGEST_BADGE} were expected; {minutes} came.")
    return minutes


READERS: dict[str, Callable[[str], object]] = {
    "name": words,
    "currency": currency,
    "units": units,
    "working_days": week,
    "working_hours": hours,
    "holidays": holidays,
    "twice_seconds": twice_seconds,
    "badge_minutes": badge_minutes,
    "any_wrench": yes,
}
"""Name of a setting to what reads it; raises CellError, whose words say what was expected."""


def in_words(settings: Settings) -> dict[str, str]:
    """Return the settings as a person would write them.

    >>> in_words(Settings())["working_days"]
    'Mon, Tue, Wed, Thu, Fri'
    """
    return {
        "name": settings.name,
        "currency": settings.currency,
        "units": settings.units,
        "working_days": ", ".join(DAYS[each].capitalize() for each in settings.working_days),
        "working_hours": settings.working_hours,
        "holidays": ", ".join(each.isoformat() for each in settings.holidays),
        "twice_seconds": f"{settings.twice_seconds:g}",
        "badge_minutes": str(settings.badge_minutes),
        "any_wrench": "yes" if settings.any_wrench else "no",
        "scanner_prefix": settings.scanner_prefix,
    }


def change_settings(at: At, **changes: object) -> Answer:
    """Change what differs from what is set; it can be undone, and the history says who changed it."""
    before = at.shop.settings
    names = [name.replace("_", " ") for name, value in changes.items() if getattr(before, name) != value]
    if not names:
        return done("Nothing was changed: the settings are as they were.")
    with at.doing(f"changed the settings: {', '.join(names)}") as tx:
        tx.change_settings(**changes)
    return done(f"The settings were changed: {', '.join(names)}.")
