from datetime import date
from decimal import Decimal

import pytest

from shoptui.domain.fasteners.extensions import set_to
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.units import Unit
from shoptui.domain.records import Wrench
from shoptui.domain.wrenches import opens_again, why_not_used, why_unsuited

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


def test_readings_since_the_last_good_check_open_again():
    good = date(2026, 5, 1)
    assert [opens_again(date(2026, month, 1), good) for month in (4, 5, 6)] == [False, True, True]
    assert opens_again(date(2020, 1, 1), None)


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
