"""Pages as one PDF, drawn by reportlab: the glyphs that are used inside, and the wish not to be scaled."""

from functools import cache
from typing import TYPE_CHECKING, Any, BinaryIO

from shoptui.labels import font
from shoptui.labels.page import BOLD, Page

if TYPE_CHECKING:
    from collections.abc import Iterable

    from shoptui.labels.layout import Text

POINTS = 72 / 25.4
"""Points in a millimetre."""

_SHORT = 0.01
"""Dots by which a page is smaller than whole ones, so that what computers drop does not make one more."""

_FILLED_AND_EDGED = 2
_NON_ZERO = 1
"""Where two rectangles lie on each other there is black, not a hole."""


def write_pdf(pages: "Iterable[Page]", file: BinaryIO) -> None:
    """Write pages as one PDF; the same pages always give the same bytes."""
    from reportlab.pdfgen.canvas import Canvas  # noqa: PLC0415 - costs time that others need not spend

    _register()
    canvas = Canvas(file, invariant=1, pageCompression=1)
    canvas.setTitle("Labels")
    canvas.setViewerPreference("PrintScaling", "None")
    for page in pages:
        width, height = _whole(page.width, page.dot), _whole(page.height, page.dot)
        canvas.setPageSize((width * POINTS, height * POINTS))
        _draw(canvas, page, height)
        canvas.showPage()
    canvas.save()


@cache
def _register() -> None:
    from reportlab.pdfbase.pdfmetrics import registerFont  # noqa: PLC0415 - as above
    from reportlab.pdfbase.ttfonts import TTFont  # noqa: PLC0415 - as above

    registerFont(TTFont(font.NAME, str(font.path())))


def _whole(length: float, dot: float) -> float:
    """Return the side of a page in whole dots, or whoever rounds a page up to whole dots would stretch it."""
    return (round(length / dot) - _SHORT) * dot


def _draw(canvas: Any, page: Page, page_height: float) -> None:  # noqa: ANN401 - the library has no types
    path = canvas.beginPath()
    for x, y, width, height in page.rectangles:
        path.rect(x * POINTS, (page_height - y - height) * POINTS, width * POINTS, height * POINTS)
    canvas.drawPath(path, stroke=0, fill=1, fillMode=_NON_ZERO)
    for text in page.texts:
        _write(canvas, text, page_height)


def _write(canvas: Any, text: "Text", page_height: float) -> None:  # noqa: ANN401 - likewise
    size = text.size * POINTS
    canvas.saveState()  # or the thick letters' way of drawing would hold for all that follow
    canvas.setLineWidth(BOLD * size)
    line = canvas.beginText(text.x * POINTS, (page_height - text.baseline) * POINTS)
    line.setFont(font.NAME, size)
    if text.bold:
        line.setTextRenderMode(_FILLED_AND_EDGED)
    line.textOut(text.text)
    canvas.drawText(line)
    canvas.restoreState()
