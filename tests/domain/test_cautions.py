from textwrap import wrap

import pytest

from shoptui.domain.cautions import LIFTING, cautions, for_work


@pytest.mark.parametrize(
    ("section", "description", "words"),
    [
        ("Brakes", "hose clip", "Brakes:"),
        ("Front end", "tie rod end, outer", "Steering:"),
        ("Rear end", "leaf spring", "Springs store force"),
        ("Tyres and wheels", "wheel stud", "Wheels:"),
        ("Interior", "seat belt, left", "Belts and airbags:"),
        ("Engine", "fuel pump", "Fuel:"),
        ("Electrical", "battery tray", "Battery:"),
    ],
)
def test_what_can_hurt_is_said(section, description, words):
    assert any(caution.startswith(words) for caution in cautions(section, description))


@pytest.mark.parametrize(
    ("section", "description"),
    [("Interior", "dome light"), ("Body", "hood"), ("Interior", "carpet"), ("", "")],
)
def test_harmless_work_gets_no_caution(section, description):
    assert cautions(section, description) == ()


def test_work_under_the_vehicle_ends_with_the_stands():
    assert for_work("Brakes", "rotor")[-1] is LIFTING


def test_each_caution_fits_two_lines_and_has_its_source():
    found = for_work("brake steering spring wheel", "seat belt fuel battery")
    assert len(found) == 8
    assert all(len(caution.words) <= 2 * 76 for caution in found)
    assert all(caution.source for caution in found)
    assert all(0 < len(caution.short) <= 66 for caution in found)


@pytest.mark.parametrize(
    ("section", "description"),
    [
        ("Brakes", "caliper"),
        ("Brakes", "wheel cylinder, rear"),
        ("Front suspension", "hub and spindle"),
        ("Front suspension", "steering arm"),
        ("Body and seats", "seat belt, left"),
        ("Fuel and exhaust", "fuel tank"),
        ("Electrical", "battery tray, traction"),
    ],
)
def test_on_top_of_a_card_the_cautions_of_a_part_take_two_lines(section, description):
    told = "! " + " ".join(caution.short for caution in for_work(section, description))
    assert len(wrap(told, 76)) <= 2
