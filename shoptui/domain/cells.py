"""What a cell of somebody's list means: words, pieces, days, yes and no.

Each reader takes the text of one cell and returns a value, or raises `CellError` with a sentence that says
what was expected and what came.
"""

import re
import unicodedata
from dataclasses import dataclass
from datetime import date, timedelta

from shoptui.domain.days import day_said
from shoptui.domain.inert import inert

NAME_LIMIT = 200
"""Characters of a name; longer ones are a cell gone wrong. Common practice, no source."""

NOTES_LIMIT = 4000

MOST_PIECES = 100_000
"""Pieces in one row; more is a number typed twice or a code in the wrong column. No source."""

MOST = 999_999_999
"""Of any number that is none of pieces; no odometer shows more. Common practice, no source."""

YEARS = range(2000, 2101)
"""Years in which a shop's days can lie; others are a slip of the keyboard. Common practice, no source."""

_JOINERS = "\u200c\u200d"
"""Zero-width joiners: Persian and Indic words need them, and they move nothing on a screen."""


class CellError(ValueError):
    """A cell that cannot be read; the words say what was expected and what came."""


@dataclass(frozen=True, slots=True)
class Pieces:
    """A quantity: pieces, and how they are bought.

    Args:
        total: Pieces altogether.
        sold_as: each, pair, set, pack or kit.
        each: Pieces in one as sold.

    """

    total: int
    sold_as: str = "each"
    each: int = 1


def words(text: str, *, limit: int = NAME_LIMIT, lines: bool = False) -> str:
    r"""Return a name or a note, blanks and line breaks made one blank each.

    Args:
        text: The cell.
        limit: Most characters.
        lines: Whether line breaks stay (notes).

    Raises:
        CellError: Control, direction or other invisible characters, or too long.

    >>> words("  brake hose,\n front ")
    'brake hose, front'

    """
    text = re.sub("\r\n?|[\x0b\x0c\x85\u2028\u2029]", "\n", text)
    for character in text:
        if character in "\n\t" or character in _JOINERS:
            continue
        if unicodedata.category(character) in {"Cc", "Cf", "Cs"}:
            raise CellError(
                f"{inert(text, 40)} holds an invisible or control character (U+{ord(character):04X}); "
                "take it out."
            )
    if lines:
        text = "\n".join(" ".join(line.split()) for line in text.split("\n")).strip()
    else:
        text = " ".join(text.split())
    if len(text) > limit:
        raise CellError(f"At most {limit} characters were expected; this has {len(text)}.")
    return text


def listed(text: str) -> tuple[str, ...]:
    """Return what a cell lists, separated by semicolons, bars or line breaks.

    >>> listed("brake disc, front; hub | spindle")
    ('brake disc, front', 'hub', 'spindle')
    """
    return tuple(found for each in re.split(r"[;|\n\r]", text) if (found := words(each)))


_WHOLE = re.compile(r"(\d{1,30})(?:[.,]0{1,2})?", re.ASCII)
_SOLD = {
    **dict.fromkeys(("each", "ea", "piece", "pieces", "pc", "pcs", "pce", "pces", "x", "off"), "each"),
    **{name + s: name for name in ("pair", "set", "pack", "kit") for s in ("", "s")},
    **dict.fromkeys(("pr", "prs"), "pair"),
    **dict.fromkeys(("pk", "pks"), "pack"),
}
_QUANTITY = re.compile(
    r"(?P<count>[\d.,]+)\s*(?P<unit>[a-z]+)?\.?(?:\s+(?:of|x|à)\s+(?P<each>[\d.,]+)\s*(?:pieces|pcs|each)?)?",
    re.ASCII | re.IGNORECASE,
)


def pieces(text: str) -> Pieces:
    """Return a quantity.

    Raises:
        CellError: Not a whole number of pieces, pairs, sets, packs or kits.

    >>> pieces("2 pairs"), pieces("1 set of 4").total, pieces("4")
    (Pieces(total=4, sold_as='pair', each=2), 4, Pieces(total=4, sold_as='each', each=1))

    """
    text = words(text)
    match = _QUANTITY.fullmatch(text)
    sold_as = _SOLD.get((match["unit"] or "each").lower()) if match else None
    if match is None or sold_as is None:
        raise CellError(
            f'A quantity such as "4", "2 pairs" or "1 set of 4" was expected; {inert(text, 40)} came.'
        )
    count = _whole(match["count"])
    if match["each"]:
        if sold_as == "pair" and _whole(match["each"]) != _PAIR:
            raise CellError(f"A pair is two; {inert(text, 40)} came. Write it as a set.")
        each = _whole(match["each"])
    elif sold_as in {"set", "pack"}:
        raise CellError(f'How many are in a {sold_as} is not said; write such as "{count} {sold_as} of 4".')
    else:
        each = _PAIR if sold_as == "pair" else 1
    if not 1 <= count * each <= MOST_PIECES:
        raise CellError(f"1 to {MOST_PIECES} pieces were expected; {inert(text, 40)} came.")
    return Pieces(count * each, sold_as, each)


_PAIR = 2


def whole(text: str) -> int:
    """Return a whole number, as a spreadsheet may write it (`4`, `4.0`, `4,00`).

    Raises:
        CellError: Anything else, or a code in the place of a number.

    """
    number = _whole(text)
    if number > MOST:
        raise CellError(f"At most {MOST} was expected; {inert(text, 40)} came.")
    return number


def _whole(text: str) -> int:
    match = _WHOLE.fullmatch(words(text))
    if match is None:
        raise CellError(f'A whole number such as "4" was expected; {inert(text, 40) or "nothing"} came.')
    return int(match[1])


def quantity(text: str, *, least: int = 1, most: int | None = None) -> int:
    """Return a number from the least that makes sense to the most.

    Args:
        text: The cell.
        least: The least.
        most: The most; None is the most pieces that a row can mean.

    Raises:
        CellError: No whole number, or none in that range.

    >>> quantity("4"), quantity("0", least=0)
    (4, 0)

    """
    plain = words(text)
    number = int(plain) if re.fullmatch(r"[+-]?\d{1,30}", plain, re.ASCII) else _whole(plain)
    if most is not None and not least <= number <= most:
        raise CellError(f"{least} to {most} was expected, not {number}.")
    if number < least:
        raise CellError(f"A quantity of {least} or more was expected, not {number}.")
    if most is None and number > MOST_PIECES:
        raise CellError(f"At most {MOST_PIECES} pieces were expected, not {number}; was a code typed here?")
    return number


def day(text: str, base: date | None = None) -> date:
    """Return a day as year-month-day or with its month as a word; a time of day after it says nothing.

    Args:
        text: The cell.
        base: Where given, `+6` and `-3` are days counted from it, and `12 Nov` is the one nearest to it; an
            invented shop is always of today.

    Raises:
        CellError: Another form, or another century. 03.04. is April in one country and March in another, so
            nothing is guessed.

    >>> day("2026-11-05"), day("+1", date(2026, 12, 31))
    (datetime.date(2026, 11, 5), datetime.date(2027, 1, 1))

    """
    text = words(text)
    if base is not None and re.fullmatch(r"[+-]\d{1,4}", text, re.ASCII):
        return _likely(base + timedelta(days=int(text)), text)
    if match := _DAY.fullmatch(text):
        try:
            found = date(*map(int, match.group("year", "month", "day")))
        except ValueError as error:
            raise CellError(f"{text} is no day of the calendar.") from error
        return _likely(found, text)
    try:
        said = day_said(text, base)
    except ValueError as error:
        raise CellError(str(error)) from error
    if said is not None:
        return _likely(said, text)
    why = " Here the day could be taken for the month." if _TWO_WAYS.fullmatch(text) else ""
    came = inert(text, 40) or "nothing"
    raise CellError(f"A day as year-month-day, such as 2026-11-05, was expected; {came} came.{why}")


_DAY = re.compile(
    r"(?P<year>\d{4})(?P<mark>[-/])(?P<month>\d{2})(?P=mark)(?P<day>\d{2})"
    r"(?:[T ]\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?)?",
    re.ASCII,
)
"""A day as ISO 8601 has it, or with strokes; spreadsheets put the hour after it."""

_TWO_WAYS = re.compile(r"(?:0?[1-9]|1[0-2])([-/. ])(?:0?[1-9]|1[0-2])\1(?:\d{2}|\d{4})", re.ASCII)


def _likely(found: date, text: str) -> date:
    if found.year not in YEARS:
        raise CellError(f"A day from {YEARS[0]} to {YEARS[-1]} was expected; {text} came.")
    return found


_YES = {
    "yes": True,
    "y": True,
    "true": True,
    "1": True,
    "x": True,
    "no": False,
    "n": False,
    "false": False,
    "0": False,
}


def yes(text: str) -> bool:
    """Return yes or no; an empty cell is no.

    Raises:
        CellError: Neither.

    """
    said = words(text).lower()
    if not said:
        return False
    if said not in _YES:
        raise CellError(f'"yes" or "no" was expected; {inert(text, 40)} came.')
    return _YES[said]
