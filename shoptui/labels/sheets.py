"""Labels in their order on pages: from any position of a half-used sheet, in copies, again from any label."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import islice
from pathlib import Path

from shoptui.labels.errors import PositionError
from shoptui.labels.layout import Label, LaidOut, lay_out
from shoptui.labels.layouts import read_layout
from shoptui.labels.page import NO_CORRECTION, Correction, Page, bars, texts
from shoptui.labels.stock import Stock

MOST_COPIES = 1000

_BEYOND = (
    "Corrected for this printer, labels of {stock} would reach beyond the page, where nothing is printed. "
    "Set the printer to actual size and print the test page again."
)


@dataclass(frozen=True, slots=True)
class Job:
    """Labels to print in one go.

    Args:
        labels: In their order.
        stock: What they are printed on.
        start: Position of the first page that is still free, from 1, row by row.
        copies: Of each label, one after the other.
        again_from: Number of the first label to print, from 1, copies counted: what came out well before a
            jam is not printed twice.
        correction: Of the printer.
        own: The user's own folder of labels, for layouts; None for none.

    Raises:
        PositionError: There is no such position, label or number of copies.

    """

    labels: Sequence[Label]
    stock: Stock
    start: int = 1
    copies: int = 1
    again_from: int = 1
    correction: Correction = NO_CORRECTION
    own: Path | None = None

    def __post_init__(self) -> None:
        """Refuse what cannot be, before anything is drawn."""
        if not self.labels:
            raise PositionError("One label or more was expected; there is none to print.")
        if not 1 <= self.copies <= MOST_COPIES:
            raise PositionError(f"1 to {MOST_COPIES} copies were expected; {self.copies} came.")
        every = len(self.labels) * self.copies
        if not 1 <= self.again_from <= every:
            raise PositionError(
                f"A label from 1 to {every} to print again from was expected; {self.again_from} came."
            )
        self.stock.corner(self.start)

    @property
    def count(self) -> int:
        """How many labels are printed."""
        return len(self.labels) * self.copies - self.again_from + 1

    @property
    def page_count(self) -> int:
        """How many pages they take."""
        return -(-(self.start - 1 + self.count) // self.stock.labels)


def pages(job: Job) -> Iterator[Page]:
    """Return the pages of a job, each drawn when it is asked for.

    Raises:
        TextError: A code that bars cannot carry.
        DoesNotFitError: A label for which its stock is too small.
        DescriptionError: A layout that is wrong or missing.

    """
    placed, notes = _placed(job), _beyond(job)
    free = job.stock.labels - job.start + 1
    position = job.start
    while on_page := list(islice(placed, free)):
        yield _page(job, on_page, position, notes)
        free, position = job.stock.labels, 1


def _placed(job: Job) -> Iterator[LaidOut]:
    layouts = {kind: read_layout(kind, job.own) for kind in {label.kind for label in job.labels}}

    @lru_cache(maxsize=1)  # copies follow each other
    def laid_out(index: int) -> LaidOut:
        label = job.labels[index]
        return lay_out(label, layouts[label.kind], job.stock)

    for number in range(job.again_from - 1, len(job.labels) * job.copies):
        yield laid_out(number // job.copies)


def _beyond(job: Job) -> tuple[str, ...]:
    """Say it if the correction takes labels beyond the page, which no printer prints."""
    stock, mended = job.stock, job.correction
    first, last = stock.corner(1), stock.corner(stock.labels)
    sides = (
        (first[0], last[0] + stock.width, mended.left, mended.across, stock.page_width),
        (first[1], last[1] + stock.height, mended.top, mended.down, stock.page_height),
    )
    for start, end, shift, scale, page in sides:
        if (start + stock.inset - shift) / scale < 0 or (end - stock.inset - shift) / scale > page:
            return (_BEYOND.format(stock=stock.name),)
    return ()


def _page(job: Job, on_page: Sequence[LaidOut], position: int, notes: tuple[str, ...]) -> Page:
    stock = job.stock
    placed = [(each, stock.corner(at)) for at, each in enumerate(on_page, position)]
    return Page(
        stock.page_width,
        stock.page_height,
        stock.dot,
        tuple(bar for each, corner in placed for bar in bars(each.bars, corner, stock.dot, job.correction)),
        tuple(text for each, corner in placed for text in texts(each, corner, job.correction)),
        len(on_page),
        (*notes, *dict.fromkeys(note for each in on_page for note in each.notes)),
    )
