"""What the pages of help say is so: every key named there is bound there, every key bound there is named."""

import re

import pytest

from shoptui.domain.places import State
from shoptui.stations.actions import FIXED_KEYS, actions
from shoptui.stations.card import LABEL_WIDTH
from shoptui.stations.help import help_facts
from shoptui.stations.help_pages import EVERYWHERE, PAGES
from shoptui.stations.keyboard import Keyboard
from shoptui.stations.keys import EVERYWHERE_KEYS, HERE_KEYS
from shoptui.stations.shell import Shell
from shoptui.stations.station_list import STATIONS
from shoptui.store.command_tags import command_named

STATION = pytest.mark.parametrize("name", [station.name for station in STATIONS])
KEY = re.compile(r"Ctrl\+[A-Z]|F1\b|Enter|Escape|Tab|\bleft\b|\bright\b")
KEYBOARD = Keyboard(actions(Shell))


def keys_in(*texts):
    """Return the keys that texts name, as Textual names them."""
    return {key.lower() for text in texts for key in KEY.findall(text)}


@STATION
async def test_every_key_on_the_page_is_bound_there(trial, name):
    async with trial.screens() as hands:
        hands.app.action_station(name)
        await hands.settle()
        labels = [fact.label for fact in help_facts(name, hands.app.keyboard)]
        assert keys_in(*labels) - set(hands.app.screen.active_bindings) == set()


@STATION
async def test_every_key_of_the_station_is_on_the_page(trial, name):
    async with trial.screens() as hands:
        hands.app.action_station(name)
        await hands.settle()
        here = {
            key
            for key, active in hands.app.screen.active_bindings.items()
            if active.binding.group in (HERE_KEYS, EVERYWHERE_KEYS)
        }
        told = keys_in(*(f"{fact.label} {fact.text}" for fact in help_facts(name, hands.app.keyboard)))
        assert here - told - FIXED_KEYS == set()


@STATION
def test_every_command_on_the_page_is_one(name):
    for label, _ in PAGES[name].scans:
        if not label.startswith("a "):
            for word in filter(str.strip, label.split(", ")):
                assert command_named(word) is not None


@STATION
def test_every_page_has_keys_and_no_label_is_cut(name):
    page = PAGES[name]
    assert page.keys
    assert all(len(fact.label) <= LABEL_WIDTH for fact in help_facts(name, KEYBOARD))


def test_every_action_that_a_page_names_is_one():
    named = [name for page in PAGES.values() for name, _ in page.keys] + [name for name, _ in EVERYWHERE]
    assert all(name in KEYBOARD.actions for name in named if "." in name)


async def test_nothing_of_the_screen_shows_beside_the_page(trial):
    async with trial.screens() as hands:
        await hands.press("f3", "f1")
        lines = hands.screen_text.splitlines()
        assert all(line[0] in "╭│╰" and line[-1] in "╮│╯" for line in lines[:-2])


async def test_a_number_before_the_key_says_of_how_many(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.type("2")
        await hands.scan(trial.gtin)
        await hands.press("f8")
        await hands.type("rotor")
        await hands.press("enter")
        await hands.type("2")
        await hands.press("ctrl+g")
        assert "What becomes of 2 Brake rotor" in hands.said
        assert not hands.app.typed.text
        await hands.type("2")
        await hands.press("enter")
        await hands.type("1")
        await hands.a_moment()
        await hands.press("enter")
        assert trial.shop.book.in_state(trial.rotor.id, State.HELD) == 2


async def test_an_original_that_no_list_has_is_typed_at_the_lift(trial):
    async with trial.screens() as hands:
        await hands.press("f4")
        await hands.type("left door trim")
        await hands.press("enter")
        assert "Did an original part come off?" in hands.said
        await hands.a_moment()
        await hands.press("enter")
        assert any(part.original and part.description == "left door trim" for part in trial.shop.parts.all())
