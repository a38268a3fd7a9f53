"""The tables in memory, and the one way into them."""

import gc
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from types import MappingProxyType

from shoptui.store.snapshot import Document, Tables

Listener = Callable[[int, Document | None, Document | None], None]

MANY = 10_000


class Memory:
    """Tables of documents, and who is told when they change.

    A document is never changed in place, only replaced: so a shallow copy of a table stays as it is while a
    thread writes it out, and a listener can keep what it was given.
    """

    def __init__(self, tables: Tables | None = None, highest: Mapping[str, int] | None = None) -> None:
        self._tables: Tables = {} if tables is None else tables
        self._views: dict[str, Mapping[int, Document]] = {}
        self._listeners: dict[str, list[Listener]] = {}
        self._highest = dict(highest or {})
        for table, documents in self._tables.items():
            self._highest[table] = max(self._highest.get(table, 0), max(documents, default=0))

    @property
    def highest(self) -> dict[str, int]:
        """A copy of table to the highest id ever given there."""
        return dict(self._highest)

    def documents(self, table: str) -> Mapping[int, Document]:
        """Return a live read-only view of a table."""
        view = self._views.get(table)
        if view is None:
            view = self._views[table] = MappingProxyType(self._tables.setdefault(table, {}))
        return view

    def names(self) -> tuple[str, ...]:
        """Return the names of the tables that hold something."""
        return tuple(sorted(name for name, documents in self._tables.items() if documents))

    def copies(self) -> Tables:
        """Return shallow copies of the tables that hold something."""
        return {name: dict(self._tables[name]) for name in self.names()}

    def listen(self, table: str, listener: Listener, *, past: bool = True) -> None:
        """Feed a listener with all documents there are, unless the past is nothing to it, and all changes."""
        self._listeners.setdefault(table, []).append(listener)
        documents = self.documents(table) if past else {}
        with quiet_collector() as made:
            made(len(documents))
            for number, document in documents.items():
                listener(number, None, document)

    def next_id(self, table: str) -> int:
        """Return an id that no document of the table ever had."""
        number = self._highest[table] = self._highest.get(table, 0) + 1
        return number

    def apply(self, table: str, number: int, after: Document | None) -> None:
        """Set a document, or remove it with None, and feed the listeners: everything enters here.

        If a listener fails, those before it are told the contrary, and nothing has changed.
        """
        before = self.documents(table).get(number)
        self._set(table, number, after)
        listeners = self._listeners.get(table, ())
        told = 0
        try:
            for listener in listeners:
                listener(number, before, after)
                told += 1
        except BaseException:
            self._set(table, number, before)
            for listener in listeners[:told]:
                listener(number, after, before)
            raise

    def become(self, other: "Memory") -> None:
        """Change into a store that was read afresh, by applying what is different."""
        for table in sorted({*self.names(), *other.names()}):
            then, now = self.documents(table), other.documents(table)
            for number in [number for number in then if number not in now]:
                self.apply(table, number, None)
            for number, document in now.items():
                if then.get(number) != document:
                    self.apply(table, number, document)
        for table, number in other.highest.items():
            self._highest[table] = max(number, self._highest.get(table, 0))

    def _set(self, table: str, number: int, document: Document | None) -> None:
        documents = self._tables.setdefault(table, {})
        if document is None:
            documents.pop(number, None)
            return
        documents[number] = document
        if number > self._highest.get(table, 0):
            self._highest[table] = number


@contextmanager
def quiet_collector() -> Iterator[Callable[[int], None]]:
    """Keep the garbage collector from walking through many new documents again and again.

    Gives a function to be told how many there are: many are then left alone for good. With few, that would
    not be worth what it keeps from being collected of others' garbage.
    """
    was_enabled = gc.isenabled()
    gc.disable()
    made = 0

    def add(documents: int) -> None:
        nonlocal made
        made += documents

    try:
        yield add
        if made >= MANY:
            gc.freeze()
    finally:
        if was_enabled:
            gc.enable()
