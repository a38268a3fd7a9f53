"""The journal of one machine: a file in the store's folder, which its processes append to in turn."""

import os
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

from shoptui.store.errors import (
    BusyError,
    DamagedError,
    NewerStoreError,
    NoPermissionError,
    ReadOnlyError,
    RemovedError,
    WriteFailedError,
)
from shoptui.store.folder import ROTATE, journal_path, rotate_payload
from shoptui.store.frames import DamagedFrameError, Frames, frame, split
from shoptui.store.journal import HeadMovedError, OutrunError, Position
from shoptui.store.lock import FolderLock
from shoptui.store.snapshot import decode

GLANCE_SECONDS = 0.05
"""A reader who is in nobody's way looks again later rather than keep a screen waiting."""

LOOK_SECONDS = 0.02


class FileJournal:
    """A journal in a file of the store's folder, shared by the processes of one machine.

    Reading takes the lock together with other readers: what a writer has not yet brought to the disk, and may
    have to take back, is seen by nobody.
    """

    def __init__(self, folder: Path, lock: FolderLock, *, schema: int, lock_seconds: float) -> None:
        self._folder = folder
        self._lock = lock
        self._schema = schema
        self.lock_seconds = lock_seconds
        self._held = False
        self._alone = False
        self._file: BinaryIO | None = None
        self._generation = 0
        self.writable = lock.exclusive

    def open(self, generation: int) -> None:
        """Continue with the journal of a generation; a journal that is missing is never made.

        Raises:
            OutrunError: If it is not there.
            NoPermissionError: If this user may not even read it.

        """
        path = journal_path(self._folder, generation)
        try:
            file: BinaryIO = path.open("r+b" if self.writable else "rb", buffering=0)
        except FileNotFoundError:
            raise OutrunError from None
        except OSError:
            self.writable = False
            try:
                file = path.open("rb", buffering=0)
            except PermissionError:
                raise NoPermissionError(path) from None
        self._close_file()
        self._file, self._generation = file, generation

    def close(self) -> None:
        """Close the files."""
        self._close_file()
        self._lock.close()

    def _close_file(self) -> None:
        if self._file is not None:
            self._file.close()
            self._file = None

    @contextmanager
    def turn(self, seconds: float | None = None) -> Iterator[None]:
        """Hold the lock alone."""
        seconds = self.lock_seconds if seconds is None else seconds
        if not self._lock.take(shared=False, seconds=seconds):
            raise BusyError(seconds)
        self._held = self._alone = True
        try:
            yield
        finally:
            self._held = self._alone = False
            self._lock.release()

    @contextmanager
    def glance(self, seconds: float | None = None) -> Iterator[bool]:
        """Hold the lock together with other readers; gives False if writers keep us waiting too long."""
        if self._held:
            yield True
            return
        taken = self._lock.take(shared=True, seconds=self.lock_seconds if seconds is None else seconds)
        self._held = taken
        try:
            yield taken
        finally:
            self._held = False
            self._lock.release()

    def changed(self, after: Position) -> bool:
        """Whether something is or was after a position, or the file is gone; costs one system call."""
        status = self._status()
        moved = after.generation != self._generation or status.st_size != after.offset
        return moved or status.st_nlink == 0

    def wait(self, after: Position, seconds: float) -> bool:
        """Look at the length again and again; a few hundredths of a second late at most."""
        end = time.monotonic() + seconds
        while not (changed := self.changed(after)) and time.monotonic() < end:
            time.sleep(LOOK_SECONDS)
        return changed

    def read(self, after: Position, seconds: float = GLANCE_SECONDS) -> tuple[tuple[bytes, ...], Position]:
        """Return the records after a position, across generations; none while a writer is busy for long."""
        with self.glance(seconds) as may_read:
            if not may_read:
                return (), after
            records: list[bytes] = []
            while True:
                found = self._frames(after)
                if not found.payloads or not found.payloads[-1].startswith(ROTATE):
                    records += found.payloads
                    return tuple(records), Position(after.generation, after.offset + found.length)
                records += found.payloads[:-1]
                after = self._follow(found.payloads[-1])

    def append(self, record: bytes, head: Position) -> Position:
        """Write a record at the head and bring it to the disk."""
        if not self._alone:
            raise RuntimeError("A record is appended in one's turn only.")
        self._reach_head(head)
        line = frame(record)
        try:
            self._put(head.offset, line)
        except BaseException as cause:
            certain = self._take_back(head)
            if isinstance(cause, OSError):
                raise WriteFailedError(cause, certain=certain) from cause
            raise
        return Position(head.generation, head.offset + len(line))

    def rotate(self, head: Position, offset: int) -> Position:
        """End this generation: the next one's journal, already in place, goes on at an offset."""
        following = head.generation + 1
        self.append(rotate_payload(following, offset, self._schema), head)
        self.open(following)
        return Position(following, offset)

    def copy(self, start: Position, end: Position) -> bytes:
        """Return the bytes between two positions of the current generation."""
        return self._bytes(start.offset)[: end.offset - start.offset]

    def _reach_head(self, head: Position) -> None:
        """Make sure that the journal ends at the head; what was torn there is cut off, in our turn."""
        if not self.writable:
            raise ReadOnlyError("This store is open for reading only.")
        if not self.changed(head):
            return
        if head.generation != self._generation or self._frames(head).length:
            raise HeadMovedError
        try:
            self._open_file().truncate(head.offset)
        except OSError as cause:
            raise WriteFailedError(cause) from cause

    def _put(self, offset: int, line: bytes) -> None:
        file = self._open_file()
        file.seek(offset)
        rest = memoryview(line)
        while rest:
            rest = rest[file.write(rest) :]
        os.fsync(file.fileno())

    def _take_back(self, head: Position) -> bool:
        """Leave nothing of a record that was not acknowledged; return False if the disk does not let us.

        Half a record does no harm, it is recognised as torn; a whole one may yet be found there.
        """
        file = self._open_file()
        try:
            file.truncate(head.offset)
        except OSError:
            return False
        with suppress(OSError):
            os.fsync(file.fileno())
        return True

    def _follow(self, payload: bytes) -> Position:
        record = decode(payload.decode())
        if record["schema"] > self._schema:
            raise NewerStoreError(record["schema"], self._schema)
        self.open(record["rotate"])
        return Position(record["rotate"], record["offset"])

    def _frames(self, after: Position) -> Frames:
        if after.generation != self._generation:
            raise OutrunError
        status = self._status()
        if status.st_size < after.offset:
            raise RemovedError(self._folder)
        try:
            found = split(self._bytes(after.offset)) if status.st_size > after.offset else Frames((), 0)
        except DamagedFrameError as damage:
            path = journal_path(self._folder, after.generation)
            raise DamagedError(path, after.offset + damage.offset, str(damage)) from None
        rotated = found.payloads and found.payloads[-1].startswith(ROTATE)
        if status.st_nlink == 0 and not rotated:
            raise RemovedError(self._folder)
        return found

    def _bytes(self, offset: int) -> bytes:
        file = self._open_file()
        file.seek(offset)
        return file.read()

    def _status(self) -> os.stat_result:
        return os.fstat(self._open_file().fileno())

    def _open_file(self) -> BinaryIO:
        if self._file is None:
            raise RuntimeError("The journal is closed.")
        return self._file
