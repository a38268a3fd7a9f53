"""What a code stands for: an index from codes to records, fed as records come, change and go.

Learned codes are compared exactly (`codes.normal`), since a person or a list said that this very code means
something. All other numbers are found without their blanks and dashes too, as they are printed in groups
and typed without; where one is written just as it was scanned, it comes before those that only resemble it.
"""

from dataclasses import dataclass
from enum import StrEnum

from shoptui.domain import codes
from shoptui.domain.recognise import Reading
from shoptui.domain.tags import without_blanks_and_dashes


class By(StrEnum):
    """By which of a record's codes it was found, the most certain first."""

    TAG = "tag"
    """Our tag, or the shop's own short name."""

    LEARNED = "learned code"
    TRACKING = "tracking number"
    NUMBER = "order number"
    MAKERS_NUMBER = "maker's number"


@dataclass(frozen=True, slots=True)
class Match:
    """One thing that a code can stand for.

    Args:
        kind: What the record is: part, bin, box, order...
        record: Its id.
        qty: Pieces that one scan of the code means.
        by: Which of its codes it was.

    """

    kind: str
    record: int
    qty: int
    by: By

    def pieces(self, reading: Reading) -> int:
        """Return the pieces that one scan means: as the code was learned, else as the label itself says."""
        return self.qty if self.qty > 1 else reading.count or 1


_Entry = tuple[str, int, int, str]
"""Kind, record, pieces and the code as `codes.normal` gives it; a tuple, as a shop has tens of thousands."""


class CodeIndex:
    """Codes to records.

    >>> from shoptui.domain.recognise import read
    >>> index = CodeIndex()
    >>> index.put("part", 7, "036000241457", 2)
    >>> index.put("part", 8, "12-345 A", by=By.MAKERS_NUMBER)
    >>> index.find(read("]E00036000241457"))
    (Match(kind='part', record=7, qty=2, by=<By.LEARNED: 'learned code'>),)
    >>> [match.record for match in index.find(read("12345a"))]
    [8]
    """

    def __init__(self) -> None:
        self._entries: dict[By, dict[str, list[_Entry]]] = {by: {} for by in By}

    def put(self, kind: str, record: int, code: str, qty: int = 1, *, by: By = By.LEARNED) -> None:
        """Say that a code stands for a record; the same may be said twice and is then to be dropped twice."""
        exact = codes.normal(code)
        if key := _key(code, exact, by):
            self._entries[by].setdefault(key, []).append((kind, record, qty, exact))

    def drop(self, kind: str, record: int, code: str, qty: int | None = None, *, by: By = By.LEARNED) -> None:
        """Take back what `put` said; without quantity the last one put. What was never put is passed over."""
        exact = codes.normal(code)
        key = _key(code, exact, by)
        entries = self._entries[by].get(key, [])
        for place in range(len(entries) - 1, -1, -1):
            if entries[place] == (kind, record, entries[place][2] if qty is None else qty, exact):
                del entries[place]
                break
        if not entries:
            self._entries[by].pop(key, None)

    def find(self, reading: Reading) -> tuple[Match, ...]:
        """Return all that a reading can stand for, the most certain first, each record once.

        Of the forms that a reading can have, the most specific one that is known counts: a carton's own code
        before the GTIN in it.
        """
        found: dict[tuple[str, int], Match] = {}
        for by, entries in self._entries.items():
            for match in _matches(by, entries, reading.candidates):
                found.setdefault((match.kind, match.record), match)
        return tuple(found.values())

    def knows(self, text: str) -> bool:
        """Return whether a code is taken, however it is written."""
        exact = codes.normal(text)
        return any(_key(text, exact, by) in self._entries[by] for by in By)


def _matches(by: By, entries: dict[str, list[_Entry]], candidates: tuple[str, ...]) -> list[Match]:
    for candidate in candidates:
        if filed := entries.get(_key(candidate, candidate, by)):
            exact = [entry for entry in filed if entry[-1] == candidate]
            # Of one record the last said counts; several records stand in the order of their lists.
            last_said = {entry[:2]: entry for entry in exact or filed}
            return [Match(kind, record, qty, by) for kind, record, qty, _ in sorted(last_said.values())]
    return []


def _key(code: str, exact: str, by: By) -> str:
    """Return the text under which a code is filed; empty if nothing of it is left."""
    if by is By.LEARNED:
        return exact
    bare = without_blanks_and_dashes(code)
    return exact if bare == code else codes.normal(bare)
