"""The rows, the filter and the columns of a list."""

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from shoptui.stations.listed import Column, Listed, Row, cell, widths

WORDS = st.text(alphabet="abc ", max_size=6)


@given(st.lists(st.tuples(WORDS, WORDS), max_size=20), st.lists(WORDS, max_size=5))
def test_narrowing_letter_by_letter_finds_what_narrowing_at_once_finds(texts, steps):
    rows = [Row(number, cells) for number, cells in enumerate(texts)]
    listed = Listed()
    listed.fill(rows)
    for words in steps:
        for end in range(len(words) + 1):
            listed.narrow(words[:end])
        wanted = [row for row in rows if all(word in " ".join((*row.cells, "")) for word in words.split())]
        assert sorted(row.key for row in listed.shown) == [row.key for row in wanted]
        at_once = Listed()
        at_once.fill(rows)
        at_once.narrow(words)
        assert listed.shown == at_once.shown, "in the same order too"


def test_the_filter_stays_when_rows_change():
    listed = Listed()
    listed.fill([Row(1, ("Hub",)), Row(2, ("Rotor",))])
    listed.narrow("rotor")
    listed.fill([Row(1, ("Hub",)), Row(2, ("Rotor, slotted",)), Row(3, ("Rotor arm",))])
    assert [row.key for row in listed.shown] == [2, 3]
    assert listed.place(2) == 1
    assert listed.place(0) is None


def test_words_beside_the_cells_find_a_row_and_case_is_forgiven():
    listed = Listed()
    listed.fill([Row(1, ("Straße",), find="BR-100")])
    for words in ("strasse", "br-1", "STRASSE br"):
        listed.narrow(words)
        assert len(listed.shown) == 1


@given(st.integers(20, 200))
def test_columns_fill_the_list_and_no_more(width):
    columns = (Column("a"), Column("b", 10), Column("c"), Column("d", 12, since=90))
    shown = widths(columns, width, width - 4)
    assert sum(cells + 1 for _, cells in shown) <= max(width - 4, 13)
    assert (3 in dict(shown)) == (width >= 90)


@given(st.text(max_size=12), st.integers(1, 10), st.booleans())
def test_a_cell_is_as_wide_as_its_column(text, width, right):
    printable = "".join(letter for letter in text if letter.isprintable() and cell_len(letter) == 1)
    assert cell_len(cell(printable, width, right=right)) == width
