"""A snapshot: all tables as plain TinyDB would have written them, one document a line.

    {"parts": {
    "1": {"code": "FA-014", ...},
    "2": {...}},
    "_store": {"1": {"schema": 1, "generation": 3, "highest": {"parts": 2}, "of": [2, 4711], "crc": 123456}}}

`_store` comes last: schema version, generation, the highest id ever given in each table (so that none is
given twice), generation and length of the journal that it contains, and the CRC-32 of all bytes before it.
"""

import json
import os
import sys
import zlib
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, BinaryIO

from shoptui.store.errors import DamagedError, NewerStoreError, NoPermissionError

Document = Mapping[str, Any]
Tables = dict[str, dict[int, Document]]

STORE = "_store"
"""The table that speaks of the store itself."""

SHARED_LENGTH = 3
"""Items of the lists worth sharing: state, where and condition of a place."""

SHARED_TYPES = frozenset({str, int})
PIECE_BYTES = 1 << 16
_MARK = b'"_store": '

encode = json.JSONEncoder(separators=(",", ":"), allow_nan=False).encode
"""Return the JSON of a value, one line, ASCII only; what JSON cannot hold is a TypeError or ValueError."""


def _shared_keys(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    return {sys.intern(key): value for key, value in pairs}


_raw_decode = json.JSONDecoder(object_pairs_hook=_shared_keys).raw_decode


def decode(text: str) -> Any:  # noqa: ANN401 - any JSON value
    """Return the value of a JSON text of ours; equal keys are one object, since documents are many."""
    return _raw_decode(text)[0]


@dataclass(frozen=True, slots=True)
class Heading:
    """What a snapshot says of itself.

    Args:
        schema: Version of the store's format.
        generation: Its number.
        highest: Table to the highest id ever given there.
        of: Generation and length in bytes of the journal that it contains.

    """

    schema: int
    generation: int
    highest: Mapping[str, int]
    of: tuple[int, int] = (0, 0)


class GivenUpError(Exception):
    """Writing a snapshot was given up, because nobody needs it any more."""


def write(path: Path, tables: Tables, heading: Heading, given_up: Callable[[], bool] = lambda: False) -> None:
    """Write a snapshot and bring it to the disk.

    It goes out in small pieces: many documents are never one string, and other threads get their turns.
    """
    crc = 0
    with path.open("wb") as file:
        for piece in _pieces(_texts(tables)):
            if given_up():
                raise GivenUpError
            crc = zlib.crc32(piece, crc)
            file.write(piece)
        own = {
            "schema": heading.schema,
            "generation": heading.generation,
            "highest": dict(heading.highest),
            "of": list(heading.of),
            "crc": crc,
        }
        file.write(_MARK + json.dumps({"1": own}).encode() + b"}\n")
        file.flush()
        os.fsync(file.fileno())


def _texts(tables: Tables) -> Iterator[str]:
    yield "{"
    for name, documents in sorted(tables.items()):
        lead = f"{json.dumps(name)}: {{\n"
        for number, document in documents.items():
            yield f'{lead}"{number}": {encode(document)}'
            lead = ",\n"
        if documents:
            yield "},\n"


def _pieces(texts: Iterable[str]) -> Iterator[bytes]:
    some: list[str] = []
    size = 0
    for text in texts:
        some.append(text)
        size += len(text)
        if size >= PIECE_BYTES:
            yield "".join(some).encode()
            some, size = [], 0
    yield "".join(some).encode()


def read(file: BinaryIO, path: Path, known_schema: int) -> tuple[Tables, Heading]:
    """Read a snapshot.

    Raises:
        DamagedError: If it is cut short or not as it was written.
        NewerStoreError: If a newer version of the program wrote it.

    """
    try:
        data = file.read()
        crc = zlib.crc32(memoryview(data)[: data.rfind(_MARK)])
        # One of the two is let go of before the other grows: a store's text is most of what loading needs.
        text = data.decode()
        del data
        tables = json.loads(text)
        del text
        heading = _heading(tables.pop(STORE)["1"])
    except PermissionError:
        raise NoPermissionError(path) from None
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        raise DamagedError(path, None, "it cannot be read as a snapshot; it may be cut short") from None
    if heading[0].schema > known_schema:
        raise NewerStoreError(heading[0].schema, known_schema)
    if heading[1] is not None and crc != heading[1]:
        raise DamagedError(path, None, "its bytes are not those that were written")
    try:
        return {name: _numbered(tables.pop(name)) for name in list(tables)}, heading[0]
    except (ValueError, TypeError, AttributeError):
        raise DamagedError(path, None, "a table in it is not made of numbered documents") from None


def _heading(own: dict[str, Any]) -> tuple[Heading, int | None]:
    """Return the heading and the CRC-32; a person who mended a snapshot by hand leaves `crc` out."""
    highest = {str(name): int(number) for name, number in own["highest"].items()}
    of = own.get("of") or (0, 0)
    crc = own.get("crc")
    return Heading(int(own["schema"]), int(own["generation"]), highest, (int(of[0]), int(of[1]))), crc


def _numbered(documents: dict[str, dict[str, Any]]) -> dict[int, Document]:
    if not all(type(document) is dict for document in documents.values()):
        raise TypeError
    _share_lists(documents.values())
    return {int(number): document for number, document in documents.items()}


def _share_lists(documents: Iterable[dict[str, Any]]) -> None:
    """Make equal short lists one object: of the places that moves name, there are few, and of moves many.

    It is safe since documents are never changed in place.
    """
    shared: dict[tuple[Any, ...], list[Any]] = {}
    for document in documents:
        for key, value in document.items():
            if type(value) is list and len(value) == SHARED_LENGTH:
                first, second, third = value
                # Numbers and texts never are equal, so what is put in place is what was there.
                if type(first) is str and type(second) in SHARED_TYPES and type(third) is str:
                    document[key] = shared.setdefault((first, second, third), value)
