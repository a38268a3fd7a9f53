"""Boxes at the door: tyres in four, two orders in one, two people at one, one that nobody expected."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import Box, Order, OrderLine, Part
from shoptui.jobs.box_list import expected_in
from shoptui.jobs.held import why_held
from shoptui.jobs.scan import Scanning
from shoptui.jobs.slip import write_slip

PARCEL = "RR473124829GB"


def ordered(made, tx, number, part, qty):
    order = tx.add(
        Order(
            0,
            number,
            "purchase",
            made.supplier.id,
            number,
            due=date(2026, 11, 26),
            lines=(OrderLine(part.id, qty),),
        )
    )
    tx.enter(verbs.order(part.id, qty, supplier=order.supplier, order=order.id))
    return order


@pytest.fixture
def tyre(made):
    with made.shop.transaction("tyres", terminal="office") as tx:
        tyre = tx.add(
            Part(0, "TY-1", "", made.build.id, "Tyre", needed=4, positions=("LF", "RF", "LR", "RR"))
        )
        order = ordered(made, tx, "3001", tyre, 4)
        for number in range(1, 5):
            tx.add(Box(0, "", (order.id,), (f"T-100{number}",)))
    return tyre


def test_four_tyres_in_four_boxes_under_one_line(made, tyre):
    door = made.scans("receiving")
    for number in range(1, 5):
        opened = door.take(f"T-100{number}")
        assert f"{5 - number} to come" in opened.text
        assert door.take("TY-1").said == "done"
        assert door.take("A3").qty == 1
        closed = door.take("done").text
        assert ("Still to come: " if number < 4 else "All that was expected") in closed
    assert made.shop.book.parts_at(State.RECEIVED, made.a3.id) == {tyre.id: 4}


def test_boxes_that_are_laid_aside_are_closed_with_the_last_of_their_order(made, tyre):
    door = made.scans("receiving")
    for number in range(1, 4):
        assert f"Up to {5 - number} to come out of it" in door.take(f"T-100{number}").text
        assert f"Up to {4 - number} still in the box" in door.take("TY-1").text
    door.take("T-1004")
    door.take("TY-1")
    door.take("A3")
    closed = door.take("done").text
    assert "All that was expected in it is here. Closed as well" in closed
    assert "3 more of its boxes" in closed
    assert not [box for box in made.shop.boxes.all() if box.orders != (made.order.id,) and not box.closed]
    door.take("undo")
    assert len([box for box in made.shop.boxes.all() if box.opened and not box.closed]) == 4


def test_a_box_that_another_unpacks_or_that_has_not_come_is_not_closed_with_it(made, tyre):
    door, cart = made.scans("receiving"), made.scans("receiving", "cart")
    door.take("T-1001")
    door.take("TY-1")
    cart.take("T-1002")
    door.take("T-1003")
    for _ in range(3):
        door.take("TY-1")
    assert "Closed as well" in door.take("done").text
    stands = {box.tracking[0]: bool(box.closed) for box in made.shop.boxes.all() if box.tracking[0] != PARCEL}
    assert stands == {"T-1001": True, "T-1002": False, "T-1003": True, "T-1004": False}


def test_closing_says_what_is_held(made, tyre):
    door = made.scans("receiving")
    for code in ("T-1001", "TY-1", "TY-1", "TY-1", "TY-1", "damaged"):
        door.take(code)
    assert "Nothing more is to come. Held: 1 Tyre (damaged)." in door.take("done").text


def test_more_than_its_slip_lists_says_so(made, tyre):
    door = made.scans("receiving")
    door.take("T-1001")
    write_slip(door.at, door.at.box, {tyre.id: 1})
    assert "1 Tyre received. The box is complete." in door.take("TY-1").text
    assert "1 more than its slip lists" in door.take("TY-1").text


def test_a_slip_of_more_than_was_ordered_asks(made, tyre):
    door = made.scans("receiving")
    door.take("T-1001")
    before = made.bytes()
    asked = write_slip(door.at, door.at.box, {tyre.id: 25})
    assert asked.text == "The slip lists 25 Tyre; its order promises 4. Enter: the paper says so."
    assert made.bytes() == before
    assert asked.question.yes().said == "done"
    assert made.shop.boxes.get(door.at.box.id).contents[0].qty == 25


def test_ten_alike_without_a_label(made):
    door = made.scans("receiving")
    door.take("1043")
    rows = [line.part for line in expected_in(made.shop, door.at.box)]
    row = str(rows.index(made.clip.id) + 1)
    assert door.take(row, 10, typed=True).qty == 10
    assert door.take("A3").qty == 10
    assert made.count(made.clip, State.RECEIVED) == 10


def test_one_of_four_wheels_is_damaged(made, tyre, tmp_path):
    door = made.scans("receiving")
    for code in ("T-1001", "TY-1", "TY-1", "TY-1", "TY-1"):
        door.take(code)
    answer = door.take("damaged")
    assert "held: damaged" in answer.text
    assert "note or a photo" in answer.text
    assert "Noted: dent in the rim" in door.typed("dent in the rim").text
    photo = tmp_path / "dent.jpg"
    photo.write_bytes(b"a photo")
    assert "dent.jpg kept with Tyre" in door.typed(str(photo)).text
    assert door.take("A4").qty == 1, "held things lie apart"
    assert door.take("A3").qty == 3
    assert made.shop.book.parts_at(State.HELD, made.a4.id) == {tyre.id: 1}
    assert verbs.to_order(made.shop.book, tyre.id, needed=4, original=False) == 1
    (file,) = made.shop.files.all()
    assert (file.table, file.record, file.note) == ("parts", tyre.id, "damaged")


@pytest.mark.parametrize("word", ["damaged", "wrong"])
def test_what_is_said_of_the_last_thing_is_never_said_of_the_one_before(made, word):
    door = made.scans("receiving")
    for code in (PARCEL, made.hub.tag, made.foreign.tag, "yes"):
        door.take(code)
    answer = door.take(word)
    assert answer.text.startswith(f"1 Mirror held: came without an order, {word}.")
    assert made.count(made.hub, State.RECEIVED) == 1, "the good one before it"
    assert why_held(made.shop, made.foreign.id) == (word, "came without an order")
    assert "Noted: glass cracked" in door.typed("glass cracked").text
    door.take("undo")
    door.take("undo")
    assert why_held(made.shop, made.foreign.id) == ("came without an order",)
    again = [door.take(word).text for _ in range(2)][-1]
    assert "held already: came without an order" in again
    assert made.count(made.hub, State.RECEIVED) == 1


def test_damaged_twice_means_two_of_the_last_thing(made):
    door = made.scans("receiving")
    for code in (PARCEL, made.hub.tag, "9521234543213", "9521234543213", "damaged", "damaged", "damaged"):
        answer = door.take(code)
    assert (made.count(made.rotor, State.HELD), made.count(made.hub, State.HELD)) == (2, 0)
    assert "held already: damaged" in answer.text


def test_three_of_ten_are_damaged(made):
    door = made.scans("receiving")
    for code in ("1043", made.clip.tag):
        door.take(code, 10)
    assert "10 Clip on the bench; 11 cannot" in door.take("damaged", 11).text
    assert "3 Clip held: damaged" in door.take("damaged", 3).text
    assert (made.count(made.clip, State.RECEIVED), made.count(made.clip, State.HELD)) == (7, 3)


def test_the_next_scan_needs_no_note(made, tyre):
    door = made.scans("receiving")
    for code in ("T-1001", "TY-1", "damaged"):
        door.take(code)
    assert door.take("TY-1").said == "done"
    assert "dropped" not in door.take("A3").text


def test_a_code_is_never_a_note(made, tyre):
    door = made.scans("receiving")
    for code in ("T-1001", "TY-1"):
        door.take(code)
    for code in ("HUB-CARTON-7", "9521234543220", "RR 123 456 785 GB"):
        door.take("damaged")
        assert door.typed(code).said != "done"
        door.drop()
        door.take("TY-1")


def test_what_is_wrong_is_held_and_the_right_one_stays_ordered(made):
    door = made.scans("receiving")
    for code in (PARCEL, made.hub.tag):
        door.take(code)
    assert "The right one stays ordered" in door.take("wrong").text
    assert (made.count(made.hub, State.HELD), made.count(made.hub, State.ORDERED)) == (1, 1)
    box = made.shop.boxes.get(made.box.id)
    line = next(line for line in expected_in(made.shop, box) if line.part == made.hub.id)
    assert (line.expected, line.received, line.wrong, line.short) == (1, 0, 1, 1)
    door.take("undo")
    assert (made.count(made.hub, State.RECEIVED), made.count(made.hub, State.ORDERED)) == (1, 0)
    (line,) = (line for line in expected_in(made.shop, box) if line.part == made.hub.id)
    assert (line.received, line.wrong, line.short) == (1, 0, 0)


def test_one_more_came_than_was_ordered(made):
    door = made.scans("receiving")
    for code in (PARCEL, made.hub.tag):
        door.take(code)
    assert "held: over" in door.take("over").text
    assert (made.count(made.hub, State.RECEIVED), made.count(made.hub, State.HELD)) == (1, 1)
    door.take("9521234543213")
    assert "2 of 2 here" in door.take("over").text, "that one was ordered"


def test_what_is_short_stays_ordered_or_the_supplier_will_not_send_it(made):
    door = made.scans("receiving")
    for code in (PARCEL, "9521234543213"):
        door.take(code)
    before = made.bytes()
    asked = door.take("short")
    assert "short of 1 Brake rotor, 1 Hub" in asked.text
    door.take("no")
    assert made.bytes() == before
    door.take("short")
    answer = door.typed("3")
    assert "Cancelled, to order again: 1 Hub. Still expected: 1 Brake rotor." in answer.text
    assert made.count(made.hub, State.ORDERED) == 0
    assert [line.part for line in made.shop.orders.get(made.order.id).lines] == [made.rotor.id]
    door.take("short")
    assert "closed" in door.yes().text
    assert made.count(made.rotor, State.ORDERED) == 1
    door.take("short")
    assert "Cancelled" in door.typed("1").text, "also once the box is closed"
    assert made.count(made.rotor, State.ORDERED) == 0
    assert door.take("short").said == "stop"


def test_two_orders_in_one_box(made):
    door = made.scans("receiving")
    door.take(PARCEL)
    before = made.bytes()
    asked = door.take("1043")
    assert asked.said == "question"
    assert "Is order 1043 in it too?" in asked.text
    door.take("no")
    assert made.bytes() == before
    door.take("1043")
    assert "14 to come" in door.yes().text
    assert door.take(made.hood.tag).said == "done"
    assert made.shop.boxes.get(made.box.id).orders == (made.order.id, made.late.id)


def test_or_the_second_order_is_another_box(made):
    with made.shop.transaction("its box", terminal="office") as tx:
        other = tx.add(Box(0, "", (made.late.id,)))
    door = made.scans("receiving")
    door.take(PARCEL)
    door.take("1043")
    assert door.typed("1").said == "done"
    assert door.at.box.id == other.id
    door.take(PARCEL)
    door.take("1043")
    door.yes()
    assert made.shop.boxes.get(other.id).withdrawn is False, "it has arrived already"


def test_the_box_that_an_order_was_to_come_in_is_not_looked_for_any_more(made):
    with made.shop.transaction("its box", terminal="office") as tx:
        other = tx.add(Box(0, "", (made.late.id,)))
    door = made.scans("receiving")
    for code in (PARCEL, "1043", "yes"):
        door.take(code)
    assert made.shop.boxes.get(other.id).withdrawn
    door.take("undo")
    assert not made.shop.boxes.get(other.id).withdrawn


def test_a_second_person_at_the_same_box(made):
    door = made.scans("receiving")
    door.take(made.person.tag)
    door.take(PARCEL)
    cart = Scanning(made.reopened(), "cart", station="receiving")
    asked = cart.take(PARCEL)
    assert "lies open at door (the lead)" in asked.text
    cart.yes()
    assert door.take("9521234543213").said == "done"
    assert "2 of 2 here" in cart.take("9521234543213").text
    assert "All that was expected" not in door.take(made.hub.tag).text
    assert cart.take("A3").qty == 1, "each puts away what each laid down"
    assert door.take("A4").qty == 2
    made.shop.refresh()
    assert "closed" in cart.take("done").text
    assert door.take(made.hub.tag).said == "stop", "closed for both"


def test_one_of_two_goes_on_when_the_other_opens_another_box(made):
    door = made.scans("receiving")
    door.take(PARCEL)
    cart = Scanning(made.reopened(), "cart", station="receiving")
    cart.take(PARCEL)
    cart.yes()
    door.take("1043")
    door.typed("1")
    assert cart.take(made.hub.tag).said == "done"
    box = cart.shop.boxes.get(made.box.id)
    assert (box.open_at, box.also_at) == ("cart", ())


def test_a_mistyped_order_number_is_not_taken_for_the_parcels(made):
    door = made.scans("receiving")
    door.take("PARCEL-Z9")
    for slip in ("1O43", "99999", "1O43"):
        answer = door.typed(slip)
        assert answer.said == "unknown"
        assert answer.text.startswith(f"Nor {slip}. A new parcel: scan or type its order number")
    assert "New box" in door.typed("1043").text
    assert door.at.box.tracking == ("PARCEL-Z9",)
    assert door.take("PARCEL-Z9").kind == "box"


def test_a_parcels_number_stays_asked_about_through_slips(made):
    door = made.scans("receiving")
    door.take("RR123456785GB")
    asked = door.typed("l043")
    assert asked.text == (
        "No order is called l043. Parcel RR123456785GB: scan or type its order number. "
        "Enter: no order is known, each thing in it is asked about."
    )
    assert "New box" in door.take("1043").text
    assert door.at.box.tracking == ("RR123456785GB",)


@pytest.mark.parametrize("reply", ["Enter", "No  Order"])
def test_a_parcel_of_no_known_order_asks_about_what_is_in_it(made, reply):
    door = made.scans("receiving")
    assert "Enter: no order is known" in door.take("PARCEL-Z9").text
    assert door.take("PARCEL-Z9").said == "unknown", "what was misread once is misread twice"
    opened = door.yes() if reply == "Enter" else door.typed(reply)
    assert "without an order, open." in opened.text
    assert door.at.box.tracking == ("PARCEL-Z9",)
    assert "on no open order" in door.take(made.foreign.tag).text
    door.yes()
    assert made.count(made.foreign, State.HELD) == 1
    assert "or the words “no order”" in door.take("PARCEL-Z10").text
    assert door.yes().said == "unknown", "one Enter too many lays no open box aside"
    assert "without an order, open." in door.typed("no order").text


def test_an_unknown_parcel(made):
    door = made.scans("receiving")
    asked = door.take("RR123456785GB")
    assert asked.said == "question"
    assert "New box" in door.take("1043").text
    assert door.take(made.hood.tag).said == "done"
    assert door.take("A3").qty == 1
    assert door.at.box.tracking == ("RR123456785GB",)
