"""Which unfilmed shot would lose a part if it were moved."""

from collections.abc import Iterable, Iterator

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import Place
from shoptui.domain.readiness import concerns, meets, pieces_needed
from shoptui.domain.records import Part
from shoptui.domain.shoots import Need, Shoot, Shot
from shoptui.jobs.place_words import today
from shoptui.store.shop import Shop


def still_needed(shop: Shop, moves: Iterable[Move]) -> tuple[str, ...]:
    """Return a sentence for each unfilmed shot that has a part as it needs it, and would no longer.

    "Fri 13 Nov, shot 3 (the boxes) needs it sealed". Pieces beyond what the shot needs may go unasked.
    """
    by_part: dict[int, list[Move]] = {}
    for move in moves:
        by_part.setdefault(move.part, []).append(move)
    told: list[str] = []
    for number, part_moves in by_part.items():
        part = shop.parts.get(number)
        before = dict(shop.book.places(number))
        after = _after(before, part_moves)
        for shoot, count, shot, need in _unfilmed(shop, part):
            wanted = pieces_needed(need, part, before)
            had, left = (
                sum(qty for place, qty in places.items() if meets(need.condition, part, place))
                for places in (before, after)
            )
            if left < min(had, wanted):
                title = f" ({inert(shot.title)})" if shot.title else ""
                day = day_words(shoot.date, today(shop))
                told.append(f"{day}, shot {count}{title} needs it {need.condition.value}")
    return tuple(dict.fromkeys(told))


def _unfilmed(shop: Shop, part: Part) -> Iterator[tuple[Shoot, int, Shot, Need]]:
    for shoot in sorted(shop.shoots.all(), key=lambda shoot: shoot.date):
        for count, shot in enumerate(shoot.shots, 1):
            if not shot.filmed:
                yield from ((shoot, count, shot, need) for need in shot.needs if concerns(need, part))


def _after(before: dict[Place, int], moves: Iterable[Move]) -> dict[Place, int]:
    after = dict(before)
    for move in moves:
        after[move.source] = after.get(move.source, 0) - move.qty
        after[move.target] = after.get(move.target, 0) + move.qty
    return after
