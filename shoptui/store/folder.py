"""The files of a store and which of them count.

    snapshot-<g>.json   all tables when generation g began
    journal-<g>.jsonl   every transaction since
    files/              attachments
    lock                see `shoptui.store.lock`

A new generation is written beside the old one and begins with the `rotate` record at the end of the old
journal; until that stands, the files of the new one mean nothing. Afterwards the old snapshot is removed, and
then the old journal, so an old journal without its snapshot is a leftover. So is whatever ends in `.part`.
"""

import json
import os
import re
from collections.abc import Callable, Iterable
from contextlib import suppress
from itertools import count
from pathlib import Path

from shoptui.store.errors import DamagedError, NoPermissionError, NoStoreError
from shoptui.store.frames import DamagedFrameError, split

ROTATE = b'{"rotate":'
"""How the last record of a journal begins when another generation follows."""

LOCK = "lock"
FILES = "files"

_NAME = re.compile(r"(snapshot|journal)-([1-9][0-9]*)\.jsonl?(?:\.[0-9]+\.part)?")
_LONGEST_ROTATE = 1024
_PARTS = count()
_SHARES = frozenset(
    {
        "nfs",
        "nfs4",
        "cifs",
        "smbfs",
        "smb2",
        "smb3",
        "afs",
        "ncpfs",
        "ceph",
        "lustre",
        "beegfs",
        "glusterfs",
        "davfs",
        "fuse.sshfs",
        "fuse.glusterfs",
        "fuse.davfs2",
        "fuse.rclone",
    }
)
"""File systems of /proc/mounts that other machines write to. Left out: 9p and virtiofs, which sandboxes and
virtual machines use for their own disks."""


def snapshot_path(folder: Path, generation: int) -> Path:
    """Return the name of a snapshot."""
    return folder / f"snapshot-{generation}.json"


def journal_path(folder: Path, generation: int) -> Path:
    """Return the name of a journal."""
    return folder / f"journal-{generation}.jsonl"


def part_path(path: Path) -> Path:
    """Return a name of our own under which a file is written before it counts."""
    return path.with_name(f"{path.name}.{os.getpid()}{next(_PARTS):04}.part")


def sync_folder(folder: Path) -> None:
    """Bring the names in a folder to the disk."""
    if os.name == "nt":  # pragma: no cover - Windows does it by itself and has no call for it
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def names(folder: Path) -> tuple[str, ...]:
    """Return the names in a folder.

    Raises:
        NoStoreError: If it is no folder.
        NoPermissionError: If it may not be read.

    """
    try:
        return tuple(sorted(path.name for path in folder.iterdir()))
    except (FileNotFoundError, NotADirectoryError):
        raise NoStoreError(folder) from None
    except PermissionError:
        raise NoPermissionError(folder) from None


def current_generation(folder: Path) -> int:
    """Return the generation that counts; the caller holds the lock, alone or shared.

    Raises:
        NoStoreError: If there is none.
        DamagedError: If a snapshot or a journal is missing.

    """
    there = set(names(folder))
    snapshots, journals = _generations(there, "snapshot"), _generations(there, "journal")
    if not snapshots:
        if len(journals) > 1 or any(journal_path(folder, old).stat().st_size for old in journals):
            raise DamagedError(snapshot_path(folder, max(journals)), None, "it is missing")
        raise NoStoreError(folder)
    # Leftovers lie on both sides: older files that were to be removed, newer ones that never came to count.
    generation = min(snapshots)
    if generation not in journals:
        raise DamagedError(journal_path(folder, generation), None, "it is missing")
    while ends_in_rotate(journal_path(folder, generation)):
        generation += 1
        for path in (snapshot_path(folder, generation), journal_path(folder, generation)):
            if path.name not in there:
                raise DamagedError(path, None, "it is missing")
    before = generation - 1
    if before in journals and not ends_in_rotate(journal_path(folder, before)):
        raise DamagedError(snapshot_path(folder, before), None, "it is missing")
    return generation


def ends_in_rotate(path: Path) -> bool:
    """Whether a journal's last record says that another generation follows."""
    try:
        with path.open("rb") as journal:
            journal.seek(max(0, path.stat().st_size - _LONGEST_ROTATE))
            tail = journal.read()
    except PermissionError:
        raise NoPermissionError(path) from None
    lines = tail.split(b"\n")
    if len(lines) < 2 or lines[-1]:  # noqa: PLR2004 - a whole line is followed by nothing
        return False
    with suppress(DamagedFrameError):
        return any(payload.startswith(ROTATE) for payload in split(lines[-2] + b"\n").payloads)
    return False


def rotate_payload(generation: int, offset: int, schema: int) -> bytes:
    """Return the record that begins a generation, whose journal continues at an offset."""
    return json.dumps(
        {"rotate": generation, "offset": offset, "schema": schema}, separators=(",", ":")
    ).encode()


def sweep(folder: Path, generation: int, at: Callable[[str], None] = lambda _: None) -> None:
    """Remove what is older than a generation: snapshots first, then journals; the caller may write."""
    there = names(folder)
    older = [name for name in there if (found := _NAME.fullmatch(name)) and int(found[2]) < generation]
    # Of its own generation only unfinished files can be leftovers.
    older += [
        name
        for name in there
        if name.endswith(".part") and (found := _NAME.fullmatch(name)) and int(found[2]) == generation
    ]
    for name in sorted(older, key=lambda name: (not name.startswith("snapshot"), name)):
        try:
            (folder / name).unlink()
        except OSError:
            # Windows keeps a file that somebody has open; the next sweep takes it. A journal never goes
            # before its snapshot, which would look like a store that lost its journal.
            return
        at(f"removed {name.partition('-')[0]}")


def _generations(there: Iterable[str], kind: str) -> set[int]:
    return {
        int(found[2])
        for name in there
        if not name.endswith(".part") and (found := _NAME.fullmatch(name)) and found[1] == kind
    }


def network_share(folder: Path, mounts: str) -> str | None:
    r"""Return the kind of network file system that a folder lies on, None if it lies on this machine.

    Args:
        folder: Absolute, links resolved.
        mounts: Text of /proc/mounts: device, place, kind and more on each line, blanks written as \\040.

    >>> network_share(Path("/srv/shop"), "/dev/a / ext4 rw 0 0\nhost:/x /srv nfs4 rw 0 0\n")
    'nfs4'

    """
    best, kind = -1, ""
    for line in mounts.splitlines():
        fields = line.split(" ")
        if len(fields) < 3:  # noqa: PLR2004 - device, place, kind
            continue
        place = Path(re.sub(r"\\([0-7]{3})", lambda found: chr(int(found[1], 8)), fields[1]))
        # The last of several mounts on one place covers the earlier ones.
        if (folder == place or place in folder.parents) and len(place.parts) >= best:
            best, kind = len(place.parts), fields[2]
    return kind if kind in _SHARES else None
