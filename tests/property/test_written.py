"""What is written of a value in a form is read back as the same value."""

from hypothesis import given
from hypothesis import strategies as st

from shoptui.domain.amounts import money, outside_work, price
from shoptui.domain.part_cells import hours
from shoptui.domain.prices import NOT_KNOWN, Price, Sure
from shoptui.domain.records import OutsideWork
from shoptui.domain.row_text import row_text, rows_in
from shoptui.domain.written import amount_words, hours_words, price_words, work_words

CURRENCIES = st.sampled_from(("EUR", "USD", "JPY", "KWD"))
MINOR = st.integers(0, 10**9)
WORKS = st.builds(
    OutsideWork,
    st.sampled_from(("painted", "coated", "zinc plated")),
    st.integers(0, 999),
    st.none() | MINOR,
)


@given(MINOR, CURRENCIES, CURRENCIES)
def test_amounts(minor, currency, usual):
    assert money(amount_words(minor, currency, usual), usual) == (minor, currency)


def prices(currency):
    return st.one_of(
        st.just(NOT_KNOWN),
        st.builds(Price, st.just(Sure.EXACT), MINOR, currency=st.just(currency)),
        st.builds(Price, st.just(Sure.FROM), MINOR, currency=st.just(currency)),
        st.builds(
            Price,
            st.just(Sure.ABOUT),
            MINOR,
            percent=st.none() | st.integers(0, 100),
            currency=st.just(currency),
        ),
        st.tuples(MINOR, MINOR).map(
            lambda ends: Price(Sure.BETWEEN, min(ends), max(ends), currency=currency)
        ),
    )


@given(CURRENCIES.flatmap(prices), CURRENCIES)
def test_prices(there, usual):
    assert price(price_words(there, usual), usual) == there


@given(st.lists(st.integers(0, 99900), min_size=3, max_size=3).map(sorted))
def test_hours(hundredths):
    there = tuple(each / 100 for each in hundredths)
    assert hours(hours_words(there)) == there


@given(st.lists(WORKS, max_size=3).map(tuple))
def test_outside_work(there):
    assert outside_work(work_words(there, "EUR"), "EUR") == there


@given(st.lists(st.dictionaries(st.text(), st.text(min_size=1), min_size=1)))
def test_rows(rows):
    assert list(rows_in(row_text(rows))) == rows
    nested = row_text([{"rows": row_text(rows)}]) if rows else ""
    assert not rows or list(rows_in(rows_in(nested)[0]["rows"])) == rows
