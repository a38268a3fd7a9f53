import pytest

from shoptui.stations.actions import actions, clash
from shoptui.stations.app import ShopApp
from shoptui.stations.key_names import SWALLOWED, key_named, key_words, why_not
from shoptui.stations.keyboard import Keyboard
from shoptui.stations.shell import Shell

ALL = actions(Shell)


@pytest.fixture
def file(tmp_path):
    return tmp_path / "person" / "keys.toml"


def written(file, text):
    file.parent.mkdir(exist_ok=True)
    file.write_text(text, encoding="utf-8")
    return Keyboard(ALL, file)


def test_the_usual_keys_clash_nowhere_and_could_all_be_chosen():
    for action in ALL:
        for key in action.usual:
            assert clash(action, key, ALL, {}) is None
            assert why_not(key, "f9") == ""
            assert key_named(key_words(key)) == key


def test_every_station_and_every_key_of_the_app_is_an_action():
    names = {action.name for action in ALL}
    assert {f"station.{name}" for name in ShopApp.MODES} < names
    assert {"help", "undo", "more", "leave", "receiving.close", "form.save"} < names


@pytest.mark.parametrize(
    "key", [*SWALLOWED, "f9", "a", "7", "space", "enter", "escape", "tab", "up", "f13", "alt+x", "ctrl+at"]
)
def test_keys_that_cannot_be_chosen_are_refused_in_words(key):
    keyboard = Keyboard(ALL)
    with pytest.raises(ValueError, match="cannot be chosen"):
        keyboard.change("lift.install", key)
    assert keyboard.is_usual("lift.install")


def test_a_key_that_does_something_there_already_is_named():
    keyboard = Keyboard(ALL)
    assert "“Remove” (Lift) already" in keyboard.refusal("lift.install", "ctrl+x")
    assert "“Receiving” (everywhere) already" in keyboard.refusal("lift.install", "f3")
    assert "(Receiving) already" in keyboard.refusal("undo", "ctrl+a")
    assert "(everywhere) already" in keyboard.refusal("form.save", "f3")
    assert keyboard.refusal("form.save", "ctrl+r") == ""  # the earlier answers wait until the form is done
    assert keyboard.refusal("lift.install", "ctrl+d") == ""  # Receiving's, and the lift is another screen
    assert "edits the words" in keyboard.refusal("form.save", "ctrl+a")


def test_what_was_chosen_is_kept_and_the_usual_keys_come_back(file):
    keyboard = Keyboard(ALL, file)
    keyboard.change("lift.install", "f11")
    again = Keyboard(ALL, file)
    assert (again.trouble, again.words("lift.install"), again.keymap) == ("", "F11", {"lift.install": "f11"})
    again.change("lift.install", "ctrl+g")
    assert Keyboard(ALL, file).changed == 0
    again.change("undo", "f11")
    again.restore()
    assert Keyboard(ALL, file).is_usual("undo")
    assert [path.name for path in file.parent.iterdir()] == ["keys.toml"]


def test_a_file_may_be_written_by_hand(file):
    keyboard = written(file, 'undo = ["Ctrl+Z", "f11"]\nlift.install = "^d"\n"lift.remove" = "ctrl g"\n')
    assert keyboard.trouble == ""
    assert keyboard.words("undo") == "Ctrl+Z, F11"
    assert keyboard.words("lift.install") == "Ctrl+D"
    assert keyboard.words("lift.remove") == "Ctrl+G"  # the other one gave it away in the same file


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('undo = "F11"\nfly = "F8"\n', "line 2: nothing is called fly"),
        ('undo = "q"\n', "line 1: q cannot be chosen: letters, digits and signs go to the line"),
        ('\nundo = "F9"\n', "line 2: F9 cannot be chosen: it is the one that the scanner sends"),
        ("undo = 7\n", 'line 1: a key such as "Ctrl+G" was expected'),
        ("undo = []\n", 'line 1: a key such as "Ctrl+G" was expected'),
        ('[lift]\ninstall = "Ctrl+X"\n', "line 2: Ctrl+X is “Remove” (Lift) already"),
        ('undo = "F11\n', "at line 1"),
        ('undo = "\\u001b[31m"\n', "line 1: ␛[31m cannot be chosen"),
    ],
)
def test_a_wrong_file_is_one_sentence_and_the_usual_keys_are_taken(file, text, said):
    keyboard = written(file, text)
    assert said in keyboard.trouble
    assert keyboard.trouble.startswith("The keys are the usual ones, since keys.toml is wrong")
    assert "\n" not in keyboard.trouble
    assert keyboard.changed == 0


def test_a_file_that_is_none_is_said(file, tmp_path):
    file.parent.mkdir()
    file.write_bytes(b"\xff\xfe")
    assert "UTF-8 was expected" in Keyboard(ALL, file).trouble
    assert "cannot be read" in Keyboard(ALL, tmp_path).trouble
    assert Keyboard(ALL, tmp_path / "none.toml").trouble == ""


def test_a_file_that_cannot_be_written_changes_nothing(tmp_path):
    (tmp_path / "file").write_text("")
    keyboard = Keyboard(ALL, tmp_path / "none.toml")
    keyboard.file = tmp_path / "file" / "keys.toml"
    with pytest.raises(OSError, match=r"exists|directory"):
        keyboard.change("undo", "f11")
    assert keyboard.is_usual("undo")


def test_sentences_follow_the_keys():
    keyboard = Keyboard(ALL)
    keyboard.change("station.receiving", "f11")
    keyboard.change("parts.add", "ctrl+v")
    assert keyboard.follow("Go to Receiving (F3).") == "Go to Receiving (F11)."
    assert keyboard.follow("Add a part (Ctrl+N).", "parts") == "Add a part (Ctrl+V)."
    assert keyboard.follow("The day after (Ctrl+N).", "filming") == "The day after (Ctrl+N)."
