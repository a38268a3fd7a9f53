"""The ledger: moves between places, and the balances that are their sum.

Double entry, as in bookkeeping: what leaves one place arrives at another, so for every part the sum over
all places is zero, and only `not ours` may stand below zero.
"""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import TypeVar

from shoptui.domain.places import Place, State

K = TypeVar("K")


class CannotMoveError(ValueError):
    """A move that cannot have happened; the words say what there is instead."""


@dataclass(frozen=True, slots=True)
class Move:
    """A quantity of one part goes from one place to another.

    Args:
        part: Id of the part.
        qty: Pieces, 1 or more.
        source: Where they were.
        target: Where they are now.
        note: A person's words, may be empty.
        ref: Code of the box that they came in, may be empty.

    """

    part: int
    qty: int
    source: Place
    target: Place
    note: str = ""
    ref: str = ""

    def inverse(self) -> "Move":
        """Return the move that takes this one back."""
        return replace(self, source=self.target, target=self.source)


class Balances:
    """How many pieces of each part are in each place: an index that is fed with moves.

    >>> book = Balances()
    >>> shelf = Place(State.RECEIVED, 3)
    >>> book.apply(Move(1, 2, Place(State.NOT_OURS, 9), shelf))
    >>> book.at(1, shelf), book.in_state(1, State.RECEIVED), book.sum(1)
    (2, 2, 0)
    """

    def __init__(self) -> None:
        self._of_part: dict[int, dict[Place, int]] = {}
        self._in_place: dict[tuple[State, int | str], dict[int, int]] = {}
        self.supposed = 0
        """Above 0 while some of it is only supposed: nothing that follows from that is to be kept."""

    def apply(self, move: Move, sign: int = 1) -> None:
        """Enter a move; with sign -1 take it out again (an aborted transaction)."""
        self.enter(move.part, move.source, -move.qty * sign)
        self.enter(move.part, move.target, move.qty * sign)

    @contextmanager
    def supposing(self, moves: Iterable[Move]) -> Iterator[None]:
        """Stand as if some moves were entered while the block runs: what follows from them is asked there."""
        moves = tuple(moves)
        self.supposed += 1
        for move in moves:
            self.apply(move)
        try:
            yield
        finally:
            self.supposed -= 1
            for move in moves:
                self.apply(move, -1)

    def enter(self, part: int, place: Place, qty: int) -> None:
        """Enter one side of a move; the other side must follow."""
        _add(self._of_part.setdefault(part, {}), place, qty)
        _add(self._in_place.setdefault((place.state, place.where), {}), part, qty)

    def at(self, part: int, place: Place) -> int:
        """Return the pieces of a part in one place."""
        return self._of_part.get(part, {}).get(place, 0)

    def places(self, part: int, *states: State) -> tuple[tuple[Place, int], ...]:
        """Return the places that hold a part with their quantities, in the order of the states."""
        held = self._of_part.get(part, {})
        return tuple(
            sorted(
                ((place, qty) for place, qty in held.items() if not states or place.state in states),
                key=lambda pair: (_ORDER[pair[0].state], str(pair[0].where), pair[0].condition),
            )
        )

    def in_state(self, part: int, *states: State) -> int:
        """Return the pieces of a part in any of the states."""
        return sum(qty for place, qty in self._of_part.get(part, {}).items() if place.state in states)

    def parts_at(self, state: State, where: int | str) -> dict[int, int]:
        """Return part id to pieces for one state and `where`, however the pieces are, by id.

        By id, since what was only supposed, or undone, must not change the order.
        """
        return dict(sorted(self._in_place.get((state, where), {}).items()))

    def parts_in(self, *states: State) -> set[int]:
        """Return the ids of the parts of which pieces are in any of the states, wherever."""
        return set[int]().union(*(parts for (state, _), parts in self._in_place.items() if state in states))

    def sum(self, part: int) -> int:
        """Return the sum over all places, which is zero in a sound ledger."""
        return sum(self._of_part.get(part, {}).values())

    def below_zero(self) -> Iterator[tuple[int, Place, int]]:
        """Yield part, place and balance wherever a place other than `not ours` stands below zero."""
        for part, places in self._of_part.items():
            for place, qty in places.items():
                if qty < 0 and place.state is not State.NOT_OURS:
                    yield part, place, qty

    def check(self, moves: Iterable[Move]) -> None:
        """Refuse moves that together would leave a place below zero.

        Raises:
            CannotMoveError: Says what there is.

        """
        change: dict[tuple[int, Place], int] = {}
        for move in moves:
            if move.qty < 1:
                raise CannotMoveError(f"A quantity of 1 or more was expected, not {move.qty}.")
            change[move.part, move.source] = change.get((move.part, move.source), 0) - move.qty
            change[move.part, move.target] = change.get((move.part, move.target), 0) + move.qty
        for (part, place), delta in change.items():
            there = self.at(part, place)
            if delta < 0 and there + delta < 0 and place.state is not State.NOT_OURS:
                raise CannotMoveError(
                    f"{there} {_is_are(there)} {place.state} there; {-delta} cannot be taken from it."
                )


def _add(counts: dict[K, int], key: K, qty: int) -> None:
    """Add to a count; what has come to nothing is not kept."""
    now = counts.get(key, 0) + qty
    if now:
        counts[key] = now
    else:
        counts.pop(key, None)


def _is_are(count: int) -> str:
    return "is" if count == 1 else "are"


_ORDER = {state: number for number, state in enumerate(State)}
