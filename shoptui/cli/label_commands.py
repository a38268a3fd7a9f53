"""What a script can do with labels: print them, say how they came out, look at the stock."""

from pathlib import Path

from shoptui.cli.command import Command, Typed, typed
from shoptui.cli.deed_commands import ANSWERED
from shoptui.cli.readings import millimetres, number, place

STOCK = typed("--label-stock", default="", metavar="NAME", help="what they are printed on (as last time)")
OUT = typed("--out", type=Path, metavar="FILE", help="write a file: .pdf, .svg or .png")
PRINT = typed("--print", action="store_true", help="hand them to the print queue")
QUEUE = typed("--queue", metavar="NAME", help="print on this queue (as last time, at first the usual one)")
ONTO = (
    STOCK,
    typed("--start", type=place, default=1, metavar="N", help="first free position of a half-used sheet (1)"),
    typed("--copies", type=place, default=1, metavar="N", help="of each label (1)"),
    OUT,
    PRINT,
    QUEUE,
    typed(
        "--again-from",
        type=place,
        metavar="N",
        help="print the last ones again from label N: those before it came out well",
    ),
)
"""What all that is printed takes."""

WHICH = (
    typed("codes", nargs="*", metavar="CODE", help="which (those that lack their label)"),
    typed("--unlabelled", action="store_true", help="those that are here and lack their label"),
    typed("--all", action="store_true", help="all there are, with a label or without"),
)


def _of(many: str, words: str, *arguments: Typed) -> Command:
    return Command(f"labels {many}", f"labels.{many}", words, (*WHICH, *arguments, *ONTO, *ANSWERED))


LABELS = (
    Command("labels", "", "print labels, and say whether they came out well"),
    _of(
        "bins",
        "labels of bins, and new bins in rows",
        typed("--rows", metavar="ROWS", help='make bins first: "rack 3, A to F, 1 to 8"'),
        typed("--room", default="", metavar="WORDS", help="the room in which new bins stand"),
    ),
    _of("parts", "labels of parts"),
    _of("hardware", "labels of hardware, for its drawers"),
    _of("bags", "labels of bags, with what is in them"),
    _of("boxes", "labels of boxes that came"),
    _of("vehicles", "labels of vehicles"),
    _of("wrenches", "labels of torque wrenches"),
    _of("people", "badges"),
    Command("labels commands", "labels.commands", "the page of commands and positions", (*ONTO, *ANSWERED)),
    Command(
        "labels blanks",
        "labels.blanks",
        "tags that stand for nothing until they are scanned and bound",
        (
            typed("kind", nargs="?", default="part", choices=("part", "bag", "bin"), help="what for (part)"),
            typed("--count", type=place, metavar="N", help="how many (one sheet)"),
            *ONTO,
            *ANSWERED,
        ),
    ),
    Command(
        "labels came-out",
        "labels.said",
        "say that the labels printed last came out well",
        (
            typed(
                "number", nargs="?", type=number, metavar="N", help="only labels up to N, 0 for none (all)"
            ),
            *ANSWERED,
        ),
    ),
    Command("labels lacking", "labels_shown.lacking", "what still lacks its label"),
    Command("labels stock", "labels_shown.stock", "what labels can be printed on"),
    Command(
        "labels test-page",
        "labels.test_page",
        "print a page that shows whether a printer scales, or say what was measured on it",
        (
            STOCK,
            OUT,
            PRINT,
            QUEUE,
            typed("--across", type=millimetres, metavar="MM", help="measured length of the ruler across"),
            typed("--down", type=millimetres, metavar="MM", help="measured length of the ruler down"),
            typed("--left", type=millimetres, metavar="MM", help="from the page's left edge to their zero"),
            typed("--top", type=millimetres, metavar="MM", help="from its top edge to their zero"),
            *ANSWERED,
        ),
    ),
)
"""In the order in which the help lists them."""
