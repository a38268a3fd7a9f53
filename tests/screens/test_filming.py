"""Filming: the reason can be read at every size, and each shot is told with its parts."""

from datetime import timedelta

import pytest

from shoptui.domain import verbs
from shoptui.domain.shoots import Condition, Need, Shot
from tests.screens.conftest import NOW

SIZES = pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])


@pytest.fixture
def two_shots(trial):
    """Two shots that want the rotors, one of them something that is as needed, and one that is filmed."""
    rotors = Need(Condition.INSTALLED, part=trial.rotor.id)
    hood = Need(Condition.INSTALLED, part=trial.markup.id, qty=1)
    with trial.shop.transaction("shots", terminal="office") as tx:
        tx.enter(verbs.as_bought(trial.markup.id, 1, position="front"))
        shots = (
            Shot("Rotor on", (rotors,)),
            Shot("Rotor again", (rotors, hood)),
            Shot("The yard", filmed=True),
        )
        tx.change(next(trial.shop.shoots.all()), shots=shots)


@SIZES
async def test_the_reason_is_not_cut(trial, size):
    async with trial.screens(*size) as hands:
        await hands.press("f5")
        text = " ".join(hands.screen_text.replace("│", " ").split())
        for word in ("Brakes and more", "overdue", "installed"):
            assert word in text


async def test_the_same_part_in_two_shots_is_told_apart(trial, two_shots):
    async with trial.screens() as hands:
        await hands.press("f5")
        rows = hands.app.screen.shown_list().rows
        assert [row.cells[2] for row in rows] == ["1", "2"]
        assert "Shot 1, Rotor on" in hands.screen_text
        await hands.press("down")
        assert "Shot 2, Rotor again" in hands.screen_text


@SIZES
async def test_the_shots_show_each_part_and_how_it_stands(trial, two_shots, size):
    async with trial.screens(*size) as hands:
        await hands.press("f5", "ctrl+o")
        for words in (
            "Shot 1: Rotor on",
            "! 2 Brake rotor, installed: ordered",
            "Shot 2: Rotor again",
            "+ [red]Hood[/red]",
            "Filmed already",
            "The yard",
        ):
            assert words in hands.screen_text
        await hands.press("escape")
        assert "Shot 1, Rotor on" in hands.screen_text or size[0] > 80


async def test_the_row_in_full_gives_way_to_the_card(trial):
    async with trial.screens() as hands:
        await hands.press("f5")
        assert "Next, " in hands.screen_text
        await hands.press("enter")
        assert "Next, " not in hands.screen_text
        await hands.press("escape")
        assert "Next, " in hands.screen_text
        await hands.pilot.resize_terminal(120, 40)
        await hands.settle()
        assert "Next, " not in hands.screen_text


async def test_a_shot_is_marked_filmed_by_its_number_and_undone(trial, two_shots):
    async with trial.screens() as hands:
        await hands.press("f5", "ctrl+g")
        assert "1  filmed: shot 1 (Rotor on), 0 of 1 ready" in hands.screen_text
        assert "not filmed after all: shot 3 (The yard)" in hands.screen_text
        await hands.press("1", "enter")
        words = (
            "Filmed all the same? Enter: yes. Fri 4 Dec is still to come. By the books missing: 2 Brake rotor"
        )
        assert hands.said.startswith(f"question: {words}")
        await hands.press("enter")
        assert hands.said.startswith("done: Filmed: shot 1 (Rotor on)")
        assert [row.cells[2] for row in hands.app.screen.shown_list().rows] == ["2"]
        await hands.press("ctrl+z")
        assert [row.cells[2] for row in hands.app.screen.shown_list().rows] == ["1", "2"]


async def test_filmed_by_a_finger_alone(trial, two_shots):
    async with trial.screens() as hands:
        await hands.press("f5")
        await hands.pilot.click("#keys", offset=(3, 0))
        await hands.settle()
        await hands.pilot.click("QuestionPanel", offset=(12, 3))
        await hands.settle()
        assert "shot 1" in hands.said
        assert "shot 2" in hands.said  # all of them


async def test_what_is_mocked_up_stands_first_where_the_vehicle_moves(trial):
    shop = trial.shop
    with shop.transaction("trial", terminal="lift") as tx:
        tx.enter(verbs.receive_unordered(trial.hub.id, 1, supplier="unknown"))
        tx.enter(verbs.mock_up(shop.book, trial.hub.id, 1, position="front"))
        shoot = next(shop.shoots.all())
        tx.change(shoot, shots=(*shoot.shots, Shot("It rolls", moves=True)))
    async with trial.screens() as hands:
        await hands.press("f5")
        row = hands.app.screen.shown_list().rows[0]
        assert row.cells[2:] == ("2", "1 Hub", "mocked up at front, and the vehicle moves")
        assert "the person in charge" in " ".join(hands.screen_text.split())
        await hands.press("enter")
        assert "have it taken down, or decide that it may stay" in " ".join(hands.screen_text.split())
        await hands.press("escape", "ctrl+o")
        assert "The vehicle moves; mocked up on it" in hands.screen_text


async def test_a_day_is_moved_and_says_what_is_no_longer_in_time(trial):
    with trial.shop.transaction("later", terminal="office") as tx:
        order = trial.shop.orders.by_code("1042")
        tx.change(order, due=NOW.date() + timedelta(days=7))
    async with trial.screens() as hands:
        await hands.press("f5", "ctrl+t", "ctrl+u")
        await hands.type("27 nov")
        await hands.press("ctrl+g")
        assert "No longer in time for Fri 27 Nov: 2 Brake rotor for shot 1" in hands.said
        await hands.press("enter")
        assert hands.said == "done: Filming day Fri 27 Nov (Brakes), 1 shot."
        assert "Filming Fri 27 Nov, Brakes" in hands.screen_text
        await hands.press("ctrl+z")
        assert "Filming Fri 4 Dec, Brakes" in hands.screen_text


async def test_a_new_day_with_a_shot_and_what_it_needs(trial):
    async with trial.screens() as hands:
        await hands.press("f5", "ctrl+n")
        await hands.type("+12")
        await hands.press("enter")
        await hands.type("Yard")
        await hands.press("down", "down")  # past the call time
        await hands.press("enter")  # into the shots: a first one
        await hands.type("Hub in its box")
        await hands.press("down")
        await hands.press("enter")  # into what it needs: a first need
        await hands.type("hub")
        await hands.press("enter")
        await hands.type("sea")
        await hands.press("enter")
        for _ in ("need", "needs", "shot", "shots", "day"):
            await hands.press("ctrl+g")
        assert hands.said.startswith("done: New filming day: Mon 7 Dec (Yard), 1 shot.")
        assert "Filming Mon 7 Dec, Yard: 0 of 1 ready" in hands.screen_text
    day = trial.shop.shoots.by_code("day-2")
    assert day.shots == (Shot("Hub in its box", (Need(Condition.SEALED, part=trial.hub.id),)),)


async def to_a_need(hands):
    """A new day with a shot, the cursor on what it needs."""
    await hands.press("f5", "ctrl+n")
    await hands.type("+12")
    await hands.press("down", "down", "down", "enter")
    await hands.type("Yard")
    await hands.press("down", "enter")


@pytest.mark.parametrize("prefix", [True, False], ids=["F9", "no prefix"])
async def test_a_scan_in_the_field_of_a_part_fills_it_and_goes_on(trial, prefix):
    async with trial.screens() as hands:
        await to_a_need(hands)
        form = hands.app.screen
        await hands.scan(trial.gtin, prefix=prefix)
        assert hands.app.screen is form
        assert hands.said.startswith("done: Part or section: Brake rotor (")
        assert form.values["what"].startswith("Brake rotor (")
        assert form.focused.id == "field-condition"


async def test_a_scan_of_what_the_field_is_not_for_means_what_it_means_everywhere(trial):
    async with trial.screens() as hands:
        await to_a_need(hands)
        await hands.scan(trial.bin.code)
        assert hands.app.current_mode == "racks"


async def test_a_need_that_cannot_be_does_not_go_into_the_list(trial):
    async with trial.screens() as hands:
        await to_a_need(hands)
        form = hands.app.screen
        for field, text, words in (
            ("condition", "mockeyes", "A part or a section of a build was expected; nothing came."),
            ("what", trial.rotor.code, "How it is needed was expected: sealed, "),
            ("condition", "", "removed, still in place; nothing came."),
        ):
            form.query_one(f"#field-{field}").value = text
            await hands.press("ctrl+g")
            assert words in hands.said
            assert hands.app.screen is form
        assert form.focused.id == "field-condition"
        assert "torque done" in hands.screen_text


async def test_more_than_the_list_wants_is_asked_about(trial):
    async with trial.screens() as hands:
        await to_a_need(hands)
        form = hands.app.screen
        for field, text in (("what", trial.rotor.code), ("condition", "installed"), ("qty", "99")):
            form.query_one(f"#field-{field}").value = text
        await hands.press("ctrl+g")
        assert "its list wants 2, the shot 99. Enter: put it down all the same." in hands.said
        await hands.press("escape")
        assert hands.app.screen is form
        await hands.press("ctrl+g")
        await hands.a_moment()
        await hands.press("enter")
        assert hands.said.startswith("done: Brake rotor")
        assert "99 installed" in hands.screen_text


async def test_a_day_without_a_day_or_with_what_nobody_knows_is_not_saved(trial):
    async with trial.screens() as hands:
        await hands.press("f5", "ctrl+n", "ctrl+g")
        assert hands.said == "stop: On which day? A day such as 30 Nov was expected."
        for text in ("31 nov", "29 feb 2027", "03.04.2027", "soon"):
            await hands.press("ctrl+u")
            await hands.type(text)
            await hands.press("ctrl+g")
            assert hands.said.startswith("stop: Day: ")
    assert len(list(trial.shop.shoots.all())) == 1


async def test_a_form_keeps_a_section_that_lost_its_parts_and_a_filmed_shot(trial):
    shop = trial.shop
    section = Need(Condition.INSTALLED, build=trial.build.id, section="Gone")
    with shop.transaction("old", terminal="office") as tx:
        shoot = tx.change(next(shop.shoots.all()), shots=(Shot("a", (section,), moves=True, filmed=True),))
    async with trial.screens() as hands:
        await hands.press("f5")
        await hands.press("ctrl+y", "ctrl+t", "down")
        await hands.type("!")
        await hands.press("ctrl+g")
        assert hands.said.startswith("done: ")
    assert shop.shoots.get(shoot.id).shots == shoot.shots
    assert shop.shoots.get(shoot.id).title == "Brakes!"


async def test_a_day_that_is_called_off_is_not_shown_any_more(trial):
    async with trial.screens() as hands:
        await hands.press("f5", "ctrl+g", "2", "enter")
        assert hands.said == ("question: Call off Fri 4 Dec (Brakes), 1 of 1 shots not filmed? Enter: yes.")
        await hands.press("enter")
        assert "no filming day to come" in hands.screen_text
