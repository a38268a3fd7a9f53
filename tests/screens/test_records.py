"""Records: the list of each kind, its form by keys and by finger, wrong fields, drafts, two terminals."""

import random

import pytest
from textual.widgets import Input

from shoptui.domain.places import State
from shoptui.domain.records import Build, Joint, Order, Part, Person, Supplier, Wrench
from shoptui.jobs.at import At
from shoptui.jobs.edit import edit, written
from shoptui.jobs.record_forms import FORMS
from shoptui.stations.form import Form
from shoptui.stations.lines_page import LinesPage
from shoptui.stations.records.record_form import new_form, record_form
from shoptui.stations.records.screen import Records
from shoptui.store.shop import Shop
from tests.screens.conftest import NOW


def focused(hands):
    return hands.app.screen.focused.id


async def open_records(hands, words):
    await hands.press("f12")
    await hands.type(words)
    await hands.a_moment()
    await hands.press("enter")
    assert isinstance(hands.app.screen, Records)


@pytest.mark.parametrize("kind", [Build, Supplier, Person, Wrench, Order], ids=str)
async def test_each_kind_has_a_line_in_set_up(trial, kind):
    async with trial.screens() as hands:
        await open_records(hands, f"{FORMS[kind].many} lists")
        assert f"{FORMS[kind].many.capitalize()}: " in hands.screen_text
        await hands.press("ctrl+n")
        assert f"A new {FORMS[kind].one}" in hands.screen_text
        if kind is Order:
            await hands.press("escape")  # the suppliers are listed
        await hands.press("escape", "escape")
        assert not isinstance(hands.app.screen, Form | Records)


async def test_a_supplier_is_made_and_changed_by_keys(trial):
    async with trial.screens() as hands:
        await open_records(hands, "suppliers lists")
        await hands.press("ctrl+n")
        await hands.type("Glass hut")
        await hands.press("ctrl+g")
        assert "New: Glass hut." in hands.said
        assert isinstance(hands.app.screen, Records)
        await hands.press("enter", "tab", "tab")
        await hands.type("7")
        await hands.press("enter")
        assert "Changed lead time of Glass hut from nothing to 7." in hands.said
        await hands.press("ctrl+o")
        assert "lead time changed from nothing to 7" in hands.screen_text.replace("\n", " ")
        await hands.press("escape", "escape")
    assert trial.shop.suppliers.by_code("glass hut").lead_days == 7


async def test_words_narrow_the_list_and_open_the_first_match(trial):
    async with trial.screens() as hands:
        await open_records(hands, "suppliers lists")
        await hands.type("brak")
        await hands.a_moment()
        await hands.press("enter")
        assert "Change Brakes and more" in hands.screen_text


async def test_a_part_of_all_fields_fits_the_smallest_screen(trial):
    async with trial.screens() as hands:
        await hands.press("f8")
        await hands.type("rotor")
        await hands.a_moment()
        await hands.press("enter", "ctrl+e")
        form = hands.app.screen
        assert isinstance(form, Form)
        for name in form.values:
            assert focused(hands) == f"field-{name}"
            region, seen = form.focused.region, form.query_one(".fields").region
            assert seen.contains_region(region)
            await hands.press("tab")
        await hands.press("escape")
        assert not isinstance(hands.app.screen, Form)


async def test_arrows_go_through_the_fields(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(record_form(hands.app.scanning.at, trial.rotor))
        await hands.settle()
        await hands.press("down", "down")
        assert focused(hands) == "field-section"
        await hands.press("up")
        assert focused(hands) == "field-code"


async def test_a_wrong_field_gets_the_sentence_and_the_cursor(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(record_form(hands.app.scanning.at, trial.rotor))
        await hands.settle()
        for name, text, words in (
            ("needed", "1000000000", "Needed: At most 100000 pieces"),
            ("hours", "soon", "Hours: Hours such as"),
            ("install_after", "unicorn", "Install after: A part's code"),
            ("price", "dear", "Price: An amount"),
            ("use_by", "29 Feb", "Use by: There is no 29 Feb"),
            ("sold_as", "dozen", "Sold as: One of each, pair"),
        ):
            entry = hands.app.screen.query_one(f"#field-{name}", Input)
            before, entry.value = entry.value, text
            await hands.press("ctrl+g")
            assert words in hands.said
            assert focused(hands) == f"field-{name}"
            entry.value = before


async def test_parts_are_named_by_a_few_letters_several_of_them(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(record_form(hands.app.scanning.at, trial.rotor))
        await hands.settle()
        hands.app.screen.query_one("#field-install_after").focus()
        await hands.type("hub")
        await hands.press("tab", "shift+tab")
        await hands.type("; hood")
        assert hands.app.screen.values["install_after"].startswith("Hub (")
        await hands.press("ctrl+g")
        assert "Changed install after" in hands.said
    after = trial.shop.parts.get(trial.rotor.id).install_after
    assert after == (trial.hub.id, trial.markup.id)


async def test_a_finger_changes_a_choice_and_the_lines_of_an_order(trial):
    async with trial.screens(120, 40) as hands:
        order = next(trial.shop.orders.all())
        hands.app.push_screen(record_form(hands.app.scanning.at, order))
        await hands.settle()
        await hands.pilot.click("#field-lines")
        await hands.settle()
        assert isinstance(hands.app.screen, LinesPage)
        assert "2 Brake rotor" in hands.screen_text
        for label in ("Drop", "Keep"):
            await tap(hands, label)
        assert "2 lines (Enter): 1 Hub" in hands.screen_text
        await tap(hands, "Save")
        assert "Changed lines of order 1042" in hands.said
    assert trial.shop.book.in_state(trial.rotor.id, State.ORDERED) == 0


async def tap(hands, label):
    bar = hands.app.screen.query_one("#keys")
    line = next(y for y in range(bar.region.height) if label in str(bar.render_line(y).text))
    at = bar.render_line(line).text.index(label)
    await hands.pilot.click(bar, offset=(at + 1, line))
    await hands.settle()


@pytest.mark.parametrize("how", ["arrows", "number", "tap", "letters", "more letters"])
async def test_a_choice_shows_what_it_could_be_instead(trial, how):
    async with trial.screens() as hands:
        hands.app.push_screen(record_form(hands.app.scanning.at, trial.rotor))
        await hands.settle()
        hands.app.screen.query_one("#field-sold_as").focus()
        await hands.settle()
        assert "3 set" in hands.screen_text
        if how == "tap":
            await hands.pilot.click(hands.app.screen.query_one("#field-sold_as").offered, offset=(6, 2))
            await hands.settle()
        else:
            keys = {
                "arrows": ("s", "down"),
                "number": ("3",),
                "letters": ("ctrl+u", "s", "e"),
                "more letters": ("s", "e"),
            }
            await hands.press(*keys[how], "enter")
        assert hands.app.screen.values["sold_as"] == "set"
        assert focused(hands) == "field-pieces"


async def test_arrows_go_past_a_choice_and_leave_it_as_it_is(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(record_form(hands.app.scanning.at, trial.rotor))
        await hands.settle()
        before = hands.app.screen.values
        for name in hands.app.screen.values:
            assert focused(hands) == f"field-{name}"
            await hands.press("down")
        for name in (*reversed(before), "description"):
            assert focused(hands) == f"field-{name}"
            await hands.press("up")
        assert hands.app.screen.values == before


async def test_escape_closes_the_list_of_names_before_the_form(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(record_form(hands.app.scanning.at, trial.rotor))
        await hands.settle()
        hands.app.screen.query_one("#field-sold_as").focus()
        await hands.press("p", "down")
        assert "2 pack" in hands.screen_text
        await hands.press("escape")
        assert "2 pack" not in hands.screen_text
        assert focused(hands) == "field-sold_as"
        assert hands.app.screen.values["sold_as"] == "each", "a choice that was begun is what it was"
        await hands.press("escape")
        assert not isinstance(hands.app.screen, Form)


async def test_escape_leaves_the_letters_of_a_name_where_none_stood(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(record_form(hands.app.scanning.at, trial.rotor))
        await hands.settle()
        hands.app.screen.query_one("#field-install_after").focus()
        await hands.type("clip")
        assert "1 Clip 0" in hands.screen_text
        await hands.press("escape")
        assert "1 Clip 0" not in hands.screen_text
        assert hands.app.screen.values["install_after"] == "clip"


@pytest.mark.parametrize(
    ("wrong", "field", "words"),
    [
        ({"fasteners": "0", "value": "85+-5 Nm"}, "value", "a check that is signed has no value"),
        ({"fasteners": "5", "value": "110 N m", "aim": "105"}, "aim", "an aim is for a range"),
        ({"name": "bled"}, "name", "it is there twice"),
        ({"fasteners": "2", "plain": "yes"}, "plain", "this part needs its maker's sheet"),
    ],
)
async def test_a_joint_that_the_part_could_not_be_saved_with_is_refused_in_its_own_form(
    trial, wrong, field, words
):
    with trial.shop.transaction("a check", terminal="office") as tx:
        rotor = tx.change(trial.rotor, joints=(Joint("Bled", 0),))
    async with trial.screens() as hands:
        hands.app.push_screen(record_form(hands.app.scanning.at, rotor))
        await hands.settle()
        hands.app.screen.query_one("#field-joints").focus()
        await hands.settle()
        assert "1 joint (Enter): Bled, a check that is signed" in hands.screen_text
        await hands.press("enter", "ctrl+n")
        for name, text in {"name": "Bolts", **wrong}.items():
            hands.app.screen.query_one(f"#field-{name}").value = text
        await hands.press("ctrl+g")
        assert words in hands.said
        assert focused(hands) == f"field-{field}"
        assert not isinstance(hands.app.screen, LinesPage)


async def test_a_part_that_hurts_nobody_as_it_is_typed_now_may_have_a_plain_joint(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(record_form(hands.app.scanning.at, trial.rotor))
        await hands.settle()
        hands.app.screen.query_one("#field-description").value = "Bracket"
        hands.app.screen.query_one("#field-section").value = "Trim"
        hands.app.screen.query_one("#field-joints").focus()
        await hands.press("enter")
        for name, text in {"name": "Bolts", "fasteners": "2", "plain": "yes"}.items():
            hands.app.screen.query_one(f"#field-{name}").value = text
        await hands.press("ctrl+g")
        assert isinstance(hands.app.screen, LinesPage)


async def test_a_form_left_half_typed_is_offered_when_the_program_opens(trial):
    async with trial.screens() as hands:
        await hands.press("f8")
        await hands.type("rotor")
        await hands.a_moment()
        await hands.press("enter", "ctrl+e")
        hands.app.screen.query_one("#field-maker").focus()
        await hands.type("Anvil")
    async with trial.screens() as hands:
        assert "A form was left half typed: Change Brake rotor" in hands.said
        await hands.a_moment()
        await hands.press("enter")
        assert hands.app.screen.values["maker"] == "Anvil"
        await hands.press("ctrl+g")
        assert "Changed maker of Brake rotor from nothing to Anvil" in hands.said
        assert trial.shop.terminal("door").form == ""


async def test_two_terminals_change_one_field(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(record_form(hands.app.scanning.at, trial.rotor))
        await hands.settle()
        other = Shop.open(trial.shop.database.folder, clock=lambda: NOW, rng=random.Random(2))
        before = written(other, other.parts.get(trial.rotor.id))
        at = At(other, "office")
        theirs = {**before, "needed": "3", "maker": "Anvil"}
        assert "Changed" in edit(at, other.parts.get(trial.rotor.id), theirs, before=before).text
        other.close()
        hands.app.screen.query_one("#field-needed", Input).value = "4"
        await hands.press("ctrl+g")
        assert "Needed of Brake rotor was changed meanwhile" in hands.said
        assert "office) from 2 to 3" in hands.said
        await hands.type("2")
        await hands.a_moment()
        await hands.press("enter")
        assert not isinstance(hands.app.screen, Form)
    rotor = trial.shop.parts.get(trial.rotor.id)
    assert (rotor.needed, rotor.maker) == (4, "Anvil")


@pytest.mark.parametrize("kind", list(FORMS), ids=str)
async def test_hostile_words_in_a_record_are_shown_as_they_are(trial, kind):
    async with trial.screens() as hands:
        hands.app.push_screen(new_form(hands.app.scanning.at, kind))
        await hands.settle()
        for entry in hands.app.screen.query(Input):
            entry.value = "[red]x[/red]"
        await hands.press("ctrl+g")
        assert hands.said.startswith(("stop", "question"))
        assert isinstance(hands.app.screen, Form)


async def test_a_wrench_says_whether_it_may_be_used(trial):
    with trial.shop.transaction("wrench", terminal="office") as tx:
        good = tx.add(
            Wrench(0, "half", "", "Half inch", low=20, high=200, checked=NOW.date(), deviation_percent=4)
        )
        bad = tx.add(Wrench(0, "old", "", "Old one", low=5, high=25, barred="dropped"))
    async with trial.screens() as hands:
        await hands.scan(good.tag)
        assert "Half inch: 20 to 200 N m, 4 % either way, checked Wed 25 Nov, next check" in hands.said
        await hands.scan(bad.tag)
        assert hands.said.startswith("stop")
        assert "barred: dropped" in hands.said


async def test_a_list_is_copied_by_its_form(trial):
    with trial.shop.transaction("next build", terminal="office") as tx:
        coupe = tx.add(Build(0, "coupe", "", "Coupe"))
    trial.shop.remember("door", build=coupe.id)
    async with trial.screens() as hands:
        await hands.press("f8", "ctrl+y")
        await hands.type("wag")
        await hands.press("tab")
        await hands.type("body")
        await hands.press("ctrl+g")
        assert "Copy 1 line of Wagon to the list of Coupe" in hands.said
        await hands.a_moment()
        await hands.press("enter")
        assert "Copied 1 line of Wagon" in hands.said
    assert [part.section for part in trial.shop.parts.all() if part.build == coupe.id] == ["Body"]
    assert isinstance(trial.shop.parts.get(trial.rotor.id), Part)
