"""Factors of NIST SP 811, appendix B, as quoted in public test files, and of the exact definitions."""

from decimal import Decimal
from fractions import Fraction

import pint
import pytest

from shoptui.domain.fasteners.units import IN_N_M, Unit, converted, decimal


@pytest.mark.parametrize(
    ("unit", "exact", "printed"),
    [
        (Unit.LBF_FT, "1.3558179483314004", "1.355818"),
        (Unit.LBF_IN, "0.1129848290276167", "0.1129848"),
        (Unit.KGF_M, "9.80665", "9.80665"),
        (Unit.KGF_CM, "0.0980665", "0.0980665"),  # the printed row is from memory
        (Unit.OZF_IN, "0.00706155181422604375", "0.007061552"),
    ],
)
def test_one_of_each_in_newton_metres(unit, exact, printed):
    """Exact; scipy.constants gives the same to its last digit."""
    assert decimal(IN_N_M[unit], len(exact.lstrip("0.").replace(".", ""))) == Decimal(exact)
    assert decimal(IN_N_M[unit], 7) == Decimal(printed)


@pytest.mark.parametrize(
    ("unit", "theirs"),
    [
        (Unit.N_M, "newton * meter"),
        (Unit.LBF_FT, "force_pound * foot"),
        (Unit.LBF_IN, "force_pound * inch"),
        (Unit.KGF_M, "force_kilogram * meter"),
        (Unit.KGF_CM, "force_kilogram * centimeter"),
        (Unit.OZF_IN, "force_ounce * inch"),
    ],
)
def test_pint_says_the_same(unit, theirs):
    """pint computes in floats: to 12 digits."""
    registry = pint.UnitRegistry()
    assert float(IN_N_M[unit]) == pytest.approx(
        registry.Quantity(1, theirs).to("newton * meter").magnitude, rel=1e-12
    )


@pytest.mark.parametrize(
    ("unit", "inverse"),
    [
        (Unit.LBF_FT, "0.7375621492772654"),
        (Unit.LBF_IN, "8.850745791327184"),
        (Unit.KGF_M, "0.1019716212977928"),
    ],
)
def test_inverse_factors(unit, inverse):
    """By arithmetic from the definitions."""
    assert decimal(1 / IN_N_M[unit], 16) == Decimal(inverse)


def test_twelve_inches_are_a_foot_and_sixteen_ounces_a_pound():
    assert IN_N_M[Unit.LBF_IN] * 12 == IN_N_M[Unit.LBF_FT]
    assert IN_N_M[Unit.OZF_IN] * 16 == IN_N_M[Unit.LBF_IN]


def test_the_pound_force_is_that_of_nist():
    """NIST SP 811, footnote 23: 4.448 221 615 260 5 N exactly; the foot is 0.3048 m."""
    assert IN_N_M[Unit.LBF_FT] == Fraction("4.4482216152605") * Fraction("0.3048")


@pytest.mark.parametrize(
    ("pounds_feet", "newton_metres"),
    [(10, "13.56"), (15, "20.34"), (50, "67.79"), (80, "108.47"), (100, "135.58"), (150, "203.37")],
)
def test_products_rounded_to_two_places(pounds_feet, newton_metres):
    """By arithmetic; 15 lbf ft stands so on a public conversion page too."""
    exact = converted(Decimal(pounds_feet), Unit.LBF_FT, Unit.N_M).exact
    assert decimal(exact, len(newton_metres) - 1) == Decimal(newton_metres)
