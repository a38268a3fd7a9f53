"""A page that shows whether a printer scales or shifts, and which bars it prints well enough to be read.

A ruler across and one down, two squares, and bars of several widths, each saying how wide its modules are.
What a person measures on it becomes the correction of that printer and stock, which the caller keeps.
"""

from collections.abc import Iterator

from shoptui.labels.errors import MeasureError
from shoptui.labels.font import MM_PER_POINT
from shoptui.labels.layout import Bars, Text, least_dots
from shoptui.labels.page import Correction, Page, Rectangle, bars, corrected
from shoptui.labels.stock import Stock
from shoptui.labels.symbols import QUIET, symbol

LINE = 0.25
"""Thickness of the rulers' lines, mm."""

LEAST_RULER, LONGEST_RULER = 10, 150
SQUARES = (20, 50)
WORDS = (
    "Measure both rulers, and how far their zero is from the edges of the page; type in what you measured.",
    "Bars that cannot be scanned are too narrow for this printer.",
)
_STEP = 10
_TICK = 3.0
_EDGE = 5.0
_SIZE = 7 * MM_PER_POINT
_BARS_HEIGHT = 9.0
_WIDTHS = 5
MOST_SCALE = 0.1
"""A printer that is off by more is set to fit pages: that is to be mended there."""

MOST_SHIFT = 15.0
"""Millimetres by which paper may lie wrong."""


def ruler_start(stock: Stock) -> tuple[float, float]:
    """Return where both rulers begin: mm from the left and from the top edge of the page."""
    return max(stock.inset, _EDGE), max(stock.inset, _EDGE)


def ruler_lengths(stock: Stock) -> tuple[int, int]:
    """Return the lengths of the rulers across and down, mm, whole tens.

    >>> from shoptui.labels.stock import read_stock
    >>> ruler_lengths(read_stock("sheet-a4-3x10-70x29.7")), ruler_lengths(read_stock("roll-60x40-203dpi"))
    ((150, 150), (50, 30))

    """
    x, y = ruler_start(stock)
    across = int((stock.page_width - x - stock.inset) // _STEP * _STEP)
    down = int((stock.page_height - y - stock.inset) // _STEP * _STEP)
    return max(LEAST_RULER, min(LONGEST_RULER, across)), max(LEAST_RULER, min(LONGEST_RULER, down))


def draw_test_page(stock: Stock, correction: Correction) -> Page:
    """Return the test page of a stock, drawn with the correction that holds, to see whether it is right."""
    x, y = ruler_start(stock)
    across, down = ruler_lengths(stock)
    drawn = [*_ruler(x, y, across, down=False), *_ruler(x, y, down, down=True)]
    texts = [
        Text(f"{across} mm", x + across / 2 - _EDGE, y + _TICK + _SIZE, _SIZE, bold=False),
        Text(f"{down} mm", x + _TICK + 1, y + down - 1, _SIZE, bold=False),
    ]
    left, top = x + _TICK + 1, y + _TICK + 2 * _SIZE
    if min(across, down) > 2 * sum(SQUARES):  # a page, no label: there is room for words and squares
        for words in WORDS:
            texts.append(Text(words, left, top + _SIZE, _SIZE, bold=False))
            top += 2 * _SIZE
        for side in SQUARES:
            drawn += _square(left + _EDGE, top, side)
            texts.append(Text(f"{side} mm", left + _EDGE + 1, top + side - 1, _SIZE, bold=False))
            left += side + _EDGE
        left, top = x + _TICK + 1, top + max(SQUARES) + _EDGE
    mended = [_corrected(each, correction) for each in drawn]
    for placed, text in _symbols(stock, left, top, y + down - 2 * _SIZE):
        mended += bars(placed, (0, 0), stock.dot, correction)
        texts.append(text)
    lines = tuple(corrected(text, correction) for text in texts)
    return Page(stock.page_width, stock.page_height, stock.dot, tuple(mended), lines)


def correction_from(
    stock: Stock, before: Correction, *, across: float, down: float, left: float, top: float
) -> Correction:
    """Return the correction that what was measured on a test page calls for.

    Args:
        stock: Which page was printed.
        before: The correction with which it was printed.
        across: Measured length of the ruler across, mm.
        down: Measured length of the ruler down, mm.
        left: Measured from the page's left edge to the zero of the rulers, mm.
        top: Measured from its top edge, mm.

    Raises:
        MeasureError: A printer is not off by so much; what to do is said.

    >>> from shoptui.labels.stock import read_stock
    >>> a4 = read_stock("sheet-a4-3x10-70x29.7")
    >>> correction_from(a4, Correction(), across=147, down=150, left=6, top=5)
    Correction(across=0.98, down=1.0, left=1.1, top=0.0)

    """
    lengths, zero = ruler_lengths(stock), ruler_start(stock)
    scale_across = _scale("across", across, lengths[0], before.across)
    scale_down = _scale("down", down, lengths[1], before.down)
    # The zero was drawn where the correction before had it, and was printed by the printer as it is.
    drawn_at = (zero[0] - before.left) / before.across, (zero[1] - before.top) / before.down
    return Correction(
        scale_across,
        scale_down,
        _shift("left", left, zero[0], scale_across * drawn_at[0]),
        _shift("top", top, zero[1], scale_down * drawn_at[1]),
    )


def _scale(way: str, measured: float, length: int, before: float) -> float:
    if not abs(measured / length - 1) <= MOST_SCALE:
        raise MeasureError(
            f"About {length} mm were expected for the ruler {way}; {measured:g} came. Measure it again; "
            f"if it is so, set the printer to actual size and print the page again."
        )
    return round(before * measured / length, 5)


def _shift(edge: str, measured: float, place: float, unshifted: float) -> float:
    if not abs(measured - place) <= MOST_SHIFT:
        raise MeasureError(
            f"About {place:g} mm were expected from the page's {edge} edge to the zero of the rulers; "
            f"{measured:g} came. Measure it again; if it is so, see how the paper lies in the printer."
        )
    return round(measured - unshifted, 3)


def _ruler(x: float, y: float, length: int, *, down: bool) -> Iterator[Rectangle]:
    yield Rectangle(x, y, LINE, length) if down else Rectangle(x, y, length, LINE)
    for at in range(0, length + 1, _STEP // 2):
        tick = _TICK if at % _STEP == 0 else _TICK / 2
        # The outer edges of the first and the last tick are as far apart as the ruler is long.
        place = min(at, length - LINE) if at else 0
        yield Rectangle(x, y + place, tick, LINE) if down else Rectangle(x + place, y, LINE, tick)


def _square(x: float, y: float, side: float) -> list[Rectangle]:
    return [
        Rectangle(x, y, side, LINE),
        Rectangle(x, y + side - LINE, side, LINE),
        Rectangle(x, y, LINE, side),
        Rectangle(x + side - LINE, y, LINE, side),
    ]


def _symbols(stock: Stock, left: float, top: float, bottom: float) -> Iterator[tuple[Bars, Text]]:
    """Return bars of growing width below each other, as far as there is room."""
    least = least_dots(stock.dot)
    for dots in range(least, least + _WIDTHS):
        drawn = symbol(f"{dots} DOTS")
        quiet = QUIET * dots * stock.dot
        right = left + drawn.modules * dots * stock.dot + 2 * quiet
        baseline = top + _BARS_HEIGHT + _SIZE
        if right > stock.page_width - stock.inset or baseline > bottom:
            return
        words = f"{dots} dots, {dots * stock.dot:.3f} mm"
        yield (
            Bars(drawn, dots, left + quiet, top, _BARS_HEIGHT),
            Text(words, left + quiet, baseline, _SIZE, bold=False),
        )
        top = baseline + _SIZE


def _corrected(drawn: Rectangle, correction: Correction) -> Rectangle:
    return Rectangle(
        (drawn.x - correction.left) / correction.across,
        (drawn.y - correction.top) / correction.down,
        drawn.width / correction.across,
        drawn.height / correction.down,
    )
