"""A question that is asked again stands behind one reason, however often it was no answer."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import Joint, Part, Person, Wrench


@pytest.fixture
def lift(made):
    """A caliper whose second check is asked for."""
    bolts = Joint("Caliper bolts", 2, value="115 N m", second_check=True, source="Sheet", page="9")
    with made.shop.transaction("a caliper", terminal="office") as tx:
        tx.add(Person(0, "fab", "", "the fabricator", second_check=True))
        tx.add(Wrench(0, "T-200", "", "Click", low=20, high=200, checked=made.clock.now.date()))
        part = tx.add(Part(0, "CAL", "", made.build.id, "Caliper", needed=1, joints=(bolts,)))
        tx.enter(verbs.stock(part.id, 1, to=made.a3.id))
    lift = made.scans("lift")
    for each in ("lead", "T-200", "CAL"):
        lift.take(each)
    lift.yes()
    lift.typed("115 115")
    return lift


def test_what_is_no_answer_does_not_pile_up(lift):
    put = lift.question
    for typed in ("1150 115", "ext 60 45", "1150 115"):
        asked = lift.typed(typed)
        lift.asked(asked)  # as the screens do
        assert asked.text == f"{typed} is no answer here. {put.text}"
    asked = lift.yes()
    assert asked.text == f"This needs more than a yes. {put.text}"
    assert lift.typed("9 9").text == f"9 9 is no answer here. {put.text}"
    assert "second check" in lift.take("fab").text
