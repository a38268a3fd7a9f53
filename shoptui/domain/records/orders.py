"""What comes and from whom: suppliers, orders with their charges, boxes."""

from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class Supplier:
    """Who sells to the shop or works for it; `lead_days` are usual working days from order to box."""

    id: int
    code: str
    name: str
    lead_days: int | None = None
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One line of an order; `total_minor` is what the whole line cost, None if not known."""

    part: int
    qty: int
    total_minor: int | None = None


@dataclass(frozen=True, slots=True)
class Charge:
    """What an order cost beside its lines.

    Args:
        kind: One of `CHARGES`; a discount counts against the order, a core deposit comes back.
        amount_minor: As on the paper, in the charge's own currency.
        currency: ISO 4217 code, empty for the order's.
        bank_minor: What the bank took for it, in the shop's currency; None if not known.
        reclaimable: Whether a tax is reclaimed.
        part: Id of the part whose core a deposit is for.
        due: Day until which the core has to be back.
        refund_minor: What is expected back.
        refunded_minor: What came back; None while nothing did.

    """

    kind: str
    amount_minor: int
    currency: str = ""
    bank_minor: int | None = None
    reclaimable: bool = False
    part: int | None = None
    due: date | None = None
    refund_minor: int | None = None
    refunded_minor: int | None = None


CHARGES = ("freight", "duty", "tax", "discount", "core deposit")


@dataclass(frozen=True, slots=True)
class Order:
    """One purchase, or one outside job.

    Args:
        id: Document id.
        code: The shop's name for it: the supplier's order number where that is unique, else one made from it.
        kind: purchase or outside.
        supplier: Id.
        number: The supplier's order number as it stands on papers and boxes.
        placed: Day.
        due: Day it is expected.
        lines: Parts and quantities.
        currency: ISO 4217 code.
        work: What an outside job does, in the parts' own word (`painted`); empty for a purchase.
        charges: What it cost beside its lines.
        withdrawn: Whether an undo took back its making.

    """

    id: int
    code: str
    kind: str
    supplier: int
    number: str
    placed: date | None = None
    due: date | None = None
    lines: tuple[OrderLine, ...] = ()
    currency: str = ""
    work: str = ""
    charges: tuple[Charge, ...] = ()
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class BoxLine:
    """What a packing slip or a shipping notice says is in a box."""

    part: int
    qty: int


@dataclass(frozen=True, slots=True)
class Box:
    """One parcel.

    Args:
        id: Document id.
        code: Our tag, kind X.
        orders: Ids of the orders that it carries something of.
        also_orders: Ids of orders of which something came in it unexpectedly.
        tracking: Tracking numbers as scanned.
        contents: What a slip or notice says is inside; empty when nothing says so.
        due: Day it is expected; None means as its orders.
        arrived: Moment.
        opened: Moment.
        closed: Moment.
        open_at: Name of the terminal at which it lies open, empty if at none.
        also_at: Names of other terminals whose people unpack it too.
        withdrawn: Whether an undo took back its making.

    """

    id: int
    code: str
    orders: tuple[int, ...] = ()
    tracking: tuple[str, ...] = ()
    contents: tuple[BoxLine, ...] = ()
    due: date | None = None
    arrived: datetime | None = None
    opened: datetime | None = None
    closed: datetime | None = None
    open_at: str = ""
    also_orders: tuple[int, ...] = ()
    also_at: tuple[str, ...] = ()
    withdrawn: bool = False

    @property
    def tag(self) -> str:
        """A box has no name but its tag."""
        return self.code

    @property
    def terminals(self) -> tuple[str, ...]:
        """Names of all terminals at which it lies open."""
        return (self.open_at, *self.also_at) if self.open_at else ()
