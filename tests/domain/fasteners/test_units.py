from decimal import Decimal
from fractions import Fraction

import pytest

from shoptui.domain.fasteners.figures import FastenerError, number, positive, significant, up_to_one
from shoptui.domain.fasteners.units import OtherUnitError, Unit, converted, torque, unit


@pytest.mark.parametrize(
    "text",
    [
        "N\u00b7m",
        "N m",
        "Nm",
        "N-m",
        "N.m",
        "N*m",
        "N\u22c5m",
        "n m",
        "NM",
        " N  m ",
        "newton metres",
        "Newton-meter",
    ],
)
def test_newton_metres_however_written(text):
    assert unit(text) is Unit.N_M


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        *(
            (text, Unit.LBF_FT)
            for text in ("lbf ft", "ft-lb", "ft lbs", "lb-ft", "lb\u00b7ft", "foot-pounds", "ftlb")
        ),
        *((text, Unit.LBF_IN) for text in ("lbf in", "in-lb", "in.lbs", "inch pounds", "inlb")),
        *((text, Unit.KGF_M) for text in ("kgf m", "kgf\u00b7m", "m kg", "kgm", "kp m")),
        ("kgcm", Unit.KGF_CM),
        ("oz-in", Unit.OZF_IN),
        *((text, Unit.DAN_M) for text in ("daN m", "daNm", "daN\u00b7m")),
        *((text, Unit.MILLI_N_M) for text in ("mN m", "mNm", "mN\u00b7m")),
    ],
)
def test_other_units_however_written(text, expected):
    assert unit(text) is expected


@pytest.mark.parametrize(
    "text", ["", "N", "m", "mN", "MNm", "MN m", "kN m", "lbf", "lbf m", "N ft", "foo", "N m m", "\x1b[1m"]
)
def test_what_is_no_unit_of_torque(text):
    with pytest.raises(FastenerError, match="A unit of torque was expected") as told:
        unit(text)
    assert "\x1b" not in str(told.value)


@pytest.mark.parametrize(
    ("value", "source", "target", "rounded"),
    [
        ("90", Unit.LBF_FT, Unit.N_M, "122"),
        ("90.0", Unit.LBF_FT, Unit.N_M, "122.0"),
        ("10", Unit.LBF_FT, Unit.N_M, "14"),
        ("122", Unit.N_M, Unit.LBF_FT, "90.0"),
        ("8.5", Unit.N_M, Unit.LBF_IN, "75.2"),
        ("36", Unit.N_M, Unit.LBF_FT, "26.6"),
        ("90", Unit.N_M, Unit.N_M, "90"),
        ("12", Unit.LBF_IN, Unit.LBF_FT, "1.00"),
        ("1000", Unit.N_M, Unit.KGF_M, "102.0"),
    ],
)
def test_rounding_keeps_what_the_source_s_digits_say(value, source, target, rounded):
    assert f"{converted(Decimal(value), source, target).rounded:f}" == rounded


def test_a_conversion_is_exact_there_and_back():
    there = converted(Decimal(90), Unit.LBF_FT, Unit.N_M).exact
    assert there * Fraction(1) / converted(Decimal(1), Unit.LBF_FT, Unit.N_M).exact == 90


def test_a_unit_of_its_own_is_asked_about_never_turned():
    assert torque("66", Unit.N_M) == torque("66 Nm", Unit.N_M) == 66
    with pytest.raises(OtherUnitError, match="66 lbf ft came: about 89 N m") as told:
        torque("66 ft-lb", Unit.N_M)
    assert (told.value.value, told.value.unit) == (66, Unit.LBF_FT)


@pytest.mark.parametrize("text", ["0", "-5", "0.0", "-0", "99999999"])
def test_what_is_not_above_zero(text):
    with pytest.raises(FastenerError, match="A torque above 0"):
        torque(text, Unit.N_M)


@pytest.mark.parametrize(
    "text", ["", "ten", "1e3", "nan", "inf", "1.2.3", "--1", "\u0661\u0662", "1 2", ".", "0x1"]
)
def test_what_is_no_number(text):
    with pytest.raises(FastenerError, match="or 12,5 was expected"):
        number(text)


def test_a_comma_is_a_point_unless_it_could_divide_thousands():
    assert number("1,25") == number("1.25") == Decimal("1.25")
    assert number("0,125") == Decimal("0.125")
    with pytest.raises(FastenerError, match="could be 1250 or"):
        positive("1,250")


@pytest.mark.parametrize("value", [0, -0.1, 1.01, 75, float("nan")])
def test_a_fraction_is_above_0_and_up_to_1(value):
    with pytest.raises(FastenerError, match="A share above 0 and up to 1"):
        up_to_one(value, "A share")


def test_significant_digits_have_no_exponent():
    assert [significant(value) for value in (0.012345, 1234567, 99.95, 7)] == [
        "0.0123",
        "1230000",
        "100",
        "7.00",
    ]
