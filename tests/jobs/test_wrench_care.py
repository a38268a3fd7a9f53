"""A torque tool: shown, taken in hand, dropped, checked; what its form and its setting say."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import Joint, Reading, What, Wrench


@pytest.fixture
def wrench(made):
    with made.shop.transaction("a wrench", terminal="office") as tx:
        return tx.add(
            Wrench(
                0, "T-200", "", "Click 200", low=20, high=200, deviation_percent=4, checked=date(2026, 9, 1)
            )
        )


def test_elsewhere_its_scan_shows_its_calibration(made, wrench):
    answer = made.scans("racks").take("T-200")
    assert (answer.said, answer.kind) == ("done", "wrench")
    assert answer.text == (
        "Click 200: 20 to 200 N m, 4 % either way, checked Tue 1 Sep, next check Wed 1 Sep 2027."
    )
    assert made.scans("racks").at.wrench is None


def test_at_the_lift_it_is_taken_in_hand_and_stays_there(made, wrench):
    lift = made.scans("lift")
    assert lift.take("T-200").text.startswith("T-200 is in hand for the next readings. Click 200")
    again = type(lift)(made.reopened(), "lift", station="lift")
    assert again.at.wrench.code == "T-200"


@pytest.mark.parametrize("station", ["racks", "lift"])
def test_the_same_scan_again_asks_what_happened(made, wrench, station):
    scans = made.scans(station)
    scans.take("T-200")
    asked = scans.take("T-200")
    assert [choice.label.split(":")[0] for choice in asked.question.choices] == [
        "it was dropped",
        "it was checked today, and is good",
        "it was checked, and failed ...",
        "it was checked",
        "it is gone",
    ]
    scans.typed("1")
    assert made.shop.wrenches.get(wrench.id).barred == "dropped"
    barred = scans.take("T-200")
    assert barred.said == "stop"
    assert "Not to be used, barred: dropped." in barred.text
    scans.take("T-200")
    assert "may be used" in scans.typed("2").text
    after = made.shop.wrenches.get(wrench.id)
    assert (after.barred, after.checked, after.cycles) == ("", date(2026, 11, 25), 0)
    scans.take("undo")
    assert made.shop.wrenches.get(wrench.id).barred == "dropped"


def test_a_tool_that_fell_is_in_nobodys_hand(made, wrench):
    lift = made.scans("lift")
    for scan in ("T-200", "T-200"):
        lift.take(scan)
    lift.typed("1")
    assert lift.at.wrench is None


def test_an_overdue_one_rings(made, wrench):
    with made.shop.transaction("old", terminal="office") as tx:
        tx.change(wrench, checked=date(2025, 1, 1))
    assert made.scans("racks").take("T-200").said == "stop"
    assert made.scans("lift").take("T-200").said == "done", "it may be used with a reason"


def test_an_extension_says_what_to_set(made, wrench):
    joint = Joint("Arm bolt", 1, value="100 N m", source="Sheet")
    with made.shop.transaction("an arm", terminal="office") as tx:
        part = tx.change(made.hub, joints=(joint,))
        tx.enter(verbs.stock(part.id, 1, to=made.a3.id))
    lift = made.scans("lift")
    lift.take("lead")
    lift.take("T-200")
    lift.take(part.tag)
    lift.yes()
    assert "has to be written down" in lift.typed("ext 60").text
    with made.shop.transaction("length", terminal="office") as tx:
        tx.change(wrench, length_mm=400)
    # 100 N m x 400 / (400 + 60), the example of the command `wrench`
    assert "With T-200 and its extension 60 mm at 0 deg, set 87.0 N m, at that" in lift.typed("ext 60").text
    assert "set 100 N m, at that" in lift.typed("extension 60 mm 90 deg").text
    assert "shorter than the wrench" in lift.typed("ext 500").text
    asked = lift.typed("ext 300")
    assert "set 57.1 N m" in asked.text
    with made.shop.transaction("a bigger one", terminal="office") as tx:
        tx.change(made.shop.wrenches.get(wrench.id), low=60)
    assert "its marks go from 60 to 200 N m, 57.1 N m is below" in lift.yes().text
    lift.drop()
    lift.take(part.tag)
    lift.typed("ext 60")
    lift.yes()
    assert made.shop.readings.of_part(part.id)[0].note == (
        "extension 60 mm at 0 deg, 87.0 N m at the wrench for 100 N m at the bolt"
    )


def test_its_uses_are_those_in_the_readings_since_its_check(made, wrench):
    with made.shop.transaction("many", terminal="lift") as tx:
        for _ in range(5):
            tx.state(
                Reading(0, What.TIGHTENED, made.hub.id, "Nut", fasteners=1000, value="100", wrench=wrench.id)
            )
    assert "due after 5000 uses" in made.scans("racks").take("T-200").text
    scans = made.scans("racks")
    scans.take("T-200")
    scans.take("T-200")
    assert "may be used" in scans.typed("2").text
    assert made.scans("racks").take("T-200").said == "done"
