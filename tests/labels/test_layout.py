from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont
from reading import examples, on_one

from shoptui.labels import font
from shoptui.labels.errors import DoesNotFitError
from shoptui.labels.layout import BARS, BARS_SHARE, Label, lay_out
from shoptui.labels.layouts import layout_names, read_layout
from shoptui.labels.lines import fit, in_two
from shoptui.labels.rows import LEAST_BARS
from shoptui.labels.stock import read_stock, stock_names
from shoptui.labels.symbols import QUIET

STOCKS = [read_stock(name) for name in stock_names()]
TAG = "BAARK2Y"


def laid_out(label, stock):
    return lay_out(label, read_layout(label.kind), stock)


def within(found, stock):
    """Nothing reaches into the white along the edges, and nothing lies on anything else."""
    inset, right, bottom = stock.inset, stock.width - stock.inset, stock.height - stock.inset
    bars = found.bars
    spans = [(bars.y, bars.y + bars.height)]
    for text in found.texts:
        assert text.size >= font.LEAST_SIZE - 1e-9
        assert inset - 1e-6 <= text.x
        assert text.x + font.width(text.text, text.size) <= right + 1e-6
        spans.append(
            (
                text.baseline - font.above(text.text) * text.size,
                text.baseline + font.below(text.text) * text.size,
            )
        )
    spans.sort()
    assert spans[0][0] >= inset - 1e-6
    assert spans[-1][1] <= bottom + 1e-6
    assert all(after[0] >= before[1] - 1e-6 for before, after in pairwise(spans))
    module = bars.dots * stock.dot
    length = bars.symbol.modules * module
    assert bars.x - QUIET * module - stock.dot / 2 >= inset - 1e-6
    assert bars.x + length + QUIET * module + stock.dot / 2 <= right + 1e-6


def test_there_is_a_layout_for_every_kind():
    wanted = "badge bag bin blank-bag blank-bin blank-part box command hardware part vehicle wrench"
    assert list(layout_names()) == wanted.split()


@pytest.mark.parametrize("stock", STOCKS, ids=lambda stock: stock.name)
@pytest.mark.parametrize("dpi", [203, 300, 600])
def test_every_kind_fits_every_stock(stock, dpi):
    stock = replace(stock, dpi=dpi)
    for label in examples():
        found = laid_out(label, stock)
        within(found, stock)
        module = found.bars.dots * stock.dot
        assert module >= 0.25
        assert found.bars.height >= max(BARS, BARS_SHARE * found.bars.symbol.modules * module) - 1e-6


@given(
    st.sampled_from(layout_names()),
    st.text(max_size=60),
    st.lists(st.text(max_size=80), max_size=5),
    st.floats(36, 200),
    st.floats(14, 150),
    st.sampled_from((203, 300, 600)),
)
def test_any_words_stay_on_any_label(kind, title, lines, width, height, dpi):
    stock = on_one(replace(STOCKS[0], width=width, height=height, inset=1, dpi=dpi))
    try:
        found = laid_out(Label(kind, TAG, "B-AARK2Y", title, tuple(lines)), stock)
    except DoesNotFitError as error:
        sizes = (error.width or width, error.height or height)
        assert sizes > (width, height)
        return
    assert found.bars.height >= LEAST_BARS - 1e-6
    within(found, stock)


@pytest.mark.parametrize(
    "stock", [stock for stock in STOCKS if stock.height - 2 * stock.inset >= 21.5], ids=str
)
def test_a_bin_is_read_from_two_metres(stock):
    label = Label("bin", "B2Q3456", "B-2Q3456", "A1", ("rack A, shelf 1, left: engine and fuel",))
    found = laid_out(label, stock)
    title = next(text for text in found.texts if text.text == "A1")
    assert title.size * font.CAPITAL >= 9.99


@pytest.mark.parametrize("code", ["Σ3", "Ä-1", "Ж7", "Полка-7"])
def test_a_bin_with_other_letters_is_as_large(code):
    stock = read_stock("sheet-a4-2x8-95x34")
    found = laid_out(Label("bin", "B2Q3456", "B-2Q3456", code, ("rack A",)), stock)
    within(found, stock)
    assert found.texts[0].size * font.CAPITAL >= 9.99


LONG = "Hinterachsdifferentialsperrenschalterhalterung"


def test_a_long_word_is_broken_to_be_readable_and_a_code_is_not():
    first, second = fit(LONG, 60, 20, most_lines=2, most_size=99).lines
    assert first.removesuffix("-") + second == LONG
    assert abs(len(first) - len(second)) <= 1
    assert fit(LONG, 60, 20, most_lines=2, most_size=99, whole=True).lines == (LONG,)
    assert fit("Rotor", 60, 20, most_lines=2, most_size=99).lines == ("Rotor",)
    assert (
        fit("12.34567890123456789012345678", 30, 20, most_lines=2, most_size=99).lines[0].startswith("12.345")
    )


@pytest.mark.parametrize("stock", STOCKS, ids=str)
def test_small_letters_are_never_thickened(stock):
    for label in (*examples(), Label("bag", "G2Q3456", "G-2Q3456", LONG, ("G1",))):
        for text in laid_out(label, stock).texts:
            assert not text.bold or text.size * font.CAPITAL >= 2.49


def test_the_code_of_a_bag_and_what_is_typed_of_a_bin_are_not_small():
    def sizes(label, stock):
        found = laid_out(label, read_stock(stock))
        return {text.text: text.size * font.CAPITAL for text in found.texts}

    bag = sizes(Label("bag", "G2Q3456", "G-2Q3456", LONG, ("G1",)), "sheet-a4-3x10-70x29.7")
    assert bag["G1"] >= 4.49
    assert min(bag[line] for line in bag if LONG.startswith(line.removesuffix("-"))) >= 1.99
    bin_ = sizes(Label("bin", "B2Q3456", "B-2Q3456", "A1", ("rack A, left",)), "sheet-a4-2x8-95x34")
    assert bin_["B-2Q3456"] >= 2.49


def test_the_orders_of_a_box_are_larger_than_its_parcels_number():
    lines = ("order 23-104, 23-107", "came Mon 12 May 2025", "9520000000012")
    for stock in STOCKS:
        found = laid_out(Label("box", "X2Q3456", "X-2Q3456", "Example supply", lines), stock)
        sizes = [text.size for text in found.texts if text.text in lines or text.text.startswith("order")]
        assert sizes[0] >= sizes[-1] - 1e-9


def test_blanks_of_one_run_have_one_size():
    sizes = {laid_out(Label("blank-bag", tag, tag), STOCKS[-1]).texts[-1] for tag in ("G2Q3456", "G2R3456")}
    assert len({(text.size, text.baseline) for text in sizes}) == 1


def test_the_widest_module_that_fits_is_taken():
    def module(width, dpi):
        stock = on_one(replace(read_stock("roll-60x40-203dpi"), width=width, height=60, inset=1.5, dpi=dpi))
        return laid_out(Label("bin", TAG, title="A1"), stock).bars.dots

    assert [module(width, 203) for width in (37, 53, 53.5, 100)] == [2, 3, 3, 4]
    assert [module(width, 300) for width in (37, 48, 100)] == [3, 4, 7]


def test_a_label_that_is_too_narrow_or_too_low_says_what_would_do():
    roll = on_one(read_stock("roll-38x20-300dpi"))
    narrow = replace(roll, width=30)
    label = Label("part", "P8R5F4A", "P-8R5F4A", "Rotor", ("front",))
    with pytest.raises(
        DoesNotFitError, match=r"P-8R5F4A need a label at least 36.7 mm wide .* are 30 mm wide"
    ) as told:
        laid_out(label, narrow)
    within(laid_out(label, replace(roll, width=told.value.width)), replace(roll, width=told.value.width))
    low = replace(roll, height=11)
    with pytest.raises(DoesNotFitError, match=r"at least 12.\d mm high; those of .* are 11 mm high") as told:
        laid_out(label, low)
    found = laid_out(label, replace(roll, height=told.value.height))
    assert "front" in " ".join(found.notes)  # words give way before the code does
    assert found.bars.height >= LEAST_BARS


def test_a_code_is_never_cut_but_refused():
    roll = on_one(read_stock("roll-38x20-300dpi"))
    with pytest.raises(DoesNotFitError, match=r"needs a label at least .* mm wide"):
        laid_out(Label("bin", TAG, "B-AARK2Y", "RACK3LEFTUPPERSHELFBEHINDTHEDOORANDSTAIRS"), roll)


def test_long_words_are_cut_and_said():
    roll = on_one(read_stock("roll-38x20-300dpi"))
    long = "Front upper control arm with ball joint and bushings, left, with a very long name indeed"
    found = laid_out(Label("part", "P8R5F4A", "P-8R5F4A", long), roll)
    assert any(text.text.endswith("…") for text in found.texts)
    assert f"{long} is cut: there is no room for all of it." in found.notes
    within(found, roll)


def test_two_lines_are_even_and_only_where_they_are_larger():
    assert in_two("Front upper control arm, left") == ("Front upper", "control arm, left")
    assert in_two("Rotor") is None
    assert fit("Front upper control arm", 60, 30, most_lines=2, most_size=99).lines == (
        "Front upper",
        "control arm",
    )
    assert fit("Front upper control arm", 60, 4, most_lines=2, most_size=99).lines == (
        "Front upper control arm",
    )
    assert fit("Front upper control arm", 60, 30, most_lines=1, most_size=99).lines == (
        "Front upper control arm",
    )


@pytest.mark.parametrize(
    ("given", "set_", "said"),
    [
        ("Größe Łódź Ωμέγα Привет", "Größe Łódź Ωμέγα Привет", ()),
        ("Gro\u0308ße", "Größe", ()),
        (
            "שלום עולם 2",
            "[Hebrew] 2",
            ("Hebrew cannot be set in the font of labels; [Hebrew] stands for it.",),
        ),
        ("مرحبا", "[Arabic]", ("Arabic cannot be set in the font of labels; [Arabic] stands for it.",)),
        ("漢字 カナ", "[Chinese] [Japanese]", None),
        ("ไทย हिन्दी", "[Thai] [Devanagari]", None),
        ("③ \uff21\uff22", "3 AB", None),
        ("🚗 1", "\ufffd 1", ("🚗 cannot be set in the font of labels; \ufffd stands for it.",)),
        ("a\x1b[31m\u202eb", "a\ufffd[31m\ufffdb", None),
        (
            "x\u0302",
            "x",
            ("The accent combining circumflex accent cannot be set in the font of labels and is left out.",),
        ),
    ],
)
def test_what_the_font_lacks_is_substituted_and_said(given, set_, said):
    found = font.settable(given)
    assert found.text == set_
    if said is None:
        assert found.notes
    else:
        assert found.notes == said


def test_the_font_has_all_of_europes_letters():
    assert font._glyphs().issuperset(font._LATIN)


def test_notes_reach_the_label():
    found = laid_out(Label("part", "P8R5F4A", "P-8R5F4A", "שלום", ("עולם",)), on_one(STOCKS[0]))
    assert found.notes == ("Hebrew cannot be set in the font of labels; [Hebrew] stands for it.",)
    assert found.texts[0].text == "[Hebrew]"


def test_measures_of_the_font_hold_for_every_glyph():
    """Pillow draws each glyph that can be set; none leaves the room that its line is given."""
    size = 2048
    pen = ImageFont.truetype(str(font.path()), size, layout_engine=ImageFont.Layout.BASIC)
    signs = [sign for code in range(0x20, 0x2FFF) if font.settable(sign := chr(code)) == font.Settable(sign)]
    assert len(signs) > 2500
    for sign in signs:
        _, top, _, bottom = pen.getbbox(sign, anchor="ls")
        assert -top <= font.above(sign) * size + 1, sign
        assert bottom <= font.below(sign) * size + 1, sign
        assert pen.getlength(sign) == pytest.approx(font.ADVANCE * size)
    assert -pen.getbbox("H", anchor="ls")[1] == font.CAPITAL * size
