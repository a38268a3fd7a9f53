"""Positions on the vehicle: as they are scanned, what is on at each, and what must be on there first."""

from collections import Counter
from dataclasses import dataclass

from shoptui.domain.carriers import standing
from shoptui.domain.ledger import Balances
from shoptui.domain.places import State
from shoptui.domain.records import Part
from shoptui.store.command_tags import command_named
from shoptui.store.shop import Shop


@dataclass(frozen=True, slots=True)
class Position:
    """A position by its name as the lists have it."""

    name: str


def position_of(part: Part, text: str) -> Position | None:
    """Return the position that a scan or a typed word names; None for what is none.

    The usual ones have tags; any other name that the part is listed for can be typed.
    """
    command = command_named(text)
    if command is not None:
        return Position(command.word) if command.position else None
    wanted = text.strip().casefold()
    return next((Position(each) for each in part.positions if each.casefold() == wanted), None)


def on_vehicle(book: Balances, part: int, *states: State) -> Counter[str]:
    """Return position to pieces of a part that are on the vehicle, by themselves or built into what is on.

    Args:
        book: The balances.
        part: Id of the part.
        states: What counts as on; empty for installed for good.

    """
    wanted = states or (State.INSTALLED,)
    places = standing(book, part) if book.in_state(part, State.ASSEMBLED) else book.places(part, *wanted)
    on: Counter[str] = Counter()
    for place, qty in places:
        if place.state in wanted and qty > 0:
            on[str(place.where)] += qty
    return on


def share_of(part: Part) -> int:
    """Return how many pieces of a part go to each of its positions."""
    return max(1, part.needed // max(1, len(part.positions)))


def free_position(book: Balances, part: Part) -> str:
    """Return the first listed position that still wants a piece; the first one where none does."""
    on = on_vehicle(book, part.id, State.INSTALLED, State.MOCKED_UP)
    free = [position for position in part.positions if on[position] < share_of(part)]
    return (free or list(part.positions) or [""])[0]


def not_on_yet(shop: Shop, part: Part, position: str) -> tuple[Part, ...]:
    """Return the parts that must be on before a part goes on at a position, and are not.

    One that has that position too must be on there; of any other, all that its line wants. One that belongs
    to another of the part's own positions, as the right caliper does for the left pad, is not waited for.
    """
    parts = (shop.parts.get(number) for number in part.install_after)
    return tuple(
        each
        for each in parts
        if not each.withdrawn
        and not _is_elsewhere(each, part, position)
        and not is_on(shop.book, each, position)
    )


def _is_elsewhere(other: Part, part: Part, position: str) -> bool:
    return (
        bool(other.positions)
        and position not in other.positions
        and set(other.positions) < set(part.positions)
    )


def is_on(book: Balances, part: Part, position: str) -> bool:
    """Return whether a part is on at a position that it has; of one that has not, all that its line wants."""
    on = on_vehicle(book, part.id)
    if position and position in part.positions:
        return on[position] > 0
    return on.total() >= max(1, part.needed)
