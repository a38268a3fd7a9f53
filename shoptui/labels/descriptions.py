"""The TOML files that describe stock and layouts: found by name, a user's own first, and read name by name.

What is wrong is said with the file, the line and what was expected.
"""

import math
import re
import tomllib
from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from importlib.resources import files
from pathlib import Path
from typing import Any

from shoptui.domain.inert import inert
from shoptui.labels.errors import DescriptionError

SUFFIX = ".toml"
_HEADER = re.compile(r"\s*\[\[\s*\w+\s*\]\]")
_NAME = re.compile(r"\s*([\w-]+)\s*=")
_ALIKE = 0.8
"""How alike a name that nobody knows is to the missing one that it is a slip of; no two known ones are."""

_SLIPS = {
    "Invalid value": "A number, words in quotes, true or false was expected after =",
    "Cannot overwrite": "Every name once was expected",
    "Expected newline": "One value was expected after =, with a point before decimals",
    "Expected '='": "name = value was expected",
    "Invalid statement": "name = value was expected",
}
"""What was expected where the reader of TOML says what begins so."""


def packaged() -> Path:
    """Return the folder with the descriptions that came with the program."""
    return Path(str(files("shoptui") / "data" / "labels"))


def names(what: str, own: Path | None) -> tuple[str, ...]:
    """Return the names of what there is to choose from, sorted.

    Args:
        what: Folder below `labels`: `stock` or `layouts`.
        own: The user's own folder, which has the same folders in it; None for none.

    """
    found = {path.stem for folder in _folders(what, own) for path in folder.glob(f"*{SUFFIX}")}
    return tuple(sorted(found))


def document(what: str, name: str, own: Path | None) -> tuple[str, str, Mapping[str, Any]]:
    """Return the file's name, its text and what it says.

    Raises:
        DescriptionError: There is none of that name, or it is no TOML.

    """
    known = names(what, own)
    if name not in known:
        raise DescriptionError(
            inert(name), 0, f"No {what} of that name was found; there is {', '.join(known)}."
        )
    path = next(path for folder in _folders(what, own) if (path := folder / f"{name}{SUFFIX}").is_file())
    try:
        text = path.read_text("utf-8-sig")
        return path.name, text, tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _slip(path.name, text, str(error)) from None
    except UnicodeDecodeError as error:
        line = error.object.count(b"\n", 0, error.start) + 1
        raise DescriptionError(
            path.name, line, "Text in UTF-8 was expected; save the file as UTF-8."
        ) from None
    except OSError as error:
        raise DescriptionError(path.name, 0, f"It could not be read: {error.strerror}.") from None


def _slip(name: str, text: str, told: str) -> DescriptionError:
    """Return what is wrong with a file that is no TOML, with the line as it stands there."""
    lines = text.splitlines() or [""]
    place = re.search(r"at line (\d+)", told)
    number = min(int(place[1]) if place else len(lines), len(lines))
    words = re.sub(r"\s*\(at .*\)", "", told)
    plain = next((plain for start, plain in _SLIPS.items() if told.startswith(start)), "")
    came = inert(lines[number - 1].strip(), 40) or "an empty line"
    return DescriptionError(name, number, f"{plain or f'TOML was expected ({inert(words)})'}; {came} came.")


def _folders(what: str, own: Path | None) -> list[Path]:
    return [folder / what for folder in (own, packaged()) if folder is not None]


class Fields:
    """One table of a description, which is asked for its names one by one and refuses what nobody asked for.

    Args:
        name: The file's name.
        text: The file, to find lines in.
        values: The table.
        table: Which of the file's `[[...]]` tables it is, from 0; -1 for what stands above them.

    """

    def __init__(self, name: str, text: str, values: object, table: int = -1) -> None:
        self._name = name
        self._start, self._lines = _lines(text, table)
        if not isinstance(values, Mapping):
            raise DescriptionError(name, self._start, f"A table was expected; {inert(str(values), 40)} came.")
        self._left = dict(values)

    def number(self, name: str, least: float, most: float, default: float | None = None) -> float:
        """Return a number between two others, both included; the default where it is left out."""
        expected = f"A number from {least:g} to {most:g}"
        value = self._take(name, default, expected)
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            raise self.wrong(name, f"{expected} was expected as {name}; {inert(str(value), 40)} came.")
        if not math.isfinite(value) or not least <= value <= most:
            raise self.wrong(name, f"{expected} was expected as {name}; {value:g} came.")
        return value

    def whole(self, name: str, least: int, most: int, default: int | None = None) -> int:
        """Return a whole number likewise."""
        value = self.number(name, least, most, default)
        if value != int(value):
            raise self.wrong(name, f"A whole number was expected as {name}; {value:g} came.")
        return int(value)

    def words(self, name: str, default: str | None = None) -> str:
        """Return words."""
        value = self._take(name, default, "Words in quotes")
        if not isinstance(value, str):
            raise self.wrong(name, f"Words in quotes were expected; {inert(str(value), 40)} came.")
        return value

    def one_of(self, name: str, choices: Sequence[str]) -> str:
        """Return one of some words."""
        value = self._take(name, None, f"One of {', '.join(choices)}")
        if value not in choices:
            expected = f"One of {', '.join(choices)} was expected"
            raise self.wrong(name, f"{expected}; {inert(str(value), 40)} came.")
        return str(value)

    def yes(self, name: str) -> bool:
        """Return whether something is so, which it is not where it is left out."""
        value = self._take(name, default=False, expected="true or false")
        if not isinstance(value, bool):
            raise self.wrong(name, f"true or false was expected; {inert(str(value), 40)} came.")
        return value

    def tables(self, name: str) -> list[object]:
        """Return the tables headed `[[name]]`."""
        value = self._take(name, None, f"Tables headed [[{name}]]")
        if not isinstance(value, list) or not value:
            raise self.wrong(name, f"Tables headed [[{name}]] were expected.")
        return value

    def finish(self) -> None:
        """Refuse names that nobody asked for, since each is a slip."""
        for name in self._left:
            raise self.wrong(
                name, f"{inert(name, 40)} is not known here; look at the other files for the names."
            )

    def wrong(self, name: str, sentence: str) -> DescriptionError:
        """Return the error for one name, with its line."""
        return DescriptionError(self._name, self._lines.get(name, self._start), sentence)

    def _take(self, name: str, default: object, expected: str) -> object:
        value = self._left.pop(name, default)
        if value is None:
            for slip in get_close_matches(name, self._left, 1, _ALIKE):
                raise self.wrong(slip, f"{inert(slip, 40)} is not known here; {name} was expected.")
            raise self.wrong(name, f"{expected} was expected as {name}; it is missing.")
        return value


def _lines(text: str, table: int) -> tuple[int, dict[str, int]]:
    """Return the line on which a table begins and those of its names."""
    at, start, lines = -1, 1, {}
    for number, line in enumerate(text.splitlines(), 1):
        if _HEADER.match(line):
            at += 1
            start = number if at == table else start
        elif at == table and (found := _NAME.match(line)):
            lines[found[1]] = number
    return start, lines
