"""Tells a scanner's keys from a person's: a state machine of keys and times that knows no screen and no shop.

A scanner types. With a prefix key before each code nothing of it can go astray: from the prefix to Enter,
Tab or LF all keys are the scan's. Without one, timing alone is right in four cases of five only, so it never
decides alone: what was typed before Enter is a scan if it came in one burst and passes a check of its own.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import StrEnum

from shoptui.stations.bursts import BURST_SECONDS, Keystroke, bursts, too_fast
from shoptui.stations.scanner_keys import ENDS, GS, character_of, prints

PREFIX = "f9"
SILENCE_SECONDS = 2.0
"""A scan that stands still for so long is given up."""

ECHO_SECONDS = 0.1
"""A second end key within this time belongs to the scan before it: CR LF, CR CR."""

TWICE_SECONDS = 0.4
"""The same code again within this time is one reading seen twice."""

NO_HAND = 5
"""So many keys before an end key, all of them too fast for a hand, were a scanner's."""

MOST_REMEMBERED = 1024
"""Typed keys kept in mind; twice the longest code."""


class How(StrEnum):
    """How a scan was told from typing."""

    PREFIX = "prefix"
    BURST = "burst"
    PASTE = "paste"


@dataclass(frozen=True, slots=True)
class Scan:
    """A whole scan.

    Args:
        text: What was scanned, untrimmed.
        how: How it was told from typing.
        twice: Whether it is the same as the scan before, within a time that no hand can do.
        take_back: Characters of it that were passed on and stand before the cursor of the field or line.

    """

    text: str
    how: How
    twice: bool = False
    take_back: int = 0


@dataclass(frozen=True, slots=True)
class Incomplete:
    """A scan that began and did not end; `text` is what came of it."""

    text: str

    @property
    def words(self) -> str:
        """What to say."""
        return "The scan is incomplete; nothing changed. Scan it again."


@dataclass(frozen=True, slots=True)
class Decision:
    """What becomes of a key: taken (do not forward it) or passed on, and what it completed.

    `unchecked` says that it ended what no hand typed and no check proves to be a code.
    """

    taken: bool
    events: tuple[Scan | Incomplete, ...] = ()
    unchecked: bool = False


_END = re.compile(r"[\r\n\t]")
_TAKEN = Decision(taken=True)
_PASS = Decision(taken=False)


class Decoder:
    r"""Decides key by key; times are seconds of one steady clock, such as Textual's `event.time`.

    Args:
        checks: Says whether a text is a code that passes a check of its own.
        prefix: Name of the key that the scanner sends first.
        twice_seconds: The same code again within this time is one reading seen twice.
        burst_seconds: Longest gap between two keys of a burst.

    >>> decoder = Decoder(checks=lambda text: False)
    >>> keys = [("f9", None), ("A", "A"), ("minus", "-"), ("enter", "\r")]
    >>> [decoder.key(key, character, 0.0) for key, character in keys][-1].events
    (Scan(text='A-', how=<How.PREFIX: 'prefix'>, twice=False, take_back=0),)

    """

    def __init__(
        self,
        checks: Callable[[str], bool],
        *,
        prefix: str = PREFIX,
        twice_seconds: float = TWICE_SECONDS,
        burst_seconds: float = BURST_SECONDS,
    ) -> None:
        self.prefix = prefix
        self.twice_seconds = twice_seconds
        self._checks = checks
        self._burst_seconds = burst_seconds
        self._capture: list[str] | None = None
        self._given_up: list[str] | None = None
        self._last_key = 0.0
        self._typed: list[Keystroke] = []
        self._echo_until = float("-inf")
        self._last_scan = ("", float("-inf"))

    @property
    def capturing(self) -> bool:
        """Whether a scan is coming in."""
        return self._capture is not None

    @property
    def passing(self) -> bool:
        """Whether letters were passed on that may be the beginning of a scan without a prefix."""
        return bool(self._typed)

    def key(self, key: str, character: str | None, time: float) -> Decision:
        """Decide about a key; name and character as in Textual's key event."""
        events = self._resume_or_give_up(time)
        self._last_key = time
        if key == self.prefix:
            return Decision(taken=True, events=events + self._start())
        if self._capture is not None:
            return Decision(taken=True, events=events + self._captured(key, character, time))
        if key in ENDS:
            decision = self._end_outside(time)
        else:
            decision = _PASS
            self._remember(key, character, time)
        return replace(decision, events=events + decision.events) if events else decision

    def paste(self, text: str, time: float) -> Decision:
        """Decide about pasted text: part of a scan that is coming in, a checked code on one line, or text."""
        events = self._resume_or_give_up(time)
        self._last_key = time
        self._typed.clear()
        if self._capture is not None:
            line = _END.split(text, maxsplit=1)[0]
            self._capture.extend(character for character in line if character == GS or prints(character))
            ended = line != text
            return Decision(taken=True, events=events + (self._close(time) if ended else ()))
        line = text.removesuffix("\n").removesuffix("\r")
        if "\n" in line or "\r" in line or not self._checks(line):
            return Decision(taken=False, events=events)
        return Decision(taken=True, events=(*events, self._scan(line, How.PASTE, time)))

    def tick(self, time: float) -> tuple[Incomplete, ...]:
        """Give up a scan that stands still; call it a few times a second."""
        if self._capture is None or time - self._last_key < SILENCE_SECONDS:
            return ()
        self._given_up, self._capture = self._capture, None
        return (Incomplete("".join(self._given_up)),)

    def is_twice(self, text: str, time: float) -> bool:
        """Say whether a code repeats the last one too soon for a hand, and remember it as the last one.

        For codes that the line took as typed; scans of the decoder's own say so themselves.
        """
        last, when = self._last_scan
        self._last_scan = (text, time)
        return text == last and time - when <= self.twice_seconds

    def forget_typing(self) -> None:
        """Forget what was passed on: another field has the focus, or the text there was changed."""
        self._typed.clear()

    def _start(self) -> tuple[Incomplete, ...]:
        cut_off, self._capture = self._capture, []
        self._given_up = None
        self._typed.clear()
        return (Incomplete("".join(cut_off)),) if cut_off is not None else ()

    def _resume_or_give_up(self, time: float) -> tuple[Incomplete, ...]:
        """Settle by the keys' own times what a late or an early tick got wrong.

        A busy program may look at its clock before it looks at the keys that have long been there.
        """
        if time - self._last_key >= SILENCE_SECONDS:
            events = self.tick(time)
            self._given_up = None
            return events
        if self._given_up is not None:
            self._capture, self._given_up = self._given_up, None
        return ()

    def _captured(self, key: str, character: str | None, time: float) -> tuple[Scan | Incomplete, ...]:
        if key in ENDS:
            return self._close(time)
        if (typed := character_of(key, character)) is not None and self._capture is not None:
            self._capture.append(typed)
        return ()

    def _close(self, time: float) -> tuple[Scan | Incomplete, ...]:
        text = "".join(self._capture or ())
        self._capture = None
        self._echo_until = time + ECHO_SECONDS
        return (self._scan(text, How.PREFIX, time),) if text else (Incomplete(""),)

    def _scan(self, text: str, how: How, time: float, take_back: int = 0) -> Scan:
        return Scan(text, how, self.is_twice(text, time) and how is not How.PASTE, take_back)

    def _remember(self, key: str, character: str | None, time: float) -> None:
        typed = character_of(key, character)
        if typed is None:
            self._typed.clear()
            return
        self._typed.append(Keystroke(typed, time, shows=typed != GS))
        del self._typed[:-MOST_REMEMBERED]

    def _end_outside(self, time: float) -> Decision:
        """Decide about an end key outside a capture: echo, end of a burst, or a person's."""
        typed, self._typed = self._typed, []
        if not typed:
            return _TAKEN if time <= self._echo_until else _PASS
        fast = too_fast(typed, time, self._burst_seconds)
        if fast >= min(len(typed), NO_HAND):
            # A hand that typed and presses Tab, Tab, Tab means each of them.
            self._echo_until = time + ECHO_SECONDS
        for keys in bursts(typed, time, self._burst_seconds):
            text = "".join(key.character for key in keys)
            if self._checks(text):
                self._echo_until = time + ECHO_SECONDS
                back = sum(key.shows for key in keys)
                return Decision(taken=True, events=(self._scan(text, How.BURST, time, back),))
        return Decision(taken=False, unchecked=fast >= NO_HAND)
