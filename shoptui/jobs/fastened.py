"""The hardware that fastens a part: taken from stock when the part goes on, off again when that comes off.

A part goes on where it is installed on a vehicle, or built into another part on the bench. From then on its
hardware is booked at the part that it fastens.
"""

from collections.abc import Callable, Iterable, Iterator
from contextlib import ExitStack
from dataclasses import replace
from functools import partial

from shoptui.domain import verbs
from shoptui.domain.ledger import Move
from shoptui.domain.places import OTHER_BUILD, UNKNOWN, Place, State
from shoptui.domain.records import Bin, Part
from shoptui.jobs.at import pieces
from shoptui.jobs.place_words import bin_words
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction

FASTENED = (State.INSTALLED, State.ASSEMBLED)
"""States of a part that its hardware holds; what hangs for trial has none."""

SCRAP = "scrapped"
"""What becomes of hardware for one use that came off."""

_COMES_BACK = (*verbs.ON_A_SHELF, State.SENT_OUT, State.MOCKED_UP, State.ORDERED)
"""States from which a part can still go on."""


def bags_of(shop: Shop, part: int) -> tuple[Bin, ...]:
    """Return the bags that hold the hardware of a part."""
    return tuple(found for found in shop.bins.all() if found.part == part)


def ahead(shop: Shop, part: Part) -> int:
    """Return how many pieces of a part are still to go on."""
    return max(0, part.needed - shop.book.in_state(part.id, *FASTENED))


def kept_for(shop: Shop, bag: Bin) -> Part | None:
    """Return the part that the hardware in a bag waits for; None once no piece of it will go on any more.

    What was sold and is not needed again, or left with its vehicle, leaves its bolts to whoever wants them.
    """
    part = None if bag.part is None else shop.parts.get(bag.part)
    if part is None or part.withdrawn:
        return None
    if shop.book.in_state(part.id, *_COMES_BACK):
        return part
    is_open = part.build is None or shop.builds.get(part.build).status == "open"
    return part if is_open and ahead(shop, part) else None


def keeper(shop: Shop, place: Place) -> int | None:
    """Return the id of the part that pieces in a place are kept for; None where any may have them."""
    bag = shop.bins.get(place.where) if isinstance(place.where, int) else None
    part = None if bag is None else kept_for(shop, bag)
    return None if part is None else part.id


def usable(hardware: Part) -> tuple[State, ...]:
    """Return the states in which pieces of a kind may go on: what may be used once is new."""
    return (State.RECEIVED,) if hardware.one_use else verbs.HERE


def sources(shop: Shop, part: Part, hardware: Part) -> tuple[Place, ...]:
    """Return where a kind of hardware is taken from for a part, in that order.

    Its own bag first, then new pieces, then loose ones that came off; never the bag of another part. What may
    be used once comes new.
    """
    kept = {place: keeper(shop, place) for place, _ in shop.book.places(hardware.id, *usable(hardware))}
    own = [place for place, of in kept.items() if of == part.id]
    loose = (place for place, of in kept.items() if of is None)
    return (*reversed(own), *loose)


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


def goes_with(shop: Shop, moves: Iterable[Move]) -> tuple[Move, ...]:
    """Return the moves of the hardware that follow from some moves of the parts that it fastens.

    What goes on takes its own from stock, what comes off gives it back: it goes where the part goes, and what
    was for one use is scrap. Where some of several come off they have their share, a remainder staying with
    the others. What is given to another build within a part that carries it keeps its hardware.
    """
    moves = tuple(moves)
    found: list[Move] = []
    with ExitStack() as before:
        for number, move in enumerate(moves):
            on, off = (place.state in FASTENED for place in (move.target, move.source))
            follows: tuple[Move, ...] = ()
            if off and not on:
                beside = moves[number + 1] if number + 1 < len(moves) else None
                follows = tuple(_comes_off(shop, move, beside))
            elif on and not off and move.source.state is not State.NOT_OURS:
                follows = tuple(_goes_on(shop, move))
            found.extend(follows)
            before.enter_context(shop.book.supposing((move, *follows)))
    return tuple(found)


def _goes_on(shop: Shop, move: Move) -> Iterator[Move]:
    """Yield the moves of the hardware that goes on with a part.

    What is short by the books was in somebody's hand all the same, and comes from nobody knows where.
    """
    part = shop.parts.get(move.part)
    with ExitStack() as before:
        for line in part.hardware:
            taken = put_on(shop, part, shop.parts.get(line.part), line.qty * move.qty)
            before.enter_context(shop.book.supposing(taken))
            yield from taken


def put_on(shop: Shop, part: Part, hardware: Part, qty: int) -> tuple[Move, ...]:
    """Return the moves by which so many of a kind go on with a part, from where it takes them."""
    places = sources(shop, part, hardware)
    short = max(0, qty - sum(shop.book.at(hardware.id, place) for place in places))
    brought = verbs.receive_unordered(hardware.id, short, supplier=UNKNOWN) if short else ()
    with shop.book.supposing(brought):
        places = sources(shop, part, hardware)
        return (*brought, *verbs.install(shop.book, hardware.id, qty, position=part.id, sources=places))


def on_it(shop: Shop, part: int) -> dict[int, int]:
    """Return the hardware that fastens the pieces of a part that are on: id to pieces."""
    return shop.book.parts_at(State.INSTALLED, part)


def _comes_off(shop: Shop, move: Move, beside: Move | None) -> Iterator[Move]:
    """Yield the moves of the hardware that comes off with a part; `beside` is the move after its own."""
    on = shop.book.in_state(move.part, *FASTENED)
    for number, there in on_it(shop, move.part).items():
        leaving = there if move.qty >= on else there * move.qty // on
        if not leaving:
            continue
        if beside is not None and _is_given(move, beside):
            yield from off_part(shop, number, leaving, move.part, partial(_at_part, beside.part))
        else:
            yield from _off(shop, number, leaving, move)


def _is_given(out: Move, into: Move) -> bool:
    """Return whether two moves are a gift of what is built in: it stays where it is, on another line."""
    gift = (out.target.where, into.source.where) == (OTHER_BUILD, OTHER_BUILD)
    return gift and out.target.state is State.GONE and into.target.state in FASTENED


def _at_part(part: int, place: Place) -> Place:
    return replace(place, where=part)


def _off(shop: Shop, number: int, qty: int, move: Move) -> tuple[Move, ...]:
    """Return the moves that take so many of a kind off with a part."""
    if move.target.state is State.GONE:
        return tuple(
            off_part(
                shop, number, qty, move.part, lambda place: replace(move.target, condition=place.condition)
            )
        )
    off = verbs.remove(shop.book, number, qty, position=move.part, to=move.target.where)
    if not shop.parts.get(number).one_use:
        return off
    with shop.book.supposing(off):
        return (
            *off,
            *verbs.dispose(shop.book, number, qty, reason=SCRAP, sources=[each.target for each in off]),
        )


def off_part(shop: Shop, number: int, qty: int, part: int, to: Callable[[Place], Place]) -> Iterator[Move]:
    """Yield the moves of so many of a kind from the part that they fasten to other places."""
    for place, there in shop.book.places(number, State.INSTALLED):
        if place.where == part and (taken := min(qty, there)):
            yield Move(number, taken, place, to(place))
            qty -= taken


def free_bags(shop: Shop, tx: Transaction, part: int) -> None:
    """Let the bags of a part that are empty now be for any other."""
    for bag in bags_of(shop, part):
        if not any(shop.book.parts_at(state, bag.id) for state in verbs.ON_A_SHELF):
            tx.change(bag, part=None)
