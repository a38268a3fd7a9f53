from datetime import date

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import Box, BoxLine
from shoptui.jobs.box_list import ExpectedLine, box_list, due_day, expected_in
from shoptui.jobs.order import cancel
from shoptui.jobs.send_out import send_out
from shoptui.jobs.undo import undo


def receive(made, part, qty, box, *, order=None):
    with made.shop.transaction("received", terminal="door") as tx:
        book = made.shop.book
        tx.enter(verbs.receive(book, part.id, qty, order=(order or made.order).id, ref=box.code))


def hold_over(made, part, qty, box):
    with made.shop.transaction("over", terminal="door") as tx:
        tx.enter(verbs.hold_unordered(part.id, qty, supplier=made.supplier.id, note="over", ref=box.code))


def test_a_box_is_expected_to_hold_what_its_orders_promise(made):
    assert expected_in(made.shop, made.box) == (
        ExpectedLine(made.rotor.id, 2, 0),
        ExpectedLine(made.hub.id, 1, 0),
    )


def test_what_came_stays_expected(made):
    receive(made, made.rotor, 1, made.box)
    line = expected_in(made.shop, made.box)[0]
    assert (line.expected, line.received, line.short, line.over) == (2, 1, 1, 0)


def test_what_came_beyond_the_order_is_over_and_held(made):
    receive(made, made.rotor, 2, made.box)
    hold_over(made, made.rotor, 1, made.box)
    line = expected_in(made.shop, made.box)[0]
    assert (line.expected, line.received, line.held, line.over) == (2, 3, 1, 1)


def test_what_nobody_expected_comes_last(made):
    hold_over(made, made.clip, 3, made.box)
    assert expected_in(made.shop, made.box)[-1] == ExpectedLine(made.clip.id, 0, 3, 3)


def test_undo_takes_it_out_of_the_box_again(made):
    before = expected_in(made.shop, made.box)
    hold_over(made, made.clip, 3, made.box)
    receive(made, made.rotor, 1, made.box)
    undo(made.at("door"))
    undo(made.at("door"))
    assert expected_in(made.shop, made.box) == before


def test_a_slip_says_what_is_inside_whatever_the_order_promises(made):
    with made.shop.transaction("slip", terminal="door") as tx:
        box = tx.change(made.box, contents=(BoxLine(made.rotor.id, 1), BoxLine(made.rotor.id, 1)))
    receive(made, made.hub, 1, box)
    assert expected_in(made.shop, box) == (
        ExpectedLine(made.rotor.id, 2, 0),
        ExpectedLine(made.hub.id, 0, 1),
    )


def test_a_box_of_two_orders_holds_both(made):
    with made.shop.transaction("two orders", terminal="door") as tx:
        box = tx.change(made.box, orders=(made.late.id, made.order.id))
    assert [line.part for line in expected_in(made.shop, box)] == [
        made.clip.id,
        made.hood.id,
        made.rotor.id,
        made.hub.id,
    ]


def test_a_closed_box_held_what_came_and_the_rest_comes_in_another(made, clock):
    receive(made, made.rotor, 1, made.box)
    with made.shop.transaction("closed", terminal="door") as tx:
        box = tx.change(made.box, closed=clock())
        other = tx.add(Box(0, "", (made.order.id,)))
    assert expected_in(made.shop, box) == (ExpectedLine(made.rotor.id, 1, 1),)
    assert [line.expected for line in expected_in(made.shop, other)] == [1, 1]


def test_what_the_last_box_of_an_order_did_not_hold_is_short_in_it(made, clock):
    receive(made, made.rotor, 1, made.box)
    with made.shop.transaction("closed", terminal="door") as tx:
        box = tx.change(made.box, closed=clock())
    assert [(line.expected, line.received, line.short) for line in expected_in(made.shop, box)] == [
        (2, 1, 1),
        (1, 0, 1),
    ]
    cancel(made.at("office"), made.rotor, 1, order=made.order.id)
    assert expected_in(made.shop, box)[0] == ExpectedLine(made.rotor.id, 1, 1)


def test_a_box_back_from_outside_holds_what_is_out(made):
    shop = made.shop
    receive(made, made.rotor, 2, made.box)
    send_out(made.at("office"), made.rotor, 2, to="paint", work="coated", number="77")
    job = shop.orders.by_code("77")
    with shop.transaction("a box", terminal="door") as tx:
        box = tx.add(Box(0, "", (job.id,)))
        tx.enter(verbs.take_back(shop.book, made.rotor.id, 1, job=job.id, done="coated", ref=box.code))
    assert expected_in(shop, box) == (ExpectedLine(made.rotor.id, 2, 1),)
    assert made.count(made.rotor, State.SENT_OUT) == 1


def test_the_list_is_sorted_by_the_day_that_a_box_or_its_soonest_order_is_due(made, clock):
    with made.shop.transaction("more", terminal="door") as tx:
        sooner = tx.add(Box(0, "", (made.late.id,), due=date(2026, 11, 20)))
        unknown = tx.add(Box(0, ""))
        done = tx.add(Box(0, "", (made.late.id,), due=date(2026, 11, 1), closed=clock()))
    assert due_day(made.shop, made.box) == date(2026, 11, 26)
    codes = [each.box.code for each in box_list(made.shop)]
    assert codes == [done.code, sooner.code, made.box.code, unknown.code]
    assert [each.box.code for each in box_list(made.shop, open_only=True)] == codes[1:]
