import pytest

from shoptui.domain import codes
from shoptui.domain.recognise import read

GS = "\x1d"


@pytest.mark.parametrize(
    "number",
    ["6291041500213", "376104250021234569", "95012346", "10614141999993", "ABCDEF", "425261", "30101231"],
)
def test_plain_numbers_and_letters_are_no_element_strings(number):
    assert read(number).elements is None


@pytest.mark.parametrize(
    ("text", "form"),
    [
        ("P-7K3QXV", "tag of a part"),
        ("9521234543213", "GTIN"),
        ("]E09521234543213", "GTIN"),
        ("]E3952123454321312", "GTIN"),
        ("]I109521234543213", "GTIN"),
        ("376104250021234569", "SSCC"),
        ("00376104250021234569", "SSCC"),
        ("rr473124829gb", "postal item number"),
        ("]C110AB", "GS1 code"),
        ("https://example.com/01/09521234543213/10/ABC?17=301231", "GTIN"),
        ("Brackets, rear", "text"),
        ("\u0666\u0662\u0669\u0661\u0660\u0664\u0661\u0665\u0660\u0660\u0662\u0661\u0663", "text"),
    ],
)
def test_form(text, form):
    assert read(text).form == form
    assert read(text).fails == read(text).refused == ""


@pytest.mark.parametrize(
    ("text", "fails"),
    [
        ("6291041500214", "the form of a GTIN, but fails its check: expected check digit 3, got 4"),
        ("036000241458", "expected check digit 7, got 8"),
        ("95012347", "expected check digit 6, got 7"),
        ("04252615", "expected check digit 0 (or 4 as UPC-E), got 5"),
        ("376104250021234568", "the form of an SSCC, but fails its check: expected check digit 9, got 8"),
        ("00376104250021234568", "(00) in this GS1 code fails its check: expected check digit 9, got 8"),
        ("0109521234543214", "(01) in this GS1 code fails its check: expected check digit 3, got 4"),
        ("]C14106291041500214", "(410) in this GS1 code fails its check: expected check digit 3, got 4"),
        (
            "RR473124828GB",
            "the form of a postal item number, but fails its check: expected check digit 9, got 8",
        ),
        ("P7K3QXM", "the form of one of our tags, but expected check character V, got M"),
        ("P-7K3QX0", "got '0' as character 7"),
    ],
)
def test_a_failed_check_is_a_sentence(text, fails):
    reading = read(text)
    assert fails in reading.fails
    assert not reading.checked
    assert reading.candidates[0] == codes.folded(text) or reading.elements


@pytest.mark.parametrize(
    "text", ["BRACKET", "gaskets", "00000000", "]C0036000241458", "]A0P7K3QXM", "1234567"]
)
def test_words_and_symbols_with_a_check_of_their_own_fail_none(text):
    assert read(text).fails == ""


def test_fields_of_an_element_string():
    reading = read(f"]C1010952123454321310AB{GS}21S-1{GS}3024")
    assert (reading.gtin, reading.lot, reading.serial, reading.count) == ("09521234543213", "AB", "S-1", 24)
    assert reading.candidates == ("(01)09521234543213(10)ab(21)s-1(30)24", "s-1", "09521234543213")


def test_contents_of_a_carton():
    reading = read("02095212345432133712")
    assert (reading.gtin, reading.count) == ("09521234543213", 12)
    assert read("(00)376104250021234569(02)09521234543213(37)4").sscc == "376104250021234569"


@pytest.mark.parametrize("text", ["0209521234543213", "01095212345432133704", "02095212345432131012"])
def test_fields_that_do_not_go_together_are_no_element_string(text):
    assert read(text).elements is None


def test_without_separators_the_gtin_still_stands():
    lost = "0109521234543213" + "10LOT000000000000000001" + "21SERIAL"
    assert read(lost).elements is None
    assert read(lost).candidates[-1] == "09521234543213"
    told = read("]C1" + lost)
    assert told.gtin == "09521234543213"
    assert told.elements.unread


@pytest.mark.parametrize("text", ["]C1" + GS + "10AB" + GS, "(10)AB", " (10)AB "])
def test_one_element_string_however_it_was_carried(text):
    assert codes.normal(text) == "(10)ab"


def test_impossible_dates_and_empty_counts_do_no_harm():
    assert read("]C1010952123454321317301331").gtin == "09521234543213"
    assert read(f"]C1010952123454321330{GS}10A").count is None


@pytest.mark.parametrize("text", ["]", "]C", "]C1", "](", "]J1", "]?0123", "]Y", "\x00", "\u202e", "\ud800"])
def test_odd_texts_are_texts(text):
    reading = read(text)
    assert reading.form == "text"
    assert reading.candidates


def test_nothing_and_too_much_are_refused_with_a_sentence():
    assert read("").refused == "Nothing was scanned."
    assert read("1" * 10_000).refused.startswith("This code is too long: at most 512 characters")
    assert read("1" * 512).refused == ""
    assert len(codes.normal("(10)A" * 10_000)) == 50_000


def test_blanks_at_the_ends_are_part_of_a_text():
    assert codes.normal(" AB ") == " ab "
    assert read("AB ").candidates == ("ab ",)


def test_two_things_that_eight_digits_can_be():
    assert codes.gtins("01234558") == ("00000001234558", "00012345000058")
    assert codes.gtins("95012346", "]E4") == ("00000095012346",)
    assert codes.gtins("04252614", "]E4") == ()


@pytest.mark.parametrize("text", ["", " ", "   ", "\t", "\u00a0", "\n"])
def test_blanks_are_nothing_at_all(text):
    reading = read(text)
    assert reading.refused == "Nothing was scanned."
    assert not reading.candidates
