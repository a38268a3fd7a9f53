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

from shoptui.store.compaction import Compaction
from shoptui.store.errors import BusyError, CompactionError, OlderStoreError, ReadOnlyError, StoreError
from shoptui.store.folder import snapshot_path, sweep
from shoptui.store.journal import FileJournal, OutrunError, Position
from shoptui.store.memory import Listener, Memory
from shoptui.store.opening import SCHEMA, load, make_folder, open_journal, refuse_network
from shoptui.store.records import Change, changes_of, net_changes, record_of
from shoptui.store.snapshot import STORE, Document, Heading, Tables, decode, encode
from shoptui.store.tables import ShopTinyDB

Upgrade = Callable[[Tables], None]
"""Brings the tables from one version to the next; replaces documents, never changes them in place."""

LOCK_SECONDS = 5.0
COMPACT_BYTES = 1 << 20
"""A journal shorter than this is not worth a new snapshot."""


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
        self.at: Callable[[str], None] = lambda _: None
        """Told of each step of a compaction."""
        self._schema = schema
        self._memory = Memory()
        self._undo: list[Change] | None = None
        self._owner = 0
        self._compaction: Compaction | None = None
        self._not_before = 0
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
        if loaded.heading.schema < self._schema:
            self._upgrade(upgrades)
            return
        self._memory = Memory(loaded.tables, loaded.heading.highest)
        self._position = loaded.position
        if self._journal.writable:
            with suppress(BusyError), self._journal.turn(0):
                sweep(self.folder, self.generation, self.at)

    def _upgrade(self, upgrades: Mapping[int, Upgrade]) -> None:
        """Write a generation in our format; programs that know only the older one stop when they see it."""
        with self._journal.turn():
            loaded = load(self.folder, self._journal, schema=self._schema)
            found = loaded.heading.schema
            if found < self._schema and not self._journal.writable:
                raise OlderStoreError(found, self._schema)
            for version in range(found, self._schema):
                if version in upgrades:
                    upgrades[version](loaded.tables)
            self._memory = Memory(loaded.tables, loaded.heading.highest)
            self._position = loaded.position
            if found < self._schema:
                self._compact()

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
        if self._undo is not None:
            if self._owner != threading.get_ident():
                raise RuntimeError("A store belongs to one thread; another one is in a transaction.")
            with self._taking_back(len(self._undo)):
                yield
            return
        if self._why_read_only:
            raise ReadOnlyError(self._why_read_only)
        with self._journal.turn():
            self._catch_up()
            self._undo, self._owner = [], threading.get_ident()
            try:
                with self._taking_back(0):
                    yield
                    self._commit()
            finally:
                self._undo = None

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
        if self._undo is None:
            raise RuntimeError("An id is given inside a transaction only.")
        return self._memory.next_id(table)

    def put(self, table: str, number: int, document: Document | None) -> None:
        """Set a document, or remove it with None, inside a transaction."""
        if self._undo is None:
            raise RuntimeError("Documents change inside a transaction only.")
        if table == STORE:
            raise StoreError(f"The table {STORE} belongs to the store itself. Choose another name.")
        # What is kept is what a reader of the file will see, and nobody else holds on to it.
        after = None if document is None else decode(encode(document))
        self._undo.append((table, number, self._memory.documents(table).get(number)))
        try:
            self._memory.apply(table, number, after)
        except BaseException:
            self._undo.pop()
            raise

    @contextmanager
    def _taking_back(self, mark: int) -> Iterator[None]:
        """Take back what a failing block has done since a mark, through the listeners."""
        undo = self._undo if self._undo is not None else []
        try:
            yield
        except BaseException:
            while len(undo) > mark:
                self._memory.apply(*undo.pop())
            raise

    def _commit(self) -> None:
        changes = net_changes(self._undo or (), self._memory)
        if not changes:
            return
        try:
            self._position = self._journal.append(record_of(changes), self._position)
        except StoreError as error:
            self._why_read_only = str(error)
            raise
        self._last_is_ours = True

    def refresh(self) -> bool:
        """Apply what other processes appended; return whether anything came.

        Raises:
            StoreError: Once, if the store cannot be followed any more; `read_only` keeps the words.

        """
        if self._undo is not None or self._stopped or not self._journal.changed(self._position):
            return False
        return self._catch_up()

    def _catch_up(self) -> bool:
        try:
            records, position = self._journal.read(self._position)
            for change in changes_of(records):
                self._memory.apply(*change)
        except OutrunError:
            loaded = load(self.folder, self._journal, schema=self._schema)
            self._memory.become(loaded.tables, loaded.heading.highest)
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
        if self._undo is not None or self._why_read_only:
            return False
        if self._compaction is None:
            if self._due(1 if self._last_is_ours else 2):
                self._compaction = self._begin()
                self._compaction.start()
        elif self._compaction.ready:
            with suppress(BusyError, CompactionError), self._journal.turn(0):
                self._catch_up()
                self._finish(self._compaction)
        return self._compaction is not None

    def compact(self) -> None:
        """Write a new snapshot at once and begin a new journal.

        Raises:
            ReadOnlyError: If the store takes no changes.
            CompactionError: If there is no room; the store is as it was.

        """
        if self._why_read_only:
            raise ReadOnlyError(self._why_read_only)
        self._give_up()
        with self._journal.turn():
            self._catch_up()
            self._compact()

    def close(self) -> None:
        """Close the files; what was acknowledged is on the disk already."""
        if self._last_is_ours and not self._why_read_only and self._due(2):
            with suppress(StoreError):
                self.compact()
        self._give_up()
        self._journal.close()

    def _due(self, times: int) -> bool:
        offset = self._position.offset
        if offset < max(COMPACT_BYTES, self._not_before) * times:
            return False
        return offset * 4 >= snapshot_path(self.folder, self.generation).stat().st_size * times

    def _begin(self) -> Compaction:
        heading = Heading(self._schema, self.generation + 1, self._memory.highest, self._position)
        return Compaction(self.folder, self._memory.copies(), heading, self.at)

    def _compact(self) -> None:
        self._compaction = self._begin()
        self._compaction.write()
        self._finish(self._compaction)

    def _finish(self, compaction: Compaction) -> None:
        """Commit a new generation in our turn, unless somebody else has made one in the meantime."""
        try:
            if compaction.generation == self.generation + 1:
                self._position = compaction.finish(self._journal, self._position)
                self._not_before = 0
        except OSError as cause:
            # Not at once again: what failed for want of room would fail at every idle moment.
            self._not_before = self._position.offset * 2
            raise CompactionError(cause) from cause
        except StoreError as error:
            self._why_read_only = str(error)
            raise
        finally:
            self._give_up()

    def _give_up(self) -> None:
        compaction, self._compaction = self._compaction, None
        if compaction is not None:
            compaction.give_up()
