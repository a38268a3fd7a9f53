"""How the joints of each part stand, kept until something changes from which it follows."""

from collections.abc import Callable
from datetime import date
from typing import Any, TypeVar

from shoptui.domain.ledger import Balances
from shoptui.domain.records import Part
from shoptui.store.database import Database
from shoptui.store.documents import Document

T = TypeVar("T")

_OF_ALL = ("builds", "wrenches")
"""Tables of which one change can concern any part: odometers, what tools deviate. They change seldom."""


class Standings:
    """What was derived of the joints of each part.

    It follows from the part itself, its readings, its moves and those of what its joints clamp, and from what
    concerns all of them: odometers, torque tools, the day. Whatever else a derivation comes to look
    at must be listened to here as well: `tests/property/test_standings.py` compares.

    Args:
        database: Followed from now on.
        book: Asked whether it stands as it is, or as somebody supposes.

    """

    def __init__(self, database: Database, book: Balances) -> None:
        self._book = book
        self._kept: dict[int, tuple[Part, Any]] = {}
        self._clamped_by: dict[int, set[int]] = {}
        self._day: date | None = None
        # What was there before is derived when it is asked for: only what comes from now on is listened to.
        database.listen("parts", self._part_changed, past=False)
        for table in ("moves", "readings"):
            database.listen(table, self._row_changed, past=False)
        for table in _OF_ALL:
            database.listen(table, self._all_changed, past=False)

    def of(self, part: Part, day: date, derive: Callable[[], T]) -> T:
        """Return how the joints of a part stand on a day, derived if that is not known any more.

        What follows from moves that are only supposed, or from a record that is not as it was, is not kept.
        """
        if self._book.supposed:
            return derive()
        if day != self._day:
            self._kept.clear()
            self._day = day
        known = self._kept.get(part.id)
        if known is not None and known[0] is part:
            found: T = known[1]
            return found
        found = derive()
        for joint in part.joints:
            for other in joint.clamps:
                self._clamped_by.setdefault(other, set()).add(part.id)
        self._kept[part.id] = part, found
        return found

    def _part_changed(self, number: int, _before: Document | None, _after: Document | None) -> None:
        self._kept.pop(number, None)

    def _row_changed(self, _number: int, before: Document | None, after: Document | None) -> None:
        for document in (before, after):
            if document is not None:
                self._kept.pop(document["part"], None)
                for number in self._clamped_by.get(document["part"], ()):
                    self._kept.pop(number, None)

    def _all_changed(self, _number: int, _before: Document | None, _after: Document | None) -> None:
        self._kept.clear()
