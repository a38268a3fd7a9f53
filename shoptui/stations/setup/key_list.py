"""The keys, each with what it does, and a new one for it."""

from collections.abc import Iterator

from textual import events

from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer, done, stop
from shoptui.stations.actions import Action
from shoptui.stations.card import Fact
from shoptui.stations.key_names import FIXED, key_words
from shoptui.stations.keyboard import Keyboard
from shoptui.stations.listed import Column, Row
from shoptui.stations.marks import Tone

KEY_COLUMNS = (
    Column("where", 12),
    Column("what"),
    Column("key", 10, toned=True),
    Column("usual key", 10),
    Column("in the file", 20, since=100),
)

NEW_KEY = "new key"
"""Kind of the question that waits for one."""

NO_LETTERS = "Letters, digits and signs go to the line, and the scanner's key to a scan."

ALL_USUAL = "all usual"
"""Key of the row that restores the usual keys."""


def key_rows(keyboard: Keyboard) -> Iterator[Row]:
    """Yield one line for each action, and the one that restores all of them."""
    for action in keyboard.actions.values():
        usual = keyboard.is_usual(action.name)
        words = keyboard.words(action.name)
        yield Row(
            action.name,
            (
                action.place_words,
                action.words,
                words if usual else f"* {words}",
                ", ".join(map(key_words, action.usual)),
                action.name,
            ),
            Tone.PLAIN if usual else Tone.GOOD,
            find=action.tooltip,
        )
    yield Row(ALL_USUAL, ("", "Every key as usual", "", "", ""))


def key_facts(keyboard: Keyboard, action: Action | None) -> tuple[Fact, ...]:
    """Return what stands on the card beside the list."""
    facts = [
        Fact("", "Enter on a line, then the new key. A * marks what is not usual."),
        Fact("", f"{FIXED}."),
    ]
    if action is not None:
        facts = [
            Fact("where", action.place_words),
            Fact("does", action.tooltip),
            Fact("key", keyboard.words(action.name)),
            Fact("usual key", ", ".join(map(key_words, action.usual))),
            Fact(),
            *facts,
        ]
    if keyboard.file is not None:
        facts.append(Fact("file", str(keyboard.file)))
    if keyboard.trouble:
        facts.append(Fact("", f"! {keyboard.trouble}", Tone.BAD))
    return tuple(facts)


class NewKey:
    """Waits for the new key of one action.

    Args:
        keyboard: The keys.
        action: What gets the key.

    """

    def __init__(self, keyboard: Keyboard, action: Action) -> None:
        self._keyboard = keyboard
        self._action = action

    @property
    def asked(self) -> str:
        """What is asked meanwhile; a tap on its no is a way out without a key."""
        called = f"“{self._action.words}” ({self._action.place_words})"
        return f"Press the new key for {called}, now {self._keyboard.words(self._action.name)}."

    def goes_on(self, event: events.Key) -> bool:
        """Return whether a key goes on to where it belongs: those of a scan do, which may begin any time."""
        return event.key == self._keyboard.prefix or event.is_printable

    def take(self, key: str) -> Answer:
        """Give the key to the action, or say why not."""
        action = self._action
        try:
            self._keyboard.change(action.name, key)
        except ValueError as error:
            return stop(f"{error} Nothing changed; Enter on the line asks again.")
        except OSError as error:
            return _not_written(error)
        return done(f"“{action.words}” ({action.place_words}) is {key_words(key)} now.")


def restore(keyboard: Keyboard) -> Answer:
    """Give every action its usual keys."""
    try:
        keyboard.restore()
    except OSError as error:
        return _not_written(error)
    return done("Every key is the usual one again.")


def _not_written(error: OSError) -> Answer:
    reason = (error.strerror or "unknown reason").lower()
    name = inert(str(error.filename or ""), 200)
    return stop(f"The keys stay as they were: the file {name} cannot be written, {reason}.")
