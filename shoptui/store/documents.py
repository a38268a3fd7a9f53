"""Records to documents and back: plain JSON values, fields at their default left out."""

from collections.abc import Callable, Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from datetime import date, datetime
from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Any, TypeVar, cast, get_args, get_origin, get_type_hints

from shoptui.domain.places import Place, State

R = TypeVar("R")
Document = Mapping[str, Any]


def to_document(record: object) -> dict[str, Any]:
    """Return a record's fields as JSON values, without its id and without fields at their default."""
    return {
        field.name: plain(value)
        for field in fields(record)  # type: ignore[arg-type]
        if field.name != "id" and (value := getattr(record, field.name)) != _default(field)
    }


def plain(value: object) -> Any:  # noqa: ANN401 - JSON values are what they are
    """Return a value of a record as JSON has it."""
    if value is None or isinstance(value, (bool, int, float)):
        return value
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, str):
        return str(value)
    if isinstance(value, (datetime, date)):
        return value.isoformat()
    if isinstance(value, (tuple, list)):
        return [plain(each) for each in value]
    return {
        field.name: plain(each)
        for field in fields(value)  # type: ignore[arg-type]
        if (each := getattr(value, field.name)) != _default(field)
    }


def from_document(kind: type[R], number: int, document: Document) -> R:
    """Return the record that a document holds; fields of a later program are left alone, not read."""
    return _read(kind, document, {"id": number})


def _read(kind: type[R], document: Document, values: dict[str, Any]) -> R:
    """Return a dataclass from its document and what is known of it beside."""
    as_they_are, readers = _fields(kind)  # type: ignore[arg-type]
    for name, value in document.items():
        if name in as_they_are:
            values[name] = value
        elif name in readers:
            values[name] = readers[name](value)
    return kind(**values)


def read_field(kind: type, name: str, value: object) -> Any:  # noqa: ANN401 - any field's type
    """Return one field of a record from its JSON value, as an edit holds it."""
    return _readers(kind)[name](value)


_MOVES_PLACES: dict[tuple[str, int | str, str], Place] = {}


def place_of(value: list[Any]) -> Place:
    """Return the place that a move's document names; one object for each place, since moves are many."""
    key = (value[0], value[1], value[2])
    place = _MOVES_PLACES.get(key)
    if place is None:
        place = _MOVES_PLACES[key] = Place(State(value[0]), value[1], value[2])
    return place


def place_document(place: Place) -> list[Any]:
    """Return a place as a move's document names it: state, where, as."""
    return [place.state.value, place.where, place.condition]


def _default(field: Field[Any]) -> Any:  # noqa: ANN401 - any field's type
    return field.default if field.default_factory is MISSING else field.default_factory()


@cache
def _fields(kind: type) -> tuple[frozenset[str], dict[str, Callable[[Any], Any]]]:
    """Return the fields that a document holds as they are, and how the others are read: lists are long."""
    readers = _readers(kind)
    as_they_are = frozenset(name for name, reader in readers.items() if reader is _same)
    return as_they_are, {name: reader for name, reader in readers.items() if name not in as_they_are}


@cache
def _readers(kind: type) -> dict[str, Callable[[Any], Any]]:
    hints = get_type_hints(kind)
    return {field.name: _reader(hints[field.name]) for field in fields(kind) if field.name != "id"}


def _same(value: Any) -> Any:  # noqa: ANN401 - any field's type
    return value


def _reader(hint: Any) -> Callable[[Any], Any]:  # noqa: ANN401 - a type hint
    if get_origin(hint) is UnionType:
        inner = _reader(next(each for each in get_args(hint) if each is not NoneType))
        return _same if inner is _same else lambda value: None if value is None else inner(value)
    if get_origin(hint) is tuple:
        inner = _reader(get_args(hint)[0])
        return tuple if inner is _same else lambda value: tuple([inner(each) for each in value])
    if hint in (date, datetime):
        return hint.fromisoformat  # type: ignore[no-any-return]
    if isinstance(hint, type) and issubclass(hint, Enum):
        return hint
    if is_dataclass(hint):
        nested = cast("type", hint)
        return lambda value: _read(nested, value, {})
    return _same
