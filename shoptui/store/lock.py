"""One writer at a time, over processes: a lock on a file that is kept open.

The file `lock` is never removed or replaced: a lock belongs to the file, not to its name.
"""

import os
import sys
import threading
import time
from pathlib import Path

from shoptui.store.errors import RemovedError

if sys.platform == "win32":  # pragma: no cover
    import portalocker

    POLL_SECONDS = 0.001
    """Windows has no call that waits for a lock and can be given up, so it is asked again and again."""

    def _try(descriptor: int, *, shared: bool) -> bool:
        flags = portalocker.LockFlags.SHARED if shared else portalocker.LockFlags.EXCLUSIVE
        try:
            portalocker.lock(descriptor, flags | portalocker.LockFlags.NON_BLOCKING)
        except portalocker.LockException:
            return False
        return True

    def _wait(path: Path, descriptor: int, *, shared: bool, seconds: float) -> int | None:  # noqa: ARG001
        end = time.monotonic() + seconds
        while not _try(descriptor, shared=shared):
            if time.monotonic() > end:
                return None
            time.sleep(POLL_SECONDS)
        return descriptor

    def _unlock(descriptor: int) -> None:
        portalocker.unlock(descriptor)

else:
    import fcntl

    def _operation(*, shared: bool) -> int:
        return fcntl.LOCK_SH if shared else fcntl.LOCK_EX

    def _try(descriptor: int, *, shared: bool) -> bool:
        try:
            fcntl.flock(descriptor, _operation(shared=shared) | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True

    def _wait(path: Path, descriptor: int, *, shared: bool, seconds: float) -> int | None:  # noqa: ARG001
        """Return a locked descriptor, or None when the time is up."""
        return _Waiter(path, shared=shared).wait(seconds)

    def _unlock(descriptor: int) -> None:
        fcntl.flock(descriptor, fcntl.LOCK_UN)

    class _Waiter:
        """A thread that blocks in the system's queue, so that waiting can be given up.

        Asking again and again would be simpler, but whoever asks seldom starves behind busy writers. The
        thread has a descriptor of its own: one that was given up cannot lock the kept one later.
        """

        def __init__(self, path: Path, *, shared: bool) -> None:
            self._path = path
            self._shared = shared
            self._mutex = threading.Lock()
            self._ready = threading.Event()
            self._given_up = False
            self._descriptor: int | None = None
            threading.Thread(target=self._block, name="waiting for the store", daemon=True).start()

        def _block(self) -> None:
            try:
                descriptor = os.open(self._path, os.O_RDONLY | os.O_CLOEXEC)
                fcntl.flock(descriptor, _operation(shared=self._shared))
            except OSError:  # the folder went away: nobody gets the lock, and the wait runs out
                return
            with self._mutex:
                if self._given_up:
                    os.close(descriptor)
                else:
                    self._descriptor = descriptor
            self._ready.set()

        def wait(self, seconds: float) -> int | None:
            try:
                self._ready.wait(seconds)
            except BaseException:
                self._give_up()
                raise
            with self._mutex:
                self._given_up = self._descriptor is None
                return self._descriptor

        def _give_up(self) -> None:
            with self._mutex:
                self._given_up = True
                if self._descriptor is not None:
                    os.close(self._descriptor)


class FolderLock:
    """The lock of a store's folder.

    A user without the right to write may still share it; without any lock file nothing is locked, and
    `exclusive` says that nothing may be written.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._held: int | None = None
        self._kept: int | None
        try:
            self._kept = os.open(path, os.O_RDWR | os.O_CREAT | getattr(os, "O_CLOEXEC", 0), 0o666)
        except OSError:
            try:
                self._kept = os.open(path, os.O_RDONLY | getattr(os, "O_CLOEXEC", 0))
            except OSError:
                self._kept = None

    @property
    def exclusive(self) -> bool:
        """Whether there is a file to lock."""
        return self._kept is not None

    def take(self, *, shared: bool, seconds: float) -> bool:
        """Take the lock, alone or together with other readers; return False when the time is up.

        Raises:
            RemovedError: If the file was removed since it was opened.

        """
        if self._held is not None:
            raise RuntimeError("The lock is held already.")
        if self._kept is None:
            return shared
        if _try(self._kept, shared=shared):
            self._held = self._kept
        elif seconds > 0:
            self._held = _wait(self._path, self._kept, shared=shared, seconds=seconds)
        if self._held is not None and os.fstat(self._kept).st_nlink == 0:
            # Somebody put another file in its place: those who open the store now lock that one.
            self.release()
            raise RemovedError(self._path.parent)
        return self._held is not None

    def release(self) -> None:
        """Let others in. Does nothing if the lock is not held."""
        held, self._held = self._held, None
        if held is None:
            return
        if held == self._kept:
            _unlock(held)
        else:
            os.close(held)

    def close(self) -> None:
        """Release the lock and the file."""
        self.release()
        if self._kept is not None:
            os.close(self._kept)
            self._kept = None
