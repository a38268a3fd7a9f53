import pytest

from shoptui.stations.keyboard_layouts import TURNED, turned
from shoptui.stations.scanner_trial import TRIAL_CODE, Trial


def trial(text, before=("f9",), after=("enter",), expected=TRIAL_CODE, gap=0.002):
    found = Trial(expected)
    keys = [(key, None) for key in before]
    keys += [("ctrl+right_square_bracket", None) if letter == "\x1d" else (letter, letter) for letter in text]
    keys += [(key, None) for key in after]
    for place, (key, character) in enumerate(keys):
        found.key(key, character, place * gap)
    return found


def wrong(found):
    return " ".join(finding.words for finding in found.findings() if not finding.right)


@pytest.mark.parametrize(
    "after", [("enter",), ("tab",), ("ctrl+j",), ("enter", "ctrl+j"), ("enter", "enter")]
)
def test_what_is_right(after):
    found = trial(TRIAL_CODE, after=after)
    assert found.right
    assert found.ended
    assert found.text == TRIAL_CODE


@pytest.mark.parametrize(
    ("settings", "words"),
    [
        ({"before": ()}, "Expected F9 first, got the code. Set F9 as the scanner's prefix."),
        ({"before": ("ctrl+b",)}, "Expected F9 first, got Ctrl+b."),
        ({"before": ("f8", "f9")}, "F9 comes, but not first."),
        ({"after": ()}, "Nothing ends the code. Set Enter as suffix."),
        ({"before": (), "gap": 0.05}, "At most 50 ms lie between two keys: too slow to be told from typing"),
    ],
)
def test_what_is_around_the_code(settings, words):
    found = trial(TRIAL_CODE, **settings)
    assert words in wrong(found)
    assert not found.right


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (TRIAL_CODE.swapcase(), "Caps Lock is on"),
        (TRIAL_CODE.upper(), "All letters came in one case"),
        ("ZyßAq2)W=+m", "QWERTZ, but the scanner is set for QWERTY"),
        ("Yw)Qaé9Z0$,", "AZERTY, but the scanner is set for QWERTY"),
        (TRIAL_CODE[1:], "cut at an end"),
        ("Yz-Aq2", "other from character 7 on"),
        ("", "No character of the code came."),
    ],
)
def test_what_came_of_the_code(text, words):
    assert words in wrong(trial(text))


def test_a_missing_separator():
    code = "]C110A\x1d21B"
    assert trial(code, expected=code).right
    assert "ASCII 29" in wrong(trial(code.replace("\x1d", ""), expected=code))


def test_an_unknown_code_is_shown_to_compare_and_inert():
    found = trial("AB\u202e", expected="")
    assert found.right
    assert "AB\ufffd;" in found.findings()[1].words


def test_each_key_in_words():
    found = trial("A\x1d", before=("f9", "escape"), after=("enter", "ctrl+j"))
    found.key("space", " ", 1.0)
    assert [sent.words for sent in found.keys] == [
        "F9",
        "escape",
        "A",
        "GS, the separator",
        "Enter (CR)",
        "LF",
        "blank",
    ]


def test_nothing_came():
    assert not Trial().right
    assert "Nothing came" in Trial().findings()[0].words


def test_every_turned_keyboard_is_recognised_by_the_trial_code():
    assert {turned(TRIAL_CODE, TRIAL_CODE.translate(table)) for table in TURNED.values()} == set(TURNED)
    assert turned(TRIAL_CODE, TRIAL_CODE) == ""
