"""Every word can be read in both looks of our own.

Contrast as in WCAG 2.2, success criterion 1.4.3: 4.5 to 1 at least, for text that is not large, between
relative luminances as that document defines them (from memory; black on white is 21 to 1 there, and the grey
#777777 on white 4.48 to 1, which is checked first). What can not be done at the moment is exempt there too.
"""

import pytest
from rich.color import ColorType

from shoptui.stations.station_list import STATIONS

LEAST = 4.5
DRAWN = set("─│╭╮╰╯▔▁▂▃▄▅▆▇█ ")


def luminance(colour):
    """Return relative luminance, 0 for black, 1 for white."""
    parts = [value / 255 for value in colour]
    red, green, blue = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def too_faint(app):
    """Return the words on the screen that stand out too little."""
    disabled = {tap.label for bar in app.screen.query("TapBar") for tap in bar.taps if not tap.able}
    found = []
    for strip in app.screen._compositor.render_strips():
        for segment in strip:
            words, style = segment.text.strip(), segment.style
            if not words or set(words) <= DRAWN or any(words.endswith(label) for label in disabled):
                continue
            if contrast(style.color.triplet, style.bgcolor.triplet) < LEAST:
                found.append((words, style.color.triplet.hex, style.bgcolor.triplet.hex))
    return found


def styles(app):
    """Return the styles of all words on the screen."""
    strips = app.screen._compositor.render_strips()
    return [segment.style for strip in strips for segment in strip if segment.text.strip() and segment.style]


def test_the_formula():
    assert contrast((0, 0, 0), (255, 255, 255)) == pytest.approx(21)
    assert contrast((119, 119, 119), (255, 255, 255)) == pytest.approx(4.48, abs=0.005)


@pytest.mark.parametrize("look", ["shop-dark", "shop-light"])
@pytest.mark.parametrize("station", STATIONS, ids=lambda station: station.name)
async def test_every_word_of_a_station_can_be_read(trial, look, station):
    async with trial.screens(120, 40) as hands:
        hands.app.set_look(look)
        await hands.press(station.key)
        assert too_faint(hands.app) == []
        await hands.scan("ABC not known")
        await hands.press("ctrl+q")
        assert too_faint(hands.app) == []


@pytest.mark.parametrize("look", ["shop-dark", "shop-light"])
async def test_every_word_of_a_form_can_be_read(trial, look):
    async with trial.screens() as hands:
        hands.app.set_look(look)
        await hands.press("f12")
        await hands.type("settings")
        await hands.press("enter")
        assert too_faint(hands.app) == []


@pytest.mark.parametrize("look", ["ansi-dark", "ansi-light"])
@pytest.mark.parametrize("station", STATIONS, ids=lambda station: station.name)
async def test_the_terminals_own_colours_are_all_that_is_used(trial, look, station):
    async with trial.screens(120, 40) as hands:
        hands.app.set_look(look)
        await hands.press(station.key)
        await hands.press("ctrl+q")
        colours = {colour for style in styles(hands.app) for colour in (style.color, style.bgcolor)} - {None}
        assert {colour.type for colour in colours} <= {ColorType.DEFAULT, ColorType.STANDARD}


@pytest.mark.parametrize("station", STATIONS, ids=lambda station: station.name)
async def test_without_colour_there_is_none_and_what_is_pointed_at_stands_out(trial, station, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    async with trial.screens(120, 40) as hands:
        await hands.press(station.key)
        await hands.press("ctrl+q")
        assert all(each.color is None or each.color.is_default for each in styles(hands.app))
        assert all(each.bgcolor is None or each.bgcolor.is_default for each in styles(hands.app))
        await hands.press("escape", "ctrl+p")
        await hands.pilot.pause(0.3)
        pointed_at = [each for each in styles(hands.app) if each.underline and not each.bold]
        assert pointed_at
