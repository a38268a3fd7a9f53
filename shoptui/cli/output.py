"""Results on standard output: text that is safe to show, tables, JSON and CSV."""

import csv
import io
import json
import sys
import unicodedata
from collections.abc import Iterable, Sequence

from shoptui.domain.inert import cells, inert

WIDTH = 80
"""Cells of the narrowest terminal."""

LONGEST = 4000
"""Cells of one line of text; nothing that the program says comes near it."""

GAP = "  "


def write(text: str) -> None:
    """Write text to standard output as it is; signs that the terminal does not know become question marks."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="replace")
    sys.stdout.write(text)


def write_data(text: str) -> None:
    """Write JSON or CSV, which is UTF-8 wherever it goes."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(encoding="utf-8", errors="backslashreplace")
    sys.stdout.write(text)


def lines(texts: Iterable[str]) -> None:
    """Write lines, each safe to show."""
    write("".join(f"{inert(text, LONGEST)}\n" for text in texts))


def as_json(value: object, *, indent: int | None = 2) -> str:
    r"""Return JSON whose text is as it is in the store; what could act on a terminal stands as its number.

    >>> as_json({"a": "é\u202e"}, indent=None)
    '{"a": "é\\u202e"}'
    """
    text = json.dumps(value, ensure_ascii=False, indent=indent)
    if text.isascii() and text.replace("\n", "").isprintable():
        return text
    return "".join(_numbered(sign) if _acts(sign) else sign for sign in text)


def _acts(sign: str) -> bool:
    return sign != "\n" and unicodedata.category(sign) in {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}


def _numbered(sign: str) -> str:
    """A sign as JSON has it in numbers: two halves beyond the first plane."""
    return json.dumps(sign, ensure_ascii=True)[1:-1] if sign != "\x7f" else "\\u007f"


def as_csv(header: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Return CSV with a header; every value is safe to show, and text is no formula to a spreadsheet."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(header)
    writer.writerows([_cell(value) for value in row] for row in rows)
    return out.getvalue()


_FORMULA = ("=", "+", "-", "@")
"""Begin a formula. OWASP, CSV Injection; tabs and line ends, also named there, are shown as signs anyway."""


def _cell(value: object) -> object:
    if isinstance(value, int):
        return value
    text = inert(str(value), LONGEST)
    return f"'{text}" if text.startswith(_FORMULA) else text


def table(
    header: Sequence[str], rows: Sequence[Sequence[str]], *, wide: int, right: Sequence[int] = ()
) -> str:
    """Return columns that fit into 80 cells.

    Args:
        header: Names of the columns.
        rows: Values, which are made safe to show.
        wide: The column that gives way when there is no room.
        right: Columns of numbers.

    """
    shown = [[inert(value, WIDTH) for value in row] for row in (header, *rows)]
    widths = [max(cells(row[column]) for row in shown) for column in range(len(header))]
    rest = sum(widths) - widths[wide] + len(GAP) * (len(header) - 1)
    widths[wide] = min(widths[wide], max(8, WIDTH - rest))
    return "".join(_row(row, widths, right) for row in shown)


def _row(row: Sequence[str], widths: Sequence[int], right: Sequence[int]) -> str:
    out = []
    for column, (value, width) in enumerate(zip(row, widths, strict=True)):
        cut = inert(value, width)
        room = " " * (width - cells(cut))
        out.append(room + cut if column in right else cut + room)
    return GAP.join(out).rstrip() + "\n"
