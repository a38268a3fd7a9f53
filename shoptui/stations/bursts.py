"""Which keys before Enter came too fast for a hand: what may be a scan without a prefix."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

BURST_SECONDS = 0.035
"""Longest gap between two keys of one burst; slow scanners take 20 ms a key, fast typists 80 ms."""

MOST_STRAY_KEYS = 2
"""Keys of a person that can slip in front of a burst."""

STRAY_GAP = 2.0
"""So many times longer than all gaps behind it is the gap after a person's key."""

CUT_SECONDS = 1.0
"""Digits so shortly before a burst of digits may be its own beginning, held up by a busy machine."""


@dataclass(frozen=True, slots=True)
class Keystroke:
    """One key that was passed on: its character, when it came (seconds), and whether a field shows it."""

    character: str
    time: float
    shows: bool


def bursts(
    typed: Sequence[Keystroke], end: float, burst_seconds: float = BURST_SECONDS
) -> tuple[Sequence[Keystroke], ...]:
    """Return what may be the scan before an end key at time `end`, the likeliest first.

    That is the burst itself, then the burst without one or two keys in front that a person pressed at the
    very moment when the scanner began.
    """
    gaps = _gaps(typed, end)
    start = len(typed) - too_fast(typed, end, burst_seconds)
    # A blank in front is a person's: leaving it where it is loses nothing, taking it changes their words.
    while start < len(typed) and typed[start].character == " ":
        start += 1
    found = []
    for first in range(start, min(start + MOST_STRAY_KEYS, len(typed) - 1) + 1):
        if first > start and gaps[first - 1] <= STRAY_GAP * max(gaps[first:]):
            continue
        if not _continues(typed, first):
            found.append(typed[first:])
    return tuple(found)


def too_fast(typed: Sequence[Keystroke], end: float, burst_seconds: float = BURST_SECONDS) -> int:
    """Return how many keys before an end key at time `end` came too fast for a hand, the end key included."""
    count = 0
    for gap in reversed(_gaps(typed, end)):
        if gap > burst_seconds:
            break
        count += 1
    return count


def _gaps(typed: Sequence[Keystroke], end: float) -> list[float]:
    times = [key.time for key in typed] + [end]
    return [later - earlier for earlier, later in pairwise(times)]


def _continues(typed: Sequence[Keystroke], first: int) -> bool:
    """Say whether digits from `first` on may be the end of a longer number: one in ten passes a check."""
    if not first or not all(key.character.isdigit() for key in typed[first:]):
        return False
    before = typed[first - 1]
    return before.character.isdigit() and typed[first].time - before.time <= CUT_SECONDS
