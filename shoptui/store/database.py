"""TinyDB on the journal."""

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

Document = Mapping[str, Any]
Listener = Callable[[int, Document | None, Document | None], None]


class Database:
    """STUB while the journal is written: tables in memory only."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._tables: dict[str, dict[int, Document]] = {}
        self._listeners: dict[str, list[Listener]] = {}
        self._undo: list[tuple[str, int, Document | None]] | None = None

    def documents(self, table: str) -> Mapping[int, Document]:
        """Return a live read-only view: id to document. Documents are never changed in place."""
        return self._tables.setdefault(table, {})

    def listen(self, table: str, listener: Listener) -> None:
        """Feed a listener with (id, before, after) for all documents there are and all changes to come."""
        self._listeners.setdefault(table, []).append(listener)
        for number, document in self.documents(table).items():
            listener(number, None, document)

    @contextmanager
    def transaction(self) -> Iterator[None]:
        """Lock, read what others appended, run, append one record, fsync, unlock. Nested calls join."""
        if self._undo is not None:
            yield
            return
        self._undo = []
        try:
            yield
        except BaseException:
            for table, number, before in reversed(self._undo):
                self._apply(table, number, before)
            raise
        finally:
            self._undo = None

    def insert(self, table: str, document: Document) -> int:
        """Add a document inside a transaction; return its id."""
        number = max(self.documents(table), default=0) + 1
        self._put(table, number, dict(document))
        return number

    def replace(self, table: str, number: int, document: Document) -> None:
        """Replace a document inside a transaction."""
        self._put(table, number, dict(document))

    def _put(self, table: str, number: int, document: Document) -> None:
        assert self._undo is not None
        self._undo.append((table, number, self.documents(table).get(number)))
        self._apply(table, number, document)

    def _apply(self, table: str, number: int, after: Document | None) -> None:
        documents = self._tables.setdefault(table, {})
        before = documents.get(number)
        if after is None:
            documents.pop(number, None)
        else:
            documents[number] = after
        for listener in self._listeners.get(table, ()):
            listener(number, before, after)

    def refresh(self) -> bool:
        """Apply what other processes appended; return whether anything came."""
        return False

    def close(self) -> None:
        """Close."""
