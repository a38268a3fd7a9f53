"""What stands on each kind of label, from the top down: data that is changed without touching code."""

from dataclasses import dataclass
from pathlib import Path

from shoptui.labels.descriptions import Fields, document, names

FOLDER = "layouts"
CONTENTS = ("title", "symbol", "shown", "lines", "words")
MOST_LENGTH = 1000.0
MOST_SHARE = 100.0


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a layout.

    Args:
        what: One of `CONTENTS`: the label's title, its symbol, its code for the eye, each of its lines, or
            words that are the same on every label.
        share: Its part of the height that is left when every row has its least.
        most: Height of its capitals, or of its bars, that is never passed, mm.
        wanted: Height of its capitals that it gets before shares are, mm, where the label allows it; of
            several lines only the first.
        two_lines: Whether its text may take two lines.
        whole: Whether its text is a code, which is refused rather than cut.
        bold: Whether its letters are thickened.
        words: For `words`: which.

    """

    what: str
    share: float
    most: float
    wanted: float = 0.0
    two_lines: bool = False
    whole: bool = False
    bold: bool = False
    words: str = ""

    @property
    def most_lines(self) -> int:
        """How many lines its text may take."""
        return 2 if self.two_lines else 1

    @property
    def tails(self) -> str:
        """Letters whose tails always get room: tags of one run have one size, with a Q in them or not."""
        return "Q" if self.what == "shown" else ""


@dataclass(frozen=True, slots=True)
class Layout:
    """The layout of one kind of label.

    Args:
        kind: As its file is named.
        about: What it is for.
        widest: Module that is never passed, mm.
        between: White between two rows, mm.
        rows: From the top.

    """

    kind: str
    about: str
    widest: float
    between: float
    rows: tuple[Row, ...]


def layout_names(own: Path | None = None) -> tuple[str, ...]:
    """Return the kinds of label; `own` is the user's folder of labels, None for none."""
    return names(FOLDER, own)


def read_layout(kind: str, own: Path | None = None) -> Layout:
    """Return the layout of a kind of label.

    Raises:
        DescriptionError: There is none, or its file is wrong, which is named with its line.

    >>> [row.what for row in read_layout("bin").rows]
    ['title', 'symbol', 'shown', 'lines']

    """
    file, text, values = document(FOLDER, kind, own)
    fields = Fields(file, text, values)
    about = fields.words("about", "")
    widest = fields.number("widest_module", 0.2, 2)
    between = fields.number("between", 0, 20)
    tables = fields.tables("rows")
    fields.finish()
    rows = tuple(_row(Fields(file, text, table, at)) for at, table in enumerate(tables))
    if [row.what for row in rows].count("symbol") != 1:
        raise fields.wrong("rows", 'One row with what = "symbol" was expected among the rows.')
    return Layout(kind, about, widest, between, rows)


def _row(fields: Fields) -> Row:
    what = fields.one_of("what", CONTENTS)
    share = fields.number("share", 0, MOST_SHARE)
    most = fields.number("most", 0.5, MOST_LENGTH, MOST_LENGTH)
    if what == "symbol":
        row = Row(what, share, most)
    else:
        row = Row(
            what,
            share,
            most,
            fields.number("wanted", 0, most, 0),
            two_lines=fields.yes("two_lines"),
            whole=what == "shown" or fields.yes("whole"),
            bold=fields.yes("bold"),
            words=fields.words("words") if what == "words" else "",
        )
    fields.finish()
    return row
