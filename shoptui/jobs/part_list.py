"""The parts of a build, or of the whole shop, with how many are in which state."""

from collections.abc import Iterator
from dataclasses import dataclass

from shoptui.domain.places import State
from shoptui.domain.records import Part
from shoptui.domain.verbs import to_order
from shoptui.store.shop import Shop


@dataclass(frozen=True, slots=True)
class PartLine:
    """One part.

    Args:
        part: The part.
        to_order: Pieces still to be ordered.
        states: Pieces in each state, in the order of the states; `not ours` is what came from outside,
            below zero, so that all of them add up to zero.

    """

    part: Part
    to_order: int
    states: dict[State, int]


def part_lines(shop: Shop, build: int | None = None) -> tuple[PartLine, ...]:
    """Return the parts of a build by section and description; without a build those of the whole shop."""
    parts = [part for part in shop.parts.all() if build is None or part.build == build]
    parts.sort(key=lambda part: (part.section.casefold(), part.description.casefold(), part.id))
    return tuple(_lines(shop, parts))


def is_of_finished(shop: Shop, part: Part) -> bool:
    """Return whether a part is on the list of a finished build, which wants nothing any more."""
    return part.build is not None and shop.builds.get(part.build).status != "open"


def still_to_order(shop: Shop, part: Part) -> int:
    """Return the pieces of a part that are still to be ordered; none for a finished build."""
    if is_of_finished(shop, part):
        return 0
    return to_order(shop.book, part.id, needed=part.needed, original=part.original)


def _lines(shop: Shop, parts: list[Part]) -> Iterator[PartLine]:
    for part in parts:
        states = dict.fromkeys(State, 0)
        for place, qty in shop.book.places(part.id):
            states[place.state] += qty
        yield PartLine(part, still_to_order(shop, part), states)
