"""Hardware: stock against need, the buying list, an order to the nearest pack, a drawer counted by scans."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import HARDWARE, Bin, HardwareLine, Part
from shoptui.domain.tags import Kind
from shoptui.jobs.at import At
from shoptui.jobs.install import install


@pytest.fixture
def bolted(trial):
    """A drawer with two bolts, where the rotors take six; and pins, of which there are enough."""
    with trial.shop.transaction("hardware", terminal="office") as tx:
        trial.drawer = tx.add(Bin(0, "D3", "", kind="drawer"))
        size = "M8 x 20 - 8.8"
        trial.bolt = tx.add(
            Part(
                0, "HW-1", "", None, "Rotor screw", kind=HARDWARE, designation=size, pieces=10, sold_as="pack"
            )
        )
        trial.pin = tx.add(Part(0, "HW-2", "", None, "", kind=HARDWARE, designation="[b]cotter pin[/b]"))
        tx.change(trial.rotor, hardware=(HardwareLine(trial.bolt.id, 3),))
        tx.enter(verbs.stock(trial.bolt.id, 2, to=trial.drawer.id))
        tx.enter(verbs.stock(trial.pin.id, 5, to=trial.drawer.id))
    return trial


async def test_what_is_short_is_seen_with_one_key(bolted):
    async with bolted.screens() as hands:
        await hands.press("f7")
        assert "2 kinds, 1 to buy" in hands.screen_text
        assert "! 4 short" in hands.screen_text
        assert "[b]cotter pin[/b]" in hands.screen_text
        await hands.press("ctrl+l")
        assert "cotter pin" not in hands.screen_text
        await hands.press("escape")
        assert "cotter pin" in hands.screen_text


async def test_the_card_says_what_takes_it(bolted):
    async with bolted.screens() as hands:
        await hands.press("f7")
        await hands.scan("HW-1")
        assert "3 for each Brake rotor" in hands.screen_text
        assert "2 still to go on" in hands.screen_text
        assert "in drawer D3" in hands.screen_text
        await hands.press("escape")
        assert "2 kinds" in hands.screen_text


async def test_an_order_is_to_the_nearest_pack(bolted):
    async with bolted.screens() as hands:
        await hands.press("f7")
        await hands.type("rotor sc")
        await hands.press("enter", "ctrl+o")
        assert "To buy 10, in packs of 10." in hands.screen_text
        await hands.type("Brakes")
        await hands.press("enter", "ctrl+g")
        assert bolted.shop.book.in_state(bolted.bolt.id, State.ORDERED) == 10
        await hands.press("f7", "escape")
        assert "enough of all" in hands.screen_text


async def test_a_drawer_is_counted_from_there(bolted):
    async with bolted.screens() as hands:
        await hands.press("f7")
        await hands.scan("HW-1")
        await hands.press("ctrl+t")
        assert "counting D3" in hands.screen_text
        await hands.scan("HW-1")
        await hands.type("5")
        await hands.scan("HW-2")
        await hands.scan("KDNE22X")
        await hands.scan("KYES22M")
        assert bolted.shop.book.in_state(bolted.bolt.id, State.RECEIVED) == 1


async def test_a_new_kind_is_typed_and_what_cannot_be_read_is_said(bolted):
    async with bolted.screens() as hands:
        await hands.press("f7", "ctrl+n")
        assert "A new kind of hardware" in hands.screen_text
        await hands.type("nut M8 class 11")
        await hands.press("ctrl+g")
        assert "class of nuts that exists" in hands.said
        await hands.press(*["backspace"] * 2)
        await hands.type("10")
        await hands.press("down")
        await hands.type("Flange nut")
        await hands.press("ctrl+g")
        assert hands.said == "done: New: Flange nut M8 - 10."


async def test_a_designation_typed_at_the_list_is_a_new_kind(bolted):
    """The letters and two Enters; what is there already is found however its designation is typed."""
    async with bolted.screens() as hands:
        await hands.press("f7")
        await hands.type("m8x20")
        await hands.press("enter")
        assert "code           HW-1" in hands.screen_text
        await hands.press("escape", "escape")
        await hands.type("M6x16 - 8.8")
        await hands.press("enter")
        assert "No hardware is called M6 x 16 - 8.8. Enter: write it down" in hands.said
        await hands.press("enter")
        assert hands.said == "done: New: M6 x 16 - 8.8."
        assert "designation    M6 x 16 - 8.8" in hands.screen_text
        await hands.type("M6x16 class 11")
        await hands.press("enter")
        assert hands.said.startswith("stop: M6x16 class 11: ")


async def test_its_label_is_printed_from_the_list(bolted):
    async with bolted.screens() as hands:
        await hands.press("f7", "ctrl+k")
        assert "Print labels: hardware" in hands.screen_text
        await hands.press("escape", "ctrl+d")
        assert "M8 x 20 - 8.8" in hands.screen_text or "cotter pin" in hands.screen_text


async def test_the_lift_says_what_to_fetch_and_what_comes_off(bolted):
    shop = bolted.shop
    with shop.transaction("here", terminal="office") as tx:
        tx.enter(verbs.stock(bolted.rotor.id, 2, to=bolted.bin.id))
    async with bolted.screens() as hands:
        await hands.press("f4")
        await hands.scan(bolted.gtin)
        assert (
            "3 Rotor screw M8 x 20 - 8.8: ! 2 of them" in hands.screen_text
            or "2 in drawer D3" in hands.screen_text
        )
        await hands.scan("KYES22M")
        await hands.scan("KRMV22Z") if False else await hands.type("remove")
        await hands.press("enter")
        assert "Its hardware: scan a bag for it" in hands.screen_text


async def test_a_missing_bolt_is_picked_before_the_others_go_into_a_bag(bolted):
    """Off comes a rotor with three screws, of which one cannot be found: a number, then the bag's tag."""
    shop = bolted.shop
    with shop.transaction("on", terminal="office") as tx:
        tx.enter(verbs.stock(bolted.rotor.id, 1, to=bolted.bin.id))
        tx.enter(verbs.stock(bolted.bolt.id, 1, to=bolted.drawer.id))
    install(At(shop, "lift"), bolted.rotor, 1, position="LF")
    async with bolted.screens() as hands:
        await hands.press("f4")
        await hands.scan(bolted.gtin)
        await hands.scan("KYES22M")
        assert "Its hardware: 3 Rotor screw" in hands.said
        assert "one Rotor screw M8 x 20 - 8.8 is missing" in hands.screen_text, "and can be tapped"
        await hands.type("1")
        await hands.press("enter")
        assert hands.said.startswith("done: 1 Rotor screw M8 x 20 - 8.8 is missing, none here to replace it")
        tag = shop.new_tag(Kind.BAG)
        await hands.scan(tag)
        assert hands.said.endswith("of Brake rotor: 2 Rotor screw M8 x 20 - 8.8.")
        assert shop.bins.by_code(tag).part == bolted.rotor.id
        await hands.press("ctrl+z")
        assert shop.bins.by_code(tag) is None


async def test_escape_leaves_what_came_off_where_it_lies(bolted):
    shop = bolted.shop
    with shop.transaction("on", terminal="office") as tx:
        tx.enter(verbs.stock(bolted.rotor.id, 1, to=bolted.bin.id))
    install(At(shop, "lift"), bolted.rotor, 1, position="LF")
    async with bolted.screens() as hands:
        await hands.press("f4")
        await hands.scan(bolted.gtin)
        await hands.scan("KYES22M")
        await hands.press("escape")
        assert hands.said == "done: Left as it was; nothing changed."
        assert "is missing" not in hands.screen_text
        await hands.type("1")
        await hands.press("enter")
        assert shop.book.in_state(bolted.bolt.id, State.GONE) == 0, "it is the number of a row again"
