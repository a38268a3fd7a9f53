"""When a new generation is due, and the one attempt at it that may be under way."""

from pathlib import Path

from shoptui.store.compaction import Compaction, Point
from shoptui.store.errors import CompactionError
from shoptui.store.file_journal import FileJournal
from shoptui.store.folder import snapshot_path
from shoptui.store.journal import Position
from shoptui.store.memory import Memory
from shoptui.store.snapshot import Heading

COMPACT_BYTES = 1 << 20
"""A journal shorter than this is not worth a new snapshot."""

PART_OF_SNAPSHOT = 4
"""Nor is one shorter than this part of the snapshot: rewriting much for little would wear the disk."""


class Tidying:
    """Keeps the journal short."""

    def __init__(self, folder: Path, journal: FileJournal, memory: Memory, schema: int) -> None:
        self.at: Point = lambda _: None
        """Told of each step; tests let the process die there."""
        self._folder = folder
        self._journal = journal
        self._memory = memory
        self._schema = schema
        self._attempt: Compaction | None = None
        self._not_before = 0

    @property
    def busy(self) -> bool:
        """Whether an attempt is under way."""
        return self._attempt is not None

    @property
    def ready(self) -> bool:
        """Whether the attempt's snapshot is written and `finish` may be called."""
        return self._attempt is not None and self._attempt.ready

    def due(self, position: Position, times: int) -> bool:
        """Whether the journal is so many times as long as makes a new snapshot worth while."""
        if position.offset < max(COMPACT_BYTES, self._not_before) * times:
            return False
        try:
            size = snapshot_path(self._folder, position.generation).stat().st_size
        except OSError:  # another process has just made a new generation
            return False
        return position.offset * PART_OF_SNAPSHOT >= size * times

    def start(self, position: Position) -> None:
        """Let a thread write a snapshot of what is in memory, which is what the journal says up to here."""
        self._attempt = self._compaction(position)
        self._attempt.start()

    def at_once(self, position: Position) -> Position:
        """Write a snapshot here and commit, in our turn; return the new position."""
        self.give_up()
        self._attempt = self._compaction(position)
        self._attempt.write()
        return self.finish(position)

    def finish(self, position: Position) -> Position:
        """Commit in our turn, unless another process has made a new generation; return the position.

        Raises:
            CompactionError: If there was no room; nothing has changed.
            WriteFailedError: If the commit itself could not be written.

        """
        attempt = self._attempt
        try:
            if attempt is None or attempt.generation != position.generation + 1:
                return position
            position = attempt.finish(self._journal, position)
        except OSError as cause:
            # Not at once again: what failed for want of room would fail at every idle moment.
            self._not_before = position.offset * 2
            raise CompactionError(cause) from cause
        finally:
            self.give_up()
        self._not_before = 0
        return position

    def give_up(self) -> None:
        """Stop the attempt that may be under way and leave nothing of it behind."""
        attempt, self._attempt = self._attempt, None
        if attempt is not None:
            attempt.give_up()

    def _compaction(self, position: Position) -> Compaction:
        heading = Heading(self._schema, position.generation + 1, self._memory.highest, position)
        return Compaction(self._folder, self._memory.copies(), heading, self.at)
