"""What hardware the work ahead needs, what is there, and what to buy."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from shoptui.domain.fasteners.figures import FastenerError


@dataclass(frozen=True, slots=True)
class Stock:
    """One kind of hardware in the shop.

    Args:
        new: Unused pieces on hand.
        used: Pieces that came off a vehicle and may go on again, unless they are for one use.
        on_order: Pieces that are to come.
        minimum: Pieces that are to be left when the work is done.
        pack: Pieces in a pack as it is bought.
        one_use: Whether a piece may be used once only.
        kept: Pieces of those that may be used, in bags of parts that do not take them for the work.

    """

    new: int = 0
    used: int = 0
    on_order: int = 0
    minimum: int = 0
    pack: int = 1
    one_use: bool = False
    kept: int = 0

    @property
    def on_hand(self) -> int:
        """Pieces that may be used for the work."""
        return self.new + (0 if self.one_use else self.used) - self.kept

    def __post_init__(self) -> None:
        """Refuse counts that cannot be."""
        least = min(self.new, self.used, self.on_order, self.minimum, self.kept, self.on_hand)
        if least < 0 or self.pack < 1:
            raise FastenerError(
                f"Counts of 0 or more and a pack of 1 or more were expected; {min(least, self.pack)} came."
            )


@dataclass(frozen=True, slots=True)
class Need:
    """How one kind of hardware stands against the work ahead.

    Args:
        hardware: Id of its kind.
        needed: Pieces that the work ahead takes; what is on already is none of it.
        on_hand: Pieces that may be used for it.
        on_order: Pieces that are to come.
        short: Pieces missing for the work.
        to_buy: Pieces to buy so that the work is done and the minimum is left, in whole packs.
        one_use: Whether they must be new.

    """

    hardware: int
    needed: int
    on_hand: int
    on_order: int
    short: int
    to_buy: int
    one_use: bool


def needs(wanted: Iterable[tuple[int, int]], stock: Mapping[int, Stock]) -> tuple[Need, ...]:
    """Return every kind that the work needs or of which too few are left, by id.

    Args:
        wanted: Id of the hardware and pieces, once for each part that takes some.
        stock: By id; a kind that is not in it has none.

    >>> needs([(1, 5), (1, 4)], {1: Stock(new=3, used=20, pack=10, one_use=True)})[0].to_buy
    10

    """
    total = dict.fromkeys(stock, 0)
    for hardware, pieces in wanted:
        total[hardware] = total.get(hardware, 0) + pieces
    found = (_need(hardware, total[hardware], stock.get(hardware, _NONE)) for hardware in sorted(total))
    return tuple(need for need in found if need.needed or need.to_buy)


_NONE = Stock()


def _need(hardware: int, needed: int, stock: Stock) -> Need:
    coming = stock.on_hand + stock.on_order
    missing = max(0, needed + stock.minimum - coming)
    return Need(
        hardware,
        needed,
        stock.on_hand,
        stock.on_order,
        max(0, needed - coming),
        -(-missing // stock.pack) * stock.pack,
        stock.one_use,
    )
