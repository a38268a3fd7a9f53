"""A name for a terminal that nobody named: the same after a restart, another for a second one beside it.

The number of a terminal's line (pts/3) changes each time a window is opened, and with it the terminal would
lose its open box and what it can undo. So the name is who works on which machine, and a number for each
further program that is open at the same time.
"""

import getpass
import hashlib
import os
import socket
import tempfile
from functools import cache
from itertools import count
from pathlib import Path

from shoptui.store.lock import FolderLock

_kept: list[FolderLock] = []
"""Locks of this process; the system lets go of them when it ends, however it ends."""


@cache
def free_name(store: Path) -> str:
    """Return the first name that no other running program of this user has for a store, and keep it."""
    base = f"{_user()}@{socket.gethostname() or 'here'}"
    folder = Path(tempfile.gettempdir()) / f"shoptui-{_user()}"
    shop = hashlib.sha256(os.fsencode(store.resolve())).hexdigest()[:16]
    try:
        folder.mkdir(mode=0o700, exist_ok=True)
    except OSError:
        return base
    for number in count(1):
        lock = FolderLock(folder / f"{shop}-{number}.lock")
        if not lock.exclusive or lock.take(shared=False, seconds=0):
            _kept.append(lock)
            break
        lock.close()
    return base if number == 1 else f"{base} {number}"


def _user() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError):
        return "somebody"
