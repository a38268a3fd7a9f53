"""Going from station to station, by key, by tap, by palette, and help on each."""

import pytest
from rich.cells import cell_len
from swift_time import run_swiftly

from shoptui.stations.app import ShopApp
from shoptui.stations.help import HelpPage
from shoptui.stations.station_list import STATIONS
from shoptui.stations.tap_bar import TapBar


@pytest.mark.parametrize("station", STATIONS, ids=lambda station: station.name)
async def test_a_key_brings_each_station_forward_and_f1_explains_it(trial, station):
    async with trial.screens() as hands:
        await hands.press(station.key)
        assert hands.app.current_mode == station.name
        assert station.title in hands.screen_text.splitlines()[0]
        await hands.press("f1")
        assert isinstance(hands.app.screen, HelpPage)
        assert station.answers[:30] in hands.screen_text
        await hands.press("escape")
        assert not isinstance(hands.app.screen, HelpPage)


async def test_the_station_bar_can_be_tapped(trial):
    async with trial.screens() as hands:
        for name, x in (("receiving", 19), ("setup", 76), ("today", 9)):
            await hands.pilot.click("#stations", offset=(x, 0))
            await hands.settle()
            assert hands.app.current_mode == name


async def test_every_station_fits_the_bar_at_80(trial):
    async with trial.screens() as hands:
        assert "F12 Set-up" in hands.screen_text.splitlines()[23]


async def test_question_mark_and_enter_is_help(trial):
    async with trial.screens() as hands:
        await hands.press("question_mark", "enter")
        assert isinstance(hands.app.screen, HelpPage)
        assert not hands.app.typed.text


async def test_the_palette_finds_stations(trial):
    async with trial.screens() as hands:
        await hands.press("ctrl+p")
        await hands.type("racks")
        await hands.pilot.pause(0.3)
        await hands.press("enter")
        await hands.settle()
        assert hands.app.current_mode == "racks"


async def test_ctrl_q_asks_and_escape_stays(trial):
    async with trial.screens() as hands:
        await hands.press("ctrl+q")
        assert "Leave the program?" in hands.screen_text
        await hands.press("escape")
        assert hands.app.is_running
        assert hands.app.asking.open_question is None
        await hands.press("ctrl+q", "ctrl+q")
        assert not hands.app.is_running


async def test_a_terminal_too_small_says_so_and_loses_nothing(trial):
    async with trial.screens() as hands:
        await hands.type("rotor")
        await hands.pilot.resize_terminal(40, 10)
        await hands.settle()
        assert "80x24 are needed" in hands.screen_text.replace("\n", " ")
        await hands.type("s")
        await hands.pilot.resize_terminal(80, 24)
        await hands.settle()
        assert "needed" not in hands.screen_text
        assert hands.app.typed.text == "rotors"


async def test_list_and_card_stand_side_by_side_where_there_is_room(trial):
    async with trial.screens(120, 40) as hands:
        await hands.press("f8")
        assert "Where it is" in hands.screen_text
        await hands.pilot.resize_terminal(80, 24)
        await hands.settle()
        assert "Where it is" not in hands.screen_text


async def test_without_colour_marks_and_words_stand_in_the_default_colour(trial, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    async with trial.screens() as hands:
        await hands.press("f3")
        assert "! overdue" in hands.screen_text
        for strip in hands.app.screen._compositor.render_strips():
            filtered = strip.apply_filter(hands.app._filters[-1], hands.app.screen.background_colors[1])
            for segment in filtered:
                if segment.style is not None:
                    assert segment.style.color is None or segment.style.color.is_default


async def test_what_is_wrong_with_the_store_is_said_once(trial, monkeypatch):
    async with trial.screens() as hands:

        def damaged():
            raise ValueError("The journal is damaged.")

        monkeypatch.setattr(trial.shop, "refresh", damaged)
        for _ in range(5):
            hands.app.others.look()
        await hands.settle()
        said = [heard.answer.text for heard in hands.app.hearing.heard]
        assert said == ["The journal is damaged."]


async def test_a_job_that_breaks_becomes_a_sentence(trial):
    async with trial.screens() as hands:

        def broken():
            raise KeyError(7)

        hands.app.talk.do(broken)
        await hands.settle()
        assert hands.said.startswith("stop: A fault of the program (KeyError: 7).")
        assert hands.app.is_running


def test_a_fault_of_the_screens_leaves_a_sentence_and_no_traceback(trial, capfd, monkeypatch, tmp_path):
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    app = run_swiftly(ShopApp(trial.shop, "door"))

    async def break_it(pilot):
        def broken():
            raise RuntimeError("no such thing")

        pilot.app.call_later(broken)
        await pilot.pause(0.2)

    app.run(headless=True, auto_pilot=break_it)
    told = capfd.readouterr().err
    assert "The screens stopped" in told
    assert "Traceback" not in told
    assert any("no such thing" in path.read_text() for path in tmp_path.glob("shoptui-*.txt"))


async def test_the_look_is_kept_for_the_next_time(trial):
    async with trial.screens() as hands:
        hands.app.set_look("ansi-light")
        await hands.settle()
    async with trial.screens() as hands:
        assert hands.app.theme == "ansi-light"


@pytest.mark.parametrize("station", STATIONS, ids=lambda station: station.name)
async def test_the_row_of_keys_is_never_cut_at_80(trial, station):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.press(station.key)
        taps = hands.app.screen.query_one("#keys", TapBar).shown
        assert [tap.label for tap in taps[-3:]] == ["Back", "Undo", "More"]
        assert sum(len(tap.key) + len(tap.label) + 2 for tap in taps) <= 81


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
@pytest.mark.parametrize("station", STATIONS, ids=lambda station: station.name)
async def test_no_heading_of_a_column_is_cut(trial, station, size):
    async with trial.screens(*size) as hands:
        await hands.press(station.key)
        shown = hands.app.screen.shown_list()
        lines, room = shown._lines, shown.scrollable_content_region.width
        assert [
            lines.columns[column].title
            for column, width in lines.cells(room, shown._digits)
            if len(lines.columns[column].title) > width
        ] == []


async def test_the_looks_are_told_apart_in_the_list(trial):
    async with trial.screens() as hands:
        await hands.press("f12")
        told = [
            line.split("colours:")[1].strip() for line in hands.screen_text.splitlines() if "colours:" in line
        ]
        assert len(set(told)) == 4


async def test_the_palette_shows_plain_characters_only(trial):
    async with trial.screens() as hands:
        await hands.press("ctrl+p")
        await hands.pilot.pause(0.3)
        assert "Receiving (F3)" in hands.screen_text
        assert not [letter for letter in hands.screen_text if cell_len(letter) > 1]


async def test_a_file_that_is_gone_is_told_in_a_sentence(trial, monkeypatch):
    async with trial.screens() as hands:

        def gone():
            raise FileNotFoundError(2, "No such file or directory", "snapshot-3.json")

        hands.app.talk.do(gone)
        await hands.settle()
        assert "The file snapshot-3.json is not there any more." in hands.said
        assert "Errno" not in hands.said
        monkeypatch.setattr(trial.shop, "refresh", gone)
        hands.app.others.look()
        await hands.settle()
        assert "Errno" not in hands.screen_text
