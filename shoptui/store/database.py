"""The database: TinyDB's tables in memory, on a journal on disk, shared with other processes of this machine.

Every change, own, foreign, replayed or taken back, enters the tables through `Memory.apply`, which feeds the
listeners; so whatever is derived from the documents follows without being recomputed.
"""

import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from functools import cached_property
from pathlib import Path
from typing import Self

from shoptui.store.errors import (
    BusyError,
    CompactionError,
    OlderStoreError,
    ReadOnlyError,
    StoreError,
    WriteFailedError,
)
from shoptui.store.folder import sweep
from shoptui.store.journal import FileJournal, OutrunError, Position
from shoptui.store.memory import Listener, Memory
from shoptui.store.opening import SCHEMA, Loaded, load, make_folder, open_journal, refuse_network
from shoptui.store.records import Draft, changes_of
from shoptui.store.snapshot import STORE, Document
from shoptui.store.tables import ShopTinyDB
from shoptui.store.tidying import Tidying

Upgrade = Callable[[Memory], None]
"""Brings the tables from one version to the next, by `Memory.apply`."""

LOCK_SECONDS = 5.0


class Database:
    """One store, opened in one process; it belongs to one thread.

    Args:
        folder: The store's folder, which must hold one; see `create`.
        lock_seconds: How long to wait for another writer.
        allow_network: Whether the folder may lie on a network share; None asks SHOPTUI_ALLOW_NETWORK.
        schema: Version of the documents' format that the program knows.
        upgrades: For each older version, what brings its tables to the next one.

    Raises:
        StoreError: A subclass for each thing that can be wrong with the folder.

    """

    def __init__(
        self,
        folder: Path,
        *,
        lock_seconds: float = LOCK_SECONDS,
        allow_network: bool | None = None,
        schema: int = SCHEMA,
        upgrades: Mapping[int, Upgrade] | None = None,
    ) -> None:
        self.folder = Path(folder)
        self._schema = schema
        self._draft: Draft | None = None
        self._owner = 0
        self._last_is_ours = False
        self._stopped = False
        self._why_read_only = ""
        refuse_network(self.folder, allow_network)
        self._journal: FileJournal = open_journal(self.folder, schema=schema, lock_seconds=lock_seconds)
        try:
            self._open(upgrades or {})
        except BaseException:
            self._journal.close()
            raise

    @classmethod
    def create(cls, folder: Path, *, allow_network: bool | None = None, schema: int = SCHEMA) -> Self:
        """Make an empty store in a folder that is not there yet or empty, and open it.

        Raises:
            StoreExistsError: If there is something in the folder.

        """
        make_folder(Path(folder), schema=schema, allow_network=allow_network)
        return cls(folder, allow_network=allow_network, schema=schema)

    def _open(self, upgrades: Mapping[int, Upgrade]) -> None:
        loaded = load(self.folder, self._journal, schema=self._schema)
        if not self._journal.writable:
            self._why_read_only = (
                f"This store can be read but not changed: this user may not write to {self.folder}. "
                f"Ask whoever keeps the store for the right to write there."
            )
        if loaded.schema < self._schema:
            if not self._journal.writable:
                raise OlderStoreError(loaded.schema, self._schema)
            self._upgrade(upgrades)
            return
        self._take(loaded)
        if self._journal.writable:
            with suppress(BusyError), self._journal.turn(0):
                sweep(self.folder, self.generation)

    def _upgrade(self, upgrades: Mapping[int, Upgrade]) -> None:
        """Write a generation in our format; programs that know only the older one stop when they see it."""
        with self._journal.turn():
            loaded = load(self.folder, self._journal, schema=self._schema)
            for version in range(loaded.schema, self._schema):
                if version in upgrades:
                    upgrades[version](loaded.memory)
            self._take(loaded)
            if loaded.schema < self._schema:
                self._new_generation(self._tidying.at_once)

    def _take(self, loaded: Loaded) -> None:
        self._memory = loaded.memory
        self._tidying = Tidying(self.folder, self._journal, self._memory, self._schema)
        self._position = loaded.position

    @property
    def read_only(self) -> str:
        """Why the store takes no changes, as a sentence; empty if it takes them."""
        return self._why_read_only

    @property
    def position(self) -> Position:
        """Generation and offset in its journal up to which everything is in memory."""
        return self._position

    @property
    def generation(self) -> int:
        """Number of the snapshot and journal in use."""
        return self._position.generation

    def documents(self, table: str) -> Mapping[int, Document]:
        """Return a live read-only view: id to document. Documents are never changed in place."""
        return self._memory.documents(table)

    def tables(self) -> tuple[str, ...]:
        """Return the names of the tables that hold something."""
        return self._memory.names()

    @cached_property
    def tinydb(self) -> ShopTinyDB:
        """TinyDB's own interface on the same documents and transactions."""
        return ShopTinyDB(self)

    def listen(self, table: str, listener: Listener) -> None:
        """Feed a listener with (id, before, after) for all documents there are and all changes to come."""
        self._memory.listen(table, listener)

    @contextmanager
    def transaction(self) -> Iterator[None]:
        """Run a block whose changes are on the disk when it ends, or were never made.

        Lock, read what others appended, run, append one record, fsync, unlock. A block that changes nothing
        writes nothing. A block inside another joins it; if it fails, its own changes are taken back.

        Raises:
            ReadOnlyError: Before the block runs.
            BusyError: Before the block runs: another writer has kept the store for too long.
            WriteFailedError: After the block, when its changes could not be brought to the disk.

        """
        if self._draft is not None:
            if self._owner != threading.get_ident():
                raise RuntimeError("A store belongs to one thread; another one is in a transaction.")
            with self._taking_back(self._draft):
                yield
            return
        if self._why_read_only:
            raise ReadOnlyError(self._why_read_only)
        with self._journal.turn():
            self._catch_up()
            self._draft = draft = Draft()
            self._owner = threading.get_ident()
            try:
                with self._taking_back(draft):
                    yield
                    self._commit(draft)
            finally:
                self._draft = None

    def insert(self, table: str, document: Document) -> int:
        """Add a document inside a transaction; return its id."""
        number = self.next_id(table)
        self.put(table, number, document)
        return number

    def replace(self, table: str, number: int, document: Document) -> None:
        """Replace a document inside a transaction."""
        self.put(table, number, document)

    def delete(self, table: str, number: int) -> None:
        """Remove a document inside a transaction; its id is never given again."""
        self.put(table, number, None)

    def next_id(self, table: str) -> int:
        """Give an id that no document of the table ever had, inside a transaction."""
        if self._draft is None:
            raise RuntimeError("An id is given inside a transaction only.")
        return self._memory.next_id(table)

    def put(self, table: str, number: int, document: Document | None) -> None:
        """Set a document, or remove it with None, inside a transaction."""
        if self._draft is None:
            raise RuntimeError("Documents change inside a transaction only.")
        if table == STORE:
            raise StoreError(f"The table {STORE} belongs to the store itself. Choose another name.")
        self._draft.change(self._memory, table, number, document)

    @contextmanager
    def _taking_back(self, draft: Draft) -> Iterator[None]:
        """Take back what a block has done, if it fails."""
        mark = len(draft)
        try:
            yield
        except BaseException:
            draft.take_back(self._memory, mark)
            raise

    def _commit(self, draft: Draft) -> None:
        record = draft.record(self._memory)
        if record is None:
            return
        try:
            self._position = self._journal.append(record, self._position)
        except WriteFailedError as error:
            self._why_read_only = str(error)
            raise
        self._last_is_ours = True

    def refresh(self) -> bool:
        """Apply what other processes appended; return whether anything came.

        Raises:
            StoreError: Once, if the store cannot be followed any more; `read_only` keeps the words.

        """
        if self._draft is not None or self._stopped or not self._journal.changed(self._position):
            return False
        return self._catch_up()

    def _catch_up(self) -> bool:
        try:
            records, position = self._journal.read(self._position)
            for change in changes_of(records):
                self._memory.apply(*change)
        except OutrunError:
            loaded = load(self.folder, self._journal, schema=self._schema)
            self._memory.become(loaded.memory)
            records, position = (b"",), loaded.position
        except StoreError as error:
            self._stopped, self._why_read_only = True, str(error)
            raise
        self._position = position
        if records:
            self._last_is_ours = False
        return bool(records)

    def idle(self) -> bool:
        """Tidy up while nobody waits: called by the app now and then, returns soon.

        A journal that has grown is replaced by a new snapshot, which a thread writes. Of several processes
        the one that wrote last does it. Returns whether a snapshot is being written.
        """
        if self._draft is not None or self._why_read_only:
            return False
        if not self._tidying.busy:
            if self._tidying.due(self._position, 1 if self._last_is_ours else 2):
                self._tidying.start(self._position)
        elif self._tidying.ready:
            with suppress(BusyError, CompactionError), self._journal.turn(0):
                self._catch_up()
                self._new_generation(self._tidying.finish)
        return self._tidying.busy

    def compact(self) -> None:
        """Write a new snapshot at once and begin a new journal.

        Raises:
            ReadOnlyError: If the store takes no changes.
            CompactionError: If there is no room; the store is as it was.

        """
        if self._why_read_only:
            raise ReadOnlyError(self._why_read_only)
        with self._journal.turn():
            self._catch_up()
            self._new_generation(self._tidying.at_once)

    def close(self) -> None:
        """Close the files; what was acknowledged is on the disk already."""
        due = self._last_is_ours and not self._why_read_only and self._tidying.due(self._position, 2)
        if due:
            with suppress(StoreError):
                self.compact()
        self._tidying.give_up()
        self._journal.close()

    def _new_generation(self, make: Callable[[Position], Position]) -> None:
        try:
            self._position = make(self._position)
        except WriteFailedError as error:
            self._why_read_only = str(error)
            raise
