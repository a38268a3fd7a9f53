"""The words of the help pages."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Page:
    """Help for one station.

    Args:
        about: What the station is for, one or two sentences.
        scans: What is scanned, and what that does here.
        keys: Keys of this station: the name of what has a key (`receiving.close`), or a key that is the same
            everywhere; what is not named here follows in the words of its binding.

    """

    about: str
    scans: tuple[tuple[str, str], ...]
    keys: tuple[tuple[str, str], ...] = ()


_TAGS = ("undo, yes, no", "the command tags do the same as the keys")
_PRINT = ("print", "prints the labels that things lack, of all kinds, and asks how they came out")
_BADGE = ("a badge", "says who is at this terminal")
_VEHICLE = ("a vehicle", "sets this terminal's build")
_UNKNOWN = ("a new code", "is learned for the part whose own tag is scanned next")

_ELSEWHERE = (
    ("a box", "opens it at Receiving: its tag, a tracking number or an order number"),
    ("a part", "shows its card"),
    ("a bin or bag", "shows what is in it"),
    ("a blank tag", "asks what it is stuck on; a bin's or a bag's asks whether it is a new one"),
    _UNKNOWN,
    _BADGE,
    _VEHICLE,
    ("a wrench", "shows its card; once more: it was dropped, checked, or is gone"),
    ("wrench dropped", "after its scan: bars it until it is checked"),
    _PRINT,
    _TAGS,
)

PAGES: dict[str, Page] = {
    "today": Page(
        "What needs somebody now: how the next filming day stands, boxes that are due or overdue, work "
        "overdue at outside shops, what is held, soon too old, on hand and not installed, mocked up, and "
        "sponsors' parts that no shot shows.",
        _ELSEWHERE,
        (("Enter", "goes to where it is done"),),
    ),
    "receiving": Page(
        "Scan the box, scan each thing in it, scan the bin that it goes to. No key is needed. A thing "
        "without a code is received by the number of its line and Enter; where there is no such line, the "
        "number counts the next scan. Typed right before a scan, without Enter, it is always a count.",
        (
            ("a box", "opens it: its tag, a tracking number or an order number"),
            ("a part", "receives one of it from the open box; with a number typed before it, that many"),
            ("a bin or bag", "puts away what was scanned since the last bin"),
            (
                "a blank tag",
                "stands for the thing received last, if no printed code does; else asks for what",
            ),
            (
                "a new code",
                "with a box open: the number of its row and Enter receives it and learns the code",
            ),
            ("a kit", "receives all that is in it; the number of a line leaves that out, it stays ordered"),
            ("damaged", "the last thing is held; words typed next are a note, or a photo's path"),
            ("wrong, over", "likewise"),
            ("substitute", "something came instead of a line: held until the lead accepts it on Parts"),
            ("short", "the rest did not come: it stays ordered, or the supplier will not send it"),
            ("done", "closes the box and says what is still to come"),
            ("print", "prints the labels that the open box, its parts and their bins lack"),
            _BADGE,
            _VEHICLE,
            _TAGS,
        ),
        (
            ("Enter", "opens the box of the row; in a box, receives one of the row"),
            ("receiving.amiss", "asks what is amiss; each answer has a key of its own too"),
            ("receiving.slip", "what the packing slip says is in the box; without one, what is ordered is"),
            ("receiving.file", "keeps a photo or a file with the row"),
            ("receiving.close", "closes the box"),
            ("receiving.boxes", "shows all boxes, or the open one again"),
            ("Escape", "from the open box to all boxes; it stays open"),
        ),
    ),
    "lift": Page(
        "Scan a part that goes on: its card says what must be on first and whether it is here. Enter, or a "
        "position, installs it. Scan a part that is on: its card removes it, into the bin or bag scanned. "
        "An original that no list has comes off by its words: type one or more, then Enter. For trial, or "
        "into another part: the tag “mock up” or “assemble” turns the card.",
        (
            ("a part", "shows its install card while any is here, else its remove card"),
            ("a position", "says where on the vehicle: LF, RF, LR, RR, front, rear, left, right"),
            (" ", "with no part in hand: what is on there, and what is still to go on"),
            (" ", "after install, remove, mock up, tighten: which part there is meant"),
            ("a bin or bag", "says where removed things go; after a part came off, a bag takes its hardware"),
            (" ", "a bag with a part's hardware in it brings that part's card back"),
            ("install", "turns to the install card of the part in hand; with none, of the next one"),
            ("mock up", "likewise: it goes on for trial, is taken down or installed for good later"),
            ("remove", "likewise: it comes off, is taken down, or comes out of what carries it"),
            (" ", "before a code that nobody knows: an original that no list has came off"),
            ("tighten", "turns to its joints; a part that is on with one open or due turns so by itself"),
            ("a wrench", "takes it in hand for the readings; once more: it was dropped, or checked"),
            ("wrench dropped", "bars the one in hand until it is checked"),
            ("assemble", "likewise: the next scan is the part that it is built into"),
            ("done", "lays the card aside"),
            _UNKNOWN,
            _PRINT,
            _BADGE,
            _VEHICLE,
            _TAGS,
        ),
        (
            ("Enter", "takes the part of the row in hand; then does what its card asks"),
            ("lift.install", "the install card of the part under the cursor"),
            ("lift.tighten", "its joints: what is open; Enter: all as the sheet says, or type what it was"),
            (" ", "of a part that is done: loosens one, the part stays on; or the next of the vehicle"),
            (" ", "ext 60 45 typed: what to set with an extension of 60 mm at 45 degrees; ext 0: off"),
            (" ", "with an extension values are typed as they are at the bolt"),
            (" ", "outside its sheet it stays open; “accept” by its number: a reason, somebody else's badge"),
            ("lift.remove", "its remove card: off, down from a trial fit, or out of its carrier"),
            ("lift.mock_up", "its card for a trial fit"),
            ("lift.assemble", "builds it into the part scanned next"),
            ("lift.next", "what becomes of it: back to stock, core, something taken out of it, gone"),
            ("Escape", "drops the question (a value: back to its joint), then lays the card aside"),
        ),
    ),
    "filming": Page(
        "Each line is a part that is not as a shot needs it: whether it can be in time, why, who acts next. "
        "The day shown first is the next one with a shot not filmed yet. Until a shot is marked filmed, "
        "whoever would change what it needs is asked first. Where the vehicle moves, what is mocked up on "
        "it stands first; whether it may move so is for the person in charge to decide.",
        _ELSEWHERE,
        (
            ("Enter", "shows the whole line; once more shows the part"),
            ("filming.filmed", "says which shot was filmed, or was not after all, or that the day is off"),
            ("filming.shots", "the shots of the day, their parts and how each stands; or the line again"),
            ("filming.change", "changes the day: when it is, its shots, what each needs"),
            (" ", "a day that is moved says what is no longer in time for it"),
            ("filming.add", "writes down a new day"),
            ("filming.next", "the filming day after this one, then the first; the arrows go both ways"),
            ("filming.part", "the part's own card"),
            ("Escape", "from the card to the list, from another day to the next one"),
        ),
    ),
    "racks": Page(
        "Every bin, drawer and bag and what is in it. Type words to find where something is; scan a thing, "
        "then a bin, and it is put there.",
        (
            ("a part", "shows where it is; scan a bin next, and it is put there"),
            ("a bin or bag", "shows what is in it; while another is counted, compares that one first"),
            ("count", "counts the bin that is shown: each part that is scanned; a kit counts as its parts"),
            ("done", "compares the count with the books, and enters it after a yes, or puts it aside"),
            *(row for row in _ELSEWHERE if row[0] not in ("a part", "a bin or bag")),
        ),
        (
            ("Enter", "shows what is in the bin; there, the part's card; in a count, asks how many"),
            ("racks.count", "counts the bin; while it is counted, compares"),
            ("racks.move", "moves all in the bin into another; so do the words “move all” after a bin"),
            ("racks.new", "makes a bin, a drawer or a bag"),
            ("racks.edit", "renames the bin, or says where it stands now"),
            ("racks.withdraw", "takes the empty bin off the list"),
            ("racks.rows", "makes all bins of a rack: “rack 3, A to F, 1 to 8”; then prints their labels"),
            ("racks.print", "prints the label of the bin, of all on the list, or of all that lack one"),
            ("racks.look", "shows the label and its tag, which can be scanned off the glass"),
            ("undo", "in a count, takes back what was counted last"),
            ("Escape", "from the card to the bin, from the bin to all bins; what was counted is kept"),
        ),
    ),
    "hardware": Page(
        "Bolts, nuts and all that is counted by the piece: how many are new, how many came off, what the "
        "parts that are not installed still need, and what to buy in whole packs. Where parts go on they "
        "take theirs from stock; where parts come off, theirs go into a bag.",
        (
            ("a part", "shows its card; a kind of hardware is shown here"),
            ("a bin or bag", "shows what is in it, where it can be counted"),
            *(row for row in _ELSEWHERE if row[0] not in ("a part", "a bin or bag")),
        ),
        (
            ("Enter", "shows the card: what takes it, where it lies, what happened to it"),
            ("hardware.to_buy", "only what is to be bought; once more: all"),
            ("hardware.order", "orders what is short, to the nearest pack"),
            ("hardware.count", "counts the drawer that most of it lies in"),
            (
                "hardware.print",
                "prints its label for the drawer, those of all listed, or of all that lack one",
            ),
            ("hardware.look", "shows the label and its tag, which can be scanned off the glass"),
            ("hardware.next", "what becomes of it: return to stock, cancel, gone"),
            (" ", "with a number typed before it: of that many pieces"),
            ("hardware.edit", "changes what is known of it: designation, minimum, pack"),
            ("hardware.new", "writes down a kind of hardware"),
            ("Escape", "from the card to the list"),
        ),
    ),
    "parts": Page(
        "The whole list of this terminal's build: how many are needed, still to order, and where the others "
        "are. A part's card has its whole history.",
        _ELSEWHERE,
        (
            ("Enter", "shows the part's card"),
            ("parts.order", "orders the part"),
            ("parts.send_out", "sends it to an outside shop"),
            ("parts.next", "what becomes of it: unpack, hold, release, take back, cancel, gone"),
            (" ", "sealed is packed as it came; held counts for nothing until it is released or accepted"),
            (" ", "with a number typed before it: of that many pieces"),
            ("parts.print", "prints its label, those of all on the list, or of all that lack one"),
            ("parts.look", "shows the label and its tag, which can be scanned off the glass"),
            ("parts.edit", "changes what the list says of the part, its kit and order of work too"),
            (" ", "a joint's last field is for what its bolts go through and into, if somebody measured"),
            ("parts.add", "adds a part that has no code"),
            ("parts.orders", "all orders, the part's last one first: lines, days, what they cost beside"),
            ("parts.copy", "copies lines from another build's list"),
            ("parts.file", "keeps a photo or a file with the part, such as the sheet that its joints name"),
            ("Escape", "from the card to the list"),
        ),
    ),
    "setup": Page(
        "This terminal's build; all builds, suppliers, people, wrenches and orders, each with a form; what "
        "the scanner sends, codes that the program did not know, colours, and whether the store is sound.",
        _ELSEWHERE,
        (
            ("Enter", "does what the line says; in a list of records, opens the form of the row"),
            (" ", "there the keys at the foot make a new one and show its card: who changed what"),
            (" ", "they print badges, and labels of vehicles and wrenches, or show them on the glass"),
            ("setup.labels", "what lacks a label, blank tags, the page of commands; the printers"),
            ("setup.check", "checks the whole store"),
            ("setup.scanner", "shows what the scanner sends"),
            ("Escape", "from the card to the lines"),
        ),
    ),
}

EVERYWHERE: tuple[tuple[str, str], ...] = (
    ("words", "narrow the list; Enter opens the first match"),
    (
        "number, Enter",
        "is that row; where there is no such row, it counts the next scan; with a question open, that answer",
    ),
    ("number, scan", "typed right before a scan, without Enter, it is always a count"),
    ("Enter", "with a question open: yes. The same scan again says yes too, where nothing speaks against it"),
    ("Escape", "goes one step back; nothing typed is lost without asking"),
    ("help", "this page; so does ? and Enter"),
    ("stations", "have their keys at the foot of the screen; keys can be changed in Set-up (F12)"),
    ("undo", "takes back the last thing done at this terminal; in a form, the last typing"),
    ("more", "finds every station and everything that can be done here"),
    ("earlier", "shows the last twenty answers"),
    ("Tab", "goes to the next field, list, card or question; the arrows work in it"),
    ("leave", "asks, then leaves; everything is saved already. So does another key (Ctrl+C)"),
    (
        "mouse, finger",
        "a tap points at a row, a second opens it; keys and stations can be tapped, the line too: digits",
    ),
)
"""What is the same at every station, as the rows of a page."""
