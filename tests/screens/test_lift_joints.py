"""The joints of a part at the lift: the card in the order of the work, readings by Enter or typed."""

from dataclasses import replace
from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.cautions import for_work
from shoptui.domain.fasteners.rechecks import Standing
from shoptui.domain.fasteners.surfaces import Prepared
from shoptui.domain.records import Joint, Person, Reading, What, Wrench
from shoptui.jobs.joints import JointAt
from shoptui.stations.lift.rows import LIFT_COLUMNS, joints_word, lift_facts
from tests.screens.test_finger import tap

NUTS = Joint(
    "Wheel nuts",
    5,
    "M12x1.5 10.9",
    value="110 N m",
    passes=3,
    pattern="star",
    source="Torque sheet, edition 2",
    page="4",
)
CAP = Joint("Cap screws", 3, "M8 8.8", value="22 N m", source="Torque sheet, edition 2", page="5")


@pytest.fixture
def shop(trial):
    with trial.shop.transaction("joints", terminal="office") as tx:
        tx.add(Person(0, "lead", "", "the lead", second_check=True))
        tx.add(Person(0, "fab", "", "the fabricator", second_check=True))
        tx.add(
            Wrench(
                0, "T-200", "", "Click 200", low=20, high=200, deviation_percent=4, checked=date(2026, 9, 1)
            )
        )
        trial.hub = tx.change(trial.hub, joints=(NUTS, CAP))
        tx.enter(verbs.stock(trial.hub.id, 1, to=trial.bin.id))
    return trial


def text(hands):
    return " ".join(hands.screen_text.split())


async def test_a_part_with_two_joints_at_target_takes_two_scans_and_three_keys(shop):
    async with shop.screens() as hands:
        await hands.press("f4")
        await hands.scan("lead")
        await hands.scan("T-200")
        await hands.scan(shop.hub.tag)
        assert "Joint: Wheel nuts" in hands.screen_text
        await hands.press("enter")
        facts = lift_facts(hands.app.scanning.at, shop.hub, 1, "tighten")[1]
        told = {fact.label: fact.text for fact in facts}
        assert [told[label] for label in ("order", "wrench")] == ["star: 1 3 5 2 4", "T-200, in hand"]
        assert {fact.text for fact in facts if fact.label == "steps"} == {"33 N m, then 77 N m, then 110 N m"}
        await hands.press("enter")
        await hands.press("enter")
        assert "All joints of Hub are done." in text(hands)
    assert [row.value for row in shop.shop.readings.of_part(shop.hub.id)] == ["110", "22"]


async def test_a_typed_value_is_asked_about_and_the_row_says_what_is_open(shop):
    async with shop.screens(120, 40) as hands:
        await hands.press("f4")
        for scan in ("lead", "T-200", shop.hub.tag):
            await hands.scan(scan)
        await hands.press("enter")
        await hands.type("11")
        await hands.press("enter")
        assert "11 N m is not 110 N m, but 110 N m is" in text(hands)
        await hands.press("escape")
        assert not shop.shop.readings.of_part(shop.hub.id)
        assert "2 open" in text(hands)
        await hands.press("ctrl+l")
        assert "Tighten: Hub" in text(hands)
        await hands.type("109 110 111 110 110")
        await hands.press("enter")
        assert "Cap screws" in text(hands)
    assert len(shop.shop.readings.of_part(shop.hub.id)) == 5


async def test_the_units_of_the_shop_come_first(shop):
    with shop.shop.transaction("pounds", terminal="office") as tx:
        tx.change_settings(units="lbf ft")
    async with shop.screens() as hands:
        await hands.press("f4")
        await hands.scan(shop.hub.tag)
        assert "81.1 lbf ft (sheet: 110 N m)" in text(hands)


async def test_today_leads_to_the_lift(shop):
    async with shop.screens() as hands:
        await hands.press("f4")
        await hands.scan(shop.hub.tag)
        await hands.press("enter", "escape", "f2")
        assert "Wheel nuts, open: 0 of 5 tightened" in text(hands)
        await hands.type("wheel nuts")
        await hands.press("enter")
        assert "Tighten: Hub" in text(hands)


async def test_the_key_opens_the_joint_that_a_position_named(shop):
    with shop.shop.transaction("two hubs on", terminal="office") as tx:
        shop.hub = tx.change(shop.hub, positions=("LF", "RF"), needed=2)
        for position in ("LF", "RF"):
            tx.enter(verbs.as_bought(shop.hub.id, 1, position=position))
            tx.enter(verbs.remove(shop.shop.book, shop.hub.id, 1, position=position, to=shop.bin.id))
            tx.enter(verbs.install(shop.shop.book, shop.hub.id, 1, position=position))
    async with shop.screens() as hands:
        await hands.press("f4")
        await hands.scan("RF")
        assert "2 joints want somebody" in text(hands)
        await hands.press("ctrl+l")
        assert "Wheel nuts at RF:" in hands.said


CALIPER = Joint(
    "Caliper bolts", 2, "M12x1.5 10.9", Prepared.LOCKED, "115 +/- 5 N m", second_check=True, source="Sheet"
)
SEAT = Joint(
    "Seat bolts", 4, "M10x1.25 10.9", Prepared.LOCKED, "40 N m + 90 deg", one_use=True, source="Sheet"
)
HEAD = Joint(
    "Head bolts", 10, "M11 10.9", Prepared.OILED, "80 N m", passes=3, pattern="inside out", source="Sheet"
)


@pytest.mark.parametrize(
    ("section", "joint", "told"),
    [
        ("Wheels", NUTS, ("5 x M12", "110 N m", "33 N m, then 77 N m, then 110 N m", "star: 1 3 5 2 4")),
        ("Brakes, steering", CALIPER, ("2 x M12", "threadlocker", "115 +/- 5 N m")),
        ("Seats", SEAT, ("4 x M10", "threadlocker, new ones", "40 N m", "90 deg further")),
        ("Engine, fuel", HEAD, ("10 x M11", "oiled", "80 N m", "inside out: 5 6 4 7 3 8 2 9 1 10")),
    ],
    ids=["wheel", "caliper", "seat", "engine"],
)
async def test_what_the_hand_needs_first_stands_above_the_fold(shop, section, joint, told):
    with shop.shop.transaction("another part", terminal="office") as tx:
        tx.change(shop.bin, words="rack A, shelf 3, right: suspension, brakes and frame", room="store")
        first = (shop.clips[0].id,)
        tx.change(shop.hub, section=section, joints=(joint, CAP), install_after=first)
    async with shop.screens() as hands:
        await hands.press("f4")
        await hands.scan("T-200")
        await hands.scan(shop.hub.tag)
        assert [words for words in (*told, "T-200, in hand") if words not in hands.screen_text] == []
        await hands.press("enter")
        assert "Tighten: Hub" in hands.screen_text
        assert [words for words in (*told, "T-200, in hand") if words not in hands.screen_text] == []
        for caution in for_work(section, "Hub"):
            assert caution.short in text(hands)


async def test_the_joint_that_is_asked_about_is_on_top_of_the_card(shop):
    with shop.shop.transaction("two hubs on", terminal="office") as tx:
        shop.hub = tx.change(shop.hub, positions=("LF", "RF"), needed=2)
        tx.enter(verbs.stock(shop.hub.id, 1, to=shop.bin.id))
        for position in ("LF", "RF"):
            tx.enter(verbs.install(shop.shop.book, shop.hub.id, 1, position=position))
    async with shop.screens() as hands:
        await hands.press("f4")
        await hands.scan(shop.hub.tag)
        await hands.scan("RF")
        await hands.type("2")
        await hands.press("enter")
        lines = [line.strip() for line in hands.screen_text.splitlines()]
        assert "Cap screws at RF: 3 x M8" in hands.said
        assert lines.index("Cap screws at RF") == 4


def test_how_many_joints_are_open_fits_its_column(shop):
    width = next(column.width for column in LIFT_COLUMNS if column.title == "state")
    a, b = (Standing(is_open=is_open, is_due=not is_open) for is_open in (True, False))
    for open_, due in ((1, 0), (0, 1), (1, 2), (12, 4), (99, 99), (150, 150), (0, 150)):
        left = [JointAt(shop.hub, NUTS, "", 1, stands) for stands in (*[a] * open_, *[b] * due)]
        assert len(joints_word(left)) <= width
    assert joints_word([JointAt(shop.hub, NUTS, "", 1, stands) for stands in (a, b)]) == "1 open, due"


@pytest.mark.parametrize("wide", [False, True], ids=["80x24", "120x40"])
async def test_open_and_due_stand_in_the_row(shop, wide):
    due = replace(NUTS, again_after=50)
    with shop.shop.transaction("on", terminal="office") as tx:
        hub = tx.change(shop.hub, joints=(due, CAP))
        tx.change(shop.build, odometer=160)
        tx.enter(verbs.install(shop.shop.book, hub.id, 1, position=""))
        tx.state(
            Reading(
                0, What.TIGHTENED, hub.id, NUTS.name, fasteners=5, value="110", unit="N m",
                odometer=100, sheet_says=due.sheet_says,
            )
        )  # fmt: skip
    async with shop.screens(*((120, 40) if wide else (80, 24))) as hands:
        await hands.press("f4")
        assert "1 open, due" in hands.screen_text


async def test_a_wheel_is_done_loosened_and_done_again_by_taps_alone(shop):
    async with shop.screens() as hands:
        await tap(hands, "F4 Lift")
        await tap(hands, "Hub", times=2)
        await tap(hands, "Yes")
        await tap(hands, "with T-200")
        assert "With T-200." in text(hands)
        await tap(hands, "Yes")
        await tap(hands, "write it down without")
        await tap(hands, "Yes")
        await tap(hands, "write it down without")
        assert "No joint of the vehicle wants anybody now." in text(hands)
        await tap(hands, "^L Tighten")
        await tap(hands, "loosen: Wheel nuts")
        await tap(hands, "to look or to measure")
        assert "1 open" in hands.screen_text
        await tap(hands, "^L Tighten")
        await tap(hands, "Yes")
        await tap(hands, "write it down without")
        assert "No joint of the vehicle wants anybody now." in text(hands)


async def test_the_card_says_what_to_set_with_an_extension_until_it_is_off(shop):
    with shop.shop.transaction("its length", terminal="office") as tx:
        tx.change(shop.shop.wrenches.by_code("T-200"), length_mm=400)
    async with shop.screens() as hands:
        await hands.press("f4")
        for scan in ("lead", "T-200", shop.hub.tag):
            await hands.scan(scan)
        await hands.press("enter")
        await hands.type("ext 60 45")
        await hands.press("enter")
        # 110 x 400 / (400 + 60 cos 45), by a pocket calculator
        assert "extension set 99.5 N m: extension 60 mm at 45 deg" in text(hands)
        assert "at that angle only" in hands.said
        facts = lift_facts(hands.app.scanning.at, shop.hub, 1, "tighten")[1]
        assert any("an extension that flexes, makes it void" in fact.text for fact in facts)
        await tap(hands, "the extension is off")
        assert "99.5" not in hands.screen_text


def first_row(shop):
    """Return another part with open joints, whose row is the first."""
    with shop.shop.transaction("a row before it", terminal="office") as tx:
        first = tx.change(shop.rotor, joints=(NUTS,))
        tx.enter(verbs.stock(first.id, 1, to=shop.bin.id))
        tx.enter(verbs.install(shop.shop.book, first.id, 1, position="LF"))
    return first


CLICK = replace(CALIPER, name="Caliper bolts", value="85 N m")


@pytest.mark.parametrize("typed", ["85 85", "85", "2"])
async def test_the_card_stays_with_its_part_and_its_joint_asks_again(shop, typed):
    first = first_row(shop)
    with shop.shop.transaction("others", terminal="office") as tx:
        shop.hub = tx.change(shop.hub, joints=(CLICK,))
    async with shop.screens() as hands:
        await hands.press("f4")
        for scan in ("lead", "T-200", shop.hub.tag):
            await hands.scan(scan)
        await hands.press("enter")
        await hands.type("850 850")
        await hands.press("enter")
        await hands.press("escape")
        assert "Nothing was written down. Caliper bolts" in hands.said
        await hands.press("escape")
        await hands.type(typed)
        assert "Tighten: Hub" in hands.screen_text, "what is typed are its readings"
        await hands.press("enter")
        assert f"Nothing asked for “{typed}”" in hands.said
        assert "Tighten: Hub" in hands.screen_text
        assert hands.app.screen.part == shop.hub.id
        await hands.press("escape", "ctrl+l")
        assert "Caliper bolts: 2 x" in hands.said
    assert not shop.shop.readings.of_part(first.id)
    assert not shop.shop.readings.of_part(shop.hub.id)


async def test_words_that_are_no_answer_leave_the_keys_with_the_part_in_hand(shop):
    first_row(shop)
    async with shop.screens() as hands:
        await hands.press("f4")
        await hands.scan(shop.hub.tag)
        await hands.press("enter", "escape")
        await hands.type("too tight here")
        await hands.press("enter")
        assert "No joint asks for" in hands.said
        assert hands.app.screen.part == shop.hub.id
        await hands.press("ctrl+l")
        assert "Wheel nuts: 5 x" in hands.said


async def test_all_five_of_a_star_stand_beside_its_question(shop):
    async with shop.screens() as hands:
        await hands.press("f4")
        for scan in ("lead", "T-200", shop.hub.tag):
            await hands.scan(scan)
        await hands.press("enter")
        assert "Enter: all 5" in text(hands)
        lines = [line.split() for line in hands.screen_text.splitlines()]
        assert [each for each in lines if each in (["1"], ["5", "2"], ["4", "3"])] == [
            ["1"],
            ["5", "2"],
            ["4", "3"],
        ]
