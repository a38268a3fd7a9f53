import pytest

from shoptui.labels.descriptions import packaged
from shoptui.labels.errors import DescriptionError, PositionError
from shoptui.labels.layouts import layout_names, read_layout
from shoptui.labels.stock import read_stock, stock_names

SHEET = """kind = "sheet"
page_width = 210
page_height = 297
columns = 2
rows = 4
label_width = 100
label_height = 70
pitch_across = 102
pitch_down = 72
margin_left = 4
margin_top = 5
inset = 2
dpi = 300
"""
ROLL = 'kind = "roll"\nlabel_width = 57\nlabel_length = 32\ngap = 3\ninset = 1.5\ndpi = 203\n'
LAYOUT = """widest_module = 0.5
between = 1

[[rows]]
what = "title"
share = 1

[[rows]]
what = "symbol"
share = 2
"""


@pytest.fixture
def own(tmp_path):
    for name in ("stock", "layouts"):
        (tmp_path / name).mkdir()
    return tmp_path


def test_there_are_sheets_of_a4_and_letter_and_rolls_at_203_and_300_dpi():
    stocks = [read_stock(name) for name in stock_names()]
    sheets = [stock for stock in stocks if not stock.roll]
    assert {stock.page_width for stock in sheets} == {210, 215.9}
    assert len(sheets) >= 4
    assert {stock.dpi for stock in stocks if stock.roll} == {203, 300}
    assert sum(stock.roll for stock in stocks) >= 3


@pytest.mark.parametrize("name", stock_names())
def test_stock_is_named_by_its_geometry(name):
    stock = read_stock(name)
    size = f"{stock.width:g}x{stock.height:g}"
    assert name.endswith(
        f"-{size}-{stock.dpi:g}dpi" if stock.roll else f"-{stock.columns}x{stock.rows}-{size}"
    )


def test_a_stock_of_ones_own_comes_first(own):
    name = "roll-60x40-203dpi"
    assert read_stock(name, own) == read_stock(name)
    (own / "stock" / f"{name}.toml").write_text(ROLL)
    (own / "stock" / "mine.toml").write_text(SHEET)
    assert read_stock(name, own).width == 57
    assert read_stock("mine", own).labels == 8
    assert {"mine", name} < set(stock_names(own))


def test_a_layout_of_ones_own_comes_first(own):
    (own / "layouts" / "bin.toml").write_text(LAYOUT)
    assert [row.what for row in read_layout("bin", own).rows] == ["title", "symbol"]
    assert len(read_layout("bin").rows) == 4
    assert set(layout_names(own)) == set(layout_names())


def test_positions_are_counted_row_by_row():
    stock = read_stock("sheet-a4-3x10-70x29.7")
    assert stock.corner(1) == (0, 0)
    assert stock.corner(3) == (140, 0)
    assert stock.corner(4) == (0, 29.7)
    for wrong in (0, 31, -1):
        with pytest.raises(PositionError, match=rf"A position from 1 to 30 was expected .*; {wrong} came"):
            stock.corner(wrong)


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        (
            "label_width = 100",
            "label_width = 110",
            "mine.toml, line 6: Labels within the page's width of 210 mm",
        ),
        (
            "rows = 4",
            "rows = 5",
            "mine.toml, line 7: Labels within the page's height of 297 mm .* ends at 363 mm",
        ),
        (
            "pitch_across = 102",
            "pitch_across = 90",
            "line 8: A pitch of at least the label's width of 100 mm",
        ),
        ("rows = 4", "rows = 4.5", "line 5: A whole number was expected as rows; 4.5 came"),
        ("rows = 4", 'rows = "4"', "line 5: A number from 1 to 500 was expected as rows; 4 came"),
        ("rows = 4", "rows = true", "line 5: A number from 1 to 500 was expected as rows; True came"),
        ("rows = 4", "rows = 0", "line 5: A number from 1 to 500 was expected as rows; 0 came"),
        ("dpi = 300", "dpi = nan", "line 13: A number from 100 to 2400 was expected as dpi; nan came"),
        ("dpi = 300", "", "A number from 100 to 2400 was expected as dpi; it is missing"),
        ("inset = 2", "inset = 40", "line 12: An inset that leaves something of the label was expected"),
        ("dpi = 300", "dpi = 300\ncolor = 1", "line 14: color is not known here"),
        ('kind = "sheet"', 'kind = "card"', "line 1: One of sheet, roll was expected; card came"),
        ("columns = 2", "columns = ", "line 4: A number, words .* was expected after =; columns = came"),
        ("columns = 2", "columns = three", "line 4: A number, .* after =; columns = three came"),
        ("columns = 2", "columns = 2,5", "line 4: One value was expected after =, .*; columns = 2,5 came"),
        ("columns = 2", "columns 2", "line 4: name = value was expected; columns 2 came"),
        ("columns = 2", "colums = 2", "line 4: colums is not known here; columns was expected"),
        ("rows = 4", "row = 4", "line 5: row is not known here; rows was expected"),
        ("label_width = 100", "", "as label_width; it is missing"),
        (
            "columns = 2",
            "columns = 2\ncolumns = 3",
            "mine.toml, line 5: Every name once was expected; columns = 3 came",
        ),
    ],
)
def test_wrong_stock_is_named_with_file_and_line(own, before, after, words):
    (own / "stock" / "mine.toml").write_text(SHEET.replace(before, after))
    with pytest.raises(DescriptionError, match=words):
        read_stock("mine", own)


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        (
            'what = "symbol"\nshare = 2',
            'what = "symbol"\nshare = -2',
            "bin.toml, line 10: A number from 0 to 100",
        ),
        ('what = "symbol"', 'what = "shown"', 'One row with what = "symbol" was expected'),
        ('what = "title"', 'what = "headline"', "line 5: One of title, symbol, .* headline came"),
        ('what = "title"', 'what = "title"\nbold = 1', "line 6: true or false was expected; 1 came"),
        ('what = "title"', 'what = "words"', "Words in quotes was expected as words; it is missing"),
        ('what = "symbol"', 'what = "symbol"\nbold = true', "line 10: bold is not known here"),
        ("between = 1", "", "as between; it is missing"),
        ("[[rows]]", "[rows]", "TOML was expected|Every name"),
    ],
)
def test_a_wrong_layout_is_named_with_file_and_line(own, before, after, words):
    (own / "layouts" / "bin.toml").write_text(LAYOUT.replace(before, after))
    with pytest.raises(DescriptionError, match=words):
        read_layout("bin", own)


def test_a_name_that_is_not_there_lists_what_is():
    with pytest.raises(DescriptionError, match=r"No stock of that name .* sheet-a4-2x5-105x59.4"):
        read_stock("../../etc/passwd")
    with pytest.raises(DescriptionError, match=r"No layouts of that name .* bag, "):
        read_layout("crate")


def test_a_file_that_is_no_text_or_may_not_be_read_is_named(own):
    (own / "stock" / "mine.toml").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(DescriptionError, match=r"mine.toml, line 1: Text in UTF-8 was expected"):
        read_stock("mine", own)
    (own / "stock" / "mine.toml").write_bytes(SHEET.encode() + "# Bögen\n".encode("latin-1"))
    with pytest.raises(DescriptionError, match=r"mine.toml, line 14: Text in UTF-8 was expected"):
        read_stock("mine", own)


def test_a_file_may_begin_with_the_mark_of_utf_8(own):
    (own / "stock" / "mine.toml").write_text(SHEET, "utf-8-sig")
    assert read_stock("mine", own).labels == 8


def test_the_packaged_descriptions_lie_in_the_package():
    assert (packaged() / "command_tags.toml").is_file()
