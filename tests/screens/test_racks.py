"""The racks: what was offered there lasts only until something else is begun."""

import pytest

from shoptui.domain.places import State
from shoptui.domain.records import Bin


@pytest.fixture
def shelf(trial):
    """Another bin."""
    with trial.shop.transaction("a shelf", terminal="office") as tx:
        return tx.add(Bin(0, "B1", "", "rack B"))


async def a_hub_at_the_racks(hands, trial):
    await hands.scan(trial.box.code)
    await hands.scan(trial.hub.tag)
    await hands.scan(trial.bin.tag)
    await hands.press("f6")
    await hands.scan(trial.hub.tag)
    assert "Scan a bin to put it there" in hands.said


def on_shelf(trial, shelf):
    return trial.shop.book.parts_at(State.RECEIVED, shelf.id).get(trial.hub.id, 0)


@pytest.mark.parametrize("prefix", [True, False], ids=["with-f9", "without"])
async def test_a_part_then_a_bin_puts_it_there(trial, shelf, prefix):
    async with trial.screens() as hands:
        await a_hub_at_the_racks(hands, trial)
        await hands.scan(shelf.tag, prefix=prefix)
        assert on_shelf(trial, shelf) == 1


async def test_the_bin_can_be_typed(trial, shelf):
    async with trial.screens() as hands:
        await a_hub_at_the_racks(hands, trial)
        await hands.type("b1")
        await hands.pilot.pause(0.15)
        await hands.press("enter")
        assert on_shelf(trial, shelf) == 1


@pytest.mark.parametrize(
    "keys",
    [("f2", "f6"), ("escape",), ("r", "o", "t"), ("7", "7", "enter"), ("r", "o", "enter")],
    ids="".join,
)
async def test_an_offer_does_not_outlive_what_is_begun_after_it(trial, shelf, keys):
    async with trial.screens() as hands:
        await a_hub_at_the_racks(hands, trial)
        await hands.press(*keys)
        await hands.scan(shelf.tag)
        assert on_shelf(trial, shelf) == 0
        assert "B1" in hands.said
