"""Set-up: keys, the shop's settings, wrenches."""

from datetime import date

import pytest

from shoptui.domain.records import Supplier, Wrench
from shoptui.stations.app import ShopApp
from shoptui.stations.form import Form
from shoptui.stations.records.record_form import new_form, record_form
from shoptui.stations.tap_bar import TapBar


async def key_line(hands, words):
    """Open the list of keys on one of its lines."""
    await hands.press("f12")
    await hands.type("lists every key")
    await hands.press("enter")
    await hands.type(words)
    await hands.press("enter")


async def test_a_key_is_changed_and_everything_shows_it(trial):
    async with trial.screens() as hands:
        await key_line(hands, "receiving close")
        assert "Press the new key for “Close box” (Receiving), now Ctrl+X." in hands.said
        await hands.press("f11")
        assert "“Close box” (Receiving) is F11 now." in hands.said
        await hands.scan(trial.box.code)
        taps = hands.app.screen.query_one("#keys", TapBar).taps
        assert [tap.key for tap in taps if tap.label == "Close box"] == ["F11"]
        await hands.press("f1", "pagedown")
        assert "F11            closes the box" in hands.screen_text
        await hands.press("escape", "ctrl+x")
        assert trial.shop.box_index.open_at
        await hands.press("f11")
        assert "closed. Short: 2 Brake rotor" in hands.said


async def test_a_station_gets_another_key(trial):
    async with trial.screens() as hands:
        await key_line(hands, "everywhere lift")
        await hands.press("f11")
        assert "F11 Lift" in hands.screen_text.splitlines()[23]
        await hands.press("f11")
        assert hands.app.current_mode == "lift"
        await hands.press("f2", "f4")
        assert hands.app.current_mode == "today"
        await hands.scan("LF")
        assert "Lift (F11)" in hands.screen_text
        await hands.press("f12", "escape")
        assert "keys                 * 1 changed" in hands.screen_text


async def test_lists_and_help_name_the_keys_as_they_are(trial):
    async with trial.screens() as hands:
        hands.app.keyboard.change("station.parts", "f10")
        hands.app.keyboard.change("station.setup", "f11")
        hands.app.keys_changed()
        trial.shop.remember("door", build=None)
        await hands.press("f3", "f1", "end")
        assert "changed in Set-up (F11)" in hands.screen_text
        await hands.press("escape", "f10")
        assert hands.app.current_mode == "parts"


async def test_clashes_and_keys_that_cannot_be_chosen_are_said(trial):
    async with trial.screens() as hands:
        await key_line(hands, "receiving close")
        await hands.press("f5")
        assert "F5 is “Filming” (everywhere) already." in hands.said
        assert hands.app.current_mode == "setup"
        await hands.press("enter")
        await hands.press("enter")
        assert "Enter cannot be chosen" in hands.said
        await hands.press("enter", "escape")
        assert hands.said == "done: Left as it was."
        assert hands.app.keyboard.changed == 0


async def test_letters_and_scans_go_where_they_always_go(trial):
    async with trial.screens() as hands:
        await key_line(hands, "receiving close")
        await hands.press("w")
        assert "Letters, digits and signs go to the line" in hands.said
        assert hands.app.typed.text == "w"
        assert hands.app.asking.open_question is None
        await hands.press("backspace")
        await hands.press("enter")
        await hands.scan(trial.box.code)
        assert hands.app.current_mode == "receiving"
        assert hands.app.keyboard.changed == 0


async def test_every_key_as_usual(trial):
    async with trial.screens() as hands:
        hands.app.keyboard.change("undo", "f11")
        await key_line(hands, "every key as usual")
        assert "its usual key again?" in hands.said
        await hands.a_moment()
        await hands.press("enter")
        assert hands.app.keyboard.is_usual("undo")
        await hands.press("escape")
        assert "health of the store" in hands.screen_text


async def test_a_wrong_file_is_said_at_the_start(trial, tmp_path):
    file = tmp_path / "keys.toml"
    file.write_text('undo = "F3"\n')
    app = ShopApp(trial.shop, "door", keys=file)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "line 1: F3 is “Receiving” (everywhere) already" in app.hearing.last_answer.text
        assert app.keyboard.is_usual("undo")


async def settings(hands):
    await hands.press("f12")
    await hands.type("settings")
    await hands.press("enter")
    assert isinstance(hands.app.screen, Form)


def fill(hands, **values):
    for name, value in values.items():
        hands.app.screen.query_one(f"#field-{name}").value = value


async def test_settings_are_changed_and_the_history_says_from_what_to_what(trial):
    async with trial.screens() as hands:
        await settings(hands)
        fill(
            hands,
            name="Corner shop",
            units="ft-lb",
            working_days="Tue Wed, sat",
            working_hours="8-17:30",
            holidays="2026-12-25, 2026-12-24",
            badge_minutes="30",
            scanner_prefix="f11",
        )
        await hands.press("ctrl+g")
        assert not isinstance(hands.app.screen, Form)
        now = trial.shop.settings
        assert (now.name, now.units, now.working_days) == ("Corner shop", "lbf ft", (1, 2, 5))
        assert (now.working_hours, now.badge_minutes) == ("08:00-17:30", 30)
        assert now.holidays == (date(2026, 12, 24), date(2026, 12, 25))
        last = next(trial.shop.history.at_terminal("door"))
        edits = {edit.field: edit for edit in trial.shop.history.edits_since(last.id)}
        assert (edits["units"].before, edits["units"].after) == ("N m", "lbf ft")
        assert hands.app.intake.decoder.prefix == "f11"
        await hands.press("ctrl+z")
        assert trial.shop.settings.units == "N m"
        assert hands.app.intake.decoder.prefix == "f9"


async def test_every_setting_says_what_is_wrong_with_it(trial):
    wrong = {
        "currency": ("money", "Currency"),
        "units": ("stone", "N m or lbf ft was expected"),
        "working_days": ("Someday", "Days such as"),
        "working_hours": ("17-8", "the earlier first"),
        "holidays": ("2026-02-29", "no day of the calendar"),
        "twice_seconds": ("60", "Seconds from 0 to 5"),
        "badge_minutes": ("0", "Minutes from 1 to 1440"),
        "scanner_prefix": ("F3", "F3 is “Receiving”"),
    }
    async with trial.screens() as hands:
        before = trial.shop.settings
        await settings(hands)
        for name, (text, said) in wrong.items():
            entry = hands.app.screen.query_one(f"#field-{name}")
            right, entry.value = entry.value, text
            await hands.press("ctrl+g")
            assert said in hands.said
            assert hands.app.focused is entry
            entry.value = right
        assert trial.shop.settings == before


async def test_a_changed_key_stays_in_its_place_in_the_row_of_keys(trial):
    async with trial.screens() as hands:
        hands.app.keyboard.change("lift.install", "ctrl+y")
        hands.app.keys_changed()
        await hands.settle()
        await hands.press("f4")
        assert "^Y Install ^L Tighten ^X Remove" in hands.screen_text


# Wrenches


@pytest.fixture
def wrench(trial):
    with trial.shop.transaction("a wrench", terminal="office") as tx:
        tool = Wrench(0, "T-200", "", "Click 200", low=20, high=200, kind="II A", checked=date(2026, 9, 1))
        return tx.add(tool)


@pytest.mark.parametrize("station", ["f2", "f3", "f5", "f6", "f7", "f8", "f12"])
async def test_a_wrench_shows_its_card_over_any_station(trial, wrench, station):
    async with trial.screens() as hands:
        await hands.press(station)
        beneath = hands.app.screen
        await hands.scan("T-200")
        for words in (
            "20 to 200 N m",
            "II A of ISO 6789: it is set",
            "4 % either way, by its type: where the tool's own papers say",
            "Wed 1 Sep 2027, or after 5000 uses",
            "+ yes",
            "Last 10 readings",
        ):
            assert words in hands.screen_text
        await hands.press("escape")
        assert hands.app.screen is beneath


async def test_at_the_lift_the_card_in_hand_stays(trial, wrench):
    async with trial.screens() as hands:
        await hands.press("f4")
        lift = hands.app.screen
        await hands.scan("T-200")
        assert hands.app.screen is lift
        assert "T-200 is in hand" in hands.said


async def test_over_a_form_nothing_is_laid(trial, wrench):
    async with trial.screens() as hands:
        await hands.press("f12")
        hands.app.push_screen(new_form(hands.app.scanning.at, Supplier))
        await hands.settle()
        await hands.type("Glass")
        await hands.scan("T-200")
        assert isinstance(hands.app.screen, Form)
        assert hands.app.screen.values["name"] == "Glass"


async def test_a_wrench_that_fell_takes_a_scan_and_a_tag_or_a_scan_and_a_number(trial, wrench):
    async with trial.screens() as hands:
        await hands.press("f6")
        await hands.scan("T-200")
        await hands.scan("KWDRPA2")
        assert hands.said == "done: T-200 is barred until it is checked; scan it twice then."
        assert "! no, barred: dropped" in hands.screen_text
        await hands.scan("T-200")
        await hands.scan("T-200")
        await hands.type("2")
        await hands.press("enter")
        assert "may be used" in hands.said
        assert "+ yes" in hands.screen_text


async def test_a_check_is_typed_with_its_day_and_its_figures(trial, wrench):
    async with trial.screens() as hands:
        await hands.press("f8")
        await hands.scan("T-200")
        await hands.scan("T-200")
        await hands.type("4")
        await hands.press("enter")
        assert "what was found at 20, 60, 100 % of 200 N m" in hands.said
        await hands.type("20 Nov 1.5 -2 4.5")
        await hands.a_moment()
        await hands.press("enter")
        assert (
            "T-200 failed: found +1.5 % at 20 %, -2 % at 60 %, +4.5 % at 100 %, 4 % are permitted"
            in hands.said
        )
        await hands.a_moment()
        await hands.press("enter")
        assert "T-200 is barred." in hands.said
    assert trial.shop.wrenches.get(wrench.id).barred == "failed its check"


async def test_todays_line_of_a_wrench_opens_its_card(trial, wrench):
    with trial.shop.transaction("old", terminal="office") as tx:
        tx.change(wrench, checked=date(2025, 9, 1))
    async with trial.screens() as hands:
        await hands.press("f2")
        await hands.type("click")
        await hands.a_moment()
        await hands.press("enter")
        assert "! no, its check is overdue" in hands.screen_text
        await hands.press("escape")
        assert hands.app.current_mode == "today"


async def test_papers_wider_than_the_type_are_said_when_the_form_is_saved(trial, wrench):
    async with trial.screens() as hands:
        hands.app.push_screen(record_form(hands.app.scanning.at, wrench))
        await hands.settle()
        hands.app.screen.query_one("#field-kind").value = "2 a"
        hands.app.screen.query_one("#field-deviation_percent").value = "6 %"
        await hands.press("ctrl+g")
        assert "Its papers say 6 %, II A permits 4 %: where the tool's own papers say" in hands.said


async def test_every_field_of_a_wrench_is_seen_at_80_columns(trial):
    async with trial.screens() as hands:
        hands.app.push_screen(new_form(hands.app.scanning.at, Wrench))
        await hands.settle()
        for label in ("Name", "Unit", "Type", "Deviation, %", "Last checked", "Barred, because", "Gone"):
            assert label in hands.screen_text
