"""A trial of the scanner's set-up: each key of one scan in words, and whether the set-up is right."""

import itertools
from collections.abc import Iterator
from dataclasses import dataclass

from shoptui.domain.inert import inert
from shoptui.stations.bursts import BURST_SECONDS
from shoptui.stations.keyboard_layouts import turned
from shoptui.stations.scanner import PREFIX
from shoptui.stations.scanner_keys import ENDS, GS, GS_KEYS, character_of

TRIAL_CODE = "Yz-Aq2(W)]m"
"""A code that shows what can go wrong: both cases, letters that keyboards swap, a digit, shifted signs."""

WHERE_TO_SET = "The scanner's own manual has the codes for it."

_END_WORDS = {"enter": "Enter (CR)", "tab": "Tab", "ctrl+j": "LF"}
_FUNCTION_KEY_NAME = 3


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing about the set-up: whether it is right, and in words what is or what to set."""

    right: bool
    words: str


@dataclass(frozen=True, slots=True)
class SentKey:
    """One key that the scanner sent: name and character as the screen got them, time in seconds."""

    key: str
    character: str | None
    time: float

    @property
    def words(self) -> str:
        """The key in words."""
        if self.key in _END_WORDS:
            return _END_WORDS[self.key]
        if self.key in GS_KEYS:
            return "GS, the separator"
        if self.key == "space":
            return "blank"
        character = character_of(self.key, self.character)
        if character is not None:
            return inert(character)
        named = inert(self.key.replace("ctrl+", "Ctrl+"))
        return named.upper() if len(named) <= _FUNCTION_KEY_NAME else named


class Trial:
    r"""Collects the keys of one scan and judges them.

    Args:
        expected: The code that was scanned, as printed; empty if it is not known.
        prefix: Name of the key that should come first.

    >>> trial = Trial("AB")
    >>> for time, key in enumerate(["f9", "A", "B", "enter"]):
    ...     trial.key(key, key if len(key) == 1 else None, time / 1000)
    >>> trial.text, trial.right
    ('AB', True)

    """

    def __init__(self, expected: str = TRIAL_CODE, prefix: str = PREFIX) -> None:
        self.expected = expected
        self.prefix = prefix
        self.keys: tuple[SentKey, ...] = ()

    def key(self, key: str, character: str | None, time: float) -> None:
        """Take one key; the page gives all of them, whatever they would do elsewhere."""
        self.keys = (*self.keys, SentKey(key, character, time))

    @property
    def ended(self) -> bool:
        """Whether an end key came; a second one may follow within a tenth of a second."""
        return any(sent.key in ENDS for sent in self.keys)

    @property
    def text(self) -> str:
        """What was scanned, without prefix and end."""
        characters = (character_of(sent.key, sent.character) for sent in self.keys)
        return "".join(character for character in characters if character is not None)

    @property
    def right(self) -> bool:
        """Whether nothing needs to be set."""
        return bool(self.keys) and all(finding.right for finding in self.findings())

    def findings(self) -> tuple[Finding, ...]:
        """Return what is right and what to set: before the code, the code, after it, speed."""
        if not self.keys:
            return (Finding(right=False, words="Nothing came. Is the scanner plugged in and set to type?"),)
        return (self._before(), *self._code(), self._after(), self._speed())

    def _before(self) -> Finding:
        name = SentKey(self.prefix, None, 0.0).words
        if self.keys[0].key == self.prefix:
            return Finding(right=True, words=f"{name} comes first: right.")
        if any(sent.key == self.prefix for sent in self.keys):
            return Finding(
                right=False, words=f"{name} comes, but not first. Set it as prefix. {WHERE_TO_SET}"
            )
        first = self.keys[0]
        came = "the code" if character_of(first.key, first.character) is not None else first.words
        words = f"Expected {name} first, got {came}. Set {name} as the scanner's prefix. {WHERE_TO_SET}"
        return Finding(right=False, words=words)

    def _code(self) -> tuple[Finding, ...]:
        got, expected = self.text, self.expected
        shown = inert(got)
        if not got:
            return (Finding(right=False, words="No character of the code came."),)
        if not expected:
            return (Finding(right=True, words=f"The code came as {shown}; compare it with the print."),)
        if got == expected:
            return (Finding(right=True, words="The code came exactly as it is."),)
        return (Finding(right=False, words=_what_differs(expected, got)),)

    def _after(self) -> Finding:
        ends = [sent.key for sent in self.keys if sent.key in ENDS]
        if not ends:
            return Finding(right=False, words=f"Nothing ends the code. Set Enter as suffix. {WHERE_TO_SET}")
        if len(ends) == 1:
            return Finding(right=True, words=f"{_END_WORDS[ends[0]]} comes last: right.")
        both = " and ".join(_END_WORDS[end] for end in ends)
        return Finding(right=True, words=f"{both} come last: this works, the second is passed over.")

    def _speed(self) -> Finding:
        times = [sent.time for sent in self.keys]
        slowest = max((later - earlier for earlier, later in itertools.pairwise(times)), default=0.0)
        words = f"At most {slowest * 1000:.0f} ms lie between two keys"
        if slowest <= BURST_SECONDS:
            return Finding(right=True, words=f"{words}: fast enough.")
        if self.keys[0].key == self.prefix:
            return Finding(right=True, words=f"{words}: slow, which the prefix makes up for.")
        return Finding(right=False, words=f"{words}: too slow to be told from typing; the prefix mends that.")


def _what_differs(expected: str, got: str) -> str:
    """Say what is wrong with a code that came otherwise than printed."""
    cause = next(_causes(expected, got), "")
    if cause:
        return cause
    place = next(
        (place for place, pair in enumerate(zip(expected, got, strict=False), 1) if pair[0] != pair[1]),
        min(len(expected), len(got)) + 1,
    )
    return f"Expected the code {inert(expected)}, got {inert(got)}: other from character {place} on."


def _causes(expected: str, got: str) -> Iterator[str]:
    """Yield the settings that explain what came, the likeliest first."""
    if got == expected.swapcase():
        yield "Upper and lower case are swapped. Caps Lock is on: switch it off."
    if got in {expected.upper(), expected.lower()}:
        yield f"All letters came in one case. Set the scanner to leave the case alone. {WHERE_TO_SET}"
    if layouts := turned(expected, got):
        yield f"The computer's keyboard is {layouts}. Set the same for both. {WHERE_TO_SET}"
    if layouts := turned(expected.swapcase(), got):
        yield f"Caps Lock is on, and the computer's keyboard is {layouts}. {WHERE_TO_SET}"
    if GS in expected and got == expected.replace(GS, ""):
        yield f"The separator GS is missing. Set the scanner to send it as ASCII 29. {WHERE_TO_SET}"
    if got == expected + expected:
        yield f"The code came twice. {WHERE_TO_SET}"
    if got in {expected[1:], expected[:-1]}:
        yield f"The code came as {inert(got)}, cut at an end: look for such a setting. {WHERE_TO_SET}"
