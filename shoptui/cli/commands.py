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
        "hardware",
        "hardware.hardware",
        "bolts and other hardware against what the parts not installed still need, and what to buy",
        (
            BUILD,
            typed("--short", action="store_true", help="only what is to be bought"),
            in_format("csv", "json"),
        ),
    ),
    Command(
        "readings",
        "torque_record.readings",
        "the torque record: every joint of what is on, its sheet and its readings",
        (
            BUILD,
            typed("--open", action="store_true", help="only what is open, or due to be checked again"),
            in_format("md", "csv", "json"),
        ),
    ),
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
    Command(
        "torque",
        "fasteners.torque",
        "preload and torque of a bolt by its strength, never for a joint that has a sheet",
        (
            typed("fastener", metavar="FASTENER", help='such as "M10x1.25 10.9" or "3/8-16 grade 8"'),
            typed("--oiled", action="store_true", help="oiled threads; else dry ones are assumed"),
            typed("--nut-factor", metavar="K", help="nut factor of the short form"),
            typed("--friction", metavar="THREAD,HEAD", help="frictions of the long form"),
            typed("--utilisation", metavar="FRACTION", help="aim at this much of yield, twist counted"),
            typed("--proof", metavar="FRACTION", help="aim at this much of the proof load, else 0.75"),
            typed("--grip", metavar="LENGTH", help="what it goes through: how far it engages, 22 or 7/8in"),
            typed(
                "--into", metavar="MATERIAL", help="steel, cast iron, brass, aluminium, zinc, plastic, or nut"
            ),
            typed("--hole", metavar="LENGTH", help="full thread of a blind hole, else it goes through"),
            typed("--spacer", metavar="LENGTH", help="a spacer that is added to the grip"),
            typed("--washers", metavar="N", help='how many; with another thickness "2 3.5"'),
            JSON,
        ),
    ),
    Command(
        "convert",
        "fasteners.convert",
        "a torque in another unit: N m, lbf ft, lbf in, kgf m, kgf cm, ozf in, daN m, mN m",
        (
            typed("value", metavar="VALUE"),
            typed("source", metavar="UNIT", help='its unit, such as "lbf ft"'),
            typed("target", metavar="UNIT", help='the unit wanted, such as "N m"'),
        ),
    ),
    Command(
        "wrench",
        "fasteners.wrench",
        "what to set a torque wrench to that has an extension at its drive",
        (
            typed("--setting", required=True, metavar="TORQUE", help="torque at the fastener"),
            typed("--unit", required=True, metavar="UNIT", help="its unit, and that of the scale"),
            typed(
                "--length",
                required=True,
                metavar="LENGTH",
                help="middle of the grip to the drive: 400, 400mm, 16 in",
            ),
            typed("--extension", required=True, metavar="LENGTH", help="drive to the fastener"),
            typed("--angle", default="0", metavar="DEGREES", help="0 straight on, 90 square, 180 back"),
            JSON,
        ),
    ),
    Command("undo", "ask.undo", "take back the last thing done at this terminal"),
    Command("check", "ask.check", "the whole store's problems"),
)
"""In the order in which the help lists them."""
