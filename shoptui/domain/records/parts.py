"""Parts: lines of a build's list, originals, shop stock, hardware, and kits of them."""

from dataclasses import dataclass
from datetime import date

from shoptui.domain.prices import NOT_KNOWN, Price
from shoptui.domain.records.joints import Joint


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
class HardwareLine:
    """One kind of hardware that fastens a part, and how many of it one piece of the part takes."""

    part: int
    qty: int = 1


HARDWARE = "hardware"
"""The kind of a part that is a kind of fastener or consumable."""


@dataclass(frozen=True, slots=True)
class Part:
    """One line of a build's list, an original part, shop stock, or one kind of hardware.

    Hardware is shop stock of no build: it is ordered, received, counted and put away like any part. On a
    vehicle it is installed at the part that it fastens.

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
        kind: `part` or `hardware`; of hardware, `sold_as` and `pieces` are the pack that it is bought in.
        hardware: What fastens it.
        joints: How its sheets have it tightened.
        designation: Of hardware, as standards write it, or in words where no standard does.
        finish: Of hardware: zinc plated, stainless, black.
        one_use: Of hardware: what came off is scrap, and what goes on is new.
        minimum: Of hardware: pieces that are to be left in the shop.
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
    kind: str = "part"
    hardware: tuple[HardwareLine, ...] = ()
    joints: tuple[Joint, ...] = ()
    designation: str = ""
    finish: str = ""
    one_use: bool = False
    minimum: int = 0
    withdrawn: bool = False

    @property
    def is_hardware(self) -> bool:
        """Whether it is a kind of hardware."""
        return self.kind == HARDWARE

    @property
    def words(self) -> str:
        """Its description; that of hardware with its designation, or two sizes would read alike.

        >>> nut = Part(1, "", "", None, "Wheel nut", kind=HARDWARE, designation="nut M12 x 1.5 - 10")
        >>> nut.words
        'Wheel nut M12 x 1.5 - 10'

        """
        said = self.description.casefold()
        if not self.designation or self.designation.casefold() in said:
            return self.description
        kind, _, rest = self.designation.partition(" ")
        doubled = kind.isalpha() and kind.casefold() in said.split()
        return f"{self.description} {rest if doubled else self.designation}".strip()
