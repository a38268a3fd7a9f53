"""One transaction: the moves, records and field changes of one thing that somebody does."""

from collections.abc import Iterable
from dataclasses import fields, replace
from typing import TYPE_CHECKING, Any, TypeVar, cast

from shoptui.domain import records
from shoptui.domain.ledger import Move
from shoptui.domain.tags import Kind
from shoptui.store.documents import place_document, plain, to_document
from shoptui.store.history import MADE
from shoptui.store.shelves import Record

if TYPE_CHECKING:
    from shoptui.store.shop import Shop

R = TypeVar("R", bound=Record)

BAG = "bag"
"""The kind of a bin that is a bag: it carries a bag's tag."""

KINDS_OF_OWN = {BAG: Kind.BAG, records.HARDWARE: Kind.HARDWARE}
"""Kinds of bins and parts that carry a tag of their own kind."""

TAG_KINDS: dict[type, Kind] = {
    records.Part: Kind.PART,
    records.Bin: Kind.BIN,
    records.Box: Kind.BOX,
    records.Build: Kind.VEHICLE,
    records.Person: Kind.PERSON,
    records.Wrench: Kind.WRENCH,
}
"""Records that carry a tag of ours."""


class Transaction:
    """What one transaction changes; made by `Shop.transaction`."""

    def __init__(self, shop: "Shop", words: str, terminal: str, who: int | None, undoes: int | None) -> None:
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

    def state(self, reading: records.Reading) -> None:
        """Write down what was stated about a joint: it is never changed afterwards."""
        self._shop.database.insert("readings", to_document(replace(reading, transaction=self.id)))

    def add(self, record: R) -> R:
        """Add a record; where it has no tag or code yet it gets them. Return it with its id."""
        kind = KINDS_OF_OWN.get(getattr(record, "kind", "")) or TAG_KINDS.get(type(record))
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
        return cast("R", shelf.get(number))

    def change(self, record: R, **changes: object) -> R:
        """Change fields of a record; return it as it is now."""
        shelf = self._shop.shelves[type(record)]
        before = shelf.get(record.id)
        after = replace(before, **changes)
        if after == before:
            return cast("R", before)
        self._shop.database.replace(shelf.table, record.id, to_document(after))
        for name in changes:
            old, new = plain(getattr(before, name)), plain(getattr(after, name))
            if old != new:
                self._note(shelf.table, record.id, name, old, new)
        return cast("R", after)

    def change_settings(self, **changes: object) -> records.Settings:
        """Change the shop's settings; where nothing was set before they are made, as they usually are."""
        settings = self._shop.settings
        return self.change(settings if settings.id else self.add(settings), **changes)

    def _note(self, table: str, record: int, field: str, before: object, after: object) -> None:
        document: dict[str, object] = {
            "transaction": self.id,
            "table": table,
            "record": record,
            "field": field,
        }
        if before is not None:
            document["before"] = before
        if after is not None:
            document["after"] = after
        self._shop.database.insert("edits", document)
