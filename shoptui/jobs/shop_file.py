"""A shop's file on its way into the shop: what all its tables are read with."""

import re
from dataclasses import dataclass, field
from datetime import date

from shoptui.domain.cells import day
from shoptui.domain.names import Names
from shoptui.domain.records import Part
from shoptui.domain.tables import Reading, Row
from shoptui.jobs.taken import CodesTaken, NamesTaken
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction


@dataclass(slots=True)
class ShopFile:
    """One file on its way into the shop.

    Args:
        shop: The shop.
        tx: The open transaction.
        reading: Notes what is wrong.
        taken: Names and tags that are given already.
        codes: Learned codes that are.
        parts: The names of all parts.
        base: The day from which `+6` and `-3` are counted.
        text: The file as it is written.
        counts: Table to rows read.
        doubts: Sentences about what is taken, and to be looked at by a person.

    """

    shop: Shop
    tx: Transaction
    reading: Reading
    taken: NamesTaken
    codes: CodesTaken
    parts: Names[Part]
    base: date
    text: str = ""
    counts: dict[str, int] = field(default_factory=dict)
    doubts: list[str] = field(default_factory=list)

    def day(self, cell: str) -> date:
        """Return a day, counted from the file's own where it has a sign."""
        return day(cell, self.base)


def needed(reading: Reading, row: Row, column: str) -> str:
    """Return words that must be there."""
    text = reading.text(row, column)
    if not text and not re.sub(r"\s", "", row.cells.get(column, "")):
        reading.trouble(row.line, column, "This is needed; it is not there.")
    return text
