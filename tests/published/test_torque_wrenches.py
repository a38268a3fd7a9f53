"""What is published of torque tools and of extensions at their drive."""

import pytest

from shoptui.domain.fasteners.extensions import set_to
from shoptui.domain.wrenches import CYCLES, permitted_percent


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
        ("I B", 100, 4),  # from memory, as are the following
        ("I C", 10, 6),
        ("I A", 100, 6),
        ("I D", 5, 6),
        ("II G", 100, 6),
    ],
)
def test_permitted_deviation(kind, highest_nm, percent):
    """Type and highest value decide, not "type I 4 %, type II 6 %", as several public files have it."""
    assert permitted_percent(kind, highest_nm) == percent


def test_a_type_that_does_not_exist_has_none():
    assert permitted_percent("III A", 100) is None


def test_the_default_interval():
    """ISO 6789:2003, as a maker's note quotes it: 5000 cycles or 12 months, whichever comes first."""
    assert CYCLES == 5000
