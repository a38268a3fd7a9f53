"""The records of the journal: what one transaction changed, as JSON.

    {"changes":[["parts",12,{"code":"FA-014"}],["moves",7,null]]}

Each row is a table, an id, and the document afterwards or null; the order is that of the transaction.
"""

import json
from collections.abc import Iterator, Sequence
from functools import cache
from typing import Any

from shoptui.store.memory import Memory
from shoptui.store.snapshot import Document, decode, encode

Change = tuple[str, int, Document | None]
"""Table, id, a document or None."""

FEW = 8
BATCH = 512


class Draft:
    """What a transaction has changed so far: enough to take it back, and to write it down."""

    def __init__(self) -> None:
        self._undo: list[Change] = []
        self._texts: dict[tuple[str, int], tuple[Document | None, str]] = {}

    def __len__(self) -> int:
        """Changes so far."""
        return len(self._undo)

    def change(self, memory: Memory, table: str, number: int, document: Document | None) -> None:
        """Change a document.

        What is kept is what a reader of the file will see, and nobody else holds on to it.
        """
        text = "null" if document is None else encode(document)
        after = None if document is None else decode(text)
        self._undo.append((table, number, memory.documents(table).get(number)))
        try:
            memory.apply(table, number, after)
        except BaseException:
            self._undo.pop()
            raise
        self._texts[table, number] = (after, text)

    def take_back(self, memory: Memory, mark: int) -> None:
        """Take back all changes after the first `mark`, the last one first."""
        while len(self._undo) > mark:
            memory.apply(*self._undo.pop())

    def record(self, memory: Memory) -> bytes | None:
        """Return the record of what is different now, None if nothing is."""
        first: dict[tuple[str, int], Document | None] = {}
        for table, number, before in self._undo:
            first.setdefault((table, number), before)
        rows = []
        for (table, number), before in first.items():
            after = memory.documents(table).get(number)
            kept, text = self._texts[table, number]
            if kept is not after:  # a block inside was taken back
                text = _text(after)
            if before != after or _text(before) != text:  # 1 and true are equal, but not the same JSON
                rows.append(f"[{_name(table)},{number},{text}]")
        return f'{{"changes":[{",".join(rows)}]}}'.encode() if rows else None


def changes_of(records: Sequence[bytes]) -> Iterator[Change]:
    """Yield what records changed, in order."""
    for record in _decoded(records):
        yield from record["changes"]


def _decoded(records: Sequence[bytes]) -> Iterator[dict[str, Any]]:
    if len(records) < FEW:
        yield from (decode(record.decode()) for record in records)
        return
    # Decoded together, equal keys are one object as well, and it is faster.
    for start in range(0, len(records), BATCH):
        yield from json.loads(b"[%b]" % b",".join(records[start : start + BATCH]))


def _text(document: Document | None) -> str:
    return "null" if document is None else encode(document)


_name = cache(encode)
