"""What the outlook asks of the shop: orders, boxes, suppliers, since when, and what must be on first."""

from collections.abc import Callable
from datetime import date
from functools import cache
from typing import TypeVar

from shoptui.domain.inert import inert
from shoptui.domain.lack import Grounds
from shoptui.domain.places import AS_BOUGHT, Place, State
from shoptui.domain.records import Box, Order, Part
from shoptui.domain.working_days import WorkingDays
from shoptui.jobs.joints import open_words
from shoptui.jobs.lateness import lateness, orders_by_supplier
from shoptui.jobs.place_words import place_words
from shoptui.jobs.positions import free_position, not_on_yet
from shoptui.store.shop import Shop

R = TypeVar("R")

_LIE = (State.RECEIVED, State.REMOVED, State.HELD)
"""States of a carrier that lies in the shop; it can be built into another part as well."""


def grounds_of(shop: Shop, day: date, today: date) -> Grounds:
    """Return what must be known beside the ledger; what is costly to find is found once, when it is asked."""
    settings = shop.settings

    @cache
    def boxes_of() -> dict[int, list[Box]]:
        found: dict[int, list[Box]] = {}
        for number, document in shop.database.documents("boxes").items():
            if document.get("closed") or document.get("withdrawn"):
                continue  # most boxes are closed: they need not become records
            box = shop.boxes.get(number)
            for order in box.orders:
                found.setdefault(order, []).append(box)
        return found

    def boxes(order: int, part: int) -> tuple[Box, ...]:
        return tuple(
            box
            for box in boxes_of().get(order, ())
            if not box.contents or any(line.part == part for line in box.contents)
        )

    @cache
    def order(number: int) -> Order | None:
        return _or_none(shop.orders.get, number)

    @cache
    def supplier_name(number: int) -> str:
        supplier = _or_none(shop.suppliers.get, number)
        return inert(supplier.name or supplier.code) if supplier else "the supplier"

    days = WorkingDays(settings.working_days, frozenset(settings.holidays))
    orders = cache(lambda: orders_by_supplier(shop))
    past = cache(lambda supplier, kind: lateness(shop, orders().get((supplier, kind), ()), days, today))

    def late(order: Order, more_than: int) -> tuple[int, int]:
        others = [each for number, each in past(order.supplier, order.kind).items() if number != order.id]
        return sum(each > more_than for each in others), len(others)

    return Grounds(
        today=today,
        day=day,
        days=days,
        order=order,
        boxes=boxes,
        supplier_name=supplier_name,
        last_supplier=lambda part: _last_supplier(shop, part),
        since=lambda part, place: _since(shop, part, place),
        waits_for=lambda part: waits_for(shop, part),
        open_joints=lambda part, place: open_words(shop, part, str(place.where)),
        carrier=lambda part: _carrier(shop, part),
        late=late,
    )


def waits_for(shop: Shop, part: Part) -> tuple[str, ...]:
    """Return the names of the parts that must be on before a part, and are not."""
    if not part.install_after:
        return ()
    first = not_on_yet(shop, part, free_position(shop.book, part))
    return tuple(inert(each.description or each.code) for each in first)


def _carrier(shop: Shop, part: int) -> tuple[str, str]:
    """Follow what a part is built into to the outermost one: its name, and where it lies.

    A ledger that another program wrote may have a ring in it: it is followed once.
    """
    seen: set[int] = set()
    while part not in seen:
        seen.add(part)
        into = [place.where for place, _ in shop.book.places(part, State.ASSEMBLED)]
        if shop.book.places(part, *_LIE) or not into or not isinstance(into[0], int):
            break
        part = into[0]
    carrier = _or_none(shop.parts.get, part)
    if carrier is None:
        return "a part that is not in the books", ""
    lies = next((place_words(shop, place) for place, _ in shop.book.places(part, *_LIE)), "")
    return inert(carrier.description or carrier.code), lies


def _last_supplier(shop: Shop, part: Part) -> tuple[str, int | None] | None:
    for place, _ in reversed(shop.book.places(part.id, State.NOT_OURS)):
        if place.where != AS_BOUGHT and isinstance(place.where, int):
            supplier = _or_none(shop.suppliers.get, place.where)
            if supplier is not None:
                return inert(supplier.name or supplier.code), supplier.lead_days
    return None


def _since(shop: Shop, part: Part, place: Place) -> date | None:
    """Day on which pieces came to be in this state and condition, wherever they were put since."""
    for entry in shop.history.latest_into(part.id, place.state, place.condition):
        transaction = shop.history.transaction(entry.transaction)
        if transaction.undoes is None and not shop.history.is_undone(transaction.id):
            return transaction.when.astimezone().date()
    return None


def _or_none(get: Callable[[int], R], number: int) -> R | None:
    try:
        return get(number)
    except KeyError:
        return None
