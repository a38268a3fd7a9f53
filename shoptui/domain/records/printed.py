"""What was printed and on what: runs of labels, the stock of each kind, how each printer is off."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class LabelRun:
    """Labels that were printed in one go, or one that hangs there because its blank tag was bound.

    Labels are numbered from 1, copies counted: the first thing's copies, then the second's.

    Args:
        id: Document id.
        kind: Name of the labels' layout: `bin`, `part`, `blank-bag`...
        table: Table of the records that they are of; empty where they are of none.
        records: Their ids, in the order of their labels.
        tags: Tags and codes that are no record's: blank tags, commands.
        stock: Name of what they were printed on; empty for a blank tag that was bound.
        copies: Of each label.
        first: Number of the first label that was printed: those before came out well in an earlier run.
        start: Position on the first sheet where it began, from 1, row by row.
        came: Number of the last label that came out well, 0 if none did; None while nobody has said.
        to: The file or the print queue that they went to.
        printed: Moment.
        terminal: Name of the terminal.
        code: Always this, as sentences call a run.
        withdrawn: Whether an undo took it back.

    """

    id: int
    kind: str
    table: str = ""
    records: tuple[int, ...] = ()
    tags: tuple[str, ...] = ()
    stock: str = ""
    copies: int = 1
    first: int = 1
    start: int = 1
    came: int | None = None
    to: str = ""
    printed: datetime | None = None
    terminal: str = ""
    code: str = "these labels"
    withdrawn: bool = False

    @classmethod
    def of_bound_tag(cls, kind: str, table: str, record: int) -> "LabelRun":
        """Return the run that says of a record that its label hangs there: a blank tag was scanned for it."""
        return cls(0, kind, table, (record,), came=1)

    @property
    def last(self) -> int:
        """Number of its last label."""
        return (len(self.records) + len(self.tags)) * self.copies

    @property
    def labelled(self) -> tuple[int, ...]:
        """Ids of the records whose last copy came out well in this run.

        >>> LabelRun(1, "bin", "bins", (7, 8, 9), copies=2, came=5).labelled
        (7, 8)
        >>> LabelRun(2, "bin", "bins", (7, 8, 9), copies=2, first=6, came=6).labelled
        (9,)

        """
        return self.records[(self.first - 1) // self.copies : (self.came or 0) // self.copies]


@dataclass(frozen=True, slots=True)
class LabelChoice:
    """What one kind of label was printed on last, and by which queue; empty is the system's usual one."""

    kind: str
    stock: str
    queue: str = ""


@dataclass(frozen=True, slots=True)
class PrinterCorrection:
    """How a printer is off on one stock, as measured on a test page; see `shoptui.labels.page.Correction`.

    Args:
        queue: Name of the print queue, empty for the system's usual one.
        stock: Name of the stock.
        across: Printed width of what is drawn 1 mm wide, mm.
        down: Likewise its height.
        left: By how much the page is printed too far to the right, mm.
        top: By how much it is printed too low, mm.

    """

    queue: str
    stock: str
    across: float = 1.0
    down: float = 1.0
    left: float = 0.0
    top: float = 0.0
