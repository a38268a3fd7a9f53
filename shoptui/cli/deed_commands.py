"""What a script can do to parts, bins and shots."""

from shoptui.cli.command import BUILD, JSON, WHO, Command, typed
from shoptui.cli.readings import number, pieces, place, whole_day

CODE = typed("code", metavar="CODE", help="any code of the part: tag, short name, GTIN, maker's number")
QTY = typed("--qty", type=pieces, default=1, metavar="N", help="pieces (1)")
AT = typed("--at", metavar="POSITION", help="LF, RF, LR, RR, front... or another that the part is listed for")
INTO_BIN = typed("--to", default="", metavar="BIN", help="bin or bag it goes to (the bench)")
DUE = typed("--due", type=whole_day, metavar="DAY", help="day it is expected: 2026-11-30")
NUMBER = typed("--number", default="", metavar="NUMBER", help="their order or job number")
NO_LONGER = typed(
    "--no-longer-needed",
    action="store_const",
    const=True,
    help="they are not to be ordered again, which is asked otherwise",
)
ANSWERED = (
    typed("--yes", action="store_true", help="answer what is asked with yes; without it nothing changes"),
    typed(
        "--choose",
        type=place,
        action="append",
        default=[],
        metavar="N",
        help="answer a question that has numbered answers; may come again for the next one",
    ),
    BUILD,
    WHO,
    JSON,
)
"""What all deeds take."""

DEEDS = (
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
    Command("install", "on_vehicle.install", "install pieces on the vehicle", (CODE, QTY, AT, *ANSWERED)),
    Command(
        "remove",
        "on_vehicle.remove",
        "take pieces off the vehicle",
        (CODE, QTY, AT, INTO_BIN, *ANSWERED),
    ),
    Command(
        "loosen",
        "on_vehicle.loosen",
        "open a joint again while its part stays on",
        (
            CODE,
            AT,
            typed("--joint", default="", metavar="NAME", help="which, where several are tightened"),
            typed("--reason", default="", metavar="WORDS", help="why; it stands beside the joint"),
            *ANSWERED,
        ),
    ),
    Command("mock-up", "on_vehicle.mock_up", "put pieces on for a trial", (CODE, QTY, AT, *ANSWERED)),
    Command(
        "take-down",
        "on_vehicle.take_down",
        "take down what is mocked up, back to where it came from",
        (CODE, QTY, AT, *ANSWERED),
    ),
    Command(
        "assemble",
        "on_vehicle.assemble",
        "build pieces into another part on the bench",
        (CODE, QTY, typed("--into", required=True, metavar="CODE", help="that part"), *ANSWERED),
    ),
    Command(
        "take-apart",
        "on_vehicle.take_apart",
        "take pieces out of the part that carries them",
        (
            CODE,
            QTY,
            typed("--out-of", default="", metavar="CODE", help="which, where they are in several"),
            INTO_BIN,
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
            NO_LONGER,
            typed("--note", default="", metavar="WORDS"),
            *ANSWERED,
        ),
    ),
    Command(
        "transfer",
        "deeds.transfer",
        "give pieces to another build",
        (
            CODE,
            QTY,
            typed("--to", required=True, metavar="BUILD|stock", help="its code, or the shop's stock"),
            NO_LONGER,
            *ANSWERED,
        ),
    ),
    Command(
        "count",
        "counting.count",
        "count a bin and enter what differs from the books",
        (
            typed("bin", metavar="BIN"),
            typed(
                "things",
                nargs="*",
                metavar="CODE=QTY|-",
                help="what is in it, all of it; - reads scans from standard input, one a line",
            ),
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
)
"""In the order in which the help lists them."""
