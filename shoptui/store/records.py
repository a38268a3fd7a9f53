"""The records of the journal: what one transaction changed, as JSON.

    {"changes":[["parts",12,{"code":"FA-014"}],["moves",7,null]]}

Each row is a table, an id, and the document afterwards or null; the order is that of the transaction.
"""

import json
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from shoptui.store.memory import Memory
from shoptui.store.snapshot import Document, decode, encode

Change = tuple[str, int, Document | None]
"""Table, id, a document or None."""

FEW = 8
BATCH = 512


def net_changes(undo: Iterable[Change], memory: Memory) -> tuple[Change, ...]:
    """Return what is different at the end of a transaction, from what each change of it found before."""
    first: dict[tuple[str, int], Document | None] = {}
    for table, number, before in undo:
        first.setdefault((table, number), before)
    return tuple(
        (table, number, after)
        for (table, number), before in first.items()
        if not _same(before, after := memory.documents(table).get(number))
    )


def record_of(changes: Iterable[Change]) -> bytes:
    """Return the record of a transaction."""
    rows = ",".join(
        f"[{encode(table)},{number},{'null' if document is None else encode(document)}]"
        for table, number, document in changes
    )
    return f'{{"changes":[{rows}]}}'.encode()


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


def _same(before: Document | None, after: Document | None) -> bool:
    if before is None or after is None:
        return before is after
    return before is after or encode(before) == encode(after)
