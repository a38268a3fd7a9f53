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
    ReadOnlyError,
    RemovedError,
    StoreError,
    WriteFailedError,
)
from shoptui.store.folder import sweep
from shoptui.store.following import Following
from shoptui.store.journal import Position
from shoptui.store.memory import Memory
from shoptui.store.opening import SCHEMA, make_folder
from shoptui.store.records import Draft
from shoptui.store.snapshot import STORE, Document
from shoptui.store.tables import ShopTinyDB
from shoptui.store.tidying import Tidying

Upgrade = Callable[[Memory], None]
"""Brings the tables from one version to the next, by `Memory.apply`."""

LOCK_SECONDS = 5.0


class Database(Following):
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
        super().__init__(Path(folder), lock_seconds=lock_seconds, allow_network=allow_network, schema=schema)
        self._draft: Draft | None = None
        self._owner = 0
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
        if self._load() < self._schema:
            self._upgrade(upgrades)
            return
        self._tidying = Tidying(self.folder, self._journal, self._memory, self._schema)
        if self._journal.writable:
            with suppress(BusyError), self._journal.turn(0):
                sweep(self.folder, self.generation)

    def _upgrade(self, upgrades: Mapping[int, Upgrade]) -> None:
        """Write a generation in our format; programs that know only the older one stop when they see it."""
        with self._journal.turn():
            found = self._load()  # again: what was read out of turn may have grown, or be upgraded by now
            for version in range(found, self._schema):
                if version in upgrades:
                    upgrades[version](self._memory)
            self._tidying = Tidying(self.folder, self._journal, self._memory, self._schema)
            if found < self._schema:
                self._new_generation(self._tidying.at_once)

    @cached_property
    def tinydb(self) -> ShopTinyDB:
        """TinyDB's own interface on the same documents and transactions."""
        return ShopTinyDB(self)

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
        with self._turn():
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
    def _turn(self) -> Iterator[None]:
        try:
            with self._journal.turn():
                yield
        except RemovedError as error:
            self._stop(error)
            raise

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
        """Apply what other processes appended, see `Following.refresh`; in a transaction nothing can come."""
        return self._draft is None and super().refresh()

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
        with self._turn():
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
