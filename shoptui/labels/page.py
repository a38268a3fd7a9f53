"""A page of labels as what is drawn on it: rectangles and lines of text, in mm from its top left corner.

PDF, SVG and PNG draw the same page. Bars begin and end on the dots of the printer, a little inside of them,
so that no renderer ever touches the dot beside: drawn as wide as they are, 18 of 30 were read at 203 dpi;
drawn so, all.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import accumulate
from typing import NamedTuple

from shoptui.labels.layout import Bars, LaidOut, Text

BOLD = 0.05
"""Width in ems of the line drawn along the edge of thickened letters."""

_INSIDE = 0.15
"""Dots by which a bar is drawn narrower on either side."""


class Rectangle(NamedTuple):
    """A black rectangle, mm."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Correction:
    """What mends a printer that scales or shifts, as measured on a test page of its own.

    Args:
        across: Printed width of what is drawn 1 mm wide, mm.
        down: Likewise its height.
        left: By how much the page is printed too far to the right, mm.
        top: By how much it is printed too low, mm.

    """

    across: float = 1.0
    down: float = 1.0
    left: float = 0.0
    top: float = 0.0


NO_CORRECTION = Correction()


@dataclass(frozen=True, slots=True)
class Page:
    """One page.

    Args:
        width: Millimetres.
        height: Millimetres.
        dot: Width of a dot of the printer, mm.
        rectangles: Bars first to last.
        texts: Lines of text.
        labels: How many labels are on it.
        notes: Sentences on what could not be set as it was given.

    """

    width: float
    height: float
    dot: float
    rectangles: tuple[Rectangle, ...]
    texts: tuple[Text, ...]
    labels: int = 0
    notes: tuple[str, ...] = ()


def bars(
    placed: Bars, corner: tuple[float, float], dot: float, correction: Correction
) -> Iterator[Rectangle]:
    """Return the bars of a symbol on the dots of the printer.

    Args:
        placed: Where they are on their label.
        corner: Of the label on its page, mm.
        dot: Of the printer, mm.
        correction: Of the printer, which shifts and scales the page after it is drawn.

    """
    first = round((corner[0] + placed.x - correction.left) / dot)
    top = (corner[1] + placed.y - correction.top) / correction.down
    height = placed.height / correction.down
    dot /= correction.across
    runs = placed.symbol.runs
    starts = accumulate(runs, initial=0)
    for at, (start, run) in enumerate(zip(starts, runs, strict=False)):
        if at % 2 == 0:
            x = (first + start * placed.dots + _INSIDE) * dot
            yield Rectangle(x, top, (run * placed.dots - 2 * _INSIDE) * dot, height)


def texts(laid_out: LaidOut, corner: tuple[float, float], correction: Correction) -> Iterator[Text]:
    """Return the lines of text of a label on its page."""
    for text in laid_out.texts:
        yield corrected(replace(text, x=corner[0] + text.x, baseline=corner[1] + text.baseline), correction)


def corrected(text: Text, correction: Correction) -> Text:
    """Return a line of text of a page where it has to be drawn to be printed where it should be."""
    if correction == NO_CORRECTION:
        return text
    return replace(
        text,
        x=(text.x - correction.left) / correction.across,
        baseline=(text.baseline - correction.top) / correction.down,
        size=text.size / correction.across,
    )
