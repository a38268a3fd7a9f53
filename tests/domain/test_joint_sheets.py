"""A sheet's value as a form or a file is typed: what is taken, in one way, and what could be two things."""

import pytest

from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.units import Unit
from shoptui.domain.joint_sheets import names_unit, value_text


@pytest.mark.parametrize(
    ("typed", "stands", "named"),
    [
        ("115\u00b15", "115 +/- 5 N m", False),
        ("115", "115 N m", False),
        ("115\u00b15 Nm", "115 +/- 5 N m", True),
        ("80 Nm -5/+10", "80 +10/-5 N m", True),
        ("110 N m (81 lb ft)", "110 N m", True),
        ("110 (81 lb ft)", "110 N m", False),
        ("40 Nm, then 1/4 turn", "40 N m + 90 deg", True),
        ("1.1250 N m", "1.1250 N m", True),
        ("12.125 N m", "12.125 N m", True),
        ("12,5 \u00b1 9% Nm", "12.5 +/- 1.125 N m", True),
    ],
)
def test_what_is_typed_stands_in_one_way_and_is_read_back(typed, stands, named):
    assert value_text(typed, Unit.N_M) == stands
    assert value_text(stands, Unit.LBF_IN) == stands
    assert names_unit(typed) == named


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("1,250 N m", "A torque could be 1250 or 1.25 where 1,250 is written; write one of them."),
        ("1.250 N m", "A torque could be 1250 or 1.25 where 1.250 is written; write one of them."),
        ("1.125 to 1.375 N m", "A torque could be 1125 or 1.1250 where 1.125 is written"),
        ("2.000 Nm + 90 deg", "A torque could be 2000 or 2.0 where 2.000"),
        ("20 + 90 + 90", "20 + 90 + 90 came. Of torques alone the last is written, and its passes."),
        ("20 + 90 + 90 deg", "A torque with its unit, then angles with deg behind each"),
        (
            "110 N m (91 lb ft)",
            "One torque in two units was expected; 110 N m and 91 lbf ft came: 91 lbf ft is",
        ),
    ],
)
def test_what_could_be_two_things_is_one_sentence(typed, words):
    with pytest.raises(FastenerError) as refused:
        value_text(typed, Unit.N_M)
    assert words in str(refused.value)
