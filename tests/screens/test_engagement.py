"""What a joint's bolts go through and into: asked about at its form, shown on the cards where it is short."""

from dataclasses import replace

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import Joint
from shoptui.stations.lift.joints import joint_facts, part_joints
from shoptui.stations.marks import Tone
from shoptui.stations.records.record_form import record_form

NUTS = Joint("Wheel nuts", 5, "M12x1.5", value="110 N m", source="Torque sheet")
SHORT = "length 30, grip 10, into steel, hole 24, spacer 12"


@pytest.fixture
def shop(trial):
    with trial.shop.transaction("a joint", terminal="office") as tx:
        trial.hub = tx.change(trial.hub, joints=(NUTS,))
        tx.enter(verbs.stock(trial.hub.id, 1, to=trial.bin.id))
    return trial


def words(hands):
    return " ".join(hands.screen_text.split())


async def test_what_is_short_is_said_at_the_form_and_saved_all_the_same(shop):
    async with shop.screens() as hands:
        hands.app.push_screen(record_form(hands.app.scanning.at, shop.hub))
        await hands.settle()
        hands.app.screen.query_one("#field-joints").focus()
        await hands.press("enter")
        await hands.press("enter")
        entry = hands.app.screen.query_one("#field-engagement")
        entry.focus()
        await hands.settle()
        await hands.type("length 30, grip 10; blue")
        await hands.press("ctrl+g")
        assert 'Engagement: length 30, grip 10; blue: where "blue" stands' in words(hands)
        entry.value = SHORT.replace("length 30", "length 3 cm")
        await hands.press("ctrl+g")
        assert "short: 8 mm of thread engage, at least 12 mm (1 d in steel) are wanted, 4 mm more" in words(
            hands
        )
        await hands.press("enter")
        await hands.press("ctrl+g")
        await hands.press("ctrl+g")
        assert "Changed joints of Hub" in words(hands)
    assert shop.shop.parts.get(shop.hub.id).joints == (
        replace(NUTS, designation="M12 x 1.5", engagement=SHORT),
    )


async def test_the_cards_show_what_is_short_and_what_a_spacer_leaves(shop):
    with shop.shop.transaction("a spacer", terminal="office") as tx:
        shop.hub = tx.change(shop.hub, joints=(replace(NUTS, engagement=SHORT),))
    async with shop.screens(100, 40) as hands:
        await hands.press("f4")
        await hands.scan(shop.hub.tag)
        assert "! short: 8 mm of thread engage" in words(hands)
        assert "a spacer of 12 mm leaves 8 of 20 mm of thread, 5.3 of 13.3 turns" in words(hands)
        at = hands.app.scanning.at
        told = [(fact.text, fact.tone) for fact in part_joints(at, shop.hub)]
        (finding,) = [each for each in told if each[0].startswith("! short")]
        assert finding[1] is Tone.WARN
        assert "the maker's sheet goes first" in finding[0]
        assert any(
            text.startswith(f"engagement ({SHORT}): 8 mm of thread engage in steel") for text, _ in told
        )


async def test_the_lift_s_card_is_as_short_as_ever_where_all_is_well(shop):
    well = replace(NUTS, engagement="length 30, grip 10, into steel, hole 24")
    async with shop.screens() as hands:
        at = hands.app.scanning.at
        assert list(joint_facts(at, well, 5)) == list(joint_facts(at, NUTS, 5))
