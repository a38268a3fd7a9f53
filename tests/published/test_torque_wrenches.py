"""What is published of torque tools and of extensions at their drive."""

import pytest

from shoptui.domain.fasteners.extensions import set_to
from shoptui.domain.records import Wrench
from shoptui.domain.wrenches import CHECK_POINTS, CYCLES, may_deviate, permitted_percent


@pytest.mark.parametrize(
    ("torque", "length", "extension", "angle", "setting"),
    [
        (50, 16, 2, 0, 44.44),  # an instruction sheet of a torque wrench, lbf ft and inches
        (80, 40, 5, 0, 71.11),  # a public calculator, N m and cm
        (80, 40, 5, 90, 80),  # the same
        (100, 12, 9, 0, 57.14),  # a forum post
        (80, 40, 5, 180, 80 * 40 / 35),  # by arithmetic: the arm is L - E
        (80, 40, 5, 270, 80),  # likewise
    ],
)
def test_the_value_to_set(torque, length, extension, angle, setting):
    assert set_to(torque, length, extension, angle) == pytest.approx(setting, abs=0.005)


def test_square_has_no_effect_although_a_page_says_the_most():
    """A public calculator says that 90 degrees has the greatest effect; by all others it has none."""
    settings = [set_to(100, 400, 60, angle) for angle in range(0, 181, 15)]
    assert settings == sorted(settings)
    assert settings[6] == pytest.approx(100)


@pytest.mark.parametrize(
    ("kind", "highest_nm", "percent"),
    [
        ("II A", 200, 4),  # ISO 6789, a review of it in a maker's checking manual
        ("II A", 10, 6),  # likewise: up to 10 N m of highest value
        # The following are from memory.
        *((kind, 100, 4) for kind in ("I B", "I C", "I E", "II B", "II C")),
        *((kind, 10, 6) for kind in ("I B", "I C", "I E", "II B", "II C")),
        *((kind, 100, 6) for kind in ("I A", "I D", "II D", "II E", "II F", "II G")),
        *((kind, 10, 6) for kind in ("I A", "I D", "II D", "II E", "II F", "II G")),
    ],
)
def test_permitted_deviation(kind, highest_nm, percent):
    """Type and highest value decide, not "type I 4 %, type II 6 %", as several public files have it."""
    assert permitted_percent(kind, highest_nm) == percent


@pytest.mark.parametrize("kind", ["III A", "I F", "I G", "II H", "setting", "indicating", ""])
def test_a_type_that_does_not_exist_has_none(kind):
    assert permitted_percent(kind, 100) is None


def test_the_highest_value_decides_not_the_value_that_is_set_nor_its_unit():
    """ISO 6789, as quoted in a maker's checking manual: "for the maximal value of the torque"."""
    small = Wrench(1, "", "", "", unit="lbf in", low=10, high=80, kind="II A")  # 80 lbf in are 9.04 N m
    big = Wrench(1, "", "", "", unit="lbf ft", low=2, high=80, kind="II A")
    assert (may_deviate(small), may_deviate(big)) == (6, 4)


def test_where_a_tool_is_checked():
    """At 20, 60 and 100 % of its highest value: ISO 6789, as quoted in a maker's checking manual."""
    assert CHECK_POINTS == (20, 60, 100)


def test_the_default_interval():
    """ISO 6789:2003, as a maker's note quotes it: 5000 cycles or 12 months, whichever comes first."""
    assert CYCLES == 5000
