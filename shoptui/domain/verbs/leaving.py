"""How pieces leave a line, or are found again: disposed of, counted, transferred, stripped, handed over.

What is built into a part goes where that part goes, so every verb here takes it along.
"""

from collections.abc import Iterable, Mapping

from shoptui.domain.carriers import taken_along
from shoptui.domain.ledger import Balances, CannotMoveError, Move
from shoptui.domain.places import (
    COUNTED_SHORT,
    COUNTS_AS_HAD,
    DONOR,
    HANDED_OVER,
    OPENED,
    OTHER_BUILD,
    STRIPPED,
    UNKNOWN,
    UNSORTED,
    Place,
    State,
)
from shoptui.domain.verbs.table import HERE, refuse_nothing, take_to


def dispose(
    book: Balances, part: int, qty: int, *, reason: str, sources: Iterable[Place] = (), note: str = ""
) -> tuple[Move, ...]:
    """Let pieces go for good: returned, sold, scrapped, core sent back, lost, used up, other build."""
    places = list(sources) or [
        place for place, _ in book.places(part, State.REMOVED, State.HELD, State.RECEIVED, State.SENT_OUT)
    ]
    return _gone(book, part, qty, "dispose", places, reason, note)


def count_over(book: Balances, part: int, qty: int, *, to: int | str = UNSORTED) -> tuple[Move, ...]:
    """Write down pieces found where none was booked; what was counted short before comes back first."""
    refuse_nothing("count over", qty)
    moves = []
    for place, there in book.places(part, State.GONE):
        found = min(qty, there) if place.where == COUNTED_SHORT else 0
        if found:
            moves.append(Move(part, found, place, Place(State.RECEIVED, to, place.condition)))
            qty -= found
    if qty:
        moves.append(Move(part, qty, Place(State.NOT_OURS, UNKNOWN), Place(State.RECEIVED, to, OPENED)))
    return tuple(moves)


def count_short(book: Balances, part: int, source: Place, qty: int) -> tuple[Move, ...]:
    """Write down that pieces are not where they are booked."""
    return _gone(book, part, qty, "count short", [source], COUNTED_SHORT, "")


def transfer(
    book: Balances,
    part: int,
    qty: int,
    *,
    line: int,
    sources: Iterable[Place] = (),
    inside: Mapping[int, int] | None = None,
) -> tuple[Move, ...]:
    """Give pieces to a line of another build, where and as they are.

    Args:
        book: The balances.
        part: Id of the part that gives.
        qty: Pieces.
        line: Id of the part of the other build that gets them.
        sources: Where they are taken from; empty takes received ones first, then removed, then held.
        inside: For each part that is built into it, the line of the other build that gets it.

    Raises:
        CannotMoveError: Too few are here, both are the same line, or something built in has no line there.

    """
    if part == line:
        raise CannotMoveError("The other build was expected to have a line of its own for it.")
    places = list(sources) or [place for place, _ in book.places(part, *HERE, State.HELD)]
    lines = {part: line, **(inside or {})}
    moves = list[Move]()
    for give in _gone(book, part, qty, "transfer", places, OTHER_BUILD, ""):
        getting = lines.get(give.part)
        if getting is None or getting == give.part:
            raise CannotMoveError("What is built into it was expected to have a line there too.")
        there = give.source
        if there.state is State.ASSEMBLED and isinstance(there.where, int):
            there = Place(State.ASSEMBLED, lines[there.where], there.condition)
        moves.extend((give, Move(getting, give.qty, Place(State.NOT_OURS, OTHER_BUILD), there)))
    return tuple(moves)


def strip(
    book: Balances, donor: int, wanted: int, qty: int, *, to: int | str = UNSORTED, last: bool = True
) -> tuple[Move, ...]:
    """Take wanted pieces out of a donor part, which goes with what is left in it.

    Args:
        book: The balances.
        donor: Id of the part that was bought for what is in it.
        wanted: Id of the part that comes out.
        qty: Pieces that come out of one donor.
        to: Bin, or the bench.
        last: Whether the donor goes; false where more is to come out of it.

    Raises:
        CannotMoveError: No donor is here, or it is the wanted part itself.

    """
    refuse_nothing("strip", qty)
    if donor == wanted:
        raise CannotMoveError("A part cannot come out of itself.")
    places = [place for place, _ in book.places(donor, *HERE, State.HELD)]
    goes = _gone(book, donor, 1, "strip", places, STRIPPED, "")
    comes = Move(wanted, qty, Place(State.NOT_OURS, DONOR), Place(State.RECEIVED, to, OPENED))
    return (*goes, comes) if last else (comes,)


def hand_over(book: Balances, part: int) -> tuple[Move, ...]:
    """Let all that is installed of a part leave with the finished vehicle, and what is built into it.

    Empty where none is installed. Where fewer are built in than there are to carry them, those on the vehicle
    have them, as `carriers.standing` says.
    """
    places = [place for place, _ in book.places(part, State.INSTALLED)]
    on = book.in_state(part, State.INSTALLED)
    return _gone(book, part, on, "hand over", places, HANDED_OVER, "", full=True) if on else ()


def to_order(book: Balances, part: int, *, needed: int, original: bool) -> int:
    """Return the pieces still to be ordered: needed minus what is promised, here, out or on the vehicle.

    A removed original does not fill a need, nor does anything held: somebody has yet to say whether it may.
    """
    had = book.in_state(part, *COUNTS_AS_HAD)
    if not original:
        had += book.in_state(part, State.REMOVED)
    return max(0, needed - had)


def _gone(
    book: Balances,
    part: int,
    qty: int,
    verb: str,
    sources: Iterable[Place],
    reason: str,
    note: str,
    *,
    full: bool = False,
) -> tuple[Move, ...]:
    moves = take_to(
        book,
        part,
        qty,
        verb,
        sources,
        lambda place: Place(State.GONE, reason, place.condition),
        note=note,
    )
    along = tuple(
        Move(inside, pieces, place, Place(State.GONE, reason, place.condition), note)
        for inside, place, pieces in taken_along(book, part, qty, full=full)
    )
    return moves + along
