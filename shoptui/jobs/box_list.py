"""What should be in a box, and what came in it."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from shoptui.domain.places import Place, State
from shoptui.domain.records import Box, Order
from shoptui.store.shop import Shop


@dataclass(frozen=True, slots=True)
class ExpectedLine:
    """One part of a box.

    Args:
        part: Id of the part.
        expected: Pieces that should be in the box; 0 for what nobody expected.
        received: Pieces that came in it, those set aside included.
        held: How many of the received were set aside as they came: damaged, wrong, over.

    """

    part: int
    expected: int
    received: int
    held: int = 0

    @property
    def short(self) -> int:
        """Pieces that have not come."""
        return max(0, self.expected - self.received)

    @property
    def over(self) -> int:
        """Pieces that came beyond what was expected."""
        return max(0, self.received - self.expected)


@dataclass(frozen=True, slots=True)
class BoxLines:
    """One box with its lines and the day on which it is due."""

    box: Box
    due: date | None
    lines: tuple[ExpectedLine, ...]


def box_list(shop: Shop, *, open_only: bool = False) -> tuple[BoxLines, ...]:
    """Return the boxes, soonest due first; with `open_only` those that are not closed."""
    boxes = [box for box in shop.boxes.all() if not (open_only and box.closed)]
    boxes.sort(key=lambda box: (due_day(shop, box) or date.max, box.id))
    return tuple(BoxLines(box, due_day(shop, box), expected_in(shop, box)) for box in boxes)


def due_day(shop: Shop, box: Box) -> date | None:
    """Return the day on which a box is due: its own, else the soonest of its orders."""
    if box.due is not None:
        return box.due
    return min((due for number in box.orders if (due := shop.orders.get(number).due)), default=None)


def expected_in(shop: Shop, box: Box) -> tuple[ExpectedLine, ...]:
    """Return the lines of a box: those on its slip or of its orders first, then what came unasked.

    Where nothing says what is inside, an open box is expected to hold all that its orders still promise; a
    closed one held what came, since the rest must come in another. The work grows with the lines of the
    box's orders, never with the list of parts.
    """
    came = shop.received_in.get(box.code, {})
    if box.contents:
        expected: dict[int, int] = {}
        for line in box.contents:
            expected[line.part] = expected.get(line.part, 0) + line.qty
    else:
        expected = dict(_promised(shop, box))
    lines = []
    for part in dict.fromkeys((*expected, *came)):
        received = max(0, came.get(part, 0))
        asked, held = _arrivals(shop, part, box.code) if received else (0, 0)
        wanted = expected.get(part, 0) + (0 if box.contents else asked)
        if wanted or received:
            lines.append(ExpectedLine(part, wanted, received, held))
    return tuple(lines)


def _promised(shop: Shop, box: Box) -> Iterator[tuple[int, int]]:
    """Yield parts with the pieces that the box's orders still promise, in the order of their lines."""
    promised: dict[int, int] = {}
    for number in box.orders:
        order = shop.orders.get(number)
        open_ = {} if box.closed else shop.book.parts_at(_waiting(order), order.id)
        for part in (*(line.part for line in order.lines), *open_):
            promised[part] = promised.get(part, 0) + open_.pop(part, 0)
    yield from promised.items()


def _waiting(order: Order) -> State:
    """The state in which what an order will bring stands."""
    return State.SENT_OUT if order.kind == "outside" else State.ORDERED


def _arrivals(shop: Shop, part: int, box: str) -> tuple[int, int]:
    """Return the pieces of a part that came in a box against an order, and those set aside as they came."""
    asked = held = 0
    for entry in shop.history.moves_of_part(part):
        move = entry.move
        if move.ref != box:
            continue
        came = _came(move.source, move.target)
        inner = move.target if came > 0 else move.source
        outer = move.source if came > 0 else move.target
        asked += move.qty * came * (outer.state is not State.NOT_OURS)
        held += move.qty * came * (inner.state is State.HELD)
    return asked, held


def _came(source: Place, target: Place) -> int:
    """Whether a move brings pieces in (1), takes that back (-1), or neither."""
    outside = (State.ORDERED, State.NOT_OURS, State.SENT_OUT)
    return (source.state in outside) - (target.state in outside)
