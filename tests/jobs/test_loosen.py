"""A joint that is done is loosened while its part stays on: it is open again, with the reason."""

from dataclasses import replace
from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import HARDWARE, HardwareLine, Joint, Part, Person, What, Wrench
from shoptui.jobs.at import At
from shoptui.jobs.joints import joints_of
from shoptui.jobs.loosen import REASONS, ask_loosen
from shoptui.jobs.strike_out import CHECK
from shoptui.stations.parts.deeds import what_next

ARM = Joint("Arm bolts", 2, "M12 10.9", value="110 N m", source="Sheet")
LOCKED = Joint("Seat bolts", 4, "M10 10.9", value="40 N m", one_use=True, source="Sheet")
LATCHES = Joint("Latches", 0, source="Sheet")


@pytest.fixture
def shop(made):
    with made.shop.transaction("joints", terminal="office") as tx:
        tx.add(Person(0, "fab", "", "the fabricator", second_check=True))
        tx.add(Wrench(0, "T-200", "", "Click 200", low=20, high=200, checked=date(2026, 9, 1)))
        made.bolt = tx.add(
            Part(0, "", "", None, "Seat bolt", kind=HARDWARE, designation="M10 x 25 10.9", one_use=True)
        )
        tx.enter(verbs.stock(made.bolt.id, 10, to=made.a4.id))
        made.arm = tx.add(
            Part(0, "ARM", "", made.build.id, "Arm", needed=2, positions=("LF", "RF"), joints=(ARM,))
        )
        made.seat = tx.add(
            Part(
                0, "SEAT", "", made.build.id, "Seat", needed=1, joints=(LOCKED, LATCHES),
                hardware=(HardwareLine(made.bolt.id, 4),),
            )
        )  # fmt: skip
        for part in (made.arm, made.seat):
            tx.enter(verbs.stock(part.id, part.needed, to=made.a3.id))
    return made


@pytest.fixture
def lift(shop):
    lift = shop.scans("lift")
    for each in ("lead", "T-200", "ARM", "LF"):
        lift.take(each)
    lift.yes()
    lift.take("RF") if lift.question else lift.take("ARM")
    lift.take("RF")
    lift.yes()
    lift.take("done")
    return lift


@pytest.fixture
def seated(shop, lift):
    lift.take("SEAT")
    lift.yes()
    lift.typed("40 40 40 40")
    lift.yes()  # new ones
    lift.typed("1")  # the latches are signed
    lift.take("done")
    return lift


def why(shop, part, name, position=None):
    part = shop.shop.parts.get(part.id)
    return [each.standing.why for each in joints_of(shop.shop, part, position) if each.joint.name == name]


def pick(lift, label):
    """Answer the open question with the choice that begins so."""
    labels = [choice.label for choice in lift.question.question.choices]
    (number,) = [number for number, each in enumerate(labels, 1) if each.startswith(label)]
    return lift.typed(str(number))


def test_from_the_card_of_a_part_that_is_done(shop, lift):
    asked = lift.take("ARM")
    assert asked.card == "remove"
    pick(lift, "loosen a joint")
    asked = pick(lift, "Arm bolts at RF")
    assert asked.text == "Arm bolts at RF: why is it loosened? A number and Enter, or type why."
    assert [choice.label for choice in asked.question.choices] == list(REASONS)
    answer = pick(lift, "to shim")
    assert (answer.said, answer.text) == (
        "done",
        "Loosened: Arm bolts at RF of Arm. It is open until it is tightened again.",
    )
    assert lift.question is None, "one Enter too many must not tighten it"
    assert why(shop, shop.arm, "Arm bolts") == ["", "loosened: to shim or to adjust"]
    assert shop.count(shop.arm, State.INSTALLED) == 2
    assert "Arm bolts at RF: 2 x M12" in lift.take("ARM").text, "its card is that of its joints again"
    lift.yes()
    assert why(shop, shop.arm, "Arm bolts") == ["", ""]
    (row,) = [row for row in shop.shop.readings.of_part(shop.arm.id) if row.what is What.LOOSENED]
    assert (row.note, row.position, row.who) == ("to shim or to adjust", "RF", shop.person.id)


def test_by_the_tag_tighten_and_in_words_of_ones_own(shop, lift):
    lift.take("ARM")
    asked = lift.take("tighten")
    assert asked.text == (
        "Arm: every joint of it is done. No joint of the vehicle wants anybody now. A number and Enter."
    )
    assert asked.question.yes is None
    pick(lift, "loosen: Arm bolts at LF")
    lift.typed("a noise at the left")
    assert why(shop, shop.arm, "Arm bolts") == ["loosened: a noise at the left", ""]
    lift.take("undo")
    assert why(shop, shop.arm, "Arm bolts") == ["", ""]


def test_with_another_joint_still_open(shop, seated):
    seated.take("SEAT")
    seated.take("tighten")
    pick(seated, "open again: Latches")
    pick(seated, "to look")
    assert seated.take("tighten").joint == "Latches"
    pick(seated, "loosen a joint")
    assert "Seat bolts: why is it loosened?" in seated.question.text


def test_fasteners_for_one_use_are_renewed_when_it_is_tightened_again(shop, seated):
    before = shop.shop.book.in_state(shop.bolt.id, State.RECEIVED)
    seated.take("SEAT")
    seated.take("tighten")
    asked = pick(seated, "loosen: Seat bolts")
    assert asked.text.endswith(
        "What was in it is scrap, it takes new ones; 4 of 4 Seat bolt M10 x 25 10.9 are here."
    )
    pick(seated, "to shim")
    pick(seated, "it stays signed")
    seated.take("tighten")
    seated.typed("40 40 40 40")
    assert "4 new ones?" in seated.question.text
    seated.yes()
    places = {place.state: n for place, n in shop.shop.book.places(shop.bolt.id) if n > 0}
    assert places == {State.RECEIVED: before - 4, State.INSTALLED: 4, State.GONE: 4}


def test_the_words_of_a_stop(shop, lift):
    assert ask_loosen(lift.at, shop.seat).text == "Seat: no joint is tightened, so none can be loosened."
    answer = ask_loosen(lift.at, shop.arm, position="LF", joint="wheel nuts")
    assert answer.text == "Arm: no joint wheel nuts at LF is tightened, so none can be loosened."


def test_what_another_loosened_meanwhile_is_not_loosened_twice(shop, lift):
    lift.take("ARM")
    lift.take("tighten")
    pick(lift, "loosen: Arm bolts at LF")
    other = shop.scans("lift", "lift 2")
    other.take("ARM")
    other.take("tighten")
    pick(other, "loosen: Arm bolts at LF")
    pick(other, "to shim")
    assert "is open already; nothing was written down" in pick(lift, "to look").text
    assert why(shop, shop.arm, "Arm bolts", "LF") == ["loosened: to shim or to adjust"]


def test_at_parts_too(shop, lift):
    parts = shop.scans("parts", "office")
    at = At(shop.shop, "office", "parts")
    choices = what_next(at, shop.shop.parts.get(shop.arm.id), 1).question.choices
    parts.asked(next(choice for choice in choices if choice.label == CHECK).take())
    pick(parts, "Arm bolts at LF")
    pick(parts, "it is loosened")
    answer = pick(parts, "to look")
    assert (answer.said, answer.show) == ("done", "")
    assert why(shop, shop.arm, "Arm bolts", "LF") == ["loosened: to look or to measure"]


def test_after_the_last_joint_the_vehicles_next_is_named(shop, lift):
    lift.take("SEAT")
    lift.yes()
    lift.drop()
    lift.take("ARM")
    lift.take("tighten")
    pick(lift, "loosen: Arm bolts at LF")
    pick(lift, "to shim")
    lift.take("tighten")
    asked = lift.yes()
    assert asked.text == (
        "Arm bolts at LF: 2 set to 110 N m. All joints of Arm at LF are done. Nothing more at LF. "
        "Next on the vehicle: Seat bolts of Seat, open: 0 of 4 tightened, and 1 more."
    )
    lift.take("tighten")
    assert pick(lift, "next: Seat bolts of Seat").joint == "Seat bolts"
    assert lift.card.part == shop.seat.id


def test_the_same_corner_comes_first(shop, lift):
    hub = Joint("Hub nut", 1, "M24x2", value="150 N m", source="Sheet")
    with shop.shop.transaction("a hub", terminal="office") as tx:
        tx.change(shop.seat, joints=(replace(LATCHES, name="Latches closed"),))
        part = tx.change(shop.hub, joints=(hub,), positions=("LF",))
        tx.enter(verbs.stock(part.id, 1, to=shop.a3.id))
    for code in ("SEAT", part.tag):
        lift.take(code)
        lift.yes()
        lift.drop()
    lift.take("ARM")
    lift.take("tighten")
    pick(lift, "loosen: Arm bolts at LF")
    pick(lift, "to shim")
    lift.take("tighten")
    assert lift.yes().text.endswith("Next at LF: Hub nut at LF of Hub, LF, open: 0 of 1 tightened.")
