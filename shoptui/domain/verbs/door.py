"""What happens between a supplier and the shelf: ordered, received, held, put away, opened, worked on."""

from collections.abc import Iterable

from shoptui.domain.ledger import Balances, Move
from shoptui.domain.places import OPENED, SEALED, UNKNOWN, UNSORTED, Place, State
from shoptui.domain.verbs.table import HERE, shift, take, take_to


def order(part: int, qty: int, *, supplier: int, order: int) -> tuple[Move, ...]:
    """Promise pieces from a supplier under an order."""
    return (Move(part, qty, Place(State.NOT_OURS, supplier), Place(State.ORDERED, order)),)


def cancel(book: Balances, part: int, qty: int, *, supplier: int, order: int) -> tuple[Move, ...]:
    """Take back a promise that has not been kept."""
    return take(book, part, qty, "cancel", [Place(State.ORDERED, order)], Place(State.NOT_OURS, supplier))


def receive(
    book: Balances, part: int, qty: int, *, order: int, to: int | str = UNSORTED, ref: str = ""
) -> tuple[Move, ...]:
    """Take ordered pieces in, sealed as they came."""
    return take(
        book, part, qty, "receive", [Place(State.ORDERED, order)], Place(State.RECEIVED, to, SEALED), ref=ref
    )


def receive_unordered(
    part: int, qty: int, *, supplier: int | str, to: int | str = UNSORTED, ref: str = ""
) -> tuple[Move, ...]:
    """Take in pieces that nobody wrote an order for."""
    return (Move(part, qty, Place(State.NOT_OURS, supplier), Place(State.RECEIVED, to, SEALED), ref=ref),)


def stock(part: int, qty: int, *, to: int | str = UNSORTED) -> tuple[Move, ...]:
    """Write down what lay in the shop before the books began; nobody knows any more whether it is sealed."""
    return (Move(part, qty, Place(State.NOT_OURS, UNKNOWN), Place(State.RECEIVED, to, OPENED)),)


def hold_ordered(
    book: Balances, part: int, qty: int, *, order: int, note: str, to: int | str = UNSORTED, ref: str = ""
) -> tuple[Move, ...]:
    """Take ordered pieces in, but not for use: damaged, wrong, substituted."""
    return take(
        book,
        part,
        qty,
        "hold",
        [Place(State.ORDERED, order)],
        Place(State.HELD, to, SEALED),
        note=note,
        ref=ref,
    )


def hold_unordered(
    part: int, qty: int, *, supplier: int | str, note: str, to: int | str = UNSORTED, ref: str = ""
) -> tuple[Move, ...]:
    """Take in pieces beyond the order, not for use until somebody decides."""
    return (Move(part, qty, Place(State.NOT_OURS, supplier), Place(State.HELD, to, SEALED), note, ref),)


def hold(book: Balances, part: int, qty: int, *, note: str, ref: str = "") -> tuple[Move, ...]:
    """Set pieces that are here aside, where they lie."""
    return shift(book, part, qty, "hold", HERE, state=State.HELD, note=note, ref=ref)


def release(
    book: Balances, part: int, qty: int, *, sources: Iterable[Place] = (), note: str = ""
) -> tuple[Move, ...]:
    """Let held pieces be used after all, where they lie; `sources` says which, empty takes any."""
    places = list(sources) or [place for place, _ in book.places(part, State.HELD)]
    return take_to(
        book,
        part,
        qty,
        "release",
        places,
        lambda place: Place(State.RECEIVED, place.where, place.condition),
        note=note,
    )


def put_away(book: Balances, part: int, source: Place, qty: int, *, to: int) -> tuple[Move, ...]:
    """Move pieces that are here into a bin, their state and condition as they were."""
    return take(book, part, qty, "put away", [source], Place(source.state, to, source.condition))


def open_(book: Balances, part: int, qty: int) -> tuple[Move, ...]:
    """Open sealed pieces where they lie."""
    sealed = [place for place, _ in book.places(part, *HERE) if place.condition == SEALED]
    return take_to(
        book, part, qty, "open", sealed, lambda place: Place(place.state, place.where, OPENED), what="sealed"
    )


def send_out(book: Balances, part: int, qty: int, *, job: int) -> tuple[Move, ...]:
    """Hand pieces to an outside shop under an outside job."""
    return take_to(
        book,
        part,
        qty,
        "send out",
        [place for place, _ in book.places(part, *HERE)],
        lambda place: Place(State.SENT_OUT, job, opened(place.condition)),
    )


def take_back(
    book: Balances, part: int, qty: int, *, job: int, done: str, to: int | str = UNSORTED, ref: str = ""
) -> tuple[Move, ...]:
    """Take pieces back from an outside job.

    Args:
        book: The balances.
        part: Id of the part.
        qty: Pieces.
        job: Id of the outside job.
        done: What was done to them, in the part's own words; empty if they came back as they went.
        to: Bin, or the bench.
        ref: Code of the box.

    """
    places = [place for place, _ in book.places(part, State.SENT_OUT) if place.where == job]
    return take_to(
        book,
        part,
        qty,
        "take back",
        places,
        lambda place: Place(State.RECEIVED, to, done or place.condition),
        ref=ref,
    )


def opened(condition: str) -> str:
    """Return how a piece is once it leaves the shelf to be worked on or fitted: no longer sealed."""
    return OPENED if condition == SEALED else condition
