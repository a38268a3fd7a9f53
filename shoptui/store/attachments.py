"""Files that are kept with a record: their bytes lie in the shop's folder under their SHA-256.

Nothing here knows the tables, so a big file may be taken in by a thread of its own; its record is written
once the bytes are on the disk.
"""

import hashlib
import mimetypes
import os
import stat
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from shoptui.domain.inert import inert
from shoptui.store.folder import FILES, part_path, sync_folder

LARGEST = 250_000_000
"""Bytes of the largest file that is kept: a minute of film from a telephone has some 200 MB. Common practice,
no source.
"""

CHUNK = 1 << 20

GoOn = Callable[[int, int], bool]
"""Told the bytes that were read and all bytes; returns whether to go on."""


class AttachmentError(ValueError):
    """A file that cannot be kept; the words say why, and nothing was kept."""


@dataclass(frozen=True, slots=True)
class Kept:
    """A file whose bytes are in the folder: its name, its kind by that, its bytes and their digest."""

    name: str
    kind: str
    size: int
    sha256: str


def place_in(folder: Path, sha256: str) -> Path:
    """Return where the bytes of a digest lie.

    >>> place_in(Path("shop"), "ab12").as_posix()
    'shop/files/ab/12'
    """
    return folder / FILES / sha256[:2] / sha256[2:]


def digest_in(folder: Path, sha256: str) -> str:
    """Return the digest of the bytes that lie where those of a digest should; empty where none lie there."""
    try:
        with place_in(folder, sha256).open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError:
        return ""


def keep(folder: Path, source: Path, *, go_on: GoOn = lambda _read, _all: True) -> Kept:
    """Copy a file into a shop's folder; the same bytes lie there once.

    They are written under a name that means nothing, brought to the disk, and only then get their own: a
    crash leaves the whole file, or none.

    Args:
        folder: The shop's folder.
        source: The file.
        go_on: Told how far it is after each part of it; false stops it.

    Raises:
        AttachmentError: The file is not there, is no file, is empty or too large, cannot be read, changed
            while it was read, was stopped, or the folder takes no more.

    """
    name = inert(source.name, 120)
    with _opened(source) as file:
        before = os.fstat(file.fileno())
        beside = part_path(folder / FILES / "new")
        try:
            beside.parent.mkdir(exist_ok=True)
            with beside.open("xb") as copy:
                sha256 = _copy(file, copy, before.st_size, go_on)
            after = os.fstat(file.fileno())
            if (before.st_size, before.st_mtime_ns) != (after.st_size, after.st_mtime_ns):
                raise AttachmentError(f"{name} changed while it was read. Try again when it is finished.")
            _bring_in(beside, place_in(folder, sha256))
        except OSError as error:
            reason = (error.strerror or "unknown reason").lower()
            raise AttachmentError(f"{name} cannot be copied into the shop's folder: {reason}.") from error
        finally:
            with suppress(OSError):
                beside.unlink()
    return Kept(source.name, mimetypes.guess_type(source.name)[0] or "", before.st_size, sha256)


def _opened(source: Path) -> BinaryIO:
    try:
        # A pipe would wait for ever for its writer.
        number = os.open(source, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    except (OSError, ValueError) as error:
        raise AttachmentError(_cannot(source, error)) from error
    try:
        _refuse(os.fstat(number), source)
    except AttachmentError:
        os.close(number)
        raise
    return os.fdopen(number, "rb")


def _cannot(source: Path, error: OSError | ValueError) -> str:
    name = inert(str(source), 200)
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        return f"There is no file {name}."
    reason = (getattr(error, "strerror", "") or "it is no path").lower()
    return f"{name} cannot be read: {reason}."


def _refuse(found: os.stat_result, source: Path) -> None:
    name = inert(source.name or str(source), 120)
    if stat.S_ISDIR(found.st_mode):
        raise AttachmentError(f"{name} is a folder; a file was expected.")
    if not stat.S_ISREG(found.st_mode):
        raise AttachmentError(f"{name} is no file but a device or a pipe; a file was expected.")
    if found.st_size == 0:
        raise AttachmentError(f"{name} is empty; a file with something in it was expected.")
    if found.st_size > LARGEST:
        most = f"at most {LARGEST // 1_000_000} MB were expected"
        raise AttachmentError(f"{name} has {found.st_size // 1_000_000} MB; {most}.")


def _copy(file: BinaryIO, copy: BinaryIO, size: int, go_on: GoOn) -> str:
    digest = hashlib.sha256()
    done = 0
    while chunk := file.read(CHUNK):
        done += len(chunk)
        if done > size:
            break  # it grows: the caller sees that it changed
        digest.update(chunk)
        copy.write(chunk)
        if not go_on(done, size):
            raise AttachmentError("Stopped; nothing was kept of it.")
    copy.flush()
    os.fsync(copy.fileno())
    return digest.hexdigest()


def _bring_in(beside: Path, place: Path) -> None:
    place.parent.mkdir(exist_ok=True)
    beside.replace(place)
    sync_folder(place.parent)
    sync_folder(place.parent.parent)
