"""What needs somebody now."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from shoptui.domain import verbs
from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import OPENED, SEALED, State
from shoptui.domain.readiness import work_left
from shoptui.domain.records import Box, Order, Part
from shoptui.domain.shoots import Condition
from shoptui.jobs.at import name_and_code, shown
from shoptui.jobs.box_list import due_day, expected_in
from shoptui.jobs.grounds import waits_for
from shoptui.jobs.missing import NEXT, NoShootError, find_shoot, missing
from shoptui.jobs.order import OUTSIDE
from shoptui.jobs.place_words import bin_words, order_name
from shoptui.jobs.still_needed import still_needed
from shoptui.store.shop import Shop

SOON = timedelta(days=7)
"""What is due later than this needs nobody today."""

URGENT, WARNING, READY, NOTE = "!", "-", "+", " "
"""Marks: late; wants a word; can be done; to know."""


@dataclass(frozen=True, slots=True)
class TodayLine:
    """One thing that needs somebody.

    Args:
        kind: filming, box overdue, box here, box due, outside work, held, send out, install, waits.
        words: What, in one line.
        station: Where it is done: receiving, lift, filming, parts.
        subject: Id of the record that the station opens: a box, a part or a filming day; 0 for none.
        mark: One of the marks.

    """

    kind: str
    words: str
    station: str
    subject: int
    mark: str = NOTE


def today_lines(shop: Shop, day: date) -> tuple[TodayLine, ...]:
    """Return what needs somebody: the next filming day, then what is late, then what can be done."""
    return (
        *_filming(shop, day),
        *_boxes(shop, day),
        *_orders_without_a_box(shop, day),
        *_outside_work(shop, day),
        *_parts(shop),
    )


def _filming(shop: Shop, day: date) -> Iterator[TodayLine]:
    try:
        shoot = find_shoot(shop, NEXT, day)
    except NoShootError:
        return
    report = missing(shop, shoot, day)
    late = sum(not line.lack.possible or (line.lack.spare or 0) < 0 for line in report.lines)
    words = f"{day_words(shoot.date, day)}, {inert(shoot.title or shoot.code)}: "
    words += f"{report.ready} of {report.wanted} ready"
    if late:
        words += f", {late} cannot be in time"
    mark = URGENT if late else WARNING if report.lines else READY
    yield TodayLine("filming", words, "filming", shoot.id, mark)


def _boxes(shop: Shop, day: date) -> Iterator[TodayLine]:
    lines = [
        (line.mark != URGENT, line.kind != "box here", due_day(shop, box) or date.max, box.id, line)
        for box in shop.boxes.all()
        if box.closed is None and (line := _box(shop, box, day)) is not None
    ]
    yield from (line for *_, line in sorted(lines, key=lambda each: each[:-1]))


def _box(shop: Shop, box: Box, day: date) -> TodayLine | None:
    orders = [shop.orders.get(number) for number in box.orders]
    told = f"{shown(box.code)}, {_orders_words(shop, orders) if orders else 'no order'}"
    if box.open_at:
        return TodayLine("box here", f"open at {inert(box.open_at)}: {told}", "receiving", box.id, WARNING)
    if box.arrived is not None:
        state = "begun" if box.opened else "not unpacked"
        return TodayLine("box here", f"{state}: {told}", "receiving", box.id, READY)
    due = due_day(shop, box)
    if due is None or due > day + SOON or not expected_in(shop, box):
        return None  # what is not looked for yet, or came by another way
    kind, mark = ("box overdue", URGENT) if due < day else ("box due", NOTE)
    return TodayLine(kind, f"{_due_words(due, day)}: {told}", "receiving", box.id, mark)


def _due_words(due: date, day: date) -> str:
    return f"{'was due' if due < day else 'due'} {day_words(due, day)}"


def _orders_without_a_box(shop: Shop, day: date) -> Iterator[TodayLine]:
    """Say what is still to come on orders all of whose boxes were unpacked, or that never had one."""
    boxed = {number for box in shop.boxes.all() if box.closed is None for number in box.orders}
    for order in shop.orders.all():
        if order.id in boxed or order.due is None or order.due > day + SOON:
            continue
        kind, mark = ("overdue", URGENT) if order.due < day else ("due", NOTE)
        for number, qty in sorted(shop.book.parts_at(State.ORDERED, order.id).items()):
            told = f"{qty} {name_and_code(shop.parts.get(number))}, {_orders_words(shop, [order])}"
            yield TodayLine(kind, f"{_due_words(order.due, day)}: {told}", "parts", number, mark)


def _outside_work(shop: Shop, day: date) -> Iterator[TodayLine]:
    for job in shop.orders.all():
        if job.kind != OUTSIDE or (job.due is not None and job.due > day + SOON):
            continue
        due, mark = "no day set", WARNING
        if job.due is not None:
            due, mark = _due_words(job.due, day), URGENT if job.due < day else NOTE
        for number, qty in sorted(shop.book.parts_at(State.SENT_OUT, job.id).items()):
            told = f"{qty} {name_and_code(shop.parts.get(number))}, {_orders_words(shop, [job], 'job')}"
            yield TodayLine("outside work", f"{due}: {told}", "parts", number, mark)


def _parts(shop: Shop) -> Iterator[TodayLine]:
    """Held things, then what can go out or on, then what waits for another part."""
    finished = {build.id for build in shop.builds.all() if build.status != "open"}
    ready: list[TodayLine] = []
    waiting: list[TodayLine] = []
    kept = _Kept(shop)
    for part in shop.parts.all():
        places = shop.book.places(part.id, State.RECEIVED, State.HELD)
        if not places or part.build in finished:
            continue
        if held := sum(qty for place, qty in places if place.state is State.HELD):
            words = f"{held} {name_and_code(part)}, {_lie(shop, part, State.HELD)}: may it be used?"
            yield TodayLine("held", words, "parts", part.id, WARNING)
        line = _to_do(shop, part, kept)
        if line is not None:
            (waiting if line.kind == "waits" else ready).append(line)
    yield from ready
    yield from waiting


class _Kept:
    """What unfilmed shots want left as it is: most parts are asked of by none, and need no closer look."""

    def __init__(self, shop: Shop) -> None:
        self._shop = shop
        needs = [
            need
            for shoot in shop.shoots.all()
            for shot in shoot.shots
            if not shot.filmed
            for need in shot.needs
            if need.condition in (Condition.SEALED, Condition.ON_HAND, Condition.BEFORE_WORK)
        ]
        self._parts = {need.part for need in needs}
        self._sections = {(need.build, need.section.casefold()) for need in needs if need.part is None}

    def words(self, part: Part, moves: Callable[[], Iterable[Move]]) -> str:
        """Return which shot still needs a part as it is, empty if none does."""
        if part.id in self._parts or (part.build, part.section.casefold()) in self._sections:
            return next(iter(still_needed(self._shop, moves())), "")
        return ""


def _to_do(shop: Shop, part: Part, kept: _Kept) -> TodayLine | None:
    missing_on = part.needed - shop.book.in_state(part.id, State.INSTALLED)
    here = [(place, qty) for place, qty in shop.book.places(part.id, State.RECEIVED) if qty > 0]
    qty = min(missing_on, sum(n for _, n in here))
    if part.build is None or part.original or qty <= 0:
        return None
    where = _lie(shop, part, State.RECEIVED)
    raw = next((place for place, _ in here if place.condition in (SEALED, OPENED)), None)
    if raw is not None and (works := work_left(part, raw.condition)):
        words = f"{qty} {name_and_code(part)}, {where}: to be {inert(works[0].work)}"
        if shot := kept.words(part, lambda: verbs.send_out(shop.book, part.id, 1, job=0)):
            return TodayLine("waits", f"{words}, but {shot}", "parts", part.id)
        return TodayLine("send out", words, "parts", part.id, READY)
    if waits := waits_for(shop, part):
        return TodayLine(
            "waits", f"{qty} {name_and_code(part)}, {where}: first {', '.join(waits)}", "lift", part.id
        )
    if shot := kept.words(part, lambda: verbs.install(shop.book, part.id, qty, position="")):
        return TodayLine("waits", f"{qty} {name_and_code(part)}, {where}: {shot}", "lift", part.id)
    return TodayLine("install", f"{qty} {name_and_code(part)}, {where}", "lift", part.id, READY)


def _lie(shop: Shop, part: Part, state: State) -> str:
    return " and ".join(dict.fromkeys(bin_words(shop, p.where) for p, _ in shop.book.places(part.id, state)))


def _orders_words(shop: Shop, orders: list[Order], kind: str = "order") -> str:
    names = dict.fromkeys(_supplier(shop, order) for order in orders)
    return f"{', '.join(names)} {kind} {', '.join(order_name(order) for order in orders)}"


def _supplier(shop: Shop, order: Order) -> str:
    supplier = shop.suppliers.get(order.supplier)
    return inert(supplier.name or supplier.code)
