"""Labels of every kind, drawn into pictures by programs that are not ours and read back from them."""

import random
from dataclasses import replace
from pathlib import Path

import pypdfium2 as pdfium
import zxingcpp
from PIL import Image

from shoptui.domain.tags import Kind, Tag, TagError, allocate, shown
from shoptui.labels.files import write_labels
from shoptui.labels.layout import Label
from shoptui.labels.sheets import Job

EXAMPLES = (
    Label("bin", "B", title="A1", lines=("rack A, shelf 1, left",)),
    Label("bin", "B", title="R3-A-12", lines=("rack 3",)),
    Label("part", "P", title="Front upper control arm, left", lines=("Longbed, front axle", "MK17-220")),
    Label(
        "hardware", "H", title="M12 x 1.5 x 35 - 10.9", lines=("class 10.9, one use: new each time", "Bolt")
    ),
    Label("bag", "G", title="Front subframe bolts", lines=("Longbed", "12 x M12x1.75x60")),
    Label("box", "X", title="Example supply", lines=("order 4711", "came Mon 12 May")),
    Label("vehicle", "V", title="Longbed", lines=("pickup",)),
    Label("wrench", "W", title="Wrench 2", lines=("20 to 100 N m", "due Fri 1 Aug")),
    Label("badge", "U", title="Lead fabricator", lines=("The example shop",)),
    Label("command", "K", title="yes", lines=("Yes to the open question",)),
    Label("blank-part", "P"),
    Label("blank-bag", "G"),
    Label("blank-bin", "B"),
    Label("part", "P", title="Größe Ωμέγα Привет 漢字 שלום", lines=("é à ñ ③",)),
)


def examples(count=14, seed=1974):
    """Labels of every kind in turn, each with a tag of its own."""
    rng, taken = random.Random(seed), set()
    labels = []
    for number in range(count):
        label = EXAMPLES[number % len(EXAMPLES)]
        tag = allocate(Kind(label.code), rng, taken.__contains__)
        taken.add(tag)
        labels.append(replace(label, code=tag, shown=shown(tag)))
    return labels


def on_one(stock):
    """The same label stock as a roll, so that every label is a picture of its own."""
    return replace(stock, columns=1, rows=1, page_width=stock.width, page_height=stock.height, left=0, top=0)


def made(folder, labels, stock, suffix=".pdf", **options):
    return write_labels(Job(labels, stock, **options), Path(folder) / f"labels{suffix}").paths


def drawn(path, dpi):
    """Pages as pdfium draws them, one dot a pixel."""
    with pdfium.PdfDocument(path) as document:
        return [page.render(scale=dpi / 72, grayscale=True).to_pil().convert("L") for page in document]


def drawn_again(path, dpi, mupdf):
    """The same by MuPDF."""
    with mupdf.open(path) as document:
        pages = [
            page.get_pixmap(matrix=mupdf.Matrix(dpi / 72, dpi / 72), colorspace=mupdf.csGRAY, alpha=False)
            for page in document
        ]
    return [Image.frombytes("L", (page.width, page.height), page.samples) for page in pages]


def read(picture):
    """What zxing-cpp reads in a picture, sorted.

    Where a scan line leaves the bars of a tilted or blurred symbol, zxing-cpp now and then tells its first
    character wrong beside the right text; what is no tag is left out, as the program does.
    """
    found = zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.Code128)
    return sorted(each.text for each in found if is_tag(each.text))


def is_tag(text):
    try:
        return str(Tag.parse(text)) == text
    except TagError:
        return False
