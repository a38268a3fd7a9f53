"""One shop: its records, its ledger and its history, and the transactions that change them."""

import random
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import datetime
from functools import cached_property
from pathlib import Path
from typing import Any

from shoptui.domain import records, shoots
from shoptui.domain.ledger import Balances
from shoptui.domain.lookup import CodeIndex
from shoptui.domain.sections import SectionIndex
from shoptui.domain.tags import Kind, allocate
from shoptui.store.box_feed import BoxIndex
from shoptui.store.code_feed import feed_codes
from shoptui.store.database import Database
from shoptui.store.documents import Document, place_of, to_document
from shoptui.store.history import History
from shoptui.store.label_feed import LabelIndex
from shoptui.store.part_feed import feed_kits, feed_sections
from shoptui.store.readings import Readings
from shoptui.store.shelves import Shelf
from shoptui.store.standing_feed import Standings
from shoptui.store.transaction import Transaction

Clock = Callable[[], datetime]


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
        self.wrenches = Shelf(database, "wrenches", records.Wrench)
        self.files = Shelf(database, "files", records.Attachment)
        self.shoots = Shelf(database, "shoots", shoots.Shoot)
        self.learned = Shelf(database, "codes", records.LearnedCode)
        self.label_runs = Shelf(database, "label_runs", records.LabelRun)
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
                self.wrenches,
                self.files,
                self.shoots,
                self.learned,
                self.label_runs,
                self.terminals,
                self._settings,
            )
        }
        self.book = Balances()
        database.listen("moves", self._move_changed)
        self.box_index = BoxIndex(database)
        self.history = History(database)
        self.readings = Readings(database)
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

    @cached_property
    def codes(self) -> CodeIndex:
        """What every code stands for: fed from the first scan on, since reports never ask."""
        index = CodeIndex()
        feed_codes(self.database, index)
        return index

    @cached_property
    def labels(self) -> LabelIndex:
        """What has its label, and which tags hang on paper: fed from the first question on."""
        return LabelIndex(self.database)

    @cached_property
    def standings(self) -> Standings:
        """How joints stand: derived by `shoptui.jobs.joints`, forgotten when anything changes under it."""
        return Standings(self.database, self.book)

    @cached_property
    def sections(self) -> SectionIndex:
        """Which parts are in which section: fed from the first question on."""
        index = SectionIndex()
        feed_sections(self.database, index)
        return index

    @cached_property
    def in_kits(self) -> dict[int, set[int]]:
        """Part id to the ids of the kits that it is in: fed from the first question on."""
        index: dict[int, set[int]] = {}
        feed_kits(self.database, index)
        return index

    @property
    def settings(self) -> records.Settings:
        """The shop's settings; the usual ones where nothing was set."""
        return next(self._settings.all(), records.Settings())

    def _move_changed(self, _number: int, before: Document | None, after: Document | None) -> None:
        for document, sign in ((before, -1), (after, 1)):
            if document is None:
                continue
            part, qty = document["part"], document["qty"] * sign
            self.book.enter(part, place_of(document["from"]), -qty)
            self.book.enter(part, place_of(document["to"]), qty)

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
    ) -> Iterator[Transaction]:
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
        """Return a tag that stands for nothing yet, and hangs on no blank label."""
        return self.new_tags(kind, 1)[0]

    def new_tags(self, kind: Kind, count: int) -> tuple[str, ...]:
        """Return several of them, each another; in a transaction, no other process can give the same."""
        fresh: dict[str, None] = {}

        def taken(tag: str) -> bool:
            return tag in fresh or self.codes.knows(tag) or self.labels.on_paper(tag)

        while len(fresh) < count:
            fresh[allocate(kind, self.rng, taken)] = None
        return tuple(fresh)
