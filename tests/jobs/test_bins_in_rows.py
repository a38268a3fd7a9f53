from math import prod

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from shoptui.domain.records import Bin
from shoptui.jobs.bins_in_rows import MOST, bins_in_rows, bins_of, rows_said
from shoptui.jobs.check import check
from shoptui.jobs.undo import undo
from shoptui.store.shelves import short


def codes(made):
    return [each.code for each in made.shop.bins.all()]


def test_rows_are_made_in_one_go_and_undone_in_one(made):
    at = made.at("office")
    asked = bins_in_rows(at, "rack 3, A to F, 1 to 8", "store")
    assert (asked.said, asked.text) == (
        "question",
        "48 bins for rack 3: 3-A1 to 3-F8. Enter: make what is missing.",
    )
    assert codes(made) == ["A3", "A4"]
    assert asked.question.yes().said == "done"
    assert len(codes(made)) == 50
    bins = bins_of(made.shop, rows_said("rack 3, A to F, 1 to 8"))
    assert len({each.tag for each in bins}) == 48
    assert {(each.words, each.room, each.kind) for each in bins} == {("rack 3", "store", "rack bin")}
    assert not check(made.shop)
    undo(at)
    assert codes(made) == ["A3", "A4"]


def test_what_is_there_stays(made):
    at = made.at("office")
    with made.shop.transaction("made", terminal="office") as tx:
        tx.add(Bin(0, "3-b2", "", "the old one"))
    asked = bins_in_rows(at, "Rack 3, a-b, 1-2")
    assert "3 bins" in asked.text
    assert "1 of them is there already" in asked.text
    asked.question.yes()
    assert codes(made)[2:] == ["3-b2", "3-A1", "3-A2", "3-B1"]
    assert bins_in_rows(at, "rack 3, A to B, 1 to 2").said == "stop"


def test_somebody_else_made_some_meanwhile(made):
    asked = bins_in_rows(made.at("office"), "rack 3, 1 to 4")
    other = made.reopened()
    with other.transaction("made", terminal="door") as tx:
        tx.add(Bin(0, "3-2", ""))
    assert asked.question.yes().text.startswith("Made 3 bins")
    assert sorted(codes(made))[:4] == ["3-1", "3-2", "3-3", "3-4"]


def test_no_bin_is_taken_for_another(made):
    at = made.at("office")
    bins_in_rows(at, "rack 1, 1 to 1, 1 to 1").question.yes()  # 1-1-1
    stopped = bins_in_rows(at, "rack 11, 1")
    assert (stopped.said, stopped.field) == ("stop", "rows")
    assert "11-1 would be taken for bin 1-1-1" in stopped.text
    assert bins_in_rows(at, "order 104, 2").said == "stop"  # the order's number is 1042
    assert len(codes(made)) == 3


@pytest.mark.parametrize(
    "text",
    [
        "",
        ",",
        "rack 3",
        "rack 3, ",
        "rack 3, F to A",
        "rack 3, 8 to 1",
        "rack 3, A to 8",
        "rack 3, AA to AF",
        "rack 3, -1 to 8",
        "rack 3, 1 to 10000",
        "rack 3, 1 to 100, 1 to 100",
        "rack 3, 1 to 9999, 1 to 9999, 1 to 9999",
        "A to F, 1 to 8",
        "\x1b[31mrack, 1 to 8",
        "x" * 31 + ", 1 to 8",
        "rack 3, \u0661 to \u0668",
    ],
)
def test_words_that_are_no_rows(made, text):
    before = made.bytes()
    answer = bins_in_rows(made.at("office"), text)
    assert (answer.said, answer.question) == ("stop", None)
    assert "\x1b" not in answer.text
    assert made.bytes() == before


RANGE = st.one_of(
    st.tuples(st.sampled_from("ABCDEFGH"), st.sampled_from("ABCDEFGH")),
    st.tuples(st.integers(0, 120), st.integers(0, 120)),
)


@given(st.sampled_from(("rack 3", "rack B", "11", "Regal Ä")), st.lists(RANGE, min_size=1, max_size=3))
def test_no_two_bins_of_rows_are_read_alike(name, ranges):
    assume(prod(abs(_place(last) - _place(first)) + 1 for first, last in ranges) <= MOST)
    rows = rows_said(", ".join([name, *(f"{min(each)} to {max(each)}" for each in ranges)]))
    assert len({short(code) for code in rows.codes}) == len(rows.codes)


def _place(end):
    return end if isinstance(end, int) else ord(end)
