"""What a torque wrench is set to with an extension, as people type lengths and angles."""

import pytest

WRENCH = ("wrench", "--setting", "100", "--unit", "Nm")


def setting(run, length, extension, angle="0"):
    arguments = (*WRENCH, "--length", length, "--extension", extension, "--angle", angle)
    return run(*arguments, "--json").json["set_to"]


@pytest.mark.parametrize(
    ("length", "extension"),
    [("16in", "60 mm"), ("40.64 cm", "60mm"), ('16"', "6 cm"), ("0,4064 m", "60 mm"), ("406.4", "60")],
)
def test_inches_and_millimetres_mix(run, length, extension):
    assert setting(run, length, extension) == pytest.approx(100 * 406.4 / 466.4, abs=0.0001)


def test_feet_have_twelve_inches(run):
    assert setting(run, "1.5 ft", "2 in") == pytest.approx(100 * 18 / 20, abs=0.0001)


@pytest.mark.parametrize("angle", ["90", "270", "90°", "90 deg", "90,0 degrees"])
def test_square_needs_no_correction_and_it_is_said(run, angle):
    assert setting(run, "400", "60", angle) == 100
    told = run(*WRENCH, "--length", "400", "--extension", "60", "--angle", angle).out
    assert told.startswith(
        "Set 100 N m for 100 N m at the fastener; square to the wrench it needs no correction."
    )


def test_pointing_back_it_is_set_to_more(run):
    assert setting(run, "400", "60", "180") == pytest.approx(100 * 400 / 340, abs=0.0001)
