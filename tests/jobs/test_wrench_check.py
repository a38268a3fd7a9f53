"""A torque tool's checks: good ones, failed ones, of another day, with figures; what it may be used for."""

from dataclasses import replace
from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import How, Joint, Reading, What, Wrench
from shoptui.jobs.at import shown
from shoptui.jobs.check import check
from shoptui.jobs.edit import edit, make, written
from shoptui.jobs.joints import joints_of
from shoptui.jobs.label_kinds import KINDS
from shoptui.jobs.today import today_lines
from shoptui.jobs.wrench_words import PAPERS_FIRST, uses_since, why_not_now, wrench_facts

TODAY = date(2026, 11, 25)
NUT = Joint("Nut", 2, value="100 N m", source="Sheet")


@pytest.fixture
def wrench(made):
    with made.shop.transaction("a wrench", terminal="office") as tx:
        tool = Wrench(0, "T-200", "", "Click 200", low=20, high=200, kind="II A", checked=date(2026, 9, 1))
        made.hub = tx.change(made.hub, joints=(NUT,))
        made.foreign = tx.change(made.foreign, joints=(NUT,))
        for part in (made.hub, made.foreign):
            tx.enter(verbs.stock(part.id, 1, to=made.a3.id))
            tx.enter(verbs.install(made.shop.book, part.id, 1, position=""))
        return tx.add(tool)


def tightened(made, wrench, part, *, fasteners=2, what=What.TIGHTENED):
    """Write down a reading that counts."""
    with made.shop.transaction("tightened", terminal="lift") as tx:
        tx.state(
            Reading(
                0, what, part.id, "Nut", fasteners=fasteners if what is What.TIGHTENED else 0, value="100",
                unit="N m", how=How.SET, wrench=wrench.id, sheet_says=NUT.sheet_says,
            )
        )  # fmt: skip


def now(made, wrench):
    return made.shop.wrenches.get(wrench.id)


def is_open(made, part):
    (joint,) = joints_of(made.shop, made.shop.parts.get(part.id))
    return joint.is_open


def twice(made, station="racks"):
    scans = made.scans(station)
    scans.take("T-200")
    return scans, scans.take("T-200")


def today(made):
    return [line.words for line in today_lines(made.shop, TODAY) if line.kind == "wrench"]


# Dropped


@pytest.mark.parametrize("said", ["wrench dropped", "KWDRPA2"])
@pytest.mark.parametrize("station", ["receiving", "lift", "racks", "today", "parts"])
def test_one_scan_and_the_tag_bar_it_everywhere(made, wrench, station, said):
    scans = made.scans(station)
    scans.take("T-200")
    assert scans.take(said).text == "T-200 is barred until it is checked; scan it twice then."
    assert now(made, wrench).barred == "dropped"
    assert scans.at.wrench is None


def test_the_tag_alone_means_the_one_in_hand_at_the_lift(made, wrench):
    made.scans("lift").take("T-200")
    lift = made.scans("lift")  # an hour later
    assert lift.take("KWDRPA2").said == "done"
    assert now(made, wrench).barred == "dropped"


def test_with_none_in_hand_the_tag_asks_which_fell(made, wrench):
    racks = made.scans("racks")
    assert racks.take("KWDRPA2").text == "Scan the wrench that fell: it is barred then."
    assert racks.take("T-200").said == "done"
    assert now(made, wrench).barred == "dropped"


def test_the_tag_answers_what_happened_too(made, wrench):
    scans, _ = twice(made)
    scans.take("KWDRPA2")
    assert now(made, wrench).barred == "dropped"


def test_no_form_unbars_it_but_a_check_does(made, wrench):
    with made.shop.transaction("fell", terminal="office") as tx:
        before = tx.change(wrench, barred="dropped")
    stood = written(made.shop, before)
    for changed in ({"barred": ""}, {"barred": "", "checked": "2026-11-25"}):
        answer = edit(made.at("setup"), before, stood | changed, before=stood)
        assert (answer.said, answer.field) == ("stop", "barred")
        assert answer.text.endswith(
            "It is barred (dropped) until a check is good: scan it twice, and say so."
        )
    scans, _ = twice(made)
    scans.typed("2")
    assert (now(made, wrench).barred, now(made, wrench).checked) == ("", TODAY)


# A good check


def test_a_good_check_sets_day_and_uses_on_the_same_day_too(made, wrench):
    tightened(made, wrench, made.hub)
    with made.shop.transaction("more", terminal="office") as tx:
        tx.change(now(made, wrench), cycles=4998)
    assert why_not_now(made.shop, now(made, wrench)) == "its check is due after 5000 uses"
    scans, _ = twice(made)
    assert scans.typed("2").text == "T-200 was checked today and may be used."
    assert uses_since(made.shop, now(made, wrench)) == 0
    tightened(made, wrench, made.foreign)
    assert uses_since(made.shop, now(made, wrench)) == 2
    scans.take("undo")
    assert now(made, wrench) == replace(wrench, cycles=4998)


@pytest.mark.parametrize(
    ("typed", "day", "words"),
    [
        ("20 Nov", date(2026, 11, 20), "T-200 was checked on Fri 20 Nov and may be used."),
        (
            "1.5 -2 0,8",
            TODAY,
            "T-200 was checked today and may be used, found +1.5 % at 20 %, -2 % at 60 %, +0.8 % at 100 %.",
        ),
        (
            "2026-11-20: 4 4 -4 %",
            date(2026, 11, 20),
            (
                "T-200 was checked on Fri 20 Nov and may be used, "
                "found +4 % at 20 %, +4 % at 60 %, -4 % at 100 %."
            ),
        ),
    ],
)
def test_a_check_of_another_day_and_with_what_was_found(made, wrench, typed, day, words):
    scans, _ = twice(made)
    asked = scans.typed("4")
    assert "what was found at 20, 60, 100 % of 200 N m" in asked.text
    assert scans.typed(typed).text == words
    assert now(made, wrench).checked == day


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("30 Nov", "Mon 30 Nov is still to come"),
        ("31 Aug", "Its last check was on Tue 1 Sep; a day since then was expected."),
        ("30 Feb", "There is no 30 Feb"),
        ("soonish", "A day as year-month-day"),
        ("1 2", "A day as year-month-day"),
        ("1 2 300", "Deviations below 100 % were expected; 1 2 300 came."),
    ],
)
def test_a_check_that_cannot_be(made, wrench, typed, words):
    scans, _ = twice(made)
    scans.typed("4")
    assert words in scans.typed(typed).text
    assert now(made, wrench) == wrench


def test_a_check_before_it_fell_does_not_unbar_it(made, wrench):
    with made.shop.transaction("fell", terminal="office") as tx:
        tx.change(wrench, barred="dropped")
    scans, _ = twice(made)
    scans.typed("4")
    assert "It is barred since Wed 25 Nov (dropped); a check before that" in scans.typed("20 Nov").text
    assert now(made, wrench).barred == "dropped"


def test_figures_without_a_deviation_say_nothing(made, wrench):
    with made.shop.transaction("no type", terminal="office") as tx:
        tx.change(wrench, kind="setting")
    scans, _ = twice(made)
    scans.typed("4")
    assert "Write down first what it may deviate" in scans.typed("1 1 1").text
    assert now(made, wrench).checked == wrench.checked


# A failed check


def test_a_failed_check_says_what_it_opens_before_and_after(made, wrench):
    for part in (made.hub, made.foreign):
        tightened(made, wrench, part)
    with made.shop.transaction("left", terminal="office") as tx:
        tx.change(made.shop.builds.get(made.other.id), status="finished")
    scans, _ = twice(made)
    told = (
        "2 joints tightened with it since its last good check, Tue 1 Sep, {} open again: 1 on Wagon, "
        "1 on Coupe (finished) (Nut of Hub; Nut of Mirror)."
    )
    asked = scans.typed("3")
    assert asked.text == f"T-200 failed. {told.format('will be')} Enter: it failed, and is barred."
    assert not is_open(made, made.hub)
    assert scans.yes().text == f"T-200 is barred. {told.format('are')}"
    assert (now(made, wrench).barred, is_open(made, made.hub), is_open(made, made.foreign)) == (
        "failed its check",
        True,
        True,
    )
    scans.take("undo")
    assert (now(made, wrench).barred, is_open(made, made.hub)) == ("", False)


def test_what_a_moving_vehicle_depends_on_is_named_first(made, wrench):
    with made.shop.transaction("a hood", terminal="office") as tx:
        hood = tx.change(made.hood, joints=(NUT,))
        brake = tx.change(made.foreign, section="Brakes")
        tx.enter(verbs.stock(hood.id, 1, to=made.a3.id))
        tx.enter(verbs.install(made.shop.book, hood.id, 1, position=""))
    for part in (hood, brake):
        tightened(made, wrench, part)
    scans, _ = twice(made)
    assert "(Nut of Mirror; Nut of Hood)" in scans.typed("3").text


def test_left_alone_the_question_changes_nothing(made, wrench):
    tightened(made, wrench, made.hub)
    scans, _ = twice(made)
    scans.typed("3")
    assert scans.take("no").said == "stop"
    assert (now(made, wrench).barred, is_open(made, made.hub)) == ("", False)


@pytest.mark.parametrize("typed", ["4.1 0 0", "0 0 -6"])
def test_a_point_out_of_what_is_permitted_is_a_failed_check(made, wrench, typed):
    tightened(made, wrench, made.hub)
    scans, _ = twice(made)
    scans.typed("4")
    asked = scans.typed(typed)
    assert "T-200 failed: found" in asked.text
    assert "4 % are permitted. 1 joint tightened with it" in asked.text
    scans.yes()
    assert now(made, wrench).barred == "failed its check"
    assert is_open(made, made.hub)


def test_what_was_tightened_before_a_good_check_of_the_same_day_is_not_doubted(made, wrench):
    tightened(made, wrench, made.hub)
    scans, _ = twice(made)
    scans.typed("2")
    tightened(made, wrench, made.foreign)
    scans, _ = twice(made)
    scans.typed("3")
    scans.yes()
    assert (is_open(made, made.hub), is_open(made, made.foreign)) == (False, True)


def test_a_check_made_with_it_counts_no_longer(made, wrench):
    with made.shop.transaction("another", terminal="office") as tx:
        good = tx.add(Wrench(0, "T-90", "", "Click 90", low=20, high=200, checked=date(2026, 9, 1)))
    tightened(made, good, made.hub)
    tightened(made, wrench, made.hub, what=What.CHECKED)
    scans, _ = twice(made)
    told = "Nothing that is on was tightened with it since its last good check, Tue 1 Sep."
    assert f"{told} Checks made with it that no longer count: 1." in scans.typed("3").text
    scans.yes()
    checked = made.shop.readings.of_part(made.hub.id)[-1]
    assert made.shop.readings.struck_by(checked.id).note == "wrench T-200 failed its check"
    assert not is_open(made, made.hub)


# How often it was used


def test_each_fastener_is_a_use_and_what_was_struck_out_is_none(made, wrench):
    tightened(made, wrench, made.hub)
    tightened(made, wrench, made.foreign, fasteners=1)
    tightened(made, wrench, made.hub, what=What.CHECKED)
    assert uses_since(made.shop, wrench) == 3
    made.scans("lift").take("undo")  # the check
    made.scans("lift").take("undo")  # the one fastener
    assert uses_since(made.shop, wrench) == 2


def test_a_day_typed_in_the_form_counts_from_that_day(made, wrench):
    tightened(made, wrench, made.hub)
    scans, _ = twice(made)
    scans.typed("2")
    before = now(made, wrench)
    assert before.checked_after
    made.clock.advance(days=2)
    stood = written(made.shop, before)
    edit(made.at("setup"), before, stood | {"checked": "2026-11-25", "cycles": "7"}, before=stood)
    assert uses_since(made.shop, now(made, wrench)) == 7, "the day is as it was"
    after = now(made, wrench)
    stood = written(made.shop, after)
    edit(made.at("setup"), after, stood | {"checked": "2026-11-24"}, before=stood)
    assert uses_since(made.shop, now(made, wrench)) == 9


# Sold, lost, another unit, taken back


def test_one_that_is_gone_is_used_and_brought_up_no_more_but_its_readings_stay(made, wrench):
    tightened(made, wrench, made.hub)
    scans, _ = twice(made)
    assert "Why?" in scans.typed("5").text
    assert "is gone: lost" in scans.typed("2").text
    assert (now(made, wrench).barred, now(made, wrench).gone) == ("lost", True)
    assert today(made) == []
    assert list(KINDS["wrenches"].here(made.shop)) == []
    assert not is_open(made, made.hub)
    assert "Not to be used, gone: lost." in made.scans("lift").take("T-200").text
    assert made.scans("lift").at.wrench is None
    scans, _ = twice(made)
    scans.typed("2")
    assert (now(made, wrench).barred, now(made, wrench).gone) == ("", False)


def test_the_form_wants_to_know_why_it_is_gone(made, wrench):
    stood = written(made.shop, wrench)
    answer = edit(made.at("setup"), wrench, stood | {"gone": "yes"}, before=stood)
    assert (answer.said, answer.field) == ("stop", "barred")
    assert (
        edit(made.at("setup"), wrench, stood | {"gone": "yes", "barred": "sold"}, before=stood).said == "done"
    )


def test_readings_keep_their_unit_when_that_of_the_wrench_is_changed(made, wrench):
    tightened(made, wrench, made.hub)
    stood = written(made.shop, wrench)
    changed = {"unit": "ft-lbs", "low": "30", "high": "150"}
    assert edit(made.at("setup"), wrench, stood | changed, before=stood).said == "done"
    assert now(made, wrench).unit == "lbf ft"
    assert not is_open(made, made.hub)
    (reading,) = made.shop.readings.of_part(made.hub.id)
    assert (reading.value, reading.unit) == ("100", "N m")


def test_one_that_was_used_cannot_be_taken_back(made):
    values = {"name": "New", "code": "T-9", "unit": "N m", "low": "5", "high": "200", "kind": "2a"}
    made_one = make(made.at("setup"), Wrench, values)
    wrench = made.shop.wrenches.get(made_one.subject)
    assert wrench.kind == "II A"
    tightened(made, wrench, made.hub)
    said = made.scans("setup").take("undo")
    assert (said.said, "what it made is used by" in said.text) == ("stop", True)
    made.scans("lift").take("undo")
    assert made.scans("setup").take("undo").said == "done"


# What its papers and its type say


def test_papers_wider_than_the_type_are_said_at_the_form_at_today_and_in_the_check(made, wrench):
    stood = written(made.shop, wrench)
    answer = edit(made.at("setup"), wrench, stood | {"deviation_percent": "± 6 %"}, before=stood)
    assert answer.text.endswith(f"Its papers say 6 %, II A permits 4 %: {PAPERS_FIRST}.")
    assert today(made) == ["Click 200 (T-200): its papers say 6 %, II A permits 4 %"]
    (problem,) = [each for each in check(made.shop) if each.where == "wrench T-200"]
    assert problem.what == "its papers say 6 %, II A permits 4 %"
    assert "Not to be used" not in made.scans("racks").take("T-200").text


def test_few_uses_left_are_brought_up(made, wrench):
    with made.shop.transaction("used", terminal="office") as tx:
        tx.change(wrench, cycles=4600)
    assert today(made) == ["Click 200 (T-200): to be checked within 400 uses"]


def test_its_card_says_what_it_is_and_what_it_tightened_last(made, wrench):
    for _ in range(6):
        for part in (made.hub, made.foreign):
            tightened(made, wrench, part)
    facts = list(wrench_facts(made.shop, wrench))
    told = dict(facts[:7])
    assert told == {
        "scale": "20 to 200 N m",
        "type": "II A of ISO 6789: it is set",
        "may deviate": f"4 % either way, by its type: {PAPERS_FIRST}",
        "last check": "Tue 1 Sep",
        "next check": "Wed 1 Sep 2027, or after 5000 uses",
        "uses since": "24",
        "may be used": "+ yes",
    }
    readings = [words for label, words in facts[9:]]
    assert len(readings) == 10
    code = shown(made.foreign.code)
    assert readings[0] == f"Wed 25 Nov: 2 x 100 N m, Nut of {code}, nobody's name"
