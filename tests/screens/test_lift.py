"""The lift: the card and the keys always belong to the part that is spoken of."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import Build, Part


@pytest.fixture
def tailgate(trial):
    """An original on the vehicle: the only row that the lift has at first."""
    with trial.shop.transaction("bought", terminal="office") as tx:
        part = tx.add(Part(0, "OR-1", "", trial.build.id, "Old tailgate", original=True))
        tx.enter(verbs.as_bought(part.id, 1, position="rear"))
    return part


@pytest.fixture
def foreign(trial):
    """A part of another build."""
    with trial.shop.transaction("another build", terminal="office") as tx:
        build = tx.add(Build(0, "coupe", "", "Coupe"))
        return tx.add(Part(0, "CP-1", "", build.id, "Coupe door", needed=1))


@pytest.mark.parametrize("wide", [False, True], ids=["80x24", "120x40"])
@pytest.mark.parametrize("which", ["hub", "foreign"])
async def test_the_card_is_of_the_part_in_the_question(trial, tailgate, foreign, which, wide):
    part = foreign if which == "foreign" else trial.hub
    trial.shop.remember("door", build=trial.build.id)
    async with trial.screens(*((120, 40) if wide else (80, 24))) as hands:
        await hands.press("f4")
        await hands.scan("OR-1")
        await hands.press("escape", "escape")
        await hands.scan(part.tag)
        assert f"Install 1 {part.description}" in hands.said
        assert hands.app.screen.part == part.id
        await hands.press("escape")
        assert hands.app.screen.part == part.id
        await hands.press("ctrl+x")
        assert f"{part.description} is not on the vehicle" in hands.said
        assert trial.shop.book.in_state(tailgate.id, State.INSTALLED) == 1
        await hands.press("ctrl+g")
        await hands.a_moment()
        await hands.press("enter")
        assert trial.shop.book.in_state(part.id, State.INSTALLED) == 1
        assert trial.shop.book.in_state(tailgate.id, State.INSTALLED) == 1


async def test_a_part_that_came_off_keeps_its_card(trial, tailgate):
    async with trial.screens(120, 40) as hands:
        await hands.press("f4")
        await hands.scan("OR-1")
        await hands.a_moment()
        await hands.press("enter")
        assert "removed" in hands.said
        assert hands.app.screen.part == tailgate.id
        assert "is off" in hands.screen_text


@pytest.mark.parametrize("how", ["escape", "tag"])
async def test_a_card_put_down_leaves_no_row(trial, tailgate, how):
    async with trial.screens(120, 40) as hands:
        await hands.press("f4")
        await hands.scan(trial.hub.tag)
        assert "not here" in hands.screen_text
        if how == "escape":
            await hands.press("escape", "escape")
        else:
            await hands.scan("KDNE22X")
        assert "not here" not in hands.screen_text
        assert hands.app.screen.part == tailgate.id
        assert hands.app.scanning.card.part is None


async def test_a_part_of_another_build_has_its_own_card_at_parts_too(trial, foreign):
    trial.shop.remember("door", build=trial.build.id)
    async with trial.screens() as hands:
        await hands.scan(foreign.tag)
        assert hands.app.current_mode == "parts"
        assert "Coupe door" in hands.screen_text.splitlines()[1]
        assert hands.app.screen.part == foreign
        await hands.press("escape")
        assert all(row.key != foreign.id for row in hands.app.screen.shown_list().rows)


async def test_the_card_says_which_way_it_goes(trial, tailgate):
    async with trial.screens(120, 40) as hands:
        await hands.press("f4")
        await hands.scan("OR-1")
        assert "Remove: Old tailgate" in hands.screen_text
        assert "It comes off" in hands.screen_text
        assert "the bench" in hands.screen_text
        assert "May I start?" not in hands.screen_text
        assert "still to go on" not in hands.screen_text
        await hands.scan(trial.hub.tag)
        assert "Install: Hub" in hands.screen_text
        assert "May I start?" in hands.screen_text


async def test_a_trial_fit_by_keys_alone(trial):
    async with trial.screens() as hands:
        await hands.press("f4")
        await hands.scan(trial.hub.tag)
        await hands.press("ctrl+t")
        assert "Mock up: Hub" in hands.screen_text
        assert "dropped" not in hands.said, "the card was turned, not dropped"
        await hands.a_moment()
        await hands.press("enter")
        assert "1 Hub received and mocked up." in hands.said
        assert "mocked up" in hands.screen_text
        await hands.press("ctrl+x")
        assert "Take down: Hub" in hands.screen_text
        await hands.a_moment()
        await hands.press("enter")
        assert "taken down, back on the bench" in hands.said


async def test_several_are_built_in_at_once(trial):
    clip = trial.clips[0]
    with trial.shop.transaction("found", terminal="office") as tx:
        tx.enter(verbs.stock(clip.id, 3))
        tx.enter(verbs.stock(trial.hub.id, 1))
    async with trial.screens() as hands:
        await hands.press("f4")
        await hands.type("3")
        await hands.scan(clip.tag)
        await hands.press("ctrl+o")
        assert "Into what are 3 Clip 0 built?" in hands.said
        await hands.scan(trial.hub.tag)
        assert "3 Clip 0 built into Hub" in hands.said
        assert trial.shop.book.parts_at(State.ASSEMBLED, trial.hub.id) == {clip.id: 3}
        await hands.scan(trial.hub.tag)
        assert "3 Clip 0" in hands.screen_text


async def test_the_card_turned_by_a_key_lies_open_again(trial):
    async with trial.screens() as hands:
        await hands.press("f4")
        await hands.scan(trial.hub.tag)
        await hands.press("ctrl+t")
    async with trial.screens() as hands:
        await hands.press("f4")
        assert "Mock up 1 Hub" in hands.said
        assert "Mock up: Hub" in hands.screen_text


async def test_what_becomes_of_what_came_off_can_be_said_at_once(trial, tailgate):
    async with trial.screens() as hands:
        await hands.press("f4")
        await hands.scan("OR-1")
        await hands.a_moment()
        await hands.press("enter")
        assert "What becomes of it (Ctrl+K)" in hands.said
        await hands.press("ctrl+k")
        assert "return it to stock" in hands.screen_text
        await hands.press("escape")
        assert trial.shop.book.in_state(tailgate.id, State.REMOVED) == 1


async def test_a_tag_before_the_part_stands_in_the_heading_until_it_is_laid_aside(trial, tailgate):
    async with trial.screens() as hands:
        await hands.press("f4")
        await hands.scan("KREM22Z")
        assert "Lift: remove: scan a part" in hands.screen_text
        await hands.press("escape", "escape")
        assert "Lift: scan a part" in hands.screen_text
        assert hands.app.scanning.card.verb == ""


async def test_a_number_that_answers_leaves_the_card_of_the_part_in_hand(trial):
    with trial.shop.transaction("found", terminal="office") as tx:
        for part in (trial.hub, *trial.clips[:4]):
            tx.enter(verbs.stock(part.id, 1))
    async with trial.screens(120, 40) as hands:
        await hands.press("f4")
        await hands.scan(trial.hub.tag)
        await hands.press("ctrl+k")
        await hands.type("2")
        await hands.a_moment()
        assert "Install: Hub" in hands.screen_text
        await hands.press("enter")
        assert "What comes out of Hub?" in hands.said
        assert "Install: Hub" in hands.screen_text
        await hands.type("clip 3")
        await hands.press("enter")
        await hands.a_moment()
        await hands.press("enter")
        assert "1 Clip 3 out of Hub" in hands.said
        assert "Install: Clip 3" in hands.screen_text


async def test_a_count_before_a_rows_number_is_the_cards(trial):
    with trial.shop.transaction("rotors", terminal="office") as tx:
        order = next(trial.shop.orders.all())
        tx.enter(verbs.receive(trial.shop.book, trial.rotor.id, 2, order=order.id))
    trial.shop.remember("door", build=trial.build.id)
    async with trial.screens() as hands:
        await hands.press("f4", "2", "enter", "1", "enter")
        assert (hands.app.scanning.card.part, hands.app.scanning.at.card_qty) == (trial.rotor.id, 2)


@pytest.mark.parametrize("verb", ["assemble", "remove", "mock up", "take down"])
async def test_whatever_is_done_with_a_spring_its_card_says_that_it_stores_force(trial, verb):
    with trial.shop.transaction("spring", terminal="office") as tx:
        strut = tx.add(Part(0, "SU-1", "", trial.build.id, "Strut", needed=1))
        spring = tx.add(Part(0, "SU-2", "", trial.build.id, "Coil spring", needed=1))
        tx.enter(verbs.stock(strut.id, 1))
        tx.enter(verbs.stock(spring.id, 1))
        if verb == "remove":
            tx.enter(verbs.assemble(trial.shop.book, spring.id, 1, carrier=strut.id))
        if verb == "take down":
            tx.enter(verbs.mock_up(trial.shop.book, spring.id, 1, position=""))
    async with trial.screens(120, 40) as hands:
        await hands.press("f4")
        await hands.scan("SU-2")
        await hands.scan({"take down": "remove"}.get(verb, verb))
        assert "! Caution" in hands.screen_text
        assert "Springs store force" in hands.screen_text


@pytest.mark.parametrize("after", ["arriving", "stop", "done"])
async def test_two_enters_too_many_put_nothing_on_the_vehicle(trial, tailgate, after):
    with trial.shop.transaction("found", terminal="office") as tx:
        tx.enter(verbs.stock(trial.hub.id, 1))
    async with trial.screens(120, 40) as hands:
        await hands.press("f4")
        if after == "stop":
            await hands.scan("RR473124829GB")
        elif after == "done":
            await hands.scan("OR-1")
            await hands.a_moment()
            await hands.press("enter", "up")
            await hands.scan("KDNE22X")
        await hands.a_moment()
        await hands.press("enter")
        assert "Which one?" in hands.said
        await hands.press("enter")
        assert trial.shop.book.in_state(trial.hub.id, State.INSTALLED) == 0
        await hands.press("down", "up", "enter")
        assert "Install 1 Hub?" in hands.said
        await hands.a_moment()
        await hands.press("enter")
        assert trial.shop.book.in_state(trial.hub.id, State.INSTALLED) == 1


async def test_a_tap_on_the_row_under_the_cursor_is_meant(trial, tailgate):
    async with trial.screens() as hands:
        await hands.press("f4")
        await hands.pilot.click("LongList", offset=(8, 1))
        await hands.settle()
        assert "Remove 1 Old tailgate" in hands.said
