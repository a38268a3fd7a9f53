"""The arguments: the table of commands made into a parser that says in one sentence what is wrong."""

import argparse
import sys
from collections.abc import Callable
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from shoptui.cli.commands import COMMANDS
from shoptui.cli.readings import moment
from shoptui.domain.inert import inert

if TYPE_CHECKING:
    from _typeshed import SupportsWrite

Run = Callable[[argparse.Namespace], int]
"""Does the job; returns the exit code."""

_AT = "shoptui.cli."


class UsageError(ValueError):
    """Wrong arguments; the words say what was expected."""


class _Parser(argparse.ArgumentParser):
    """Says what is wrong in one sentence."""

    def error(self, message: str) -> NoReturn:
        raise UsageError(f"{self.prog}: {inert(message, 400)}. See {self.prog} --help.")

    def print_help(self, file: "SupportsWrite[str] | None" = None) -> None:
        """Print the help; unlike its elder it lets a failure to write be known."""
        (file or sys.stdout).write(self.format_help())


def parse(arguments: list[str] | None) -> argparse.Namespace:
    """Return the arguments; `run` in them names the command, see `command`.

    Raises:
        UsageError: They are wrong.

    """
    words = sys.argv[1:] if arguments is None else arguments
    return _parser(frozenset(words)).parse_args(words)


def command(arguments: argparse.Namespace) -> Run:
    """Return the command that the arguments name."""
    module, name = arguments.run.rsplit(".", 1)
    run: Run = getattr(import_module(_AT + module), name)
    return run


def _parser(words: frozenset[str]) -> argparse.ArgumentParser:
    """Return the parser; only commands among the words get their arguments, since making them takes time."""
    parser = _Parser(
        prog="shoptui",
        description="Tracks every part of a filmed vehicle build. Without a command it opens the screens.",
        allow_abbrev=False,
    )
    parser.add_argument("--store", type=Path, metavar="DIR", help="the shop's folder (else SHOPTUI_STORE)")
    parser.add_argument("--now", type=moment, metavar="WHEN", help="take this ISO 8601 moment for now")
    parser.add_argument("--terminal", metavar="NAME", help="name of this terminal (else SHOPTUI_TERMINAL)")
    parser.add_argument("--version", action="store_true", help="print the version")
    parser.set_defaults(run="screens.open_screens")
    groups = {"": parser.add_subparsers(title="commands", metavar="COMMAND", parser_class=_Parser)}
    for each in COMMANDS:
        group, _, name = each.name.rpartition(" ")
        sentence = f"{each.words[0].upper()}{each.words[1:]}."
        made = groups[group].add_parser(name, help=each.words, description=sentence, allow_abbrev=False)
        if not each.run:
            seconds = "|".join(
                other.name.removeprefix(f"{name} ") for other in COMMANDS if other.name.startswith(f"{name} ")
            )
            groups[name] = made.add_subparsers(
                title="what", metavar=seconds, required=True, parser_class=_Parser
            )
            continue
        for argument in each.arguments if name in words else ():
            made.add_argument(*argument.names, **argument.options)
        made.set_defaults(run=each.run)
    return parser
