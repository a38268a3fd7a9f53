"""How late a supplier was: the days are counted by hand on a calendar of November 2026."""

from datetime import date

from shoptui.domain import verbs
from shoptui.domain.records import Order, OrderLine
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.domain.working_days import WorkingDays
from shoptui.jobs.lateness import lateness, orders_by_supplier
from shoptui.jobs.missing import missing
from shoptui.jobs.send_out import send_out, take_back
from shoptui.jobs.undo import undo

TODAY = date(2026, 11, 25)  # a Wednesday, and the day of the tests' clock


def came(made, number, due, *, terminal="door"):
    """One clip came today on an order that was due on a day."""
    with made.shop.transaction(f"ordered {number}", terminal="office") as tx:
        line = OrderLine(made.clip.id, 1)
        order = tx.add(Order(0, number, "purchase", made.supplier.id, number, due=due, lines=(line,)))
        tx.enter(verbs.order(made.clip.id, 1, supplier=made.supplier.id, order=order.id))
    with made.shop.transaction(f"received {number}", terminal=terminal) as tx:
        tx.enter(verbs.receive(made.shop.book, made.clip.id, 1, order=order.id))
    return order


def days_late(made, kind="purchase"):
    supplier = made.painter if kind == "outside" else made.supplier
    orders = orders_by_supplier(made.shop).get((supplier.id, kind), ())
    found = lateness(made.shop, orders, WorkingDays(), TODAY)
    return {made.shop.orders.get(number).code: late for number, late in found.items()}


def test_each_order_is_late_by_the_working_days_after_its_day(made):
    came(made, "a", date(2026, 11, 20))  # Fri: Mon, Tue, Wed
    came(made, "b", date(2026, 11, 25))
    came(made, "c", date(2026, 11, 26))
    came(made, "d", None)
    assert days_late(made) == {"a": 3, "b": 0, "c": -1}


def test_what_is_overdue_and_still_to_come_is_late_so_far(made):
    with made.shop.transaction("late", terminal="office") as tx:
        tx.change(made.order, due=date(2026, 11, 23))
    assert days_late(made) == {"1042": 2}


def test_what_was_undone_never_came(made):
    came(made, "a", date(2026, 11, 30))
    undo(made.at("door"))
    assert days_late(made) == {}


def test_outside_jobs_are_counted_on_their_own(made):
    came(made, "a", TODAY)
    send_out(made.at("office"), made.clip, 1, to="paint", work="painted", due=date(2026, 11, 27), number="7")
    job = made.shop.orders.by_code("7")
    assert days_late(made, "outside") == {}
    take_back(made.at("office"), made.clip, 1, job=job.id)
    assert days_late(made, "outside") == {"7": -2}


def test_what_is_missing_says_how_often_the_supplier_was_later_than_there_is_time(made):
    came(made, "a", date(2026, 11, 20))
    came(made, "b", date(2026, 11, 25))
    with made.shop.transaction("filming", terminal="office") as tx:
        shots = (Shot("x", (Need(Condition.ON_HAND, part=made.rotor.id),)),)
        day = tx.add(Shoot(0, "d", "", date(2026, 11, 27), shots=shots))
    # The rotors are due on Thu 26: one working day to spare; of both earlier orders, one came 3 days late.
    (line,) = missing(made.shop, day, TODAY).lines
    assert line.lack.past == "1 of 2 earlier orders came more than 1 working day late"
