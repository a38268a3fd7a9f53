import pytest
from PIL import Image, ImageDraw
from reading import examples, read

from shoptui.labels.errors import TextError
from shoptui.labels.screen import BLACK, HALF, WHITE, cells, columns


def photographed(rows, width, height):
    """The picture of a terminal with cells of so many pixels, dark around them."""
    picture = Image.new("L", (len(rows[0]) * width + 80, len(rows) * height + 80), 30)
    draw = ImageDraw.Draw(picture)
    for down, row in enumerate(rows):
        for across, cell in enumerate(row):
            left, top = 40 + across * width, 40 + down * height
            draw.rectangle((left, top, left + width - 1, top + height - 1), cell.behind)
            if cell.character == HALF:
                draw.rectangle((left, top, left + width // 2 - 1, top + height - 1), cell.colour)
    return picture


@pytest.mark.parametrize(("width", "height"), [(6, 12), (8, 16), (10, 20), (12, 25)])
def test_a_tag_is_read_off_the_glass(width, height):
    for label in examples(20):
        assert read(photographed(cells(label.code), width, height)) == [label.code]


def test_black_and_white_are_said_outright():
    rows = cells("BAARK2Y")
    assert {cell.colour for row in rows for cell in row} | {cell.behind for row in rows for cell in row} == {
        BLACK,
        WHITE,
    }
    assert {cell.character for row in rows for cell in row} <= {" ", HALF}
    assert all(cell.behind == WHITE == cell.colour for row in rows for cell in (*row[:5], *row[-5:]))


def test_it_is_as_wide_as_it_says():
    assert columns("BAARK2Y") == len(cells("BAARK2Y")[0]) == 66
    assert columns("K2345" + "67") == len(cells("K234567")[0]) == 55
    assert len(cells("BAARK2Y", 9)) == 9


def test_what_no_symbol_carries_is_refused():
    with pytest.raises(TextError):
        cells("")
