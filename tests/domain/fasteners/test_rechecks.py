from datetime import date, timedelta

import pytest

from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.rechecks import Event, Happened, Rule, standing, why_not_tightened_again
from shoptui.domain.fasteners.surfaces import Prepared

DAY = date(2026, 11, 4)
ALL_FIVE = Event(Happened.TIGHTENED, DAY, 100.0, 5)


def stands(*events, fasteners=5, rule=Rule(), days=0, km=100.0):  # noqa: B008 - a rule is frozen
    return standing(events, fasteners, rule, today=DAY + timedelta(days), odometer_km=km)


def test_a_joint_is_open_until_all_are_tightened():
    assert stands().why == "0 of 5 tightened"
    assert stands(Event(Happened.TIGHTENED, DAY, fasteners=3)).why == "3 of 5 tightened"
    assert not stands(
        Event(Happened.TIGHTENED, DAY, fasteners=3), Event(Happened.TIGHTENED, DAY, fasteners=2)
    ).is_open


def test_a_check_without_fasteners_is_signed():
    assert stands(fasteners=0).why == "not signed"
    assert not stands(Event(Happened.TIGHTENED, DAY), fasteners=0).is_open


@pytest.mark.parametrize(
    ("what", "why"), [(Happened.LOOSENED, "loosened since"), (Happened.FAILED, "failed its check")]
)
def test_it_opens_again_and_old_readings_no_longer_count(what, why):
    found = stands(ALL_FIVE, Event(what, DAY))
    assert (found.is_open, found.why) == (True, why)
    partly = stands(ALL_FIVE, Event(what, DAY), Event(Happened.TIGHTENED, DAY, fasteners=2))
    assert partly.why == "2 of 5 tightened"
    assert not stands(ALL_FIVE, Event(what, DAY), ALL_FIVE).is_open


def test_due_by_distance():
    rule = Rule(after_km=50)
    assert stands(ALL_FIVE, rule=rule, km=130.0).left_km == 20
    assert not stands(ALL_FIVE, rule=rule, km=149.9).is_due
    found = stands(ALL_FIVE, rule=rule, km=150.0)
    assert (found.is_due, found.is_open, found.why) == (True, False, "to be checked again, 0 km over")


def test_due_by_date_whichever_comes_first():
    rule = Rule(after_km=50, after_days=7)
    assert stands(ALL_FIVE, rule=rule, days=6).due_day == DAY + timedelta(7)
    assert not stands(ALL_FIVE, rule=rule, days=6).is_due
    assert stands(ALL_FIVE, rule=rule, days=9).why == "to be checked again, 2 days over"


def test_without_an_odometer_distance_is_not_known():
    found = stands(ALL_FIVE, rule=Rule(after_km=50), km=None)
    assert (found.is_due, found.left_km) == (False, None)


def test_a_good_check_ends_it():
    assert not stands(ALL_FIVE, Event(Happened.CHECKED, DAY, 150.0), rule=Rule(after_km=50), km=900.0).is_due


def test_never_by_tightening_again():
    assert "angle" in why_not_tightened_again(Prepared.DRY, by_angle=True)
    assert "threadlocker" in why_not_tightened_again(Prepared.LOCKED, by_angle=False)
    assert not why_not_tightened_again(Prepared.OILED, by_angle=False)


@pytest.mark.parametrize("wrong", [{"after_km": 0}, {"after_days": -1}])
def test_a_rule_that_is_none(wrong):
    with pytest.raises(FastenerError, match="above 0 until the check was expected"):
        Rule(**wrong)
