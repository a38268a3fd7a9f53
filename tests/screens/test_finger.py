"""Everything but typing words is done with taps alone."""

import pytest

from shoptui.domain.places import State
from shoptui.jobs.answers import Choice, Question, done
from shoptui.stations.form import Form
from shoptui.stations.help import HelpPage
from shoptui.stations.said import EarlierAnswers
from shoptui.stations.setup.scanner_page import ScannerPage
from shoptui.stations.station_list import STATIONS

WHEEL_DOWN = 65


async def tap(hands, words, times=1):
    """Tap on words where they stand on the screen; the lowest, if they stand there more than once."""
    lines = hands.screen_text.splitlines()
    places = [(line.index(words), row) for row, line in enumerate(lines) if words in line]
    assert places, f"“{words}” is not on the screen:\n{hands.screen_text}"
    for _ in range(times):
        await touch(hands, *places[-1])


async def touch(hands, x, y, button=0):
    """Send what a terminal sends for a tap on a cell, counted from 0; buttons 64 and 65 turn a wheel."""
    for message in hands.keys(f"\x1b[<{button};{x + 1};{y + 1}M\x1b[<{button};{x + 1};{y + 1}m"):
        hands.app.post_message(message)
    await hands.settle()


async def tap_out(hands, signs):
    """Tap signs on the row of digits."""
    await tap(hands, ">   Scan, or type")
    for sign in signs:
        await tap(hands, f" {sign} ")


async def test_a_count_before_a_scan(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await tap_out(hands, "2")
        await hands.scan(trial.gtin)
        assert trial.shop.book.in_state(trial.rotor.id, State.RECEIVED) == 2


async def test_a_rows_number_and_enter(trial):
    async with trial.screens() as hands:
        await tap(hands, "F8 Parts")
        await tap_out(hands, ["1", "2", "Rub out", "Enter"])
        assert hands.app.screen.both.opened
        await tap(hands, "Esc Back")
        assert not hands.app.screen.both.opened
        await tap(hands, ">   Scan, or type")
        assert not hands.app.screen.has_class("-digits")


async def test_a_box_is_received_undone_and_closed(trial):
    async with trial.screens() as hands:
        await tap(hands, "F3 Boxes")
        await tap(hands, "1042", times=2)
        assert trial.shop.box_index.open_at
        await tap(hands, "Hub", times=2)
        assert trial.shop.book.in_state(trial.hub.id, State.RECEIVED) == 1
        await tap(hands, "^Z Undo")
        assert trial.shop.book.in_state(trial.hub.id, State.RECEIVED) == 0
        await tap(hands, "^X Close box")
        assert not trial.shop.box_index.open_at


async def test_a_question_is_answered_yes_and_no(trial):
    async with trial.screens() as hands:
        await tap(hands, "^P More")
        await hands.pilot.pause(0.3)
        while "Leave (quit" not in hands.screen_text:
            await touch(hands, 20, 12, WHEEL_DOWN)
        await tap(hands, "Leave (quit")
        await tap(hands, "No: leave it")
        assert hands.app.asking.open_question is None
        await hands.press("ctrl+q")
        await tap(hands, "Yes")
        assert not hands.app.is_running


async def test_the_last_of_many_choices(trial):
    async with trial.screens() as hands:
        choices = tuple(
            Choice(f"choice {number}", lambda n=number: done(f"took {n}")) for number in range(20)
        )
        hands.app.asking.ask_for("Which?", Question(choices=choices))
        await hands.settle()
        assert "choice 12" not in hands.screen_text
        await tap(hands, "a tap here shows them")
        assert "choice 12" in hands.screen_text
        assert "choice 8" not in hands.screen_text
        await tap(hands, "a tap here shows the first")
        assert "choice 0" in hands.screen_text


@pytest.mark.parametrize("station", STATIONS, ids=lambda station: station.name)
async def test_help_opens_scrolls_and_closes(trial, station):
    async with trial.screens() as hands:
        await tap(hands, f"{station.key_words} {station.short or station.title}")
        assert hands.app.current_mode == station.name
        await tap(hands, "F1 Help")
        page = hands.app.screen
        assert isinstance(page, HelpPage)
        before = hands.screen_text
        await touch(hands, 77, 19)
        await hands.pilot.pause(0.5)
        assert hands.app.screen is page
        assert hands.screen_text != before
        await touch(hands, 20, 8)
        assert hands.app.screen is not page


async def test_pages_open_and_close(trial):
    async with trial.screens() as hands:
        await hands.scan("not known")
        await tap(hands, "UNKNOWN" if "UNKNOWN" in hands.screen_text else "STOP")
        assert isinstance(hands.app.screen, EarlierAnswers)
        await touch(hands, 20, 8)
        await tap(hands, "F12 Set-up")
        await tap(hands, "^T Scanner")
        assert isinstance(hands.app.screen, ScannerPage)
        await touch(hands, 20, 8)
        assert not isinstance(hands.app.screen, ScannerPage)


async def test_a_form_of_numbers_is_filled_and_saved(trial):
    async with trial.screens() as hands:
        await tap(hands, "F12 Set-up")
        await tap(hands, "EUR, N m", times=2)
        assert isinstance(hands.app.screen, Form)
        await tap(hands, "A badge lasts")
        await tap_out(hands, ["Rub out", "Rub out", "4", "5"])
        await tap(hands, "^G Save")
        assert trial.shop.settings.badge_minutes == 45
        assert not isinstance(hands.app.screen, Form)


async def test_a_new_key_is_not_wanted_after_all(trial):
    async with trial.screens() as hands:
        await tap(hands, "F12 Set-up")
        await tap(hands, "the usual ones", times=2)
        await tap(hands, "everywhere")
        await tap(hands, "everywhere")
        assert "Press the new key" in hands.said
        await tap(hands, "No: leave it")
        await tap(hands, "Esc Back")
        assert "Enter does" in hands.screen_text


async def test_an_install_card(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.gtin)
        await tap(hands, "F4 Lift")
        await tap(hands, "Brake rotor", times=2)
        await tap(hands, "^G Install")
        if (asked := hands.app.asking.open_question) is not None:
            await tap(hands, asked.question.choices[0].label if asked.question.choices else "Yes")
        assert trial.shop.book.in_state(trial.rotor.id, State.INSTALLED) == 1
