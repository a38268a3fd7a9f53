"""Making a store's folder, and reading what is in one."""

import os
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from shoptui.store.errors import (
    BusyError,
    NetworkShareError,
    NoPermissionError,
    NoStoreError,
    StoreExistsError,
)
from shoptui.store.file_journal import FileJournal
from shoptui.store.folder import (
    FILES,
    LOCK,
    current_generation,
    journal_path,
    names,
    network_share,
    part_path,
    snapshot_path,
    sync_folder,
)
from shoptui.store.journal import OutrunError, Position
from shoptui.store.lock import FolderLock
from shoptui.store.memory import Memory, quiet_collector
from shoptui.store.records import changes_of
from shoptui.store.snapshot import Heading, read, write

SCHEMA = 1
"""Version of the documents' format that this program writes."""

ALLOW_NETWORK = "SHOPTUI_ALLOW_NETWORK"

TRIES = 5


@dataclass(frozen=True, slots=True)
class Loaded:
    """A store as it was read, and the version of the format in which it was."""

    memory: Memory
    schema: int
    position: Position


def make_folder(folder: Path, *, schema: int, allow_network: bool | None) -> None:
    """Make an empty store in a folder that is not there yet or empty.

    The snapshot comes last: until it is there, the folder is no store, and making it can be tried again.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        refuse_network(folder, allow_network)
        others = set(names(folder)) - {LOCK, FILES, journal_path(folder, 1).name}
        others = {name for name in others if not name.endswith(".part")}
        if snapshot_path(folder, 1).name in others or any(name.startswith("snapshot-") for name in others):
            raise StoreExistsError(f"There is a store in {folder} already. Open it, or name another folder.")
        if others:
            raise StoreExistsError(
                f"{folder} is not empty: it holds {min(others)!r}. A new store needs a folder of its own; "
                f"name one that is not there yet."
            )
        FolderLock(folder / LOCK).close()
        with journal_path(folder, 1).open("wb") as journal:
            os.fsync(journal.fileno())
        part = part_path(snapshot_path(folder, 1))
        write(part, {}, Heading(schema, 1, {}))
        part.replace(snapshot_path(folder, 1))
        sync_folder(folder)
        with suppress(OSError):  # a folder above that may be passed but not read
            sync_folder(folder.parent)
    except (FileExistsError, NotADirectoryError):
        raise StoreExistsError(f"{folder} is a file; a folder was expected. Name another one.") from None
    except PermissionError:
        raise NoPermissionError(folder) from None


def refuse_network(folder: Path, allow: bool | None) -> None:  # noqa: FBT001 - passed on, never written out
    """Refuse a folder on a network share, unless told otherwise.

    Raises:
        NetworkShareError: With the reason and the way out.

    """
    if allow or (allow is None and os.environ.get(ALLOW_NETWORK) == "1"):
        return
    try:
        mounts = Path("/proc/mounts").read_text("utf-8", "surrogateescape")
    except OSError:  # no such list on this system: nothing is known, nothing is refused
        return
    kind = network_share(folder.resolve(), mounts)
    if kind is not None:
        raise NetworkShareError(folder, kind)


def open_journal(folder: Path, *, schema: int, lock_seconds: float) -> FileJournal:
    """Return the journal of a folder that holds a store; `load` opens its file."""
    if not any(name.startswith(("snapshot-", "journal-")) for name in names(folder)):
        raise NoStoreError(folder)  # and no lock file is left in somebody's folder
    return FileJournal(folder, FolderLock(folder / LOCK), schema=schema, lock_seconds=lock_seconds)


def load(folder: Path, journal: FileJournal, *, schema: int) -> Loaded:
    """Read the snapshot that counts and the journal after it.

    Only choosing and opening the files happens under the lock: a snapshot never changes, and its bytes stay
    readable when somebody removes its name.
    """
    for _ in range(TRIES):
        with journal.glance() as may_read:
            if not may_read:
                raise BusyError(journal.lock_seconds)
            generation = current_generation(folder)
            path = snapshot_path(folder, generation)
            try:
                journal.open(generation)
                file = path.open("rb")
            except (FileNotFoundError, OutrunError):  # only without a lock to share: look again
                continue
            except PermissionError:
                raise NoPermissionError(path) from None
        with file, quiet_collector() as made:
            tables, heading = read(file, path, schema)
            made(sum(map(len, tables.values())))
            try:
                memory = Memory(tables, heading.highest)
                records, position = journal.read(Position(generation, 0), journal.lock_seconds)
                for change in changes_of(records):
                    memory.apply(*change)
            except OutrunError:  # several generations went by while the snapshot was read
                continue
        return Loaded(memory, heading.schema, position)
    raise BusyError(journal.lock_seconds)
