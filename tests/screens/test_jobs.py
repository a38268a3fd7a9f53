"""The jobs at the screens: install, remove, order, send out, add, look into a bin, set up."""

from itertools import repeat

from textual.widgets import Input

from shoptui.domain.places import State
from shoptui.jobs.answers import done
from shoptui.stations.setup import screen
from shoptui.stations.setup.scanner_page import ScannerPage


async def receive_rotors(hands, trial):
    await hands.scan(trial.box.code)
    await hands.type("2")
    await hands.scan(trial.gtin)
    await hands.scan(trial.bin.tag)


async def test_a_part_is_installed_by_its_scan_and_enter_and_removed_again(trial):
    async with trial.screens() as hands:
        await receive_rotors(hands, trial)
        await hands.press("f4")
        assert "can go on" in hands.screen_text
        await hands.scan(trial.rotor.tag)
        assert "fetch " in hands.screen_text
        await hands.a_moment()
        await hands.press("enter")
        assert trial.shop.book.in_state(trial.rotor.id, State.INSTALLED) == 1
        await hands.press("ctrl+x")
        await hands.a_moment()
        await hands.press("enter")
        assert trial.shop.book.in_state(trial.rotor.id, State.REMOVED) == 1


async def test_the_position_scanned_is_where_it_goes(trial):
    async with trial.screens() as hands:
        await receive_rotors(hands, trial)
        await hands.press("f4")
        await hands.scan(trial.rotor.tag)
        await hands.type("rf")
        await hands.press("enter")
        places = trial.shop.book.places(trial.rotor.id, State.INSTALLED)
        assert [place.where for place, _ in places] == ["RF"]


async def test_a_part_is_ordered_with_the_keyboard_alone(trial):
    async with trial.screens() as hands:
        await hands.press("f8")
        await hands.type("hood")
        await hands.press("enter", "ctrl+o")
        await hands.type("Body shop supplies")
        await hands.press("enter")
        await hands.type("B-77")
        await hands.press("enter")
        await hands.a_moment()
        await hands.press("enter")
        await hands.type("tomorrow")
        await hands.press("enter")
        await hands.a_moment()
        await hands.press("enter")
        await hands.a_moment()
        await hands.press("enter")
        assert "Due:" in hands.said
        assert "year-month-day" in hands.said
        field = hands.app.screen.query_one("#field-due", Input)
        await hands.settle()
        assert field.has_focus
        field.value = "2026-12-01"
        await hands.press("ctrl+g")
        assert "Body shop supplies is not known here. Enter makes it new." in hands.said
        await hands.a_moment()
        await hands.press("enter")
        assert trial.shop.book.in_state(trial.markup.id, State.ORDERED) == 1
        assert hands.app.current_mode == "parts"
        assert "1 ordered" in hands.screen_text or "ordered" in hands.said


async def test_a_form_asks_before_it_loses_words(trial):
    async with trial.screens() as hands:
        await hands.press("f8", "ctrl+n")
        form = hands.app.screen
        await hands.type("Seat rail")
        await hands.press("escape")
        assert hands.app.screen is form
        assert "Leave the form? What you typed is dropped. Enter leaves, Escape stays." in hands.said
        await hands.press("escape")
        assert hands.app.screen is form
        await hands.press("escape")
        await hands.pilot.click("QuestionPanel", offset=(10, 1))
        await hands.settle()
        assert hands.app.screen is not form


async def test_a_form_survives_a_resize_and_another_station(trial):
    async with trial.screens() as hands:
        await hands.press("f8", "ctrl+n")
        form = hands.app.screen
        await hands.type("Seat rail")
        await hands.pilot.resize_terminal(40, 10)
        await hands.pilot.resize_terminal(120, 40)
        await hands.press("f2", "f8")
        assert hands.app.screen is form
        assert form.values["description"] == "Seat rail"
        await hands.press("ctrl+g")
        assert any(part.description == "Seat rail" for part in trial.shop.parts.all())


async def test_a_part_is_sent_out(trial):
    async with trial.screens() as hands:
        await receive_rotors(hands, trial)
        await hands.press("f8")
        await hands.type("rotor")
        await hands.press("enter", "ctrl+t")
        await hands.type("Coating works")
        await hands.press("enter")
        await hands.type("coated")
        await hands.press("ctrl+g")
        await hands.a_moment()
        await hands.press("enter")
        assert trial.shop.book.in_state(trial.rotor.id, State.SENT_OUT) == 2


async def test_a_bin_that_is_scanned_at_the_racks_is_looked_into(trial):
    async with trial.screens() as hands:
        await receive_rotors(hands, trial)
        await hands.press("f6")
        await hands.scan(trial.bin.tag)
        assert "bin A3" in hands.screen_text.splitlines()[0]
        assert "Brake rotor" in hands.screen_text
        await hands.press("escape")
        assert "where is it?" in hands.screen_text.splitlines()[0]


async def test_a_part_scanned_elsewhere_shows_its_card(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.rotor.tag)
        assert hands.app.current_mode == "parts"
        assert "BR-100" in hands.screen_text


async def test_today_leads_to_where_it_is_done(trial):
    async with trial.screens() as hands:
        assert "overdue" in hands.screen_text
        await hands.type("box overdue")
        await hands.press("enter")
        assert hands.app.current_mode == "receiving"


async def test_filming_says_what_is_missing_and_why(trial):
    async with trial.screens(120, 40) as hands:
        await hands.press("f5")
        assert "Brake rotor" in hands.screen_text
        assert "ordered" in hands.screen_text
        await hands.press("enter")
        assert hands.app.current_mode == "parts"


async def test_the_scanner_page_shows_each_key_and_does_nothing(trial):
    async with trial.screens() as hands:
        await hands.press("f12", "ctrl+t")
        assert isinstance(hands.app.screen, ScannerPage)
        await hands.scan(trial.box.code)
        assert "F9 comes first: right." in hands.screen_text
        assert hands.app.current_mode == "setup"
        await hands.press("escape")
        assert not isinstance(hands.app.screen, ScannerPage)


async def test_a_stopped_code_is_learned_only_on_purpose(trial):
    async with trial.screens() as hands:
        await hands.scan("9521234543214")
        assert hands.said.startswith("stop")
        await hands.press("f12")
        await hands.type("stopped")
        await hands.press("enter")
        await hands.type(trial.hub.tag)
        await hands.press("enter")
        assert "now stands for Hub" in hands.said


async def test_the_store_is_checked(trial):
    async with trial.screens() as hands:
        await hands.press("f12", "ctrl+g")
        assert "sound" in hands.said


async def test_other_jobs_come_between_the_steps_of_a_check_and_escape_stops_it(trial, monkeypatch):
    monkeypatch.setattr(screen, "checking", lambda _shop: repeat((3, 20)))
    async with trial.screens() as hands:
        await hands.press("f12")
        await hands.pilot.press("ctrl+g")
        assert hands.said == "done: Checking the whole store, 3 of 20. Escape stops it."
        hands.app.jobs.later(lambda: done("Done meanwhile."))
        await hands.press("escape")
        assert hands.said == "stop: Checking the whole store: stopped."
        assert "Done meanwhile." in [heard.answer.text for heard in hands.app.hearing.heard]


async def test_what_another_terminal_does_is_shown(trial):
    async with trial.screens() as hands:
        await hands.press("f8")
        with trial.shop.transaction("renamed", terminal="office") as tx:
            tx.change(trial.rotor, description="A rotor with slots")
        await hands.settle()
        assert "A rotor with slots" in hands.screen_text


async def test_the_last_answers_stay_readable(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.gtin)
        await hands.press("ctrl+r")
        assert "open" in hands.screen_text
        assert "received" in hands.screen_text


async def test_looks_can_be_chosen(trial):
    async with trial.screens() as hands:
        await hands.press("f12")
        await hands.type("sixteen")
        await hands.press("escape", "escape")
        for theme in ("shop-light", "ansi-dark", "ansi-light", "shop-dark"):
            hands.app.set_look(theme)
            await hands.settle()
            assert "Set-up" in hands.screen_text


async def test_what_becomes_of_a_part_is_asked_with_numbers(trial):
    async with trial.screens() as hands:
        await receive_rotors(hands, trial)
        await hands.press("f8")
        await hands.type("rotor")
        await hands.press("enter", "ctrl+g")
        assert "unpack it" in hands.screen_text
        await hands.type("2")
        await hands.press("enter")
        assert "damaged" in hands.screen_text
        await hands.type("1")
        await hands.a_moment()
        await hands.press("enter")
        assert trial.shop.book.in_state(trial.rotor.id, State.HELD) == 1
        await hands.press("ctrl+g")
        await hands.press("down", "down", "down")
        await hands.press("escape")
        assert trial.shop.book.in_state(trial.rotor.id, State.HELD) == 1


async def test_a_number_that_is_typed_leaves_the_card_in_view(trial):
    """It can be a count for that card, or the answer to a question about it."""
    async with trial.screens() as hands:
        await hands.press("f8")
        await hands.type("rotor")
        await hands.press("enter")
        shown = hands.app.screen.shown_list()
        there = shown.row
        shown.narrow("2")
        assert shown.row == there
        shown.narrow("")
        await hands.settle()
        assert "Brake rotor" in hands.screen_text.splitlines()[1]


async def test_an_answer_that_is_typed_in_words_leaves_the_card_in_view(trial):
    async with trial.screens() as hands:
        await receive_rotors(hands, trial)
        await hands.press("f8")
        await hands.type("rotor")
        await hands.press("enter")
        there = hands.app.screen.shown_list().row
        await hands.press("ctrl+g")
        await hands.type("nothing is called so")
        hands.app.screen._narrow()  # as a moment later
        assert hands.app.screen.shown_list().row == there
