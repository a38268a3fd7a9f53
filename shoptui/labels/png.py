"""A page as a PNG picture in black and white, one pixel for each dot of the printer, drawn by Pillow."""

from typing import TYPE_CHECKING, BinaryIO

from shoptui.labels import font
from shoptui.labels.page import BOLD, Page
from shoptui.labels.stock import MM_PER_INCH

if TYPE_CHECKING:
    from PIL.ImageDraw import ImageDraw

    from shoptui.labels.layout import Text


def write_png(page: Page, file: BinaryIO) -> None:
    """Write one page; its resolution is written down in the file."""
    from PIL import Image, ImageDraw  # noqa: PLC0415 - costs time that others need not spend

    dot = page.dot
    picture = Image.new("1", (round(page.width / dot), round(page.height / dot)), 1)
    draw = ImageDraw.Draw(picture)
    for x, y, width, height in page.rectangles:
        # Whole dots: a bar is drawn a little inside of them, and a rectangle's last pixel is its own.
        left, right = round(x / dot), round((x + width) / dot)
        top, bottom = round(y / dot), round((y + height) / dot)
        draw.rectangle((left, top, max(left, right - 1), max(top, bottom - 1)), fill=0)
    for text in page.texts:
        _write(draw, text, dot)
    picture.save(file, "PNG", dpi=(MM_PER_INCH / dot, MM_PER_INCH / dot))


def _write(draw: "ImageDraw", text: "Text", dot: float) -> None:
    size = text.size / dot
    thick = round(BOLD / 2 * size) if text.bold else 0
    for at, character in enumerate(text.text):  # one by one: Pillow rounds each step to whole pixels
        x = text.x / dot + at * font.ADVANCE * size
        draw.text((x, text.baseline / dot), character, 0, font.pen(size), anchor="ls", stroke_width=thick)
