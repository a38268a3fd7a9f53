"""One kind of record as forms know it: what is asked, and what it has to be as a whole."""

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from shoptui.domain.ledger import Move
from shoptui.jobs.asked import Asked, Sense
from shoptui.jobs.whole_record import Refusal
from shoptui.store.shop import Shop


def _none(_sense: Sense, _after: Any) -> Refusal | None:  # noqa: ANN401 - any record
    return None


def _no_more(_before: Any, _after: Any) -> dict[str, Any]:  # noqa: ANN401 - any record
    return {}


def _still(_sense: Sense, _before: Any, _after: Any) -> tuple[Move, ...]:  # noqa: ANN401 - any record
    return ()


@dataclass(frozen=True, slots=True)
class Ask:
    """What has to be answered before a record is changed: the ways to answer, each its word and a label."""

    words: str
    ways: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Following:
    """What follows from what was answered: field to value, other records with theirs, and words about it."""

    changes: Mapping[str, Any] = field(default_factory=dict)
    others: tuple[tuple[Any, Mapping[str, Any]], ...] = ()
    words: str = ""


def _unasked(_sense: Sense, _before: Any, _after: Any, _said: Collection[str]) -> Following:  # noqa: ANN401
    return Following()


@dataclass(frozen=True, slots=True)
class RecordForm:
    """One kind of record, as forms know it.

    Args:
        kind: The record's dataclass.
        one: What one is called.
        many: What several are called.
        fields: What is asked, in order.
        called: Names one in a sentence.
        refused: Says what cannot be about a record as a whole: field and sentence.
        doubt: Says what is to be asked before a new one is made, empty if nothing.
        moves: What its change moves in the ledger.
        follows: What else changes with it, unless that was typed too: field to value.
        fixed: What a new one has beside its fields.
        note: Says what is worth saying once it is saved, empty if nothing.
        leaves_out: Names the fields that one record has no use for.
        asks: Says what has to be answered before one is changed, and then what follows from it.
        card: Yields what its card says, label and words; what stands in its fields where this is None.

    """

    kind: type
    one: str
    many: str
    fields: tuple[Asked, ...]
    called: Callable[[Any], str]
    refused: Callable[[Sense, Any], Refusal | None] = _none
    doubt: Callable[[Sense, Any], str] = lambda _sense, _after: ""
    moves: Callable[[Sense, Any, Any], Iterable[Move]] = _still
    follows: Callable[[Any, Any], dict[str, Any]] = _no_more
    fixed: tuple[tuple[str, Any], ...] = ()
    note: Callable[[Any], str] = lambda _: ""
    leaves_out: Callable[[Any], Collection[str]] = lambda _: ()
    asks: Callable[[Sense, Any, Any, Collection[str]], Ask | Following] = _unasked
    card: Callable[[Shop, Any], Iterable[tuple[str, str]]] | None = None

    def asked(self, name: str) -> Asked | None:
        """Return a field by its name, None where it is not asked for."""
        return next((each for each in self.fields if each.name == name), None)

    def asked_of(self, record: Any) -> tuple[Asked, ...]:  # noqa: ANN401 - any record
        """Return what is asked of one record."""
        left_out = self.leaves_out(record)
        return tuple(asked for asked in self.fields if asked.name not in left_out)
