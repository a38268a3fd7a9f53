from decimal import Decimal

import pytest

from shoptui.domain.fasteners.doubts import Amiss, angle_doubt, doubt
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.sheet_values import sheet_angle, sheet_value
from shoptui.domain.fasteners.units import Unit


@pytest.mark.parametrize(
    ("text", "printed", "target"),
    [
        ("110", "110 N m", "110"),
        ("110 Nm", "110 N m", "110"),
        ("8,5 N\u00b7m", "8.5 N m", "8.5"),
        ("110 +/- 10 N m", "110 +/- 10 N m", "110"),
        ("110\u00b110", "110 +/- 10 N m", "110"),
        ("110 +- 10 % N m", "110 +/- 11 N m", "110"),
        ("100 to 120 N m", "100 to 120 N m", None),
        ("65-75 ft-lb", "65 to 75 lbf ft", None),
        ("65 \u2013 75 ft lbs", "65 to 75 lbf ft", None),
        ("9 kgf-m", "9 kgf m", "9"),
        ("40 N m +/- 2 N m", "40 +/- 2 N m", "40"),
        ("38 ft-lb \u2013 42 ft-lb", "38 to 42 lbf ft", None),
        ("100 Nm \u00b110%", "100 +/- 10 N m", "100"),
        ("100 Nm (\u00b1 10 %)", "100 +/- 10 N m", "100"),
        ("115\u00b15", "115 +/- 5 N m", "115"),
        ("80 Nm -5/+10", "80 +10/-5 N m", "80"),
        ("80 Nm \u22125/+10", "80 +10/-5 N m", "80"),
        ("80 (-5/+10) Nm", "80 +10/-5 N m", "80"),
        ("80 Nm +10%/-5%", "80 +8/-4 N m", "80"),
        ("80 +10/-0 lb ft", "80 +10/-0 lbf ft", "80"),
        ("110 N m (81 lb ft)", "110 N m", "110"),
        ("90 N\u00b7m/65 lb-ft", "90 N m", "90"),
        ("100\u2013120 Nm [74\u201389 lb ft]", "100 to 120 N m", None),
    ],
)
def test_what_sheets_write(text, printed, target):
    found = sheet_value(text, Unit.N_M)
    assert str(found) == printed
    assert found.target == (None if target is None else Decimal(target))
    assert sheet_value(printed, Unit.LBF_IN) == found


@pytest.mark.parametrize(
    "text",
    [
        "",
        "tight",
        "0 N m",
        "-5",
        "120 to 100",
        "110 +/- 110",
        "110 +/- 0",
        "110 foo",
        "110 +/- % N m",
        "1,000",
        "+ 5",
        "40 N m to 50 lbf ft",
        "110 N m (91 lb ft)",
        "110 N m (110 Nm)",
        "110 (11) N m",
        "80 -80/+5 N m",
        "80 +0/-0 N m",
        "80 (",
    ],
)
def test_what_is_no_torque_of_a_sheet(text):
    with pytest.raises(FastenerError, match=r"expected|write one of them"):
        sheet_value(text, Unit.N_M)


@pytest.mark.parametrize(
    ("reading", "sheet", "amiss"),
    [
        ("110", "110 N m", None),
        ("114", "110 N m", None),
        ("115", "110 N m", Amiss.OUTSIDE),
        ("100", "100 to 120 N m", None),
        ("99", "100 to 120 N m", Amiss.OUTSIDE),
        ("125", "110 +/- 10 N m", Amiss.OUTSIDE),
        ("11", "110 N m", Amiss.TENFOLD),
        ("1100", "110 N m", Amiss.TENFOLD),
        ("81", "110 N m", Amiss.UNIT),
        ("122", "90 lbf ft", Amiss.UNIT),
        ("11.2", "110 N m", Amiss.TENFOLD),
        ("15", "110 N m", Amiss.OUTSIDE),
    ],
)
def test_readings_are_judged_by_the_sheet(reading, sheet, amiss):
    found = doubt(Decimal(reading), sheet_value(sheet, Unit.N_M), 4)
    assert (found and found.amiss) == amiss


def test_a_doubt_has_numbers():
    assert doubt(Decimal(99), sheet_value("100 to 120", Unit.N_M)).words == (
        "99 N m is not 100 to 120 N m: 1 N m below what is allowed"
    )
    assert doubt(Decimal(122), sheet_value("90 lbf ft", Unit.N_M)).words == (
        "122 lbf ft is not 90 lbf ft, but 122 N m is 90.0 lbf ft"
    )


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("90\u00b0", "90 deg"),
        ("90 degrees", "90 deg"),
        ("90 deg +/- 5", "90 +/- 5 deg"),
        ("90\u00b0 \u00b15\u00b0", "90 +/- 5 deg"),
        ("90 +- 5 deg", "90 +/- 5 deg"),
        ("90 deg +/- 10 %", "90 +/- 9 deg"),
        ("85 to 95 deg", "85 to 95 deg"),
        ("85\u00b0\u201395\u00b0", "85 to 95 deg"),
    ],
)
def test_angles_that_sheets_write(text, printed):
    found = sheet_angle(text)
    assert str(found) == printed
    assert sheet_angle(printed) == found


@pytest.mark.parametrize(
    "text", ["", "0 deg", "361 deg", "350 +/- 20 deg", "95 to 85 deg", "5 +/- 5 deg", "90 deg C"]
)
def test_what_is_no_angle(text):
    with pytest.raises(FastenerError, match="expected"):
        sheet_angle(text)


@pytest.mark.parametrize(
    ("reading", "sheet", "amiss"),
    [
        ("90", "90 deg", None),
        ("91", "90 deg", Amiss.OUTSIDE),
        ("95", "90 deg +/- 5", None),
        ("85", "90 deg +/- 5", None),
        ("96", "90 deg +/- 5", Amiss.OUTSIDE),
        ("85", "85 to 95 deg", None),
        ("84", "85 to 95 deg", Amiss.OUTSIDE),
        ("920", "90 deg +/- 5", Amiss.TENFOLD),
    ],
)
def test_angles_are_judged_by_the_sheet_and_no_tolerance_is_made_up(reading, sheet, amiss):
    found = angle_doubt(Decimal(reading), sheet_angle(sheet))
    assert (found and found.amiss) == amiss
