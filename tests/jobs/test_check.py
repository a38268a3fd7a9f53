"""The check of the whole store: at once and step by step."""

from shoptui.domain import verbs
from shoptui.domain.places import Place, State
from shoptui.jobs.check import check, checking


def steps_of(steps):
    """Return how far the steps said they were, and what they found."""
    far = []
    while True:
        try:
            far.append(next(steps))
        except StopIteration as end:
            return far, end.value


def test_step_by_step_it_finds_the_same(made):
    made.shop.book.enter(made.rotor.id, Place(State.RECEIVED, "", ""), 1)
    far, found = steps_of(checking(made.shop))
    assert far == [(done, len(far)) for done in range(len(far))]
    assert found == check(made.shop)
    assert [problem.what for problem in found] == [
        "its places add up to 1, not to 0",
        "the balances differ from the sum of the moves",
    ]


def test_what_changes_between_two_steps_makes_it_begin_anew(made):
    steps = checking(made.shop)
    assert [next(steps)[0] for _ in range(3)] == [0, 1, 2]
    with made.shop.transaction("received", terminal="door") as tx:
        line = made.order.lines[0]
        tx.enter(verbs.receive(made.shop.book, line.part, line.qty, order=made.order.id))
    far, found = steps_of(steps)
    assert far[0][0] == 0
    assert len(far) == far[0][1]
    assert found == ()
