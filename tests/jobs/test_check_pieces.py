"""What the check finds of pieces and of filming days, each spoilt by hand."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.ledger import Move
from shoptui.domain.places import OTHER_BUILD, Place, State
from shoptui.domain.records import KitLine
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs.check import check
from shoptui.jobs.check_shots import contradiction_words

TODAY = date(2026, 11, 25)
BENCH = Place(State.RECEIVED, "", "")


@pytest.fixture
def here(made):
    """Everything ordered is here."""
    with made.shop.transaction("all came", terminal="door") as tx:
        for order in (made.order, made.late):
            for line in order.lines:
                tx.enter(verbs.receive(made.shop.book, line.part, line.qty, order=order.id))
    assert check(made.shop) == ()
    return made


def told(made):
    problems = check(made.shop)
    assert all(problem.remedy for problem in problems)
    return [f"{problem.where}: {problem.what}" for problem in problems]


def enter(made, *moves):
    with made.shop.transaction("spoil", terminal="office") as tx:
        tx.enter(moves)


def change(made, record, **fields):
    with made.shop.transaction("spoil", terminal="office") as tx:
        tx.change(record, **fields)


def has(made, words):
    found = told(made)
    assert any(words in each for each in found), found


def test_something_built_into_what_is_not_here(here):
    enter(here, *verbs.assemble(here.shop.book, here.rotor.id, 1, carrier=here.hub.id))
    assert check(here.shop) == ()
    place = here.shop.book.places(here.hub.id, State.RECEIVED)[0][0]
    enter(here, Move(here.hub.id, 1, place, Place(State.GONE, "lost")))
    has(here, "of which none is here")


def test_things_built_into_each_other(here):
    rotor, hub = (here.shop.book.places(p.id, State.RECEIVED)[0][0] for p in (here.rotor, here.hub))
    enter(
        here,
        Move(here.rotor.id, 1, rotor, Place(State.ASSEMBLED, here.hub.id)),
        Move(here.hub.id, 1, hub, Place(State.ASSEMBLED, here.rotor.id)),
    )
    has(here, "built in a ring")


@pytest.mark.parametrize("verb", [verbs.install, verbs.mock_up])
def test_something_on_where_its_line_does_not_list_it(here, verb):
    enter(here, *verb(here.shop.book, here.rotor.id, 1, position="RR"))
    has(here, "at RR; it is listed for LF, RF")


def test_more_on_than_the_list_wants(here):
    enter(here, *verbs.install(here.shop.book, here.rotor.id, 2, position="LF"))
    assert check(here.shop) == ()
    change(here, here.rotor, needed=1)
    has(here, "2 are installed, and the list wants 1")


def test_a_held_piece_without_a_word(here):
    enter(here, *verbs.hold(here.shop.book, here.hub.id, 1, note="bent"))
    assert check(here.shop) == ()
    enter(here, *verbs.release(here.shop.book, here.hub.id, 1))
    enter(here, *verbs.hold(here.shop.book, here.hub.id, 1, note=" "))
    has(here, "nobody wrote down why")


def test_something_given_to_a_finished_vehicle(here):
    enter(here, Move(here.foreign.id, 1, Place(State.NOT_OURS, OTHER_BUILD), BENCH))
    assert check(here.shop) == ()
    change(here, here.other, status="finished")
    has(here, "it was given to Coupe, which is finished, and is still here")


def test_a_kit_in_itself_and_a_kit_in_a_kit(here):
    change(here, here.clip, kit=(KitLine(here.hood.id),))
    change(here, here.foreign, kit=(KitLine(here.clip.id),))
    found = told(here)
    assert any("the kit Clip" in each for each in found)
    assert any("10 of it are here, but a kit stands for what is in it" in each for each in found)
    change(here, here.shop.parts.get(here.clip.id), kit=(KitLine(here.foreign.id),))
    has(here, "it holds itself")


def test_a_filming_day_that_is_past_and_not_filmed(made):
    with made.shop.transaction("days", terminal="office") as tx:
        tx.add(Shoot(0, "gone", "", date(2026, 11, 24), shots=(Shot("a", filmed=True), Shot("b"))))
        tx.add(Shoot(0, "done", "", date(2026, 11, 24), shots=(Shot("a", filmed=True),)))
        tx.add(Shoot(0, "today", "", TODAY, shots=(Shot("a"),)))
    assert told(made) == ["filming day gone: Tue 24 Nov is past, and shot 2 (b) not marked filmed"]


def test_a_filming_day_without_a_shot(made):
    with made.shop.transaction("days", terminal="office") as tx:
        tx.add(Shoot(0, "empty", "", date(2026, 11, 30)))
    assert told(made) == ["filming day empty: it has no shots"]


@pytest.mark.parametrize(
    ("one", "other", "both"),
    [
        (Condition.SEALED, Condition.INSTALLED, False),
        (Condition.SEALED, Condition.MOCKED_UP, False),
        (Condition.MOCKED_UP, Condition.INSTALLED, False),
        (Condition.MOCKED_UP, Condition.BEFORE_WORK, True),
        (Condition.MOCKED_UP, Condition.BACK_FROM_WORK, True),
        (Condition.BACK_FROM_WORK, Condition.TORQUE_DONE, True),
    ],
)
def test_what_cannot_be_in_one_shot(made, one, other, both):
    needs = (Need(one, part=made.hub.id), Need(other, part=made.hub.id))
    words = contradiction_words(made.shop, needs)
    assert (words == ()) is both
    if not both:
        assert words[0].endswith(f"cannot be both {one.value} and {other.value}")
