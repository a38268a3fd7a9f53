import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from reading import drawn

from shoptui.labels import test_page
from shoptui.labels.errors import MeasureError
from shoptui.labels.files import write_pages
from shoptui.labels.page import NO_CORRECTION, Correction
from shoptui.labels.stock import read_stock, stock_names
from shoptui.labels.test_page import correction_from, draw_test_page, ruler_lengths, ruler_start

A4 = read_stock("sheet-a4-3x10-70x29.7")
scales = st.floats(0.93, 1.07)
shifts = st.floats(-4, 4)
corrections = st.builds(Correction, scales, scales, shifts, shifts)


def printed(drawn_at, scale, shift):
    return drawn_at * scale + shift


def measured(stock, printer, correction):
    """What a person measures on the test page that a printer printed, drawn with a correction."""
    page = draw_test_page(stock, correction)
    across, down = page.rectangles[0], max(page.rectangles, key=lambda each: each.height)
    return {
        "across": across.width * printer.across,
        "down": down.height * printer.down,
        "left": printed(across.x, printer.across, printer.left),
        "top": printed(down.y, printer.down, printer.top),
    }


@given(corrections)
def test_what_is_measured_tells_how_the_printer_is(printer):
    found = correction_from(A4, NO_CORRECTION, **measured(A4, printer, NO_CORRECTION))
    same(found, printer)


@given(corrections)
def test_a_second_page_finds_nothing_more_to_mend(printer):
    first = correction_from(A4, NO_CORRECTION, **measured(A4, printer, NO_CORRECTION))
    second = measured(A4, printer, first)
    assert (second["across"], second["down"]) == pytest.approx(ruler_lengths(A4), abs=0.01)
    assert (second["left"], second["top"]) == pytest.approx(ruler_start(A4), abs=0.01)
    same(correction_from(A4, first, **second), printer)


def same(found, printer):
    assert (found.across, found.down) == pytest.approx((printer.across, printer.down), abs=2e-5)
    assert (found.left, found.top) == pytest.approx((printer.left, printer.top), abs=2e-3)


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"across": 15}, "About 150 mm were expected for the ruler across; 15 came. Measure it again"),
        ({"down": 170}, "About 150 mm were expected for the ruler down; 170 came"),
        ({"across": float("nan")}, "nan came"),
        (
            {"left": 50},
            "About 5 mm were expected from the page's left edge to the zero of the rulers; 50 came",
        ),
        ({"top": -20}, "the page's top edge"),
    ],
)
def test_what_no_printer_does_is_refused(wrong, words):
    with pytest.raises(MeasureError, match=words):
        correction_from(A4, NO_CORRECTION, **{"across": 150, "down": 150, "left": 5, "top": 5, **wrong})


@pytest.mark.parametrize("name", stock_names())
def test_the_page_is_drawn_on_every_stock(name, tmp_path):
    stock = read_stock(name)
    page = draw_test_page(stock, NO_CORRECTION)
    for each in page.rectangles:
        assert 0 <= each.x < each.x + each.width <= stock.page_width
        assert 0 <= each.y < each.y + each.height <= stock.page_height
    (path,) = write_pages([page], 1, tmp_path / "test.pdf").paths
    (picture,) = drawn(path, stock.dpi)
    assert picture.width == round(stock.page_width / stock.dot)


def test_its_bars_are_read_and_say_how_wide_they_are(tmp_path):
    import zxingcpp  # noqa: PLC0415 - these are no tags

    (path,) = write_pages([draw_test_page(A4, NO_CORRECTION)], 1, tmp_path / "test.pdf").paths
    (picture,) = drawn(path, 600)
    found = {each.text for each in zxingcpp.read_barcodes(picture)}
    assert found == {f"{dots} DOTS" for dots in range(6, 11)}


def test_the_ruler_is_as_long_as_it_says(tmp_path):
    (path,) = write_pages([draw_test_page(A4, NO_CORRECTION)], 1, tmp_path / "test.png").paths
    with Image.open(path) as picture:
        row = [picture.getpixel((x, round(5.1 / A4.dot))) for x in range(picture.width)]
    dots = [x for x, pixel in enumerate(row) if not pixel]
    assert (len(dots) * A4.dot, dots[0] * A4.dot) == pytest.approx((150, 5), abs=0.05)
    assert test_page.LONGEST_RULER == 150
