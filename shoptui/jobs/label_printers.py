"""What labels are printed on: the stock and queue of each kind, and how each printer is off on each stock.

A shop's own stock and layouts lie in the folder `labels` of the shop's folder, and are looked at first: all
terminals of the shop find the same ones, and a copy of the shop has them.
"""

from difflib import get_close_matches
from functools import partial
from pathlib import Path

from shoptui.domain.inert import inert
from shoptui.domain.records import LabelChoice, PrinterCorrection, Settings
from shoptui.jobs.answers import Answer, done, stop
from shoptui.jobs.at import At
from shoptui.jobs.label_output import Onto, Outcome, output, stopped
from shoptui.labels.errors import LabelError
from shoptui.labels.files import Progress, Written, write_pages
from shoptui.labels.page import NO_CORRECTION, Correction, Page
from shoptui.labels.stock import Stock, read_stock, stock_names
from shoptui.labels.test_page import correction_from, draw_test_page, ruler_lengths, ruler_start
from shoptui.store.shop import Shop

OWN = "labels"
"""Folder in the shop's folder, with folders `stock` and `layouts` in it."""

USUAL = "sheet-a4-3x10-70x29.7"
USUAL_STOCK = {
    "bin": "sheet-a4-2x8-95x34",
    "box": "sheet-a4-2x5-105x59.4",
    "vehicle": "sheet-a4-2x5-105x59.4",
    "badge": "sheet-a4-2x5-85.6x54",
}
"""Layout of a kind to the stock that it takes where nobody has chosen another; `USUAL` for the rest."""

_NEAR = 0.4
"""Share of a name that has to be right for it to be offered. Common practice, no source."""


def own_labels(shop: Shop) -> Path | None:
    """Return the folder with the shop's own stock and layouts, None where it has none."""
    folder = shop.database.folder / OWN
    return folder if folder.is_dir() else None


def stock_named(shop: Shop, name: str) -> Stock:
    """Return the label stock of a name.

    Raises:
        LabelError: There is none, and which may be meant; or its file is wrong, and where.

    """
    own = own_labels(shop)
    known = stock_names(own)
    if name not in known:
        like = get_close_matches(name, known, 3, _NEAR)
        meant = f" Was {' or '.join(like)} meant?" if like else f" There is {', '.join(known)}."
        raise LabelError(f"There is no label stock {inert(name)}.{meant}")
    return read_stock(name, own)


def choice_of(shop: Shop, layout: str) -> LabelChoice:
    """Return what a kind of label is printed on, and by which queue, where nobody says otherwise."""
    found = (each for each in shop.settings.label_choices if each.kind == layout)
    return next(found, LabelChoice(layout, USUAL_STOCK.get(layout, USUAL)))


def choices_with(settings: Settings, choice: LabelChoice) -> tuple[LabelChoice, ...]:
    """Return the choices of all kinds with this one in the place of that kind's."""
    return (*(each for each in settings.label_choices if each.kind != choice.kind), choice)


def correction_of(shop: Shop, queue: str, stock: str) -> Correction:
    """Return what mends a printer on a stock; nothing where no test page was measured."""
    for each in shop.settings.corrections:
        if (each.queue, each.stock) == (queue, stock):
            return Correction(each.across, each.down, each.left, each.top)
    return NO_CORRECTION


def print_test_page(at: At, stock: str, onto: Onto) -> Answer:
    """Draw the test page of a stock with the correction that holds: work whose answer says where it is."""
    try:
        found = stock_named(at.shop, stock)
    except LabelError as error:
        return stop(str(error), field="stock")
    correction = correction_of(at.shop, onto.queue or "", stock)
    page = draw_test_page(found, correction)
    across, down = ruler_lengths(found)
    left, top = ruler_start(found)

    def finish(outcome: Outcome) -> Answer:
        if outcome.written is None or outcome.trouble:
            return stopped(outcome)
        return done(
            f"{outcome.said} Measure the rulers: {across} mm across and {down} mm down are right, their zero "
            f"{left:g} mm from the left edge and {top:g} mm from the top.",
            kind="labels",
        )

    return output("Drawing the test page", "test-page", onto, partial(_write_page, page), finish)


def _write_page(page: Page, path: Path, _progress: Progress) -> Written:
    return write_pages([page], 1, path)


def measured(
    at: At,
    stock: str,
    queue: str = "",
    *,
    across: float | None = None,
    down: float | None = None,
    left: float | None = None,
    top: float | None = None,
) -> Answer:
    """Write down what was measured on a test page: labels of this stock and printer are mended from now on.

    Args:
        at: Where it is done.
        stock: Name of the stock whose page was printed.
        queue: Which printer; empty for the usual one.
        across: Measured length of the ruler across, mm; None: it is right.
        down: Likewise of the ruler down.
        left: From the page's left edge to the zero of the rulers, mm.
        top: From its top edge.

    """
    shop = at.shop
    try:
        found = stock_named(shop, stock)
        lengths, zero = ruler_lengths(found), ruler_start(found)
        mended = correction_from(
            found,
            correction_of(shop, queue, stock),
            across=lengths[0] if across is None else across,
            down=lengths[1] if down is None else down,
            left=zero[0] if left is None else left,
            top=zero[1] if top is None else top,
        )
    except LabelError as error:
        return stop(str(error))
    made = PrinterCorrection(queue, stock, mended.across, mended.down, mended.left, mended.top)
    others = (each for each in shop.settings.corrections if (each.queue, each.stock) != (queue, stock))
    with at.doing(f"measured the test page of {stock} by {printer_words(queue)}") as tx:
        tx.change_settings(corrections=(*others, made))
    return done(f"Labels on {stock} by {printer_words(queue)} are mended now: {_mended_words(mended)}.")


def printer_words(queue: str) -> str:
    """Return a print queue as one says it."""
    return inert(queue) if queue else "the usual printer"


def _mended_words(mended: Correction) -> str:
    if mended == NO_CORRECTION:
        return "it prints as it should, nothing is to be mended"
    aside = f"{abs(mended.left):g} mm too far {'left' if mended.left < 0 else 'right'}"
    off = f"{abs(mended.top):g} mm too {'high' if mended.top < 0 else 'low'}"
    return (
        f"it prints {mended.across:.2%} of the width and {mended.down:.2%} of the height, {aside} and {off}"
    )
