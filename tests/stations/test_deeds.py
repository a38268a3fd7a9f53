"""What can become of a part's pieces now."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import Part
from shoptui.jobs.answers import Said
from shoptui.jobs.cores import open_cores
from shoptui.jobs.order import order
from shoptui.jobs.substitute import CAME
from shoptui.stations.parts.deeds import what_next
from tests.jobs.conftest import clock, made

__all__ = ["clock", "made"]


def offered(made, part):
    return [choice.label for choice in what_next(made.at("office"), part, 1).question.choices]


def pick(made, part, begins):
    choices = what_next(made.at("office"), part, 1).question.choices
    return next(choice for choice in choices if choice.label.startswith(begins)).take()


def hold(made, note):
    with made.shop.transaction("held", terminal="office") as tx:
        tx.enter(verbs.hold_ordered(made.shop.book, made.hub.id, 1, order=made.order.id, note=note))


def test_what_is_damaged_is_not_released_by_one_key(made):
    hold(made, "damaged")
    said = pick(made, made.hub, "release it")
    assert said.text == "1 Hub, held: damaged. May it be used all the same? Enter: yes, release it."
    assert made.count(made.hub, State.HELD) == 1
    assert said.question.yes().text == "Released: 1 Hub."
    assert made.count(made.hub, State.RECEIVED) == 1


def test_of_several_it_is_asked_which_is_released_with_why(made):
    hold(made, "damaged")
    with made.shop.transaction("over", terminal="office") as tx:
        tx.enter(verbs.hold_unordered(made.hub.id, 1, supplier=made.supplier.id, note="over", to=made.a3.id))
    said = pick(made, made.hub, "release it")
    assert [choice.label.rpartition(": ")[2] for choice in said.question.choices] == ["damaged", "over"]
    said.question.choices[1].take()
    (left,) = made.shop.book.places(made.hub.id, State.HELD)
    assert left[0].where == ""


def test_a_substitute_is_accepted_or_refused_and_not_released(made):
    hold(made, f"{CAME}HB-9")
    labels = offered(made, made.hub)
    assert labels[:2] == ["accept HB-9 in its place", "refuse HB-9: return it, order again"]
    assert not any(label.startswith("release") for label in labels)


@pytest.fixture
def came_off(made):
    """A caliper that came off, and the new one that was ordered for it."""
    with made.shop.transaction("calipers", terminal="office") as tx:
        old = tx.add(Part(0, "", "", made.build.id, "Caliper", positions=("LF",), original=True))
        new = tx.add(Part(0, "", "", made.build.id, "New caliper", needed=1, replaces=(old.id,)))
        tx.enter(verbs.as_bought(old.id, 1, position="LF"))
    order(made.at("office"), new, 1, supplier="brakes", number="77")
    with made.shop.transaction("off", terminal="lift") as tx:
        tx.enter(verbs.remove(made.shop.book, old.id, 1, position="LF"))
    return old


def test_a_core_deposit_is_noted_where_the_old_part_lies(made, came_off):
    said = pick(made, came_off, "its core goes back")
    assert said.text == (
        "Core of Caliper, LF, order 77: what deposit, and back by when? "
        "Type it, such as 45.00 by +30, then Enter."
    )
    before = made.bytes()
    assert said.question.accepts("soon").text.startswith("An amount such as 30.00 or 30 EUR was expected")
    assert said.question.accepts("A3") is None
    assert made.bytes() == before
    noted = said.question.accepts("45 by +30")
    assert noted.said is Said.DONE
    assert noted.text == (
        "Noted: core deposit EUR 45.00 for New caliper, order 77. The core has to be back by Fri 25 Dec."
    )
    (core,) = open_cores(made.shop, date(2026, 11, 25))
    assert (core.charge.amount_minor, core.charge.due) == (4500, date(2026, 12, 25))
    assert offered(made, came_off)[-1].startswith("its core deposit came back")


def test_no_deposit_is_offered_for_what_nothing_was_bought_for(made):
    with made.shop.transaction("bumper", terminal="office") as tx:
        old = tx.add(Part(0, "", "", made.build.id, "Bumper", original=True))
        tx.enter(verbs.as_bought(old.id, 1, position=""))
        tx.enter(verbs.remove(made.shop.book, old.id, 1, position=""))
    assert not any("core" in label and "deposit" in label for label in offered(made, old))
