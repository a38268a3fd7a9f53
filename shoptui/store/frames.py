"""The lines of a journal: length, CRC-32 and JSON of one record, so that a torn line is known as such.

    0000001d 9ae1af56 {"changes":[["bins",1,null]]}

Length and CRC-32 (the polynomial of zlib, ISO/IEC 3309) are eight hexadecimal digits each and speak of the
JSON's bytes. JSON as written here has no line end inside, so each line is one record.
"""

import re
import zlib
from collections.abc import Iterator
from dataclasses import dataclass

HEAD = 18
"""Bytes before the JSON."""

_START = re.compile(rb"[0-9a-f]{8} [0-9a-f]{8} \{")
_SAMPLE = b"00000000 00000000 {"


class DamagedFrameError(ValueError):
    """Bytes that cannot be the torn end of a journal."""

    def __init__(self, offset: int, why: str) -> None:
        super().__init__(why)
        self.offset = offset
        """Bytes before the damage, from the start of what was split."""


@dataclass(frozen=True, slots=True)
class Frames:
    """What a piece of a journal holds.

    Args:
        payloads: The JSON of each record, in order.
        length: Bytes of the whole records; what follows is torn.

    """

    payloads: tuple[bytes, ...]
    length: int


def frame(payload: bytes) -> bytes:
    r"""Return the line of one record.

    >>> frame(b'{"changes":[]}')
    b'0000000e 5358cdcb {"changes":[]}\n'
    """
    return b"%08x %08x %b\n" % (len(payload), zlib.crc32(payload), payload)


def split(data: bytes) -> Frames:
    """Read the records of a piece of a journal that begins where a record begins.

    Raises:
        DamagedFrameError: If what is wrong cannot be a record that was cut short while it was written: a
            whole record follows it, or its own bytes say that it was once whole.

    """
    payloads: list[bytes] = []
    start = 0
    for end in _line_ends(data):
        payload = _payload(data[start:end])
        if payload is None:
            break
        payloads.append(payload)
        start = end + 1
    if start < len(data):
        _refuse_damage(data, start)
    return Frames(tuple(payloads), start)


def _line_ends(data: bytes) -> Iterator[int]:
    end = data.find(b"\n")
    while end >= 0:
        yield end
        end = data.find(b"\n", end + 1)


def _payload(line: bytes) -> bytes | None:
    """Return the JSON of a whole line without its line end, None if the line is not as it was written."""
    if not _START.match(line):
        return None
    payload = line[HEAD:]
    if len(payload) != int(line[:8], 16) or zlib.crc32(payload) != int(line[9:17], 16):
        return None
    return payload


def _refuse_damage(data: bytes, start: int) -> None:
    rest = data[start:]
    lines = rest.split(b"\n")
    if any(_payload(line) is not None for line in lines[1:]):
        raise DamagedFrameError(start, "a record is not as it was written, and whole ones follow it")
    # A machine that lost power can leave the length of a record on the disk before its bytes: zeros.
    if b"\0" in rest:
        return
    if len(lines) > 1 or not _cut_short(rest):
        raise DamagedFrameError(start, "the last record is not as it was written")


def _cut_short(rest: bytes) -> bool:
    """Whether bytes without a line end can be the beginning of a record."""
    if len(rest) < len(_SAMPLE):
        return _START.match(rest + _SAMPLE[len(rest) :]) is not None
    return _START.match(rest) is not None and len(rest) <= HEAD + int(rest[:8], 16)
