"""A TOML file read as rows, so that what is wrong in it is named as in a list: by line and name."""

import re
from collections.abc import Mapping, Sequence
from datetime import date, time
from typing import Any

from shoptui.domain.inert import inert
from shoptui.domain.tables import Reading, Row


def toml_row(
    reading: Reading, line: int, values: object, keys: Sequence[str], nested: Sequence[str] = ()
) -> Row:
    """Return one table of TOML as a row; each key that nobody knows is a trouble, since it is a slip.

    Args:
        reading: Gathers the troubles.
        line: Where the table begins, 0 if that is not known.
        values: The table.
        keys: Known keys with words, numbers, dates, yes and no, or lists of them.
        nested: Known keys with tables in them, which the row leaves out.

    """
    if not isinstance(values, Mapping):
        reading.trouble(line, "", f"A table of names and values was expected; {inert(str(values), 40)} came.")
        return Row(line, {})
    cells = {}
    for key, value in values.items():
        if key in keys:
            text = _text(value)
            if text is None:
                reading.trouble(line, key, f"Words or a number were expected; {inert(str(value), 40)} came.")
            elif text.strip():
                cells[key] = text
        elif key not in nested:
            reading.trouble(
                line, inert(key, 40), f"This is not known; known are {', '.join((*keys, *nested))}."
            )
    return Row(line, cells)


def tables(reading: Reading, document: Mapping[str, Any], name: str, text: str) -> list[tuple[int, Any]]:
    """Return the tables of a kind (`[[bins]]`) with the line on which each begins."""
    found = document.get(name, [])
    if not isinstance(found, list):
        reading.trouble(0, name, f"Tables headed [[{name}]] were expected; write the brackets twice.")
        return []
    lines = header_lines(text, name)
    return [(lines[at] if len(lines) == len(found) else 0, each) for at, each in enumerate(found)]


def header_lines(text: str, name: str) -> list[int]:
    """Return the lines of a text that hold `[[name]]`."""
    header = re.compile(rf"\s*\[\[\s*{re.escape(name)}\s*\]\]")
    return [number for number, line in enumerate(text.splitlines(), 1) if header.match(line)]


def key_line(text: str, header: int, key: str) -> int:
    r"""Return the line on which a table says a key; that of its header where it says none.

    >>> key_line('[[bins]]\ncode = "A"\nroom = "B"\n[[bins]]\nwords = "C"', 1, "room")
    3
    """
    said = re.compile(rf"\s*[\"']?{re.escape(key)}[\"']?\s*=")
    for number, line in enumerate(text.splitlines()[header:], header + 1):
        if line.lstrip().startswith("[["):
            break
        if said.match(line):
            return number
    return header


def _text(value: object) -> str | None:
    """Return a value of TOML as the text of a cell; None for what has no such text."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, time):
        return value.strftime("%H:%M")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, (str, int, float)):
        return str(value)
    if isinstance(value, list):
        texts = [_text(each) for each in value]
        return None if None in texts else "\n".join(each for each in texts if each)
    return None
