"""Problems of a whole store: returned as data, never raised."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is not sound.

    Args:
        where: The record or the place, as a person finds it.
        what: What is wrong.
        remedy: What to do about it.

    """

    where: str
    what: str
    remedy: str


def cycles(after: Mapping[int, Iterable[int]]) -> tuple[tuple[int, ...], ...]:
    """Return the rings in "must be on after", each once, beginning with its smallest id.

    Args:
        after: Part id to the ids of the parts that must be on before it.

    Examples:
        >>> cycles({1: (2,), 2: (3,), 3: (1,), 4: (1,)})
        ((1, 2, 3),)

    """
    done: set[int] = set()
    rings: set[tuple[int, ...]] = set()
    for start in after:
        path: list[int] = []
        on_path: dict[int, int] = {}
        pending: list[tuple[int, bool]] = [(start, True)]
        while pending:
            node, entering = pending.pop()
            if not entering:
                done.add(path.pop())
                del on_path[node]
            elif node in on_path:
                rings.add(_from_smallest(tuple(path[on_path[node] :])))
            elif node not in done:
                on_path[node] = len(path)
                path.append(node)
                pending.append((node, False))
                pending.extend((before, True) for before in after.get(node, ()))
    return tuple(sorted(rings))


def _from_smallest(ring: tuple[int, ...]) -> tuple[int, ...]:
    first = ring.index(min(ring))
    return ring[first:] + ring[:first]
