"""Tags that stand for a word: commands and positions. They are data, so that a shop can print its own page."""

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal

from shoptui.domain.tags import Kind, Tag


@dataclass(frozen=True, slots=True)
class CommandTag:
    """One such tag.

    Args:
        code: Seven characters, without dash.
        word: What it says to the program: `yes`, `undo`, `LF`.
        kind: Whether it is a command or a position on the vehicle.
        words: What a person reads below it.

    """

    code: str
    word: str
    kind: Literal["command", "position"]
    words: str


@cache
def command_tags() -> dict[str, CommandTag]:
    """Return code to tag, in the order in which they are printed.

    Raises:
        ValueError: The file that came with the program is damaged.

    >>> command_tags()["KYES22M"].word
    'yes'

    """
    text = (files("shoptui") / "data" / "labels" / "command_tags.toml").read_text(encoding="utf-8")
    found: dict[str, CommandTag] = {}
    for values in tomllib.loads(text)["tags"]:
        tag = Tag.parse(values["code"])
        if tag.kind is not Kind.COMMAND or values["kind"] not in {"command", "position"} or str(tag) in found:
            raise ValueError(
                f"labels/command_tags.toml: {values['code']} is no command tag, or stands twice."
            )
        found[str(tag)] = CommandTag(str(tag), values["word"], values["kind"], values["words"])
    return found
