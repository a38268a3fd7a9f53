"""What each verb may do, and how pieces are drawn from places: where every verb on pieces ends."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from shoptui.domain.ledger import Balances, CannotMoveError, Move
from shoptui.domain.places import Place, State

HERE = (State.RECEIVED, State.REMOVED)
"""States in which a piece is in the shop and usable, fresh ones first."""

_NOT_AT_HAND = {State.NOT_OURS, State.GONE, State.MOCKED_UP, State.ASSEMBLED}
"""States that a refusal does not count among what there is, unless the verb takes from nothing else."""

ON_A_SHELF = (State.RECEIVED, State.HELD, State.REMOVED)
"""States in which a piece lies in a bin or on the bench, and can be counted."""


@dataclass(frozen=True, slots=True)
class Verb:
    """What one verb may do.

    Args:
        done: How a refusal says what cannot be done: `installed`.
        sources: States that it takes from.
        targets: States that it puts to.

    """

    done: str
    sources: frozenset[State]
    targets: frozenset[State]


def _verb(done: str, sources: Iterable[State], *targets: State) -> Verb:
    return Verb(done, frozenset(sources), frozenset(targets))


VERBS: dict[str, Verb] = {
    "order": _verb("ordered", [State.NOT_OURS], State.ORDERED),
    "cancel": _verb("cancelled", [State.ORDERED], State.NOT_OURS),
    "receive": _verb("received", [State.ORDERED, State.NOT_OURS], State.RECEIVED),
    "hold": _verb("held", [State.ORDERED, State.NOT_OURS, *HERE], State.HELD),
    "release": _verb("released", [State.HELD], State.RECEIVED),
    "put away": _verb("put away", ON_A_SHELF, *ON_A_SHELF),
    "open": _verb("opened", HERE, *HERE),
    "send out": _verb("sent out", HERE, State.SENT_OUT),
    "take back": _verb("taken back", [State.SENT_OUT], State.RECEIVED),
    "mock up": _verb("mocked up", HERE, State.MOCKED_UP),
    "take down": _verb("taken down", [State.MOCKED_UP], *HERE),
    "assemble": _verb("assembled", HERE, State.ASSEMBLED),
    "take apart": _verb("taken apart", [State.ASSEMBLED], State.RECEIVED),
    "install": _verb("installed", [*HERE, State.MOCKED_UP], State.INSTALLED),
    "as bought": _verb("written down", [State.NOT_OURS], State.INSTALLED),
    "remove": _verb("removed", [State.INSTALLED], State.REMOVED),
    "return to stock": _verb("returned to stock", [State.REMOVED], State.RECEIVED),
    "dispose": _verb("disposed of", [*ON_A_SHELF, State.SENT_OUT, State.ASSEMBLED], State.GONE),
    "count over": _verb("counted over", [State.NOT_OURS, State.GONE], State.RECEIVED),
    "count short": _verb("counted short", [*ON_A_SHELF, State.ASSEMBLED], State.GONE),
    "transfer": _verb(
        "transferred",
        [State.NOT_OURS, *ON_A_SHELF, State.ASSEMBLED],
        State.GONE,
        *ON_A_SHELF,
        State.ASSEMBLED,
    ),
    "strip": _verb("stripped", [State.NOT_OURS, *ON_A_SHELF, State.ASSEMBLED], State.GONE, State.RECEIVED),
    "hand over": _verb("handed over", [State.INSTALLED, State.ASSEMBLED], State.GONE),
}


def refuse_nothing(verb: str, qty: int) -> None:
    """Refuse a quantity that is none.

    Raises:
        CannotMoveError: The quantity is below 1.

    """
    if qty < 1:
        raise CannotMoveError(f"To {verb}, a quantity of 1 or more was expected, not {qty}.")


def take(
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
    """Draw pieces from places in their order, all to one place."""
    return take_to(book, part, qty, verb, sources, lambda _: target, note=note, ref=ref)


def shift(
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
    return take_to(
        book,
        part,
        qty,
        verb,
        places,
        lambda place: Place(state, place.where, place.condition),
        note=note,
        ref=ref,
    )


def take_to(
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
    """Draw pieces from places in their order, each to its own target.

    Raises:
        CannotMoveError: Fewer are there; the words say how many.

    """
    refuse_nothing(verb, qty)
    moves = []
    short = qty
    for place in sources:
        if place.state not in VERBS[verb].sources:
            raise CannotMoveError(f"What is {place.state} cannot be {VERBS[verb].done}.")
        taken = min(short, max(0, book.at(part, place)))
        if taken:
            moves.append(Move(part, taken, place, target(place), note, ref))
            short -= taken
    if short:
        there = qty - short
        states = VERBS[verb].sources
        words = what or " or ".join(sorted(states - _NOT_AT_HAND or states))
        raise CannotMoveError(
            f"{there} {'is' if there == 1 else 'are'} {words}; {qty} cannot be {VERBS[verb].done}."
        )
    return tuple(moves)
