from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from shoptui.domain.fasteners.extensions import set_to
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.units import Unit
from shoptui.domain.records import Wrench
from shoptui.domain.wrenches import (
    found_in,
    kind_of_tool,
    may_deviate,
    since_check,
    why_not_used,
    why_unsuited,
    wider_than_type,
)

TODAY = date(2026, 11, 4)
GOOD = Wrench(1, "", "", "", unit="N m", low=20, high=200, checked=date(2026, 1, 1))


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        ("20", Unit.N_M, ""),
        ("200", Unit.N_M, ""),
        ("19.9", Unit.N_M, "its marks go from 20 to 200 N m, 19.9 N m is below"),
        ("150", Unit.LBF_FT, "its marks go from 20 to 200 N m, 150 lbf ft, which is 203 N m, is above"),
        ("147", Unit.LBF_FT, ""),
    ],
)
def test_it_suits_from_its_lowest_to_its_highest_mark(value, unit, words):
    assert why_unsuited(GOOD, Decimal(value), unit) == words


@pytest.mark.parametrize(
    ("changed", "why"),
    [
        ({}, ""),
        ({"barred": "dropped"}, "barred: dropped"),
        ({"barred": "sold", "gone": True}, "gone: sold"),
        ({"checked": None}, "never checked"),
        ({"checked": date(2025, 11, 3)}, "its check is overdue"),
        ({"checked": date(2025, 11, 4)}, ""),
        ({"cycles": 4999}, ""),
        ({"cycles": 5000}, "its check is due after 5000 uses"),
        ({"barred": "dropped", "cycles": 5000}, "barred: dropped"),
    ],
)
def test_whether_it_may_be_used(changed, why):
    fields = {"low": 20, "high": 200, "checked": date(2026, 1, 1), **changed}
    assert why_not_used(Wrench(1, "", "", "", **fields), TODAY) == why


def test_readings_since_the_last_good_check_are_doubted_with_the_tool():
    tool = replace(GOOD, checked=date(2026, 5, 1))
    assert [since_check(tool, 1, date(2026, month, 1)) for month in (4, 5, 6)] == [False, True, True]
    assert since_check(replace(GOOD, checked=None), 1, date(2020, 1, 1))


def test_where_the_check_was_said_here_the_order_decides_not_the_day():
    tool = replace(GOOD, checked=date(2026, 5, 1), checked_after=7)
    assert [since_check(tool, reading, date(2026, 5, 1)) for reading in (6, 7, 8)] == [False, False, True]


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        *(
            (each, "II A")
            for each in ("II A", "2a", "IIA", "ii a", "II-A", "type II class A", "Type 2, Class A")
        ),
        *((each, "I B") for each in ("1b", "IB", "ISO 6789 type I class B", "ISO 6789-1, Type 1 B")),
        ("setting", "setting"),
        ("Type II", "setting"),
        ("I", "indicating"),
        ("INDICATING", "indicating"),
    ],
)
def test_a_type_is_read_as_people_write_it_and_printed_in_one_way(typed, written):
    assert kind_of_tool(typed) == written
    assert kind_of_tool(written) == written


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("", "A type of ISO 6789 such as II A was expected, or else setting or indicating; nothing came."),
        ("click", "or else setting or indicating; click came."),
        ("III A", "III A came."),
        ("I F", "Type I has the classes A to E; I F came."),
        ("2h", "Type II has the classes A to G; 2h came."),
        ("II A B", "II A B came."),
        ("II \u202eA", "came."),
    ],
)
def test_what_is_no_type(typed, words):
    with pytest.raises(FastenerError) as refused:
        kind_of_tool(typed)
    assert str(refused.value).endswith(words)
    assert "\u202e" not in str(refused.value)


def test_what_is_set_follows_from_the_type():
    kinds = ("setting", "II A", "II G", "indicating", "I A", "I E")
    assert [replace(GOOD, kind=kind).is_set for kind in kinds] == [True, True, True, False, False, False]


@pytest.mark.parametrize(
    ("fields", "percent"),
    [
        ({"kind": "II A"}, 4),
        ({"kind": "II A", "high": 10}, 6),
        ({"kind": "II A", "high": 10.1}, 4),
        ({"kind": "II A", "unit": "lbf in", "high": 88}, 6),  # 9.94 N m
        ({"kind": "II A", "unit": "lbf in", "high": 89}, 4),  # 10.06 N m
        ({"kind": "II A", "unit": "lbf ft", "high": 8}, 4),  # 10.8 N m
        ({"kind": "II A", "unit": "kgf m", "high": 1}, 6),  # 9.81 N m
        ({"kind": "I A"}, 6),
        ({"kind": "setting"}, 0),
        ({"kind": "setting", "deviation_percent": 3}, 3),
        ({"kind": "II A", "deviation_percent": 2}, 2),
        ({"kind": "II A", "deviation_percent": 6}, 6),  # its own papers go first, and it is said
    ],
)
def test_a_tool_may_deviate_by_its_papers_else_by_its_type(fields, percent):
    assert may_deviate(replace(GOOD, **fields)) == percent


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"kind": "II A", "deviation_percent": 6}, "its papers say 6 %, II A permits 4 %"),
        ({"kind": "II A", "deviation_percent": 4}, ""),
        ({"kind": "II A", "deviation_percent": 6, "high": 10}, ""),
        ({"kind": "II A"}, ""),
        ({"kind": "setting", "deviation_percent": 50}, ""),
    ],
)
def test_papers_that_permit_more_than_the_type_are_a_finding(fields, words):
    assert wider_than_type(replace(GOOD, **fields)) == words


@pytest.mark.parametrize(
    ("typed", "day", "found"),
    [
        ("1.5 -2 0.8", "", "1.5 -2 0.8"),
        ("+1,5; -2; 0", "", "1.5 -2 0"),
        ("12 Nov 1.5 % -2 % 0.8 %", "12 Nov", "1.5 -2 0.8"),
        ("2026-11-12: 1 2 3", "2026-11-12", "1 2 3"),
        ("12 Nov", "12 Nov", ""),
        ("yesterday", "yesterday", ""),
    ],
)
def test_what_is_typed_of_a_check(typed, day, found):
    assert found_in(typed) == (day, tuple(map(Decimal, found.split())))


def test_figures_that_no_tool_shows():
    with pytest.raises(FastenerError, match="Deviations below 100 % were expected; 12 11 2026 came"):
        found_in("12 11 2026")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((0, 400, 60), "A torque to reach above 0"),
        ((-1, 400, 60), "A torque to reach above 0"),
        ((100, 0, 60), "A length of the wrench above 0"),
        ((100, 400, 0), "A length of the extension above 0"),
        ((100, 400, 400), "An extension shorter than the wrench, 400, was expected"),
        ((100, 400, 60, 361), "An angle from 0 to 360 degrees was expected; 361 came"),
        ((100, 400, 60, -1), "An angle from 0 to 360"),
    ],
)
def test_extensions_that_cannot_be(arguments, words):
    with pytest.raises(FastenerError, match=words):
        set_to(*arguments)
