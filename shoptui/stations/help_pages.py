"""The words of the help pages."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Page:
    """Help for one station.

    Args:
        about: What the station is for, one or two sentences.
        scans: What is scanned, and what that does here.
        keys: Keys of this station.

    """

    about: str
    scans: tuple[tuple[str, str], ...]
    keys: tuple[tuple[str, str], ...] = ()


_ELSEWHERE = (
    ("a box", "opens it at Receiving"),
    ("a part", "shows its card"),
    ("a bin or bag", "shows what is in it"),
    ("a badge", "says who is at this terminal"),
    ("a vehicle", "sets this terminal's build"),
    ("undo, yes, no", "the command tags do the same as the keys"),
)

PAGES: dict[str, Page] = {
    "today": Page(
        "What needs somebody now: boxes that are due or overdue, things on hand that are not installed, work "
        "overdue at outside shops, and how the next filming day stands. Enter goes to where it is done.",
        _ELSEWHERE,
    ),
    "receiving": Page(
        "Scan the box, scan each thing in it, scan the bin that it goes to. No key is needed. A thing "
        "without a code is received by the number of its line and Enter.",
        (
            ("a box", "opens it: its tag, a tracking number or an order number"),
            ("a part", "receives one of it from the open box; with a number typed before it, that many"),
            ("a bin or bag", "puts away what was scanned since the last bin"),
            ("a blank tag", "asks what it is stuck on, and is bound to it"),
            ("damaged, wrong", "sets the last thing apart: it is here but may not be used"),
            ("done", "closes the box and says what is still to come"),
            ("undo, yes, no", "the command tags do the same as the keys"),
        ),
        (
            ("number, Enter", "receives one of that line"),
            ("Ctrl+D", "the last thing is damaged: held"),
            ("Ctrl+X", "closes the box"),
            ("Escape", "back to the boxes; the open box stays open"),
        ),
    ),
    "lift": Page(
        "Scan a part that goes on: its card says what must be on first and whether it is here. Enter, or a "
        "position, installs it. Scan a part that is on: its card removes it, into the bin or bag scanned.",
        (
            ("a part", "shows its install card while any is here, else its remove card"),
            ("a position", "chooses where on the vehicle: LF, RF, LR, RR, front, rear, left, right"),
            ("a bin or bag", "says where removed things go"),
            ("a vehicle", "sets this terminal's build"),
            ("a badge", "says who is at this terminal"),
            ("install, remove", "turns to the other card of the same part"),
            ("undo, yes, no", "the command tags do the same as the keys"),
        ),
        (("Enter", "does what the card asks"), ("Escape", "lays the card aside")),
    ),
    "filming": Page(
        "Each line is a part that is not as a shot needs it: why, who acts next, and what that is. Left and "
        "right of the list of days stand the shots. The first day is the next one.",
        _ELSEWHERE,
        (("Ctrl+N", "the next filming day"), ("Enter", "shows the part")),
    ),
    "racks": Page(
        "Every bin, drawer and bag and what is in it. Type words to find where something is; scan a thing, "
        "then a bin, and it is put there.",
        (
            ("a part", "shows where it is"),
            ("a bin or bag", "shows what is in it"),
            ("a box", "opens it at Receiving"),
            ("undo, yes, no", "the command tags do the same as the keys"),
        ),
        (("Enter", "shows what is in the bin"), ("Escape", "back to the bins")),
    ),
    "parts": Page(
        "The whole list of this terminal's build: how many are needed, still to order, and where the others "
        "are. A part's card has its whole history.",
        _ELSEWHERE,
        (
            ("Enter", "shows the part's card"),
            ("Ctrl+O", "orders the part"),
            ("Ctrl+T", "sends it to an outside shop"),
            ("Ctrl+G", "what becomes of it: open, hold, release, take back, cancel, gone"),
            ("Ctrl+N", "adds a part that has no code"),
        ),
    ),
    "setup": Page(
        "This terminal's build, what the scanner sends, codes that the program did not know, the colours, "
        "and whether the store is sound.",
        _ELSEWHERE,
        (
            ("Enter", "does what the line says"),
            ("Ctrl+K", "checks the whole store"),
        ),
    ),
}
