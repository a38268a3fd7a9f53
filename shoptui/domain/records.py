"""The records of a shop: one frozen dataclass for each kind, one TinyDB table for each dataclass.

`id` is the document's id, 0 before the store has given one. `code` is the shop's own short name for the
record, unique in the shop; where the shop gave none it is the tag. `tag` is our own scannable tag.
Dates are `date`, moments are aware `datetime` in UTC, money is an integer of the currency's minor unit.
"""

from dataclasses import dataclass
from datetime import date, datetime

from shoptui.domain.prices import NOT_KNOWN, Price


@dataclass(frozen=True, slots=True)
class OutsideWork:
    """Work that a part needs at an outside shop.

    Args:
        work: The word for the part once it is done: `painted`, `coated`, `machined`.
        days: Usual working days until it is back.
        cost_minor: Expected cost each, minor units; None is not known.

    """

    work: str
    days: int = 0
    cost_minor: int | None = None


@dataclass(frozen=True, slots=True)
class KitLine:
    """One part of a kit's contents, and how many of it one kit holds."""

    part: int
    qty: int = 1


@dataclass(frozen=True, slots=True)
class Part:
    """One line of a build's list, an original part, or shop stock.

    Args:
        id: Document id.
        code: The shop's own name for the line, or the tag.
        tag: Our tag, kind P.
        build: Id of the build, None for shop stock.
        description: In words.
        maker: In words.
        number: The maker's number.
        other_numbers: Superseded and substitute numbers.
        section: Section of the vehicle.
        needed: Pieces wanted on the vehicle.
        sold_as: each, pair, set, pack or kit.
        pieces: Pieces in one as sold.
        positions: LF, RF, LR, RR, front, rear, left, right, or the shop's own; empty if there is but one.
        install_after: Ids of parts that must be on first.
        replaces: Ids of original parts that come off for it.
        original: Whether it was on the vehicle when that came.
        outside_work: In the order in which it is done.
        hours: Hours to install: low, likely, high; empty if not known.
        price: As listed.
        sponsor: Whether a sponsor wants it seen.
        kit: Contents, where the line stands for a kit: the contents have balances, the kit has none.
        read_again: What has to be read again because the number changed, in words; empty if nothing has.
        opened_on: Day on which goods in bulk were opened.
        use_by: Day until which they are good.
        notes: In words.
        withdrawn: Whether an undo took back its making.

    """

    id: int
    code: str
    tag: str
    build: int | None
    description: str
    maker: str = ""
    number: str = ""
    other_numbers: tuple[str, ...] = ()
    section: str = ""
    needed: int = 0
    sold_as: str = "each"
    pieces: int = 1
    positions: tuple[str, ...] = ()
    install_after: tuple[int, ...] = ()
    replaces: tuple[int, ...] = ()
    original: bool = False
    outside_work: tuple[OutsideWork, ...] = ()
    hours: tuple[float, ...] = ()
    price: Price = NOT_KNOWN
    sponsor: bool = False
    kit: tuple[KitLine, ...] = ()
    read_again: str = ""
    opened_on: date | None = None
    use_by: date | None = None
    notes: str = ""
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class Build:
    """One vehicle project; `status` is open or finished, `odometer` a reading in the vehicle's own unit."""

    id: int
    code: str
    tag: str
    title: str
    vehicle: str = ""
    vin: str = ""
    odometer: int | None = None
    odometer_unit: str = "km"
    labour_rate_minor: int | None = None
    status: str = "open"
    withdrawn: bool = False


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


@dataclass(frozen=True, slots=True)
class Bin:
    """One place to put things; `kind` is rack bin, drawer, bag or bench."""

    id: int
    code: str
    tag: str
    words: str = ""
    kind: str = "rack bin"
    room: str = ""
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who works here: name as spoken, badge (tag, kind U), and if they may sign a second check."""

    id: int
    code: str
    tag: str
    name: str
    second_check: bool = False
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class Wrench:
    """One torque tool.

    Args:
        id: Document id.
        code: The shop's own name for it, or the tag.
        tag: Our tag, kind W.
        name: In words.
        unit: Unit of its scale: `N m`, `lbf ft`, `lbf in`.
        low: Lowest marked value, in that unit.
        high: Highest marked value, in that unit.
        kind: setting or indicating.
        deviation_percent: Permitted deviation, plus and minus.
        checked: Day of the last check.
        interval_months: Months until the next check.
        cycles: Uses since the last check.
        barred: Why it may not be used (dropped, failed its check); empty if it may.
        withdrawn: Whether an undo took back its making.

    """

    id: int
    code: str
    tag: str
    name: str
    unit: str = "N m"
    low: float = 0.0
    high: float = 0.0
    kind: str = "setting"
    deviation_percent: float = 0.0
    checked: date | None = None
    interval_months: int = 12
    cycles: int = 0
    barred: str = ""
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file kept with a record; its bytes lie in the shop's folder under their SHA-256.

    Args:
        id: Document id.
        code: Its digest: the same bytes kept twice lie there once.
        name: The file's name as it was given.
        kind: Type by its name, as `image/jpeg`; empty if not known.
        size: Bytes.
        sha256: Hexadecimal.
        table: Table of the record that it belongs to.
        record: Id there.
        note: In words.
        withdrawn: Whether an undo took it back.

    """

    id: int
    code: str
    name: str
    kind: str
    size: int
    sha256: str
    table: str
    record: int
    note: str = ""
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class LearnedCode:
    """A code that stands for something because a person or a list said so.

    Args:
        id: Document id.
        code: As scanned.
        normal: As compared, see `shoptui.domain.codes.normal`.
        kind: Table of the record: parts, bins, builds, people, boxes.
        record: Id there.
        qty: Pieces that one scan means.
        withdrawn: Whether an undo took it back.

    """

    id: int
    code: str
    normal: str
    kind: str
    record: int
    qty: int = 1
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class CountLine:
    """Pieces of a part that one scan counted."""

    part: int
    qty: int


@dataclass(frozen=True, slots=True)
class DraftValue:
    """What stands in one field of a form that is not saved yet, and what stood in it when it was opened."""

    field: str
    text: str
    before: str = ""


@dataclass(frozen=True, slots=True)
class Terminal:
    """What one terminal was at, so that closing the program loses nothing.

    `card` names the Lift's open card as verb and part (`install`, 12), `bin` says where removed things go,
    `look` names the colours.
    `counting` is the bin whose contents are being counted at it, `counted` its scans, the last one last.
    `form` names a form that is being filled in (`parts 12`, `parts new`), and `draft` what stands in it.
    """

    id: int
    code: str
    build: int | None = None
    person: int | None = None
    badge_at: datetime | None = None
    card_verb: str = ""
    card_part: int | None = None
    bin: int | None = None
    look: str = ""
    counting: int | None = None
    counted: tuple[CountLine, ...] = ()
    form: str = ""
    draft: tuple[DraftValue, ...] = ()
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class Settings:
    """The shop's settings.

    Args:
        id: Document id.
        code: Always `shop`.
        name: The shop's name.
        currency: ISO 4217 code.
        units: Unit of torque that is shown first, `N m` or `lbf ft`.
        working_days: Days on which the shop and its suppliers work, Monday is 0.
        working_hours: From when to when, `08:00-17:00`, local time; empty where nobody said.
        holidays: Days on which nobody works.
        twice_seconds: The same code twice within this time is one reading seen twice.
        badge_minutes: A badge lapses after this time.
        scanner_prefix: Textual's name of the key that the scanner sends first.

    """

    id: int = 0
    code: str = "shop"
    name: str = ""
    currency: str = "EUR"
    units: str = "N m"
    working_days: tuple[int, ...] = (0, 1, 2, 3, 4)
    working_hours: str = ""
    holidays: tuple[date, ...] = ()
    twice_seconds: float = 0.4
    badge_minutes: int = 20
    scanner_prefix: str = "f9"
    withdrawn: bool = False
