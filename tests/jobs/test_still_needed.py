"""Whatever would take from a shot what it needs asks first and names the shot; a no changes nothing."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import OutsideWork
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs.answers import Said
from shoptui.jobs.assemble import ask_into
from shoptui.jobs.count_entry import compare
from shoptui.jobs.dispose import dispose
from shoptui.jobs.film import film
from shoptui.jobs.install import ask_install
from shoptui.jobs.remove import ask_remove
from shoptui.jobs.send_out import send_out
from shoptui.jobs.set_aside import hold, open_part
from shoptui.jobs.strip import ask_wanted
from shoptui.jobs.take_apart import ask_take_apart
from shoptui.jobs.take_down import ask_take_down
from shoptui.jobs.transfer import transfer
from shoptui.jobs.undo import undo

DAY = date(2026, 11, 25)  # the day of the tests' clock


def enter(made, moves):
    with made.shop.transaction("made so", terminal="office") as tx:
        tx.enter(moves)


def installed(made):
    enter(made, verbs.install(made.shop.book, made.hub.id, 1, position=""))


def mocked_up(made):
    enter(made, verbs.mock_up(made.shop.book, made.hub.id, 1, position="front"))


def built_in(made):
    enter(made, verbs.assemble(made.shop.book, made.hub.id, 1, carrier=made.hood.id))


def carried(made):
    """The hub is built into the hood, which is on the vehicle."""
    built_in(made)
    enter(made, verbs.install(made.shop.book, made.hood.id, 1, position="front"))


def as_it_came(_made):
    """Nothing was done to it."""


def bench(made):
    return made.at("lift")


DEEDS = {
    "open": (as_it_came, Condition.SEALED, lambda made: open_part(bench(made), made.hub, 1)),
    "hold": (as_it_came, Condition.ON_HAND, lambda made: hold(bench(made), made.hub, 1, note="bent")),
    "send out": (
        as_it_came,
        Condition.BEFORE_WORK,
        lambda made: send_out(bench(made), made.hub, 1, to="paint", work="painted"),
    ),
    "install": (as_it_came, Condition.ON_HAND, lambda made: ask_install(bench(made), made.hub)),
    "mock up": (as_it_came, Condition.SEALED, lambda made: ask_install(bench(made), made.hub, trial=True)),
    "build in": (as_it_came, Condition.ON_HAND, lambda made: ask_into(bench(made), made.hub, 1, made.hood)),
    "dispose": (
        as_it_came,
        Condition.SEALED,
        lambda made: dispose(bench(made), made.hub, 1, reason="sold", no_longer_needed=False),
    ),
    "transfer": (
        as_it_came,
        Condition.ON_HAND,
        lambda made: transfer(
            bench(made), made.hub, 1, to=made.other, line=made.foreign.id, no_longer_needed=False
        ),
    ),
    "strip": (as_it_came, Condition.ON_HAND, lambda made: ask_wanted(bench(made), made.hub, made.clip, 1)),
    "count short": (
        as_it_came,
        Condition.SEALED,
        lambda made: compare(bench(made), made.a3, {made.hood.id: 1}),
    ),
    "remove": (installed, Condition.INSTALLED, lambda made: ask_remove(bench(made), made.hub)),
    "take down": (mocked_up, Condition.MOCKED_UP, lambda made: ask_take_down(bench(made), made.hub)),
    "install what is on trial": (
        mocked_up,
        Condition.MOCKED_UP,
        lambda made: ask_install(bench(made), made.hub),
    ),
    "take apart": (carried, Condition.INSTALLED, lambda made: ask_take_apart(bench(made), made.hub)),
    "remove what carries it": (
        carried,
        Condition.INSTALLED,
        lambda made: ask_remove(bench(made), made.hood),
    ),
}


@pytest.fixture
def here(made):
    """The hub and the hood lie sealed in bin A3; outside, the hub would be painted."""
    with made.shop.transaction("came", terminal="door") as tx:
        made.hub = tx.change(made.hub, outside_work=(OutsideWork("painted", 4),))
        for order, part in ((made.order, made.hub), (made.late, made.hood)):
            tx.enter(verbs.receive(made.shop.book, part.id, 1, order=order.id, to=made.a3.id))
    return made


def shoot(made, condition, **fields):
    shot = Shot("as it is", (Need(condition, part=made.hub.id),), **fields)
    with made.shop.transaction("filming", terminal="office") as tx:
        return tx.add(Shoot(0, "day1", "First day", DAY, shots=(shot,)))


@pytest.mark.parametrize("deed", DEEDS)
def test_it_asks_first_and_names_the_shot(here, deed):
    made_so, condition, do = DEEDS[deed]
    made_so(here)
    shoot(here, condition)
    before = here.bytes()
    answer = do(here)
    assert answer.said is Said.QUESTION
    assert "Wed 25 Nov, shot 1 (as it is) needs" in answer.text
    assert condition.value in answer.text
    assert here.bytes() == before
    assert answer.question.yes().said is Said.DONE
    assert here.bytes() != before


@pytest.mark.parametrize("deed", ["mock up", "remove", "take down", "take apart"])
def test_the_same_scan_again_is_no_yes_at_the_lift(here, deed):
    made_so, condition, do = DEEDS[deed]
    made_so(here)
    assert do(here).question.again
    shoot(here, condition)
    assert not do(here).question.again


@pytest.mark.parametrize("deed", DEEDS)
def test_what_is_filmed_is_not_spoken_of(here, deed):
    made_so, condition, do = DEEDS[deed]
    made_so(here)
    film(here.at("floor"), shoot(here, condition), 1)
    assert "shot 1" not in do(here).text


@pytest.mark.parametrize("deed", ["remove what carries it", "count short"])
def test_the_part_is_named_where_another_is_in_hand(here, deed):
    made_so, condition, do = DEEDS[deed]
    made_so(here)
    shoot(here, condition)
    words = "needs Hub" if deed != "count short" else "needs it"
    assert words in do(here).text


def test_undo_asks_nothing_it_is_as_if_it_had_not_been(here):
    shoot(here, Condition.SEALED)
    enter(here, verbs.receive(here.shop.book, here.rotor.id, 1, order=here.order.id))
    with here.shop.transaction("filming", terminal="office") as tx:
        need = Need(Condition.ON_HAND, part=here.rotor.id)
        tx.add(Shoot(0, "day2", "", DAY, shots=(Shot("rotor", (need,)),)))
    undo(here.at("office"))
    assert undo(here.at("office")).said is Said.DONE


def test_what_is_over_may_go_unasked(here):
    with here.shop.transaction("two more", terminal="door") as tx:
        tx.enter(verbs.receive_unordered(here.hub.id, 2, supplier=here.supplier.id))
    shoot(here, Condition.SEALED)
    assert open_part(bench(here), here.hub, 2).said is Said.DONE
    assert open_part(bench(here), here.hub, 1).said is Said.QUESTION
