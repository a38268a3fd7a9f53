"""One label laid out: where its bars and its words lie, in millimetres from its top left corner.

Rows stand below each other and share the height (`rows.py`). Bars are a whole number of the printer's dots
wide; the widest that fits is taken, since it forgives most.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from shoptui.labels.errors import DoesNotFitError
from shoptui.labels.font import CAPITAL, LEAST_SIZE, above, settable, width
from shoptui.labels.layouts import Layout, Row
from shoptui.labels.lines import READABLE, Lines, fit, height_in_ems, leading
from shoptui.labels.rows import Claim, make_room, share_out, words_claim
from shoptui.labels.stock import Stock
from shoptui.labels.symbols import QUIET, Symbol, symbol

LEAST_MODULE = 0.25
"""Narrowest module, mm: two dots at 203 dpi, three at 300. Read head-on; only wider ones when tilted."""

_ROUNDED = 0.01
"""Dots by which a whole number may fall short: 2 dots at 203 dpi are 0.2502 mm."""

BARS = 6.5
BARS_SHARE = 0.15
"""Height of bars, mm and of their length, where the label allows it. ISO/IEC 15417 for scanners in the hand:
5 mm or 15 % of the length, whichever is greater (from memory)."""

BARS_MOST_SHARE = 0.3
"""Part of a label's height that bars may need; a wider module is not taken."""


@dataclass(frozen=True, slots=True)
class Label:
    """What is to stand on one label.

    Args:
        kind: Name of its layout: `bin`, `part`, `bag`...
        code: What its symbol carries.
        shown: The same in letters that a person can type.
        title: What is to be read from afar; may be empty.
        lines: What is to be read at arm's length; may be none.

    """

    kind: str
    code: str
    shown: str = ""
    title: str = ""
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Bars:
    """A symbol on its label.

    Args:
        symbol: Which.
        dots: Width of one module in dots of the printer.
        x: Left edge of the first bar, mm, before it is moved to the nearest dot of the page.
        y: Top edge, mm.
        height: Of the bars, mm.

    """

    symbol: Symbol
    dots: int
    x: float
    y: float
    height: float


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text.

    Args:
        text: Which.
        x: Left edge, mm.
        baseline: Downwards from the top, mm.
        size: Em, mm.
        bold: Whether it is thickened.

    """

    text: str
    x: float
    baseline: float
    size: float
    bold: bool


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A label, ready to be put on a page; `notes` are sentences on what could not be set as it was given."""

    bars: Bars
    texts: tuple[Text, ...]
    notes: tuple[str, ...]


def least_dots(dot: float) -> int:
    """Return the fewest dots that a module may have.

    >>> [least_dots(25.4 / dpi) for dpi in (203, 300, 600)]
    [2, 3, 6]

    """
    return max(2, math.ceil(LEAST_MODULE / dot - _ROUNDED))


def lay_out(label: Label, layout: Layout, stock: Stock) -> LaidOut:
    """Return where everything on a label lies.

    Raises:
        TextError: Its code cannot be carried by bars.
        DoesNotFitError: The stock is too small for it, and which size would do.

    """
    room, height = stock.width - 2 * stock.inset, stock.height - 2 * stock.inset
    drawn = symbol(label.code)
    dots = _dots(drawn, label, layout, stock)
    notes: list[str] = []
    length = drawn.modules * dots * stock.dot
    claims = list(_claims(label, layout, room, length, notes))
    lacking = make_room(claims, height, layout.between, notes)
    if lacking:
        high = math.ceil((stock.height + lacking) * 10) / 10
        raise DoesNotFitError(
            f"A label for {label.shown or label.code} has to be at least {high:g} mm high; those of "
            f"{stock.name} are {stock.height:g} mm high. Take higher stock.",
            height=high,
        )
    between = share_out(claims, height, layout.between)
    y = (stock.height - sum(claim.height for claim in claims) - between * (len(claims) - 1)) / 2
    texts: list[Text] = []
    for claim in claims:
        if claim.row.what == "symbol":
            bars = Bars(drawn, dots, (stock.width - length) / 2, y, claim.height)
        else:
            texts += _texts(claim, y, stock, room, notes)
        y += claim.height + between
    return LaidOut(bars, tuple(texts), tuple(dict.fromkeys(notes)))


def _dots(drawn: Symbol, label: Label, layout: Layout, stock: Stock) -> int:
    """Return the dots of a module: the most that fit, one kept for moving the symbol onto the page's dots."""
    modules = drawn.modules + 2 * QUIET
    room, height = stock.width - 2 * stock.inset, stock.height - 2 * stock.inset
    longest = max(BARS, BARS_MOST_SHARE * height) / BARS_SHARE
    widest = min(layout.widest, longest / drawn.modules)
    least = least_dots(stock.dot)
    needed = (modules * least + 1) * stock.dot
    if room < needed:
        wide = math.ceil((needed + 2 * stock.inset) * 10) / 10
        raise DoesNotFitError(
            f"The bars of {label.shown or label.code} need a label at least {wide:g} mm wide at "
            f"{stock.dpi:g} dpi; those of {stock.name} are {stock.width:g} mm wide. Take wider stock, or a "
            f"shorter code.",
            width=wide,
        )
    return max(least, min(int((room / stock.dot - 1) / modules), int(widest / stock.dot + _ROUNDED)))


def _claims(label: Label, layout: Layout, room: float, length: float, notes: list[str]) -> Iterator[Claim]:
    for row in layout.rows:
        if row.what == "symbol":
            wanted = max(BARS, BARS_SHARE * length)
            yield Claim(row, "", wanted, max(row.most, wanted))
        for at, given in enumerate(_given(label, row)):
            text = settable(given.strip())
            notes += text.notes
            if text.text:
                yield words_claim(row, text.text, room, 0 if at else row.wanted)


def _given(label: Label, row: Row) -> tuple[str, ...]:
    match row.what:
        case "title":
            return (label.title,)
        case "shown":
            return (label.shown or label.code,)
        case "lines":
            return label.lines
        case "words":
            return (row.words,)
    return ()


def _texts(claim: Claim, y: float, stock: Stock, room: float, notes: list[str]) -> Iterator[Text]:
    """Return the lines of one row, in its middle."""
    row = claim.row
    found = fit(
        claim.text,
        room,
        claim.height,
        most_lines=row.most_lines,
        most_size=row.most / CAPITAL,
        whole=row.whole,
        tails=row.tails,
    )
    if found.cut:
        _refuse_cut(claim, stock)
        notes.append(f"{claim.text} is cut: there is no room for all of it.")
    high = height_in_ems(found.lines, row.tails) * found.size
    bold = row.bold and found.size * CAPITAL >= READABLE - _ROUNDED
    yield from _lines(found, y + (claim.height - high) / 2, stock, bold=bold)


def _lines(found: Lines, top: float, stock: Stock, *, bold: bool) -> Iterator[Text]:
    baseline = top + above(found.lines[0]) * found.size
    for line in found.lines:
        yield Text(line, (stock.width - width(line, found.size)) / 2, baseline, found.size, bold)
        baseline += leading(found.lines) * found.size


def _refuse_cut(claim: Claim, stock: Stock) -> None:
    if claim.row.whole:
        wide = math.ceil((width(claim.text, LEAST_SIZE) + 2 * stock.inset) * 10) / 10
        raise DoesNotFitError(
            f"{claim.text} needs a label at least {wide:g} mm wide; those of {stock.name} are "
            f"{stock.width:g} mm wide. Take wider stock, or a shorter code.",
            width=wide,
        )
