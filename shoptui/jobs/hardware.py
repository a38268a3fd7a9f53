"""Hardware against the work ahead: what the parts not installed still need, what is here, what to buy."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from shoptui.domain.fasteners.need import Need, Stock, needs
from shoptui.domain.places import Place, State
from shoptui.domain.records import HARDWARE, Part
from shoptui.jobs.fastened import FASTENED, ahead, keeper, usable
from shoptui.jobs.put_away import bin_name
from shoptui.jobs.renew import to_renew
from shoptui.store.shop import Shop

Work = Counter[tuple[int, int]]
"""Id of a part and of a kind of hardware to the pieces of hardware that are still to go on with it."""


@dataclass(frozen=True, slots=True)
class Stand:
    """How one kind of hardware stands.

    Args:
        part: The kind.
        stock: What there is of it.
        need: What the work needs, and what is short.
        where: Bins, drawers and bags in which pieces lie, the fullest first.

    """

    part: Part
    stock: Stock
    need: Need
    where: tuple[str, ...]

    @property
    def short(self) -> bool:
        """Whether some are to be bought: for the work, or for the minimum."""
        return bool(self.need.to_buy)


def stands(shop: Shop, build: int | None = None) -> tuple[Stand, ...]:
    """Return how all hardware stands by name, or, for one build alone, what that needs.

    Stock that other builds wait for is not set aside: who comes first takes it. What lies in the bag of a
    part is for that part alone.
    """
    kinds = {part.id: part for part in all_kinds(shop)}
    work = work_ahead(shop, build)
    stock = {number: stock_of(shop, part, work) for number, part in kinds.items()}
    found = {need.hardware: need for need in needs(_pieces(work), stock)}
    if build is not None:
        kinds = {number: part for number, part in kinds.items() if number in found and found[number].needed}
    told = (_stand(shop, part, stock[number], found.get(number)) for number, part in kinds.items())
    return tuple(sorted(told, key=lambda each: (each.part.words.casefold(), each.part.id)))


def _pieces(work: Work) -> Iterator[tuple[int, int]]:
    return ((hardware, qty) for (_, hardware), qty in work.items())


def all_kinds(shop: Shop) -> Iterator[Part]:
    """Yield every kind of hardware; of thousands of parts only those are made records."""
    for number, document in shop.database.documents("parts").items():
        if document.get("kind") == HARDWARE and not document.get("withdrawn"):
            yield shop.parts.get(number)


def work_ahead(shop: Shop, build: int | None = None) -> Work:
    """Return what the work on open builds takes, or that on one build alone.

    That is what goes on with the parts that are still to go on, and what may be used once and is to be new
    for joints that are open again.
    """
    open_builds = {each.id for each in shop.builds.all() if each.status == "open"}
    work: Counter[tuple[int, int]] = Counter()
    for number, document in shop.database.documents("parts").items():
        lines = document.get("hardware")
        if not lines or document.get("withdrawn"):
            continue
        of = document.get("build")
        if of not in open_builds or build not in (None, of):
            continue
        on = shop.book.in_state(number, *FASTENED)
        if (to_go_on := document.get("needed", 0) - on) > 0:
            for line in lines:
                work[number, line["part"]] += line.get("qty", 1) * to_go_on
        if on and any(joint.get("one_use") for joint in document.get("joints", ())):
            for hardware, qty in to_renew(shop, shop.parts.get(number)):
                work[number, hardware] += qty
    return work


def stock_of(shop: Shop, part: Part, work: Work) -> Stock:
    """Return what there is of a kind for some work."""
    return Stock(
        new=shop.book.in_state(part.id, State.RECEIVED),
        used=shop.book.in_state(part.id, State.REMOVED),
        on_order=shop.book.in_state(part.id, State.ORDERED),
        minimum=part.minimum,
        pack=part.pieces,
        one_use=part.one_use,
        kept=_kept(shop, part, work),
    )


def _kept(shop: Shop, kind: Part, work: Work) -> int:
    """Return the pieces that lie in bags of parts beyond what the work on those takes."""
    in_bags: Counter[int] = Counter()
    for place, qty in shop.book.places(kind.id, *usable(kind)):
        if (of := keeper(shop, place)) is not None:
            in_bags[of] += qty
    return sum(max(0, qty - work[of, kind.id]) for of, qty in in_bags.items())


def _stand(shop: Shop, part: Part, stock: Stock, need: Need | None) -> Stand:
    lies = sorted(shop.book.places(part.id, State.RECEIVED, State.REMOVED), key=lambda pair: -pair[1])
    where = tuple(dict.fromkeys(_lies(shop, place) for place, _ in lies))
    return Stand(
        part, stock, need or Need(part.id, 0, stock.on_hand, stock.on_order, 0, 0, part.one_use), where
    )


def _lies(shop: Shop, place: Place) -> str:
    return bin_name(shop.bins.get(place.where)) if isinstance(place.where, int) else "the bench"


def to_buy(shop: Shop, part: Part) -> int:
    """Return the pieces of one kind that are to be bought, in whole packs."""
    work = work_ahead(shop)
    own = (pair for pair in _pieces(work) if pair[0] == part.id)
    return sum(need.to_buy for need in needs(own, {part.id: stock_of(shop, part, work)}))


@dataclass(frozen=True, slots=True)
class Taker:
    """A part that a kind of hardware fastens.

    Args:
        part: The part.
        qty: Pieces of hardware that one piece of it takes.
        ahead: Pieces of the part that are still to go on.
        renew: Pieces of hardware that are to be new for joints of it that are open again.

    """

    part: Part
    qty: int
    ahead: int
    renew: int


def takers(shop: Shop, hardware: Part) -> Iterator[Taker]:
    """Yield each part that a kind fastens."""
    for number, document in shop.database.documents("parts").items():
        if document.get("withdrawn"):
            continue
        for line in document.get("hardware", ()):
            if line["part"] == hardware.id:
                part = shop.parts.get(number)
                again = sum(qty for kind, qty in to_renew(shop, part) if kind == hardware.id)
                yield Taker(part, line.get("qty", 1), ahead(shop, part), again)
