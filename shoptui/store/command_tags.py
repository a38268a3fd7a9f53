"""Tags that stand for a word: commands and positions. They are data, so a shop can print its own page."""

from dataclasses import dataclass
from functools import cache
from typing import Literal

from shoptui.domain.tags import Kind, Tag, without_blanks_and_dashes


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

    @property
    def position(self) -> bool:
        """Whether it names a position on the vehicle."""
        return self.kind == "position"


def command_named(text: str) -> CommandTag | None:
    """Return the command or position that a scanned tag or a typed word names, None for any other text.

    >>> command_named("k-lf224y").word, command_named("lf").word, command_named("elf")
    ('LF', 'LF', None)

    """
    bare = without_blanks_and_dashes(text).upper()
    return command_tags().get(bare) or _by_word().get(text.strip().casefold())


@cache
def _by_word() -> dict[str, CommandTag]:
    return {tag.word.casefold(): tag for tag in command_tags().values()}


@cache
def command_tags() -> dict[str, CommandTag]:
    """Return code to tag, in the order in which they are printed.

    Raises:
        ValueError: The file that came with the program is damaged.

    >>> command_tags()["KYES22M"].word
    'yes'

    """
    import tomllib  # noqa: PLC0415 - reports read no tags, and need not wait for it
    from importlib.resources import files  # noqa: PLC0415 - likewise

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
