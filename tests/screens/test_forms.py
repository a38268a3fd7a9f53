"""Forms: they close once, when the job is done, and never take another screen with them."""

import pytest

from shoptui.domain.places import State
from shoptui.domain.shoots import Condition, Need, Shot
from shoptui.stations.form import Form


@pytest.fixture
def rotors_wanted_here(trial):
    """A shot that needs the rotors as they are: sending one out asks first."""
    with trial.shop.transaction("a shot", terminal="office") as tx:
        shoot = next(trial.shop.shoots.all())
        shot = Shot("Rotors on the bench", (Need(Condition.SEALED, part=trial.rotor.id, qty=2),))
        tx.change(shoot, shots=(shot,))


async def fill_send_out(hands, trial):
    await hands.scan(trial.box.code)
    await hands.type("2")
    await hands.scan(trial.gtin)
    await hands.press("f8")
    await hands.type("rotor")
    await hands.press("enter", "ctrl+t")
    hands.app.screen.query_one("#field-to").value = "Brakes and more"
    hands.app.screen.query_one("#field-work").value = "coated"
    hands.app.screen.query_one("#field-qty").value = "1"
    await hands.press("ctrl+g")


def out(trial):
    return trial.shop.book.in_state(trial.rotor.id, State.SENT_OUT)


async def test_a_form_closes_when_its_question_is_answered_yes(trial, rotors_wanted_here):
    async with trial.screens() as hands:
        await fill_send_out(hands, trial)
        assert hands.said.startswith("question")
        assert isinstance(hands.app.screen, Form)
        await hands.a_moment()
        await hands.press("enter")
        assert out(trial) == 1
        assert not isinstance(hands.app.screen, Form)
        assert hands.app.current_mode == "parts"


async def test_a_form_stays_when_its_question_is_answered_no(trial, rotors_wanted_here):
    async with trial.screens() as hands:
        await fill_send_out(hands, trial)
        await hands.press("escape")
        assert out(trial) == 0
        assert isinstance(hands.app.screen, Form)


@pytest.mark.parametrize("leaving", [False, True], ids=["saving", "leaving"])
async def test_a_question_of_a_form_can_be_answered_at_another_station(trial, rotors_wanted_here, leaving):
    async with trial.screens() as hands:
        await fill_send_out(hands, trial)
        if leaving:
            await hands.press("escape", "escape")
        await hands.press("f2")
        await hands.a_moment()
        await hands.press("enter")
        assert hands.app.current_mode == "today"
        assert "fault" not in hands.said
        assert out(trial) == (0 if leaving else 1)
        await hands.press("f8")
        assert not isinstance(hands.app.screen, Form)


async def test_the_part_that_was_added_is_shown(trial):
    async with trial.screens(120, 40) as hands:
        await hands.press("f8", "ctrl+n")
        await hands.type("Seat rail")
        await hands.press("ctrl+g")
        assert not isinstance(hands.app.screen, Form)
        assert hands.app.screen.part.description == "Seat rail"
        assert "Seat rail" in hands.screen_text
