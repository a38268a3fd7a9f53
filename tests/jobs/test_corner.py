"""A position after a tag that said what is done with the next part: that part, there."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import Joint, Part


@pytest.fixture
def lift(made):
    with made.shop.transaction("two at each corner", terminal="office") as tx:
        nuts = Joint("Nuts", 5, value="110 N m", source="Sheet")
        made.wheel = tx.add(
            Part(0, "WH", "", made.build.id, "Wheel", needed=2, positions=("LF", "RF"), joints=(nuts,))
        )
        for part in (made.rotor, made.wheel):
            tx.enter(verbs.stock(part.id, 2, to=made.a3.id))
    return made.scans("lift")


@pytest.fixture
def standing(made, lift):
    """Rotor and wheel are on at LF, in that order."""
    for part in (made.rotor, made.wheel):
        lift.take(part.tag)
        lift.take("LF")
        lift.drop()
        lift.take("done")
    return lift


def labels(answer):
    return [choice.label for choice in answer.question.choices]


def test_remove_asks_which_comes_off_what_went_on_last_first(made, standing):
    standing.take("remove")
    asked = standing.take("LF")
    assert asked.text == "Remove at LF: which? Its number and Enter, or scan the part."
    assert labels(asked) == ["Wheel (WH)", f"Brake rotor ({made.rotor.code[:1]}-{made.rotor.code[1:]})"]
    assert "Remove 1 Wheel from LF to the bench?" in standing.typed("1").text
    standing.yes()
    assert made.count(made.wheel, State.REMOVED) == 1


def test_the_part_is_scanned_after_its_corner(made, standing):
    standing.take(made.rotor.tag)
    standing.take("RF")
    standing.take("done")
    standing.take("remove")
    standing.take("LF")
    assert "Remove 1 Brake rotor from LF" in standing.take("9521234543213").text, "its learned code"
    standing.yes()
    assert {place.where for place, _ in made.shop.book.places(made.rotor.id, State.INSTALLED)} == {"RF"}


def test_another_scan_drops_the_question_and_the_tag_still_stands(made, standing):
    standing.take("remove")
    standing.take("LF")
    answer = standing.take("RF")
    assert answer.text.startswith(
        "Remove at RF: nothing there is for that. Nothing is on there by the books."
    )
    assert "Remove 1 Wheel" in standing.take("WH").text


def test_the_only_one_is_not_asked_about(made, standing):
    standing.take("remove")
    standing.take("LF")
    standing.typed("2")
    standing.yes()
    standing.take("done")
    standing.take("remove")
    assert "Remove 1 Wheel from LF to the bench?" in standing.take("LF").text


def test_what_hangs_for_trial_comes_down(made, lift):
    lift.take("mock up")
    lift.take(made.rotor.tag)
    lift.take("LF")
    lift.take("done")
    lift.take("remove")
    assert "Take down 1 Brake rotor" in lift.take("LF").text


@pytest.mark.parametrize(("verb", "state"), [("install", State.INSTALLED), ("mock up", State.MOCKED_UP)])
def test_what_is_here_goes_on(made, lift, verb, state):
    lift.take(verb)
    asked = lift.take("RF")
    assert [each.split(" (")[0] for each in labels(asked)] == ["Brake rotor", "Wheel"]
    lift.typed("1")
    lift.yes()
    assert [place.where for place, _ in made.shop.book.places(made.rotor.id, state)] == ["RF"]


def test_tighten_opens_the_joint_at_that_corner(made, standing):
    standing.take("WH")
    standing.take("RF")
    standing.drop()
    standing.take("done")
    standing.take("tighten")
    assert "Nuts at RF:" in standing.take("RF").text


def test_assemble_has_no_corner(made, standing):
    standing.take("assemble")
    answer = standing.take("LF")
    assert "Assemble at LF: nothing there is for that. 2 on: " in answer.text
    assert standing.at.turned_to == "assemble"
