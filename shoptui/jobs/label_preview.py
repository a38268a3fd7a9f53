"""How a label will come out: its rows from the top, each with its height in millimetres."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from shoptui.domain.inert import inert
from shoptui.jobs.label_printers import choice_of, own_labels, stock_named
from shoptui.labels.errors import LabelError
from shoptui.labels.font import CAPITAL
from shoptui.labels.layout import Label, LaidOut, Text, lay_out
from shoptui.labels.layouts import read_layout
from shoptui.labels.stock import Stock
from shoptui.store.shop import Shop

BARS = ""
"""Stands for the bars where a row's words are expected."""


@dataclass(frozen=True, slots=True)
class PreviewRow:
    """One row of a label.

    Args:
        words: What stands in it, or `BARS`.
        top: From the label's top edge, mm.
        height: Of capitals, or of the bars, mm.
        about: How large it is, in words; what stands behind a line's end is second to it.

    """

    words: str
    top: float
    height: float
    about: str


@dataclass(frozen=True, slots=True)
class Preview:
    """One label on its stock.

    Args:
        stock: The stock in words.
        width: Of the label, mm.
        height: Likewise.
        rows: From the top; none where it does not fit.
        notes: What could not be set as it was given, or why it does not fit.

    """

    stock: str
    width: float
    height: float
    rows: tuple[PreviewRow, ...]
    notes: tuple[str, ...]


def preview(shop: Shop, label: Label, stock: str = "") -> Preview:
    """Return a label on its stock; an empty name is what its kind was printed on last.

    What cannot be, a stock that is none or too small, is said in the notes.
    """
    name = stock or choice_of(shop, label.kind).stock
    try:
        found = stock_named(shop, name)
    except LabelError as error:
        return Preview(inert(name), 0, 0, (), (str(error),))
    words = f"{inert(found.name)}: {found.words}"
    try:
        laid_out = lay_out(label, read_layout(label.kind, own_labels(shop)), found)
    except LabelError as error:
        return Preview(words, found.width, found.height, (), (str(error),))
    rows = sorted(_rows(laid_out, found), key=lambda row: row.top)
    return Preview(words, found.width, found.height, tuple(rows), laid_out.notes)


def _rows(laid_out: LaidOut, stock: Stock) -> Iterator[PreviewRow]:
    bars = laid_out.bars
    width = bars.dots * stock.dot
    yield PreviewRow(BARS, bars.y, bars.height, f"bars {bars.height:.1f} mm\nnarrowest {width:.2f} mm")
    for _, texts in groupby(laid_out.texts, key=lambda text: text.baseline):
        yield _words(list(texts))


def _words(texts: list[Text]) -> PreviewRow:
    first = texts[0]
    capitals = first.size * CAPITAL
    return PreviewRow(
        " ".join(each.text for each in texts),
        first.baseline - capitals,
        capitals,
        f"letters {capitals:.1f} mm",
    )
