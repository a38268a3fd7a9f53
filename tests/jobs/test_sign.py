"""What is signed is signed on purpose: never by Enter alone, never by a badge that was read twice."""

from dataclasses import replace
from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import Joint, Part, Person, What, Wrench
from shoptui.jobs.joints import joints_of
from shoptui.jobs.story import story

BOLTS = Joint("Caliper bolts", 2, value="80 to 90 N m", aim="85", second_check=True, source="Sheet")
BRACKET = replace(BOLTS, name="Bracket bolts")
BLED = Joint("Bled, no leaks", 0)
NUT = Joint("Castle nut", 1, "M12x1.5 10.9", value="80 N m", source="Sheet")
PIN = Joint("Cotter pin is in", 0)


@pytest.fixture
def shop(made):
    with made.shop.transaction("joints", terminal="office") as tx:
        made.fab = tx.add(Person(0, "fab", "", "the fabricator", second_check=True))
        tx.add(Person(0, "hand", "", "a hand"))
        made.click = tx.add(Wrench(0, "T1", "", "T1", low=20, high=200, unit="N m", checked=date(2026, 9, 1)))
        joints = {"CAL": (BOLTS, BLED), "BALL": (NUT, PIN), "FORK": (BOLTS, BRACKET), "HOSE": (BLED,)}
        made.parts = {
            code: tx.add(Part(0, code, "", made.build.id, code.title(), needed=1, joints=each))
            for code, each in joints.items()
        }
        for part in made.parts.values():
            tx.enter(verbs.stock(part.id, 1, to=made.a3.id))
    return made


@pytest.fixture
def lift(shop):
    lift = shop.scans("lift")
    for each in ("lead", "T1"):
        lift.take(each)
    return lift


def put_on(lift, code):
    lift.take(code)
    return lift.yes()


def stated(shop, code):
    """What was signed of a part, and by whom; what was tightened is left out."""
    people = shop.shop.people
    rows = shop.shop.readings.of_part(shop.parts[code].id)
    return [(row.what, people.get(row.who).code) for row in rows if row.what is not What.TIGHTENED]


def forgotten(shop, lift):
    """Let nobody be known at the lift."""
    shop.shop.remember("lift", person=None)
    assert lift.at.person is None


# Enter


def test_two_enters_tighten_and_sign_nothing(shop, lift):
    put_on(lift, "BALL")
    asked = lift.yes()
    assert "Cotter pin is in: 1 and Enter signs that it is so, the lead." in asked.text
    assert asked.question.choices[0].label == "it is so, signed by the lead"
    for _ in range(2):
        assert lift.yes().text.startswith("This needs more than a yes. Castle nut: 1 set to 80 N m.")
    assert lift.take("yes").text.startswith("This needs more than a yes.")
    assert not stated(shop, "BALL")
    assert lift.typed("1").said == "done"
    assert stated(shop, "BALL") == [(What.SIGNED, "lead")]


def test_what_is_due_to_be_signed_again_is_not_by_enter(shop, lift):
    with shop.shop.transaction("each day", terminal="office") as tx:
        tx.change(shop.parts["HOSE"], joints=(replace(BLED, again_days=1),))
    put_on(lift, "HOSE")
    lift.typed("1")
    shop.clock.advance(days=2)
    lift.take("lead")
    asked = lift.take("HOSE")
    assert asked.text.endswith("1 and Enter: it is still so.")
    assert [each.label for each in asked.question.choices[:2]] == [
        "it is still so, signed by the lead",
        "it is not: open it again",
    ]
    lift.yes()
    assert [what for what, _ in stated(shop, "HOSE")] == [What.SIGNED]
    lift.typed("1")
    assert [what for what, _ in stated(shop, "HOSE")] == [What.SIGNED, What.CHECKED]


@pytest.mark.parametrize("enter", ["", " "])
def test_an_empty_line_drops_no_second_check(shop, lift, enter):
    put_on(lift, "CAL")
    asked = lift.typed("85 85")
    assert lift.line(enter).text == f"This needs more than a yes. {asked.text}"
    lift.take("fab")
    assert stated(shop, "CAL") == [(What.SECOND, "fab")]


# A badge where somebody is known


def test_another_badge_only_says_who_is_here(shop, lift):
    put_on(lift, "HOSE")
    asked = "Bled, no leaks: 1 and Enter signs that it is so, a hand."
    assert lift.take("hand").text == f"a hand is at this terminal now. {asked}"
    assert (
        lift.take("hand").text == f"The badge of a hand was scanned a moment ago; it signs no more. {asked}"
    )
    assert not stated(shop, "HOSE")
    lift.typed("1")
    assert stated(shop, "HOSE") == [(What.SIGNED, "hand")]


def test_the_second_checkers_badge_read_twice_signs_no_more(shop, lift):
    put_on(lift, "CAL")
    lift.typed("85 85")
    lift.take("fab")
    for _ in range(2):
        assert lift.take("fab").text == (
            "The badge of the fabricator was scanned a moment ago; it signs no more. "
            "Bled, no leaks: 1 and Enter signs that it is so, the lead."
        )
    assert stated(shop, "CAL") == [(What.SECOND, "fab")]
    assert lift.at.person.code == "lead"


# A badge where nobody is known


def test_a_badge_signs_where_it_was_asked_for(shop, lift):
    put_on(lift, "HOSE")
    lift.drop()
    forgotten(shop, lift)
    assert lift.take("HOSE").text.endswith("Bled, no leaks: scan your badge to sign that it is so.")
    assert lift.take("hand").said == "done"
    assert stated(shop, "HOSE") == [(What.SIGNED, "hand")]
    assert lift.at.person.code == "hand"


def test_a_badge_read_twice_answers_one_question(shop, lift):
    put_on(lift, "CAL")
    lift.typed("85 85")
    forgotten(shop, lift)
    assert "scan your badge to sign that it is so." in lift.take("fab").text
    for _ in range(2):
        asked = lift.take("fab")
        assert asked.text == (
            "Bled, no leaks: the badge of the fabricator was scanned a moment ago; "
            "1 and Enter signs that it is so, the fabricator."
        )
    assert stated(shop, "CAL") == [(What.SECOND, "fab")]
    lift.typed("1")
    assert stated(shop, "CAL") == [(What.SECOND, "fab"), (What.SIGNED, "fab")]


def test_a_badge_read_twice_does_one_second_check(shop, lift):
    put_on(lift, "FORK")
    lift.asked(next(each for each in lift.question.question.choices if "Bracket" in each.label).take())
    lift.typed("85 85")
    lift.typed("85 85")
    assert "Bracket bolts: second check" in lift.take("fab").text
    asked = lift.take("fab")
    assert asked.text == (
        "Bracket bolts: second check: the badge of the fabricator was scanned a moment ago; "
        "1 and Enter signs, the fabricator."
    )
    assert stated(shop, "FORK") == [(What.SECOND, "fab")]
    lift.typed("1")
    assert stated(shop, "FORK") == [(What.SECOND, "fab")] * 2
    assert all(not each.is_open for each in joints_of(shop.shop, shop.shop.parts.get(shop.parts["FORK"].id)))


def test_after_another_scan_the_badge_is_meant(shop, lift):
    put_on(lift, "FORK")
    lift.asked(next(each for each in lift.question.question.choices if "Bracket" in each.label).take())
    lift.typed("85 85")
    lift.typed("85 85")
    lift.take("fab")
    lift.take("T1")
    lift.take("fab")
    assert stated(shop, "FORK") == [(What.SECOND, "fab")] * 2


@pytest.mark.parametrize("badge", ["lead", "hand"])
def test_who_may_not_is_told_so_also_when_read_twice(shop, lift, badge):
    put_on(lift, "CAL")
    lift.typed("85 85")
    first = lift.take(badge)
    assert lift.take(badge).text == first.text
    assert not first.question.choices[0].label.startswith("second check")
    assert not stated(shop, "CAL")


# Digits before it


@pytest.mark.parametrize("scan", ["fab", "yes", "T1"])
def test_digits_before_what_answers_are_not_dropped(shop, lift, scan):
    put_on(lift, "CAL")
    lift.typed("85 85")
    asked = lift.question
    assert lift.take(scan, 115).text == f"115 was typed before {scan}: nothing was done. {asked.text}"
    assert lift.take(scan, 4).text == f"4 was typed before {scan}: nothing was done. {asked.text}"
    assert not stated(shop, "CAL")
    assert lift.question.question is asked.question


def test_digits_before_a_yes_install_nothing(shop, lift):
    lift.take("CAL")
    assert lift.take("yes", 4).text.startswith("4 was typed before yes: nothing was done. ")
    assert shop.count(shop.parts["CAL"], State.INSTALLED) == 0


# What is said of it


def test_a_wrench_is_called_by_its_code(shop, lift):
    put_on(lift, "CAL")
    lift.typed("85 85")
    assert lift.take(shop.click.tag).text.startswith("T1 is in hand. Caliper bolts: second check")


def test_the_history_says_who_did_the_second_check(shop, lift):
    put_on(lift, "CAL")
    lift.typed("85 85")
    lift.take("fab")
    lift.typed("1")
    told = story(shop.shop, shop.shop.parts.get(shop.parts["CAL"].id))
    assert told[-2].endswith("the lead at lift: Caliper bolts: second check, by the fabricator")
    assert told[-1].endswith("the lead at lift: Bled, no leaks: signed")
