"""The torque record of a vehicle that was handed over: its joints as they stood then."""

import csv
import io
import json
from dataclasses import replace
from datetime import date

import pytest

from shoptui.cli.output import as_csv, as_json
from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import How, Joint, Part, Person, Reading, What, Wrench
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs.check import check
from shoptui.jobs.hand_over import hand_over
from shoptui.jobs.joints import all_joints, joints_of
from shoptui.jobs.missing import missing
from shoptui.jobs.today import today_lines
from shoptui.jobs.torque_record import COLUMNS, as_values, record_of, rows
from shoptui.jobs.torque_sheet import as_markdown, as_text
from shoptui.jobs.undo import undo
from shoptui.jobs.wrench_check import failed
from shoptui.store.readings import strike

NUTS = Joint("Wheel nuts", 5, "M12x1.5", value="110 N m", again_after=50, again_days=30, source="Sheet")
BOLTS = Joint("Bolts", 2, "M12x1.5", value="115 N m", source="Sheet")
PLAIN = Joint("Clips", 1, "M6 8.8", plain=True)
OLD = Joint("Axle nut", 1, value="250 N m", source="Sheet")
TURNS = Joint("Turns freely", 0, source="Sheet")
TOP = Joint("Top nut", 1, value="40 N m", source="Sheet")
LATER = {"days": 90}


def said(made, what, part, joint, position="", fasteners=0, value="", *, strikes=None):
    """Write a reading down as one deed of the lift."""
    with made.shop.transaction("stated", terminal="lift") as tx:
        row = Reading(
            0, what, part.id, joint.name, position, fasteners, value, "N m" if value else "", wrench=1,
            deviation_percent=0.0, who=made.person.id, odometer=100, odometer_unit="km",
            sheet_says=joint.sheet_says, how=How.MEASURED if value else How.NOTHING,
        )  # fmt: skip
        if what is What.ACCEPTED:
            row = replace(row, note="the maker was asked")
        tx.state(row if strikes is None else strike(strikes, "the other wheel", None))
    return made.shop.readings.of_part(part.id)[-1]


@pytest.fixture
def shop(made):
    """A wagon with joints in every way of standing, and a tyre in the wheel that is on."""
    with made.shop.transaction("joints", terminal="office") as tx:
        made.build = tx.change(made.build, odometer=100)
        tx.add(Wrench(0, "T-200", "", "Click", low=20, high=300, checked=date(2026, 9, 1)))
        tx.add(Person(0, "fab", "", "the fabricator"))

        def on(part, *positions):
            part = tx.add(replace(part, build=made.build.id))
            tx.enter(verbs.stock(part.id, part.needed, to=made.a3.id))
            for position in positions:
                tx.enter(verbs.install(made.shop.book, part.id, 1, position=position))
            return part

        line = Part(0, "", "", None, "", section="Wheels")
        made.wheel = on(
            replace(
                line,
                code="WH",
                description="Wheel",
                needed=4,
                positions=("LF", "RF", "LR", "RR"),
                joints=(NUTS,),
            ),
            *("LF", "RF", "RR"),
        )
        made.bolted = on(replace(line, code="CAL", description="Caliper", needed=1, joints=(BOLTS,)), "")
        made.shelf = on(
            replace(line, code="TRIM", section="Trim", description="Shelf", needed=1, joints=(PLAIN,)), ""
        )
        made.knuckle = on(replace(line, code="KN", description="Knuckle", needed=1, joints=(OLD, TURNS)), "")
        made.tyre = on(replace(line, code="TYR", description="Tyre", needed=4))
        made.strut = on(replace(line, code="STR", description="Strut", needed=2, joints=(TOP,)))
        tx.enter(verbs.assemble(made.shop.book, made.tyre.id, 1, carrier=made.wheel.id))
        tx.enter(verbs.assemble(made.shop.book, made.strut.id, 1, carrier=made.knuckle.id))
        original = tx.add(replace(line, build=made.build.id, description="Steering box", original=True,
                                  joints=(BOLTS,)))  # fmt: skip
        tx.enter(verbs.as_bought(original.id, 1, position=""))
    tightened = What.TIGHTENED
    said(made, tightened, made.wheel, NUTS, "LF", 5, "110")
    wrong = said(made, tightened, made.wheel, NUTS, "RR", 5, "110")
    said(made, What.STRUCK, made.wheel, NUTS, strikes=wrong)
    said(made, tightened, made.wheel, NUTS, "RF", 5, "110")
    said(made, tightened, made.bolted, BOLTS, "", 1, "125")
    said(made, tightened, made.bolted, BOLTS, "", 1, "115")
    said(made, What.ACCEPTED, made.bolted, BOLTS, "", 1, "125")
    said(made, tightened, made.shelf, PLAIN, "", 1, "11")
    said(made, tightened, made.knuckle, OLD, "", 1, "250")
    said(made, What.SIGNED, made.knuckle, TURNS)
    said(made, tightened, made.strut, TOP, "", 1, "40")
    with made.shop.transaction("no longer", terminal="office") as tx:
        made.knuckle = tx.change(made.knuckle, joints=(TURNS,))
        made.build = tx.change(made.build, odometer=160)
    return made


def joints(shop):
    return record_of(shop.shop, shop.shop.builds.get(shop.build.id))


def every_format(shop):
    found, build = joints(shop), shop.shop.builds.get(shop.build.id)
    return (
        as_text(shop.shop, build, found),
        as_markdown(shop.shop, build, found),
        as_csv(COLUMNS, rows(shop.shop, found)),
        as_json(as_values(shop.shop, found)),
    )


def given(shop):
    answer = hand_over(shop.at("office"), shop.shop.builds.get(shop.build.id))
    return answer, answer.question.yes()


def flat(text):
    return " ".join(text.split())


def test_what_is_open_and_due_stands_first_and_one_count_is_said(shop):
    asked, done = given(shop)
    assert asked.text.startswith(
        "Hand over Wagon? ! 1 joint not done: Wheel nuts at RR of Wheel, 0 of 5 tightened. "
        "! 2 joints to be checked again: Wheel nuts at LF of Wheel, 10 km over; Wheel nuts at RF of Wheel, "
        "10 km over. With it: 9 pieces. Open: "
    )
    assert done.text == (
        "Wagon is handed over, with 9 pieces. Its record stays, with 1 joint not done and 2 joints to be "
        "checked again."
    )
    assert shop.count(shop.tyre, State.GONE) == 1, "where lists say that it is"


def test_nothing_open_is_said_as_before(made):
    with made.shop.transaction("on", terminal="office") as tx:
        tx.enter(verbs.stock(made.hub.id, 1))
        tx.enter(verbs.install(made.shop.book, made.hub.id, 1, position=""))
    asked, done = given(made)
    assert asked.text.startswith("Hand over Wagon? With it: 1 piece. ")
    assert done.text == "Wagon is handed over, with 1 piece. Its record stays."


def test_the_record_says_the_same_as_before(shop):
    before, values = every_format(shop), as_values(shop.shop, joints(shop))
    given(shop)
    shop.clock.advance(**LATER)
    text, markdown, _, _ = every_format(shop)
    head = "Handed over 2026-11-25: its joints stand here as they stood then.\n"
    assert text == before[0].replace("2026-11-25\n", "2027-02-23\n", 1).replace(
        "odometer 160 km\n", f"odometer 160 km\n{head}", 1
    )
    assert head.strip() in markdown.replace("\\", "")
    for now, then in zip(as_values(shop.shop, joints(shop)), values, strict=True):
        assert now == {**then, "handed_over": "2026-11-25"}


def test_every_format_has_what_is_open_due_accepted_generic_and_no_longer_asked_for(shop):
    given(shop)
    text, markdown, table, data = every_format(shop)
    assert "NOT DONE\n[ ] Wheel (WH), Wheel nuts at right rear: 0 of 5 tightened\n" in text
    for told in (flat(text), flat(markdown.replace("\\", ""))):
        assert "7 joints and checks: 4 done, 1 not done, 2 to be checked again now" in told
        assert "now, 10 km over" in told
        assert "125 N m accepted although it is outside the sheet" in told
        assert "tightened to a handbook's value" in told
        assert "STRUCK OUT" in told
        assert "the other wheel" in told
        assert "1 tightened to 250 N m" in told
        assert "Steering box" not in told, "nobody tightened it here"
    stands = {(row["joint"], row["position"]): row["stands"] for row in csv.DictReader(io.StringIO(table))}
    assert stands == {
        ("Wheel nuts", "LF"): "to be checked again, 10 km over",
        ("Wheel nuts", "RF"): "to be checked again, 10 km over",
        ("Wheel nuts", "RR"): "open: 0 of 5 tightened",
        ("Bolts", ""): "done",
        ("Clips", ""): "done, generic, not a specification",
        ("Turns freely", ""): "done",
        ("Top nut", ""): "done",
        ("Axle nut", ""): "no longer asked for",
    }
    assert {row["handed_over"] for row in csv.DictReader(io.StringIO(table))} == {"2026-11-25"}
    assert {(each["joint"], each["position"]): each["stands"] for each in json.loads(data)} == stands
    left = record_of(shop.shop, shop.shop.builds.get(shop.build.id), only_open=True)
    assert [(each.joint.name, each.position) for each in left] == [
        ("Wheel nuts", "LF"), ("Wheel nuts", "RF"), ("Wheel nuts", "RR"),
    ]  # fmt: skip


def test_undo_brings_the_record_back_as_it_was(shop):
    before = every_format(shop)
    given(shop)
    assert every_format(shop) != before
    undo(shop.at("office"))
    assert every_format(shop) == before
    given(shop)
    assert [each.pieces for each in joints(shop)].count(1) == 7


def test_what_is_changed_on_the_list_since_changes_nothing_of_it(shop):
    given(shop)
    before = every_format(shop)
    with shop.shop.transaction("a newer sheet", terminal="office") as tx:
        tx.change(shop.shop.parts.get(shop.wheel.id), joints=(replace(NUTS, value="120 N m"),))
        tx.change(shop.shop.parts.get(shop.knuckle.id), joints=())
        tx.change(shop.shop.builds.get(shop.build.id), odometer=900, odometer_unit="mi")
    assert every_format(shop) == before


def test_a_wrench_that_fails_afterwards_is_told_of_what_left(shop):
    given(shop)
    answer = failed(shop.at("office"), shop.shop.wrenches.get(1))
    assert "are open again: 6 on Wagon (finished)" in answer.text
    told = flat(every_format(shop)[0])
    assert "Wheel nuts at left front: NOT DONE: wrench T-200 failed its check" in told


def test_nobody_is_asked_about_a_finished_vehicle(shop):
    with shop.shop.transaction("to film", terminal="office") as tx:
        need = Need(Condition.TORQUE_DONE, build=shop.build.id, section="Wheels")
        day = tx.add(Shoot(0, "d1", "Day", date(2026, 11, 25), shots=(Shot("drive", (need,), moves=True),)))
        tx.change(shop.shop.parts.get(shop.wheel.id), joints=(replace(NUTS, source=""),))
    about = "joint Wheel nuts"
    assert any(about in each.what for each in check(shop.shop))
    given(shop)
    assert not list(all_joints(shop.shop))
    assert not joints_of(shop.shop, shop.shop.parts.get(shop.wheel.id))
    assert not [
        line for line in today_lines(shop.shop, date(2026, 11, 25)) if line.kind in ("torque", "check again")
    ]
    assert not any("joint" in each.what for each in check(shop.shop))
    report = missing(shop.shop, day, date(2026, 11, 25))
    assert not [each for shot in report.shots for each in (*shot.not_tight, *shot.generic)]


def test_an_original_that_never_came_off_is_not_asked_about_after_a_hand_over_was_undone(shop):
    given(shop)
    undo(shop.at("office"))
    assert all(each.part.description != "Steering box" for each in all_joints(shop.shop))


def test_what_was_built_in_and_stayed_here_is_not_of_it(shop):
    with shop.shop.transaction("on the bench", terminal="office") as tx:
        tx.enter(verbs.stock(shop.hood.id, 1, to=shop.a3.id))
        tx.change(shop.shop.parts.get(shop.clip.id), joints=(TOP,))
        tx.enter(verbs.stock(shop.clip.id, 1, to=shop.a3.id))
        tx.enter(verbs.assemble(shop.shop.book, shop.clip.id, 1, carrier=shop.hood.id))
    assert any(each.part.id == shop.clip.id for each in joints(shop))
    asked, _ = given(shop)
    assert "Top nut" not in asked.text.partition("With it")[0]
    assert all(each.part.id != shop.clip.id for each in joints(shop))


def test_what_was_undone_is_no_row_for_the_owner_and_one_in_the_data(shop):
    before = every_format(shop)
    said(shop, What.TIGHTENED, shop.wheel, NUTS, "RR", 5, "110")
    assert every_format(shop)[:2] != before[:2]
    undo(shop.at("lift"))
    after = every_format(shop)
    assert after[:2] == before[:2]
    assert "taken back" in after[2]
    assert "taken back" in after[3]
