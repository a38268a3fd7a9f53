"""One shop: its records, its ledger and its history, and the transactions that change them."""

import random
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import fields, replace
from datetime import datetime
from pathlib import Path
from typing import Any, TypeVar, cast

from shoptui.domain import records
from shoptui.domain.ledger import Balances, Move
from shoptui.domain.lookup import CodeIndex
from shoptui.domain.places import State
from shoptui.domain.tags import Kind, allocate
from shoptui.store.code_feed import feed_codes
from shoptui.store.database import Database, Document
from shoptui.store.documents import place_document, place_of, plain, to_document
from shoptui.store.history import MADE, History
from shoptui.store.shelves import Record, Shelf

R = TypeVar("R", bound=Record)
Clock = Callable[[], datetime]

TAG_KINDS: dict[type, Kind] = {
    records.Part: Kind.PART,
    records.Bin: Kind.BIN,
    records.Box: Kind.BOX,
    records.Build: Kind.VEHICLE,
    records.Person: Kind.PERSON,
}
"""Records that carry a tag of ours."""


class Shop:
    """One shop's store, open in this process; it belongs to one thread.

    Args:
        database: The open database.
        clock: Returns the moment, aware, in UTC.
        rng: Where tags come from.

    """

    def __init__(self, database: Database, clock: Clock, rng: random.Random) -> None:
        self.database = database
        self.clock = clock
        self.rng = rng
        self.builds = Shelf(database, "builds", records.Build)
        self.parts = Shelf(database, "parts", records.Part)
        self.orders = Shelf(database, "orders", records.Order)
        self.boxes = Shelf(database, "boxes", records.Box)
        self.suppliers = Shelf(database, "suppliers", records.Supplier)
        self.bins = Shelf(database, "bins", records.Bin)
        self.people = Shelf(database, "people", records.Person)
        self.shoots = Shelf(database, "shoots", records.Shoot)
        self.learned = Shelf(database, "codes", records.LearnedCode)
        self.terminals = Shelf(database, "terminals", records.Terminal)
        self._settings = Shelf(database, "settings", records.Settings)
        self.shelves: dict[type, Shelf[Any]] = {
            shelf.kind: shelf
            for shelf in (
                self.builds,
                self.parts,
                self.orders,
                self.boxes,
                self.suppliers,
                self.bins,
                self.people,
                self.shoots,
                self.learned,
                self.terminals,
                self._settings,
            )
        }
        self.book = Balances()
        self.received_in: dict[str, dict[int, int]] = {}
        """Box code to part id to pieces that came in it: fed, since every receiving scan asks."""
        database.listen("moves", self._move_changed)
        self.history = History(database)
        self.codes = CodeIndex()
        feed_codes(database, self.codes)
        self._watchers: list[Callable[[], None]] = []
        self._open: Transaction | None = None

    @classmethod
    def create(cls, folder: Path, *, clock: Clock, rng: random.Random | None = None) -> "Shop":
        """Make a new, empty shop in a folder that is not there yet or empty."""
        return cls(Database.create(folder), clock, rng or random.SystemRandom())

    @classmethod
    def open(cls, folder: Path, *, clock: Clock, rng: random.Random | None = None) -> "Shop":
        """Open the shop in a folder."""
        return cls(Database(folder), clock, rng or random.SystemRandom())

    def close(self) -> None:
        """Close the store; what was acknowledged is on disk already."""
        self.database.close()

    @property
    def settings(self) -> records.Settings:
        """The shop's settings; the usual ones where nothing was set."""
        return next(self._settings.all(), records.Settings())

    def _move_changed(self, _number: int, before: Document | None, after: Document | None) -> None:
        for document, sign in ((before, -1), (after, 1)):
            if document is None:
                continue
            part, qty = document["part"], document["qty"] * sign
            source, target = place_of(document["from"]), place_of(document["to"])
            self.book.enter(part, source, -qty)
            self.book.enter(part, target, qty)
            if ref := document.get("ref"):
                came = self.received_in.setdefault(ref, {})
                came[part] = came.get(part, 0) + qty * _direction(source.state, target.state)

    def refresh(self) -> bool:
        """Take in what other processes appended; return whether anything came."""
        changed = self.database.refresh()
        if changed:
            self._tell()
        return changed

    def watch(self, watcher: Callable[[], None]) -> None:
        """Call a function after every change, own or foreign."""
        self._watchers.append(watcher)

    def _tell(self) -> None:
        for watcher in self._watchers:
            watcher()

    @contextmanager
    def transaction(
        self, words: str, *, terminal: str, who: int | None = None, undoes: int | None = None
    ) -> Iterator["Transaction"]:
        """Run one thing that somebody does: all of it is on disk when the block ends, or nothing is.

        Inside the block what other processes did is already taken in. A block that changes nothing writes
        nothing. A transaction inside another joins it.
        """
        if self._open is not None:
            yield self._open
            return
        with self.database.transaction():
            self._open = Transaction(self, words, terminal, who, undoes)
            try:
                yield self._open
                self._open.finish()
            finally:
                wrote = self._open.wrote
                self._open = None
        if wrote:
            self._tell()

    def terminal(self, name: str) -> records.Terminal:
        """Return what a terminal was at; id 0 if nothing is known of it."""
        return self.terminals.by_code(name) or records.Terminal(0, name)

    def remember(self, name: str, **changes: object) -> records.Terminal:
        """Write down what a terminal is at: this is no part of the history and is not undone."""
        before = self.terminal(name)
        after = replace(before, **changes)  # type: ignore[arg-type]
        if after == before:
            return before
        with self.database.transaction():
            if before.id:
                self.database.replace("terminals", before.id, to_document(after))
            else:
                after = replace(after, id=self.database.insert("terminals", to_document(after)))
        self._tell()
        return after

    def new_tag(self, kind: Kind) -> str:
        """Return a tag that stands for nothing yet."""
        return allocate(kind, self.rng, self.codes.knows)


class Transaction:
    """What one transaction changes; made by `Shop.transaction`."""

    def __init__(self, shop: Shop, words: str, terminal: str, who: int | None, undoes: int | None) -> None:
        self._shop = shop
        self._row: dict[str, Any] = {"when": shop.clock().isoformat(), "terminal": terminal, "words": words}
        if who is not None:
            self._row["who"] = who
        if undoes is not None:
            self._row["undoes"] = undoes
        self._id = 0
        self._written_words = ""

    @property
    def wrote(self) -> bool:
        """Whether anything changed."""
        return bool(self._id)

    @property
    def id(self) -> int:
        """Id of the transaction; asking for it makes it."""
        if not self._id:
            self._written_words = self._row["words"]
            self._id = self._shop.database.insert("transactions", self._row)
        return self._id

    def say(self, words: str) -> None:
        """Set the words that stand in the history."""
        self._row["words"] = words

    def finish(self) -> None:
        """Write the final words; called when the block ends."""
        if self._id and self._row["words"] != self._written_words:
            self._shop.database.replace("transactions", self._id, self._row)

    def enter(self, moves: Iterable[Move]) -> None:
        """Enter moves into the ledger.

        Raises:
            CannotMoveError: A place would fall below zero.

        """
        moves = tuple(moves)
        self._shop.book.check(moves)
        for move in moves:
            document: dict[str, Any] = {
                "transaction": self.id,
                "part": move.part,
                "qty": move.qty,
                "from": place_document(move.source),
                "to": place_document(move.target),
            }
            if move.note:
                document["note"] = move.note
            if move.ref:
                document["ref"] = move.ref
            self._shop.database.insert("moves", document)

    def add(self, record: R) -> R:
        """Add a record; where it has no tag or code yet it gets them. Return it with its id."""
        kind = TAG_KINDS.get(type(record))
        given: dict[str, Any] = {}
        names = {field.name for field in fields(cast("Any", record))}
        if kind is not None and "tag" in names and not record.tag:  # type: ignore[attr-defined]
            given["tag"] = self._shop.new_tag(kind)
        if kind is not None and not record.code:
            given["code"] = given.get("tag") or self._shop.new_tag(kind)
        record = replace(cast("Any", record), **given)
        shelf = self._shop.shelves[type(record)]
        number = self._shop.database.insert(shelf.table, to_document(record))
        self._note(shelf.table, number, MADE, None, None)
        return shelf.get(number)  # type: ignore[no-any-return]

    def change(self, record: R, **changes: object) -> R:
        """Change fields of a record; return it as it is now."""
        shelf = self._shop.shelves[type(record)]
        before = shelf.get(record.id)
        after = replace(before, **changes)
        if after == before:
            return before  # type: ignore[no-any-return]
        self._shop.database.replace(shelf.table, record.id, to_document(after))
        for name in changes:
            old, new = plain(getattr(before, name)), plain(getattr(after, name))
            if old != new:
                self._note(shelf.table, record.id, name, old, new)
        return after  # type: ignore[no-any-return]

    def _note(self, table: str, record: int, field: str, before: object, after: object) -> None:
        document = {"transaction": self.id, "table": table, "record": record, "field": field}
        if before is not None:
            document["before"] = before  # type: ignore[assignment]
        if after is not None:
            document["after"] = after  # type: ignore[assignment]
        self._shop.database.insert("edits", document)


def _direction(source: State, target: State) -> int:
    """Whether a move with a box brings pieces in (1), takes that back (-1), or neither."""
    outside = (State.ORDERED, State.NOT_OURS, State.SENT_OUT)
    return (source in outside) - (target in outside)
