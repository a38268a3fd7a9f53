"""Files from outside: lists as spreadsheets export them, and TOML."""

import csv
import io
import tomllib
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from shoptui.domain.headers import Column
from shoptui.domain.tables import ImportRefusedError, Table, Trouble, read_table

LARGEST = 20_000_000
"""Bytes of the largest file that is read; a build's list has some 50,000. Common practice, no source."""


_NAMES_SEPARATOR = "sep="
"""Begins a line before the header with which some spreadsheets tell each other the separator."""


def read_csv(path: Path, columns: Sequence[Column]) -> Table:
    """Read a list: comma, semicolon or tab between cells, UTF-8 with or without mark, or UTF-16 with one.

    Raises:
        ImportRefusedError: The file cannot be read, or its header cannot.

    """
    text = _text(path, "CSV UTF-8")
    if "\0" in text:
        line = text.count("\n", 0, text.index("\0")) + 1
        raise _refused(path, line, "a zero byte came; this is no list. Save it as CSV UTF-8.")
    first = next((line for line in text.splitlines() if line.strip()), "")
    return read_table(_rows(path, text, _separator(first, text)), columns, path.name)


def read_toml(path: Path) -> tuple[dict[str, Any], str]:
    """Read a TOML file; return it with its text, in which the lines can be counted.

    Raises:
        ImportRefusedError: The file cannot be read or is no TOML.

    """
    text = _text(path, "UTF-8")
    try:
        return tomllib.loads(text), text
    except tomllib.TOMLDecodeError as error:
        raise _refused(path, 0, f"TOML was expected: {error}.") from error


def _text(path: Path, saved_as: str) -> str:
    try:
        if path.stat().st_size > LARGEST:
            raise _refused(path, 0, f"At most {LARGEST // 1_000_000} MB were expected; the file is larger.")
        data = path.read_bytes()
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise _refused(path, 0, f"The file cannot be read: {reason}.") from error
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        encoding, called = "utf-16", "UTF-16"
    else:
        encoding, called = "utf-8-sig", "UTF-8"
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise _refused(
            path,
            line,
            f"{called} was expected; byte 0x{data[error.start]:02X} is none. Save it as {saved_as}.",
        ) from error


def _separator(header: str, text: str) -> str:
    """Return what stands between cells: of the three the one most often in the header, outside quotes.

    Of two that are there equally often, as in `Qty;Price, each`, it is the one that gives all rows the same
    number of cells.
    """
    if header.startswith(_NAMES_SEPARATOR):
        header = header.removeprefix(_NAMES_SEPARATOR)
    outside = "".join(header.split('"')[::2])
    most = max(map(outside.count, _SEPARATORS))
    likely = [each for each in _SEPARATORS if outside.count(each) == most]
    if most == 0:
        return ","
    return likely[0] if len(likely) == 1 else max(likely, key=lambda each: _evenness(text, each))


_SEPARATORS = (";", ",", "\t")
"""The likelier first: a comma stands in words and in numbers too."""


def _evenness(text: str, separator: str) -> float:
    """Return the share of rows with as many cells as the first."""
    try:
        rows = [row for row in csv.reader(io.StringIO(text, newline=""), delimiter=separator) if any(row)]
    except csv.Error:
        return 0.0
    return sum(len(row) == len(rows[0]) for row in rows) / len(rows) if rows else 0.0


def _rows(path: Path, text: str, separator: str) -> Iterator[tuple[int, list[str]]]:
    """Yield the line on which each row begins, and its cells."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    line = 1
    try:
        for cells in reader:
            if line > 1 or cells[:1] != [_NAMES_SEPARATOR]:
                yield line, cells
            line = reader.line_num + 1
    except csv.Error as error:
        raise _refused(
            path, line, f"the quotation marks of this row do not close as expected ({error})."
        ) from error


def _refused(path: Path, line: int, sentence: str) -> ImportRefusedError:
    sentence = sentence if line == 0 else sentence[0].upper() + sentence[1:]
    return ImportRefusedError(path.name, [Trouble(line, "", sentence)])
