"""What spreadsheets hold beside their parts: headings between rows, sums below them, numbers before them."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from shoptui.domain.inert import inert
from shoptui.domain.tables import Reading, Row, Table

_SUMS = frozenset({"total", "totals", "subtotal", "sub-total", "grand total", "sum", "sums"})
_ROW_NUMBER = re.compile(r"\d+(?:[.,]0{1,2})?", re.ASCII)


@dataclass(frozen=True, slots=True)
class PartRows:
    """The rows of a list that are parts.

    Args:
        rows: With the section of the heading above them, where headings give the sections.
        numbers: Line to the row's own number, where a column of codes held nothing else.
        notes: What was left out or taken for something else, in sentences.

    """

    rows: tuple[Row, ...]
    numbers: Mapping[int, str]
    notes: tuple[str, ...]


def part_rows(table: Table, reading: Reading) -> PartRows:
    """Return the parts of a list; what can be read in two ways is a trouble."""
    rows, summed = without_sums(table.rows, {"qty", "price", "on hand", "hours"})
    rows, numbers, numbered = _without_numbers(rows, table)
    rows, headed = _under_headings(rows, table, reading)
    return PartRows(rows, numbers, (*summed, *numbered, *headed))


def without_sums(rows: Sequence[Row], amounts: set[str]) -> tuple[tuple[Row, ...], tuple[str, ...]]:
    """Return the rows that are no sum of others, and a sentence about those that are."""
    sums = [row for row in rows if _is_sum(row, amounts)]
    if not sums:
        return tuple(rows), ()
    lines = ", ".join(str(row.line) for row in sums)
    many = len(sums) > 1
    note = f"Left out as {'sums' if many else 'a sum'} of others: line{'s' * many} {lines}."
    return tuple(row for row in rows if row not in sums), (note,)


def _is_sum(row: Row, amounts: set[str]) -> bool:
    texts = [cell for name, cell in row.cells.items() if name not in amounts]
    return len(texts) == 1 and " ".join(texts[0].split()).casefold().rstrip(" :") in _SUMS


def _without_numbers(
    rows: tuple[Row, ...], table: Table
) -> tuple[tuple[Row, ...], dict[int, str], tuple[str, ...]]:
    """Take the cells out of a column of codes that only numbers its rows: as codes they would pick a row."""
    found = {row.line: row.cells["code"].strip() for row in rows if "code" in row.cells}
    if not found or not all(_ROW_NUMBER.fullmatch(each) for each in found.values()):
        return rows, {}, ()
    plain = tuple(
        replace(row, cells={name: cell for name, cell in row.cells.items() if name != "code"}) for row in rows
    )
    header = inert(table.headers.get("code", "code").strip(), 40)
    note = f"Column {header} has only numbers: they were taken for the rows' numbers, and are no codes."
    return plain, {line: re.split("[.,]", each)[0] for line, each in found.items()}, (note,)


def _under_headings(
    rows: tuple[Row, ...], table: Table, reading: Reading
) -> tuple[tuple[Row, ...], tuple[str, ...]]:
    """Let a heading name the section of the rows below it.

    A row with a description alone is no part of one piece where all others have a quantity. It is a heading
    without doubt if it ends in a colon, or stands in capitals and the others do not.
    """
    alone = {row.line for row in rows if set(row.cells) == {"description"}}
    others = [row for row in rows if row.line not in alone]
    if not alone or not others or not all("qty" in row.cells for row in others):
        return rows, ()
    shouted = all(row.cells.get("description", "A").isupper() for row in others)
    found: list[Row] = []
    section = ""
    headings: list[str] = []
    for row in rows:
        if row.line not in alone:
            found.append(replace(row, cells={**row.cells, "section": section}) if section else row)
            continue
        words = " ".join(row.cells["description"].split())
        sure = words.endswith(":") or (words.isupper() and not shouted)
        if not sure or "section" in table.headers or row.line > others[-1].line:
            reading.trouble(row.line, "description", _two_ways(words, there="section" in table.headers))
            continue
        section = words.rstrip(" :")
        headings.append(section)
    if not headings:
        return tuple(found), ()
    told = ", ".join(inert(each, 30) for each in headings[:6]) + (" and more" if len(headings) > 6 else "")  # noqa: PLR2004
    return tuple(found), (f"Headings were taken for sections: {told}.",)


def _two_ways(words: str, *, there: bool) -> str:
    """Say how a heading and a part without quantity are told apart; `there`: a column has the sections."""
    heading = (
        "take the row out" if there else f'write it as "{inert(words.rstrip(" :"), 30)}:" above its parts'
    )
    return (
        f"{inert(words, 40)} stands alone, where all parts have a quantity. If it is a part, give its "
        f"quantity; if it is a heading, {heading}."
    )
