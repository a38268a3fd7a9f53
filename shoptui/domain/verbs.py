"""What a person can do with pieces of a part: one function a verb, each returning the moves it makes.

`VERBS` lists what is legal from where to where; a new verb is one line there and one function. Undo is the
inverse of the moves, so no verb has an undo of its own.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from shoptui.domain.ledger import Balances, CannotMoveError, Move
from shoptui.domain.places import AS_BOUGHT, COUNTS_AS_HAD, OPENED, SEALED, UNKNOWN, UNSORTED, Place, State

_DONE = {
    "receive": "received",
    "cancel": "cancelled",
    "hold": "held",
    "release": "released",
    "put away": "put away",
    "open": "opened",
    "send out": "sent out",
    "take back": "taken back",
    "install": "installed",
    "remove": "removed",
    "return to stock": "returned to stock",
    "dispose": "disposed of",
}
"""How a refusal says what cannot be done."""

HERE = (State.RECEIVED, State.REMOVED)
"""States in which a piece is in the shop and usable, fresh ones first."""


@dataclass(frozen=True, slots=True)
class Verb:
    """What one verb may do: states it takes from and states it puts to."""

    sources: frozenset[State]
    targets: frozenset[State]


def _verb(sources: Iterable[State], *targets: State) -> Verb:
    return Verb(frozenset(sources), frozenset(targets))


VERBS: dict[str, Verb] = {
    "order": _verb([State.NOT_OURS], State.ORDERED),
    "cancel": _verb([State.ORDERED], State.NOT_OURS),
    "receive": _verb([State.ORDERED, State.NOT_OURS], State.RECEIVED),
    "hold": _verb([State.ORDERED, State.NOT_OURS, *HERE], State.HELD),
    "release": _verb([State.HELD], State.RECEIVED),
    "put away": _verb([State.RECEIVED, State.HELD, State.REMOVED], State.RECEIVED, State.HELD, State.REMOVED),
    "open": _verb(HERE, *HERE),
    "send out": _verb(HERE, State.SENT_OUT),
    "take back": _verb([State.SENT_OUT], State.RECEIVED),
    "install": _verb(HERE, State.INSTALLED),
    "as bought": _verb([State.NOT_OURS], State.INSTALLED),
    "remove": _verb([State.INSTALLED], State.REMOVED),
    "return to stock": _verb([State.REMOVED], State.RECEIVED),
    "dispose": _verb([State.RECEIVED, State.HELD, State.REMOVED, State.SENT_OUT], State.GONE),
}


def order(part: int, qty: int, *, supplier: int, order: int) -> tuple[Move, ...]:
    """Promise pieces from a supplier under an order."""
    return (Move(part, qty, Place(State.NOT_OURS, supplier), Place(State.ORDERED, order)),)


def cancel(book: Balances, part: int, qty: int, *, supplier: int, order: int) -> tuple[Move, ...]:
    """Take back a promise that has not been kept."""
    return _take(book, part, qty, "cancel", [Place(State.ORDERED, order)], Place(State.NOT_OURS, supplier))


def receive(
    book: Balances, part: int, qty: int, *, order: int, to: int | str = UNSORTED, ref: str = ""
) -> tuple[Move, ...]:
    """Take ordered pieces in, sealed as they came."""
    return _take(
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
    return _take(
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
    return _shift(book, part, qty, "hold", HERE, state=State.HELD, note=note, ref=ref)


def release(book: Balances, part: int, qty: int, *, note: str = "") -> tuple[Move, ...]:
    """Let held pieces be used after all."""
    return _shift(book, part, qty, "release", [State.HELD], state=State.RECEIVED, note=note)


def put_away(book: Balances, part: int, source: Place, qty: int, *, to: int) -> tuple[Move, ...]:
    """Move pieces that are here into a bin, their state and condition as they were."""
    return _take(book, part, qty, "put away", [source], Place(source.state, to, source.condition))


def open_(book: Balances, part: int, qty: int) -> tuple[Move, ...]:
    """Open sealed pieces where they lie."""
    sealed = [place for place, _ in book.places(part, *HERE) if place.condition == SEALED]
    return _take_to(
        book, part, qty, "open", sealed, lambda place: Place(place.state, place.where, OPENED), what="sealed"
    )


def send_out(book: Balances, part: int, qty: int, *, job: int) -> tuple[Move, ...]:
    """Hand pieces to an outside shop under an outside job."""
    return _take_to(
        book,
        part,
        qty,
        "send out",
        [place for place, _ in book.places(part, *HERE)],
        lambda place: Place(State.SENT_OUT, job, _opened(place.condition)),
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
    return _take_to(
        book,
        part,
        qty,
        "take back",
        places,
        lambda place: Place(State.RECEIVED, to, done or place.condition),
        ref=ref,
    )


def install(
    book: Balances, part: int, qty: int, *, position: str, sources: Iterable[Place] = ()
) -> tuple[Move, ...]:
    """Put pieces on the vehicle for good; what is finished goes before what is sealed."""
    places = list(sources) or sorted(
        (place for place, _ in book.places(part, *HERE)),
        key=lambda place: (place.state is not State.RECEIVED, place.condition in (SEALED, OPENED)),
    )
    return _take_to(
        book,
        part,
        qty,
        "install",
        places,
        lambda place: Place(State.INSTALLED, position, _opened(place.condition)),
    )


def as_bought(part: int, qty: int, *, position: str) -> tuple[Move, ...]:
    """Write down what was on the vehicle when it came."""
    return (Move(part, qty, Place(State.NOT_OURS, AS_BOUGHT), Place(State.INSTALLED, position)),)


def remove(
    book: Balances, part: int, qty: int, *, position: str, to: int | str = UNSORTED, note: str = ""
) -> tuple[Move, ...]:
    """Take installed pieces off; they stay in the shop until somebody disposes of them."""
    places = [place for place, _ in book.places(part, State.INSTALLED) if place.where == position]
    return _take_to(
        book,
        part,
        qty,
        "remove",
        places,
        lambda place: Place(State.REMOVED, to, place.condition),
        note=note,
    )


def return_to_stock(book: Balances, part: int, qty: int) -> tuple[Move, ...]:
    """Count removed pieces as usable stock again, where they lie."""
    return _shift(book, part, qty, "return to stock", [State.REMOVED], state=State.RECEIVED)


def dispose(
    book: Balances, part: int, qty: int, *, reason: str, sources: Iterable[Place] = (), note: str = ""
) -> tuple[Move, ...]:
    """Let pieces go for good: returned, sold, scrapped, core sent back, lost, used up, other build."""
    places = list(sources) or [
        place for place, _ in book.places(part, State.REMOVED, State.HELD, State.RECEIVED, State.SENT_OUT)
    ]
    return _take_to(
        book,
        part,
        qty,
        "dispose",
        places,
        lambda place: Place(State.GONE, reason, place.condition),
        note=note,
    )


def to_order(book: Balances, part: int, *, needed: int, original: bool) -> int:
    """Return the pieces still to be ordered: needed minus what is promised, here, out or on the vehicle.

    A removed original does not fill a need, nor does anything held: somebody has yet to say whether it may.
    """
    had = book.in_state(part, *COUNTS_AS_HAD)
    if not original:
        had += book.in_state(part, State.REMOVED)
    return max(0, needed - had)


def _opened(condition: str) -> str:
    """What leaves the shelf to be worked on or fitted is no longer sealed."""
    return OPENED if condition == SEALED else condition


def _take(
    book: Balances,
    part: int,
    qty: int,
    verb: str,
    sources: Iterable[Place],
    target: Place,
    *,
    note: str = "",
    ref: str = "",
) -> tuple[Move, ...]:
    return _take_to(book, part, qty, verb, sources, lambda _: target, note=note, ref=ref)


def _shift(
    book: Balances,
    part: int,
    qty: int,
    verb: str,
    states: Iterable[State],
    *,
    state: State,
    note: str = "",
    ref: str = "",
) -> tuple[Move, ...]:
    """Change the state of pieces, leaving them where and as they are."""
    places = [place for place, _ in book.places(part, *states)]
    return _take_to(
        book,
        part,
        qty,
        verb,
        places,
        lambda place: Place(state, place.where, place.condition),
        note=note,
        ref=ref,
    )


def _take_to(
    book: Balances,
    part: int,
    qty: int,
    verb: str,
    sources: Iterable[Place],
    target: Callable[[Place], Place],
    *,
    note: str = "",
    ref: str = "",
    what: str = "",
) -> tuple[Move, ...]:
    """Draw pieces from places in their order; every verb that starts from pieces we have ends here."""
    if qty < 1:
        raise CannotMoveError(f"To {verb}, a quantity of 1 or more was expected, not {qty}.")
    moves = []
    short = qty
    for place in sources:
        if place.state not in VERBS[verb].sources:
            raise CannotMoveError(f"What is {place.state} cannot be {_DONE[verb]}.")
        taken = min(short, max(0, book.at(part, place)))
        if taken:
            moves.append(Move(part, taken, place, target(place), note, ref))
            short -= taken
    if short:
        there = qty - short
        words = what or " or ".join(sorted(VERBS[verb].sources - {State.NOT_OURS}))
        raise CannotMoveError(
            f"{there} {'is' if there == 1 else 'are'} {words}; {qty} cannot be {_DONE[verb]}."
        )
    return tuple(moves)
