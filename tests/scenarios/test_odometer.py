"""An odometer that goes down or counts in another unit: re-checks stay right, readings keep theirs."""

from dataclasses import replace

import pytest

from shoptui.domain import verbs
from shoptui.domain.odometers import driven_now
from shoptui.domain.records import Joint, Part, Wrench
from shoptui.jobs.answers import Said
from shoptui.jobs.edit import edit, written
from shoptui.jobs.joints import joints_of
from shoptui.jobs.torque_record import as_values, record_of
from shoptui.jobs.torque_sheet import as_text
from shoptui.jobs.undo import undo

NUTS = Joint("Wheel nuts", 5, "M12x1.5 10.9", value="110 N m", again_after=100, source="Sheet", page="4")


@pytest.fixture
def shop(made):
    """A wheel that was tightened at 150 km, to be checked again at 250 km; the vehicle is at 200 km."""
    with made.shop.transaction("a wheel", terminal="office") as tx:
        tx.change(made.build, odometer=150)
        tx.add(Wrench(0, "T-200", "", "Click", low=20, high=200, checked=made.clock.now.date()))
        made.wheel = tx.add(Part(0, "WH", "", made.build.id, "Wheel", needed=1, joints=(NUTS,)))
        tx.enter(verbs.stock(made.wheel.id, 1, to=made.a3.id))
    lift = made.scans("lift")
    for each in ("lead", "T-200", "WH"):
        lift.take(each)
    lift.yes()
    assert lift.yes().said is Said.DONE
    assert turn(made, "200").said is Said.DONE
    return made


def turn(made, figure=None, unit=None):
    build = made.shop.builds.get(made.build.id)
    before = written(made.shop, build)
    typed = {"odometer": figure, "odometer_unit": unit}
    typed = {name: text for name, text in typed.items() if text is not None}
    return edit(made.at("office"), build, {**before, **typed}, before=before)


def pick(asked, number):
    return asked.question.choices[number - 1].take()


def build(shop):
    return shop.shop.builds.get(shop.build.id)


def nuts(shop):
    (each,) = joints_of(shop.shop, shop.shop.parts.get(shop.wheel.id))
    return each


def left_km(shop):
    return nuts(shop).standing.left_km


def test_a_figure_above_the_newest_reading_is_not_asked_about(shop):
    assert left_km(shop) == 50
    assert turn(shop, "160").said is Said.DONE, "it may have been typed wrong, and no re-check vanishes"
    assert left_km(shop) == 90


def test_another_odometer_counts_on(shop):
    asked = turn(shop, "90")
    assert asked.said is Said.QUESTION
    assert "90 km came, and a joint was tightened or checked at 150 km" in asked.text
    assert build(shop).odometer == 200, "nothing changes before the answer"
    assert "counts on" in pick(asked, 1).text
    assert left_km(shop) == 50
    assert turn(shop, "145").said is Said.DONE, "it is asked once"
    assert nuts(shop).standing.why == "to be checked again, 5 km over"
    assert "at 150 km" in as_text(shop.shop, None, record_of(shop.shop, None))


def test_a_figure_before_that_was_wrong_makes_no_recheck_late(shop):
    pick(turn(shop, "90"), 2)
    assert left_km(shop) == 100, "what was tightened at 150 km counts from 90 km"
    turn(shop, "195")
    assert nuts(shop).standing.is_due


def test_what_is_typed_wrong_now_is_let_go(shop):
    before = shop.bytes()
    turn(shop, "90")
    assert shop.bytes() == before


def test_no_figure_at_all_is_asked_about(shop):
    asked = turn(shop, "")
    assert "now there is none" in asked.text
    pick(asked, 1)
    assert left_km(shop) is None


def test_converted_figures_leave_readings_and_distances_what_they_were(shop):
    asked = turn(shop, unit="mi")
    assert "converted: 200 km are 124 mi" in asked.question.choices[0].label
    done = pick(asked, 1)
    assert "Distances to re-checks are converted: 100 km are 62 mi." in done.text
    assert (build(shop).odometer, build(shop).odometer_unit) == (124, "mi")
    # 100 km are 62.137 mi (NIST SP 811, appendix B); a whole mile less is early, never late.
    assert nuts(shop).joint.again_after == 62
    assert left_km(shop) == pytest.approx(150 + 62 * 1.609344 - 124 * 1.609344)
    (told,) = as_values(shop.shop, record_of(shop.shop, None))
    assert [(each["odometer"], each["odometer_unit"]) for each in told["readings"]] == [(150, "km")]
    assert "at 150 km" in as_text(shop.shop, None, record_of(shop.shop, None))
    assert turn(shop, "160").said is Said.DONE
    assert nuts(shop).standing.why == "to be checked again, 5 mi over"


def test_figures_that_were_always_in_the_other_unit_are_read_so(shop):
    pick(turn(shop, unit="mi"), 2)
    assert (build(shop).odometer, nuts(shop).joint.again_after) == (200, 100)
    assert left_km(shop) == pytest.approx(50 * 1.609344)
    assert "at 150 mi" in as_text(shop.shop, None, record_of(shop.shop, None))


@pytest.mark.parametrize("way", [1, 2])
def test_a_unit_is_changed_back(shop, way):
    pick(turn(shop, unit="mi"), way)
    pick(turn(shop, unit="km"), 2 if way == 2 else 1)
    assert build(shop).odometer == 200
    assert "at 150 km" in as_text(shop.shop, None, record_of(shop.shop, None))
    assert left_km(shop) == 50 if way == 2 else left_km(shop) == pytest.approx(50, abs=2)


def test_another_unit_and_a_lower_figure_are_asked_about_one_after_the_other(shop):
    asked = pick(turn(shop, "10", "mi"), 1)
    assert "10 mi came, and a joint was tightened or checked at 93 mi" in asked.text
    pick(asked, 1)
    assert driven_now(build(shop)) == pytest.approx(200)
    assert build(shop).odometer == 10
    assert nuts(shop).joint.again_after == 62


def test_undo_takes_all_of_it_back(shop):
    before = build(shop)
    pick(turn(shop, unit="mi"), 1)
    undo(shop.at("office"))
    assert build(shop) == before
    assert (nuts(shop).joint.again_after, left_km(shop)) == (100, 50)


def test_a_reading_of_before_units_were_written_down_is_in_that_of_the_vehicle_then(shop):
    (reading,) = shop.shop.readings.of_part(shop.wheel.id)
    with shop.shop.transaction("as it was", terminal="lift") as tx:
        tx.state(replace(reading, id=0, odometer_unit="", odometer=190))
    pick(turn(shop, unit="mi"), 1)
    assert "at 190 km" in as_text(shop.shop, None, record_of(shop.shop, None))


def test_a_vehicle_on_which_nothing_was_tightened_is_not_asked_about(made):
    assert turn(made, "200").said is Said.DONE
    assert turn(made, "90", "mi").said is Said.DONE
    assert made.shop.builds.get(made.build.id).meters == ()
