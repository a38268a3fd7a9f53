"""What happens on the vehicle and on the bench: mocked up, built into another part, installed, removed."""

from collections.abc import Iterable

from shoptui.domain.carriers import carriers_of, is_built_into
from shoptui.domain.ledger import Balances, CannotMoveError, Move
from shoptui.domain.places import AS_BOUGHT, OPENED, SEALED, UNSORTED, Place, State
from shoptui.domain.verbs.door import opened
from shoptui.domain.verbs.table import HERE, shift, take_to


def finished_first(book: Balances, part: int) -> list[Place]:
    """Return the places of usable pieces: what is finished goes on the vehicle before what is sealed."""
    return sorted(
        (place for place, _ in book.places(part, *HERE)),
        key=lambda place: (place.state is not State.RECEIVED, place.condition in (SEALED, OPENED)),
    )


def mock_up(
    book: Balances, part: int, qty: int, *, position: str, sources: Iterable[Place] = ()
) -> tuple[Move, ...]:
    """Put pieces on the vehicle for trial; opened, but not fitted for good."""
    return take_to(
        book,
        part,
        qty,
        "mock up",
        list(sources) or finished_first(book, part),
        lambda place: Place(State.MOCKED_UP, position, opened(place.condition)),
    )


def take_down(
    book: Balances, part: int, qty: int, *, position: str, to: int | str = UNSORTED, removed: bool = False
) -> tuple[Move, ...]:
    """Take pieces that were mocked up down again.

    Args:
        book: The balances.
        part: Id of the part.
        qty: Pieces.
        position: Where they are mocked up.
        to: Bin that they came from, or the bench.
        removed: Whether they were removed pieces before they were mocked up.

    """
    state = State.REMOVED if removed else State.RECEIVED
    return take_to(
        book,
        part,
        qty,
        "take down",
        [place for place, _ in book.places(part, State.MOCKED_UP) if place.where == position],
        lambda place: Place(state, to, place.condition),
    )


def assemble(book: Balances, part: int, qty: int, *, carrier: int) -> tuple[Move, ...]:
    """Build pieces into another part on the bench; from then on they go where that part goes.

    Raises:
        CannotMoveError: The part is the carrier itself or carries it, or too few are here.

    """
    if part == carrier:
        raise CannotMoveError("A part cannot be built into itself.")
    if is_built_into(book, carrier, part):
        raise CannotMoveError("That part is built into this one already; take it apart first.")
    if not carriers_of(book, carrier):
        raise CannotMoveError("None of the part that it should be built into is here.")
    return take_to(
        book,
        part,
        qty,
        "assemble",
        finished_first(book, part),
        lambda place: Place(State.ASSEMBLED, carrier, opened(place.condition)),
    )


def take_apart(
    book: Balances, part: int, qty: int, *, carrier: int, to: int | str = UNSORTED
) -> tuple[Move, ...]:
    """Take pieces out of the part that carries them."""
    return take_to(
        book,
        part,
        qty,
        "take apart",
        [place for place, _ in book.places(part, State.ASSEMBLED) if place.where == carrier],
        lambda place: Place(State.RECEIVED, to, place.condition),
        what="built into it",
    )


def install(
    book: Balances, part: int, qty: int, *, position: int | str, sources: Iterable[Place] = ()
) -> tuple[Move, ...]:
    """Put pieces on the vehicle for good; what is mocked up is taken only where the sources say so.

    The position of hardware is the id of the part that it fastens.
    """
    return take_to(
        book,
        part,
        qty,
        "install",
        list(sources) or finished_first(book, part),
        lambda place: Place(State.INSTALLED, position, opened(place.condition)),
    )


def as_bought(part: int, qty: int, *, position: str) -> tuple[Move, ...]:
    """Write down what was on the vehicle when it came."""
    return (Move(part, qty, Place(State.NOT_OURS, AS_BOUGHT), Place(State.INSTALLED, position)),)


def remove(
    book: Balances, part: int, qty: int, *, position: int | str, to: int | str = UNSORTED, note: str = ""
) -> tuple[Move, ...]:
    """Take installed pieces off; they stay in the shop until somebody disposes of them."""
    places = [place for place, _ in book.places(part, State.INSTALLED) if place.where == position]
    return take_to(
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
    return shift(book, part, qty, "return to stock", [State.REMOVED], state=State.RECEIVED)
