"""Which keys do what at this moment: the usual ones, and what a person of this machine has put elsewhere.

The person's own are kept in a file, which may be written by hand:

    "lift.install" = "Ctrl+L"
    "undo" = ["Ctrl+Z", "F7"]
"""

import os
import re
import tomllib
from collections.abc import Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

from shoptui.domain.inert import inert
from shoptui.stations.actions import Action, Keys, clash, edits_fields
from shoptui.stations.key_names import key_mark, key_named, key_words, why_not
from shoptui.stations.scanner import PREFIX

LARGEST = 100_000
"""Bytes of the largest file that is read; one that changes everything has some 3,000."""

HEAD = "# What is done, and its key: F1 to F12, or Ctrl with a letter. What is not here has its usual one.\n"


class KeyFileError(ValueError):
    """A file of keys that cannot be followed; the words name its line."""


class Keyboard:
    """The keys of one person of the machine.

    Args:
        actions: Everything that has a key.
        file: Where the person's own keys are kept; None keeps them until the program is closed.
        prefix: The key that the scanner sends first.

    """

    def __init__(self, actions: tuple[Action, ...], file: Path | None = None, prefix: str = PREFIX) -> None:
        self.actions = {action.name: action for action in actions}
        self.prefix = prefix
        self.file = file
        self.trouble = ""
        """What is wrong with the file; its keys are then the usual ones."""
        self._chosen: dict[str, Keys] = {}
        try:
            self._chosen = self._read()
        except KeyFileError as error:
            self.trouble = str(error)

    # What is

    @property
    def keymap(self) -> dict[str, str]:
        """What is not usual, as Textual's application wants it."""
        return {name: ",".join(keys) for name, keys in self._chosen.items()}

    @property
    def changed(self) -> int:
        """How many actions do not have their usual keys."""
        return len(self._chosen)

    def keys(self, name: str) -> Keys:
        """Return the keys of an action."""
        return self._chosen.get(name, self.actions[name].usual)

    def words(self, name: str) -> str:
        """Return the keys of an action as sentences call them."""
        return ", ".join(map(key_words, self.keys(name)))

    def mark(self, name: str) -> str:
        """Return the first key of an action as rows of keys show it."""
        return key_mark(self.keys(name)[0])

    def is_usual(self, name: str) -> bool:
        """Return whether nobody changed an action's keys."""
        return self.keys(name) == self.actions[name].usual

    def follow(self, text: str, place: str = "") -> str:
        """Return a sentence with the keys as they are now.

        Sentences name the usual key in brackets, `Receiving (F3)`, since what says them knows no keyboard.

        Args:
            text: The sentence.
            place: The station in front, whose own keys may be named as well.

        """
        if not self._chosen or "(" not in text:
            return text
        return _NAMED.sub(lambda found: f"({self._now(found[1], place)})", text)

    def _now(self, words: str, place: str) -> str:
        usual = key_named(words)
        for action in self.actions.values():
            if usual in action.usual and action.place in ("everywhere", place):
                return key_words(self.keys(action.name)[0])
        return words

    # What changes

    def refusal(self, name: str, key: str) -> str:
        """Say why an action cannot get a key, in a sentence; empty where it can."""
        return self._refusal(self.actions[name], key, self._chosen)

    def _refusal(self, action: Action, key: str, chosen: Mapping[str, Keys]) -> str:
        called = inert(key_words(key), 40)
        if reason := why_not(key, self.prefix):
            return f"{called} cannot be chosen: {reason}."
        if edits_fields(action, key):
            return f"{called} cannot be chosen here: it edits the words of the field in front."
        if other := clash(action, key, self.actions.values(), chosen):
            return f"{called} is “{other.words}” ({other.place_words}) already. Give that another key first."
        return ""

    def change(self, name: str, key: str) -> None:
        """Give an action a key, instead of those that it has.

        Raises:
            ValueError: It cannot have it; the words say why.
            OSError: The file cannot be written; nothing changed.

        """
        if refusal := self.refusal(name, key):
            raise ValueError(refusal)
        chosen = {**self._chosen, name: (key,)}
        if self.actions[name].usual == (key,):
            del chosen[name]
        self._keep(chosen)

    def restore(self) -> None:
        """Give every action its usual keys.

        Raises:
            OSError: The file cannot be written; nothing changed.

        """
        self._keep({})

    def _keep(self, chosen: dict[str, Keys]) -> None:
        if self.file is not None:
            self.file.parent.mkdir(parents=True, exist_ok=True)
            beside = self.file.with_name(f"{self.file.name}.{os.getpid()}")
            try:
                beside.write_text(HEAD + "".join(map(_line, chosen.items())), encoding="utf-8")
                beside.replace(self.file)
            except OSError:
                with suppress(OSError):
                    beside.unlink()
                raise
        self._chosen = chosen
        self.trouble = ""

    # The file

    def _read(self) -> dict[str, Keys]:
        text = self._text()
        try:
            found = dict(_flat(tomllib.loads(text)))
        except (tomllib.TOMLDecodeError, RecursionError) as error:
            raise self._wrong("", text, f"TOML was expected ({inert(str(error), 120)})") from error
        chosen: dict[str, Keys] = {}
        for name, value in found.items():
            if name not in self.actions:
                raise self._wrong(name, text, f"nothing is called {inert(name, 40)}")
            written = value if isinstance(value, list) else [value]
            if not written or not all(isinstance(each, str) for each in written):
                raise self._wrong(name, text, 'a key such as "Ctrl+G" was expected')
            chosen[name] = tuple(dict.fromkeys(map(key_named, written)))
        for name, keys in chosen.items():
            for key in keys:
                if refusal := self._refusal(self.actions[name], key, chosen):
                    raise self._wrong(name, text, refusal.rstrip("."))
        return chosen

    def _text(self) -> str:
        if self.file is None:
            return ""
        try:
            if self.file.stat().st_size > LARGEST:
                raise self._wrong("", "", f"at most {LARGEST // 1000} kB were expected")
            return self.file.read_text(encoding="utf-8")
        except FileNotFoundError:
            return ""
        except OSError as error:
            reason = (error.strerror or "unknown reason").lower()
            raise self._wrong("", "", f"it cannot be read, {reason}") from error
        except UnicodeDecodeError as error:
            raise self._wrong("", "", "UTF-8 was expected") from error

    def _wrong(self, name: str, text: str, what: str) -> KeyFileError:
        line = _line_of(name, text)
        where = f", line {line}" if line else ""
        called = inert(self.file.name if self.file else "keys", 60)
        return KeyFileError(f"The keys are the usual ones, since {called} is wrong{where}: {what}.")


_NAMED = re.compile(r"\((F\d{1,2}|Ctrl\+[A-Z])\)")


def _flat(table: Mapping[str, Any], before: str = "") -> Iterator[tuple[str, Any]]:
    """Yield names and values; without quotes, TOML takes a name with a point for a table within a table."""
    for name, value in table.items():
        if isinstance(value, dict):
            yield from _flat(value, f"{before}{name}.")
        else:
            yield f"{before}{name}", value


def _line(chosen: tuple[str, Keys]) -> str:
    name, keys = chosen
    words = ", ".join(f'"{key_words(key)}"' for key in keys)
    return f'"{name}" = [{words}]\n' if len(keys) > 1 else f'"{name}" = {words}\n'


def _line_of(name: str, text: str) -> int:
    """Return the line of a name in the file, 0 if it cannot be told."""
    for part in dict.fromkeys((name, name.rpartition(".")[2])):
        for number, line in enumerate(text.splitlines(), 1):
            if part and re.match(rf'\s*["\']?{re.escape(part)}["\']?\s*=', line):
                return number
    return 0
