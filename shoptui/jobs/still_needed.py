"""Which unfilmed shot would lose a part if it were moved."""

from collections.abc import Iterable, Iterator

from shoptui.domain.carriers import standing
from shoptui.domain.days import day_words
from shoptui.domain.ledger import Balances, Move
from shoptui.domain.places import Place, State
from shoptui.domain.readiness import meets, pieces_needed
from shoptui.domain.records import Part
from shoptui.domain.shoots import Need, Shoot, Shot, shot_words
from shoptui.jobs.at import name
from shoptui.jobs.needs import asked_of
from shoptui.jobs.place_words import today
from shoptui.store.shop import Shop


def still_needed(shop: Shop, moves: Iterable[Move]) -> tuple[str, ...]:
    """Return a sentence for each unfilmed shot that has a part as it needs it, and would no longer.

    "Fri 13 Nov, shot 3 (the boxes) needs it sealed". Pieces beyond what the shot needs may go unasked. Where
    the moves concern more parts than one, each is named.
    """
    moves = tuple(moves)
    told: list[str] = []
    concerned = tuple(_before_and_after(shop.book, moves))
    for number, before, after in concerned:
        part = shop.parts.get(number)
        it = "it" if len(concerned) == 1 else name(part)
        for shoot, count, shot, need in _unfilmed(shop, part):
            wanted = pieces_needed(need, part, before.items())
            had, left = (
                sum(qty for place, qty in places.items() if meets(need.condition, part, place))
                for places in (before, after)
            )
            if left < min(had, wanted):
                day = day_words(shoot.date, today(shop))
                told.append(f"{day}, {shot_words(count, shot)} needs {it} {need.condition.value}")
    return tuple(dict.fromkeys(told))


def _unfilmed(shop: Shop, part: Part) -> Iterator[tuple[Shoot, int, Shot, Need]]:
    named = {None, part.id, *shop.in_kits.get(part.id, ())}
    for shoot in sorted(shop.shoots.all(), key=lambda shoot: shoot.date):
        for count, shot in enumerate(shoot.shots, 1):
            if shot.filmed:
                continue
            for need in shot.needs:
                # Most needs name another part, and are passed over at once.
                if need.part in named and (asks := asked_of(shop, need, part)) is not None:
                    yield shoot, count, shot, asks


def _before_and_after(
    book: Balances, moves: tuple[Move, ...]
) -> Iterator[tuple[int, dict[Place, int], dict[Place, int]]]:
    """Yield each part that the moves concern with where its pieces stand, before and after.

    What is built into a part goes with it, so a tyre is asked about too when its wheel comes off.
    """
    parts = list(dict.fromkeys(move.part for move in moves))
    for part in parts:
        parts.extend(inside for inside in book.parts_at(State.ASSEMBLED, part) if inside not in parts)
    before = {part: _standing(book, part) for part in parts}
    with book.supposing(moves):
        after = {part: _standing(book, part) for part in parts}
    yield from ((part, before[part], after[part]) for part in parts)


def _standing(book: Balances, part: int) -> dict[Place, int]:
    stand: dict[Place, int] = {}
    for place, qty in standing(book, part):
        stand[place] = stand.get(place, 0) + qty
    return stand
