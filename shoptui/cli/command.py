"""What a command is, and the arguments that several take."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Typed:
    """One argument of a command.

    Args:
        names: As typed: `--qty`, or the name of what stands alone.
        options: What `argparse.ArgumentParser.add_argument` is told beside them.

    """

    names: tuple[str, ...]
    options: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Command:
    """One command.

    Args:
        name: As typed; two words are a command of a command.
        run: Module of `shoptui.cli` and function in it; imported when it is run, since most commands need
            little of the program. Empty where a second word has to follow.
        words: What it does, beginning small.
        arguments: What it takes.

    """

    name: str
    run: str
    words: str
    arguments: tuple[Typed, ...] = ()


def typed(*names: str, **options: Any) -> Typed:  # noqa: ANN401 - as argparse takes them
    """Return an argument."""
    return Typed(names, options)


def in_format(*names: str) -> Typed:
    """Return the argument that chooses a report's form, text where nothing is said."""
    return typed("--format", default="text", choices=("text", *names))


BUILD = typed("--build", default="", metavar="CODE", help="vehicle whose list is meant")
WHO = typed("--who", default="", metavar="BADGE", help="who does it")
JSON = typed("--json", action="store_true", help="the answer as one JSON object a line")
