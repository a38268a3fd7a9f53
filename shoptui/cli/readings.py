"""What an argument can be: a moment, a day, a number of pieces."""

import argparse
import re
from collections.abc import Callable
from datetime import date, datetime, time
from typing import TypeVar

from shoptui.domain import cells
from shoptui.domain.inert import inert

V = TypeVar("V")


def moment(text: str) -> datetime:
    """Return a moment from ISO 8601; without an offset it is local time, a day alone is its noon.

    Years beyond a person's life are a slip, and near the ends of the calendar no day can be counted on.

    >>> moment("2026-11-04T09:30:00Z").isoformat(), moment("2026-11-04").hour
    ('2026-11-04T09:30:00+00:00', 12)
    """
    try:
        when = datetime.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(
            f"a moment such as 2026-11-04T09:30 was expected, not {inert(text)}"
        ) from None
    if when.year not in cells.YEARS:
        raise argparse.ArgumentTypeError(
            f"a moment from {cells.YEARS[0]} to {cells.YEARS[-1]} was expected, not {inert(text)}"
        )
    if "T" not in text.upper() and " " not in text.strip():
        when = datetime.combine(when.date(), time(12))
    return when if when.tzinfo else when.astimezone()


def whole_day(text: str) -> date:
    """Return a day as a list's cell gives it.

    >>> whole_day("2028-02-29").isoformat()
    '2028-02-29'
    """
    return _read(cells.day, text)


def pieces(text: str) -> int:
    """Return a number of pieces as a list's cell gives it: `4`, `2 pairs`.

    >>> pieces("2 pairs")
    4
    """
    return _read(cells.pieces, text).total


def number(text: str) -> int:
    """Return a whole number.

    >>> number("3")
    3
    """
    return _read(cells.whole, text)


def place(text: str) -> int:
    """Return a place in a list, 1 first.

    >>> place("2")
    2
    """
    if (found := number(text)) < 1:
        raise argparse.ArgumentTypeError(f"1 or more was expected, not {found}")
    return found


def _read(reader: Callable[[str], V], text: str) -> V:
    """Read as a cell is read; the parser puts its own full stop behind what is wrong."""
    try:
        return reader(text)
    except cells.CellError as error:
        raise argparse.ArgumentTypeError(str(error).removesuffix(".")) from None


def millimetres(text: str) -> float:
    """Return a measured length in mm, with a point or a comma.

    >>> millimetres("147,5")
    147.5
    """
    plain = text.strip().removesuffix("mm").strip().replace(",", ".")
    if not re.fullmatch(r"-?\d{1,4}(\.\d{1,3})?", plain, re.ASCII):
        raise argparse.ArgumentTypeError(f"millimetres such as 147.5 were expected, not {inert(text)}")
    return float(plain)
