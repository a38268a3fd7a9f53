"""What needs somebody now."""

from collections.abc import Iterator
from datetime import date

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.places import State
from shoptui.domain.records import Box, Order
from shoptui.domain.shoots import Shoot
from shoptui.jobs.at import name_and_code, shown
from shoptui.jobs.box_list import due_day, expected_in
from shoptui.jobs.came_out import open_runs
from shoptui.jobs.cores import CoreState, core_words, open_cores, piece_of
from shoptui.jobs.missing import NEXT, MissingReport, NoShootError, find_shoot, missing
from shoptui.jobs.order import OUTSIDE
from shoptui.jobs.place_words import order_name
from shoptui.jobs.print_lacking import lacking_words
from shoptui.jobs.today_hardware import hardware_lines
from shoptui.jobs.today_line import NOTE, READY, SOON, URGENT, WARNING, TodayLine
from shoptui.jobs.today_parts import part_lines
from shoptui.jobs.today_torque import torque_lines
from shoptui.jobs.wrench_lines import wrench_lines
from shoptui.store.shop import Shop

_CORE_MARKS = {CoreState.OVERDUE: URGENT, CoreState.OPEN: WARNING, CoreState.SENT: NOTE}


def today_lines(shop: Shop, day: date) -> tuple[TodayLine, ...]:
    """Return what needs somebody: the next filming day, then what is late, then what can be done."""
    return (
        *_filming(shop, day),
        *_not_filmed(shop, day),
        *_boxes(shop, day),
        *_orders_without_a_box(shop, day),
        *_outside_work(shop, day),
        *_cores(shop, day),
        *torque_lines(shop),
        *wrench_lines(shop, day),
        *hardware_lines(shop),
        *part_lines(shop, day),
        *_labels(shop),
    )


def _labels(shop: Shop) -> Iterator[TodayLine]:
    """Say what lacks its label, and what was printed of which nobody has said how it came out."""
    lack = lacking_words(shop)
    runs = len(open_runs(shop))
    if not lack:
        return
    told = f"; printed, but not said how it came out: {runs}" if runs else ""
    yield TodayLine("labels", f"lacking: {lack}{told}", "labels", 0)


def _filming(shop: Shop, day: date) -> Iterator[TodayLine]:
    try:
        shoot = find_shoot(shop, NEXT, day)
    except NoShootError:
        return
    report = missing(shop, shoot, day)
    late = sum(line.lack.late for line in report.lines)
    words = f"{_day_and_title(shoot, day)}: {report.ready} of {report.wanted} ready"
    if late:
        words += f", {late} cannot be in time"
    mark = URGENT if late else WARNING if report.lines else READY
    yield TodayLine("filming", words, "filming", shoot.id, mark)
    yield from _moving(report)


def _moving(report: MissingReport) -> Iterator[TodayLine]:
    """Say what speaks against moving a vehicle on that day; whether it may is for a person to decide."""
    when = day_words(report.day, report.today)
    trial = {(each.part.id, each.place): each for shot in report.moving for each in shot.on_trial}
    if trial:
        what = ", ".join(f"{each.qty} {name_and_code(each.part)}" for each in trial.values())
        words = f"{when}: the vehicle moves, and mocked up on it: {what}"
        yield TodayLine("moves", words, "filming", report.shoot.id, WARNING)
    loose = {(each.part.id, each.where): each for shot in report.moving for each in shot.not_tight}
    if loose:
        what = ", ".join(f"{each.where} of {name_and_code(each.part)}" for each in loose.values())
        words = f"{when}: the vehicle moves, and not tightened or checked: {what}"
        yield TodayLine("moves", words, "filming", report.shoot.id, WARNING)


def _not_filmed(shop: Shop, day: date) -> Iterator[TodayLine]:
    """Say which days are past and not filmed: while they are not, they keep what their shots need."""
    for shoot in sorted(shop.shoots.all(), key=lambda shoot: shoot.date):
        left = sum(not shot.filmed for shot in shoot.shots)
        if left and shoot.date < day:
            words = f"{_day_and_title(shoot, day)}: past, and {left} of {len(shoot.shots)} not marked filmed"
            yield TodayLine("not filmed", words, "filming", shoot.id, WARNING)


def _day_and_title(shoot: Shoot, day: date) -> str:
    return f"{day_words(shoot.date, day)}, {inert(shoot.title or shoot.code)}"


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


def _cores(shop: Shop, day: date) -> Iterator[TodayLine]:
    """Say which cores are to be sent back soon, and which were sent but not paid back yet."""
    for core in open_cores(shop, day):
        due = core.charge.due
        if core.state is CoreState.OPEN and due is not None and due > day + SOON:
            continue
        yield TodayLine(
            "core", core_words(core, day), "parts", piece_of(shop, core).id, _CORE_MARKS[core.state]
        )


def _orders_words(shop: Shop, orders: list[Order], kind: str = "order") -> str:
    names = dict.fromkeys(_supplier(shop, order) for order in orders)
    return f"{', '.join(names)} {kind} {', '.join(order_name(order) for order in orders)}"


def _supplier(shop: Shop, order: Order) -> str:
    supplier = shop.suppliers.get(order.supplier)
    return inert(supplier.name or supplier.code)
