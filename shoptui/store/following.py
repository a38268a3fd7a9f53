"""A store that is read, and followed while other processes change it."""

from collections.abc import Mapping
from pathlib import Path

from shoptui.store.errors import BusyError, OlderStoreError, StoreError
from shoptui.store.journal import OutrunError, Position
from shoptui.store.memory import Listener, Memory
from shoptui.store.opening import load, open_journal, refuse_network
from shoptui.store.records import changes_of
from shoptui.store.snapshot import Document


class Following:
    """The reading half of `shoptui.store.database.Database`, which says what the arguments are."""

    def __init__(self, folder: Path, *, lock_seconds: float, allow_network: bool | None, schema: int) -> None:
        self.folder = folder
        self._schema = schema
        self._stopped = False
        self._last_is_ours = False
        self._why_read_only = ""
        self._memory = Memory()
        self._position = Position(0, 0)
        refuse_network(folder, allow_network)
        self._journal = open_journal(folder, schema=schema, lock_seconds=lock_seconds)

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

    def listen(self, table: str, listener: Listener, *, past: bool = True) -> None:
        """Feed a listener with (id, before, after) for all documents there are and all changes to come.

        Args:
            table: The table.
            listener: Called with each.
            past: Whether with the documents that are there already, too.

        """
        self._memory.listen(table, listener, past=past)

    def refresh(self) -> bool:
        """Apply what other processes appended; return whether anything came.

        Raises:
            StoreError: Once, if the store cannot be followed any more; `read_only` keeps the words.

        """
        if self._stopped or not self._journal.changed(self._position):
            return False
        try:
            return self._catch_up()
        except BusyError:  # somebody writes at length: the next look will see it
            return False

    def _load(self) -> int:
        """Read everything; return the version of the format in which it is."""
        loaded = load(self.folder, self._journal, schema=self._schema)
        self._memory, self._position = loaded.memory, loaded.position
        if self._journal.writable:
            return loaded.schema
        if loaded.schema < self._schema:
            raise OlderStoreError(loaded.schema, self._schema)
        self._why_read_only = (
            f"This store can be read but not changed: this user may not write to {self.folder}. "
            f"Ask whoever keeps the store for the right to write there."
        )
        return loaded.schema

    def _catch_up(self) -> bool:
        try:
            came = self._read_on()
        except BusyError:
            raise
        except StoreError as error:
            self._stop(error)
            raise
        if came:
            self._last_is_ours = False
        return came

    def _read_on(self) -> bool:
        if not self._journal.changed(self._position):
            return False
        try:
            records, position = self._journal.read(self._position)
        except OutrunError:
            loaded = load(self.folder, self._journal, schema=self._schema)
            self._memory.become(loaded.memory)
            self._position = loaded.position
            return True
        for change in changes_of(records):
            self._memory.apply(*change)
        self._position = position
        return bool(records)

    def _stop(self, error: StoreError) -> None:
        """Take no more changes, and do not follow any more."""
        self._stopped, self._why_read_only = True, str(error)
