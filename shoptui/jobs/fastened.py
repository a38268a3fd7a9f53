"""The hardware that fastens a part: taken from stock when the part goes on, off again when that comes off.

On a vehicle it is booked at the part that it fastens.
"""

from collections.abc import Iterable, Iterator

from shoptui.domain import verbs
from shoptui.domain.ledger import Move
from shoptui.domain.places import UNKNOWN, Place, State
from shoptui.domain.records import Bin, Part
from shoptui.jobs.at import pieces
from shoptui.jobs.place_words import bin_words
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction

SCRAP = "scrapped"
"""What becomes of hardware for one use that came off."""


def bags_of(shop: Shop, part: int) -> tuple[Bin, ...]:
    """Return the bags that hold the hardware of a part."""
    return tuple(found for found in shop.bins.all() if found.part == part)


def sources(shop: Shop, part: Part, hardware: Part) -> tuple[Place, ...]:
    """Return where a kind of hardware is taken from for a part, in that order.

    Its own bag first, then new pieces, then loose ones that came off; never the bag of another part. What may
    be used once comes new.
    """
    new = tuple(place for place, _ in shop.book.places(hardware.id, State.RECEIVED))
    if hardware.one_use:
        return new
    used = [place for place, _ in shop.book.places(hardware.id, State.REMOVED)]
    for_part = {place: _held_for(shop, place) for place in used}
    own = tuple(place for place in used if for_part[place] == part.id)
    return (*own, *new, *(place for place in used if for_part[place] is None))


def _held_for(shop: Shop, place: Place) -> int | None:
    return shop.bins.get(place.where).part if isinstance(place.where, int) else None


def taken_for(shop: Shop, part: Part, qty: int) -> Iterator[tuple[Part, int, tuple[tuple[Place, int], ...]]]:
    """Yield each kind that fastens so many pieces of a part: the pieces, and where how many are fetched."""
    for line in part.hardware:
        hardware, wanted = shop.parts.get(line.part), line.qty * qty
        fetched: list[tuple[Place, int]] = []
        left = wanted
        for place in sources(shop, part, hardware):
            if taken := min(left, shop.book.at(hardware.id, place)):
                fetched.append((place, taken))
                left -= taken
        yield hardware, wanted, tuple(fetched)


def short_of(shop: Shop, part: Part, qty: int) -> tuple[str, ...]:
    """Say which hardware is not here for so many pieces of a part."""
    told = []
    for hardware, wanted, fetched in taken_for(shop, part, qty):
        here = sum(n for _, n in fetched)
        if here < wanted:
            new = " new" if hardware.one_use else ""
            told.append(f"Hardware: {here} of {pieces(wanted, hardware)} are here{new}.")
    return tuple(told)


def fetch_words(shop: Shop, part: Part, qty: int) -> Iterator[str]:
    """Say what hardware to fetch for so many pieces of a part, and from where."""
    for hardware, wanted, fetched in taken_for(shop, part, qty):
        new = ", new: for one use" if hardware.one_use else ""
        where = " and ".join(f"{n} {bin_words(shop, place.where)}" for place, n in fetched)
        yield f"{pieces(wanted, hardware)}{new}: {where or '! none is here'}"


def goes_on(shop: Shop, moves: Iterable[Move]) -> tuple[Move, ...]:
    """Return the moves of the hardware that goes on with parts that some moves install.

    What is short by the books was in somebody's hand all the same, and comes from nobody knows where.
    """
    found: list[Move] = []
    for move in moves:
        part = shop.parts.get(move.part)
        if move.target.state is not State.INSTALLED or not part.hardware:
            continue
        for line in part.hardware:
            with shop.book.supposing(found):
                found.extend(put_on(shop, part, shop.parts.get(line.part), line.qty * move.qty))
    return tuple(found)


def put_on(shop: Shop, part: Part, hardware: Part, qty: int) -> tuple[Move, ...]:
    """Return the moves by which so many of a kind go on with a part, from where it takes them."""
    places = sources(shop, part, hardware)
    short = max(0, qty - sum(shop.book.at(hardware.id, place) for place in places))
    brought = verbs.receive_unordered(hardware.id, short, supplier=UNKNOWN) if short else ()
    with shop.book.supposing(brought):
        places = sources(shop, part, hardware)
        return (*brought, *verbs.install(shop.book, hardware.id, qty, position=part.id, sources=places))


def on_it(shop: Shop, part: int) -> dict[int, int]:
    """Return the hardware that is on the vehicle with a part: id to pieces."""
    return shop.book.parts_at(State.INSTALLED, part)


def comes_off(shop: Shop, moves: Iterable[Move]) -> tuple[Move, ...]:
    """Return the moves of the hardware that comes off with parts that some moves take off the vehicle.

    It goes where they go; what was for one use is scrap. Where some of several come off, they have their
    share, a remainder staying with the others.
    """
    found: list[Move] = []
    before: list[Move] = []
    for move in moves:
        if move.source.state is not State.INSTALLED or move.target.state is State.INSTALLED:
            continue
        with shop.book.supposing((*before, *found)):
            before.append(move)
            on = shop.book.in_state(move.part, State.INSTALLED)
            for number, there in on_it(shop, move.part).items():
                leaving = there if move.qty >= on else there * move.qty // on
                if leaving:
                    found.extend(_off(shop, number, leaving, move))
    return tuple(found)


def _off(shop: Shop, number: int, qty: int, move: Move) -> tuple[Move, ...]:
    """Take so many off the part that a move takes off."""
    if move.target.state is State.GONE:
        goes = Place(State.GONE, move.target.where)
        return (Move(number, qty, Place(State.INSTALLED, move.part), goes),)
    off = verbs.remove(shop.book, number, qty, position=move.part, to=move.target.where)
    if not shop.parts.get(number).one_use:
        return off
    with shop.book.supposing(off):
        return (
            *off,
            *verbs.dispose(shop.book, number, qty, reason=SCRAP, sources=[each.target for each in off]),
        )


def free_bags(shop: Shop, tx: Transaction, part: int) -> None:
    """Let the bags of a part that are empty now be for any other."""
    for bag in bags_of(shop, part):
        if not any(shop.book.parts_at(state, bag.id) for state in verbs.ON_A_SHELF):
            tx.change(bag, part=None)
