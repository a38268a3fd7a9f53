"""The invented shop, with a box that never empties and codes to scan; and what came of scans."""

from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from shoptui.domain import verbs
from shoptui.domain.check_digits import gs1_check_digit
from shoptui.domain.codes import normal
from shoptui.domain.records import Box, LearnedCode, Order, OrderLine, Part
from shoptui.jobs.sample import make_sample
from shoptui.store.shop import Clock, Shop

PIECES = 100_000
NOT_ORDERED = "Q-1"
"""A part on no order: scanned at Receiving it is always asked about."""


def make_played_shop(folder: Path, clock: Clock) -> None:
    """Make the shop in a folder that is not there yet."""
    shop = make_sample(folder, clock)
    with shop.transaction("set up for scans", terminal="office") as tx:
        build, supplier = next(shop.builds.all()), next(shop.suppliers.all())
        parts = [tx.add(Part(0, "", "", build.id, f"Trial part {n}", number=f"TRY-{n}/Z")) for n in range(8)]
        for number in (3, 4, 5, 6):
            gtin = f"95299990000{number}"
            gtin += gs1_check_digit(gtin)
            tx.add(LearnedCode(0, gtin, normal(gtin), "parts", parts[number].id))
        tx.add(Part(0, NOT_ORDERED, "", build.id, "Part that nobody ordered", number="QUES-1"))
        lines = tuple(OrderLine(part.id, PIECES) for part in parts)
        order = tx.add(Order(0, "TRIAL-1", "purchase", supplier.id, "TRIAL-1", lines=lines))
        for part in parts:
            tx.enter(verbs.order(part.id, PIECES, supplier=supplier.id, order=order.id))
        tx.add(Box(0, "", (order.id,)))
    shop.close()


@dataclass
class PlayedShop:
    """The shop as the test sees it, beside the program.

    Args:
        folder: Where it is.
        shop: Open in this process.
        box: Code of the box that never empties.
        codes: Code to part id, each with a check of its own: tags, GTINs, a GTIN in an element string.
        numbers: The same of makers' numbers, which have no check.
        badges: Badge to person id.

    """

    folder: Path
    shop: Shop
    box: str
    codes: dict[str, int]
    numbers: dict[str, int]
    badges: dict[str, int]

    @classmethod
    def open(cls, folder: Path, clock: Clock) -> "PlayedShop":
        shop = Shop.open(folder, clock=clock)
        parts = [part for part in shop.parts.all() if part.description.startswith("Trial part")]
        gtins = {learned.record: learned.code for learned in shop.learned.all()}
        codes = {part.tag: part.id for part in parts[:3]}
        codes |= {gtins[part.id]: part.id for part in parts[3:6]}
        codes[f"]C1010{gtins[parts[6].id]}21A7"] = parts[6].id
        numbers = {parts[7].number: parts[7].id}
        order = shop.orders.by_code("TRIAL-1")
        box = next(box.code for box in shop.boxes.all() if order.id in box.orders)
        badges = {person.tag: person.id for person in shop.people.all()}
        return cls(folder, shop, box, codes, numbers, badges)

    def last_transaction(self) -> int:
        """Id of the newest transaction."""
        self.shop.refresh()
        return max(self.shop.database.documents("transactions"))

    def received_since(self, transaction: int) -> list[int]:
        """Parts of all moves after a transaction, oldest first, a part as often as it has pieces."""
        self.shop.refresh()
        entries = list(self.shop.history.moves_since(transaction + 1))
        return [entry.move.part for entry in reversed(entries) for _ in range(entry.move.qty)]

    def done_since(self, transaction: int) -> int:
        """Transactions after one."""
        return self.last_transaction() - transaction

    def person_at(self, terminal: str = "t") -> int | None:
        """Who is at the terminal."""
        self.shop.refresh()
        return self.shop.terminal(terminal).person


@dataclass
class Counts:
    """What became of scans.

    Args:
        scans: Played.
        lost: Did not arrive.
        leaked: Left letters in a field or in the line, or took some of a person's away.
        false: Things done that nobody scanned.

    """

    scans: int = 0
    lost: int = 0
    leaked: int = 0
    false: int = 0

    def __add__(self, other: "Counts") -> "Counts":
        return Counts(
            self.scans + other.scans,
            self.lost + other.lost,
            self.leaked + other.leaked,
            self.false + other.false,
        )


def compared(expected: list[int], came: list[int], done: int) -> tuple[int, int]:
    """Return lost and false: of parts expected and parts that came, in so many transactions."""
    lost = Counter(expected) - Counter(came)
    right = len(expected) - lost.total()
    return lost.total(), max(done, len(came)) - right
