"""The line: words narrow, numbers open, codes scan; a scan is never typing and typing never a scan."""

import pytest
from textual.widgets import Button, Input

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.stations.form import Form
from shoptui.stations.long_list import LongList
from shoptui.stations.typed import Typed


def received(trial, part=None):
    return trial.shop.book.in_state((part or trial.rotor).id, State.RECEIVED)


async def test_words_narrow_the_list_and_enter_opens_the_first_match(trial):
    async with trial.screens() as hands:
        await hands.press("f8")
        await hands.type("hub")
        await hands.pilot.pause(0.15)
        assert [row.cells[0] for row in hands.app.screen.shown_list().shown] == ["Hub"]
        await hands.press("enter")
        assert "H-7" in hands.screen_text
        assert not hands.app.typed.text
        assert len(hands.app.screen.shown_list().shown) > 1


async def test_escape_asks_once_before_words_are_lost(trial):
    async with trial.screens() as hands:
        await hands.press("f8")
        await hands.type("hub caps")
        await hands.press("escape")
        assert hands.app.typed.text == "hub caps"
        assert hands.said.startswith("stop: Escape again")
        await hands.type("s")
        assert "Escape again" not in hands.said
        assert "Escape again" not in hands.screen_text
        await hands.press("escape")
        assert hands.app.typed.text == "hub capss"
        await hands.press("escape")
        assert not hands.app.typed.text


async def test_a_box_of_things_is_received_by_scanner_alone(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        assert hands.app.current_mode == "receiving"
        await hands.scan(trial.gtin)
        assert received(trial) == 1
        await hands.scan(trial.bin.tag)
        assert trial.shop.book.parts_at(State.RECEIVED, trial.bin.id) == {trial.rotor.id: 1}
        assert "1 of 2" in hands.screen_text or "to come" in hands.screen_text


async def test_without_a_prefix_the_line_takes_a_scan_and_enter_makes_it_one(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code, prefix=False)
        await hands.scan(trial.gtin, prefix=False)
        assert received(trial) == 1
        assert not hands.app.typed.text


async def test_a_number_before_a_scan_is_its_count(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.type("2")
        await hands.scan(trial.gtin)
        assert received(trial) == 2
        assert not hands.app.typed.text


async def test_a_number_that_is_no_row_is_the_count_of_the_next_scan(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.press("9", "enter")
        assert "9 of what is scanned next" in hands.said
        await hands.press("escape")
        await hands.scan(trial.gtin)
        assert received(trial) == 1


def ten_more_hubs(trial):
    (order,) = trial.shop.orders.all()
    with trial.shop.transaction("more", terminal="office") as tx:
        tx.enter(verbs.order(trial.hub.id, 9, supplier=order.supplier, order=order.id))


async def test_a_count_before_a_rows_number_is_of_that_row_and_spent(trial):
    ten_more_hubs(trial)
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.press("1", "0", "enter")
        assert "or of the next row's number" in hands.said
        await hands.press("2", "enter")
        assert received(trial, trial.hub) == 10
        await hands.scan(trial.gtin)
        assert received(trial) == 1


async def test_a_count_before_enter_on_a_row_or_words_is_of_that_row_and_spent(trial):
    ten_more_hubs(trial)
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.press("5", "enter", "down", "enter")
        assert received(trial, trial.hub) == 5
        await hands.press("4", "enter")
        await hands.type("hub")
        await hands.press("enter")
        assert "Receive 4 Hub?" in hands.said
        await hands.a_moment()
        await hands.press("enter")
        assert received(trial, trial.hub) == 9
        await hands.press("2", "enter")
        assert received(trial, trial.hub) == 10


async def test_a_digit_in_the_line_is_the_count_of_a_tapped_row(trial):
    ten_more_hubs(trial)
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.type("5")
        for _ in range(2):
            await hands.pilot.click(LongList, offset=(6, 2))
        await hands.settle()
        assert received(trial, trial.hub) == 5
        assert not hands.app.typed.text


async def test_a_rows_number_and_enter_receives_what_has_no_code(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.press("2", "enter")
        assert received(trial, trial.hub) == 1


async def test_words_in_a_box_ask_before_they_receive(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.type("hub")
        await hands.press("enter")
        assert received(trial, trial.hub) == 0
        assert len(hands.app.screen.shown_list().shown) == 3
        await hands.a_moment()
        await hands.press("enter")
        assert received(trial, trial.hub) == 1


@pytest.mark.parametrize("text", ["-4", "0", "+2"])
async def test_a_number_that_can_be_none_receives_nothing(trial, text):
    with trial.shop.transaction("clip 4", terminal="office") as tx:
        (order,) = trial.shop.orders.all()
        tx.enter(verbs.order(trial.clips[4].id, 1, supplier=order.supplier, order=order.id))
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.type(text)
        await hands.press("enter")
        assert f"A whole number from 1 was expected; {text} came." in hands.said
        assert hands.app.asking.open_question is None


async def test_words_half_typed_survive_a_scan(trial):
    async with trial.screens() as hands:
        await hands.press("f3")
        await hands.type("a word ")
        await hands.scan(trial.box.code)
        assert hands.app.typed == Typed("a word ", 7)
        assert "open" in hands.said


async def test_a_letter_never_presses_a_button_nor_a_blank(trial):
    async with trial.screens() as hands:
        await hands.press("f8", "ctrl+n")
        form = hands.app.screen
        form.query_one("#leave", Button).focus()
        await hands.type("a b")
        assert hands.app.screen is form
        assert hands.app.typed.text == "a b"


async def test_a_scan_with_prefix_never_lands_in_a_field(trial):
    async with trial.screens() as hands:
        await hands.press("f8", "ctrl+n")
        form = hands.app.screen
        assert isinstance(form, Form)
        await hands.type("Seat rail")
        await hands.scan(trial.box.code)
        assert form.query_one("#field-description", Input).value == "Seat rail"
        assert hands.app.current_mode == "receiving"
        await hands.press("f8")
        assert hands.app.screen is form
        assert form.query_one("#field-description", Input).value == "Seat rail"


async def test_without_a_prefix_a_checked_tail_is_taken_out_of_the_field_again(trial):
    async with trial.screens() as hands:
        await hands.press("f8", "ctrl+n")
        form = hands.app.screen
        await hands.type("Seat ")
        await hands.pilot.pause(0.1)
        await hands.scan(trial.box.code, prefix=False)
        assert form.query_one("#field-description", Input).value == "Seat "
        assert hands.app.current_mode == "receiving"


async def test_a_scan_is_taken_while_the_help_lies_open(trial):
    async with trial.screens() as hands:
        await hands.press("f1")
        await hands.scan(trial.box.code)
        assert hands.app.current_mode == "receiving"
        assert "open" in hands.said


async def test_a_scan_is_taken_while_the_palette_lies_open(trial):
    async with trial.screens() as hands:
        await hands.press("ctrl+p")
        await hands.type("ra")
        await hands.scan(trial.box.code)
        assert hands.app.current_mode == "receiving"
        assert "open" in hands.said


async def test_a_scan_answers_an_open_question_or_drops_it_with_words(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.markup.tag)
        assert hands.app.asking.open_question is not None
        await hands.scan(trial.markup.tag)
        assert trial.shop.book.in_state(trial.markup.id, State.HELD) == 1
        await hands.scan(trial.clips[5].tag)
        await hands.scan(trial.gtin)
        assert "dropped" in hands.said
        assert received(trial) == 1


async def test_enter_is_yes_and_escape_is_no(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.markup.tag)
        await hands.press("escape")
        assert hands.app.asking.open_question is None
        assert trial.shop.book.in_state(trial.markup.id, State.HELD) == 0
        await hands.scan(trial.markup.tag)
        await hands.a_moment()
        await hands.press("enter")
        assert trial.shop.book.in_state(trial.markup.id, State.HELD) == 1


async def test_a_question_is_answered_by_a_tap(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.markup.tag)
        await hands.pilot.click("QuestionPanel", offset=(10, 1))
        await hands.settle()
        assert trial.shop.book.in_state(trial.markup.id, State.HELD) == 1


async def test_undo_takes_back_the_last_thing(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.gtin)
        await hands.press("ctrl+z")
        assert received(trial) == 0
        assert "Undone" in hands.said


async def test_undo_belongs_to_the_form_while_one_is_open(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.gtin)
        await hands.press("f8", "ctrl+n", "ctrl+z")
        assert received(trial) == 1


async def test_a_scan_that_breaks_off_says_so(trial):
    async with trial.screens() as hands:
        for message in hands.keys("\x1b[20~952\x1b[20~" + trial.box.code + "\r"):
            hands.app.post_message(message)
        await hands.settle()
        answers = [heard.answer.text for heard in hands.app.hearing.heard]
        assert "incomplete" in answers[1]
        assert "open" in answers[0]


async def test_five_hundred_scans_at_once_all_arrive_in_order(trial):
    async with trial.screens() as hands:
        codes = [f"NO-{number}" for number in range(500)]
        seen = []
        brain = hands.app.talk.scanning
        taken = type(brain).take

        def take(text, count=1, **how):
            seen.append(text)
            return taken(brain, text, count, **how)

        hands.app.talk.take_scan = lambda text, count=1, **how: take(text, count, **how)
        for message in hands.keys("".join(f"\x1b[20~{code}\r" for code in codes)):
            hands.app.post_message(message)
        while len(seen) < len(codes):
            await hands.settle()
        assert seen == codes
        assert not hands.app.typed.text


@pytest.mark.parametrize("hostile", ["[bold]x[/bold]", "\x1b[31mred", "x" * 10_000, "a\u202eb\x00"])
async def test_hostile_codes_are_shown_inert(trial, hostile):
    async with trial.screens() as hands:
        await hands.press("f3")
        hands.app.jobs.later(lambda: hands.app.talk.take_scan(hostile))
        await hands.settle()
        assert "\x1b" not in hands.screen_text
        assert "\u202e" not in hands.screen_text
        assert "\x00" not in hands.screen_text


async def test_markup_in_a_parts_name_is_shown_as_it_is(trial):
    async with trial.screens(120, 40) as hands:
        await hands.press("f8")
        assert "[red]Hood[/red] ␛[31m" in hands.screen_text
        await hands.type("hood")
        await hands.press("enter")
        assert hands.screen_text.count("[red]Hood[/red] ␛[31m") >= 2


async def test_typing_brings_the_list_back_from_behind_the_card(trial):
    async with trial.screens() as hands:
        await hands.press("f8")
        await hands.type("hub")
        await hands.press("enter")
        assert "Where it is" in hands.screen_text
        await hands.type("rotor")
        await hands.pilot.pause(0.15)
        assert "Where it is" not in hands.screen_text
        assert "Brake rotor" in hands.screen_text


async def test_a_scan_drops_the_question_whether_to_leave_with_words(trial):
    async with trial.screens() as hands:
        await hands.press("ctrl+q")
        await hands.scan(trial.box.code)
        assert "dropped" in hands.said
        assert "open" in hands.said


async def test_words_stay_behind_when_the_station_changes(trial):
    async with trial.screens() as hands:
        await hands.press("f8")
        await hands.type("hub")
        await hands.press("f3")
        assert not hands.app.typed.text
        await hands.scan(trial.box.code, prefix=False)
        assert "open" in hands.said


async def test_a_scan_begun_in_the_line_outlives_the_station_of_the_scan_before(trial):
    async with trial.screens() as hands:
        for message in hands.keys(f"\x1b[20~{trial.box.code}\r{trial.gtin[:5]}"):
            hands.app.post_message(message)
        await hands.settle()
        assert hands.app.current_mode == "receiving"
        assert hands.app.typed.text == trial.gtin[:5]


@pytest.mark.parametrize("key", ["ctrl+o", "ctrl+n", "ctrl+e"])
async def test_words_stay_behind_when_a_form_opens(trial, key):
    async with trial.screens() as hands:
        await hands.press("f8")
        await hands.type("hub")
        await hands.pilot.pause(0.15)
        await hands.press(key)
        assert isinstance(hands.app.screen, Form)
        assert not hands.app.typed.text
        await hands.press("escape")
        assert not isinstance(hands.app.screen, Form)


async def test_words_typed_beside_a_form_do_not_hold_it(trial):
    async with trial.screens() as hands:
        await hands.press("f8", "ctrl+n")
        hands.app.screen.query_one("#leave", Button).focus()
        await hands.type("ab")
        await hands.press("escape")
        assert not isinstance(hands.app.screen, Form)
        assert not hands.app.typed.text


async def test_a_key_that_drops_a_question_says_so(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.gtin)
        await hands.scan(trial.markup.tag)
        assert hands.app.asking.open_question is not None
        await hands.press("ctrl+x")
        assert hands.said.endswith("(The question before was dropped.)")


@pytest.mark.parametrize("how", ["key", "tag"])
async def test_undo_at_a_question_only_drops_it(trial, how):
    async with trial.screens() as hands:
        undo = (lambda: hands.press("ctrl+z")) if how == "key" else (lambda: hands.scan("undo"))
        await hands.scan(trial.box.code)
        await hands.scan(trial.gtin)
        await hands.scan(trial.markup.tag)
        await undo()
        assert "stop: The question is dropped" in hands.said
        assert hands.app.asking.open_question is None
        assert received(trial) == 1
        await undo()
        assert "Undone" in hands.said
        assert received(trial) == 0


@pytest.mark.parametrize("away", ["f6", "ctrl+l"])
async def test_a_question_is_answered_on_no_screen_but_its_own(trial, away):
    async with trial.screens() as hands:
        with trial.shop.transaction("bought", terminal="office") as tx:
            tx.enter(verbs.stock(trial.hub.id, 1))
        await hands.press("f8")
        await hands.type("hub")
        await hands.press("enter", "ctrl+g")
        assert hands.app.asking.open_question is not None
        await hands.press(away)
        assert hands.said == "stop: The question was left, and is dropped; nothing changed."
        moves = list(trial.shop.history.moves_of_part(trial.hub.id))
        await hands.a_moment()
        await hands.press("1", "enter", "enter")
        assert list(trial.shop.history.moves_of_part(trial.hub.id)) == moves


async def test_a_question_of_the_lift_is_not_answered_in_an_empty_form(trial):
    with trial.shop.transaction("on", terminal="office") as tx:
        tx.enter(verbs.as_bought(trial.hub.id, 1, position=""))
    async with trial.screens() as hands:
        await hands.press("f4")
        await hands.scan(trial.hub.tag)
        assert "Remove 1 Hub" in hands.said
        await hands.press("f8", "ctrl+n")
        await hands.a_moment()
        await hands.press("enter")
        assert isinstance(hands.app.screen, Form)
        assert hands.app.current_mode == "parts"
        assert trial.shop.book.in_state(trial.hub.id, State.INSTALLED) == 1


async def test_a_page_of_help_leaves_the_question_open(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.markup.tag)
        await hands.press("f1", "escape")
        assert hands.app.asking.open_question is not None
        await hands.a_moment()
        await hands.press("enter")
        assert trial.shop.book.in_state(trial.markup.id, State.HELD) == 1


async def test_the_best_match_is_opened(trial):
    async with trial.screens() as hands:
        await hands.press("f8")
        await hands.type("h")
        await hands.pilot.pause(0.15)
        names = [row.cells[0] for row in hands.app.screen.shown_list().shown]
        assert names[0] == "Hub"
        assert "Hood" in names[1]
        await hands.press("enter")
        assert hands.app.screen.part.id == trial.hub.id
