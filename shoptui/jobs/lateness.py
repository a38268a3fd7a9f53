"""How late a supplier's orders came so far, by the shop's own books: the only ground for odds that it has."""

from collections.abc import Iterable
from datetime import date

from shoptui.domain.places import State
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
    documents = shop.database.documents("orders")  # nobody asks more of most orders: no records are made
    for number in orders:
        order = documents[number]
        if not order.get("due") or order.get("withdrawn"):
            continue
        due = date.fromisoformat(order["due"])
        away = State.SENT_OUT if order["kind"] == "outside" else State.ORDERED
        if shop.book.parts_at(away, number):
            came = today if due < today else None
        else:
            came = _last_came(shop, number, away)
        if came is not None:
            found[number] = days.between(due, came)
    return found


def orders_by_supplier(shop: Shop) -> dict[tuple[int, str], list[int]]:
    """Return supplier and kind to the ids of their orders."""
    found: dict[tuple[int, str], list[int]] = {}
    for number, order in shop.database.documents("orders").items():
        found.setdefault((order["supplier"], order["kind"]), []).append(number)
    return found


def _last_came(shop: Shop, order: int, away: State) -> date | None:
    """Return the day on which the last piece came; None if none did."""
    for entry in shop.history.latest_from(away, order):
        if entry.move.target.state in _HERE and not shop.history.is_undone(entry.transaction):
            return shop.history.transaction(entry.transaction).when.astimezone().date()
    return None
