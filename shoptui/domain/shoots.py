"""Filming days: their shots, and how each shot needs a part."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from shoptui.domain.inert import inert


class Condition(StrEnum):
    """How a shot can need a part."""

    SEALED = "sealed"
    BEFORE_WORK = "before outside work"
    BACK_FROM_WORK = "back from outside work"
    ON_HAND = "on hand"
    MOCKED_UP = "mocked up"
    INSTALLED = "installed"
    TORQUE_DONE = "installed with torque done"
    REMOVED = "removed"
    STILL_IN_PLACE = "still in place"


@dataclass(frozen=True, slots=True)
class Need:
    """What a shot needs: one part, or a whole section of a build, in one condition.

    `qty` is in pieces; 0 means all that the part's line wants.
    """

    condition: Condition
    part: int | None = None
    build: int | None = None
    section: str = ""
    qty: int = 0


@dataclass(frozen=True, slots=True)
class Shot:
    """One shot of a filming day; `moves` says whether the vehicle moves in it."""

    title: str
    needs: tuple[Need, ...] = ()
    moves: bool = False
    filmed: bool = False


@dataclass(frozen=True, slots=True)
class Shoot:
    """One filming day."""

    id: int
    code: str
    title: str
    date: date
    call_time: str = ""
    shots: tuple[Shot, ...] = ()
    withdrawn: bool = False


def shot_words(number: int, shot: Shot, limit: int = 60) -> str:
    """Return a shot as one says it, its title at most so many cells wide.

    >>> shot_words(3, Shot("the boxes")), shot_words(1, Shot(""))
    ('shot 3 (the boxes)', 'shot 1')
    """
    return f"shot {number} ({inert(shot.title, limit)})" if shot.title else f"shot {number}"
