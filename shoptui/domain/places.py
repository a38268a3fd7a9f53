"""Where a piece of a part can be: its state, where that is, and how it is."""

from dataclasses import dataclass
from enum import StrEnum


class State(StrEnum):
    """The states of the ledger, in the order of the main line.

    The value is the word on screen, in files and in JSON.
    """

    NOT_OURS = "not ours"
    ORDERED = "ordered"
    RECEIVED = "received"
    HELD = "held"
    SENT_OUT = "sent out"
    MOCKED_UP = "mocked up"
    ASSEMBLED = "assembled"
    INSTALLED = "installed"
    REMOVED = "removed"
    GONE = "gone"

    __hash__ = str.__hash__  # an enumeration's own is written in Python, and every move hashes its places


OURS = tuple(state for state in State if state not in (State.NOT_OURS, State.GONE))
"""States of pieces that we have, or that are to come, in the order of the main line."""

COUNTS_AS_HAD = frozenset(
    {
        State.ORDERED,
        State.RECEIVED,
        State.SENT_OUT,
        State.MOCKED_UP,
        State.ASSEMBLED,
        State.INSTALLED,
    }
)
"""States that fill a need. A removed piece of our own counts too; a removed original does not."""

OFF_THE_BOOKS = frozenset({State.NOT_OURS, State.GONE})
"""Pieces that are not, or no longer, the shop's."""

AS_BOUGHT = "vehicle as bought"
"""`where` of `not ours` for what was on the vehicle when it came."""

UNKNOWN = "unknown"
"""`where` of `not ours` for what came from nobody knows whom."""

DONOR = "donor part"
"""`where` of `not ours` for what came out of a part that was bought for it."""

OTHER_BUILD = "other build"
"""`where` of `gone` and `not ours` for what one build gave to another."""

COUNTED_SHORT = "not found when counted"
"""`where` of `gone` for what was not where it was booked."""

STRIPPED = "stripped for parts"
"""`where` of `gone` for a donor part."""

HANDED_OVER = "handed over"
"""`where` of `gone` for what left with the finished vehicle."""

UNSORTED = ""
"""`where` of a piece that lies on the bench, in no bin yet."""

SEALED = "sealed"
"""`as` of a piece as it came."""

OPENED = ""
"""`as` of a piece that was opened, with no outside work done."""


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """One place of the ledger.

    Args:
        state: One of the ten states.
        where: A record's id (supplier, order, bin, outside job, carrier part) or words (a position, a
            reason); which of the two follows from the state, see docs of `State` in DEVELOPERS.md.
        condition: How the piece is, written `as` in files: `sealed`, nothing (opened), or the last
            outside work done, in the part's own words.

    """

    state: State
    where: int | str = UNSORTED
    condition: str = OPENED
