"""All that can be typed after `shoptui`: one table, from which the parser and its help are made."""

from pathlib import Path

from shoptui.cli.command import BUILD, JSON, WHO, Command, in_format, typed
from shoptui.cli.deed_commands import DEEDS
from shoptui.cli.label_commands import LABELS

FILE = typed("file", type=Path, metavar="FILE")

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
    *DEEDS,
    *LABELS,
    Command(
        "boxes",
        "report.boxes",
        "boxes with what should be in them and what came",
        (
            typed("--open", action="store_true", help="only those that are not closed"),
            in_format("csv", "json"),
        ),
    ),
    Command("parts", "report.parts", "the list, with how many are where", (BUILD, in_format("csv", "json"))),
    Command(
        "missing",
        "ask.missing",
        "what is missing before a filming day",
        (typed("--shoot", default="next", metavar="CODE|next"), in_format("md", "csv", "json")),
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
