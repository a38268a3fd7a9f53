"""Bring in what somebody has in the hand and the books have elsewhere."""

from shoptui.domain import verbs
from shoptui.domain.ledger import Move
from shoptui.domain.places import SEALED, UNKNOWN, UNSORTED, Place, State
from shoptui.domain.records import Part
from shoptui.jobs.place_words import piece_words, place_words
from shoptui.store.shop import Shop

ELSEWHERE = (State.ORDERED, State.HELD, State.SENT_OUT, State.MOCKED_UP, State.ASSEMBLED)
"""States of pieces that can be in somebody's hand all the same, the likeliest first."""

_BROUGHT = {
    State.SENT_OUT: "taken back",
    State.HELD: "released",
    State.MOCKED_UP: "taken down",
    State.ASSEMBLED: "taken apart",
}


def bring_in(shop: Shop, part: Part, short: int, *, but: tuple[Place, ...] = ()) -> tuple[Move, ...]:
    """Return the moves that bring in so many pieces that are here in truth, and are in no place of `but`."""
    moves: list[Move] = []
    for place, there in shop.book.places(part.id, *ELSEWHERE):
        taken = min(short, there)
        if taken <= 0 or place in but:
            continue
        where = place.where if place.state is State.HELD else UNSORTED
        moves.append(Move(part.id, taken, place, Place(State.RECEIVED, where, _condition(shop, place))))
        short -= taken
    if short:
        moves.extend(verbs.receive_unordered(part.id, short, supplier=UNKNOWN))
    return tuple(moves)


def _condition(shop: Shop, place: Place) -> str:
    if place.state is State.SENT_OUT and isinstance(place.where, int):
        return shop.orders.get(place.where).work or place.condition
    return SEALED if place.state is State.ORDERED else place.condition


def brought_word(brought: tuple[Move, ...]) -> str:
    """Return in a word how pieces were brought in."""
    return _BROUGHT.get(brought[0].source.state, "received")


def not_here(shop: Shop, part: Part, qty: int) -> str:
    """Say what the books have instead of so many pieces on hand; empty where they are here."""
    here = shop.book.in_state(part.id, *verbs.HERE)
    if here >= qty:
        return ""
    other = shop.book.places(part.id, *ELSEWHERE)
    if not other:
        if here:
            return f"Only {here} of {qty} is here by the books, and none is ordered."
        went = [piece_words(shop, *each) for each in shop.book.places(part.id, State.INSTALLED, State.GONE)]
        if went:
            return f"By the books none is here or ordered: {'; '.join(went)}."
        return "By the books none was ever received or ordered."
    place = other[0][0]
    words = place_words(shop, place)
    if here:
        return f"{here} of {qty} is here; the rest is {words}."
    return f"Never received: it is {words}." if place.state is State.ORDERED else f"It is {words}."
