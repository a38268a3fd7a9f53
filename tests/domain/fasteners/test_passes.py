from decimal import Decimal

import pytest

from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.passes import passes, steps
from shoptui.domain.fasteners.units import Unit


@pytest.mark.parametrize(
    ("target", "count", "values"),
    [
        ("110", 1, "110"),
        ("110", 2, "55 110"),
        ("110", 3, "33 77 110"),
        ("110", 4, "33 59 84 110"),
        ("8.5", 3, "2.6 6.0 8.5"),
    ],
)
def test_passes_as_values(target, count, values):
    assert " ".join(map(str, passes(Decimal(target), count))) == values


@pytest.mark.parametrize(("target", "count"), [("0", 3), ("-1", 3), ("110", 0), ("110", 7)])
def test_passes_that_are_none(target, count):
    with pytest.raises(FastenerError, match="expected"):
        passes(Decimal(target), count)


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("40 Nm + 90\u00b0 + 90 deg", "40 N m, 90 deg, 90 deg"),
        ("40 N m + 90 deg +/- 5", "40 N m, 90 +/- 5 deg"),
        ("40 Nm + 90\u00b0 \u00b15\u00b0", "40 N m, 90 +/- 5 deg"),
        ("40 +- 2 Nm + 90 + 90 deg", "40 +/- 2 N m, 90 deg, 90 deg"),
        ("40 +- 2 Nm + 90\u00b0 + 90 deg +- 3", "40 +/- 2 N m, 90 deg, 90 +/- 3 deg"),
        ("40 N m + 85 to 95 deg", "40 N m, 85 to 95 deg"),
        ("38-42 Nm+90\u00b0", "38 to 42 N m, 90 deg"),
        ("22+52,5 ft-lb +180 degrees", "22 lbf ft, 52.5 lbf ft, 180 deg"),
        ("20 + 40 Nm + 90 deg", "20 N m, 40 N m, 90 deg"),
        ("30 lbf ft", "30 lbf ft"),
        ("40 Nm + 1/2 turn", "40 N m, 180 deg"),
        ("40 Nm + \u00bc turn", "40 N m, 90 deg"),
        ("40 Nm + half a turn", "40 N m, 180 deg"),
        ("40 Nm, then 90\u00b0", "40 N m, 90 deg"),
        ("40,5 Nm; 90\u00b0 and then 90\u00b0", "40.5 N m, 90 deg, 90 deg"),
        ("40 N m (30 lb ft) + 90\u00b0", "40 N m, 90 deg"),
        ("40 Nm + 90 deg +5/-0", "40 N m, 90 +5/-0 deg"),
        ("80 Nm -5/+10 + 90\u00b0 (+10\u00b0/-5\u00b0) + 45 deg", "80 +10/-5 N m, 90 +10/-5 deg, 45 deg"),
        ("40 Nm + 85\u201395\u00b0", "40 N m, 85 to 95 deg"),
    ],
)
def test_torque_then_angles_stay_apart_each_with_its_own_tolerance(text, printed):
    found = steps(text, Unit.LBF_FT)
    assert ", ".join(map(str, found)) == printed
    assert steps(" + ".join(map(str, found)), Unit.LBF_IN) == found


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("40 + 361\u00b0", "An angle up to 360 degrees"),
        ("40 + 0\u00b0", "An angle above 0"),
        ("0 + 90\u00b0", "A torque above 0"),
        ("90\u00b0", "A torque, then angles"),
        ("40 + 90\u00b0 + 60", "A torque, then angles"),
        ("60 + 40", "Torques in one unit that rise"),
        ("40 Nm + 60 lbf ft", "Torques in one unit that rise"),
        ("40 + ", "Steps such as"),
        ("40 + -90\u00b0", "A torque, then angles"),
        ("90 + -40\u00b0", "A torque, then angles"),
        ("20 + 90 + 90\u00b0", "A torque with its unit, then angles with deg behind each"),
        ("40 Nm + 1/7 turn", "Torques|A unit of torque|A torque"),
        ("1/2 turn", "A torque, then angles"),
        ("40 Nm + 20 lbf ft + 90 deg", "Torques in one unit"),
        ("40 foo", "A unit of torque"),
    ],
)
def test_steps_that_cannot_be(text, words):
    with pytest.raises(FastenerError, match=words):
        steps(text)
