"""One thing that needs somebody, and how it is marked."""

from dataclasses import dataclass
from datetime import timedelta

SOON = timedelta(days=7)
"""What is due later than this needs nobody today."""

URGENT, WARNING, READY, NOTE = "!", "-", "+", " "
"""Marks: late; wants a word; can be done; to know."""


@dataclass(frozen=True, slots=True)
class TodayLine:
    """One thing that needs somebody.

    Args:
        kind: In one or two words: filming, moves, box here, held, use by, install, mocked up and more.
        words: What, in one line.
        station: Where it is done: receiving, lift, filming, hardware, parts; labels, wrenches: a list of
            their own.
        subject: Id of the record that is opened: a box, a part, a filming day or a wrench; 0 for none.
        mark: One of the marks.

    """

    kind: str
    words: str
    station: str
    subject: int
    mark: str = NOTE
