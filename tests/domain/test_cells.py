"""Cells of somebody's list, as spreadsheets in several countries write them."""

from datetime import date, timedelta

import pytest

from shoptui.domain.amounts import currency, minor_digits, money, outside_work, price
from shoptui.domain.cells import CellError, Pieces, day, listed, pieces, quantity, whole, words, yes
from shoptui.domain.days import day_words
from shoptui.domain.part_cells import codes, hours, positions
from shoptui.domain.prices import Price, Sure
from shoptui.domain.records import OutsideWork


@pytest.mark.parametrize(
    ("cell", "wanted"),
    [
        ("4", Pieces(4)),
        ("4.0", Pieces(4)),
        ("4,00", Pieces(4)),
        ("4 pcs.", Pieces(4)),
        ("2 pairs", Pieces(4, "pair", 2)),
        ("1 Pair", Pieces(2, "pair", 2)),
        ("1 set of 4", Pieces(4, "set", 4)),
        ("3 packs of 10", Pieces(30, "pack", 10)),
        ("1 kit", Pieces(1, "kit", 1)),
        ("2 pr", Pieces(4, "pair", 2)),
        ("2 ea.", Pieces(2)),
        ("2 pcs", Pieces(2)),
        ("2 x", Pieces(2)),
        ("3 pk of 10", Pieces(30, "pack", 10)),
    ],
)
def test_quantities(cell, wanted):
    assert pieces(cell) == wanted


@pytest.mark.parametrize(
    "cell",
    [
        "",
        "four",
        "-1",
        "0",
        "1.5",
        "1,5",
        "4.000",
        "1 set",
        "2 dozens",
        "1 pair of 3",
        "999999999",
        "٤",
        "=2+2",
    ],
)
def test_what_is_no_quantity_is_refused_in_words(cell):
    with pytest.raises(CellError, match=r"expected|not said|pair is two"):
        pieces(cell)


@pytest.mark.parametrize(
    "cell", ["05.11.2026", "11/05/2026", "2026-13-01", "2026-02-30", "5 Nov", "30 Feb 2026", "+6", ""]
)
def test_a_day_that_can_be_read_in_two_ways_or_is_none(cell):
    with pytest.raises(CellError):
        day(cell)


def test_days():
    assert day("2026-11-05") == date(2026, 11, 5)
    assert day("-3", date(2026, 3, 1)) == date(2026, 2, 26)
    for cell in ("2026-11-05 00:00:00", "2026/11/05", "2026-11-05T00:00", "2026-11-05T00:00:00.000"):
        assert day(cell) == date(2026, 11, 5)


TODAY = date(2026, 11, 25)


@pytest.mark.parametrize(
    ("cell", "found"),
    [
        ("12 Nov", date(2026, 11, 12)),
        ("Nov 12", date(2026, 11, 12)),
        ("Wed 25 nov", date(2026, 11, 25)),
        ("Wednesday, 25. November 2026", date(2026, 11, 25)),
        ("25th November", date(2026, 11, 25)),
        ("5 Feb", date(2027, 2, 5)),
        ("30 Jun", date(2026, 6, 30)),
        ("29 Feb 2028", date(2028, 2, 29)),
        ("29 Mar 2026", date(2026, 3, 29)),  # the night in which Central European clocks skip an hour
        ("27 Mar 2026", date(2026, 3, 27)),
    ],
)
def test_a_day_as_people_say_it(cell, found):
    assert day(cell, TODAY) == found


@pytest.mark.parametrize(
    ("cell", "said"),
    [
        ("29 Feb", "There is no 29 Feb in any year near this one"),
        ("29 Feb 2026", "There is no 29 Feb in 2026"),
        ("31 Nov", "There is no 31 Nov"),
        ("Mon 25 Nov", "25 Nov 2026 is a Wed, not a Mon"),
        ("12 Nox", "12 Nox came"),
        ("12 Nov 1926", "from 2000 to 2100"),
    ],
)
def test_a_day_that_there_is_not(cell, said):
    with pytest.raises(CellError, match=said):
        day(cell, TODAY)


def test_a_day_that_is_said_is_read_as_that_day():
    for far in range(-180, 181):
        there = TODAY + timedelta(days=far)
        assert day(day_words(there, TODAY), TODAY) == there


@pytest.mark.parametrize(
    ("cell", "said"),
    [
        ("0", "1 or more was expected, not 0"),
        ("-1", "1 or more was expected, not -1"),
        ("1000000000", "At most 100000 pieces were expected, not 1000000000"),
        ("two", "A whole number"),
        ("1.5", "A whole number"),
    ],
)
def test_what_is_no_number_of_pieces(cell, said):
    with pytest.raises(CellError, match=said):
        quantity(cell)


@pytest.mark.parametrize("cell", ["1000000000", "952123454321", "100001"])
def test_too_many_pieces_are_told_the_most(cell):
    with pytest.raises(CellError, match=f"1 to 100000 pieces were expected; {cell} came"):
        pieces(cell)


@pytest.mark.parametrize("cell", ["1000", "-1", "1000000000"])
def test_a_number_that_is_none_of_pieces_is_told_its_own_range(cell):
    with pytest.raises(CellError, match=f"0 to 999 was expected, not {cell}"):
        quantity(cell, least=0, most=999)


@pytest.mark.parametrize(
    ("cell", "said"),
    [
        ("29 February", "write such as 29 Feb 2028"),
        ("12 Nov", "write such as 12 Nov 2026"),
        ("30 Feb", "There is no 30 Feb in any year"),
    ],
)
def test_the_year_that_is_asked_for_has_the_day(cell, said):
    with pytest.raises(CellError, match=said):
        day(cell)


@pytest.mark.parametrize("cell", ["2,5 h", "2.5h", "2,5 hours", "2.5 hrs", "2.5"])
def test_hours_as_people_write_them(cell):
    assert hours(cell) == (2.5, 2.5, 2.5)


@pytest.mark.parametrize(
    ("cell", "said"),
    [
        ("1926-11-05", "from 2000 to 2100"),
        ("2201-11-05", "from 2000 to 2100"),
        ("25.11.2026", "came\\.$"),
        ("05.11.2026", "taken for the month"),
        ("2026-11/05", "came\\.$"),
    ],
)
def test_what_is_said_of_a_day_is_true(cell, said):
    with pytest.raises(CellError, match=said):
        day(cell)


@pytest.mark.parametrize(
    ("cell", "wanted"),
    [
        ("", Price()),
        ("?", Price()),
        ("unknown", Price()),
        ("free", Price(Sure.EXACT, 0, currency="EUR")),
        ("0.00", Price(Sure.EXACT, 0, currency="EUR")),
        ("129.90", Price(Sure.EXACT, 12990, currency="EUR")),
        ("129,90", Price(Sure.EXACT, 12990, currency="EUR")),
        ("129,9", Price(Sure.EXACT, 12990, currency="EUR")),
        ("1,299.00", Price(Sure.EXACT, 129900, currency="EUR")),
        ("1.299,00 €", Price(Sure.EXACT, 129900, currency="EUR")),
        ("1 299,00", Price(Sure.EXACT, 129900, currency="EUR")),
        ("1'299.00", Price(Sure.EXACT, 129900, currency="EUR")),
        ("1.299.000", Price(Sure.EXACT, 129900000, currency="EUR")),
        ("USD 80", Price(Sure.EXACT, 8000, currency="USD")),
        ("JPY 1200", Price(Sure.EXACT, 1200, currency="JPY")),
        ("12.345 KWD", Price(Sure.EXACT, 12345, currency="KWD")),
        ("£12.50", Price(Sure.EXACT, 1250, currency="GBP")),
        ("about 130", Price(Sure.ABOUT, 13000, currency="EUR")),
        ("~130", Price(Sure.ABOUT, 13000, currency="EUR")),
        ("about 130 +/- 20 %", Price(Sure.ABOUT, 13000, percent=20, currency="EUR")),
        ("about 129.90 (15%)", Price(Sure.ABOUT, 12990, percent=15, currency="EUR")),
        ("from 80", Price(Sure.FROM, 8000, currency="EUR")),
        ("80+", Price(Sure.FROM, 8000, currency="EUR")),
        ("80-120", Price(Sure.BETWEEN, 8000, 12000, currency="EUR")),
        ("80 – 120", Price(Sure.BETWEEN, 8000, 12000, currency="EUR")),  # noqa: RUF001 - as typed by a word processor
        ("between 80 and 120", Price(Sure.BETWEEN, 8000, 12000, currency="EUR")),
        ("80 to 120 USD", Price(Sure.BETWEEN, 8000, 12000, currency="USD")),
        ("EUR 80-120", Price(Sure.BETWEEN, 8000, 12000, currency="EUR")),
    ],
)
def test_prices(cell, wanted):
    assert price(cell, "EUR") == wanted


@pytest.mark.parametrize(
    "cell",
    [
        "1.299",
        "1,299",
        "-5",
        "12.345",
        "120-80",
        "cheap",
        "$5",
        "12,34.5",
        "1,29,000",
        "=1+1",
        "about",
        "12 50",
    ],
)
def test_what_is_no_price_is_refused_in_words(cell):
    with pytest.raises(CellError):
        price(cell, "EUR")


def test_a_dollar_sign_where_the_shop_s_money_is_a_dollar():
    assert money("$5", "CAD") == (500, "CAD")


def test_currency():
    assert currency(" eur ") == "EUR"
    with pytest.raises(CellError):
        currency("euro")


@pytest.mark.parametrize(("code", "digits"), [("CLF", 4), ("TND", 3), ("ISK", 0), ("USD", 2)])
def test_minor_units(code, digits):
    # ISO 4217, list of the maintenance agency published 2026-01-01 (package iso4217 1.16.20260101)
    assert minor_digits(code) == digits


def test_outside_work():
    assert outside_work("blasted; painted, 10 days, 180,50; oiled 3 days", "EUR") == (
        OutsideWork("blasted"),
        OutsideWork("painted", 10, 18050),
        OutsideWork("oiled", 3),
    )
    with pytest.raises(CellError):
        outside_work("10 days", "EUR")
    with pytest.raises(CellError):
        outside_work("painted, 10 days, USD 5", "EUR")


@pytest.mark.parametrize(
    "cell",
    ["a\x1b[31mred", "a\u202eb", "a\u200bb", "bell\x07", "del\x7f", "c1\x9b31m", "soft\u00adhyphen", "\x00"],
)
def test_characters_that_act_or_hide_are_refused(cell):
    with pytest.raises(CellError, match="invisible or control"):
        words(cell)


def test_words():
    assert words(" brake\u00a0hose,\r\nfront\u2028left ") == "brake hose, front left"
    assert words("one\r\n two  three ", lines=True) == "one\ntwo three"
    assert words("[red]=cmd[/]") == "[red]=cmd[/]"
    with pytest.raises(CellError, match="10000"):
        words("x" * 10_000)


def test_the_rest():
    assert listed("a, b; c | d\n\ne") == ("a, b", "c", "d", "e")
    assert yes("Yes")
    assert not yes("")
    assert whole("7.0") == 7
    assert positions("Lf / rF; rear") == ("LF", "RF", "rear")
    assert hours("") == ()
    for read, cell in ((yes, "maybe"), (hours, "3/1"), (hours, "1/2/3/4"), (hours, "long"), (whole, "1.5")):
        with pytest.raises(CellError):
            read(cell)


def test_codes():
    assert codes("9521234543213;X-1*2  *") == (("9521234543213", 1), ("X-1", 2), ("*", 1))
    with pytest.raises(CellError, match="rounded"):
        codes("9,52123E+12")
    with pytest.raises(CellError):
        codes("X*0")
