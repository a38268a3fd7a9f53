"""Bins made in rows: "rack 3, A to F, 1 to 8" makes 48 of them in one go, none twice."""

import re
from dataclasses import dataclass
from itertools import product
from math import prod

from shoptui.domain.inert import inert
from shoptui.domain.records import Bin
from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.at import At, shown
from shoptui.store.command_tags import command_named
from shoptui.store.shop import Shop

MOST = 1000
"""Bins of one go: more is a slip, no rack."""

EXAMPLE = "rack 3, A to F, 1 to 8"

_RANGE = re.compile(
    r"([a-z]|\d{1,4})(?:\s*(?:\bto\b|-|\N{EN DASH})\s*([a-z]|\d{1,4}))?", re.ASCII | re.IGNORECASE
)
_NAME = re.compile(r"\w+(?:[ -]\w+)*")
_LONGEST_NAME = 30


class RowsError(ValueError):
    """Words that are no rows of bins; they say what was expected and what came."""


@dataclass(frozen=True, slots=True)
class Rows:
    """Rows of bins.

    Args:
        words: Where they stand: `rack 3`.
        codes: Their names, row by row.

    """

    words: str
    codes: tuple[str, ...]

    @property
    def span(self) -> str:
        """The first and the last of them."""
        return f"{self.codes[0]} to {self.codes[-1]}" if len(self.codes) > 1 else self.codes[0]


def rows_said(text: str) -> Rows:
    """Return the bins that words mean: the rack's name, then ranges of letters or numbers.

    A bin is called by the last word of the name and its place in each range. Numbers beside another number
    are written in equal length, since codes are compared without their dashes: 1-11 is 11-1 then.

    Raises:
        RowsError: They mean none.

    >>> rows = rows_said("rack 3, A to F, 1 to 8")
    >>> rows.words, len(rows.codes), rows.span
    ('rack 3', 48, '3-A1 to 3-F8')
    >>> rows_said("B, 9-10").codes, rows_said("rack 1, 9 to 10").codes, rows_said("B, 1 to 2, 9 to 10").codes
    (('B-9', 'B-10'), ('1-09', '1-10'), ('B-1-09', 'B-1-10', 'B-2-09', 'B-2-10'))

    """
    name, *said = (" ".join(each.split()) for each in text.split(","))
    if not said or not _NAME.fullmatch(name) or len(name) > _LONGEST_NAME or " to " in name:
        raise RowsError(
            f"A rack's name and its rows were expected, such as {EXAMPLE}; {inert(text) or 'nothing'} came."
        )
    ranges = [_range(each) for each in said]
    if (count := prod(len(each) for each, _ in ranges)) > MOST:
        raise RowsError(
            f"At most {MOST} bins can be made in one go; {inert(text)} would be {count}. Make fewer."
        )
    short = name.split()[-1].upper()
    cells, beside = [], short[-1].isdigit()
    for at, (each, number) in enumerate(ranges):
        padded = beside or (number and at + 1 < len(ranges) and ranges[at + 1][1])
        width = len(str(each[-1])) if padded else 0
        dash = "-" if at == 0 or (beside and number) else ""
        cells.append([f"{dash}{value:0{width}}" if number else f"{dash}{chr(value)}" for value in each])
        beside = number
    return Rows(name, tuple(f"{short}{''.join(cell)}" for cell in product(*cells)))


def _range(said: str) -> tuple[range, bool]:
    """Return numbers, or the numbers of letters, and which of both."""
    found = _RANGE.fullmatch(said)
    if found is None:
        raise RowsError(
            f"A range such as A to F or 1 to 8 was expected; {inert(said, 40) or 'nothing'} came. All of it "
            f"reads such as {EXAMPLE}."
        )
    first, last = found[1].upper(), (found[2] or found[1]).upper()
    number = first.isdigit()
    if number is not last.isdigit():
        raise RowsError(f"Two letters or two numbers were expected; {first} to {last} came.")
    begin, end = (int(each) if number else ord(each) for each in (first, last))
    if begin > end:
        raise RowsError(f"The smaller one first was expected, {last} to {first}; {first} to {last} came.")
    return range(begin, end + 1), number


def bins_in_rows(at: At, text: str, room: str = "") -> Answer:
    """Say which bins words mean, and make those that are not there yet once that is said yes to.

    Args:
        at: Where it is done.
        text: `rack 3, A to F, 1 to 8`.
        room: The room in which they stand.

    """
    try:
        rows = rows_said(text)
        coming = _coming(at.shop, rows)
    except RowsError as error:
        return stop(str(error), kind="bin", field="rows")
    there = len(rows.codes) - len(coming)
    if not coming:
        return stop(f"{rows.span}: all {there} are there already. Nothing changed.", kind="bin")
    stay = (
        f" {there} of them {'is' if there == 1 else 'are'} there already and stay as they are."
        if there
        else ""
    )
    many = f"{len(coming)} bin{'' if len(coming) == 1 else 's'}"
    return Answer(
        Said.QUESTION,
        f"{many} for {inert(rows.words)}: {rows.span}.{stay} Enter: make what is missing.",
        kind="bin",
        question=Question(yes=lambda: _make(at, rows, room)),
    )


def bins_of(shop: Shop, rows: Rows) -> tuple[Bin, ...]:
    """Return the bins of rows that are there, row by row."""
    found = (shop.bins.by_code(code) for code in rows.codes)
    return tuple(each for each in found if each is not None)


def _coming(shop: Shop, rows: Rows) -> list[str]:
    """Return the names of which there is no bin yet.

    Raises:
        RowsError: Something else has one of them, or could be taken for it.

    """
    coming = []
    for code in rows.codes:
        found = shop.bins.by_code(code)
        if found is not None and found.code.casefold() == code.casefold():
            continue
        if command_named(code) or shop.codes.knows(code) or shop.suppliers.by_code(code) is not None:
            other = f"bin {shown(found.code)}" if found is not None else "something else"
            raise RowsError(
                f"{code} would be taken for {other} that is here already. Give the rack another name. "
                "Nothing changed."
            )
        coming.append(code)
    return coming


def _make(at: At, rows: Rows, room: str) -> Answer:
    try:
        with at.doing() as tx:
            coming = _coming(at.shop, rows)  # again: somebody else may have made some meanwhile
            for code in coming:
                tx.add(Bin(0, code, "", rows.words, room=room))
            many = f"{len(coming)} bin{'' if len(coming) == 1 else 's'}"
            tx.say(f"made {many} for {inert(rows.words)}: {rows.span}")
    except RowsError as error:
        return stop(str(error), kind="bin")
    return done(
        f"Made {many} for {inert(rows.words)}: {rows.span}. They lack their labels.", kind="bin", show="racks"
    )
