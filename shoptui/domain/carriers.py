"""What is built into another part, and where it is therefore: it goes where the part that carries it goes.

The ledger holds a built-in piece at its carrier, and does not move it when the carrier moves; these functions
say what follows from that.
"""

from collections.abc import Iterator

from shoptui.domain.ledger import Balances
from shoptui.domain.places import Place, State

CARRIES = (
    State.INSTALLED,
    State.MOCKED_UP,
    State.SENT_OUT,
    State.ASSEMBLED,
    State.RECEIVED,
    State.REMOVED,
    State.HELD,
)
"""States of pieces that can have something built into them, in the order in which they are taken to have it:
nobody puts an empty wheel on the vehicle while one with its tyre lies on the rack. Common practice, no
source.
"""


_ON_THE_SHELF = (State.RECEIVED, State.ASSEMBLED)
"""States of a carrier that say no more of what is built into it than that it is."""


_ON = (State.INSTALLED, State.MOCKED_UP)


def is_unsure(book: Balances, part: int) -> bool:
    """Return whether the books cannot say how much of what is built in is on the vehicle.

    They hold a built-in piece at the line of its carrier, not at one piece of that: so it is where fewer are
    built in than there are to carry them, and of these some are on the vehicle and others are not.
    """
    inside: dict[int, int] = {}
    for place, qty in book.places(part, State.ASSEMBLED):
        if isinstance(place.where, int):
            inside[place.where] = inside.get(place.where, 0) + qty
    return any(
        qty < carriers_of(book, each) and 0 < _on(book, each) < carriers_of(book, each)
        for each, qty in inside.items()
    )


def _on(book: Balances, part: int) -> int:
    """Return the pieces of a part that are on the vehicle, for good or for trial, or built into what is."""
    return sum(qty for place, qty in standing(book, part) if place.state in _ON)


def is_built_into(book: Balances, inner: int, outer: int) -> bool:
    """Return whether any piece of a part is built into another, directly or through a third.

    A ledger that another program wrote may have a ring in it: it is followed once.
    """
    seen: set[int] = set()
    ahead = [inner]
    while ahead:
        part = ahead.pop()
        for place, qty in book.places(part, State.ASSEMBLED):
            if qty > 0 and isinstance(place.where, int) and place.where not in seen:
                if place.where == outer:
                    return True
                seen.add(place.where)
                ahead.append(place.where)
    return False


def carriers_of(book: Balances, part: int) -> int:
    """Return the pieces of a part that can have something built into them."""
    return book.in_state(part, *CARRIES)


def standing(book: Balances, part: int) -> tuple[tuple[Place, int], ...]:
    """Return the places of a part as they are in truth: what is built in is where its carrier is.

    A carrier on the shelf leaves it `assembled`; one that is on the vehicle, at an outside shop, held or
    taken off has its pieces there too, in their own condition. Where fewer are built in than there are
    carriers, the ones on the vehicle are taken to have them.
    """
    places = book.places(part)
    for place, _ in places:
        if place.state is State.ASSEMBLED:
            return tuple(_standing(book, part, frozenset({part})))
    return places


def _standing(book: Balances, part: int, seen: frozenset[int]) -> Iterator[tuple[Place, int]]:
    for place, qty in book.places(part):
        if place.state is not State.ASSEMBLED or place.where in seen or not isinstance(place.where, int):
            yield place, qty
            continue
        left = qty
        carrier = place.where
        there = [pair for pair in _standing(book, carrier, seen | {carrier}) if pair[1] > 0]
        total = sum(n for at, n in there if at.state in CARRIES)
        share = _each(qty, total) if total else 0
        for state in CARRIES:
            for at, n in there:
                taken = min(left, n * share) if at.state is state else 0
                if taken:
                    yield (
                        (place if state in _ON_THE_SHELF else Place(state, at.where, place.condition)),
                        taken,
                    )
                    left -= taken
        if left:
            yield place, left


def _each(qty: int, carriers: int) -> int:
    """Return the pieces in one carrier; the last one may have fewer."""
    return -(-qty // carriers)


def taken_along(
    book: Balances, carrier: int, qty: int, *, full: bool = False
) -> Iterator[tuple[int, Place, int]]:
    """Yield part, place and pieces of what leaves with some pieces of the part that carries it.

    When some of several carriers leave, they take their share, a remainder staying with the others.

    Args:
        book: The balances.
        carrier: Id of the part that carries.
        qty: How many pieces of it leave.
        full: Whether those that leave have a remainder, as those on the vehicle are taken to.

    """
    yield from _along(book, carrier, qty, frozenset({carrier}), full=full)


def _along(
    book: Balances, carrier: int, qty: int, seen: frozenset[int], *, full: bool
) -> Iterator[tuple[int, Place, int]]:
    had = carriers_of(book, carrier)
    for inside, total in sorted(book.parts_at(State.ASSEMBLED, carrier).items()):
        leaving = total
        if qty < had:
            leaving = min(total, _each(total, had) * qty) if full else total * qty // had
        if leaving <= 0 or inside in seen:
            continue
        yield from _along(book, inside, leaving, seen | {inside}, full=full)
        for place, n in book.places(inside, State.ASSEMBLED):
            if place.where == carrier and leaving:
                taken = min(leaving, n)
                yield inside, place, taken
                leaving -= taken
