"""Forms: they close once, when the job is done, and never take another screen with them."""

from contextlib import asynccontextmanager

import pytest
from textual.widgets import Input

from shoptui.domain.places import State
from shoptui.domain.records import Supplier
from shoptui.domain.row_text import rows_in
from shoptui.domain.shoots import Condition, Need, Shot
from shoptui.jobs.answers import done
from shoptui.stations.field import Field, Lines
from shoptui.stations.form import Form
from shoptui.stations.known_names import KnownNames
from shoptui.stations.lines_page import LinesPage


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
async def test_a_question_of_a_form_is_dropped_where_it_is_left_and_the_form_stays(
    trial, rotors_wanted_here, leaving
):
    async with trial.screens() as hands:
        await fill_send_out(hands, trial)
        if leaving:
            await hands.press("escape", "escape")
        await hands.press("f5")
        assert "dropped; nothing changed" in hands.said
        await hands.scan("yes")
        assert out(trial) == 0
        await hands.press("f8")
        assert isinstance(hands.app.screen, Form)
        assert hands.app.asking.open_question is None


async def test_a_question_of_a_form_is_answered_by_a_scan_with_a_page_over_it(trial, rotors_wanted_here):
    async with trial.screens() as hands:
        await fill_send_out(hands, trial)
        await hands.press("f1")
        await hands.scan("yes")
        assert out(trial) == 1
        await hands.press("escape")
        assert not isinstance(hands.app.screen, Form)


async def test_the_part_that_was_added_is_shown(trial):
    async with trial.screens(120, 40) as hands:
        await hands.press("f8", "ctrl+n")
        await hands.type("Seat rail")
        await hands.press("ctrl+g")
        assert not isinstance(hands.app.screen, Form)
        assert hands.app.screen.part.description == "Seat rail"
        assert "Seat rail" in hands.screen_text


@pytest.fixture
def shops(trial):
    """Outside shops that are told apart by their later words."""
    with trial.shop.transaction("shops", terminal="office") as tx:
        for code, name in (("booth", "Paint booth two streets down"), ("yard", "Panel yard"), ("tin", "Tin")):
            tx.add(Supplier(0, code, name))


@asynccontextmanager
async def order_form(trial, *, typing=""):
    async with trial.screens() as hands:
        await hands.press("f8")
        await hands.type("hood")
        await hands.press("enter", "ctrl+o")
        await hands.type(typing)
        yield hands


def supplier_of_last_order(trial):
    return trial.shop.suppliers.get(list(trial.shop.orders.all())[-1].supplier).name


def field(hands):
    return hands.app.screen.query_one("#field-supplier", Input)


@pytest.mark.parametrize("typed", ["paint", "STREETS d", "booth", "paint booth two streets down"])
async def test_leaving_the_field_takes_the_only_name_that_fits(trial, shops, typed):
    async with order_form(trial, typing=typed) as hands:
        await hands.press("tab")
        assert field(hands).value == "Paint booth two streets down"
        await hands.press("ctrl+g")
        assert supplier_of_last_order(trial) == "Paint booth two streets down"
        assert len(list(trial.shop.suppliers.all())) == 4


@pytest.mark.parametrize("how", ["number", "arrows", "tap"])
async def test_one_of_several_names_is_picked(trial, shops, how):
    async with order_form(trial, typing="pa") as hands:
        assert "1 Paint booth" in hands.screen_text
        assert "2 Panel yard" in hands.screen_text
        if how == "tap":
            await hands.pilot.click(field(hands).offered, offset=(6, 1))
            await hands.settle()
        else:
            await hands.press(*(("2", "enter") if how == "number" else ("down", "down", "enter")))
        assert field(hands).value == "Panel yard"
        await hands.press("ctrl+g")
        assert supplier_of_last_order(trial) == "Panel yard"


async def test_saving_asks_which_of_several_names_is_meant(trial, shops):
    async with order_form(trial, typing="pa") as hands:
        await hands.press("ctrl+g")
        assert "fits 2 names" in hands.said
        await hands.type("2")
        await hands.a_moment()
        await hands.press("enter")
        assert supplier_of_last_order(trial) == "Panel yard"
        assert not isinstance(hands.app.screen, Form)


async def test_a_question_with_numbers_that_is_left_gives_the_field_back(trial, shops):
    async with order_form(trial, typing="pa") as hands:
        await hands.press("ctrl+g", "escape")
        await hands.type("n")
        assert field(hands).value == "pan"
        assert not [order for order in trial.shop.orders.all() if order.number != "1042"]


async def test_an_unknown_name_is_asked_about_before_it_is_made(trial, shops):
    async with order_form(trial, typing="Glass hut") as hands:
        await hands.press("ctrl+g")
        assert "Glass hut is not known here. Enter makes it new." in hands.said
        assert len(list(trial.shop.suppliers.all())) == 4
        await hands.press("escape")
        assert len(list(trial.shop.suppliers.all())) == 4
        assert isinstance(hands.app.screen, Form)
        await hands.press("ctrl+g")
        await hands.a_moment()
        await hands.press("enter")
        assert supplier_of_last_order(trial) == "Glass hut"


async def test_a_whole_name_in_small_letters_is_that_name(trial, shops):
    async with order_form(trial, typing="tin") as hands:
        await hands.press("tab")
        assert field(hands).value == "Tin"


async def test_a_name_that_is_typed_again_is_meant(trial, shops):
    async with order_form(trial, typing="panel") as hands:
        await hands.press("tab", "shift+tab", "ctrl+u")
        await hands.type("panel")
        await hands.press("ctrl+g")
        assert "panel is not known here" in hands.said
        await hands.a_moment()
        await hands.press("enter")
        assert supplier_of_last_order(trial) == "panel"


def focused(hands):
    return hands.app.in_field.id if hands.app.in_field is not None else ""


@pytest.mark.parametrize(
    ("name", "text", "words"),
    [
        ("qty", "0", "Pieces: A quantity of 1 or more was expected, not 0."),
        ("qty", "-1", "Pieces: A quantity of 1 or more was expected, not -1."),
        ("qty", "1000000000", "Pieces: At most 100000 pieces were expected, not 1000000000"),
        ("due", "29 Feb", "Due: There is no 29 Feb in any year near this one."),
        ("due", "24 Nov", "Due: The day Tue 24 Nov is in the past"),
        ("due", "2026-11-01", "Due: The day"),
        ("total", "much", "Total, EUR: An amount such as 30.00 or 30 EUR was expected; much came."),
        ("total", "30 USD", "An amount such as 30.00 or 30 EUR was expected; 30 USD came."),
    ],
)
async def test_all_fields_are_read_before_a_name_is_asked_about(trial, shops, name, text, words):
    async with order_form(trial, typing="Glass hut") as hands:
        hands.app.screen.query_one(f"#field-{name}", Input).value = text
        await hands.press("ctrl+g")
        assert words in hands.said
        assert hands.app.asking.open_question is None
        assert focused(hands) == f"field-{name}"


async def test_a_refusal_goes_to_the_field_that_it_names(trial, shops):
    async with order_form(trial) as hands:
        await hands.press("tab", "tab", "ctrl+g")
        assert "A supplier was expected" in hands.said
        assert focused(hands) == "field-supplier"


async def test_a_day_can_be_counted_from_today(trial, shops):
    async with order_form(trial, typing="tin") as hands:
        hands.app.screen.query_one("#field-due", Input).value = "+5"
        await hands.press("ctrl+g")
        assert list(trial.shop.orders.all())[-1].due.isoformat() == "2026-11-30"


async def test_a_finger_goes_through_the_form(trial, shops):
    async with order_form(trial, typing="pa") as hands:
        await hands.pilot.click(field(hands).offered, offset=(6, 1))
        await hands.settle()
        assert focused(hands) == "field-number"
        labels = list(hands.app.screen.query(".label"))
        await hands.pilot.click(labels[3])
        await hands.settle()
        assert focused(hands) == "field-due"


async def test_a_section_half_typed_is_the_only_one_that_fits(trial):
    async with trial.screens() as hands:
        await hands.press("f8", "ctrl+n")
        await hands.type("Seat rail")
        await hands.press("tab")
        await hands.type("bra")
        await hands.press("tab")
        assert hands.app.screen.query_one("#field-section", Input).value == "Brakes"


async def test_without_colour_the_cursor_of_a_field_is_seen(trial, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    async with order_form(trial) as hands:
        assert field(hands).get_component_styles("input--cursor").text_style.reverse


def two_rotors(row):
    return f"{row['qty']} {row['part']}"


def lines_form(saved):
    parts = KnownNames(("Brake rotor (BR-100)", "Hub (H-7)"))
    fields = (
        Field("qty", "Pieces", value="1", check=int),
        Field("part", "Part", names=parts, closed=True),
    )

    def save(values):
        saved.append(values)
        return done("Saved.")

    lines = Lines(fields, "part", two_rotors)
    return Form(
        "A kit", (Field("words", "Words"), Field("kit", "Contents", lines=lines)), save, draft="parts new"
    )


async def test_a_list_within_a_form_by_keys(trial):
    saved = []
    async with trial.screens() as hands:
        hands.app.push_screen(lines_form(saved))
        await hands.settle()
        await hands.press("tab", "enter")
        assert "a new part" in hands.screen_text
        await hands.press("tab")
        await hands.type("bra")
        await hands.press("enter")
        assert isinstance(hands.app.screen, LinesPage)
        await hands.press("ctrl+n")
        await hands.type("2")
        await hands.press("tab")
        await hands.type("hub")
        await hands.press("enter")
        assert "12 Hub (H-7)" in hands.screen_text
        await hands.press("ctrl+t")
        assert hands.screen_text.index("12 Hub") < hands.screen_text.index("1 Brake rotor")
        await hands.press("ctrl+d", "ctrl+z", "escape")
        assert "2 parts (Enter): 12 Hub (H-7); 1 Brake rotor" in hands.screen_text
        await hands.press("ctrl+g")
    assert rows_in(saved[0]["kit"]) == (
        {"qty": "12", "part": "Hub (H-7)"},
        {"qty": "1", "part": "Brake rotor (BR-100)"},
    )


async def test_a_line_that_is_wrong_stays_open(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(lines_form([]))
        await hands.settle()
        await hands.press("tab", "enter", "end", "backspace")
        await hands.type("x")
        await hands.press("ctrl+g")
        assert "Pieces: " in hands.said
        assert focused(hands) == "field-qty"


async def test_what_is_half_typed_is_there_again_after_the_program_was_killed(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(lines_form([]))
        await hands.settle()
        await hands.type("two of each")
        hands.app.screen._draft._rested()  # a moment later
        await hands.settle()
        assert trial.shop.terminal("door").draft[0].text == "two of each"
    async with trial.screens() as hands:
        hands.app.push_screen(lines_form([]))
        await hands.settle()
        assert hands.app.screen.values["words"] == "two of each"
        assert "What was typed here before is back" in hands.said
        await hands.press("escape")
        await hands.a_moment()
        await hands.press("enter")
        assert trial.shop.terminal("door").draft == ()
    async with trial.screens() as hands:
        hands.app.push_screen(lines_form([]))
        await hands.settle()
        assert hands.app.screen.values["words"] == ""


async def test_the_first_letter_is_kept_at_once_and_the_last_as_the_program_ends(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(lines_form([]))
        await hands.settle()
        await hands.type("t")
        assert trial.shop.terminal("door").draft[0].text == "t"
        await hands.type("wo")
    assert trial.shop.terminal("door").draft[0].text == "two"


async def test_a_form_open_at_another_terminal_says_where(trial):
    trial.shop.remember("office", form="parts new")
    async with trial.screens() as hands:
        hands.app.push_screen(lines_form([]))
        await hands.settle()
        assert "It lies open at another terminal too: office" in hands.said


async def test_lines_are_kept_before_the_form_has_them(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(lines_form([]))
        await hands.settle()
        form = hands.app.screen
        await hands.press("tab", "enter", "ctrl+g")
        assert isinstance(hands.app.screen, LinesPage)
        form._draft._rested()  # a moment later
        await hands.settle()
        assert [each.field for each in trial.shop.terminal("door").draft] == ["kit"]


async def test_a_line_that_is_half_typed_is_kept_too_until_it_is_left(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(lines_form([]))
        await hands.settle()
        form = hands.app.screen
        await hands.press("tab", "enter")
        await hands.type("2")
        assert rows_in(form.values["kit"]) == ({"qty": "12"},)
        await hands.press("escape")
        await hands.a_moment()
        await hands.press("enter")
        assert isinstance(hands.app.screen, LinesPage)
        assert form.values["kit"] == ""


async def test_saving_drops_the_question_whether_to_leave(trial):
    async with order_form(trial, typing="tin") as hands:
        await hands.press("escape")
        assert "Leave the form?" in hands.said
        hands.app.screen.query_one("#field-qty", Input).value = "0"
        await hands.press("ctrl+g")
        assert "1 or more" in hands.said
        assert hands.app.asking.open_question is None


async def test_without_colour_a_list_with_the_focus_is_seen(trial, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    async with trial.screens() as hands:
        hands.app.push_screen(lines_form([]))
        await hands.settle()
        await hands.press("tab")
        assert hands.app.screen.focused.id == "field-kit"
        assert hands.app.screen.focused.styles.text_style.reverse


def one_value_form():
    kinds = KnownNames(("freight", "duty", "core deposit"))
    fields = (
        Field("qty", "Pieces", value="2", one_value=True, check=int),
        Field("kind", "What for", value="freight", names=kinds, closed=True, one_value=True),
        Field("words", "Words", value="as"),
    )
    return Form("A line", fields, lambda _: done("Saved."))


def stands(hands):
    return hands.app.screen.values


async def test_the_first_key_replaces_a_number_or_a_choice_and_words_go_on(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(one_value_form())
        await hands.settle()
        await hands.type("15")
        await hands.press("tab", "3", "tab")
        await hands.type("k")
        assert stands(hands) == {"qty": "15", "kind": "core deposit", "words": "ask"}


async def test_an_arrow_first_changes_the_number_that_stands_there(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(one_value_form())
        await hands.settle()
        await hands.press("end", "5", "left", "left", "1")
        assert stands(hands)["qty"] == "125"


async def test_a_tap_first_changes_the_number_that_stands_there(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(one_value_form())
        await hands.settle()
        await hands.press("tab")
        await hands.pilot.click("#field-qty", offset=(1, 0))
        await hands.press("5")
        assert stands(hands)["qty"] == "25"


async def test_a_scan_without_a_prefix_leaves_the_number_that_it_replaced(trial):
    form = one_value_form()
    async with trial.screens() as hands:
        hands.app.push_screen(form)
        await hands.settle()
        await hands.scan(trial.gtin, prefix=False)
        assert form.values["qty"] == "2"


async def test_what_the_first_key_replaces_is_marked_also_without_colour(trial, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    async with trial.screens() as hands:
        hands.app.push_screen(one_value_form())
        await hands.settle()
        entry = hands.app.screen.query_one("#field-qty", Input)
        assert entry.selected_text == "2"
        marked, plain = entry.get_component_styles("input--selection"), entry.styles
        assert (marked.background, marked.color) == (plain.color, hands.app.screen.styles.background)
