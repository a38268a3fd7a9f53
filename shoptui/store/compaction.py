"""A new generation: a snapshot of all tables and a short journal in place of a long one.

1. Take shallow copies of the tables and note the journal's position X (the caller's thread, milliseconds).
2. Write the snapshot under another name (a thread of its own, or at once).
3. In our turn: copy what the journal holds after X into the next journal, bring both files to the disk under
   their names, and append `rotate` to the old journal. That record is the commit point: before it the new
   files mean nothing, after it the old ones do not.
4. Remove the old snapshot, then the old journal.

A crash between any two of these steps loses nothing; whoever opens the store next sweeps up.
"""

import os
import threading
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from shoptui.store.file_journal import FileJournal
from shoptui.store.folder import journal_path, part_path, snapshot_path, sweep, sync_folder
from shoptui.store.journal import Position
from shoptui.store.snapshot import GivenUpError, Heading, Tables, write

Point = Callable[[str], None]
"""Told of each step when it is done; tests let the process die there."""


class Compaction:
    """One attempt at a new generation.

    Args:
        folder: The store.
        tables: Copies of the tables that nobody changes; the documents in them are never changed in place.
        heading: What the new snapshot will say; its `of` is the position X.
        at: Told of each step.

    """

    def __init__(self, folder: Path, tables: Tables, heading: Heading, at: Point) -> None:
        self._folder = folder
        self._tables: Tables | None = tables
        self._heading = heading
        self.generation = heading.generation
        self._at = at
        self._part = part_path(snapshot_path(folder, heading.generation))
        self._given_up = threading.Event()
        self._thread: threading.Thread | None = None
        self.failed: OSError | None = None

    @property
    def ready(self) -> bool:
        """Whether the snapshot is written, or has failed."""
        return self._thread is not None and not self._thread.is_alive()

    def start(self) -> None:
        """Write the snapshot in a thread of its own."""
        self._thread = threading.Thread(target=self.write, name="writing a snapshot", daemon=True)
        self._thread.start()

    def write(self) -> None:
        """Write the snapshot here; `failed` says what went wrong."""
        tables, self._tables = self._tables or {}, None
        try:
            write(self._part, tables, self._heading, self._given_up.is_set)
            self._at("snapshot written")
        except GivenUpError:
            pass
        except OSError as cause:
            self.failed = cause

    def give_up(self) -> None:
        """Stop and leave nothing behind."""
        self._given_up.set()
        if self._thread is not None:
            self._thread.join()
        with suppress(OSError):
            self._part.unlink()

    def finish(self, journal: FileJournal, head: Position) -> Position:
        """Commit, in our turn, with the journal read up to its head; return the new head.

        Raises:
            OSError: If the files could not be brought in place; nothing has changed then.
            WriteFailedError: If the commit itself failed; nothing has changed then either.

        """
        if self.failed is not None:
            raise self.failed
        generation, start = self._heading.generation, Position(*self._heading.of)
        since = journal.copy(start, head)
        self._bring(journal_path(self._folder, generation), since)
        self._at("journal in place")
        self._part.replace(snapshot_path(self._folder, generation))
        self._at("snapshot in place")
        sync_folder(self._folder)
        self._at("names on the disk")
        head = journal.rotate(head, len(since))
        self._at("rotated")
        sweep(self._folder, generation, self._at)
        return head

    def _bring(self, path: Path, data: bytes) -> None:
        part = part_path(path)
        try:
            with part.open("wb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
            self._at("journal written")
            part.replace(path)
        except OSError:
            with suppress(OSError):
                part.unlink()
            raise
