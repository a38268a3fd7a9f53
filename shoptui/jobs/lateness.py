"""How late a supplier's orders came so far, by the shop's own books: the only ground for odds that it has."""

from collections.abc import Iterable
from datetime import date

from shoptui.domain.places import State
from shoptui.domain.records import Order
from shoptui.domain.working_days import WorkingDays
from shoptui.store.shop import Shop

_HERE = (State.RECEIVED, State.HELD)


def lateness(shop: Shop, orders: Iterable[int], days: WorkingDays, today: date) -> dict[int, int]:
    """Return by how many working days each order came after its day, by its id; 0 or less is in time.

    The last piece of an order counts; what is overdue and still to come is late by what it is overdue so far.
    Left out is what had no day, is still in time, or never came.

    Args:
        shop: The shop.
        orders: Ids of orders of one supplier, of one kind.
        days: Which days are worked.
        today: Day that it is.

    """
    found: dict[int, int] = {}
    for order in map(shop.orders.get, orders):
        if order.due is None or order.withdrawn:
            continue
        away = State.SENT_OUT if order.kind == "outside" else State.ORDERED
        if shop.book.parts_at(away, order.id):
            came = today if order.due < today else None
        else:
            came = _last_came(shop, order, away)
        if came is not None:
            found[order.id] = days.between(order.due, came)
    return found


def orders_by_supplier(shop: Shop) -> dict[tuple[int, str], list[int]]:
    """Return supplier and kind to the ids of their orders.

    Of most suppliers nobody asks, so their orders are not made records of.
    """
    found: dict[tuple[int, str], list[int]] = {}
    for number, order in shop.database.documents("orders").items():
        found.setdefault((order["supplier"], order["kind"]), []).append(number)
    return found


def _last_came(shop: Shop, order: Order, away: State) -> date | None:
    """Return the day on which the last piece came; None if none did."""
    for entry in shop.history.latest_from(away, order.id):
        if entry.move.target.state in _HERE and not shop.history.is_undone(entry.transaction):
            return shop.history.transaction(entry.transaction).when.astimezone().date()
    return None
