"""What a count of a bin differs by from the books, and the moves that bring the books to it.

A thing that is booked on another shelf is a move, not a loss and a find.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from shoptui.domain import verbs
from shoptui.domain.ledger import Balances, Move
from shoptui.domain.places import COUNTED_SHORT, UNSORTED, Place, State
from shoptui.domain.records import Bin, Part
from shoptui.domain.verbs import ON_A_SHELF
from shoptui.jobs.bins import inside
from shoptui.jobs.put_away import bin_name
from shoptui.store.shop import Shop

Came = tuple[Place, str] | None
"""Where pieces more than booked came from, and what was done to them there; None: they are others."""


@dataclass(frozen=True, slots=True)
class Difference:
    """What differs of one part.

    Args:
        part: The part.
        booked: Pieces that the books have in the bin.
        counted: Pieces that are there.
        moved: Places on other shelves that the books have them in, and how many of each came from there.
        back: Pieces that were not found when another bin was counted; they are looked for first.

    """

    part: Part
    booked: int
    counted: int
    moved: tuple[tuple[Place, int], ...] = ()
    back: int = 0

    @property
    def short(self) -> int:
        """Pieces that are booked but not there."""
        return max(0, self.booked - self.counted)

    @property
    def found(self) -> int:
        """Pieces that are there and booked on no shelf."""
        return max(0, self.counted - self.booked) - sum(qty for _, qty in self.moved)


def differences(shop: Shop, found: Bin, counted: Mapping[int, int]) -> tuple[Difference, ...]:
    """Return what a count differs by from the books; nothing where all is as booked."""
    booked: dict[int, int] = {}
    for part, _, qty in inside(shop, found.id):
        booked[part.id] = booked.get(part.id, 0) + qty
    return tuple(
        _difference(shop, found, shop.parts.get(number), booked.get(number, 0), counted.get(number, 0))
        for number in dict.fromkeys((*booked, *counted))
        if booked.get(number, 0) != counted.get(number, 0)
    )


def _difference(shop: Shop, found: Bin, part: Part, booked: int, counted: int) -> Difference:
    over = max(0, counted - booked)
    gone = sum(
        qty
        for place, qty in shop.book.places(part.id, State.GONE)
        if place.where == COUNTED_SHORT and qty > 0
    )
    over -= (back := min(over, gone))
    moved = []
    elsewhere = [
        each
        for each in shop.book.places(part.id, *ON_A_SHELF)
        if each[0].where != found.id and not _bag_of_a_part(shop, each[0].where)
    ]
    # What lies on the bench is the likeliest to have been laid here without a scan.
    for place, there in sorted(elsewhere, key=lambda each: each[0].where != UNSORTED):
        if taken := min(over, there):
            moved.append((place, taken))
            over -= taken
    return Difference(part, booked, counted, tuple(moved), back)


def _bag_of_a_part(shop: Shop, where: int | str) -> bool:
    """Whether a place is the bag with a part's hardware: nobody takes a bolt out of that for a drawer."""
    return isinstance(where, int) and shop.bins.get(where).part is not None


def difference_words(shop: Shop, each: Difference) -> str:
    """Return a difference in words: "1 short", "1 booked in B-04: moved here", "1 more than booked"."""
    words = [f"{each.short} short"] if each.short else []
    words.extend(f"{qty} {_booked(shop, place.where)}: moved here" for place, qty in each.moved)
    if each.back:
        words.append(f"{each.back} that was not found before")
    if more := each.found - each.back:
        words.append(f"{more} more than booked")
    return ", ".join(words)


def _booked(shop: Shop, where: int | str) -> str:
    return f"booked in {bin_name(shop.bins.get(where))}" if isinstance(where, int) else "on the bench"


def moves_of(book: Balances, each: Difference, into: int, came: Came) -> Iterator[Move]:
    """Return the moves that bring the books to what was counted."""
    short, part = each.short, each.part.id
    for place, there in book.places(part, *ON_A_SHELF):
        if place.where == into and (lost := min(short, there)):
            yield from verbs.count_short(book, part, place, lost)
            short -= lost
    for place, qty in each.moved:
        yield from verbs.put_away(book, part, place, qty, to=into)
    found = each.found
    if came is not None:
        place, work = came
        taken = min(found - each.back, book.at(part, place))
        yield from _taken_from(book, part, taken, place, work, into)
        found -= taken
    if found:
        yield from verbs.count_over(book, part, found, to=into)


def _taken_from(book: Balances, part: int, qty: int, place: Place, work: str, into: int) -> tuple[Move, ...]:
    """Return the moves of pieces that were booked off the shelves and are here."""
    where = place.where
    match place.state:
        case State.ORDERED:
            return verbs.receive(book, part, qty, order=int(where), to=into)
        case State.SENT_OUT:
            return verbs.take_back(book, part, qty, job=int(where), done=work, to=into)
        case State.ASSEMBLED:
            return verbs.take_apart(book, part, qty, carrier=int(where), to=into)
        case State.MOCKED_UP:
            return verbs.take_down(book, part, qty, position=str(where), to=into)
    return verbs.remove(book, part, qty, position=str(where), to=into)
