"""What stands between a part and a shot. The dates are counted by hand on a calendar of November 2026."""

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from shoptui.domain.lack import Grounds, Who
from shoptui.domain.outlook import lacks
from shoptui.domain.places import AS_BOUGHT, OPENED, SEALED, Place, State
from shoptui.domain.readiness import concerns, meets
from shoptui.domain.records import Box, Order, OutsideWork, Part
from shoptui.domain.shoots import Condition, Need
from shoptui.domain.working_days import WorkingDays

TODAY = date(2026, 11, 4)  # a Wednesday
DAY = date(2026, 11, 13)  # the Friday of the week after
PLAIN = Part(1, "P1", "", 1, "bracket", section="Brakes", needed=2)
COATED = Part(2, "P2", "", 1, "arm", section="Brakes", needed=1, outside_work=(OutsideWork("coated", 3),))
ORIGINAL = Part(3, "O1", "", 1, "old seat", section="Brakes", original=True)

ORDERS = {
    1: Order(1, "1042", "purchase", 9, "1042", due=date(2026, 11, 12)),
    2: Order(2, "1043", "purchase", 9, "1043", due=date(2026, 11, 2)),
    3: Order(3, "1044", "purchase", 9, "1044"),
    4: Order(4, "J7", "outside", 8, "J7", due=date(2026, 11, 10), work="coated"),
}


def grounds(*, boxes=(), since=date(2026, 11, 3), seller=("Anvil", 5), waits=(), late=(0, 0), open_joints=""):
    return Grounds(
        today=TODAY,
        day=DAY,
        days=WorkingDays(),
        order=ORDERS.get,
        boxes=lambda order, part: tuple(boxes),
        supplier_name={9: "Anvil", 8: "Coater"}.__getitem__,
        last_supplier=lambda part: seller,
        since=lambda part, place: since,
        waits_for=lambda part: waits,
        open_joints=lambda part, place: open_joints,
        carrier={7: ("Wheel", "in bin A3"), 8: ("Strut", "")}.__getitem__,
        late=lambda order, days: late,
    )


def one(condition, part, *places, **known):
    found = lacks(Need(condition, part=part.id, qty=1), part, places, grounds(**known))
    assert len(found) == 1
    return found[0]


BIN = Place(State.RECEIVED, 5, SEALED)
OPEN = Place(State.RECEIVED, 5, OPENED)


@pytest.mark.parametrize(
    ("condition", "part", "place"),
    [
        (Condition.SEALED, PLAIN, BIN),
        (Condition.BEFORE_WORK, COATED, BIN),
        (Condition.BEFORE_WORK, COATED, OPEN),
        (Condition.BACK_FROM_WORK, COATED, Place(State.RECEIVED, 5, "coated")),
        (Condition.BACK_FROM_WORK, COATED, Place(State.INSTALLED, "LF", "coated")),
        (Condition.BACK_FROM_WORK, COATED, Place(State.REMOVED, 5, "coated")),
        (Condition.BEFORE_WORK, COATED, Place(State.MOCKED_UP, "front")),
        (Condition.MOCKED_UP, PLAIN, Place(State.MOCKED_UP, "front")),
        (Condition.ON_HAND, PLAIN, OPEN),
        (Condition.ON_HAND, PLAIN, Place(State.REMOVED, 5)),
        (Condition.INSTALLED, PLAIN, Place(State.INSTALLED, "LF")),
        (Condition.TORQUE_DONE, PLAIN, Place(State.INSTALLED, "LF")),
        (Condition.REMOVED, ORIGINAL, Place(State.REMOVED, 5)),
        (Condition.STILL_IN_PLACE, ORIGINAL, Place(State.INSTALLED, "")),
    ],
)
def test_what_meets_a_condition(condition, part, place):
    assert meets(condition, part, place)
    assert lacks(Need(condition, part=part.id, qty=1), part, ((place, 1),), grounds()) == ()
    assert not meets(condition, part, Place(State.HELD, place.where, place.condition))


@pytest.mark.parametrize(
    ("condition", "part", "place"),
    [
        (Condition.SEALED, PLAIN, OPEN),
        (Condition.SEALED, PLAIN, Place(State.ORDERED, 1)),
        (Condition.BEFORE_WORK, COATED, Place(State.RECEIVED, 5, "coated")),
        (Condition.BACK_FROM_WORK, COATED, BIN),
        (Condition.ON_HAND, PLAIN, Place(State.INSTALLED, "LF")),
        (Condition.INSTALLED, PLAIN, BIN),
        (Condition.INSTALLED, PLAIN, Place(State.MOCKED_UP, "LF")),
        (Condition.MOCKED_UP, PLAIN, BIN),
        (Condition.ON_HAND, PLAIN, Place(State.ASSEMBLED, 7)),
        (Condition.STILL_IN_PLACE, PLAIN, Place(State.INSTALLED, "LF")),
    ],
)
def test_what_does_not_meet_a_condition(condition, part, place):
    assert not meets(condition, part, place)


def test_ordered_says_when_it_is_due_and_that_no_box_came():
    lack = one(Condition.ON_HAND, PLAIN, (Place(State.ORDERED, 1), 2))
    assert lack.why == "ordered, due Thu 12 Nov, box not arrived"
    assert (lack.who, lack.act) == (Who.SUPPLIER, "Anvil delivers (order 1042)")
    assert (lack.earliest, lack.latest, lack.spare) == (date(2026, 11, 12), DAY, 1)
    assert lack.odds == "1 working day to spare"


def test_an_overdue_order_is_for_the_lead_to_ask_about():
    lack = one(Condition.ON_HAND, PLAIN, (Place(State.ORDERED, 2), 1))
    assert lack.why == "ordered, due Mon 2 Nov, overdue, box not arrived"
    assert (lack.who, lack.act) == (Who.LEAD, "call Anvil (order 1043)")


def test_what_comes_on_the_weekend_after_the_day_is_too_late():
    # Sat 14 Nov is after the Friday that is filmed: no working day lies between, and still it is too late.
    order = {5: replace(ORDERS[1], due=date(2026, 11, 14))}
    at = replace(grounds(), order=order.get)
    (lack,) = lacks(Need(Condition.ON_HAND, part=1, qty=1), PLAIN, ((Place(State.ORDERED, 5), 1),), at)
    assert (lack.spare, lack.late, lack.odds) == (-1, True, "1 working day too late")


def test_an_order_without_a_day_is_asked_about_and_no_day_is_made_up():
    lack = one(Condition.ON_HAND, PLAIN, (Place(State.ORDERED, 3), 1))
    assert (lack.earliest, lack.spare, lack.odds) == (None, None, "no day known")


def test_a_box_at_the_door_is_for_receiving():
    box = Box(1, "XHALF3M", (1,), arrived=datetime(2026, 11, 4, 8, tzinfo=UTC))
    lack = one(Condition.ON_HAND, PLAIN, (Place(State.ORDERED, 1), 1), boxes=(box,))
    assert (lack.who, lack.why) == (Who.RECEIVING, "box X-HALF3M is here, not unpacked")
    assert lack.earliest == TODAY


def test_outside_work_is_counted_in_working_days_behind_the_day_it_is_due():
    lack = one(Condition.BACK_FROM_WORK, COATED, (Place(State.ORDERED, 1), 1))
    # Thu 12 Nov and three working days: Fri 13, Mon 16, Tue 17; two after the filming day.
    assert (lack.earliest, lack.spare) == (date(2026, 11, 17), -2)
    # It must come three working days before Fri 13 Nov.
    assert lack.latest == date(2026, 11, 10)
    assert lack.odds == "2 working days too late"


def test_what_is_here_uncoated_is_to_be_sent_out_in_time():
    lack = one(Condition.INSTALLED, COATED, (BIN, 1))
    assert (lack.why, lack.act) == ("here, not coated yet", "send it out to be coated")
    assert (lack.earliest, lack.latest, lack.spare) == (date(2026, 11, 9), date(2026, 11, 10), 4)


def test_what_is_out_comes_back_on_its_day():
    lack = one(Condition.BACK_FROM_WORK, COATED, (Place(State.SENT_OUT, 4), 1))
    assert (lack.why, lack.who) == ("at Coater, due back Tue 10 Nov", Who.OUTSIDE)
    assert lack.spare == 3


def test_what_was_opened_is_never_sealed_again():
    lack = one(Condition.SEALED, PLAIN, (OPEN, 2))
    assert (lack.why, lack.act) == ("opened on Tue 3 Nov", "order another or change the shot")
    assert (lack.possible, lack.odds) == (False, "cannot be")


@pytest.mark.parametrize(
    ("condition", "part", "place", "who"),
    [
        (Condition.SEALED, PLAIN, Place(State.INSTALLED, "LF"), Who.LEAD),
        (Condition.BEFORE_WORK, COATED, Place(State.SENT_OUT, 4), Who.LEAD),
        (Condition.BEFORE_WORK, COATED, Place(State.RECEIVED, 5, "coated"), Who.LEAD),
        (Condition.REMOVED, ORIGINAL, Place(State.GONE, "sold"), Who.LEAD),
        (Condition.STILL_IN_PLACE, ORIGINAL, Place(State.GONE, "sold"), Who.LEAD),
    ],
)
def test_what_can_no_longer_be_is_said(condition, part, place, who):
    lack = one(condition, part, (place, 2))
    assert not lack.possible
    assert lack.who is who
    assert lack.why


@pytest.mark.parametrize(
    ("condition", "part", "place", "act"),
    [
        (Condition.ON_HAND, PLAIN, Place(State.INSTALLED, "LF"), "remove it or change the shot"),
        (Condition.REMOVED, ORIGINAL, Place(State.INSTALLED, ""), "remove it"),
        (Condition.STILL_IN_PLACE, ORIGINAL, Place(State.REMOVED, 5), "put it back or change the shot"),
        (Condition.INSTALLED, PLAIN, BIN, "install it"),
    ],
)
def test_what_the_lift_does(condition, part, place, act):
    lack = one(condition, part, (place, 1))
    assert (lack.who, lack.act) == (Who.LIFT, act)


TRIAL = Place(State.MOCKED_UP, "front")
BUILT_IN = Place(State.ASSEMBLED, 7)


@pytest.mark.parametrize(
    ("condition", "part", "place", "who", "why", "act"),
    [
        (Condition.MOCKED_UP, PLAIN, BIN, Who.LIFT, "received, not mocked up", "mock it up"),
        (
            Condition.MOCKED_UP,
            PLAIN,
            Place(State.INSTALLED, "LF"),
            Who.LIFT,
            "installed at LF on Tue 3 Nov",
            "remove it, mock it up, or change the shot",
        ),
        (
            Condition.MOCKED_UP,
            PLAIN,
            BUILT_IN,
            Who.LIFT,
            "built into Wheel, which is in bin A3",
            "mock up Wheel",
        ),
        (
            Condition.INSTALLED,
            PLAIN,
            BUILT_IN,
            Who.LIFT,
            "built into Wheel, which is in bin A3",
            "install Wheel",
        ),
        (
            Condition.ON_HAND,
            PLAIN,
            Place(State.ASSEMBLED, 8),
            Who.LIFT,
            "built into Strut",
            "take it out of Strut",
        ),
        (Condition.INSTALLED, PLAIN, TRIAL, Who.LIFT, "mocked up at front, not installed", "install it"),
        (Condition.ON_HAND, PLAIN, TRIAL, Who.LIFT, "mocked up at front", "take it down"),
        (
            Condition.BACK_FROM_WORK,
            COATED,
            TRIAL,
            Who.LIFT,
            "mocked up at front, not coated yet",
            "take it down, send it out to be coated",
        ),
        (
            Condition.TORQUE_DONE,
            COATED,
            BUILT_IN,
            Who.LIFT,
            "built into Wheel, which is in bin A3, not coated yet",
            "take it out of Wheel, send it out to be coated",
        ),
        (
            Condition.BACK_FROM_WORK,
            PLAIN,
            OPEN,
            Who.LEAD,
            "here, and its line names no outside work",
            "send it out or change the shot",
        ),
        (Condition.REMOVED, ORIGINAL, TRIAL, Who.LIFT, "mocked up at front", "take it down"),
    ],
)
def test_who_acts_next_on_what_is_mocked_up_or_built_in(condition, part, place, who, why, act):
    lack = one(condition, part, (place, 1))
    assert (lack.who, lack.why, lack.act) == (who, why, act)
    assert lack.possible


@pytest.mark.parametrize(
    ("place", "why"),
    [(TRIAL, "mocked up on Tue 3 Nov"), (BUILT_IN, "built into another part on Tue 3 Nov")],
)
def test_what_was_mocked_up_or_built_in_is_never_sealed_again(place, why):
    lack = one(Condition.SEALED, PLAIN, (place, 2))
    assert (lack.why, lack.possible) == (why, False)


def test_a_new_part_is_never_still_in_place():
    assert not one(Condition.STILL_IN_PLACE, PLAIN, (Place(State.INSTALLED, "LF"), 2)).possible


def test_how_often_a_supplier_was_later_than_there_is_time_is_told_as_what_it_is():
    lack = one(Condition.ON_HAND, PLAIN, (Place(State.ORDERED, 1), 2), late=(2, 5))
    assert lack.past == "2 of 5 earlier orders came more than 1 working day late"
    lack = one(Condition.BACK_FROM_WORK, COATED, (Place(State.SENT_OUT, 4), 1), late=(0, 1))
    assert lack.past == "0 of 1 earlier job came more than 3 working days late"


@pytest.mark.parametrize("order", [1, 2, 3])
def test_nothing_is_said_of_the_past_where_the_books_have_none(order):
    assert one(Condition.ON_HAND, PLAIN, (Place(State.ORDERED, order), 1)).past == ""


def test_what_must_be_on_first_is_named():
    lack = one(Condition.INSTALLED, PLAIN, (BIN, 1), waits=("crossmember",))
    assert lack.why == "received, not installed; crossmember must be on first"


def test_held_things_wait_for_a_word_and_count_for_nothing():
    lack = one(Condition.ON_HAND, PLAIN, (Place(State.HELD, 5, SEALED), 2))
    assert (lack.who, lack.act) == (Who.LEAD, "say whether it may be used")


def test_what_nobody_ordered_counts_the_supplier_s_days():
    lack = one(Condition.ON_HAND, PLAIN)
    # Five working days from Wed 4 Nov: Wed 11 Nov; the last day to order is five before Fri 13 Nov.
    assert (lack.earliest, lack.latest, lack.spare) == (date(2026, 11, 11), date(2026, 11, 6), 2)
    assert (lack.state, lack.act) == (State.NOT_OURS, "order 2 from Anvil (usual 5 working days)")


def test_without_a_known_supplier_no_day_is_made_up():
    lack = one(Condition.ON_HAND, PLAIN, seller=None)
    assert (lack.earliest, lack.latest, lack.act) == (None, None, "order 2")


def test_an_original_that_nobody_wrote_down_is_for_the_lift():
    lack = one(Condition.REMOVED, ORIGINAL)
    assert (lack.who, lack.why) == (Who.LIFT, "nobody wrote down that it was on")


def test_the_soonest_pieces_are_taken_first():
    places = ((Place(State.ORDERED, 1), 1), (BIN, 1), (Place(State.NOT_OURS, 9), -2))
    found = lacks(Need(Condition.INSTALLED, part=1), PLAIN, places, grounds())
    assert [(lack.qty, lack.state) for lack in found] == [(1, State.RECEIVED), (1, State.ORDERED)]


def test_all_of_an_original_is_what_was_on_the_vehicle_when_it_came():
    places = (
        (Place(State.NOT_OURS, AS_BOUGHT), -2),
        (Place(State.REMOVED, 5), 1),
        (Place(State.INSTALLED, ""), 1),
    )
    found = lacks(Need(Condition.REMOVED, part=3), ORIGINAL, places, grounds())
    assert [(lack.qty, lack.act) for lack in found] == [(1, "remove it")]


def test_a_section_asks_of_the_parts_that_it_can_mean():
    def of(condition):
        need = Need(condition, build=1, section="brakes")
        return [part.id for part in (PLAIN, COATED, ORIGINAL) if concerns(need, part)]

    assert of(Condition.INSTALLED) == [1, 2]
    assert of(Condition.BACK_FROM_WORK) == [2]
    assert of(Condition.STILL_IN_PLACE) == [3]
    assert not concerns(Need(Condition.INSTALLED, build=2, section="brakes"), PLAIN)
