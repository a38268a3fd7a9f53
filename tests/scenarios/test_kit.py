"""A gasket kit of fourteen parts comes with one of them missing."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import KitLine, Part
from shoptui.jobs.order import order


@pytest.fixture
def kit(made):
    with made.shop.transaction("a kit", terminal="office") as tx:
        inside = [
            tx.add(
                Part(0, f"G-{number}", "", made.build.id, f"Gasket {number}", needed=2 if number == 3 else 1)
            )
            for number in range(1, 15)
        ]
        lines = tuple(KitLine(part.id, part.needed) for part in inside)
        return tx.add(Part(0, "GK-1", "", made.build.id, "Gasket kit", sold_as="kit", kit=lines))


@pytest.fixture
def inside(made, kit):
    return [made.shop.parts.get(line.part) for line in kit.kit]


def test_one_scan_and_the_number_of_what_is_missing(made, kit, inside):
    order(made.at("office"), kit, 1, supplier=made.supplier.id, number="2001")
    assert [made.count(part, State.ORDERED) for part in inside] == [1, 1, 2, *[1] * 11]
    door = made.scans("receiving")
    door.take("2001")

    asked = door.take("GK-1")
    assert asked.said == "question"
    assert "all 14 lines are here" in asked.text
    before = made.bytes()
    left_out = door.typed("5")
    assert left_out.said == "question"
    assert "13 of 14 lines are here" in left_out.text
    assert left_out.question.choices[4].label == "[ ] 1 Gasket 5, not there"
    assert made.bytes() == before
    got = door.yes()
    assert "13 of 14 lines. Still ordered: 1 Gasket 5. 1 still to come out of the box." in got.text

    put = door.take("A3")
    assert put.qty == 14
    assert made.count(inside[4], State.ORDERED) == 1
    assert made.shop.book.parts_at(State.RECEIVED, made.a3.id) == {
        part.id: part.needed for part in inside if part is not inside[4]
    }
    assert "Short: 1 Gasket 5; still ordered." in door.take("done").text


def test_a_number_again_ticks_it_and_the_same_scan_is_a_yes(made, kit, inside):
    order(made.at("office"), kit, 1, supplier=made.supplier.id, number="2001")
    door = made.scans("receiving")
    for code in ("2001", "GK-1"):
        door.take(code)
    door.typed("5")
    door.typed("5")
    assert "received: 14 of 14 lines" in door.take("GK-1").text
    assert made.count(inside[4], State.RECEIVED) == 1
    door.take("undo")
    assert not any(made.count(part, State.RECEIVED) for part in inside), "one scan is one thing to take back"


def test_no_leaves_the_store_as_it_was(made, kit):
    order(made.at("office"), kit, 1, supplier=made.supplier.id, number="2001")
    door = made.scans("receiving")
    door.take("2001")
    before = made.bytes()
    for answer in ("no", "drop"):
        door.take("GK-1")
        door.take("no") if answer == "no" else door.drop()
        assert made.bytes() == before


def test_two_kits_are_a_count_of_two_and_one_more_is_over(made, kit, inside):
    order(made.at("office"), kit, 2, supplier=made.supplier.id, number="2001", more=True)
    door = made.scans("receiving")
    door.take("2001")
    assert "1 more than ordered" in door.take("GK-1", 3).text
    door.yes()
    assert made.count(inside[2], State.RECEIVED) == 4
    assert made.count(inside[2], State.HELD) == 2


def test_a_part_of_a_kit_may_come_by_itself_and_the_kit_is_then_the_rest(made, kit, inside):
    order(made.at("office"), kit, 1, supplier=made.supplier.id, number="2001")
    door = made.scans("receiving")
    for code in ("2001", "G-1"):
        door.take(code)
    assert "all 13 lines" in door.take("GK-1").text
    door.yes()
    assert made.count(inside[0], State.RECEIVED) == 1
    assert "received already" in door.take("GK-1").text


def test_a_kit_of_another_order_is_asked_about_first(made, kit, inside):
    order(made.at("office"), kit, 1, supplier=made.supplier.id, number="2001")
    door = made.scans("receiving")
    door.take(made.box.code)
    assert "not expected in this box" in door.take("GK-1").text
    assert "all 14 lines" in door.yes().text
    door.yes()
    assert made.count(inside[0], State.RECEIVED) == 1
    assert len(made.shop.boxes.get(made.box.id).also_orders) == 1


def test_a_kit_that_nobody_ordered_is_held(made, kit, inside):
    door = made.scans("receiving")
    door.take(made.box.code)
    assert "no open order" in door.take("GK-1").text
    door.yes()
    assert [made.count(part, State.HELD) for part in inside[:3]] == [1, 1, 2]


def test_one_of_a_kit_is_damaged(made, kit, inside):
    order(made.at("office"), kit, 1, supplier=made.supplier.id, number="2001")
    door = made.scans("receiving")
    for code in ("2001", "GK-1", "yes"):
        door.take(code)
    assert door.take("damaged").said == "question", "one scan stood for fourteen: which?"
    assert "1 Gasket 2 held: damaged" in door.typed("2").text
    assert made.count(inside[1], State.HELD) == 1


def test_away_from_the_door_a_kit_is_its_parts(made, kit, inside):
    order(made.at("office"), kit, 1, supplier=made.supplier.id, number="2001")
    door = made.scans("receiving")
    for code in ("2001", "GK-1", "yes"):
        door.take(code)
    racks = made.scans("racks")
    assert "kit of 15: 15 here" in racks.take("GK-1").text
    assert racks.take("A4").qty == 15
    assert len(made.shop.book.parts_at(State.RECEIVED, made.a4.id)) == 14
    lift = made.scans("lift")
    asked = lift.take("GK-1")
    assert asked.said == "question"
    assert len(asked.question.choices) == 14
    lift.typed("2")
    assert lift.card.part == inside[1].id
    assert "kit of 15: 15 here" in made.scans("parts").take("GK-1").text


def test_a_kit_is_to_order_as_its_parts(made, kit, inside):
    assert verbs.to_order(made.shop.book, kit.id, needed=kit.needed, original=False) == 0
    assert verbs.to_order(made.shop.book, inside[2].id, needed=2, original=False) == 2
