"""Every kind of label on every stock at every resolution, drawn by other programs and read back."""

from collections import Counter
from dataclasses import replace

import pytest
from PIL import Image, ImageFilter
from reading import drawn, drawn_again, examples, made, on_one, read

from shoptui.labels.layout import lay_out, least_dots
from shoptui.labels.layouts import read_layout
from shoptui.labels.page import Correction
from shoptui.labels.stock import read_stock, stock_names

DPI = (203, 300, 600)
ALL = [(name, dpi) for name in stock_names() for dpi in DPI]


def stock_at(name, dpi):
    return replace(read_stock(name), dpi=dpi)


def turned(picture, degrees):
    return picture.rotate(degrees, Image.Resampling.BICUBIC, expand=True, fillcolor=255)


def blurred(picture, dots):
    return picture.filter(ImageFilter.GaussianBlur(0.3 * dots))


def pale(picture):
    return picture.point([110 + value * 60 // 255 for value in range(256)])


def a_line_missing(picture):
    """One row of dots that the printer's head did not print."""
    torn = picture.copy()
    middle = picture.height * 2 // 3
    torn.paste(255, (0, middle, picture.width, middle + 1))
    return torn


DISTURBANCES = {
    "tilted one way": lambda picture, dots: turned(picture, 6),
    "tilted the other way": lambda picture, dots: turned(picture, -6),
    "upside down": lambda picture, dots: turned(picture, 180),
    "blurred": blurred,
    "pale": lambda picture, dots: pale(picture),
    "a line missing": lambda picture, dots: a_line_missing(picture),
    "tilted, blurred and pale": lambda picture, dots: pale(blurred(turned(picture, 5), dots)),
}


@pytest.mark.parametrize(("name", "dpi"), ALL)
def test_every_label_of_a_page_is_read(name, dpi, tmp_path):
    stock = stock_at(name, dpi)
    labels = examples(max(stock.labels, 14))
    (path,) = made(tmp_path, labels, stock)
    found = [text for page in drawn(path, dpi) for text in read(page)]
    assert Counter(found) == Counter(label.code for label in labels)


@pytest.mark.parametrize(("name", "dpi"), ALL)
def test_every_label_of_a_page_is_read_as_a_second_program_draws_it(name, dpi, tmp_path, long):
    mupdf = pytest.importorskip("pymupdf", reason="MuPDF draws the pages a second time where it is installed")
    if dpi == max(DPI) and not long:
        pytest.skip("with --long")
    stock = stock_at(name, dpi)
    labels = examples(max(stock.labels, 14))
    (path,) = made(tmp_path, labels, stock)
    found = [text for page in drawn_again(path, dpi, mupdf) for text in read(page)]
    assert Counter(found) == Counter(label.code for label in labels)


@pytest.mark.parametrize(("name", "dpi"), ALL)
def test_every_label_is_read_from_a_png(name, dpi, tmp_path, long):
    if dpi == max(DPI) and not long:
        pytest.skip("with --long")
    stock = stock_at(name, dpi)
    labels = examples(max(stock.labels, 14))
    pages = [Image.open(path) for path in made(tmp_path, labels, stock, ".png")]
    found = [text for page in pages for text in read(page.convert("L"))]
    assert Counter(found) == Counter(label.code for label in labels)
    assert all(page.info["dpi"] == pytest.approx((dpi, dpi), abs=0.02) for page in pages)


@pytest.mark.parametrize(("name", "dpi"), ALL)
def test_labels_of_the_default_size_are_read_disturbed(name, dpi, tmp_path, long):
    if dpi == max(DPI) and not long:
        pytest.skip("with --long")
    stock = on_one(stock_at(name, dpi))
    labels = examples(28 if long else 14)
    (path,) = made(tmp_path, labels, stock)
    misread = []
    for label, picture in zip(labels, drawn(path, dpi), strict=True):
        dots = lay_out(label, read_layout(label.kind), stock).bars.dots
        for disturbance, disturb in DISTURBANCES.items():
            if read(disturb(picture, dots)) != [label.code]:
                misread.append((label.kind, disturbance))
    assert misread == []
    assert dots >= least_dots(stock.dot)


def test_labels_of_a_corrected_page_are_read(tmp_path):
    """A printer that scales by 98 % and shifts: what it prints is where it should be, and is read."""
    stock = stock_at("sheet-letter-3x10-66x25", 600)
    labels = examples(30)
    correction = Correction(across=0.98, down=0.985, left=1.5, top=-0.7)
    (path,) = made(tmp_path, labels, stock, correction=correction)
    (page,) = drawn(path, 600)
    printed = Image.new("L", page.size, 255)
    scaled = page.resize((round(page.width * 0.98), round(page.height * 0.985)), Image.Resampling.BICUBIC)
    dot = 25.4 / 600
    printed.paste(scaled, (round(1.5 / dot), round(-0.7 / dot)))
    (plain,) = drawn(made(tmp_path, labels, stock)[0], 600)
    assert read(printed) == sorted(label.code for label in labels)
    for one, other in zip(ink(printed), ink(plain), strict=True):
        assert one == pytest.approx(other, abs=4)  # dots


def ink(picture):
    return picture.point([255 if value < 128 else 0 for value in range(256)]).getbbox()


def test_svg_is_read(tmp_path):
    mupdf = pytest.importorskip("pymupdf", reason="MuPDF draws SVG where it is installed")
    stock = stock_at("sheet-a4-3x10-70x29.7", 600)
    labels = examples(40)
    paths = made(tmp_path, labels, stock, ".svg")
    assert [path.name for path in paths] == ["labels-1.svg", "labels-2.svg"]
    found = []
    for path in paths:
        with mupdf.open(path) as document:
            width = document[0].rect.width
            scale = 210 / 25.4 * 600 / width
            page = document[0].get_pixmap(
                matrix=mupdf.Matrix(scale, scale), colorspace=mupdf.csGRAY, alpha=False
            )
        found += read(Image.frombytes("L", (page.width, page.height), page.samples))
    assert Counter(found) == Counter(label.code for label in labels)
