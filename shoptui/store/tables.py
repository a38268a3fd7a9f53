"""TinyDB's own interface on the store: the same documents, the same transactions.

`Database.tinydb.table("parts")` has all that TinyDB's tables have. Reading sees what is in memory, see
`Database.refresh`. Two things differ from a TinyDB on a file, on purpose: an id is never given twice, not
even after the last document was removed or the table emptied; and a table that holds nothing is not listed.
"""

from collections.abc import Callable, Iterator, Mapping, MutableMapping
from contextlib import AbstractContextManager
from copy import deepcopy
from typing import Any, Protocol, cast

from tinydb import TinyDB
from tinydb.queries import QueryLike
from tinydb.storages import Storage
from tinydb.table import Document as TinyDocument
from tinydb.table import Table

from shoptui.store.snapshot import Document


class Documents(Protocol):
    """What the tables need of the database."""

    def documents(self, table: str) -> Mapping[int, Document]:
        """Return a live read-only view."""

    def tables(self) -> tuple[str, ...]:
        """Return the names of the tables that hold something."""

    def transaction(self) -> AbstractContextManager[None]:
        """Run a block whose changes are kept all or not at all."""

    def next_id(self, table: str) -> int:
        """Give an id."""

    def put(self, table: str, number: int, document: Document | None) -> None:
        """Set or remove a document."""


class _StringKeys(Mapping[str, Document]):
    """A table as TinyDB's storages give it: ids as text."""

    def __init__(self, documents: Mapping[int, Document]) -> None:
        self._documents = documents

    def __getitem__(self, key: str) -> Document:
        try:
            return self._documents[int(key)]
        except ValueError:
            raise KeyError(key) from None

    def __iter__(self) -> Iterator[str]:
        return map(str, self._documents)

    def __len__(self) -> int:
        return len(self._documents)


class _CopyOnAccess(MutableMapping[int, Any]):
    """A table for TinyDB's updaters, which change documents in place: each is copied when it is touched."""

    def __init__(self, documents: Mapping[int, Document]) -> None:
        self._documents = documents
        self._touched: dict[int, Any] = {}
        self._removed: set[int] = set()

    def __getitem__(self, number: int) -> Any:  # noqa: ANN401 - documents are what they are
        if number not in self._touched:
            if number in self._removed:
                raise KeyError(number)
            self._touched[number] = deepcopy(self._documents[number])
        return self._touched[number]

    def __setitem__(self, number: int, document: Any) -> None:  # noqa: ANN401 - likewise
        self._touched[number] = document

    def __delitem__(self, number: int) -> None:
        if number not in self:
            raise KeyError(number)
        self._touched.pop(number, None)
        if number in self._documents:
            self._removed.add(number)

    def __contains__(self, number: object) -> bool:
        return number in self._touched or (number in self._documents and number not in self._removed)

    def __iter__(self) -> Iterator[int]:
        yield from (number for number in self._documents if number not in self._removed)
        for number in self._touched:
            if number not in self._documents or number in self._removed:
                yield number

    def __len__(self) -> int:
        return sum(1 for _ in self)

    def clear(self) -> None:
        """Remove all, in one pass."""
        self._touched.clear()
        self._removed.update(self._documents)

    def changes(self) -> Iterator[tuple[int, Any]]:
        """Yield id and document, or None, of what may be different."""
        for number in self._removed:
            yield number, None
        yield from self._touched.items()


class JournalTable(Table):
    """One table; everything that changes it is a transaction."""

    def __init__(
        self, storage: "JournalStorage", name: str, cache_size: int = 0, *, persist_empty: bool = False
    ) -> None:
        # A cache of queries would outlive what other processes write; its size is therefore not the caller's.
        del cache_size, persist_empty
        super().__init__(storage, name, cache_size=0)
        self._database = storage.database
        self._open: _CopyOnAccess | None = None

    def insert(self, document: Mapping[str, Any]) -> int:
        """Insert a document: its id is taken inside the transaction."""
        with self._database.transaction():
            return super().insert(document)

    def upsert(self, document: Mapping[str, Any], cond: QueryLike | None = None) -> list[int]:
        """Update or insert, in one transaction."""
        with self._database.transaction():
            return super().upsert(document, cond)

    def search(self, cond: QueryLike) -> list[TinyDocument]:
        """Return copies of the documents that match."""
        return [_copy(document) for document in super().search(cond)]

    def get(  # type: ignore[override]  # the overloads of TinyDB say the same in five ways
        self,
        cond: QueryLike | None = None,
        doc_id: int | None = None,
        doc_ids: list[int] | None = None,
    ) -> TinyDocument | list[TinyDocument] | None:
        """Return a copy of one document, or of those with the ids."""
        found = cast("Any", super()).get(cond, doc_id, doc_ids)
        if isinstance(found, list):
            return [_copy(document) for document in found]
        return None if found is None else _copy(found)

    def __iter__(self) -> Iterator[TinyDocument]:
        """Yield copies of all documents."""
        return map(_copy, super().__iter__())

    def _get_next_id(self) -> int:
        number = self._database.next_id(self.name)
        # An id that the caller has chosen within the same call is not known to the database yet.
        while self._open is not None and number in self._open:
            number = self._database.next_id(self.name)
        return number

    def _read_table(self) -> dict[str, Mapping[str, Any]]:
        return cast("dict[str, Mapping[str, Any]]", _StringKeys(self._database.documents(self.name)))

    def _update_table(self, updater: Callable[[dict[int, Mapping[str, Any]]], None]) -> None:
        with self._database.transaction():
            view = self._open = _CopyOnAccess(self._database.documents(self.name))
            try:
                updater(cast("dict[int, Mapping[str, Any]]", view))
            finally:
                self._open = None
            for number, document in list(view.changes()):
                self._database.put(self.name, number, document)


class JournalStorage(Storage):
    """What TinyDB asks for whole databases: the list of tables, and dropping them."""

    def __init__(self, database: Documents) -> None:
        super().__init__()
        self.database = database

    def read(self) -> dict[str, dict[str, Any]]:
        """Return all tables, as views."""
        tables = {name: _StringKeys(self.database.documents(name)) for name in self.database.tables()}
        return cast("dict[str, dict[str, Any]]", tables)

    def write(self, data: Mapping[str, Mapping[str, Any]]) -> None:
        """Make the tables what is given, in one transaction."""
        with self.database.transaction():
            for name in {*self.database.tables(), *data}:
                then, now = self.database.documents(name), data.get(name, {})
                for number in [number for number in then if str(number) not in now]:
                    self.database.put(name, number, None)
                for key, document in list(now.items()):
                    if then.get(int(key)) != document:
                        self.database.put(name, int(key), document)


class ShopTinyDB(TinyDB):
    """TinyDB with one table object for each name, ever: dropping a table empties it."""

    table_class = JournalTable  # type: ignore[assignment]  # TinyDB means the class and its heirs

    def __init__(self, database: Documents) -> None:
        super().__init__(database, storage=JournalStorage)

    def drop_tables(self) -> None:
        """Empty all tables."""
        self.storage.write({})

    def drop_table(self, name: str) -> None:
        """Empty a table."""
        tables = self.storage.read() or {}
        self.storage.write({key: table for key, table in tables.items() if key != name})


def _copy(document: TinyDocument) -> TinyDocument:
    return TinyDocument(deepcopy(dict(document)), document.doc_id)
