"""Reading the append-only history: transactions, moves and edits."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from shoptui.domain.ledger import Move
from shoptui.domain.places import State
from shoptui.store.database import Database
from shoptui.store.documents import Document, place_of


@dataclass(frozen=True, slots=True)
class Transaction:
    """Who did what, when and where; `undoes` is the id of the transaction that it takes back."""

    id: int
    when: datetime
    terminal: str
    words: str
    who: int | None = None
    undoes: int | None = None


@dataclass(frozen=True, slots=True)
class Edit:
    """One field of one record changed; field `made` says that the record was made."""

    id: int
    transaction: int
    table: str
    record: int
    field: str
    before: Any
    after: Any


@dataclass(frozen=True, slots=True)
class Entry:
    """A move with its transaction."""

    id: int
    transaction: int
    move: Move


MADE = "made"

_BY_ORDER = frozenset({State.ORDERED.value, State.SENT_OUT.value})
"""States whose `where` is an order."""


class History:
    """The history of one shop."""

    def __init__(self, database: Database) -> None:
        self._transactions = database.documents("transactions")
        self._moves = database.documents("moves")
        self._edits = database.documents("edits")
        self._of_part: dict[int, list[int]] = {}
        self._from_order: dict[tuple[str, int], list[int]] = {}
        self._of_terminal: dict[str, list[int]] = {}
        self._undone: set[int] = set()
        self._kept: dict[int, int] = {}
        self._last_move = 0
        self._last_edit = 0
        database.listen("moves", self._move_changed)
        database.listen("edits", self._edit_changed)
        database.listen("transactions", self._transaction_changed)

    def _move_changed(self, number: int, before: Document | None, after: Document | None) -> None:
        if before is not None:
            self._of_part[before["part"]].remove(number)
            if before["from"][0] in _BY_ORDER:
                self._from_order[before["from"][0], before["from"][1]].remove(number)
        if after is not None:
            self._of_part.setdefault(after["part"], []).append(number)
            source = after["from"]
            if source[0] in _BY_ORDER:
                self._from_order.setdefault((source[0], source[1]), []).append(number)
            if number > self._last_move:  # noqa: PLR1730 - max() is slow, and all moves come when a store opens
                self._last_move = number

    def _edit_changed(self, number: int, _before: Document | None, after: Document | None) -> None:
        self._last_edit = max(self._last_edit, number)
        if after is not None and after["table"] == "files" and after["field"] == MADE:
            self._kept[after["record"]] = after["transaction"]

    def _transaction_changed(self, number: int, before: Document | None, after: Document | None) -> None:
        if before is not None:
            self._of_terminal[before["terminal"]].remove(number)
            self._undone.discard(before.get("undoes", 0))
        if after is not None:
            self._of_terminal.setdefault(after["terminal"], []).append(number)
            if "undoes" in after:
                self._undone.add(after["undoes"])

    def transaction(self, number: int) -> Transaction:
        """Return one transaction."""
        document = self._transactions[number]
        return Transaction(
            number,
            datetime.fromisoformat(document["when"]),
            document["terminal"],
            document["words"],
            document.get("who"),
            document.get("undoes"),
        )

    def file_kept(self, number: int) -> Transaction | None:
        """Return what kept a file with its record; None where nothing says so."""
        kept = self._kept.get(number)
        return None if kept is None else self.transaction(kept)

    def moves_of_part(self, part: int) -> tuple[Entry, ...]:
        """Return the moves of a part, oldest first."""
        return tuple(self.entry(number) for number in self._of_part.get(part, ()))

    def latest_of_part(self, part: int) -> Iterator[Entry]:
        """Yield the moves of a part, newest first: who looks for late ones reads no further."""
        return map(self.entry, reversed(self._of_part.get(part, ())))

    def latest_into(self, part: int, state: State, condition: str) -> Iterator[Entry]:
        """Yield the moves by which pieces of a part came to be so, newest first, wherever they lie since."""
        for number in reversed(self._of_part.get(part, ())):
            document = self._moves[number]
            before, _, was = document["from"]
            after, _, how = document["to"]
            if after == state and how == condition and (before != after or was != how):
                yield self.entry(number)

    def latest_from(self, state: State, order: int) -> Iterator[Entry]:
        """Yield the moves of what left the state in which it stood by an order, newest first."""
        return map(self.entry, reversed(self._from_order.get((state.value, order), ())))

    def entry(self, number: int) -> Entry:
        """Return one move with its transaction."""
        document = self._moves[number]
        return Entry(number, document["transaction"], move_of(document))

    def beside(self, entry: Entry, step: int) -> Entry | None:
        """Return the move entered right after one (1) or before it (-1), None if it was another deed's."""
        if (entry.id + step) not in self._moves:
            return None
        other = self.entry(entry.id + step)
        return other if other.transaction == entry.transaction else None

    def moves_since(self, transaction: int) -> Iterator[Entry]:
        """Yield the moves of a transaction and all later ones, newest first."""
        for number in range(self._last_move, 0, -1):
            document = self._moves.get(number)
            if document is None:
                continue
            if document["transaction"] < transaction:
                return
            yield self.entry(number)

    def moved_at(self, terminal: str, most: int) -> Iterator[Entry]:
        """Yield what one terminal moved among the last so many moves of all, newest first.

        What took something back, and what was taken back, is left out.
        """
        for number in range(self._last_move, max(0, self._last_move - most), -1):
            document = self._moves.get(number)
            if document is None:
                continue
            own = document["transaction"]
            row = self._transactions[own]
            if row["terminal"] == terminal and "undoes" not in row and own not in self._undone:
                yield self.entry(number)

    def edits_since(self, transaction: int) -> Iterator[Edit]:
        """Yield the edits of a transaction and all later ones, newest first."""
        for number in range(self._last_edit, 0, -1):
            document = self._edits.get(number)
            if document is None:
                continue
            if document["transaction"] < transaction:
                return
            yield _edit(number, document)

    def edits_of(self, table: str, record: int) -> tuple[Edit, ...]:
        """Return the edits of one record, oldest first."""
        return tuple(
            _edit(number, document)
            for number, document in self._edits.items()
            if document["record"] == record and document["table"] == table
        )

    def at_terminal(self, terminal: str) -> Iterator[Transaction]:
        """Yield what one terminal did, newest first."""
        for number in reversed(self._of_terminal.get(terminal, [])):
            yield self.transaction(number)

    def is_undone(self, transaction: int) -> bool:
        """Return whether a transaction was taken back."""
        return transaction in self._undone


def move_of(document: Document) -> Move:
    """Return the move that a document holds."""
    return Move(
        document["part"],
        document["qty"],
        place_of(document["from"]),
        place_of(document["to"]),
        document.get("note", ""),
        document.get("ref", ""),
    )


def _edit(number: int, document: Document) -> Edit:
    return Edit(
        number,
        document["transaction"],
        document["table"],
        document["record"],
        document["field"],
        document.get("before"),
        document.get("after"),
    )
