"""What is built in goes where its carrier goes: counted out by hand for wheels and tyres."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.carriers import is_built_into, is_unsure, standing, taken_along
from shoptui.domain.ledger import Balances, CannotMoveError, Move
from shoptui.domain.places import OPENED, SEALED, UNSORTED, Place, State

WHEEL, TYRE, VALVE = 1, 2, 3


@pytest.fixture
def book() -> Balances:
    """Four wheels and four tyres with a valve in each wheel, on the bench."""
    book = Balances()
    for part in (WHEEL, TYRE, VALVE):
        enter(book, verbs.receive_unordered(part, 4, supplier=9))
    return book


def enter(book: Balances, moves: tuple[Move, ...]) -> None:
    book.check(moves)
    for move in moves:
        book.apply(move)


def on(book: Balances, part: int) -> dict[str, int]:
    return {str(at.where): n for at, n in standing(book, part) if at.state is State.INSTALLED}


def test_a_tyre_is_on_the_vehicle_once_its_wheel_is(book):
    enter(book, verbs.assemble(book, TYRE, 4, carrier=WHEEL))
    assert on(book, TYRE) == {}
    for position in ("LF", "RF"):
        enter(book, verbs.install(book, WHEEL, 1, position=position))
    assert on(book, TYRE) == {"LF": 1, "RF": 1}
    assert book.in_state(TYRE, State.ASSEMBLED) == 4


def test_fewer_tyres_than_wheels_are_taken_to_be_on_the_vehicle(book):
    enter(book, verbs.assemble(book, TYRE, 1, carrier=WHEEL))
    enter(book, verbs.install(book, WHEEL, 1, position="LF"))
    assert on(book, TYRE) == {"LF": 1}


def test_a_third_part_goes_along_too(book):
    enter(book, verbs.assemble(book, VALVE, 4, carrier=TYRE))
    enter(book, verbs.assemble(book, TYRE, 4, carrier=WHEEL))
    enter(book, verbs.install(book, WHEEL, 1, position="LF"))
    assert on(book, VALVE) == {"LF": 1}
    assert is_built_into(book, VALVE, WHEEL)


@pytest.mark.parametrize(("carrier", "said"), [(TYRE, "into itself"), (VALVE, "take it apart first")])
def test_a_ring_is_refused(book, carrier, said):
    enter(book, verbs.assemble(book, VALVE, 1, carrier=TYRE))
    with pytest.raises(CannotMoveError, match=said):
        verbs.assemble(book, TYRE, 1, carrier=carrier)


def test_nothing_is_built_into_what_is_not_here(book):
    with pytest.raises(CannotMoveError, match="None of the part"):
        verbs.assemble(book, TYRE, 1, carrier=77)


def test_two_of_four_wheels_sold_take_two_tyres_along(book):
    enter(book, verbs.assemble(book, TYRE, 4, carrier=WHEEL))
    place = Place(State.ASSEMBLED, WHEEL, OPENED)
    assert list(taken_along(book, WHEEL, 2)) == [(TYRE, place, 2)]
    enter(book, verbs.dispose(book, WHEEL, 2, reason="sold"))
    assert book.at(TYRE, Place(State.GONE, "sold", OPENED)) == 2
    assert book.in_state(TYRE, State.ASSEMBLED) == 2


def test_a_wheel_given_to_another_build_keeps_its_tyre(book):
    enter(book, verbs.assemble(book, TYRE, 4, carrier=WHEEL))
    with pytest.raises(CannotMoveError, match="line there too"):
        verbs.transfer(book, WHEEL, 1, line=11)
    enter(book, verbs.transfer(book, WHEEL, 1, line=11, inside={TYRE: 12}))
    assert book.in_state(11, State.RECEIVED) == 1
    assert book.parts_at(State.ASSEMBLED, 11) == {12: 1}
    assert book.in_state(TYRE, State.ASSEMBLED) == 3


def test_a_finished_vehicle_leaves_with_what_is_built_in(book):
    enter(book, verbs.assemble(book, TYRE, 4, carrier=WHEEL))
    for position in ("LF", "RF", "LR", "RR"):
        enter(book, verbs.install(book, WHEEL, 1, position=position))
    enter(book, verbs.hand_over(book, WHEEL))
    assert book.in_state(WHEEL, State.GONE) == book.in_state(TYRE, State.GONE) == 4
    assert verbs.hand_over(book, WHEEL) == ()


def test_what_was_counted_short_comes_back_before_anything_new(book):
    here = Place(State.RECEIVED, UNSORTED, SEALED)
    enter(book, verbs.count_short(book, WHEEL, here, 1))
    enter(book, verbs.count_over(book, WHEEL, 2, to=5))
    assert book.in_state(WHEEL, State.GONE) == 0
    assert book.in_state(WHEEL, State.RECEIVED) == 5


def test_a_donor_goes_and_what_was_wanted_comes_in(book):
    enter(book, verbs.strip(book, WHEEL, 50, 2, to=5))
    assert book.in_state(WHEEL, State.GONE) == 1
    assert book.in_state(50, State.RECEIVED) == 2
    with pytest.raises(CannotMoveError, match="out of itself"):
        verbs.strip(book, WHEEL, WHEEL, 1)


def test_which_wheel_has_the_only_tyre_is_not_known_once_some_are_on_the_vehicle(book):
    enter(book, verbs.assemble(book, TYRE, 1, carrier=WHEEL))
    assert not is_unsure(book, TYRE), "all are on the bench"
    enter(book, verbs.install(book, WHEEL, 1, position="LF"))
    assert is_unsure(book, TYRE)
    enter(book, verbs.assemble(book, VALVE, 1, carrier=TYRE))
    enter(book, verbs.assemble(book, TYRE, 3, carrier=WHEEL))
    assert not is_unsure(book, TYRE), "each wheel has one"
    assert is_unsure(book, VALVE), "one of the tyres has it"
    assert not is_unsure(book, WHEEL)


def test_what_lists_say_is_on_the_vehicle_leaves_with_it(book):
    enter(book, verbs.assemble(book, VALVE, 1, carrier=TYRE))
    enter(book, verbs.assemble(book, TYRE, 1, carrier=WHEEL))
    enter(book, verbs.install(book, WHEEL, 1, position="LF"))
    there = {part: on(book, part) for part in (WHEEL, TYRE, VALVE)}
    assert there == {WHEEL: {"LF": 1}, TYRE: {"LF": 1}, VALVE: {"LF": 1}}
    enter(book, verbs.hand_over(book, WHEEL))
    assert [book.in_state(part, State.GONE) for part in (WHEEL, TYRE, VALVE)] == [1, 1, 1]
    assert [on(book, part) for part in (WHEEL, TYRE, VALVE)] == [{}, {}, {}]
