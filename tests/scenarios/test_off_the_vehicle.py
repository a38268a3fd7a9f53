"""A caliper comes off; an original that no list has; left and right with one GTIN; two of four on."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.codes import normal
from shoptui.domain.places import Place, State
from shoptui.domain.records import LearnedCode, Part
from shoptui.domain.tags import Kind

GTIN = "9521234543220"


@pytest.fixture
def lift(made):
    return made.scans("lift")


def test_a_caliper_off_into_a_bag(made, lift):
    with made.shop.transaction("", terminal="office") as tx:
        caliper = tx.add(Part(0, "caliper", "", made.build.id, "Caliper", original=True, positions=("LF",)))
        tx.enter(verbs.as_bought(caliper.id, 1, position="LF"))
    lift.take("caliper")
    lift.take("A4")
    answer = lift.yes()
    assert answer.text == "1 Caliper, LF removed from LF to A4. What becomes of it (Ctrl+K) can wait."
    assert made.shop.book.at(caliper.id, Place(State.REMOVED, made.a4.id)) == 1


def test_a_core_on_the_bench_does_not_go_among_the_new_parts_without_a_word(made):
    with made.shop.transaction("", terminal="office") as tx:
        caliper = tx.add(Part(0, "caliper", "", made.build.id, "Caliper", original=True, positions=("LF",)))
        tx.enter(verbs.as_bought(caliper.id, 1, position="LF"))
    door, lift = made.scans("receiving"), made.scans("lift", "door")
    for code in (made.build.tag, "caliper", "yes"):
        lift.take(code)
    for code in ("1042", made.hub.tag):
        door.take(code)
    assert "1 Hub" in door.take("A3").text
    assert made.shop.book.parts_at(State.REMOVED, made.a3.id) == {}
    before = made.bytes()
    asked = door.take("A4")
    assert asked.text == "What came off lies on the bench: 1 Caliper, LF. Enter: it goes into A4."
    door.take("no")
    assert made.bytes() == before
    assert "On the bench still" not in door.take("done").text
    door.take("A4")
    assert door.yes().said == "done"
    assert made.shop.book.parts_at(State.REMOVED, made.a4.id) == {caliper.id: 1}
    assert door.take("A4").said == "stop"


def test_the_tag_first_then_the_part(made, lift):
    with made.shop.transaction("", terminal="office") as tx:
        for _ in range(2):
            tx.enter(verbs.stock(made.rotor.id, 1))
    lift.take(made.rotor.tag)
    lift.take("LF")
    lift.take("done")
    assert lift.take("remove").text == "Remove: scan the part."
    assert "Remove 1 Brake rotor from LF" in lift.take(made.rotor.tag).text
    lift.yes()
    assert "Install" in lift.take(made.rotor.tag).text, "the next scan is a plain one again"


def test_an_unknown_code_when_the_lift_is_turned_to_remove(made, lift):
    before = made.bytes()
    lift.take("remove")
    asked = lift.take("77/3-AX")
    assert asked.said == "question"
    assert "What came off?" in asked.text
    assert made.bytes() == before
    answer = lift.typed("heater box")
    assert answer.text.startswith("Original heater box listed and removed")
    racks = made.scans("racks")
    assert "heater box" in racks.take("77/3-AX").text
    lift.take("undo")
    assert made.scans("racks").take("77/3-AX").said == "unknown"


def test_a_blank_tag_stuck_on_it(made, lift):
    tag = made.shop.new_tag(Kind.PART)
    lift.take("remove")
    lift.take(tag)
    lift.typed("heater box")
    assert made.shop.parts.by_code(tag).description == "heater box"


def test_remove_with_a_part_in_hand_that_is_off_means_the_next_one(made, lift):
    with made.shop.transaction("", terminal="office") as tx:
        caliper = tx.add(Part(0, "caliper", "", made.build.id, "Caliper", original=True))
        tx.enter(verbs.as_bought(caliper.id, 1, position=""))
    lift.take("caliper")
    lift.yes()
    assert lift.take("remove").text == "Remove: scan the part."
    assert "What came off?" in lift.take("77/3-AX").text


def test_an_original_by_words_can_say_its_corner_and_its_bin(made, lift):
    asked = lift.typed("old drum")
    assert "scan its position" in asked.text
    assert "removed to A4" in lift.take("A4").text
    answer = lift.take("KRF222V")
    assert answer.text.startswith("Original old drum, RF listed and removed from RF to A4.")
    assert [place.where for place, n in made.shop.book.places(answer.subject) if n > 0] == [made.a4.id]
    lift.take("undo")
    assert made.shop.parts.get(answer.subject).withdrawn


def test_an_original_by_its_code_can_say_its_corner(made, lift):
    lift.take("remove")
    lift.take("77/3-AX")
    assert "What came off from LF?" in lift.take("LF").text
    assert lift.typed("old drum").text.startswith("Original old drum, LF listed and removed from LF")
    assert "old drum" in made.scans("racks").take("77/3-AX").text


def test_several_with_one_code_stand_in_the_order_of_their_list(made, lift):
    with made.shop.transaction("", terminal="office") as tx:
        for side in ("left", "right"):
            part = tx.add(
                Part(0, f"m-{side}", "", made.build.id, f"Mirror, {side}", needed=1, positions=(side,))
            )
            tx.add(LearnedCode(0, GTIN, normal(GTIN), "parts", part.id))
            tx.enter(verbs.stock(part.id, 1))
    asked = lift.take(GTIN)
    assert [choice.label for choice in asked.question.choices] == [
        "Mirror, left (wagon)",
        "Mirror, right (wagon)",
    ]


def test_left_and_right_with_one_gtin(made, lift):
    sides = {}
    with made.shop.transaction("", terminal="office") as tx:
        for side in ("left", "right"):
            sides[side] = part = tx.add(
                Part(0, f"mirror-{side}", "", made.build.id, "Door mirror", needed=1, positions=(side,))
            )
            tx.add(LearnedCode(0, GTIN, normal(GTIN), "parts", part.id))
            tx.enter(verbs.stock(part.id, 1, to=made.a3.id))
    assert "This code means 2 things" in lift.take(GTIN).text
    assert lift.take("KLEFT2R").text == "1 Door mirror, left installed at left."
    assert made.count(sides["right"], State.INSTALLED) == 0
    assert lift.take(GTIN).said == "question"
    assert lift.question.part == sides["right"].code, "only the right one is still here"


def test_two_of_four_installed(made, lift):
    with made.shop.transaction("", terminal="office") as tx:
        wheel = tx.add(
            Part(0, "wheel", "", made.build.id, "Wheel", needed=4, positions=("LF", "RF", "LR", "RR"))
        )
        tx.enter(verbs.stock(wheel.id, 4, to=made.a3.id))
    lift.take("wheel")
    assert lift.take("LF").text == "1 Wheel installed at LF. 1 of 4 on."
    lift.take("wheel")
    assert lift.yes().text == "1 Wheel installed at RF. 2 of 4 on."
    assert "Install 1 Wheel at LR" in lift.take("wheel").text


def test_the_left_pad_does_not_wait_for_the_right_caliper(made, lift):
    with made.shop.transaction("", terminal="office") as tx:
        calipers = [
            tx.add(Part(0, f"caliper-{at}", "", made.build.id, "Caliper", needed=1, positions=(at,)))
            for at in ("LF", "RF")
        ]
        after = tuple(part.id for part in calipers)
        pad = tx.add(
            Part(0, "pad", "", made.build.id, "Pad", needed=2, positions=("LF", "RF"), install_after=after)
        )
        tx.enter(verbs.stock(pad.id, 2))
        tx.enter(verbs.as_bought(calipers[0].id, 1, position="LF"))
    assert lift.take("pad").text == "Install 1 Pad at LF? Enter or scan the position."
    assert "First: Caliper, RF not on yet" in lift.take("RF").text


def test_what_has_to_be_read_again_is_said_and_struck(made, lift):
    with made.shop.transaction("", terminal="office") as tx:
        tx.enter(verbs.stock(made.hub.id, 1))
        tx.change(made.hub, read_again="torque sheet")
    asked = lift.take(made.hub.tag)
    assert "read again torque sheet" in asked.text
    asked = lift.typed("1")
    assert asked.text == "Install 1 Hub? Enter."
    assert made.shop.parts.get(made.hub.id).read_again == ""
    lift.yes()
    lift.take("undo")
    lift.take("undo")
    assert made.shop.parts.get(made.hub.id).read_again == "torque sheet"
