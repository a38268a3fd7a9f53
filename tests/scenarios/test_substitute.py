"""A supplier sends another number than was ordered."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.jobs.held import why_held
from shoptui.jobs.substitute import accept, refuse, substitute, waiting

PARCEL = "RR473124829GB"


@pytest.fixture
def door(made):
    door = made.scans("receiving")
    door.take(PARCEL)
    return door


def came(door, row="1", number="BR-100B", how_many=""):
    door.take("substitute")
    door.typed(row)
    answer = door.take(number)
    return answer if answer.said == "done" else door.typed(how_many) if how_many else door.yes()


def test_it_is_held_until_the_lead_accepts_it(made, door):
    before = made.bytes()
    assert door.take("substitute").said == "question"
    assert "BR-100" in door.typed("1").text
    assert "all 2 came" in door.take("BR-100B").text
    assert made.bytes() == before
    assert "held until the lead accepts it" in door.yes().text
    assert made.count(made.rotor, State.HELD) == 2
    assert made.count(made.rotor, State.ORDERED) == 0, "the promise is used up"
    assert waiting(made.shop, made.rotor) == ("BR-100B", 2)
    assert why_held(made.shop, made.rotor.id) == ("substitute: BR-100B",)

    assert accept(made.at("office"), made.rotor, 2).said == "done"
    part = made.shop.parts.get(made.rotor.id)
    assert (part.number, part.other_numbers) == ("BR-100B", ("BR-100",))
    assert "BR-100 became BR-100B" in part.read_again
    assert made.count(part, State.RECEIVED) == 2
    assert waiting(made.shop, part) is None
    assert made.scans("parts").take("BR-100").part == part.code, "the old number is still known"
    made.scans("receiving", "office").take("undo")
    part = made.shop.parts.get(made.rotor.id)
    assert (part.number, part.read_again, made.count(part, State.HELD)) == ("BR-100", "", 2)
    assert waiting(made.shop, part) == ("BR-100B", 2)


def test_its_own_number_finds_it_while_it_is_held(made, door):
    came(door, how_many="1")
    assert "held" in made.scans("racks").take("BR-100B").text
    assert made.scans("parts").take("br100b").part == made.rotor.code
    before = made.bytes()
    asked = door.take("BR-100B")
    assert asked.text == (
        "BR-100B, instead of Brake rotor, waits for the lead's word (held, on the bench, unsorted). "
        "Hold 1 more? Enter: yes."
    )
    assert made.bytes() == before
    door.yes()
    assert (made.count(made.rotor, State.HELD), made.count(made.rotor, State.RECEIVED)) == (2, 0)
    assert "The open box brings none" in door.take("BR-100B").text
    for _ in range(2):
        door.take("undo")
    assert made.shop.parts.get(made.rotor.id).other_numbers == ()


def test_refused_its_number_is_not_received_as_what_was_ordered(made, door):
    came(door, how_many="1")
    refuse(made.at("office"), made.rotor, 1)
    assert "was refused" in door.take("BR-100B").text
    door.take("no")
    made.scans("receiving", "office").take("undo")
    accept(made.at("office"), made.rotor, 1)
    assert door.take("BR-100B").said == "done", "now it is what was ordered"


def test_refused_it_stays_held_and_is_to_order_again(made, door):
    came(door)
    assert refuse(made.at("office"), made.rotor, 2).said == "done"
    assert made.count(made.rotor, State.HELD) == 2
    assert verbs.to_order(made.shop.book, made.rotor.id, needed=2, original=False) == 2
    assert waiting(made.shop, made.rotor) is None
    assert accept(made.at("office"), made.rotor, 2).said == "stop"
    made.scans("receiving", "office").take("undo")
    assert waiting(made.shop, made.rotor) == ("BR-100B", 2)


def test_one_of_two_came_so(made, door):
    came(door, how_many="1")
    assert (made.count(made.rotor, State.HELD), made.count(made.rotor, State.ORDERED)) == (1, 1)
    assert door.take(made.rotor.tag).said == "done"


def test_the_number_of_its_row_and_how_many_may_be_the_same(made, door):
    door.asked(substitute(door.at))  # as its key does
    for typed in ("1", "BR-100B", "1"):
        door.typed(typed)
    assert made.count(made.rotor, State.HELD) == 1


def test_it_may_be_scanned_what_it_came_instead_of(made, door):
    door.take("substitute")
    assert "Instead of Hub" in door.take(made.hub.tag).text
    assert door.take("9521234543220").said == "done"
    assert waiting(made.shop, made.hub) == ("9521234543220", 1)
    assert "Noted: looks alike" in door.typed("looks alike").text
    assert waiting(made.shop, made.hub) == ("9521234543220", 1)


def test_a_bin_is_no_number(made, door):
    door.take("substitute")
    door.typed("2")
    assert "dropped" in door.take("A3").text
    assert made.count(made.hub, State.HELD) == 0


def test_without_a_box_or_with_nothing_to_come_it_says_so(made, door):
    for code in ("9521234543213", "9521234543213", made.hub.tag):
        door.take(code)
    assert door.take("substitute").said == "stop"
    door.take("done")
    assert door.take("substitute").said == "stop"
