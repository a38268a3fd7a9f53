"""Which unfilmed shot would lose a part if it were moved."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

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


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a shot that is not filmed needs of a part; `number` is the shot's in its day, 1 first."""

    shoot: Shoot
    number: int
    shot: Shot
    need: Need


def still_needed(shop: Shop, moves: Iterable[Move]) -> tuple[str, ...]:
    """Return a sentence for each unfilmed shot that has a part as it needs it, and would no longer.

    "Fri 13 Nov, shot 3 (the boxes) needs it sealed". Pieces beyond what the shot needs may go unasked. Where
    the moves concern more parts than one, each is named.
    """
    told: list[str] = []
    concerned = tuple(_before_and_after(shop.book, tuple(moves)))
    for number, before, after in concerned:
        part = shop.parts.get(number)
        it = "it" if len(concerned) == 1 else name(part)
        for wanted in _unfilmed(shop, part):
            if _loses(wanted, part, before, after):
                day = day_words(wanted.shoot.date, today(shop))
                words = shot_words(wanted.number, wanted.shot)
                told.append(f"{day}, {words} needs {it} {wanted.need.condition.value}")
    return tuple(dict.fromkeys(told))


def _loses(wanted: Wanted, part: Part, before: dict[Place, int], after: dict[Place, int]) -> bool:
    """Return whether a shot has fewer pieces as it needs them than before, and than it needs."""
    had, left = (
        sum(qty for place, qty in places.items() if meets(wanted.need.condition, part, place))
        for places in (before, after)
    )
    return left < min(had, pieces_needed(wanted.need, part, before.items()))


class Unfilmed:
    """All that shots not filmed yet need, by part: for who asks of many parts."""

    def __init__(self, shop: Shop) -> None:
        self._shop = shop
        self._wanted: dict[object, list[Wanted]] = {}
        for shoot in shop.shoots.all():
            for number, shot in enumerate(shoot.shots, 1):
                for need in () if shot.filmed else shot.needs:
                    key = need.part or (need.build, need.section.casefold())
                    self._wanted.setdefault(key, []).append(Wanted(shoot, number, shot, need))

    def loses(self, part: Part, move: Move) -> Wanted | None:
        """Return the first shot that has a part as it needs it, and would not after a move."""
        keys = (part.id, (part.build, part.section.casefold()), *self._shop.in_kits.get(part.id, ()))
        for wanted in (wanted for key in keys for wanted in self._wanted.get(key, ())):
            # Most shots that need the part have not got it as they need it where it is moved from.
            if not meets(wanted.need.condition, part, move.source):
                continue
            if (need := asked_of(self._shop, wanted.need, part)) is not None:
                asks = replace(wanted, need=need)
                for number, before, after in _before_and_after(self._shop.book, (move,)):
                    if number == part.id and _loses(asks, part, before, after):
                        return asks
        return None


def _unfilmed(shop: Shop, part: Part) -> Iterator[Wanted]:
    named = {None, part.id, *shop.in_kits.get(part.id, ())}
    for shoot in sorted(shop.shoots.all(), key=lambda shoot: shoot.date):
        for count, shot in enumerate(shoot.shots, 1):
            if shot.filmed:
                continue
            for need in shot.needs:
                # Most needs name another part, and are passed over at once.
                if need.part in named and (asks := asked_of(shop, need, part)) is not None:
                    yield Wanted(shoot, count, shot, asks)


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
