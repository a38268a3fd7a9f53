"""How late a supplier's orders came so far, by the shop's own books: the only ground for odds that it has."""

from datetime import date

from shoptui.domain.places import State
from shoptui.domain.records import Order
from shoptui.domain.working_days import WorkingDays
from shoptui.store.shop import Shop

_HERE = (State.RECEIVED, State.HELD)


def lateness(shop: Shop, supplier: int, kind: str, days: WorkingDays, today: date) -> dict[int, int]:
    """Return by how many working days each order of a supplier came after its day; 0 or less is in time.

    The last piece of an order counts; what is overdue and still to come is late by what it is overdue so far.
    Left out is what had no day, is still in time, or never came.

    Args:
        shop: The shop.
        supplier: Id.
        kind: purchase or outside.
        days: Which days are worked.
        today: Day that it is.

    """
    found: dict[int, int] = {}
    for number, document in shop.database.documents("orders").items():
        # Most orders are another supplier's: they need not become records.
        if document.get("supplier") != supplier or document.get("kind") != kind or document.get("withdrawn"):
            continue
        order = shop.orders.get(number)
        if order.due is None:
            continue
        away = State.SENT_OUT if kind == "outside" else State.ORDERED
        if shop.book.parts_at(away, number):
            came = today if order.due < today else None
        else:
            came = _last_came(shop, order, away)
        if came is not None:
            found[number] = days.between(order.due, came)
    return found


def _last_came(shop: Shop, order: Order, away: State) -> date | None:
    """Return the day on which the last piece came; None if none did."""
    last: date | None = None
    for part in {line.part for line in order.lines}:
        for entry in shop.history.moves_of_part(part):
            move = entry.move
            if (move.source.state, move.source.where) != (away, order.id) or move.target.state not in _HERE:
                continue
            if not shop.history.is_undone(entry.transaction):
                day = shop.history.transaction(entry.transaction).when.astimezone().date()
                last = day if last is None else max(last, day)
    return last
