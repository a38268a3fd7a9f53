"""A mock-up is taken down, painted and installed; a shot needs it sealed before that, another painted."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import OPENED, SEALED, Place, State
from shoptui.domain.records import OutsideWork
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs.send_out import send_out
from shoptui.jobs.today import today_lines


@pytest.fixture
def shop(made):
    with made.shop.transaction("", terminal="office") as tx:
        made.hood = tx.change(made.hood, outside_work=(OutsideWork("painted", 5),))
        tx.enter(verbs.receive(made.shop.book, made.hood.id, 1, order=made.late.id, to=made.a3.id))
    return made


@pytest.fixture
def lift(shop):
    return shop.scans("lift")


def places(shop):
    return [(place, n) for place, n in shop.shop.book.places(shop.hood.id) if n > 0]


def test_mocked_up_taken_down_painted_installed(shop, lift):
    assert "still to be painted" in lift.take(shop.hood.tag).text
    asked = lift.take("KMCKU2K")
    assert asked.text == "Mock up 1 Hood? Enter."
    assert lift.yes().text == "1 Hood mocked up."
    assert "is mocked up" in lift.take(shop.hood.tag).text
    lift.take("remove")
    assert lift.yes().text == "1 Hood taken down, back in bin A3 (rack A, shelf 3)."
    assert places(shop) == [(Place(State.RECEIVED, shop.a3.id, OPENED), 1)]
    send_out(shop.at("office"), shop.hood, 1, to="paint")
    door = shop.scans("receiving")
    door.take(shop.hood.tag)
    assert door.yes().text.startswith("1 Hood back, painted")
    asked = lift.take(shop.hood.tag)
    assert asked.text == "Install 1 Hood? Enter."
    lift.yes()
    assert places(shop) == [(Place(State.INSTALLED, "", "painted"), 1)]


def test_sent_out_straight_from_the_trial_fit_and_undone_in_one(shop, lift):
    lift.take("mock up")
    lift.take(shop.hood.tag)
    lift.yes()
    before = shop.bytes()
    asked = send_out(shop.at("office"), shop.hood, 1, to="paint")
    assert asked.said == "question"
    assert "mocked up" in asked.text
    assert shop.bytes() == before
    assert asked.question.yes().said == "done"
    assert [place.state for place, _ in places(shop)] == [State.SENT_OUT]
    shop.scans("lift", "office").take("undo")
    assert [place.state for place, _ in places(shop)] == [State.MOCKED_UP]


def test_what_hangs_and_is_still_to_be_painted_comes_down_by_enter(shop, lift):
    lift.take(shop.hood.tag)
    lift.take("mock up")
    lift.yes()
    asked = lift.take(shop.hood.tag)
    assert asked.text.startswith("It is mocked up, and still to be painted. Take down 1 Hood")
    assert asked.card == "take down"
    assert lift.yes().text.startswith("1 Hood taken down")
    lift.take("undo")
    lift.take(shop.hood.tag)
    assert "for good all the same? Enter" in lift.typed("1").text
    assert lift.yes().state == "installed"
    lift.take("undo")
    lift.take("undo")
    assert places(shop) == [(Place(State.RECEIVED, shop.a3.id, SEALED), 1)]


def test_what_hangs_painted_goes_on_by_enter(shop, lift):
    with shop.shop.transaction("", terminal="office") as tx:
        tx.change(shop.hood, outside_work=())
    lift.take(shop.hood.tag)
    lift.take("mock up")
    lift.yes()
    assert "for good? Enter" in lift.take(shop.hood.tag).text
    assert lift.typed("1").text.startswith("1 Hood taken down")


def test_a_bin_that_is_gone_leaves_it_on_the_bench(shop, lift):
    lift.take(shop.hood.tag)
    lift.take("mock up")
    lift.yes()
    with shop.shop.transaction("", terminal="office") as tx:
        tx.change(shop.a3, withdrawn=True)
    lift.take("remove")
    assert "back on the bench" in lift.question.text
    lift.yes()
    assert places(shop) == [(Place(State.RECEIVED, "", OPENED), 1)]


def test_filmed_sealed_before_that(shop, lift):
    need = Need(Condition.SEALED, part=shop.hood.id)
    with shop.shop.transaction("", terminal="office") as tx:
        tx.add(Shoot(0, "day-1", "Boxes", date(2026, 12, 4), "", (Shot("The boxes", (need,)),)))
    before = shop.bytes()
    lift.take(shop.hood.tag)
    assert "needs it sealed" in lift.take("mock up").text
    lift.take("no")
    assert "needs it sealed" in lift.take(shop.hood.tag).text
    assert "all the same?" in lift.question.text
    lift.take("no")
    assert shop.bytes() == before


def test_a_shot_needs_it_mocked_up(shop, lift):
    lift.take(shop.hood.tag)
    lift.take("mock up")
    lift.yes()
    need = Need(Condition.MOCKED_UP, part=shop.hood.id)
    with shop.shop.transaction("", terminal="office") as tx:
        tx.add(Shoot(0, "day-1", "Fit", date(2026, 12, 4), "", (Shot("The fit", (need,)),)))
    asked = lift.take(shop.hood.tag)
    assert asked.said == "question"
    assert "needs it mocked up" in asked.text
    assert "needs it mocked up" in lift.typed("1").text
    assert shop.count(shop.hood, State.MOCKED_UP) == 1


def test_the_card_survives_closing_the_terminal_as_it_was_turned(shop, lift):
    lift.take(shop.hood.tag)
    lift.take("mock up")
    lift.card.remember(lift.shop, lift.terminal)
    again = type(lift)(shop.reopened(), "lift", station="lift")
    assert again.card_again().text == "Mock up 1 Hood? Enter."
    assert again.yes().state == "mocked up"


def test_nothing_is_due_today_that_waits_for_what_is_on(shop):
    assert [
        line.kind for line in today_lines(shop.shop, date(2026, 11, 25)) if line.subject == shop.hood.id
    ] == ["send out"]
