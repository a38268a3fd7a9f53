"""What should be in a box, and what came in it."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from shoptui.domain.places import State
from shoptui.domain.records import Box, Order
from shoptui.store.shop import Shop

WRONG = "wrong"
"""Note of a move that sets aside what came in the place of a part and is not it."""


@dataclass(frozen=True, slots=True)
class ExpectedLine:
    """One part of a box.

    Args:
        part: Id of the part.
        expected: Pieces that should be in the box; 0 for what nobody expected, and for a kit, whose contents
            have lines of their own below it.
        received: Pieces that came in it, those set aside included.
        held: How many of the received were set aside as they came: damaged, over, another in its place.
        wrong: Pieces that came in its place and are not it: they are held, and it is still to come.
        is_kit: Whether it only says which kit the next lines are the contents of.

    """

    part: int
    expected: int
    received: int
    held: int = 0
    wrong: int = 0
    is_kit: bool = False

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


def come_beside(shop: Shop, box: Box) -> list[Box]:
    """Return the other boxes that may bring what a box's orders still promise: those not closed yet."""
    others = {number for order in box.orders for number in shop.box_index.of_order.get(order, ())} - {box.id}
    return [each for each in map(shop.boxes.get, sorted(others)) if each.closed is None]


def still_to_come(shop: Shop, box: Box, lines: Iterable[ExpectedLine]) -> str:
    """Say how many pieces a box lacks; where others may bring them, no more is said than is known.

    Empty where it lacks none.
    """
    missing = sum(line.short for line in lines)
    if missing and not box.contents and come_beside(shop, box):
        return f"up to {missing}"
    return str(missing) if missing else ""


def expected_in(shop: Shop, box: Box) -> tuple[ExpectedLine, ...]:
    """Return the lines of a box: those on its slip or of its orders first, then what came unasked.

    Where nothing says what is inside, an open box is expected to hold all that its orders still promise. A
    closed one held what came, since the rest comes in another; but if it was the last of an order's boxes,
    what that still promises is short in it. The work grows with the lines and the boxes of the box's orders,
    never with the list of parts.
    """
    boxes = shop.box_index
    came, unasked, held = boxes.received(box.code), boxes.unasked(box.code), boxes.held(box.code)
    wrong = {part: _wrong(shop, box, part) for part, qty in held.items() if qty > 0}
    if wrong:
        came = {part: qty - wrong.get(part, 0) for part, qty in came.items()}
    slip = dict(_on_slip(shop, box, came))
    orders = [shop.orders.get(number) for number in box.orders]
    loose = [order for order in orders if not slip or slip.keys().isdisjoint(_of(shop, order))]
    unsaid = {part for order in loose for part in _of(shop, order)} if slip else set()
    expected = slip | _promised(shop, box, loose)
    lines = {}
    for part in dict.fromkeys((*expected, *came)):
        received, other = max(0, came.get(part, 0)), wrong.get(part, 0)
        wanted = expected.get(part, 0)
        if received and (not slip or part in unsaid):
            wanted += received - unasked.get(part, 0)
        if wanted or received or other:
            aside = held.get(part, 0) - other if received else 0
            lines[part] = ExpectedLine(part, wanted, received, aside, other)
    if shop.in_kits.keys().isdisjoint(lines):  # as in nearly every box: a scan need not wait for kits
        return tuple(lines.values())
    return tuple(_under_kits(shop, box, lines))


def _under_kits(shop: Shop, box: Box, lines: dict[int, ExpectedLine]) -> Iterator[ExpectedLine]:
    """Yield the contents of each kit that was ordered below a line for the kit, then all other lines."""
    left = dict(lines)
    for order in (shop.orders.get(number) for number in box.orders):
        for kit in dict.fromkeys(line.part for line in order.lines):
            inside = [line.part for line in shop.parts.get(kit).kit if line.part in left]
            if inside:
                yield ExpectedLine(kit, 0, 0, is_kit=True)
            yield from (left.pop(part) for part in dict.fromkeys(inside))
            if kit in left:
                yield left.pop(kit)
    yield from left.values()


def _wrong(shop: Shop, box: Box, part: int) -> int:
    """Return the pieces that came in a box in the place of a part and were set aside as wrong."""
    return sum(
        entry.move.qty * ((entry.move.target.state is State.HELD) - (entry.move.source.state is State.HELD))
        for entry in shop.history.moves_of_part(part)
        if entry.move.ref == box.code and entry.move.note == WRONG
    )


def _on_slip(shop: Shop, box: Box, came: Mapping[int, int]) -> Iterator[tuple[int, int]]:
    """Yield what a slip says is in a box, less what reached the shop by another way meanwhile."""
    on_slip: dict[int, int] = {}
    for line in box.contents:
        on_slip[line.part] = on_slip.get(line.part, 0) + line.qty
    for part, qty in on_slip.items():
        promised = sum(
            shop.book.parts_at(_waiting(order), order.id).get(part, 0)
            for order in (shop.orders.get(number) for number in box.orders)
        )
        yield part, min(qty, max(0, came.get(part, 0)) + promised)


def orders_of(shop: Shop, box: Box, part: int) -> list[Order]:
    """Return the orders of a box that a part is on."""
    orders = [shop.orders.get(number) for number in dict.fromkeys((*box.orders, *box.also_orders))]
    return [order for order in orders if part in _of(shop, order)]


def _of(shop: Shop, order: Order) -> list[int]:
    """Return the parts that an order is of, a kit's contents in its place."""
    found: list[int] = []
    for line in order.lines:
        if kit := shop.parts.get(line.part).kit:
            found += [inside.part for inside in kit]
        else:
            found.append(line.part)
    return found


def _promised(shop: Shop, box: Box, orders: Iterable[Order]) -> dict[int, int]:
    """Return parts with the pieces that orders of a box still promise, in the order of their lines.

    Args:
        shop: The shop.
        box: The box.
        orders: Those of its orders of which no slip says what is inside.

    """
    promised: dict[int, int] = {}
    for order in orders:
        comes_in_it = box.closed is None or _was_last(shop, box, order)
        open_ = shop.book.parts_at(_waiting(order), order.id) if comes_in_it else {}
        for part in (*_of(shop, order), *open_):
            promised[part] = promised.get(part, 0) + open_.pop(part, 0)
    return promised


def _was_last(shop: Shop, box: Box, order: Order) -> bool:
    """Whether a closed box was the last of its order's boxes to be closed, with none of them still open."""
    closed = box.closed
    return closed is not None and all(
        other.id == box.id or (other.closed is not None and (other.closed, other.id) < (closed, box.id))
        for other in map(shop.boxes.get, shop.box_index.of_order.get(order.id, ()))
    )


def _waiting(order: Order) -> State:
    """The state in which what an order will bring stands."""
    return State.SENT_OUT if order.kind == "outside" else State.ORDERED
