"""What a verb that was scanned means, whatever lay open at the lift: a table, and what ends it."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import Place, State
from shoptui.domain.records import Joint, Part, Wrench
from shoptui.jobs.lift_card import ask_card
from shoptui.jobs.scan import Scanning

NUTS = Joint("Wheel nuts", 5, "M12x1.5 10.9", value="110 N m", source="Sheet")
BLED = Joint("Bled, no leaks", 0, source="Sheet")


@pytest.fixture
def shop(made):
    """A wheel is on at LF with its nuts open, two more are here; a disc is on, a hood is here."""
    with made.shop.transaction("joints", terminal="office") as tx:
        build = made.build.id
        made.wheel = tx.add(
            Part(0, "WH", "", build, "Wheel", needed=2, positions=("LF", "RF"), joints=(NUTS,))
        )
        made.disc = tx.add(Part(0, "DISC", "", build, "Disc", needed=1))
        made.bonnet = tx.add(Part(0, "BON", "", build, "Bonnet", needed=1))
        tx.enter(verbs.stock(made.wheel.id, 3, to=made.a3.id))
        tx.enter(verbs.stock(made.disc.id, 1, to=made.a3.id))
        tx.enter(verbs.stock(made.bonnet.id, 1, to=made.a3.id))
    with made.shop.transaction("on", terminal="office") as tx:
        tx.enter(verbs.install(made.shop.book, made.wheel.id, 1, position="LF"))
        tx.enter(verbs.install(made.shop.book, made.disc.id, 1, position=""))
    return made


@pytest.fixture
def lift(shop):
    return shop.scans("lift")


def nothing(_lift):
    """Nothing is in hand."""


def same_open(lift):
    lift.take("WH")


def same_let_go(lift):
    lift.take("WH")
    lift.no()


def same_badge(lift):
    lift.take("WH")
    lift.no()
    lift.take("lead")


def another(lift):
    lift.take("DISC")
    lift.no()


def another_open(lift):
    lift.take("DISC")


def on_a_wheel(shop, position):
    return sum(
        qty
        for place, qty in shop.shop.book.places(shop.wheel.id, State.INSTALLED, State.MOCKED_UP)
        if place.where == position
    )


IN_HAND = (nothing, same_open, same_let_go, same_badge, another, another_open)

CROWD = "1 of it is at LF already. Enter: its joints there. 1 and Enter: "
ASKED = {
    ("install", "WH"): ("question", "install", "Install 1 Wheel at RF? Enter or scan the position."),
    ("install", "WH LF"): ("question", "install", f"{CROWD}install 1 Wheel at LF all the same."),
    ("install", "WH RF"): (
        "question",
        "tighten",
        "1 Wheel installed at RF. 2 of 2 on. Wheel nuts at RF: 5 x",
    ),
    ("mock up", "WH"): ("question", "mock up", "Mock up 1 Wheel at RF? Enter or scan the position."),
    ("mock up", "WH LF"): ("question", "mock up", f"{CROWD}mock up 1 Wheel at LF all the same."),
    ("mock up", "WH RF"): ("done", "", "1 Wheel mocked up at RF."),
    ("remove", "WH"): ("question", "remove", "Remove 1 Wheel from LF to the bench? Enter, or a bin or bag"),
    ("remove", "WH LF"): ("done", "", "1 Wheel removed from LF to the bench."),
    ("remove", "WH RF"): ("stop", "", "Wheel is on at LF, not at RF."),
    ("tighten", "WH"): ("question", "tighten", "Wheel nuts at LF: 5 x"),
    ("tighten", "WH LF"): ("question", "tighten", "Wheel nuts at LF: 5 x"),
    ("tighten", "WH RF"): ("question", "install", "Install 1 Wheel at RF? Enter or scan the position."),
    ("install", "BON"): ("question", "install", "Install 1 Bonnet? Enter."),
    ("mock up", "BON"): ("question", "mock up", "Mock up 1 Bonnet? Enter."),
    ("remove", "BON"): ("stop", "", "Bonnet is not on the vehicle by the books, so it cannot come off."),
    ("tighten", "BON"): ("stop", "", "Bonnet has no joints; they are written down in its form"),
}
"""Verb and what is scanned after it: what is said, what the card is turned to, the words."""


@pytest.mark.parametrize("in_hand", IN_HAND)
@pytest.mark.parametrize(("verb", "scans"), ASKED)
def test_what_is_asked_after_a_verb(shop, lift, in_hand, verb, scans):
    in_hand(lift)
    lift.take(verb)
    for scan in scans.split():
        answer = lift.take(scan)
    said, card, words = ASKED[verb, scans]
    assert words in answer.text
    assert (answer.said, answer.card) == (said, card)
    if answer.question is not None and answer.question.yes is not None:
        lift.yes()
    assert on_a_wheel(shop, "LF") <= 1, "no Enter makes two wheels of one"


# What was just installed


@pytest.mark.parametrize("let_go", [False, True])
def test_the_part_that_went_on_brings_its_open_joints_back(shop, lift, let_go):
    lift.take("WH")
    assert "Wheel nuts at RF" in lift.take("RF").text
    if let_go:
        lift.no()
    for _ in range(3):
        assert "Wheel nuts at RF: 5 x" in lift.take("WH").text
    assert [on_a_wheel(shop, position) for position in ("LF", "RF")] == [1, 1]
    assert not list(shop.shop.readings.of_part(shop.wheel.id))
    lift.take("DISC")
    assert "install 1 Wheel" in lift.take("WH").text, "another card lay open since"


@pytest.mark.parametrize("verb", ["install", "mock up"])
def test_the_same_scan_never_picks_the_next_corner(shop, lift, verb):
    lift.take(verb)
    for _ in range(3):
        assert " at RF?" in lift.take("WH").text
    assert on_a_wheel(shop, "RF") == 0


# What comes off by the same scan


@pytest.mark.parametrize("tightened", [False, True])
def test_what_is_tightened_comes_off_by_enter_alone(shop, lift, tightened):
    with shop.shop.transaction("a wrench", terminal="office") as tx:
        tx.add(Wrench(0, "T1", "", "click", low=20, high=200, unit="N m", checked=date(2026, 9, 1)))
    if tightened:
        for each in ("lead", "T1", "tighten", "WH"):
            lift.take(each)
        assert "Enter: all 5, set to 110 N m" in lift.question.text
        lift.yes()
    lift.take("remove")
    lift.take("WH")
    answer = lift.take("WH")
    assert on_a_wheel(shop, "LF") == tightened
    if tightened:
        assert "Remove 1 Wheel from LF to the bench?" in answer.text
        assert lift.yes().state == "removed"


# What ends it


@pytest.mark.parametrize("end", ["answered", "let go of", "the tag no", "undo", "another part", "done"])
def test_the_next_part_means_what_it_means_again(lift, end):
    lift.take("remove")
    lift.take("WH")
    match end:
        case "answered":
            lift.yes()
            lift.take("undo")
        case "let go of":
            lift.no()
        case "the tag no":
            lift.take("no")
        case "another part":
            lift.take("DISC")
        case _:
            lift.take(end)
    assert "Install 1 Wheel at RF?" in lift.take("WH").text


@pytest.mark.parametrize("between", ["lead", "A3", "nobody knows this"])
def test_what_is_no_part_ends_nothing(lift, between):
    lift.take("tighten")
    lift.take("WH")
    lift.take(between)
    assert "Wheel nuts at LF" in lift.take("WH").text


def test_a_verb_that_is_let_go_of_with_what_lay_open_is_over(lift):
    lift.take("DISC")
    lift.no()
    lift.take("remove")
    lift.no()
    assert "Install 1 Wheel at RF?" in lift.take("WH").text


def test_a_card_that_a_key_turned_stays_turned_for_its_part_alone(shop, lift):
    def key(verb):
        lift.drop()
        lift.asked(ask_card(lift.at, shop.wheel, 1, verb))

    key("remove")
    assert "Remove 1 Wheel from LF" in lift.take("WH").text
    key("remove")
    assert "Install 1 Bonnet?" in lift.take("BON").text


def test_closing_the_program_keeps_what_was_said(shop, lift):
    lift.take("DISC")
    lift.no()
    lift.take("tighten")
    lift.take("WH")
    lift.card.remember(shop.shop, "lift")
    again = Scanning(shop.reopened(), "lift", station="lift")
    again.card_again()
    assert "Wheel nuts at LF" in again.take("WH").text
    again.card.put_down()
    again.take("remove")
    again.card.remember(again.shop, "lift")
    third = Scanning(shop.reopened(), "lift", station="lift")
    assert third.card_again() is None
    assert "Remove 1 Wheel from LF" in third.take("WH").text


# A check that would be signed


def test_remove_part_position_signs_nothing(shop, lift):
    with shop.shop.transaction("a caliper", terminal="office") as tx:
        caliper = tx.add(
            Part(0, "CAL", "", shop.build.id, "Caliper", needed=2, positions=("LF", "RF"), joints=(BLED,))
        )
        tx.enter(verbs.stock(caliper.id, 2, to=shop.a3.id))
    for position in ("LF", "RF"):
        lift.take("CAL")
        lift.take(position)
        lift.drop()
        lift.card.put_down()
    lift.take("lead")
    lift.take("CAL")
    lift.drop()
    lift.take("remove")
    lift.take("CAL")
    assert lift.take("LF").text.startswith("1 Caliper removed from LF")
    assert not list(shop.shop.readings.of_part(caliper.id))


# A position that is full


def test_only_a_number_puts_one_more_where_it_is_full(shop, lift):
    lift.take("WH")
    for _ in range(3):
        asked = lift.take("LF")
        assert asked.text.startswith(CROWD), "the position again is no yes"
    lift.take("WH")
    assert on_a_wheel(shop, "LF") == 1
    lift.take("LF")
    lift.typed("1")
    assert on_a_wheel(shop, "LF") == 2


def test_enter_asks_for_the_joints_of_what_is_there(shop, lift):
    lift.take("WH")
    lift.take("LF")
    asked = lift.yes()
    assert (asked.joint, asked.where, asked.qty) == ("Wheel nuts", "LF", 1)
    assert "5 x M12" in asked.text


def test_with_every_joint_done_enter_does_nothing(shop, lift):
    with shop.shop.transaction("no joints", terminal="office") as tx:
        tx.change(shop.wheel, joints=())
    lift.take("WH")
    assert lift.take("LF").text == (
        "1 of it is at LF already. 1 and Enter: install 1 Wheel at LF all the same."
    )
    assert "more than a yes" in lift.yes().text
    assert on_a_wheel(shop, "LF") == 1


def test_two_at_once_are_too_many_for_a_position_of_one(shop, lift):
    asked = lift.take("WH", 2)
    assert asked.text.startswith("1 of it belongs at RF, not 2. 1 and Enter: install 2 Wheel at RF")
    lift.yes()
    assert on_a_wheel(shop, "RF") == 0


def test_a_position_that_another_terminal_filled_meanwhile_is_asked_about_anew(shop, lift):
    lift.take("WH")
    other = Scanning(shop.reopened(), "lift 2", station="lift")
    other.shop.remember("lift 2", build=shop.build.id)
    other.take("WH")
    other.take("RF")
    assert lift.yes().text.startswith("1 of it is at RF already.")
    assert on_a_wheel(shop, "RF") == 1


def test_what_hangs_there_for_trial_is_not_put_beside_one_that_is_on(shop, lift):
    with shop.shop.transaction("hung", terminal="office") as tx:
        tx.enter(verbs.mock_up(shop.shop.book, shop.wheel.id, 1, position="LF"))
    asked = lift.take("WH")
    assert asked.text.startswith("Wheel is mocked up at LF. 1 of it is at LF already.")
    lift.yes()
    assert Place(State.MOCKED_UP, "LF") in dict(shop.shop.book.places(shop.wheel.id))
