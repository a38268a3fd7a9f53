"""One label looked at: its tag to be scanned off the glass, and how it will be printed."""

from collections.abc import Iterator

from rich.cells import cell_len, set_cell_size
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from shoptui.domain.inert import inert
from shoptui.jobs.label_preview import BARS, Preview, PreviewRow
from shoptui.labels.errors import LabelError
from shoptui.labels.layout import Label
from shoptui.stations.labels.glass import Glass
from shoptui.stations.page import Page

WIDE = 52
"""Columns of a label's picture at most; its rows follow from that, a cell being twice as high as wide."""

MOST_ROWS = 8
PATTERN = "| || ||| |  || | "


class LabelPage(Page):
    """Shows a label; scanned from here, its tag does what it does anywhere.

    Args:
        label: Which.
        shown: How it comes out on its stock.

    """

    DEFAULT_CSS = """
    LabelPage {
        & > VerticalScroll { align: center top; }
        & Static { width: 100%; color: $foreground; }
        & .code { text-align: center; }
    }
    """

    def __init__(self, label: Label, shown: Preview) -> None:
        super().__init__()
        self._label = label
        self._shown = shown

    def compose(self) -> ComposeResult:
        """Lay the tag and the picture out."""
        with VerticalScroll() as page:
            page.border_title = f"Scan it off the glass, or see how it prints. {self.BACK_WORDS}"
            try:
                yield Glass(self._label.code)
            except LabelError as error:
                yield Static(inert(str(error), limit=400), markup=False)
            words = inert(f"{self._label.shown} {self._label.title}".strip(), limit=70)
            yield Static(Content.styled(words, "bold"), classes="code", markup=False)
            yield Static("\n".join(drawn(self._shown)), markup=False)


def drawn(shown: Preview) -> Iterator[str]:
    """Yield the lines of a label's picture: each of its rows, and beside it how high that is.

    >>> label = Preview("roll", 60, 25, (PreviewRow("A1", 8, 10, "letters 10.0 mm"),), ("Cut.",))
    >>> lines = list(drawn(label))
    >>> lines[0], len(lines), " ".join(lines[6].split()), lines[-1]
    ('roll', 12, '| A1 | letters 10.0 mm', 'Cut.')

    """
    yield shown.stock
    if shown.rows:
        frame = f"+{'-' * WIDE}+"
        yield from (frame, *_lines(shown), frame)
    yield from shown.notes


def _lines(shown: Preview) -> list[str]:
    """Return the rows of a picture, each about where it stands on the label."""
    wanted = min(MOST_ROWS, round(shown.height / shown.width * WIDE / 2))
    high = max(wanted, len(shown.rows))
    lines: list[str] = []
    for left, row in zip(range(len(shown.rows) - 1, -1, -1), shown.rows, strict=True):
        top = min(int((row.top + (0 if row.words == BARS else row.height / 2)) / shown.height * high), high)
        lines += [_blank()] * (min(top, high - left - 1) - len(lines))
        tall = round(row.height / shown.height * high) if row.words == BARS else 1
        lines += _row(row, max(1, min(tall, high - left - len(lines))))
    return lines + [_blank()] * (high - len(lines))


def _blank() -> str:
    return f"|{' ' * WIDE}|"


def _row(row: PreviewRow, tall: int) -> Iterator[str]:
    text = (PATTERN * 3)[: WIDE - 10] if row.words == BARS else inert(row.words, limit=WIDE)
    before = " " * ((WIDE - cell_len(text)) // 2)
    about = row.about.splitlines()
    for number in range(tall):
        beside = f"  {about[number]}" if number < len(about) else ""
        yield f"|{set_cell_size(before + text, WIDE)}|{beside}"
