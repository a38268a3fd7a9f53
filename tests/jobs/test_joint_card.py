"""The card of joints of somebody who is interrupted: it stays with its part, its joint and its corner."""

from dataclasses import replace
from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import Joint, Part, Person, What, Wrench
from shoptui.jobs.at import At
from shoptui.jobs.joints import joints_of
from shoptui.jobs.scan import Scanning
from shoptui.jobs.strike_out import CHECK
from shoptui.stations.parts.deeds import what_next

NUTS = Joint("Wheel nuts", 5, "M12x1.5 10.9", value="110 N m", source="Sheet")
BOLTS = Joint("Caliper bolts", 2, value="80 to 90 N m", aim="85", second_check=True, source="Sheet")
BLED = Joint("Bled, no leaks", 0, source="Sheet")


@pytest.fixture
def shop(made):
    with made.shop.transaction("joints", terminal="office") as tx:
        made.fab = tx.add(Person(0, "fab", "", "the fabricator", second_check=True))
        made.click, made.pounds = (
            tx.add(
                Wrench(
                    0, code, "", code, low=20, high=200, unit=unit, length_mm=400, checked=date(2026, 9, 1)
                )
            )
            for code, unit in (("T1", "N m"), ("T3", "lbf ft"))
        )
        made.wheel = tx.add(
            Part(0, "WH", "", made.build.id, "Wheel", needed=2, positions=("LF", "RF"), joints=(NUTS,))
        )
        made.disc = tx.add(Part(0, "DISC", "", made.build.id, "Disc", needed=1))
        bolts = replace(BOLTS, clamps=(made.disc.id,))
        made.caliper = tx.add(Part(0, "CAL", "", made.build.id, "Caliper", needed=1, joints=(bolts, BLED)))
        for part in (made.wheel, made.disc, made.caliper):
            tx.enter(verbs.stock(part.id, part.needed, to=made.a3.id))
    return made


@pytest.fixture
def lift(shop):
    lift = shop.scans("lift")
    for each in ("lead", "T1"):
        lift.take(each)
    return lift


def put_on(lift, *codes):
    for code in codes:
        lift.take(code)
        asked = lift.yes()
        if code != codes[-1]:
            lift.drop()
    return asked


def stands(shop, part, position=None):
    part = shop.shop.parts.get(part.id)
    return [each.standing.why for each in joints_of(shop.shop, part, position)]


def rows(shop, part):
    return shop.shop.readings.of_part(part.id)


def labels(answer):
    return [choice.label for choice in answer.question.choices]


# The part in hand stays, and its joint asks again


@pytest.mark.parametrize("typed", ["85 85", "85"])
def test_figures_after_the_question_was_dropped_are_asked_for_again(shop, lift, typed):
    put_on(lift, "CAL")
    lift.drop()
    asked = lift.typed(typed)
    assert asked.text.startswith(f"Nothing asked for “{typed}”, it was not written down. Caliper bolts: 2 x")
    assert (lift.card.part, asked.joint) == (shop.caliper.id, "Caliper bolts")
    lift.typed("85 85")
    assert stands(shop, shop.caliper)[0] == "second check missing"


@pytest.mark.parametrize("how", ["escape", "the tag no"])
def test_no_to_a_value_that_is_not_the_sheets_goes_back_to_its_joint(shop, lift, how):
    put_on(lift, "CAL")
    assert "850 N m is not 80 to 90 N m" in lift.typed("850 850").text
    asked = lift.no() if how == "escape" else lift.take("no")
    assert asked.text.startswith("Nothing was written down. Caliper bolts: 2 x")
    lift.typed("85 85")
    assert [row.value for row in rows(shop, shop.caliper)] == ["85", "85"]


def test_the_part_scanned_once_more_never_says_that_it_is_tight(shop, lift):
    lift.take("WH")
    lift.take("LF")
    for _ in range(3):
        asked = lift.take("WH")
        assert asked.text.startswith("Wheel nuts at LF: 5 x")
    assert not rows(shop, shop.wheel)
    assert shop.count(shop.wheel, State.INSTALLED) == 1


def test_the_values_question_is_not_answered_by_the_part_either(shop, lift):
    put_on(lift, "CAL")
    lift.typed("850 850")
    lift.take("CAL")
    assert not rows(shop, shop.caliper)


# The corner


@pytest.fixture
def at_rf(shop, lift):
    """The wheel at LF is begun, the one at RF went on just now."""
    lift.take("WH")
    lift.take("LF")
    lift.typed("110 110 110")
    lift.drop()
    lift.card.put_down()
    lift.take("install")
    lift.take("WH")
    lift.take("RF")
    return lift


def test_closing_the_program_keeps_the_corner(shop, at_rf):
    assert at_rf.question.where == "RF"
    at_rf.card.remember(at_rf.shop, at_rf.terminal)
    again = Scanning(shop.reopened(), "lift", station="lift")
    asked = again.card_again()
    assert "Wheel nuts at RF: 5 x" in asked.text
    again.yes()
    assert shop.shop.refresh()
    assert stands(shop, shop.wheel) == ["3 of 5 tightened", ""]


def test_the_tag_tighten_asks_of_the_corner_that_was_asked_about(shop, at_rf):
    at_rf.drop()
    assert at_rf.take("tighten").where == "RF"
    at_rf.card.put_down()
    at_rf.take("tighten")
    assert at_rf.take("WH").where == "LF", "laid aside, what was begun comes first"


def test_a_wheel_that_is_begun_goes_before_another_that_is_to_go_on(shop, lift):
    lift.take("WH")
    lift.take("LF")
    lift.typed("110 110 110")
    lift.card.put_down()
    lift.drop()
    asked = lift.take("WH")
    assert "3 of 5 tightened. Wheel nuts at LF: 2 x" in asked.text
    assert labels(asked)[-1] == "another one goes on"
    assert "Install 1 Wheel at RF" in lift.take("RF").text
    lift.yes()
    assert shop.count(shop.wheel, State.INSTALLED) == 2


def test_a_wheel_that_is_not_begun_leaves_the_next_one_its_turn(shop, lift):
    lift.take("WH")
    lift.take("LF")
    lift.drop()
    assert labels(lift.take("WH"))[-1] == "another one goes on", "as long as its card lies open"
    lift.take("done")
    assert "Install 1 Wheel at RF?" in lift.take("WH").text


# The extension


def test_with_an_extension_the_value_at_the_bolt_is_typed_and_the_setting_is_kept(shop, lift):
    put_on(lift, "CAL")
    asked = lift.typed("ext 60 45")
    # 85 x 400 / (400 + 60 cos 45) = 76.85, by a pocket calculator
    assert (
        "set 76.8 N m, at that angle only. Type what each was tightened to at the bolt, not at the"
        in asked.text
    )
    asked = lift.typed("76.8 76.8")
    assert "76.8 is shown at the wrench, with its extension: that is 85 N m at the bolt" in asked.text
    lift.no()
    lift.typed("85 85")
    assert {row.note for row in rows(shop, shop.caliper)} == {
        "extension 60 mm at 45 deg, 76.8 N m at the wrench for 85 N m at the bolt"
    }


def test_what_is_read_with_an_extension_is_said_to_read_so(shop, lift):
    with shop.shop.transaction("a dial", terminal="office") as tx:
        tx.change(shop.click, kind="indicating")
    put_on(lift, "CAL")
    assert "it then reads 76.8 N m, at that angle only" in lift.typed("ext 60 45").text


def test_an_extension_goes_with_another_wrench_that_is_scanned_without_a_card(shop, lift):
    put_on(lift, "CAL")
    lift.typed("ext 60 45")
    lift.drop()
    lift.card.put_down()
    lift.take("T3")
    assert lift.at.memory.lever is None


@pytest.mark.parametrize("how", ["it fell", "barred and scanned"])
def test_an_extension_stays_at_a_wrench_that_is_barred(shop, lift, how):
    put_on(lift, "CAL")
    lift.typed("ext 60 45")
    lift.drop()
    lift.card.put_down()
    if how == "it fell":
        lift.take("wrench dropped")
    else:
        with shop.shop.transaction("meanwhile", terminal="office") as tx:
            tx.change(shop.click, barred="dropped")
        lift.take("T3")
        lift.take("T1")
    lift.take("T3")
    assert (lift.at.wrench.code, lift.at.memory.lever) == ("T3", None)


# A wrench does not drop what is asked


@pytest.mark.parametrize("wrench", ["T1", "T3"])
def test_a_wrench_keeps_the_second_check_open(shop, lift, wrench):
    put_on(lift, "CAL")
    lift.typed("85 85")
    asked = lift.take(wrench)
    assert f"{wrench} is in hand. Caliper bolts: second check: somebody else who may sign" in asked.text
    lift.take("fab")
    assert stands(shop, shop.caliper)[0] == ""
    assert lift.at.person.code == "lead"


def test_a_wrench_keeps_a_badge_for_what_is_accepted(shop, lift):
    put_on(lift, "CAL")
    lift.typed("92 85")
    lift.asked(lift.yes().question.choices[0].take())
    lift.typed("the maker was asked")
    assert "scans the badge" in lift.take("T3").text
    lift.take("fab")
    assert stands(shop, shop.caliper)[0] == "second check missing"


def test_another_wrench_while_values_are_asked_about_goes_back_to_the_joint(shop, lift):
    put_on(lift, "CAL")
    lift.typed("850 850")
    asked = lift.take("T3")
    assert asked.text.startswith("Nothing was written down. Caliper bolts: 2 x")
    assert "With T3" in asked.text
    assert not rows(shop, shop.caliper)


# After too much


@pytest.fixture
def too_much(shop, lift):
    """Of two bolts one was given more than the sheet allows."""
    put_on(lift, "CAL")
    lift.typed("85 92")
    lift.yes()
    return lift


@pytest.mark.parametrize(
    ("number", "words"), [("1", "after 92 N m: loosened first"), ("2", "after 92 N m: another was put in")]
)
def test_a_click_below_what_a_bolt_has_already_says_nothing_until_it_was_loosened(
    shop, too_much, number, words
):
    asked = too_much.typed("85")
    assert "it was given 92 N m before, which is too much. What was done to that fastener?" in asked.text
    assert asked.question.yes is None
    assert stands(shop, shop.caliper)[0].startswith("1 of 2 tightened, outside")
    assert "second check" in too_much.typed(number).text
    assert rows(shop, shop.caliper)[-1].note == words


def test_a_value_below_the_sheet_is_just_tightened_on(shop, lift):
    put_on(lift, "CAL")
    lift.typed("85 70")
    lift.yes()
    assert "second check" in lift.typed("85").text


def test_the_others_are_not_asked_about(shop, lift):
    lift.take("WH")
    lift.take("LF")
    lift.typed("130 110")
    lift.yes()
    assert "2 of 5 tightened" not in lift.question.text
    assert "4 of 5 tightened" in lift.typed("110 110 110").text
    assert "it was given 130 N m before" in lift.typed("1 x 110").text


def test_another_value_outside_is_asked_about_as_such_alone(shop, too_much):
    too_much.typed("95")
    assert "outside the sheet" in too_much.yes().text
    assert len(rows(shop, shop.caliper)) == 3


# What is open is not checked again


def test_what_is_open_is_not_said_to_be_checked_and_good(shop, lift):
    lift.take("WH")
    lift.take("LF")
    lift.typed("110 110 110")
    lift.card.put_down()
    parts = shop.scans("parts", "office")
    at = At(shop.shop, "office", "parts")
    choices = what_next(at, shop.shop.parts.get(shop.wheel.id), 1).question.choices
    parts.asked(next(each for each in choices if each.label == CHECK).take())
    asked = parts.typed("1")
    assert asked.text.startswith("Wheel: Wheel nuts at LF, open: 3 of 5 tightened: what was found?")
    assert "checked, and good" not in labels(asked)


def test_what_was_opened_meanwhile_is_not_checked_either(shop, lift):
    lift.take("WH")
    lift.take("LF")
    lift.yes()
    at = At(shop.shop, "office", "parts")
    parts = shop.scans("parts", "office")
    choices = what_next(at, shop.shop.parts.get(shop.wheel.id), 1).question.choices
    parts.asked(next(each for each in choices if each.label == CHECK).take())
    assert labels(parts.typed("1"))[0] == "checked, and good"
    lift.take("undo")
    said = parts.typed("1")
    if said.question is not None:
        said = parts.typed("2")  # without the wrench
    assert "is open, 0 of 5 tightened: nothing was written down" in said.text
    assert What.CHECKED not in {row.what for row in rows(shop, shop.wheel)}


# Units


def test_a_value_in_the_sheets_own_unit_is_not_asked_about(shop, lift):
    lift.take("T3")
    lift.take("WH")
    lift.take("LF")
    assert "4 of 5" not in lift.typed("5 x 110 N m").text
    assert stands(shop, shop.wheel, "LF") == [""]


def test_a_value_is_answered_in_the_unit_that_it_was_typed_in(shop, lift):
    with shop.shop.transaction("pounds", terminal="office") as tx:
        tx.change(shop.wheel, joints=(replace(NUTS, value="65 lbf ft"),))
    lift.take("WH")
    lift.take("LF")
    # 108 N m / 1.3558 = 79.7 lbf ft
    assert "108 N m: 79.7 lbf ft is not 65 lbf ft" in lift.typed("5 x 108").text


# A check that is signed


def test_a_check_is_not_signed_by_an_enter_while_its_disc_is_off_and_its_bolts_are_open(shop, lift):
    asked = put_on(lift, "CAL")
    number = 1 + labels(asked).index("first: Bled, no leaks")
    asked = lift.typed(str(number))
    assert "Disc is not on; Caliper bolts open, 0 of 2 tightened. 1 and Enter signs it all" in asked.text
    assert asked.question.yes is None
    lift.take("yes")
    assert not rows(shop, shop.caliper)
    lift.typed("1")
    (row,) = rows(shop, shop.caliper)
    assert (row.what, row.note) == (
        What.SIGNED,
        "although Disc is not on; Caliper bolts open, 0 of 2 tightened",
    )


@pytest.fixture
def bled(shop, lift):
    put_on(lift, "DISC", "CAL")
    lift.typed("85 85")
    assert "1 and Enter signs that it is so, the lead." in lift.take("fab").text, "nothing is amiss"
    lift.typed("1")
    assert stands(shop, shop.caliper) == ["", ""]
    return lift


@pytest.mark.parametrize(
    ("answer", "check"),
    [("yes", "loosened: Caliper bolts loosened"), ("it stays signed", ""), ("no", None)],
)
def test_a_joint_that_is_loosened_asks_whether_what_is_signed_there_stays_so(shop, bled, answer, check):
    bled.take("CAL")
    bled.take("tighten")
    asked = bled.question
    bled.typed(str(1 + labels(asked).index("loosen: Caliper bolts ...")))
    asked = bled.typed("to shim it")
    assert "Bled, no leaks is signed. Enter: to be signed again after this." in asked.text
    assert stands(shop, shop.caliper) == ["", ""], "nothing is written down before the answer"
    if answer == "it stays signed":
        bled.typed("1")
    else:
        bled.take(answer)
    assert stands(shop, shop.caliper) == (["", ""] if check is None else ["loosened: to shim it", check])
    if check:
        bled.take("undo")
        assert stands(shop, shop.caliper) == ["", ""], "one undo for both"


def test_what_failed_asks_the_same(shop, bled):
    with shop.shop.transaction("its days", terminal="office") as tx:
        part = shop.shop.parts.get(shop.caliper.id)
        bolts, check = part.joints
        tx.change(part, joints=(replace(bolts, again_days=5), check))
    shop.clock.advance(days=6)
    bled.take("CAL")
    bled.typed("1")
    asked = bled.typed("one was loose")
    assert "Bled, no leaks is signed" in asked.text
    bled.take("yes")
    assert stands(shop, shop.caliper) == ["one was loose", "loosened: Caliper bolts failed its check"]


def test_the_disc_that_came_off_opens_the_bolts(shop, bled):
    bled.take("DISC")
    bled.yes()
    assert stands(shop, shop.caliper)[0] == "loosened since"


def test_the_caliper_that_came_off_opens_its_check(shop, bled):
    bled.take("CAL")
    bled.yes()
    bled.drop()
    put_on(bled, "CAL")
    assert stands(shop, shop.caliper) == ["loosened since", "loosened since"]


# Undo, and a wrench that is not taken


@pytest.mark.parametrize("undo", ["the tag", "the tag after a yes that is none"])
def test_undo_means_what_was_done_where_a_question_only_follows_it(shop, lift, undo):
    put_on(lift, "CAL")
    asked = lift.typed("85 85")
    assert "second check" in asked.text
    if undo != "the tag":
        assert "more than a yes" in lift.yes().text
    assert lift.take("undo").text.startswith("Undone: ")
    assert stands(shop, shop.caliper)[0] == "0 of 2 tightened"


def test_undo_only_drops_a_question_that_was_begun(shop, lift):
    put_on(lift, "CAL")
    lift.typed("85 85")
    lift.take("DISC")
    assert lift.take("undo").text.startswith("The question is dropped; nothing changed.")
    assert stands(shop, shop.caliper)[0] == "second check missing"
    assert lift.take("undo").text.startswith("Undone: ")
    put_on(lift, "CAL")
    lift.typed("850 850")
    assert lift.take("undo").text.startswith("The question is dropped; nothing changed.")


def test_a_barred_wrench_says_why_it_is_not_taken(shop):
    with shop.shop.transaction("it fell", terminal="office") as tx:
        tx.change(shop.click, barred="it fell")
    lift = shop.scans("lift")
    lift.take("lead")
    lift.take("WH")
    lift.yes()
    assert "Scan the wrench." in lift.yes().text
    assert lift.take("T1").text == (
        "T1 is barred (it fell); nothing is in hand: scan another. Wheel nuts at LF: Scan the wrench."
    )
