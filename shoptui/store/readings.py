"""Reading the append-only table of readings: by part, by wrench, and what was struck out of it."""

from collections.abc import Callable, Iterator

from shoptui.domain.records import Reading, What, Wrench
from shoptui.store.database import Database
from shoptui.store.documents import Document, from_document

TABLE = "readings"


class Readings:
    """The readings of one shop: fed, since every card of a part asks."""

    def __init__(self, database: Database) -> None:
        self._documents = database.documents(TABLE)
        self._kept: dict[int, Reading] = {}
        self._of_part: dict[int, list[int]] = {}
        self._struck_by: dict[int, list[int]] = {}
        self._of_wrench: dict[int, list[int]] = {}
        self._uses: dict[int, tuple[Wrench, int]] = {}
        self._last = 0
        database.listen(TABLE, self._changed)

    def _changed(self, number: int, before: Document | None, after: Document | None) -> None:
        if before is not None:
            self._index(before).remove(number)
            if (wrench := before.get("wrench")) is not None:
                self._of_wrench[wrench].remove(number)
        if after is not None:
            self._index(after).append(number)
            if (wrench := after.get("wrench")) is not None:
                self._of_wrench.setdefault(wrench, []).append(number)
        self._kept.pop(number, None)
        for document in (before, after):
            self._forget_uses(document)
        self._last = max(self._last, number)

    def _index(self, document: Document) -> list[int]:
        if (strikes := document.get("strikes")) is not None:
            return self._struck_by.setdefault(strikes, [])
        return self._of_part.setdefault(document["part"], [])

    def get(self, number: int) -> Reading:
        """Return one reading.

        Raises:
            KeyError: There is none with that id.

        """
        reading = self._kept.get(number)
        if reading is None:
            reading = self._kept[number] = from_document(Reading, number, self._documents[number])
        return reading

    def of_part(self, part: int, *, strikes: bool = False) -> tuple[Reading, ...]:
        """Return the readings of a part, oldest first, struck out or not; or with their strikes."""
        numbers = self._of_part.get(part, [])
        if strikes:
            struck = [strike for number in numbers for strike in self._struck_by.get(number, ())]
            numbers = sorted([*numbers, *struck])
        return tuple(self.get(number) for number in numbers)

    def latest_with(self, wrench: int) -> Iterator[Reading]:
        """Yield the readings that were made with a tool, newest first; those that were struck out too."""
        return map(self.get, reversed(self._of_wrench.get(wrench, ())))

    def uses(self, wrench: Wrench, count: Callable[[], int]) -> int:
        """Return how often a tool was used, counted if that is not known any more: every card asks."""
        known = self._uses.get(wrench.id)
        if known is None or known[0] is not wrench:
            known = self._uses[wrench.id] = wrench, count()
        return known[1]

    def _forget_uses(self, document: Document | None) -> None:
        if document is None or not self._uses:
            return
        if document.get("strikes") is not None:
            self._uses.clear()
        elif (wrench := document.get("wrench")) is not None:
            self._uses.pop(wrench, None)

    def struck_by(self, number: int) -> Reading | None:
        """Return what strikes a reading out, None if it counts; a strike can be struck out as well."""
        strikes = (self.get(each) for each in self._struck_by.get(number, ()))
        return next((each for each in strikes if self.struck_by(each.id) is None), None)

    def of_transaction(self, transaction: int) -> Iterator[Reading]:
        """Yield what one transaction stated, strikes too, newest first."""
        for number in range(self._last, 0, -1):
            document = self._documents.get(number)
            if document is None:
                continue
            if document["transaction"] < transaction:
                return
            if document["transaction"] == transaction:
                yield self.get(number)


def strike(reading: Reading, reason: str, who: int | None) -> Reading:
    """Return what strikes a reading out."""
    return Reading(
        0,
        What.STRUCK,
        reading.part,
        reading.joint,
        reading.position,
        who=who,
        note=reason,
        strikes=reading.id,
    )
