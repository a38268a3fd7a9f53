"""What is built into a part, in words: it goes where that part goes."""

from collections import Counter
from collections.abc import Iterable

from shoptui.domain.carriers import standing
from shoptui.domain.ledger import Balances, Move
from shoptui.domain.places import Place, State
from shoptui.domain.records import Part
from shoptui.jobs.at import pieces
from shoptui.store.shop import Shop


def goes_along(shop: Shop, part: Part, moves: Iterable[Move]) -> str:
    """Return what is built into a part and changes its place with some moves: "With it: 1 Spring."."""
    inside = _inside(shop.book, part.id)
    if not inside:
        return ""
    before = {each: _standing(shop.book, each) for each in inside}
    with shop.book.supposing(moves):
        after = {each: _standing(shop.book, each) for each in inside}
    told = [
        pieces(moved, shop.parts.get(each))
        for each in inside
        if (moved := (after[each] - before[each]).total())
    ]
    return f"With it: {', '.join(told)}." if told else ""


def _inside(book: Balances, part: int) -> list[int]:
    """Return the ids of the parts that are built into a part, or into one of those."""
    found = [part]
    for each in found:
        found.extend(inner for inner in sorted(book.parts_at(State.ASSEMBLED, each)) if inner not in found)
    return found[1:]


def _standing(book: Balances, part: int) -> Counter[Place]:
    places: Counter[Place] = Counter()
    for place, qty in standing(book, part):
        places[place] += qty
    return places
