"""What leaves: robbed for another build, a core sent back, one of four scrapped, the vehicle handed over."""

from datetime import date, timedelta

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import HANDED_OVER, State
from shoptui.domain.records import Part
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs.cores import cores_of, refund
from shoptui.jobs.dispose import dispose
from shoptui.jobs.hand_over import hand_over
from shoptui.jobs.missing import missing
from shoptui.jobs.order import order
from shoptui.jobs.part_list import part_lines
from shoptui.jobs.today import today_lines
from shoptui.jobs.transfer import ask_transfer

TODAY = date(2026, 11, 25)


def said_today(made, kind, day=TODAY):
    return [line.words for line in today_lines(made.shop, day) if line.kind == kind]


def to_order(made, part):
    return next(line.to_order for line in part_lines(made.shop) if line.part.id == part.id)


@pytest.fixture
def wheels(made):
    """Four wheels of a kind lie in A3, a fifth of the same number is wanted on the coupe."""
    with made.shop.transaction("wheels", terminal="office") as tx:
        made.wheel = tx.add(Part(0, "", "", made.build.id, "Wheel", number="W-15", needed=4))
        made.theirs = tx.add(Part(0, "", "", made.other.id, "Wheel", number="W-15", needed=1))
        tx.enter(verbs.receive_unordered(made.wheel.id, 4, supplier=made.supplier.id, to=made.a3.id))
    return made


def test_one_of_four_is_scrapped_and_no_longer_needed(wheels):
    said = dispose(wheels.at("office"), wheels.wheel, 1, reason="scrapped")
    assert said.text == "1 Wheel: still needed? Enter: yes, 1 to order again."
    said = said.question.choices[1].take()
    assert said.text == "Gone, scrapped: 1 Wheel. 1 no longer needed."
    assert (to_order(wheels, wheels.wheel), wheels.shop.parts.get(wheels.wheel.id).needed) == (0, 3)


def test_a_part_robbed_for_another_build_is_to_order_again_here(wheels):
    with wheels.shop.transaction("on", terminal="lift") as tx:
        tx.enter(verbs.install(wheels.shop.book, wheels.wheel.id, 4, position=""))
    said = ask_transfer(wheels.at("office"), wheels.wheel, 1)
    assert [choice.label for choice in said.question.choices] == ["coupe: Coupe", "the shop's stock"]
    said = said.question.choices[0].take()
    assert said.text == "Of Wheel 0 lie here. Does 1 come off the vehicle for coupe? Enter: yes."
    said = said.question.yes()
    assert said.text == "1 Wheel: still needed? Enter: yes, 1 to order again."
    said = said.question.yes()
    assert said.text.startswith("Given to coupe: 1 Wheel. 1 to order again. Its tag is ")
    assert (to_order(wheels, wheels.wheel), to_order(wheels, wheels.theirs)) == (1, 0)
    assert wheels.count(wheels.wheel, State.INSTALLED) == 3
    assert wheels.count(wheels.theirs, State.REMOVED) == 1


def test_a_caliper_comes_off_and_its_core_is_due_back_in_30_days(made):
    shop = made.shop
    with shop.transaction("calipers", terminal="office") as tx:
        old = tx.add(Part(0, "", "", made.build.id, "Caliper", positions=("LF",), original=True))
        new = tx.add(Part(0, "", "", made.build.id, "New caliper", needed=1, replaces=(old.id,)))
        tx.enter(verbs.as_bought(old.id, 1, position="LF"))
    due = TODAY + timedelta(days=30)
    said = order(made.at("office"), new, 1, supplier="brakes", number="77", deposit_minor=4500, core_due=due)
    assert said.text.endswith("Its core has to be back by Fri 25 Dec.")
    lift = made.scans("lift")
    lift.take(old.tag)
    lift.yes()
    assert made.count(old, State.REMOVED) == 1
    assert not said_today(made, "core")
    week_before = due - timedelta(days=7)
    assert said_today(made, "core", week_before) == [
        f"core of New caliper (P-{new.tag[1:]}): due Fri 25 Dec, EUR 45.00, order 77"
    ]
    assert "was due" in said_today(made, "core", due + timedelta(days=1))[0]

    dispose(made.at("office"), old, 1, reason="core sent back")
    assert "sent back, no refund yet" in said_today(made, "core")[0]

    (core,) = cores_of(shop, old, TODAY)
    refund(made.at("office"), core)
    assert not said_today(made, "core")


def test_the_finished_vehicle_is_handed_over(made):
    shop = made.shop
    with shop.transaction("done", terminal="office") as tx:
        tx.enter(verbs.receive(shop.book, made.rotor.id, 2, order=made.order.id))
        tx.enter(verbs.install(shop.book, made.rotor.id, 1, position="LF"))
        tx.enter(verbs.mock_up(shop.book, made.rotor.id, 1, position="RF"))
        tyre = tx.add(Part(0, "", "", made.build.id, "Ring", needed=1))
        tx.enter(verbs.receive_unordered(tyre.id, 2, supplier=made.supplier.id))
        tx.enter(verbs.assemble(shop.book, tyre.id, 2, carrier=made.rotor.id))
        need = Need(Condition.INSTALLED, build=made.build.id, section="Brakes")
        shoot = tx.add(Shoot(0, "d1", "Last day", TODAY, shots=(Shot("Brakes", (need,)),)))
    said = hand_over(made.at("office"), made.build)
    assert said.text == (
        "Hand over Wagon? With it: 2 pieces. Open: 2 mocked up, 12 ordered, 1 shot not filmed. "
        "Enter: hand over; the rest stays."
    )
    said = said.question.yes()
    assert said.text == "Wagon is handed over, with 2 pieces. Its record stays."
    assert set(shop.book.parts_at(State.GONE, HANDED_OVER)) == {made.rotor.id, tyre.id}
    assert not any(line.to_order for line in part_lines(shop, made.build.id))
    assert not missing(shop, shoot, TODAY).lines
    assert not said_today(made, "install")
    assert shop.builds.by_code("wagon").status == "finished"
