"""A page as SVG: one path for all bars, and text whose width is set, whatever font the reader has."""

from html import escape
from typing import BinaryIO

from shoptui.labels import font
from shoptui.labels.layout import Text
from shoptui.labels.page import BOLD, Page


def write_svg(page: Page, file: BinaryIO) -> None:
    """Write one page in millimetres."""
    size = f'width="{page.width:g}mm" height="{page.height:g}mm" viewBox="0 0 {page.width:g} {page.height:g}"'
    bars = "".join(
        f"M{x:.5f} {y:.4f}h{width:.5f}v{height:.4f}h-{width:.5f}z" for x, y, width, height in page.rectangles
    )
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" {size}>',
        '<rect width="100%" height="100%" fill="#fff"/>',
        f'<path d="{bars}" shape-rendering="crispEdges"/>',
        f'<g font-family="{font.NAME}, monospace" xml:space="preserve">',
        *map(_text, page.texts),
        "</g>",
        "</svg>",
        "",
    ]
    file.write("\n".join(lines).encode())


def _text(text: Text) -> str:
    bold = f' stroke="#000" stroke-width="{BOLD * text.size:.4f}"' if text.bold else ""
    return (
        f'<text x="{text.x:.4f}" y="{text.baseline:.4f}" font-size="{text.size:.4f}" '
        f'textLength="{font.width(text.text, text.size):.4f}" lengthAdjust="spacingAndGlyphs"{bold}>'
        f"{escape(text.text)}</text>"
    )
