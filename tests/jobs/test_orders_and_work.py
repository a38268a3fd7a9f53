"""Order, cancel, send out, take back, hold, release, open, return to stock, dispose, add a part."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import Place, State
from shoptui.domain.records import OutsideWork, Part
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs.add_part import add_part
from shoptui.jobs.answers import Said
from shoptui.jobs.dispose import dispose
from shoptui.jobs.order import cancel, order
from shoptui.jobs.send_out import next_work, send_out, take_back
from shoptui.jobs.set_aside import hold, open_part, release, return_to_stock

DUE = date(2026, 12, 4)


@pytest.fixture
def here(made):
    """Two rotors on the bench, sealed."""
    with made.shop.transaction("received", terminal="door") as tx:
        tx.enter(verbs.receive(made.shop.book, made.rotor.id, 2, order=made.order.id))
    return made


def needs(made, condition, qty=0):
    need = Need(condition, part=made.rotor.id, qty=qty)
    with made.shop.transaction("a filming day", terminal="office") as tx:
        return tx.add(Shoot(0, "day1", "first", date(2026, 11, 27), shots=(Shot("the box", (need,)),)))


def stops(answer, words):
    assert answer.said is Said.STOP
    assert words in answer.text


def test_order_makes_the_order_and_its_supplier(made):
    answer = order(
        made.at("office"), made.hood, 2, supplier="New (example)", number="A-1", due=DUE, more=True
    )
    assert answer.text == "Ordered from New (example): 2 Hood. Due Fri 4 Dec."
    assert (answer.state, answer.qty, answer.part) == ("ordered", 2, made.hood.code)
    placed = made.shop.orders.by_code("A-1")
    assert (placed.kind, placed.due, placed.placed) == ("purchase", DUE, date(2026, 11, 25))
    assert made.shop.book.at(made.hood.id, Place(State.ORDERED, placed.id)) == 2


def test_a_second_line_goes_to_the_same_order(made):
    for part in (made.hood, made.hub):
        order(made.at("office"), part, 1, supplier="brakes", number="A-1", total_minor=990, more=True)
    placed = made.shop.orders.by_code("A-1")
    assert [(line.part, line.total_minor) for line in placed.lines] == [
        (made.hood.id, 990),
        (made.hub.id, 990),
    ]


def test_two_suppliers_may_use_the_same_number(made):
    order(made.at("office"), made.hood, 1, supplier="brakes", number="A-1", more=True)
    order(made.at("office"), made.hood, 1, supplier="paint", number="A-1", more=True)
    found = [(each.code, each.number) for each in made.shop.orders.all() if each.number == "A-1"]
    assert found == [("A-1", "A-1"), ("A-1-2", "A-1")]


@pytest.mark.parametrize(
    ("qty", "supplier", "due", "words"),
    [
        (0, "brakes", None, "1 or more was expected, not 0"),
        (-1, "brakes", None, "1 or more was expected, not -1"),
        (1, "  ", None, "A supplier was expected"),
        (1, "brakes", date(2026, 11, 1), "is in the past"),
    ],
)
def test_an_order_that_cannot_be_is_stopped(made, qty, supplier, due, words):
    before = made.bytes()
    stops(order(made.at("office"), made.hood, qty, supplier=supplier, due=due), words)
    assert made.bytes() == before


def test_cancelled_pieces_are_to_order_again(made):
    answer = cancel(made.at("office"), made.rotor, 1, order=made.order.id)
    assert answer.said is Said.DONE
    assert made.count(made.rotor, State.ORDERED) == 1
    assert made.shop.orders.get(made.order.id).lines[0].qty == 1
    assert verbs.to_order(made.shop.book, made.rotor.id, needed=2, original=False) == 1


def test_no_more_is_cancelled_than_is_to_come(made):
    stops(cancel(made.at("office"), made.rotor, 3, order=made.order.id), "2 still to come on order 1042")


def test_a_line_s_price_shrinks_with_what_is_cancelled(made):
    order(made.at("office"), made.hood, 3, supplier="brakes", number="A-1", total_minor=1000, more=True)
    placed = made.shop.orders.by_code("A-1")
    cancel(made.at("office"), made.hood, 1, order=placed.id)
    assert made.shop.orders.get(placed.id).lines[0].total_minor == 667


def test_out_and_back_leaves_the_word_of_the_work(here):
    shop = here.shop
    with shop.transaction("work", terminal="office") as tx:
        rotor = tx.change(here.rotor, outside_work=(OutsideWork("blasted", 2), OutsideWork("coated", 5)))
    answer = send_out(here.at("office"), rotor, 2, to="paint", due=DUE, number="77")
    assert answer.text == "Sent out to Paint shop to be blasted: 2 Brake rotor. Due back Fri 4 Dec."
    assert answer.where == "at Paint shop, job 77, due Fri 4 Dec"
    job = shop.orders.by_code("77")
    assert (job.kind, job.work) == ("outside", "blasted")
    back = take_back(here.at("door"), here.rotor, 1, job=job.id, to=here.a3.id)
    assert back.where == "in bin A3 (rack A, shelf 3)"
    assert shop.book.at(here.rotor.id, Place(State.RECEIVED, here.a3.id, "blasted")) == 1
    assert next_work(shop, rotor) in ("blasted", "coated")
    take_back(here.at("door"), here.rotor, 1, job=job.id, done=False)
    assert shop.book.at(here.rotor.id, Place(State.RECEIVED, "", "")) == 1


def test_what_is_not_out_does_not_come_back(here):
    send_out(here.at("office"), here.rotor, 1, to="paint", number="77")
    job = here.shop.orders.by_code("77")
    stops(take_back(here.at("door"), here.rotor, 2, job=job.id), "Nothing changed.")


def test_what_is_not_here_is_not_sent(made):
    before = list(made.shop.orders.all())
    stops(send_out(made.at("office"), made.hood, 1, to="Somebody new"), "Nothing changed.")
    assert list(made.shop.orders.all()) == before
    assert made.shop.suppliers.by_code("Somebody new") is None


def test_held_things_are_released_where_they_lie(here):
    hold(here.at("door"), here.rotor, 1, note="scratched")
    assert here.count(here.rotor, State.HELD) == 1
    stops(hold(here.at("door"), here.rotor, 1, note=" "), "why it is held")
    before = here.bytes()
    answer = release(here.at("office"), here.rotor, 1)
    assert answer.text == (
        "1 Brake rotor, held: scratched. May it be used all the same? Enter: yes, release it."
    )
    assert here.bytes() == before
    answer.question.yes()
    assert here.count(here.rotor, State.HELD) == 0


def test_opening_what_a_shot_needs_sealed_asks_first(here):
    needs(here, Condition.SEALED)
    answer = open_part(here.at("door"), here.rotor, 1)
    assert answer.said is Said.QUESTION
    assert "Fri 27 Nov, shot 1 (the box) needs it sealed" in answer.text
    assert here.shop.book.at(here.rotor.id, Place(State.RECEIVED, "", "sealed")) == 2
    assert answer.question.yes().said is Said.DONE
    assert here.shop.book.at(here.rotor.id, Place(State.RECEIVED, "", "sealed")) == 1


def test_what_is_agreed_to_is_done_with_the_part_as_it_is_then_by_who_is_there_then(here):
    needs(here, Condition.SEALED)
    door = here.at("door")
    answer = open_part(door, here.rotor, 1)
    with here.shop.transaction("called otherwise", terminal="office") as tx:
        tx.change(here.rotor, description="Brake disc")
    here.shop.remember("door", person=here.person.id, badge_at=here.clock())
    assert answer.question.yes().text == "Opened: 1 Brake disc."
    assert next(here.shop.history.at_terminal("door")).who == here.person.id


def test_what_the_shot_does_not_need_is_opened_unasked(here):
    needs(here, Condition.SEALED, qty=1)
    assert open_part(here.at("door"), here.rotor, 1).said is Said.DONE
    assert open_part(here.at("door"), here.rotor, 1).said is Said.QUESTION


def test_a_filmed_shot_asks_for_nothing(here):
    shoot = needs(here, Condition.SEALED)
    with here.shop.transaction("filmed", terminal="office") as tx:
        tx.change(shoot, shots=(Shot("the box", shoot.shots[0].needs, filmed=True),))
    assert open_part(here.at("door"), here.rotor, 1).said is Said.DONE


@pytest.mark.parametrize("condition", [Condition.SEALED, Condition.BEFORE_WORK, Condition.ON_HAND])
def test_sending_out_what_a_shot_needs_here_asks_first(here, condition):
    needs(here, condition)
    assert send_out(here.at("office"), here.rotor, 1, to="paint").said is Said.QUESTION


def test_disposing_of_what_a_shot_needs_asks_first(here):
    needs(here, Condition.ON_HAND)
    assert dispose(here.at("office"), here.rotor, 1, reason="sold").said is Said.QUESTION


def test_what_is_scrapped_is_to_order_again_unless_no_longer_needed(here):
    dispose(here.at("office"), here.rotor, 1, reason="scrapped", no_longer_needed=False)
    assert verbs.to_order(here.shop.book, here.rotor.id, needed=2, original=False) == 1
    dispose(here.at("office"), here.rotor, 1, reason="sold", no_longer_needed=True)
    assert here.shop.parts.get(here.rotor.id).needed == 1
    stops(dispose(here.at("office"), here.rotor, 1, reason="vanished"), "One of returned, sold")


def test_removed_pieces_return_to_stock(here):
    shop = here.shop
    with shop.transaction("on and off", terminal="lift") as tx:
        tx.enter(verbs.install(shop.book, here.rotor.id, 1, position="LF"))
        tx.enter(verbs.remove(shop.book, here.rotor.id, 1, position="LF"))
    assert return_to_stock(here.at("lift"), here.rotor, 1).said is Said.DONE
    assert here.count(here.rotor, State.RECEIVED) == 2
    stops(return_to_stock(here.at("lift"), here.rotor, 1), "Nothing changed.")


def test_a_part_typed_in_words_gets_a_tag(made):
    answer = add_part(made.at("office"), description="  rear   bracket ", section="Body")
    part = made.shop.parts.get(answer.subject)
    assert (part.description, part.section, part.needed, part.code) == ("rear bracket", "Body", 1, part.tag)


@pytest.mark.parametrize(
    ("description", "needed", "words"),
    [
        (" ", 1, "description was expected"),
        ("x" * 201, 1, "200"),
        ("y", -1, "0 or more"),
        ("HOOD", 1, "already"),
    ],
)
def test_a_part_that_says_nothing_or_the_same_is_not_added(made, description, needed, words):
    before = made.bytes()
    stops(add_part(made.at("office"), description=description, needed=needed), words)
    assert made.bytes() == before


def test_more_than_is_to_order_asks_first(made):
    office, before = made.at("office"), made.bytes()
    asked = order(office, made.foreign, 14, supplier="brakes")
    assert asked.said is Said.QUESTION
    assert asked.text == "Mirror: 1 is to order, not 14. Enter: order 14 all the same."
    assert made.bytes() == before
    assert asked.question.yes().said is Said.DONE
    assert order(office, made.foreign, 1, supplier="brakes").text.startswith("Mirror: none is to order")


def test_a_whole_pack_is_ordered_unasked_and_stock_wants_no_number(made):
    office = made.at("office")
    with made.shop.transaction("sold in packs", terminal="office") as tx:
        clip = tx.change(made.clip, needed=12, sold_as="pack", pieces=50)
        stock = tx.add(Part(0, "", "", None, "Cable tie"))
    assert order(office, clip, 50, supplier="brakes").said is Said.DONE
    assert order(office, clip, 50, supplier="brakes").said is Said.QUESTION
    assert order(office, stock, 500, supplier="brakes").said is Said.DONE


def test_work_that_its_line_does_not_name_asks_first(here):
    with here.shop.transaction("work", terminal="office") as tx:
        rotor = tx.change(here.rotor, outside_work=(OutsideWork("coated", 5),))
    before = here.bytes()
    asked = send_out(here.at("office"), rotor, 1, to="paint", work="coatedcoated")
    assert asked.text == "Brake rotor needs coated by its line. Enter: send it out to be coatedcoated."
    assert here.bytes() == before
    assert asked.question.yes().said is Said.DONE
    assert send_out(here.at("office"), rotor, 1, to="paint", work="Coated", number="1").said is Said.DONE
    assert here.shop.orders.by_code("1").work == "coated"


def test_without_a_day_it_is_due_after_the_days_of_its_line(here):
    with here.shop.transaction("work", terminal="office") as tx:
        rotor = tx.change(here.rotor, outside_work=(OutsideWork("coated", 5),))
    answer = send_out(here.at("office"), rotor, 1, to="paint", number="77")
    assert answer.text.endswith("Due back Wed 2 Dec, after the 5 working days of its line.")
    assert here.shop.orders.by_code("77").due == date(2026, 12, 2)
    later = send_out(here.at("office"), rotor, 1, to="paint", number="78", due=DUE)
    assert later.text.endswith("Due back Fri 4 Dec.")
