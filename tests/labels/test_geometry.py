"""Bars and words measured in the PDF itself, by pdfium, and checked against what is published."""

import ctypes
from dataclasses import replace
from itertools import groupby, pairwise

import numpy as np
import pypdfium2 as pdfium
import pypdfium2.raw as pdfium_c
import pytest
from code128 import STOP, WIDTHS, decode
from reading import drawn, examples, made, on_one

from shoptui.labels.layout import lay_out
from shoptui.labels.layouts import read_layout
from shoptui.labels.stock import read_stock, stock_names
from shoptui.labels.symbols import symbol

MM = 25.4 / 72
ALL = [(name, dpi) for name in stock_names() for dpi in (203, 300, 600)]
GRADE_A = 0.62
"""Least decodability of grade A in ISO/IEC 15416 (from memory)."""


def stock_at(name, dpi):
    return on_one(replace(read_stock(name), dpi=dpi))


def bars_of(page):
    """Bars as (left, right, bottom, top) in mm from the page's lower left corner, from left to right."""
    found = []
    for each in page.get_objects(filter=(pdfium_c.FPDF_PAGEOBJ_PATH,)):
        count = pdfium_c.FPDFPath_CountSegments(each)
        points = []
        for at in range(count):
            segment = pdfium_c.FPDFPath_GetPathSegment(each, at)
            if pdfium_c.FPDFPathSegment_GetType(segment) == pdfium_c.FPDF_SEGMENT_MOVETO and points:
                found.append(box(points))
                points = []
            x, y = ctypes.c_float(), ctypes.c_float()
            pdfium_c.FPDFPathSegment_GetPoint(segment, x, y)
            points.append((x.value * MM, y.value * MM))
        found.append(box(points))
    return sorted(found)


def box(points):
    across, down = zip(*points, strict=True)
    return min(across), max(across), min(down), max(down)


@pytest.mark.parametrize(("name", "dpi"), ALL)
def test_bars_in_the_pdf(name, dpi, tmp_path):
    stock = stock_at(name, dpi)
    labels = examples()
    (path,) = made(tmp_path, labels, stock)
    with pdfium.PdfDocument(path) as document:
        for label, page in zip(labels, document, strict=True):
            bars = bars_of(page)
            lefts, rights = ([bar[side] / stock.dot for bar in bars] for side in (0, 1))
            edges = [edge for pair in zip(np.round(lefts), np.round(rights), strict=True) for edge in pair]
            # Each bar lies 0.15 dot inside of whole dots.
            assert np.subtract(lefts, np.round(lefts)) == pytest.approx(0.15, abs=0.01)
            assert np.subtract(np.round(rights), rights) == pytest.approx(0.15, abs=0.01)
            dots = np.diff(edges)
            module = dots.min()
            assert decode((dots / module).astype(int)) == label.code
            assert module * stock.dot >= 0.25
            # Quiet zones of ten modules (GS1 General Specifications 5.4.4.2), up to the label's edge.
            assert bars[0][0] >= 10 * module * stock.dot
            assert bars[-1][1] <= stock.width - 10 * module * stock.dot
            heights = {round(top - bottom, 3) for _, _, bottom, top in bars}
            assert len(heights) == 1
            # ISO/IEC 15417: 5 mm or 15 % of the length, whichever is greater (from memory).
            assert min(heights) >= max(5, 0.15 * (bars[-1][1] - bars[0][0])) - 0.01


@pytest.mark.parametrize(("name", "dpi"), [(name, dpi) for name, dpi in ALL if dpi == 300])
def test_no_text_leaves_its_label(name, dpi, tmp_path):
    """Words in the PDF, each on a page as large as its label, the line along bold letters' edges added."""
    stock = stock_at(name, dpi)
    (path,) = made(tmp_path, examples(), stock)
    with pdfium.PdfDocument(path) as document:
        for page in document:
            text = page.get_textpage()
            assert text.count_chars()
            for at in range(text.count_chars()):
                left, bottom, right, top = (side * MM for side in text.get_charbox(at))
                assert min(left, bottom) >= stock.inset - 0.3
                assert right <= stock.width - stock.inset + 0.3
                assert top <= stock.height - stock.inset + 0.3


@pytest.mark.parametrize("name", stock_names())
def test_no_ink_leaves_its_label(name, tmp_path):
    stock = stock_at(name, 300)
    (path,) = made(tmp_path, examples(), stock)
    edge = int((stock.inset - 0.3) / stock.dot)
    for page in drawn(path, 300):
        picture = np.asarray(page)
        inside = picture[edge:-edge, edge:-edge]
        assert (picture < 250).sum() == (inside < 250).sum() > 0


def similar(widths):
    """Distances from edge to similar edge, which bars that are too wide or too narrow leave as they are."""
    return tuple(one + other for one, other in pairwise(widths[:5]))


BLACK = {}
"""Distances in modules to the modules of black of the characters that have them: up to two."""
for word in (*WIDTHS, STOP[:6]):
    modules = tuple(map(int, word))
    BLACK.setdefault(similar(modules), set()).add(sum(modules[::2]))


def decodability(widths):
    """Least decodability of a symbol's characters by ISO/IEC 15416 for Code 128 (formula from memory).

    V1 is how far each distance between similar edges stays from the thresholds between whole modules; V2 how
    far the sum of the bars stays from 1.75 modules too many or too few.

    Args:
        widths: Of bars and spaces in turn, in any unit.

    """
    found = []
    for at in range(0, len(widths) - 6, 6):
        character = widths[at : at + 6]
        module = sum(character) / 11
        distances = [each / module for each in similar(character)]
        found += [1 - abs(each - round(each)) * 2 for each in distances]
        black = sum(character[::2]) / module
        modules = min(BLACK[tuple(map(round, distances))], key=lambda each, black=black: abs(black - each))
        found.append((1.75 - abs(black - modules)) / 1.75)
    return min(found)


def grown(widths, growth):
    """Each bar wider by so much, and each space narrower."""
    return [width - growth if at % 2 else width + growth for at, width in enumerate(widths)]


def test_decodability_of_a_perfect_and_of_a_spoilt_symbol():
    runs = symbol("BAARK2Y").runs
    assert decodability(runs) == pytest.approx(1)
    # Three bars, each 0.2 modules too wide.
    assert decodability(grown(runs, 0.2)) == pytest.approx((1.75 - 0.6) / 1.75)
    # One bar that begins 0.1 modules late: two distances are off, and the character is shorter.
    assert decodability([*runs[:1], runs[1] + 0.1, runs[2] - 0.1, *runs[3:]]) == pytest.approx(0.8)


@pytest.mark.parametrize(("name", "dpi"), ALL)
def test_labels_of_the_default_size_are_of_grade_a(name, dpi, tmp_path):
    """On the dots of the printer, each bar printed -0.2 to +0.3 dot too wide."""
    stock = stock_at(name, dpi)
    labels = examples()
    (path,) = made(tmp_path, labels, stock)
    for label, page in zip(labels, drawn(path, dpi), strict=True):
        bars = lay_out(label, read_layout(label.kind), stock).bars
        row = np.asarray(page)[round((bars.y + bars.height / 2) / stock.dot)] < 128
        widths = [len(list(run)) for _, run in groupby(row)][1:-1]
        for growth in (-0.2, -0.1, 0, 0.1, 0.2, 0.3):
            assert decodability(grown(widths, growth)) >= GRADE_A, (label.kind, growth)
