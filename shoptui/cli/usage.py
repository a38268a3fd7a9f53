"""The arguments: what can be typed after `shoptui`."""

import argparse
import sys
from collections.abc import Callable
from datetime import datetime, time
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from shoptui.domain.cells import YEARS
from shoptui.domain.inert import inert

if TYPE_CHECKING:
    from _typeshed import SupportsWrite

Command = Callable[[argparse.Namespace], int]
"""Does the job; returns the exit code."""

_AT = "shoptui.cli."
"""Commands are named here and imported when they are run: most need little of the program."""


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
    return _parser().parse_args(arguments)


def command(arguments: argparse.Namespace) -> Command:
    """Return the command that the arguments name."""
    module, name = arguments.run.rsplit(".", 1)
    run: Command = getattr(import_module(_AT + module), name)
    return run


def _parser() -> argparse.ArgumentParser:
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
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", parser_class=_Parser)
    _making(commands)
    _scanning(commands)
    _reports(commands)
    return parser


def _making(commands: "argparse._SubParsersAction[_Parser]") -> None:
    demo = _add(commands, "demo", "open the screens on an invented shop, in a copy that is thrown away")
    demo.add_argument("--keep", type=Path, metavar="DIR", help="keep the copy in this folder")
    demo.set_defaults(run="screens.demo")
    new = _add(commands, "new", "make a shop in a folder")
    new.add_argument("folder", type=Path, metavar="DIR")
    new.add_argument("--sample", action="store_true", help="the invented shop instead of an empty one")
    new.set_defaults(run="making.new")
    imports = _add(commands, "import", "take in files").add_subparsers(
        title="what", metavar="shop|parts|orders", required=True, parser_class=_Parser
    )
    shop = _add(imports, "shop", "builds, people, suppliers, bins, filming days, from TOML")
    parts = _add(imports, "parts", "a build's list, from CSV")
    parts.add_argument("--build", required=True, metavar="CODE")
    orders = _add(imports, "orders", "orders and their boxes, from CSV")
    for each, run in (
        (shop, "making.take_shop"),
        (parts, "making.take_parts"),
        (orders, "making.take_orders"),
    ):
        each.add_argument("file", type=Path, metavar="FILE")
        each.set_defaults(run=run)


def _scanning(commands: "argparse._SubParsersAction[_Parser]") -> None:
    scan = _add(commands, "scan", "take each line of standard input as one scan")
    scan.add_argument("--station", required=True, choices=("receiving", "lift", "racks"))
    scan.add_argument("--build", default="", metavar="CODE")
    scan.add_argument("--who", default="", metavar="BADGE")
    scan.add_argument("--json", action="store_true", help="one JSON object a line")
    scan.set_defaults(run="scanning.scan")


def _reports(commands: "argparse._SubParsersAction[_Parser]") -> None:
    boxes = _add(commands, "boxes", "boxes with what should be in them and what came")
    boxes.add_argument("--open", action="store_true", help="only those that are not closed")
    boxes.set_defaults(run="report.boxes")
    parts = _add(commands, "parts", "the list, with how many are where")
    parts.add_argument("--build", default="", metavar="CODE")
    parts.set_defaults(run="report.parts")
    missing = _add(commands, "missing", "what is missing before a filming day")
    missing.add_argument("--shoot", default="next", metavar="CODE|next")
    missing.set_defaults(run="ask.missing")
    for each in (boxes, parts):
        each.add_argument("--format", default="text", choices=("text", "csv", "json"))
    missing.add_argument("--format", default="text", choices=("text", "md", "csv", "json"))
    where = _add(commands, "where", "where is it? by a code, or by words")
    where.add_argument("words", nargs="+", metavar="WORDS|CODE")
    where.set_defaults(run="ask.where")
    history = _add(commands, "history", "what happened to a part")
    history.add_argument("code", metavar="CODE")
    history.set_defaults(run="ask.history")
    _add(commands, "undo", "take back the last thing done at this terminal").set_defaults(run="ask.undo")
    _add(commands, "check", "the whole store's problems").set_defaults(run="ask.check")


def _add(commands: "argparse._SubParsersAction[_Parser]", name: str, words: str) -> _Parser:
    return commands.add_parser(
        name, help=words, description=f"{words[0].upper()}{words[1:]}.", allow_abbrev=False
    )


def moment(text: str) -> datetime:
    """Return a moment from ISO 8601; without an offset it is local time, a day alone is its noon.

    Years beyond a person's life are a slip, and near the ends of the calendar no day can be counted on.

    >>> moment("2026-11-04T09:30:00Z").isoformat(), moment("2026-11-04").hour
    ('2026-11-04T09:30:00+00:00', 12)
    """
    try:
        when = datetime.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(
            f"a moment such as 2026-11-04T09:30 was expected, not {inert(text)}"
        ) from None
    if when.year not in YEARS:
        raise argparse.ArgumentTypeError(
            f"a moment from {YEARS[0]} to {YEARS[-1]} was expected, not {inert(text)}"
        )
    if "T" not in text.upper() and " " not in text.strip():
        when = datetime.combine(when.date(), time(12))
    return when if when.tzinfo else when.astimezone()
