"""The records of a shop as rows, each kind with its own columns."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from shoptui.domain.days import day_words
from shoptui.domain.places import State
from shoptui.domain.records import Build, Order, Person, Supplier, Wrench
from shoptui.domain.wrenches import next_check
from shoptui.jobs.at import shown
from shoptui.jobs.place_words import order_name, today
from shoptui.jobs.wrench_words import marks_words, why_not_now
from shoptui.stations.listed import Column, Row
from shoptui.stations.marks import Tone
from shoptui.store.shop import Shop

Cells = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Listing:
    """How one kind of record is listed.

    Args:
        columns: The columns.
        row: Returns a record's cells and how its state looks.

    """

    columns: tuple[Column, ...]
    row: Callable[[Shop, Any], tuple[Cells, Tone]]


def record_rows(shop: Shop, kind: type) -> Iterator[Row]:
    """Yield the rows of all records of a kind; what is newest among orders stands first."""
    records = list(shop.shelves[kind].all())
    for record in reversed(records) if kind is Order else records:
        cells, tone = LISTINGS[kind].row(shop, record)
        yield Row(record.id, cells, tone, getattr(record, "tag", ""))


def _build(shop: Shop, build: Build) -> tuple[Cells, Tone]:
    lines = sum(part.build == build.id for part in shop.parts.all())
    tone = Tone.QUIET if build.status != "open" else Tone.PLAIN
    return (build.title, build.status, f"{lines} lines", shown(build.code), build.vehicle), tone


def _supplier(_: Shop, supplier: Supplier) -> tuple[Cells, Tone]:
    days = "" if supplier.lead_days is None else f"{supplier.lead_days} days"
    return (supplier.name, days, shown(supplier.code)), Tone.PLAIN


def _person(_: Shop, person: Person) -> tuple[Cells, Tone]:
    signs = "+ signs second checks" if person.second_check else ""
    return (person.name, signs, shown(person.code), shown(person.tag)), Tone.GOOD


def _wrench(shop: Shop, wrench: Wrench) -> tuple[Cells, Tone]:
    now = today(shop)
    why, due = why_not_now(shop, wrench), next_check(wrench)
    state = why if wrench.gone else f"! {why}" if why else f"next check {_day(due, now)}"
    tone = Tone.QUIET if wrench.gone else Tone.BAD if why else Tone.PLAIN
    return (wrench.name, state, f"{marks_words(wrench)}, {wrench.kind}", shown(wrench.code)), tone


def _order(shop: Shop, order: Order) -> tuple[Cells, Tone]:
    now = today(shop)
    state = State.SENT_OUT if order.kind == "outside" else State.ORDERED
    still = sum(shop.book.parts_at(state, order.id).values())  # of a kit its contents were promised
    late = bool(still and order.due and order.due < now)
    words = (
        f"{'! ' * late}{still} {'out' if order.kind == 'outside' else 'to come'}" if still else "all is here"
    )
    seller = shop.suppliers.get(order.supplier).name
    cells = (order_name(order), words, seller, _day(order.due, now), shown(order.code))
    return cells, Tone.BAD if late else Tone.WARN if still else Tone.QUIET


def _day(day: date | None, now: date) -> str:
    return "" if day is None else day_words(day, now)


LISTINGS: dict[type, Listing] = {
    Build: Listing(
        (
            Column("build"),
            Column("status", 9, toned=True),
            Column("list", 11, right=True),
            Column("code", 12),
            Column("vehicle", since=80),
        ),
        _build,
    ),
    Supplier: Listing((Column("supplier"), Column("lead time", 10), Column("code", 16)), _supplier),
    Person: Listing(
        (Column("person"), Column("may sign", 22, toned=True), Column("code", 12), Column("badge", 9)),
        _person,
    ),
    Wrench: Listing(
        (
            Column("wrench"),
            Column("may be used", 26, toned=True),
            Column("scale", 26),
            Column("code", 9, since=96),
        ),
        _wrench,
    ),
    Order: Listing(
        (
            Column("order", 14),
            Column("state", 14, toned=True),
            Column("supplier"),
            Column("due", 15),
            Column("code", 12, since=96),
        ),
        _order,
    ),
}
"""Kind of record to how it is listed."""
