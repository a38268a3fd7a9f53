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
    rows, headed = _under_headings(rows, table, reading, numbered=bool(numbers))
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


def _stands_alone(row: Row) -> bool:
    """Whether a row has one filled cell, with words: a heading stands in whatever column comes handy."""
    return len(row.cells) == 1 and any(
        character.isalpha() for cell in row.cells.values() for character in cell
    )


def _without_numbers(
    rows: tuple[Row, ...], table: Table
) -> tuple[tuple[Row, ...], dict[int, str], tuple[str, ...]]:
    """Take the cells out of a column of codes that only numbers its rows: as codes they would pick a row."""
    found = {
        row.line: row.cells["code"].strip() for row in rows if "code" in row.cells and not _stands_alone(row)
    }
    if not found or not all(_ROW_NUMBER.fullmatch(each) for each in found.values()):
        return rows, {}, ()
    plain = tuple(
        replace(row, cells={name: cell for name, cell in row.cells.items() if name != "code"})
        if row.line in found
        else row
        for row in rows
    )
    header = inert(table.headers.get("code", "code").strip(), 40)
    note = f"Column {header} has only numbers: they were taken for the rows' numbers, and are no codes."
    return plain, {line: re.split("[.,]", each)[0] for line, each in found.items()}, (note,)


def _under_headings(
    rows: tuple[Row, ...], table: Table, reading: Reading, *, numbered: bool
) -> tuple[tuple[Row, ...], tuple[str, ...]]:
    """Let a heading name the section of the rows below it that name none themselves.

    A row with a description alone is a part of one piece, unless all others have a quantity; a row with
    another cell alone is never a part.
    """
    alone = [row for row in rows if _stands_alone(row)]
    others = [row for row in rows if row not in alone]
    counted = all("qty" in row.cells for row in others)
    if not counted:
        alone = [row for row in alone if "description" not in row.cells]
    shouted = all(row.cells.get("description", "A").isupper() for row in others)
    headings = [row for row in (*alone, *table.lone) if _is_heading(row, shouted=shouted, numbered=numbered)]
    if not others or not (alone or headings):
        return rows, ()
    found: list[Row] = []
    section = ""
    told: list[str] = []
    for row in sorted((*rows, *(each for each in table.lone if each in headings)), key=lambda row: row.line):
        if row not in alone and row not in headings:
            found.append(replace(row, cells={"section": section, **row.cells}) if section else row)
            continue
        ((column, cell),) = row.cells.items()
        words = " ".join(cell.split())
        given = column != "section" and _all_named(others, row.line)
        if row not in headings or given or row.line > others[-1].line:
            reading.trouble(row.line, column, _two_ways(words, there=given))
            continue
        section = words.rstrip(" :")
        told.append(section)
    if not told:
        return tuple(found), ()
    named = ", ".join(inert(each, 30) for each in told[:6]) + (" and more" if len(told) > 6 else "")  # noqa: PLR2004
    return tuple(found), (f"Headings were taken for sections: {named}.",)


def _all_named(rows: Sequence[Row], line: int) -> bool:
    """Whether each row below a line names its section itself: a heading says nothing new there."""
    return all("section" in row.cells for row in rows if row.line > line)


def _is_heading(row: Row, *, shouted: bool, numbered: bool) -> bool:
    """Whether a cell that stands alone is a heading without doubt.

    It is if it ends in a colon, stands in the column of sections or of row numbers, or in capitals where the
    descriptions do not (and, since codes do, has no digit where codes stand).
    """
    ((column, cell),) = row.cells.items()
    words = cell.strip()
    if words.endswith(":") or column == "section" or (column == "code" and numbered):
        return True
    coded = column != "description" and any(character.isdigit() for character in words)
    return words.isupper() and not shouted and not coded


def _two_ways(words: str, *, there: bool) -> str:
    """Say how a heading and a part without quantity are told apart; `there`: a column has the sections."""
    heading = (
        "take the row out" if there else f'write it as "{inert(words.rstrip(" :"), 30)}:" above its parts'
    )
    return (
        f"{inert(words, 40)} stands alone in its row. If it is a part, give its description and quantity; "
        f"if it is a heading, {heading}."
    )
