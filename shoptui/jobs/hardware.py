"""Hardware against the work ahead: what the parts not installed still need, what is here, what to buy."""

from collections.abc import Iterator
from dataclasses import dataclass

from shoptui.domain.fasteners.need import Need, Stock, needs
from shoptui.domain.places import Place, State
from shoptui.domain.records import HARDWARE, Part
from shoptui.jobs.put_away import bin_name
from shoptui.store.shop import Shop


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

    Stock that other builds wait for is not set aside: who comes first takes it.
    """
    kinds = {part.id: part for part in all_kinds(shop)}
    stock = {number: stock_of(shop, part) for number, part in kinds.items()}
    found = {need.hardware: need for need in needs(wanted(shop, build), stock)}
    if build is not None:
        kinds = {number: part for number, part in kinds.items() if number in found and found[number].needed}
    told = (_stand(shop, part, stock[number], found.get(number)) for number, part in kinds.items())
    return tuple(sorted(told, key=lambda each: (each.part.words.casefold(), each.part.id)))


def all_kinds(shop: Shop) -> Iterator[Part]:
    """Yield every kind of hardware; of thousands of parts only those are made records."""
    for number, document in shop.database.documents("parts").items():
        if document.get("kind") == HARDWARE and not document.get("withdrawn"):
            yield shop.parts.get(number)


def wanted(shop: Shop, build: int | None = None) -> Iterator[tuple[int, int]]:
    """Yield kind and pieces for each part that is still to go on an open build, or on one build alone."""
    open_builds = {each.id for each in shop.builds.all() if each.status == "open"}
    for number, document in shop.database.documents("parts").items():
        lines = document.get("hardware")
        if not lines or document.get("withdrawn"):
            continue
        of = document.get("build")
        if of not in open_builds or build not in (None, of):
            continue
        ahead = document.get("needed", 0) - shop.book.in_state(number, State.INSTALLED, State.ASSEMBLED)
        if ahead > 0:
            yield from ((line["part"], line.get("qty", 1) * ahead) for line in lines)


def stock_of(shop: Shop, part: Part) -> Stock:
    """Return what there is of a kind."""
    return Stock(
        new=shop.book.in_state(part.id, State.RECEIVED),
        used=shop.book.in_state(part.id, State.REMOVED),
        on_order=shop.book.in_state(part.id, State.ORDERED),
        minimum=part.minimum,
        pack=part.pieces,
        one_use=part.one_use,
    )


def _stand(shop: Shop, part: Part, stock: Stock, need: Need | None) -> Stand:
    lies = sorted(shop.book.places(part.id, State.RECEIVED, State.REMOVED), key=lambda pair: -pair[1])
    where = tuple(dict.fromkeys(_lies(shop, place) for place, _ in lies))
    usable = stock.new + (0 if part.one_use else stock.used)
    return Stand(part, stock, need or Need(part.id, 0, usable, stock.on_order, 0, 0, part.one_use), where)


def _lies(shop: Shop, place: Place) -> str:
    return bin_name(shop.bins.get(place.where)) if isinstance(place.where, int) else "the bench"


def to_buy(shop: Shop, part: Part) -> int:
    """Return the pieces of one kind that are to be bought, in whole packs."""
    own = (pair for pair in wanted(shop) if pair[0] == part.id)
    return sum(need.to_buy for need in needs(own, {part.id: stock_of(shop, part)}))


def takers(shop: Shop, hardware: Part) -> Iterator[tuple[Part, int, int]]:
    """Yield each part that a kind fastens, how many one piece takes, and how many pieces are to go on yet."""
    for number, document in shop.database.documents("parts").items():
        if document.get("withdrawn"):
            continue
        for line in document.get("hardware", ()):
            if line["part"] == hardware.id:
                part = shop.parts.get(number)
                on = shop.book.in_state(number, State.INSTALLED, State.ASSEMBLED)
                yield part, line.get("qty", 1), max(0, part.needed - on)
