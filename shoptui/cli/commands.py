"""All that can be typed after `shoptui`: one table, from which the parser and its help are made."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from shoptui.cli.readings import number, pieces, whole_day


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


def _format(*names: str) -> Typed:
    return typed("--format", default="text", choices=("text", *names))


BUILD = typed("--build", default="", metavar="CODE", help="vehicle whose list is meant")
WHO = typed("--who", default="", metavar="BADGE", help="who does it")
JSON = typed("--json", action="store_true", help="the answer as one JSON object a line")
CODE = typed("code", metavar="CODE", help="any code of the part: tag, short name, GTIN, maker's number")
QTY = typed("--qty", type=pieces, default=1, metavar="N", help="pieces (1)")
DUE = typed("--due", type=whole_day, metavar="DAY", help="day it is expected: 2026-11-30")
NUMBER = typed("--number", default="", metavar="NUMBER", help="their order or job number")
FILE = typed("file", type=Path, metavar="FILE")
ANSWERED = (
    typed("--yes", action="store_true", help="answer what is asked with yes; without it nothing changes"),
    BUILD,
    WHO,
    JSON,
)
"""What all deeds take."""

COMMANDS = (
    Command(
        "demo",
        "screens.demo",
        "open the screens on an invented shop, in a copy that is thrown away",
        (typed("--keep", type=Path, metavar="DIR", help="keep the copy in this folder"),),
    ),
    Command(
        "new",
        "making.new",
        "make a shop in a folder",
        (
            typed("folder", type=Path, metavar="DIR"),
            typed("--sample", action="store_true", help="the invented shop instead of an empty one"),
        ),
    ),
    Command("import", "", "take in files"),
    Command(
        "import shop",
        "making.take_shop",
        "builds, people, suppliers, bins, filming days, from TOML",
        (FILE,),
    ),
    Command(
        "import parts",
        "making.take_parts",
        "a build's list, from CSV",
        (typed("--build", required=True, metavar="CODE"), FILE),
    ),
    Command("import orders", "making.take_orders", "orders and their boxes, from CSV", (FILE,)),
    Command(
        "scan",
        "scanning.scan",
        "take each line of standard input as one scan",
        (
            typed("--station", required=True, choices=("receiving", "lift", "racks")),
            BUILD,
            WHO,
            JSON,
        ),
    ),
    Command(
        "order",
        "deeds.order",
        "order pieces of a part",
        (
            CODE,
            QTY,
            typed(
                "--from",
                dest="supplier",
                required=True,
                metavar="SUPPLIER",
                help="their code or name",
            ),
            NUMBER,
            DUE,
            typed("--price", default="", metavar="TOTAL", help="what all of them cost together: 129.90"),
            *ANSWERED,
        ),
    ),
    Command(
        "send-out",
        "deeds.send_out",
        "send pieces out for paint, coating, machining",
        (
            CODE,
            QTY,
            typed("--to", required=True, metavar="SHOP", help="the outside shop's code or name"),
            typed("--work", default="", metavar="WORD", help="painted, coated... (the part's next work)"),
            NUMBER,
            DUE,
            *ANSWERED,
        ),
    ),
    Command(
        "take-back",
        "deeds.take_back",
        "take pieces back from an outside shop, the work done",
        (
            CODE,
            QTY,
            typed("--job", default="", metavar="NUMBER", help="which job, where it is out on several"),
            typed("--as-it-went", action="store_true", help="the work was not done"),
            *ANSWERED,
        ),
    ),
    Command(
        "dispose",
        "deeds.dispose",
        "let pieces go for good",
        (
            CODE,
            QTY,
            typed("--reason", required=True, metavar="WORD", help="returned, sold, scrapped, lost..."),
            typed("--no-longer-needed", action="store_true", help="they are not to be ordered again"),
            typed("--note", default="", metavar="WORDS"),
            *ANSWERED,
        ),
    ),
    Command(
        "filmed",
        "deeds.filmed",
        "mark a shot filmed, or a whole day",
        (
            typed("day", metavar="DAY", help="code of the filming day, or next"),
            typed("shot", nargs="?", type=number, metavar="SHOT", help="its number (all of the day)"),
            typed("--not", dest="not_filmed", action="store_true", help="it is to be filmed again"),
            *ANSWERED,
        ),
    ),
    Command(
        "boxes",
        "report.boxes",
        "boxes with what should be in them and what came",
        (
            typed("--open", action="store_true", help="only those that are not closed"),
            _format("csv", "json"),
        ),
    ),
    Command("parts", "report.parts", "the list, with how many are where", (BUILD, _format("csv", "json"))),
    Command(
        "missing",
        "ask.missing",
        "what is missing before a filming day",
        (typed("--shoot", default="next", metavar="CODE|next"), _format("md", "csv", "json")),
    ),
    Command(
        "where",
        "ask.where",
        "where is it? by a code, or by words",
        (typed("words", nargs="+", metavar="WORDS|CODE"),),
    ),
    Command("history", "ask.history", "what happened to a part", (typed("code", metavar="CODE"),)),
    Command("undo", "ask.undo", "take back the last thing done at this terminal"),
    Command("check", "ask.check", "the whole store's problems"),
)
"""In the order in which the help lists them."""
