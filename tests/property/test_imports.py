"""No file and no cell, whatever is in it, does more than be taken or be refused in words."""

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from shoptui.domain import amounts, cells, part_cells
from shoptui.domain.cells import CellError
from shoptui.domain.headers import Column
from shoptui.domain.prices import Sure
from shoptui.domain.tables import ImportRefusedError
from shoptui.store.files_in import read_csv

READERS = (
    cells.words,
    cells.listed,
    cells.pieces,
    cells.whole,
    cells.day,
    cells.yes,
    part_cells.hours,
    part_cells.positions,
    part_cells.codes,
    lambda cell: amounts.price(cell, "EUR"),
    lambda cell: amounts.outside_work(cell, "EUR"),
    amounts.currency,
)
LIKELY = st.text("0123456789.,-+' €$%()=oftpairsetbnd;|\n\x1b\u202e", max_size=30)


@settings(max_examples=300, deadline=None)
@given(st.one_of(st.text(max_size=60), LIKELY))
@example("1" * 5000)
@example("9" * 12 + "." + "0" * 5000)
def test_a_cell_is_read_or_refused_in_words(cell):
    for read in READERS:
        try:
            read(cell)
        except CellError as error:
            said = str(error)
            assert said.endswith((".", ". Write it as a set."))
            assert "\x1b" not in said
            assert "\u202e" not in said
            assert len(said) < 300


@settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.one_of(st.binary(max_size=200), LIKELY.map(lambda text: ("part,qty\n" + text).encode())))
def test_a_file_is_read_or_refused_in_words(tmp_path, data):
    path = tmp_path / "x.csv"
    path.write_bytes(data)
    try:
        read_csv(path, (Column("part", needed=True), Column("qty")))
    except ImportRefusedError as error:
        assert error.troubles  # noqa: PT017 - a file may also be good


@given(st.integers(0, 10**9), st.sampled_from(["EUR", "JPY", "KWD", "CLF"]), st.sampled_from(".,"))
def test_an_amount_written_out_is_read_back(minor, currency, mark):
    digits = amounts.minor_digits(currency)
    whole, decimals = divmod(minor, 10**digits)
    text = f"{whole}{mark}{decimals:0{digits}d}" if digits else str(whole)
    assert amounts.money(f"{currency} {text}", "EUR") == (minor, currency)


@given(st.integers(0, 10**7), st.integers(0, 10**7))
def test_a_range_is_read_back(one, two):
    low, high = sorted((one, two))
    found = amounts.price(f"{low / 100:.2f}-{high / 100:.2f}", "EUR")
    assert (found.sure, found.low_minor, found.high_minor) == (Sure.BETWEEN, low, high)


@pytest.mark.parametrize("separator", ",;\t")
@settings(deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    cell=st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=30).filter(str.strip)
)
def test_what_a_spreadsheet_quotes_comes_back_whole(tmp_path, separator, cell):
    path = tmp_path / "x.csv"
    quoted = cell.replace('"', '""')
    path.write_text(f'part{separator}qty\n"{quoted}"{separator}1\n', encoding="utf-8", newline="")
    assert read_csv(path, (Column("part", needed=True), Column("qty"))).rows[0].cells["part"] == cell
