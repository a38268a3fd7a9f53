"""What holds for every part, wherever its pieces are."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from shoptui.domain.lack import Grounds
from shoptui.domain.outlook import lacks
from shoptui.domain.places import AS_BOUGHT, OPENED, SEALED, Place, State
from shoptui.domain.readiness import meets, pieces_needed, work_left
from shoptui.domain.records import Order, OutsideWork, Part
from shoptui.domain.shoots import Condition, Need
from shoptui.domain.working_days import WorkingDays

TODAY = date(2026, 11, 4)
NEAR = st.integers(-20, 40).map(lambda days: TODAY + timedelta(days=days))
WORKS = st.lists(st.sampled_from(("blasted", "machined", "coated")), unique=True, max_size=3)
WEEKS = st.sets(st.integers(0, 6), min_size=1)


@st.composite
def parts(draw):
    works = tuple(OutsideWork(word, draw(st.integers(0, 10))) for word in draw(WORKS))
    return Part(
        1,
        "P",
        "",
        1,
        "part",
        needed=draw(st.integers(0, 4)),
        original=draw(st.booleans()),
        outside_work=works,
    )


PLACES = st.builds(
    Place,
    st.sampled_from([state for state in State if state is not State.NOT_OURS]),
    st.integers(1, 3),
    st.sampled_from((SEALED, OPENED, "blasted", "machined", "coated", "a word of no list")),
)
HELD = st.dictionaries(PLACES, st.integers(1, 4), max_size=5)
DUE = st.one_of(st.none(), NEAR)


def grounds(day, due, weekdays):
    orders = {
        1: Order(1, "1", "purchase", 1, "1", due=due),
        2: Order(2, "2", "outside", 1, "2", due=due, work="coated"),
    }
    return Grounds(
        today=TODAY,
        day=day,
        days=WorkingDays(tuple(weekdays)),
        order=orders.get,
        boxes=lambda order, part: (),
        supplier_name=lambda number: "supplier",
        last_supplier=lambda part: ("supplier", 3),
        since=lambda part, place: None,
        waits_for=lambda part: (),
        open_joints=lambda part, place: "",
        carrier=lambda part: ("carrier", ""),
        late=lambda order, days: (1, 2),
    )


@given(parts(), HELD, st.sampled_from(Condition), st.integers(0, 5), NEAR, DUE, WEEKS, st.integers(0, 3))
def test_what_is_lacking_is_what_is_needed_less_what_is_ready(
    part, held, condition, qty, day, due, week, bought
):
    places = dict(held)
    if bought:
        places[Place(State.NOT_OURS, AS_BOUGHT)] = -bought
    need = Need(condition, part=1, qty=qty)
    found = lacks(need, part, places.items(), grounds(day, due, week))
    ready = sum(n for place, n in places.items() if n > 0 and meets(condition, part, place))
    short = max(0, pieces_needed(need, part, places.items()) - ready)
    assert sum(lack.qty for lack in found) == short
    for lack in found:
        assert lack.why
        assert lack.act
        assert lack.place is None or not meets(condition, part, lack.place)
        if lack.earliest is not None:
            assert lack.earliest >= TODAY
            assert (lack.spare >= 0) == (lack.earliest <= day)
        assert lack.possible or lack.earliest is None


@given(parts(), PLACES, st.sampled_from(Condition))
def test_held_and_gone_things_are_never_ready(part, place, condition):
    for state in (State.HELD, State.GONE, State.ORDERED, State.SENT_OUT):
        assert not meets(condition, part, Place(state, place.where, place.condition))


@given(parts(), st.sampled_from((SEALED, OPENED, "blasted", "machined", "coated")))
def test_outside_work_is_done_in_its_order(part, condition):
    left = work_left(part, condition)
    assert part.outside_work[len(part.outside_work) - len(left) :] == left
    if left:
        assert len(work_left(part, left[0].work)) == len(left) - 1


@given(NEAR, st.integers(0, 30), WEEKS, st.sets(NEAR, max_size=10))
def test_steps_and_counts_of_working_days_agree(day, count, week, holidays):
    days = WorkingDays(tuple(week), frozenset(holidays))
    later = days.add(day, count)
    assert days.between(day, later) == count
    assert count == 0 or days.works(later)
    earlier = days.subtract(day, count)
    if count:
        assert days.works(earlier)
        assert days.between(earlier - timedelta(days=1), day - timedelta(days=1)) == count
