"""The joints of a part at the lift: the card in the order of the work, readings by Enter or typed."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import Joint, Person, Wrench
from shoptui.stations.lift.rows import lift_facts

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
