"""Filming: the reason can be read at every size, and each shot is told with its parts."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.shoots import Condition, Need, Shot

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
