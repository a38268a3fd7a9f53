from decimal import Decimal

import pytest

from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.sheet_values import Amiss, doubt, readings_amiss, sheet_value
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


def test_each_fastener_has_a_reading():
    assert readings_amiss(5, 5) == ""
    assert readings_amiss(3, 5).startswith("3 of 5 fasteners have a reading")
    assert readings_amiss(6, 5) == "6 readings came for 5 fasteners"
