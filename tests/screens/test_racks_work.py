"""The racks: bins are counted, made, moved and withdrawn, by scans and by keys."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import Bin


@pytest.fixture
def rack(trial):
    """A3 holds two rotors, B1 a hub."""
    shop = trial.shop
    with shop.transaction("a shelf", terminal="office") as tx:
        trial.shelf = tx.add(Bin(0, "B1", "", "rack B"))
        order = next(shop.orders.all())
        tx.enter(verbs.receive(shop.book, trial.rotor.id, 2, order=order.id, to=trial.bin.id))
        tx.enter(verbs.receive(shop.book, trial.hub.id, 1, order=order.id, to=trial.shelf.id))
    return trial


def lies(trial, part, bin_):
    return sum(n for place, n in trial.shop.book.places(part.id, *verbs.ON_A_SHELF) if place.where == bin_.id)


async def test_a_bin_is_counted_by_scans_alone(rack):
    async with rack.screens() as hands:
        await hands.press("f6")
        await hands.scan(rack.bin.tag)
        await hands.scan("KCNT22J")
        assert "counting A3, 0 so far" in hands.screen_text
        await hands.scan(rack.gtin)
        await hands.scan(rack.hub.tag)
        assert "1 booked in B1: moved here" in hands.screen_text
        await hands.scan("KDNE22X")
        assert "Brake rotor: 1 short" in hands.said
        await hands.scan("KYES22M")
        assert (lies(rack, rack.rotor, rack.bin), lies(rack, rack.hub, rack.bin)) == (1, 1)
        assert "bin A3" in hands.screen_text.splitlines()[0]


async def test_a_bin_is_counted_by_keys_alone_with_row_numbers(rack):
    async with rack.screens() as hands:
        await hands.press("f6", "ctrl+g")
        await hands.type("1")
        await hands.press("enter")
        assert "how many are there in all?" in hands.said
        await hands.type("2")
        await hands.press("enter")
        assert "2 so far" in hands.screen_text
        await hands.press("ctrl+g")
        assert "all as booked" in hands.said


async def test_a_count_before_a_rows_number_counts_that_many_of_it(rack):
    async with rack.screens() as hands:
        await hands.press("f6", "ctrl+g", "9", "enter", "1", "enter")
        assert "9 Brake rotor counted, 9 so far" in hands.said
        await hands.scan(rack.gtin)
        assert "1 Brake rotor counted, 10 so far" in hands.said


async def test_a_count_is_there_again_when_the_program_is_opened_again(rack):
    async with rack.screens() as hands:
        await hands.press("f6", "ctrl+g")
        await hands.scan(rack.gtin)
    async with rack.screens() as hands:
        await hands.press("f6")
        assert "counting A3, 1 so far" in hands.screen_text
        await hands.press("ctrl+z")
        assert "counting A3, 0 so far" in hands.screen_text


async def test_all_of_a_bin_is_moved_by_a_key_and_a_scan(rack):
    async with rack.screens() as hands:
        await hands.press("f6", "ctrl+o")
        await hands.scan(rack.shelf.tag)
        assert lies(rack, rack.rotor, rack.shelf) == 2
        assert "bin B1" in hands.screen_text.splitlines()[0]


async def test_a_bin_is_made_renamed_and_withdrawn(rack):
    async with rack.screens() as hands:
        await hands.press("f6", "ctrl+n")
        await hands.type("A3")
        await hands.press("ctrl+g")
        assert "stands for something else already" in hands.said
        await hands.type("-2")
        await hands.press("ctrl+g")
        made = rack.shop.bins.by_code("A3-2")
        assert "bin A3-2" in hands.screen_text.splitlines()[0]
        await hands.press("ctrl+e")
        await hands.type("x")
        await hands.press("ctrl+g")
        assert rack.shop.bins.get(made.id).code == "A3-2x"
        await hands.press("ctrl+x")
        assert "is withdrawn" in hands.said
        assert "where is it?" in hands.screen_text
        await hands.scan(rack.bin.tag)
        await hands.press("ctrl+x")
        assert "is not empty: 2 Brake rotor" in hands.said


async def test_a_finished_vehicle_is_handed_over_from_its_list(rack):
    with rack.shop.transaction("on", terminal="lift") as tx:
        tx.enter(verbs.install(rack.shop.book, rack.hub.id, 1, position=""))
    async with rack.screens() as hands:
        await hands.press("f12")
        await hands.type("builds lists")
        await hands.a_moment()
        await hands.press("enter", "ctrl+g")
        assert "Hand over Wagon? With it: 1 piece. Open:" in hands.said
        await hands.a_moment()
        await hands.press("enter")
        assert rack.shop.builds.get(rack.build.id).status == "finished"
        assert "finished" in hands.screen_text


async def test_the_form_of_a_vehicle_finishes_none(rack):
    async with rack.screens() as hands:
        await hands.press("f12")
        await hands.type("builds lists")
        await hands.a_moment()
        await hands.press("enter", "enter")
        for _ in range(7):
            await hands.press("tab")
        assert "Ctrl+G in the list of builds hands it over" in hands.screen_text
        await hands.type("f")
        await hands.press("enter", "ctrl+g")
        assert "A vehicle is finished by handing it over" in hands.said
        assert rack.shop.builds.get(rack.build.id).status == "open"


async def test_a_bin_scanned_at_another_station_is_the_one_that_count_means(rack):
    async with rack.screens() as hands:
        await hands.press("f7")
        await hands.scan(rack.shelf.tag)
        await hands.scan("KCNT22J")
        assert "counting B1, 0 so far" in hands.screen_text


async def test_a_bin_that_a_key_looked_into_is_the_one_that_count_means(rack):
    async with rack.screens() as hands:
        await hands.scan(rack.shelf.tag)
        await hands.press("escape", "home", "enter")
        shown = hands.screen_text.splitlines()[0]
        await hands.scan("KCNT22J")
        assert "counting A3, 0 so far" in hands.screen_text, shown


async def test_escape_from_a_count_says_what_becomes_of_it(rack):
    async with rack.screens() as hands:
        await hands.press("f6", "ctrl+g", "escape")
        assert "A3 was left with nothing counted" in hands.said
        assert "is being counted" not in hands.screen_text.splitlines()[0]
        await hands.press("ctrl+g")
        await hands.scan(rack.gtin)
        await hands.press("escape")
        assert "A3 is being counted, 1 so far. It goes on at the Racks (F6)" in hands.said


async def test_a_count_of_nothing_is_over_when_the_program_is_opened_again(rack):
    async with rack.screens() as hands:
        await hands.press("f6", "ctrl+g")
    async with rack.screens() as hands:
        assert "A3 was left with nothing counted" in hands.said
        await hands.press("f6")
        assert "counting" not in hands.screen_text.splitlines()[0]
