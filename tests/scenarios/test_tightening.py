"""A wheel with five studs, a caliper with a second check, a seat with bolts turned by angle and used once."""

from dataclasses import replace
from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.fasteners.surfaces import Prepared
from shoptui.domain.places import State
from shoptui.domain.records import Joint, Part, Person, What, Wrench
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs.check import check
from shoptui.jobs.install import install
from shoptui.jobs.joint_tally import outside_words, within_by_deviation
from shoptui.jobs.joint_words import reading_words
from shoptui.jobs.joints import joints_of, open_words
from shoptui.jobs.missing import missing
from shoptui.jobs.missing_sheet import as_text
from shoptui.jobs.scan import Scanning
from shoptui.jobs.story import story
from shoptui.jobs.strike_out import strike_out
from shoptui.jobs.today import today_lines
from shoptui.jobs.torque_record import as_values, record_of
from shoptui.jobs.torque_record import rows as torque_rows
from shoptui.jobs.torque_sheet import as_text as torque_text
from shoptui.stations.lift.joints import joint_facts
from shoptui.stations.lift.rows import lift_row
from shoptui.stations.parts.deeds import what_next

TODAY = date(2026, 11, 25)
NOTHING_LEFT = "No joint of the vehicle wants anybody now."

NUTS = Joint(
    "Wheel nuts",
    5,
    "M12x1.5 10.9",
    Prepared.DRY,
    "110 N m",
    passes=3,
    pattern="star",
    again_after=50,
    source="Torque sheet, edition 2",
    page="4",
)
CAP = Joint("Hub cap screws", 3, "M6 8.8", value="8 N m", source="Torque sheet, edition 2", page="4")
CAP_TOO = replace(CAP, name="Hub cap screws, outer")
BOLTS = Joint(
    "Caliper bolts", 2, "M12x1.5 10.9", value="115 N m", second_check=True, source="Sheet", page="9"
)
BLED = Joint("Bled, no leaks", 0, source="Sheet", page="10")
SEAT = Joint(
    "Seat bolts",
    4,
    "M10x1.25 10.9",
    Prepared.LOCKED,
    "40 N m + 90 deg",
    one_use=True,
    source="Sheet",
    page="12",
)


@pytest.fixture
def shop(made):
    with made.shop.transaction("joints", terminal="office") as tx:
        made.build = tx.change(made.build, odometer=100)
        made.second = tx.add(Person(0, "fab", "", "the fabricator", second_check=True))
        made.hand = tx.add(Person(0, "hand", "", "a hand"))
        made.wrench = tx.add(
            Wrench(
                0, "T-200", "", "Click 200", low=20, high=200, deviation_percent=4, checked=date(2026, 9, 1)
            )
        )
        made.wheel = tx.add(
            Part(
                0, "WH", "", made.build.id, "Wheel", section="Wheels", needed=2, positions=("LF", "RF"),
                joints=(NUTS, CAP),
            )
        )  # fmt: skip
        made.caliper = tx.add(
            Part(0, "CAL", "", made.build.id, "Caliper", section="Brakes", needed=1, joints=(BOLTS, BLED))
        )
        made.seat = tx.add(Part(0, "SEAT", "", made.build.id, "Seat", needed=1, joints=(SEAT,)))
        for part in (made.wheel, made.caliper, made.seat):
            tx.enter(verbs.stock(part.id, part.needed, to=made.a3.id))
    return made


@pytest.fixture
def lift(shop):
    lift = shop.scans("lift")
    lift.take("lead")
    return lift


def stands(shop, part, position=None):
    part = shop.shop.parts.get(part.id)
    return {each.joint.name: each.standing.why for each in joints_of(shop.shop, part, position)}


def rows(shop, part):
    return shop.shop.readings.of_part(part.id)


def test_a_wheel_with_two_joints_takes_three_scans_and_two_enters(shop, lift):
    small = shop.shop
    with small.transaction("another", terminal="office") as tx:
        tx.change(shop.wrench, low=5)
    lift.take("WH")
    lift.take("T-200")
    asked = lift.take("LF")
    assert asked.text == (
        "1 Wheel installed at LF. 1 of 2 on. Wheel nuts at LF: 5 x M12 x 1.5 - 10.9, dry, "
        "110 N m (about 81.1 lbf ft). With T-200. Enter: all 5, set to 110 N m; or type what it was."
    )
    asked = lift.yes()
    assert "Hub cap screws at LF" in asked.text
    done = lift.yes()
    assert (done.said, done.text) == (
        "done",
        f"Hub cap screws at LF: 3 set to 8 N m. All joints of Wheel at LF are done. {NOTHING_LEFT}",
    )
    (nuts, _) = rows(shop, shop.wheel)
    assert (nuts.fasteners, nuts.value, nuts.unit, nuts.how) == (5, "110", "N m", "set")
    assert (nuts.wrench, nuts.who, nuts.odometer) == (shop.wrench.id, shop.person.id, 100)
    assert small.wrenches.get(shop.wrench.id).cycles == 0, "its uses are counted from the readings"


def test_what_is_skipped_is_not_hidden(shop, lift):
    lift.take("WH")
    lift.take("LF")
    lift.drop()
    assert shop.count(shop.wheel, State.INSTALLED) == 1
    assert open_words(shop.shop, shop.wheel, "LF") == (
        "Wheel nuts: 0 of 5 tightened; Hub cap screws: 0 of 3 tightened"
    )


def put_on(lift, code, *more):
    for each in (code, *more):
        lift.take(each)
    return lift.yes()


def test_readings_typed_one_by_one_and_in_the_end_all(shop, lift):
    lift.take("T-200")
    lift.take("WH")
    lift.take("LF")
    asked = lift.typed("109 111 110")
    assert "3 of 5 tightened" in asked.text
    assert "2 x M12" in asked.text
    assert "110 N m on all 2? Enter: on all; or type each" in lift.typed("110").text
    assert "Hub cap" in lift.yes().text
    assert [(row.fasteners, row.how) for row in rows(shop, shop.wheel)] == [
        (1, "measured"), (1, "measured"), (1, "measured"), (2, "set"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("11", "11 N m is not 110 N m, but 110 N m is"),
        ("81", "81 N m is not 110 N m, but 81 lbf ft is 110 N m"),
        ("150", "above what is allowed"),
        ("81 lbf ft", "A value in N m was expected; 81 lbf ft came, about 110 N m"),
        ("33", "33 N m is pass 1 of 3, the last is 110 N m"),
        ("77", "77 N m is pass 2 of 3"),
    ],
)
def test_a_reading_that_looks_wrong_is_asked_about_and_never_turned(shop, lift, typed, words):
    lift.take("T-200")
    lift.take("WH")
    lift.take("LF")
    before = shop.bytes()
    asked = lift.typed(typed)
    assert words in asked.text
    assert shop.bytes() == before
    assert "on all 5?" in lift.yes().text
    lift.yes()
    row = rows(shop, shop.wheel)[-1]
    assert (row.value, row.unit) == (typed.split()[0], "lbf ft" if "lbf" in typed else "N m")
    assert words.split(";")[0] in row.note


@pytest.mark.parametrize("typed", ["1100", "55", "33", "5 x 77"])
def test_what_is_outside_the_sheet_is_written_down_and_leaves_the_joint_open(shop, lift, typed):
    lift.take("T-200")
    lift.take("WH")
    lift.take("LF")
    told = lift.typed(typed).text
    assert "the joint stays open" in told
    if "on all 5?" in lift.yes().text:
        lift.yes()
    assert rows(shop, shop.wheel)[-1].value == typed.split()[-1]
    assert stands(shop, shop.wheel)["Wheel nuts"].startswith("0 of 5 tightened, outside the sheet: ")
    assert lift.question.question.yes is None, "one Enter too many does not close it"
    lift.typed("5 x 110")
    if typed == "1100":
        lift.typed("1")  # loosened before that
    assert stands(shop, shop.wheel)["Wheel nuts"] == "", "tightened again, within the sheet"


def test_one_value_is_that_of_one_fastener_unless_it_is_asked_about(shop, lift):
    lift.take("T-200")
    lift.take("WH")
    lift.take("LF")
    before = shop.bytes()
    asked = lift.typed("110")
    assert "110 N m on all 5? Enter: on all; or type each" in asked.text
    assert shop.bytes() == before
    lift.asked(asked.question.choices[0].take())
    assert stands(shop, shop.wheel)["Wheel nuts"] == "1 of 5 tightened"
    assert "on all 4?" in lift.typed("110").text
    lift.typed("109 110")
    assert stands(shop, shop.wheel)["Wheel nuts"] == "3 of 5 tightened"
    lift.typed("2 x 110")
    assert stands(shop, shop.wheel)["Wheel nuts"] == ""


def test_a_dial_is_read_and_never_set(shop, lift):
    with shop.shop.transaction("a dial", terminal="office") as tx:
        tx.change(shop.wrench, kind="indicating")
    lift.take("WH")
    asked = lift.take("LF")
    assert asked.question.yes is not None
    lift.yes()
    asked = lift.take("T-200")
    assert "T-200 is read, not set: nothing was written down." in asked.text
    assert "Type what each was tightened to, in N m, blanks between." in asked.text
    assert asked.question.yes is None
    assert not rows(shop, shop.wheel)
    lift.typed("110 109 111 110 110")
    assert {row.how for row in rows(shop, shop.wheel)} == {"measured"}


def test_a_badge_does_not_close_what_was_tightened_outside_the_sheet(shop, lift):
    with shop.shop.transaction("a range", terminal="office") as tx:
        tx.change(shop.caliper, joints=(replace(BOLTS, value="115 +/- 5 N m"), BLED))
    lift.take("T-200")
    put_on(lift, "CAL")
    lift.take("125 115")
    asked = lift.yes()
    assert "1 of 2 tightened, outside the sheet: 125 N m is not 115 +/- 5 N m" in asked.text
    lift.take("fab")
    assert stands(shop, shop.caliper)["Caliper bolts"].startswith("1 of 2 tightened")
    lift.take("lead")
    lift.typed("116")
    asked = lift.typed("1")  # loosened before that
    assert "second check" in asked.text
    assert "Beware, it was tightened before: 125 N m is not 115 +/- 5 N m" in asked.text
    lift.take("fab")
    assert stands(shop, shop.caliper)["Caliper bolts"] == ""


def test_what_is_outside_the_sheet_is_accepted_with_a_reason_by_who_may(shop, lift):
    lift.take("T-200")
    put_on(lift, "CAL")
    lift.take("125 115")
    asked = lift.yes()
    choice = asked.question.choices[0]
    assert choice.label == "accept 125 N m as it is ..."
    lift.asked(choice.take())
    assert "somebody else who may sign second checks scans" in lift.typed("the maker was asked").text
    for badge, refused in (("hand", "a hand may not sign that"), ("lead", "the lead tightened it")):
        assert f"{refused}: somebody else" in lift.take(badge).text
        assert stands(shop, shop.caliper)["Caliper bolts"].startswith("1 of 2 tightened, outside")
    assert "accepted by the fabricator" in lift.take("fab").text
    assert stands(shop, shop.caliper)["Caliper bolts"] == "second check missing"
    row = rows(shop, shop.caliper)[-1]
    assert (row.what, row.who) == (What.ACCEPTED, shop.second.id)
    assert row.note.endswith("accepted because: the maker was asked")
    joints = record_of(shop.shop, shop.shop.builds.by_code("wagon"))
    told = " ".join(torque_text(shop.shop, shop.build, joints).split())
    assert "125 N m accepted although it is outside the sheet, by the fabricator" in told
    lift.drop()
    lift.take("undo")
    assert stands(shop, shop.caliper)["Caliper bolts"].startswith("1 of 2 tightened, outside")


def test_an_angle_far_off_leaves_the_joint_open_until_it_is_struck_out(shop, lift):
    lift.take("T-200")
    put_on(lift, "SEAT")
    lift.typed("90 90 90 400")
    lift.yes()
    lift.yes()
    assert "400 deg is not 90 deg" in stands(shop, shop.seat)["Seat bolts"]
    (each,) = joints_of(shop.shop, shop.shop.parts.get(shop.seat.id))
    assert each.left == 1
    strike_out(lift.at, each, each.outside[0], "a slip of the finger")
    assert stands(shop, shop.seat)["Seat bolts"] == "3 of 4 tightened"


def test_too_many_readings(shop, lift):
    lift.take("T-200")
    lift.take("WH")
    lift.take("LF")
    assert "6 readings came for the 5 fasteners that are left" in lift.typed("1 2 3 4 5 6").text
    assert not rows(shop, shop.wheel)


def test_without_badge_and_wrench_it_asks_for_them(shop):
    lift = shop.scans("lift")
    lift.take("WH")
    asked = lift.take("LF")
    assert "Scan the wrench." in asked.text
    asked = lift.yes()
    assert asked.text == "Wheel nuts at LF: Scan your badge and the wrench."
    assert lift.take("lead").text == "Wheel nuts at LF: Scan the wrench."
    assert "Hub cap screws" in lift.take("T-200").text
    assert rows(shop, shop.wheel)[0].who == shop.person.id


def test_a_barred_wrench_never(shop, lift):
    lift.take("T-200")
    assert lift.take("T-200").said == "question"
    assert "is barred until it is checked" in lift.typed("1").text
    lift.take("WH")
    lift.take("LF")
    asked = lift.take("T-200")
    assert "T-200 is barred (dropped); nothing is in hand: scan another" in asked.text


@pytest.mark.parametrize("during", [False, True], ids=["before the card", "on the card"])
def test_a_barred_wrench_in_the_hand_is_never_written_down_as_the_one_before(shop, lift, during):
    with shop.shop.transaction("another", terminal="office") as tx:
        tx.add(
            Wrench(0, "T-90", "", "Click 90", low=20, high=200, checked=date(2026, 9, 1), barred="dropped")
        )
    lift.take("T-200")
    if not during:
        assert "No wrench is in hand now" in lift.take("T-90").text
    lift.take("WH")
    lift.take("LF")
    asked = lift.take("T-90") if during else lift.question
    assert lift.at.wrench is None
    assert "Scan the wrench." in asked.text


def test_a_wrench_outside_its_marks_needs_a_reason_that_stays(shop, lift):
    lift.take("T-200")
    lift.take("WH")
    lift.take("LF")
    lift.yes()
    asked = lift.yes()
    assert "its marks go from 20 to 200 N m, 8 N m is below" in asked.text
    assert "is no answer here" in lift.typed("8 8").text, "figures are no reason"
    lift.typed("no other was to be had")
    assert rows(shop, shop.wheel)[-1].note.endswith("used because: no other was to be had")


@pytest.mark.parametrize(
    ("amiss", "why"),
    [
        ({"checked": date(2024, 1, 1)}, "its check is overdue, which the shop's settings do not allow"),
        ({"low": 150.0}, "110 N m is below, which the shop's settings do not allow"),
        ({"barred": "dropped"}, "T-200 is barred (dropped)"),
    ],
)
def test_a_wrench_is_refused_and_another_is_just_scanned(shop, lift, amiss, why):
    with shop.shop.transaction("another", terminal="office") as tx:
        tx.change_settings(any_wrench=False)
        tx.add(Wrench(0, "T-90", "", "Click 90", low=20, high=200, checked=date(2026, 9, 1)))
    lift.take("T-200")
    lift.take("WH")
    lift.take("LF")
    with shop.shop.transaction("meanwhile", terminal="office") as tx:
        tx.change(shop.shop.wrenches.get(shop.wrench.id), **amiss)
    asked = lift.yes()
    assert f"{why}: nothing was written down, and no wrench is in hand. Wheel nuts at LF" in asked.text
    assert "Scan the wrench." in asked.text
    assert not rows(shop, shop.wheel)
    lift.take("T-90")
    assert "Hub cap screws" in lift.yes().text
    assert stands(shop, shop.wheel)["Wheel nuts"] == ""


def test_after_a_refusal_the_same_joint_is_asked_again_also_where_another_was_picked(shop, lift):
    with shop.shop.transaction("the settings", terminal="office") as tx:
        tx.change_settings(any_wrench=False)
    lift.take("T-200")
    lift.take("WH")
    asked = lift.take("LF")
    lift.asked(next(each for each in asked.question.choices if "Hub cap" in each.label).take())
    asked = lift.yes()
    assert "no wrench is in hand. Hub cap screws at LF" in asked.text


def test_a_caliper_needs_a_second_person(shop, lift):
    lift.take("T-200")
    asked = put_on(lift, "CAL")
    assert asked.question.yes is None, "one statement does not do for it"
    assert "1 of 2 tightened" in lift.typed("115").text
    asked = lift.typed("116")
    assert "second check" in asked.text
    assert "tightened it" in lift.take("lead").text
    assert "may not sign" in lift.take("hand").text
    asked = lift.take("fab")
    assert "Bled, no leaks" in asked.text
    assert lift.at.person.code == "lead", "who signs the second check is not who works here"
    assert lift.typed("1").said == "done"
    assert [row.what for row in rows(shop, shop.caliper)] == [
        What.TIGHTENED, What.TIGHTENED, What.SECOND, What.SIGNED,
    ]  # fmt: skip


def test_off_again_opens_it_and_on_again_it_is_to_be_tightened(shop, lift):
    test_a_caliper_needs_a_second_person(shop, lift)
    lift.take("CAL")
    assert "Remove 1 Caliper" in lift.question.text
    lift.yes()
    lift.take("CAL")
    lift.yes()
    assert stands(shop, shop.caliper) == {
        "Caliper bolts": "loosened since",
        "Bled, no leaks": "loosened since",
    }
    lift.drop()
    lift.take("undo")
    lift.take("undo")
    assert stands(shop, shop.caliper) == {"Caliper bolts": "", "Bled, no leaks": ""}, "it never came off"


def test_a_seat_by_angle_with_new_bolts(shop, lift):
    lift.take("T-200")
    asked = put_on(lift, "SEAT")
    assert "40 N m (about 29.5 lbf ft) + 90 deg" in asked.text or "+ 90 deg" in asked.text
    assert "new ones" in asked.text
    assert "92 deg is not 90 deg" in lift.typed("90 90 92 90").text
    asked = lift.yes()
    assert "4 new ones? Enter" in asked.text
    asked = lift.yes()
    assert "3 of 4 tightened, outside the sheet: 92 deg is not 90 deg" in asked.text
    lift.typed("90")
    assert lift.yes().said == "done"
    assert {row.unit for row in rows(shop, shop.seat)} == {"deg"}
    assert "new fasteners" in rows(shop, shop.seat)[0].note


def test_undo_strikes_out_and_keeps(shop, lift):
    test_a_wheel_with_two_joints_takes_three_scans_and_two_enters(shop, lift)
    lift.take("undo")
    assert stands(shop, shop.wheel)["Hub cap screws"] == "0 of 3 tightened"
    struck = rows(shop, shop.wheel)[-1]
    assert shop.shop.readings.struck_by(struck.id).note == "taken back"


def test_a_sheet_that_changed_opens_the_joint(shop, lift):
    test_a_wheel_with_two_joints_takes_three_scans_and_two_enters(shop, lift)
    with shop.shop.transaction("read again", terminal="office") as tx:
        tx.change(shop.wheel, joints=(replace(NUTS, value="120 N m"), CAP))
    assert stands(shop, shop.wheel) == {"Wheel nuts": "its sheet changed since", "Hub cap screws": ""}


def test_a_wrench_that_fails_opens_what_it_tightened(shop, lift):
    test_a_wheel_with_two_joints_takes_three_scans_and_two_enters(shop, lift)
    lift.take("T-200")
    told = "2 joints tightened with it since its last good check, Tue 1 Sep, {} open again: 2 on Wagon (Wheel"
    assert told.format("will be") in lift.typed("3").text
    assert stands(shop, shop.wheel)["Wheel nuts"] == ""
    assert told.format("are") in lift.yes().text
    assert stands(shop, shop.wheel)["Wheel nuts"] == "wrench T-200 failed its check"


def test_wheel_nuts_are_due_after_their_first_distance(shop, lift):
    test_a_wheel_with_two_joints_takes_three_scans_and_two_enters(shop, lift)
    with shop.shop.transaction("driven", terminal="office") as tx:
        tx.change(shop.shop.builds.get(shop.build.id), odometer=160)
    assert stands(shop, shop.wheel)["Wheel nuts"] == "to be checked again, 10 km over"
    lift.take("WH")
    lift.take("tighten")
    assert "no fastener may turn. Enter: checked and good" in lift.question.text
    assert lift.yes().said == "done"
    assert stands(shop, shop.wheel)["Wheel nuts"] == ""
    checked = rows(shop, shop.wheel)[-1]
    assert reading_words(shop.shop, checked).startswith("checked again with T-200, the lead"), "with what"


@pytest.fixture
def due(shop, lift):
    """A wheel whose nuts are due to be checked again, with no wrench in hand."""
    test_a_wheel_with_two_joints_takes_three_scans_and_two_enters(shop, lift)
    with shop.shop.transaction("driven", terminal="office") as tx:
        tx.change(shop.shop.builds.get(shop.build.id), odometer=160)
    shop.shop.remember("lift", wrench=None)
    lift.take("WH")
    lift.take("tighten")
    return lift


def test_a_joint_that_is_checked_again_asks_for_the_wrench(shop, due):
    assert "scan the wrench that it was checked with" in due.yes().text
    assert due.take("T-200").said == "done"
    assert rows(shop, shop.wheel)[-1].wrench == shop.wrench.id


def test_a_wrench_that_is_scanned_first_is_taken_for_the_check(shop, due):
    assert "Enter: checked and good" in due.take("T-200").text
    assert due.yes().said == "done"
    assert rows(shop, shop.wheel)[-1].wrench == shop.wrench.id


@pytest.mark.parametrize(("typed", "note"), [("two turned a quarter", "two turned a quarter"), ("", "")])
def test_a_joint_that_failed_says_what_was_found(shop, due, typed, note):
    assert "type what was found" in due.typed("1").text
    asked = due.typed(typed) if typed else due.yes()
    assert "Wheel nuts at LF" in asked.text
    failed = rows(shop, shop.wheel)[-1]
    assert (failed.what, failed.note) == (What.FAILED, note)


# Open joints are open everywhere


@pytest.fixture
def rolling(shop, lift):
    """A filming day on which the vehicle moves, one wheel on, its nuts not tightened."""
    need = Need(Condition.TORQUE_DONE, part=shop.wheel.id, qty=2)
    with shop.shop.transaction("day", terminal="office") as tx:
        day = tx.add(
            Shoot(0, "day-1", "Rolling", date(2026, 11, 27), shots=(Shot("out", (need,), moves=True),))
        )
    lift.take("T-200")
    lift.take("WH")
    lift.take("LF")
    return day


def test_filming_waits_for_the_torque(shop, lift, rolling):
    report = missing(shop.shop, rolling, TODAY)
    (line,) = (each for each in report.lines if each.lack.state is State.INSTALLED)
    assert "installed at LF" in line.lack.why
    assert "Wheel nuts: 0 of 5 tightened" in line.lack.why
    assert line.act == "lift: tighten it, by Fri 27 Nov"
    assert [each.where for each in report.moving[0].not_tight] == ["Wheel nuts at LF", "Hub cap screws at LF"]
    assert "[ ] 1 Wheel (WH): Wheel nuts at LF, open: 0 of 5 tightened" in as_text(report)
    lift.yes()
    with shop.shop.transaction("small screws", terminal="office") as tx:
        tx.change(shop.wheel, joints=(NUTS,))
    report = missing(shop.shop, rolling, TODAY)
    assert [each.lack.state for each in report.lines] == [State.RECEIVED]
    assert report.moving[0].not_tight == ()


def test_today_and_the_corner_say_what_is_open(shop, lift, rolling):
    lines = today_lines(shop.shop, TODAY)
    told = {line.kind: line.words for line in lines}
    assert [line.words for line in lines if line.kind == "torque"] == [
        "Wheel (WH): Wheel nuts at LF, open: 0 of 5 tightened",
        "Wheel (WH): Hub cap screws at LF, open: 0 of 3 tightened",
    ]
    assert told["moves"].startswith("Fri 27 Nov: the vehicle moves, and not tightened or checked: Wheel nuts")
    lift.drop()
    lift.card.put_down()
    assert "2 joints want somebody: Wheel nuts at LF, open" in lift.take("LF").text
    with shop.shop.transaction("old", terminal="office") as tx:
        tx.change(shop.wrench, checked=date(2024, 1, 1))
    told = {line.kind: line.words for line in today_lines(shop.shop, TODAY)}
    assert told["wrench"] == "Click 200 (T-200): its check is overdue"


def test_the_record_reads_as_the_owner_would(shop, lift):
    test_a_caliper_needs_a_second_person(shop, lift)
    lift.take("CAL")
    lift.yes()
    lift.take("CAL")
    lift.yes()
    joints = record_of(shop.shop, shop.shop.builds.by_code("wagon"))
    text = torque_text(shop.shop, shop.build, joints)
    assert "2 joints and checks: 0 done, 2 not done, 0 to be checked again now." in text
    told = " ".join(text.split())
    assert (
        "NO LONGER COUNTS: 2026-11-25, at 100 km: 1 tightened to 115 N m, as set, wrench T-200, last checked "
        "2026-09-01, by the lead"
    ) in told, "what stood before it came off is still to be read"
    assert "NO LONGER COUNTS: 2026-11-25, at 100 km: second check, by the fabricator" in told
    assert max(map(len, text.splitlines())) <= 80
    (bolts, _) = as_values(shop.shop, joints)
    assert (bolts["joint"], bolts["open"], len(bolts["readings"])) == ("Caliper bolts", True, 3)
    assert len(list(torque_rows(shop.shop, joints))) == 4
    assert [each.joint.name for each in record_of(shop.shop, None, only_open=True)] == [
        "Caliper bolts",
        "Bled, no leaks",
    ]


def test_the_record_counts_and_marks_what_is_outside_the_sheet(shop, lift):
    lift.take("T-200")
    put_on(lift, "CAL")
    lift.take("125 115")
    lift.yes()
    outside, good = rows(shop, shop.caliper)
    assert ("125 N m is not 115 N m" in outside.note, good.note) == (True, ""), "each value has its own words"
    joints = record_of(shop.shop, shop.shop.builds.by_code("wagon"))
    text = " ".join(torque_text(shop.shop, shop.build, joints).split())
    assert "1 reading OUTSIDE THE SHEET." in text
    assert "- OUTSIDE THE SHEET: 2026-11-25, at 100 km: 1 tightened to 125 N m, as read" in text
    assert "- 2026-11-25, at 100 km: 1 tightened to 115 N m, as read" in text


def test_what_is_due_is_not_counted_as_done(shop, lift):
    test_a_wheel_with_two_joints_takes_three_scans_and_two_enters(shop, lift)
    with shop.shop.transaction("driven", terminal="office") as tx:
        tx.change(shop.shop.builds.get(shop.build.id), odometer=160)
    joints = record_of(shop.shop, shop.shop.builds.by_code("wagon"))
    text = torque_text(shop.shop, shop.build, joints)
    assert "2 joints and checks: 1 done, 0 not done, 1 to be checked again now." in text
    assert "TO BE CHECKED AGAIN NOW\n[ ] Wheel (WH), Wheel nuts at left front: now, 10 km over" in text
    assert "Hub cap screws at left front: done\n" in text


def test_today_names_every_wheel_that_is_to_be_checked_again(shop, lift):
    test_a_wheel_with_two_joints_takes_three_scans_and_two_enters(shop, lift)
    lift.take("WH")
    lift.take("RF")
    lift.yes()
    with shop.shop.transaction("driven", terminal="office") as tx:
        tx.change(shop.shop.builds.get(shop.build.id), odometer=160)
    told = [line.words for line in today_lines(shop.shop, TODAY) if line.kind == "check again"]
    assert told == ["Wheel (WH): Wheel nuts at LF RF, to be checked again, 10 km over"]
    _, row = lift_row(shop.at("lift"), shop.shop.parts.get(shop.wheel.id))
    assert "1 open, due" in row.cells, "the cap screws at RF are open"


# A mistake is struck out, never changed


def test_a_reading_is_struck_out_with_a_reason_and_stays(shop, lift):
    test_a_wheel_with_two_joints_takes_three_scans_and_two_enters(shop, lift)
    asked = lift_next(lift, shop, "strike out a reading ...")
    assert asked.question.choices[1].label.startswith("Wheel nuts at LF: 5 set to 110 N m with T-200")
    lift.asked(asked.question.choices[1].take())
    answer = lift.typed("it was the other wheel")
    assert answer.text.startswith("Struck out: Wheel nuts at LF, it was the other wheel.")
    assert stands(shop, shop.wheel)["Wheel nuts"] == "0 of 5 tightened"
    record = torque_text(shop.shop, shop.build, record_of(shop.shop, shop.build))
    assert "by the lead: it was the other wheel)" in " ".join(record.split())
    assert any("Wheel nuts at LF: struck out" in words for words in story(shop.shop, shop.wheel))
    lift.drop()
    lift.take("undo")
    assert stands(shop, shop.wheel)["Wheel nuts"] == "", "it counts again"


def lift_next(lift, shop, label):
    choices = what_next(lift.at, shop.shop.parts.get(shop.wheel.id), 1).question.choices
    return next(choice for choice in choices if choice.label == label).take()


def test_a_joint_that_was_loosened_is_open(shop, lift):
    test_a_wheel_with_two_joints_takes_three_scans_and_two_enters(shop, lift)
    asked = lift_next(lift, shop, "a joint was looked at, or loosened ...")
    asked = asked.question.choices[0].take()
    assert [choice.label for choice in asked.question.choices] == [
        "checked, and good",
        "one turned, or is loose: open it again",
        "it is loosened: open it again ...",
    ]
    asked = asked.question.choices[2].take()
    lift.asked(asked)
    lift.typed("to shim the hub")
    assert stands(shop, shop.wheel)["Wheel nuts"] == "loosened: to shim the hub"


def test_the_check_names_what_is_in_doubt(shop, lift):
    assert not [each for each in check(shop.shop) if "joint" in each.what]
    with shop.shop.transaction("doubt", terminal="office") as tx:
        tx.change(shop.wheel, joints=(replace(NUTS, source=""), replace(CAP, value="")))
    nobody = shop.scans("lift", "other")
    for each in ("WH", "LF"):
        nobody.take(each)
    nobody.yes()
    nobody.typed("1")
    told = "\n".join(each.what for each in check(shop.shop))
    assert "nobody wrote down which sheet says 110 N m for joint Wheel nuts" in told
    assert "joint Hub cap screws has no value" in told
    assert "nobody's name stands beside it; nobody wrote down the wrench" in told


def test_undo_goes_on_though_another_used_the_same_wrench_since(shop, lift):
    other = shop.scans("lift", "lift 2")
    for scans, spot in ((lift, "LF"), (other, "RF")):
        for each in ("lead", "T-200", "WH", spot):
            scans.take(each)
        scans.yes()
        scans.drop()
    assert lift.take("undo").said == "done"
    assert stands(shop, shop.wheel, "LF")["Wheel nuts"] == "0 of 5 tightened"
    assert stands(shop, shop.wheel, "RF")["Wheel nuts"] == ""


def test_a_script_that_installs_is_told_what_is_open(shop):
    answer = install(shop.at("office"), shop.wheel, 1, position="LF")
    assert answer.said == "done"
    assert "Its torque is open: Wheel nuts: 0 of 5 tightened; Hub cap screws" in answer.text


# What is typed where no value is asked for


@pytest.mark.parametrize("typed", ["1150 115", "ext 60 45", "115", "3 x 110", "somebody else"])
def test_what_is_typed_on_a_card_that_asks_for_no_value_is_no_part_and_the_question_stays(shop, lift, typed):
    lift.take("T-200")
    put_on(lift, "CAL")
    lift.typed("115 115")
    before = [part.id for part in shop.shop.parts.all()]
    asked = lift.typed(typed)
    assert "is no answer here" in asked.text
    assert "second check" in asked.text
    assert "Bled, no leaks" in lift.take("fab").text, "it was still asked"
    lift.yes()
    assert [part.id for part in shop.shop.parts.all()] == before


@pytest.mark.parametrize("typed", ["1150 115", "ext 60 45", "3 x 110 N m"])
def test_figures_after_the_last_joint_are_no_part(shop, lift, typed):
    test_a_wheel_with_two_joints_takes_three_scans_and_two_enters(shop, lift)
    said = lift.typed(typed)
    assert said.said == "stop"
    assert lift.question is None
    assert "No joint asks for" in said.text


def test_words_on_a_card_of_joints_that_was_dropped_are_no_part(shop, lift):
    put_on(lift, "CAL")
    lift.drop()
    assert "No joint asks for" in lift.typed("too tight here").text
    lift.card.put_down()
    assert "Did an original part come off?" in lift.typed("left door trim").text


def test_undo_of_a_part_that_was_made_lays_its_card_down(shop, lift):
    lift.typed("left door trim")
    lift.yes()
    lift.card.remember(lift.shop, lift.terminal)
    assert lift.card.part is not None
    lift.take("undo")
    assert lift.card.part is None
    assert shop.shop.terminal("lift").card_part is None
    assert not [each for each in check(shop.shop) if "not there" in each.what]


def test_a_position_where_the_part_is_not_shows_that_corner_and_its_joints(shop, lift):
    lift.take("WH")
    lift.take("RF")
    lift.drop()
    put_on(lift, "SEAT")
    said = lift.take("RF")
    assert "Wheel nuts at RF, open" in said.text
    assert "2 joints want somebody" in said.text
    assert lift.card.part == shop.wheel.id
    assert "Wheel nuts at RF" in lift.yes().text


def test_one_joint_wants_somebody(shop, lift):
    with shop.shop.transaction("one joint", terminal="office") as tx:
        tx.change(shop.wheel, joints=(NUTS,))
    lift.take("WH")
    lift.take("LF")
    lift.drop()
    lift.card.put_down()
    assert "1 joint wants somebody: Wheel nuts at LF" in lift.take("LF").text


def test_values_typed_before_a_crash_are_said_to_be_forgotten(shop, lift):
    lift.take("T-200")
    lift.take("WH")
    lift.take("LF")
    lift.typed("11")
    lift.card.remember(lift.shop, lift.terminal)
    again = shop.scans("lift").card_again()
    assert again.text.startswith("What was written down is kept; what was only typed is not. Wheel nuts")


@pytest.fixture
def long(shop):
    """The wrench's length is known, so that an extension can be reckoned with."""
    with shop.shop.transaction("its length", terminal="office") as tx:
        tx.change(shop.wrench, length_mm=400)
        shop.small = tx.add(
            Wrench(0, "T-25", "", "Click 25", low=5, high=150, length_mm=200, checked=date(2026, 9, 1))
        )


SET = "With T-200 and its extension 60 mm at 45 deg, set 99.5 N m, at that angle only."
"""110 x 400 / (400 + 60 cos 45) = 99.452, by a pocket calculator."""
KEPT = "extension 60 mm at 45 deg, 99.5 N m at the wrench for 110 N m at the bolt"


def test_an_extension_stays_at_the_wrench_over_joints_and_parts(shop, lift, long):
    for each in ("T-200", "WH", "LF"):
        lift.take(each)
    assert SET in lift.typed("ext 60 45").text
    asked = lift.yes()
    assert "and its extension 60 mm at 45 deg, set 7.23 N m" in asked.text
    assert rows(shop, shop.wheel)[0].note == KEPT
    lift.drop()
    lift.take("WH")
    lift.take("RF")
    assert SET in lift.yes().text
    assert SET in lift.take("T-200").text, "the same wrench again is the same wrench"


def test_an_extension_outlives_the_program(shop, lift, long):
    for each in ("T-200", "WH", "LF"):
        lift.take(each)
    lift.typed("ext 60 45")
    lift.card.remember(lift.shop, lift.terminal)
    again = Scanning(shop.reopened(), "lift", station="lift")
    assert SET in again.card_again().text
    again.yes()
    assert shop.shop.refresh()
    assert rows(shop, shop.wheel)[0].note == KEPT


@pytest.mark.parametrize("off", ["T-25", "ext 0", "no extension", "the extension is off"])
def test_an_extension_goes_with_another_wrench_or_by_word_or_tap(shop, lift, long, off):
    for each in ("T-200", "WH", "LF"):
        lift.take(each)
    asked = lift.typed("ext 60 45")
    if off.startswith("the"):
        choice = next(each for each in asked.question.choices if each.label == off)
        lift.asked(choice.take())
    else:
        lift.typed(off)
    assert "set 99.5" not in lift.question.text
    lift.take("T-200")
    assert "set 99.5" not in lift.question.text, "nor does it come back with the one before"
    lift.yes()
    assert rows(shop, shop.wheel)[0].note == ""


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("ext 400", "An extension shorter than the wrench, 400, was expected; 400 came."),
        ("ext 60 400", "An angle from 0 to 360 degrees was expected; 400 came."),
    ],
)
def test_an_extension_that_cannot_be_is_not_remembered(shop, lift, long, typed, words):
    for each in ("T-200", "WH", "LF"):
        lift.take(each)
    asked = lift.typed(typed)
    assert asked.text.startswith(words)
    assert lift.at.memory.lever is None
    assert "With T-200. With an extension, type" in asked.text


def test_an_extension_without_a_wrench_waits_for_one(shop, lift, long):
    lift.take("WH")
    lift.take("LF")
    asked = lift.typed("ext 60 45")
    assert "Scan the wrench; its extension 60 mm at 45 deg." in asked.text
    assert asked.question.yes is None, "nobody has set what nobody can say"
    assert SET in lift.take("T-200").text


def test_the_question_of_a_joint_says_how_an_extension_is_typed(shop, lift):
    with shop.shop.transaction("its length", terminal="office") as tx:
        tx.change(shop.wrench, length_mm=400)
    lift.take("T-200")
    lift.take("WH")
    assert "type ext and its mm and degrees: ext 60 45" in lift.take("LF").text


# Angles with the sheet's own tolerance


def turned(shop, lift, value):
    with shop.shop.transaction("its sheet", terminal="office") as tx:
        tx.change(shop.seat, joints=(replace(SEAT, value=value, one_use=False),))
    lift.take("T-200")
    return put_on(lift, "SEAT")


@pytest.mark.parametrize(
    ("value", "typed", "stays"),
    [
        ("40 N m + 90 +/- 5 deg", "92 90 95 85", ""),
        ("40 N m + 85 to 95 deg", "92 90 95 85", ""),
        (
            "40 N m + 90 +/- 5 deg",
            "92 90 96 85",
            "3 of 4 tightened, outside the sheet: 96 deg is not 90 +/- 5 deg",
        ),
        ("40 N m + 90 deg", "92 90 90 90", "3 of 4 tightened, outside the sheet: 92 deg is not 90 deg"),
        ("40 N m + 90 deg", "92 90 90 90", "no tolerance on the sheet"),
        ("40 N m + 90 deg + 90 deg", "180 90 90 90", "180 deg is all 2 angles together, the last is 90 deg"),
    ],
)
def test_an_angle_is_judged_by_the_tolerance_of_its_sheet(shop, lift, value, typed, stays):
    turned(shop, lift, value)
    asked = lift.typed(typed)
    assert ("the joint stays open" in asked.text) == bool(stays)
    if stays:
        lift.yes()
    assert stays in stands(shop, shop.seat)["Seat bolts"]
    assert bool(stands(shop, shop.seat)["Seat bolts"]) == bool(stays)


def test_of_two_angles_the_last_is_typed_and_it_says_so(shop, lift):
    asked = turned(shop, lift, "40 +/- 2 N m + 90 deg + 90 +/- 3 deg")
    assert "+ 90 deg + 90 +/- 3 deg" in asked.text
    assert "Type the last of 2 angles of each (90 +/- 3 deg), blanks between." in asked.text
    lift.typed("91 90 90 88")
    assert stands(shop, shop.seat)["Seat bolts"] == ""
    assert rows(shop, shop.seat)[0].note == "after 40 +/- 2 N m + 90 deg"


def test_the_card_says_where_a_sheet_has_no_tolerance_for_its_angle(shop, lift):
    at = shop.at("lift")
    for value, steps in (
        ("40 N m + 90 deg", "40 N m, then 90 deg further (no tolerance on the sheet)"),
        ("40 N m + 90 +/- 5 deg", "40 N m, then 90 +/- 5 deg further"),
    ):
        told = {fact.label: fact.text for fact in joint_facts(at, replace(SEAT, value=value), 4)}
        assert told["steps"] == steps


def test_a_range_is_shown_as_its_sheet_writes_it(shop, lift):
    with shop.shop.transaction("a range", terminal="office") as tx:
        tx.change(shop.caliper, joints=(replace(BOLTS, value="110 to 120 N m", aim="115"),))
    asked = put_on(lift, "CAL")
    assert "110 to 120 N m (about 81.1 to 88.5 lbf ft), aim at 115 N m" in asked.text


# Who may accept what is outside the sheet


def test_who_tightened_it_never_accepts_it_though_he_may_sign_second_checks(shop, lift):
    lift.take("fab")
    lift.take("T-200")
    put_on(lift, "CAL")
    lift.take("125 115")
    lift.asked(lift.yes().question.choices[0].take())
    lift.typed("the maker was asked")
    assert "the fabricator tightened it: somebody else" in lift.take("fab").text
    assert stands(shop, shop.caliper)["Caliper bolts"].startswith("1 of 2 tightened, outside")
    with shop.shop.transaction("the lead may", terminal="office") as tx:
        tx.change(shop.person, second_check=True)
    assert "accepted by the lead" in lift.take("lead").text


def test_where_nobody_was_named_any_badge_accepts_that_may(shop):
    lift = shop.scans("lift")
    lift.take("T-200")
    lift.take("WH")
    lift.take("LF")
    asked = lift.typed("5 x 125")
    assert asked.question.choices[0].label == "write it down without your badge"
    lift.asked(asked.question.choices[0].take())
    lift.yes()
    (row,) = rows(shop, shop.wheel)
    assert row.who is None
    lift.asked(next(each for each in lift.question.question.choices if "accept" in each.label).take())
    assert ": somebody who may sign second checks scans the badge" in lift.typed("it was looked at").text
    lift.take("fab")
    assert stands(shop, shop.wheel)["Wheel nuts"] == ""


def test_what_was_struck_out_meanwhile_is_not_accepted(shop, lift):
    lift.take("T-200")
    put_on(lift, "CAL")
    lift.take("125 115")
    lift.asked(lift.yes().question.choices[0].take())
    lift.typed("the maker was asked")
    (each, _) = joints_of(shop.shop, shop.shop.parts.get(shop.caliper.id))
    strike_out(shop.at("office"), each, each.outside[0], "a slip")
    assert "was changed meanwhile; nothing was accepted" in lift.take("fab").text
    assert [row.what for row in rows(shop, shop.caliper)] == [What.TIGHTENED, What.TIGHTENED]


# A reading holds what its tool might deviate when it was taken


def deviates(shop, per_cent):
    with shop.shop.transaction("its papers", terminal="office") as tx:
        tx.change(shop.shop.wrenches.get(shop.wrench.id), deviation_percent=per_cent)


def test_a_narrower_tool_opens_no_old_reading_and_a_wider_one_closes_none(shop, lift):
    lift.take("T-200")
    lift.take("WH")
    lift.take("LF")
    lift.typed("114 110 110 110 119")
    lift.yes()
    outside = "4 of 5 tightened, outside the sheet: 119 N m is not 110 N m"
    assert stands(shop, shop.wheel)["Wheel nuts"].startswith(outside)
    for per_cent in (1, 10):
        deviates(shop, per_cent)
        assert stands(shop, shop.wheel)["Wheel nuts"].startswith(outside)
    assert {(row.deviation_percent, row.checked) for row in rows(shop, shop.wheel)} == {(4, date(2026, 9, 1))}


def test_a_reading_of_before_this_was_written_down_takes_what_the_tool_may_deviate_now(shop, lift):
    lift.take("T-200")
    lift.take("WH")
    lift.take("LF")
    lift.typed("5 x 114")
    (row,) = rows(shop, shop.wheel)
    old = replace(row, deviation_percent=None)
    assert not outside_words(shop.shop, NUTS, old)
    assert within_by_deviation(shop.shop, NUTS, old)
    deviates(shop, 1)
    assert outside_words(shop.shop, NUTS, old)
    assert not outside_words(shop.shop, NUTS, row)


def test_an_extension_is_said_on_the_install_card_too(shop, lift, long):
    for each in ("T-200", "WH"):
        lift.take(each)
    assert "With T-200 and its extension 60 mm at 45 deg. Install 1 Wheel" in lift.typed("ext 60 45").text
    assert SET in lift.take("LF").text


def test_a_check_says_what_an_extension_is_set_to_and_keeps_it(shop, due, long):
    due.take("T-200")
    due.typed("ext 60 45")
    assert "set 99.5 N m: extension 60 mm at 45 deg, no fastener may turn" in due.question.text
    due.yes()
    assert rows(shop, shop.wheel)[-1].note == KEPT


def test_the_wrench_of_a_check_can_be_picked(shop, due):
    labels = [choice.label for choice in due.yes().question.choices]
    assert labels == ["with T-200", "write it down without the wrench"]
    assert due.typed("1").said == "done"
    assert rows(shop, shop.wheel)[-1].wrench == shop.wrench.id


def test_an_original_that_never_came_off_is_on_and_nobody_is_asked(shop, lift):
    with shop.shop.transaction("bought with it", terminal="office") as tx:
        old = tx.add(Part(0, "OLD", "", shop.build.id, "Old wheel", original=True, joints=(NUTS,)))
        tx.enter(verbs.as_bought(old.id, 1, position="LF"))
    lift.take("OLD")
    assert lift.take("tighten").text == (
        "Old wheel: It never came off here, so no joint of it is to be tightened. Tighten: scan the part."
    )


def test_a_value_as_low_as_a_choices_number_is_typed_with_its_unit(shop, lift):
    with shop.shop.transaction("small screws", terminal="office") as tx:
        tx.change(shop.wrench, low=0.5, high=10)
        tx.change(shop.wheel, joints=(replace(CAP, value="2 N m"), CAP_TOO, NUTS))
    lift.take("T-200")
    lift.take("WH")
    assert "Type its unit too: a number alone picks an answer." in lift.take("LF").text
    lift.typed("3 x 2 N m")
    assert stands(shop, shop.wheel)["Hub cap screws"] == ""
    assert "Type its unit too" not in lift.question.text, "8 is no number of an answer"
