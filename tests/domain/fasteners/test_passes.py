from decimal import Decimal

import pytest

from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.passes import Step, passes, steps
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


def test_torque_then_angles_stay_apart():
    assert steps("40 Nm + 90\u00b0 + 90 deg") == (
        Step(Decimal(40)),
        Step(angle_deg=Decimal(90)),
        Step(angle_deg=Decimal(90)),
    )
    assert steps("22+52,5 +180 degrees", Unit.LBF_FT)[:2] == (
        Step(Decimal(22), Unit.LBF_FT),
        Step(Decimal("52.5"), Unit.LBF_FT),
    )
    assert str(steps("30 lbf ft + 45\u00b0")[0]) == "30 lbf ft"


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
        ("40 + ", "A step such as"),
        ("40 + -90\u00b0", "A step such as"),
        ("40 foo", "A unit of torque"),
    ],
)
def test_steps_that_cannot_be(text, words):
    with pytest.raises(FastenerError, match=words):
        steps(text)
