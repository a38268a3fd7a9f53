"""Filming days written down, changed, moved and called off; days counted on a calendar of November 2026."""

from dataclasses import replace
from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.cells import CellError
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs.answers import Said
from shoptui.jobs.filming_day import call_off, call_time, save_day
from shoptui.jobs.set_aside import open_part
from shoptui.jobs.undo import undo

FRIDAY = date(2026, 11, 27)


def boxes(made, **fields):
    return Shot("the boxes", (Need(Condition.SEALED, part=made.rotor.id),), **fields)


@pytest.fixture
def day(made):
    with made.shop.transaction("filming", terminal="office") as tx:
        return tx.add(Shoot(0, "day1", "First day", FRIDAY, "07:30", (boxes(made),)))


def now(made, day):
    return made.shop.shoots.get(day.id)


def test_a_new_day_gets_a_short_name(made):
    answer = save_day(made.at("office"), None, Shoot(0, "", "Yard", FRIDAY, "", (boxes(made),)))
    assert answer.said is Said.DONE
    assert answer.text == "New filming day: Fri 27 Nov (Yard), 1 shot."
    assert made.shop.shoots.by_code("day-1").shots == (boxes(made),)
    undo(made.at("office"))
    assert list(made.shop.shoots.all()) == []


def test_a_name_that_something_else_has_is_refused(made, day):
    for code in ("A3", "day1"):
        answer = save_day(made.at("office"), None, Shoot(0, code, "", FRIDAY))
        assert (answer.said, answer.field) == (Said.STOP, "code")
    assert save_day(made.at("office"), day, replace(day, title="Other")).said is Said.DONE


def test_what_was_not_changed_is_not_written(made, day):
    before = made.bytes()
    assert save_day(made.at("office"), day, day).said is Said.DONE
    assert made.bytes() == before


def test_a_day_moved_earlier_says_what_can_no_longer_be_in_time(made, day):
    before = made.bytes()
    # The rotors come on Thu 26 Nov: in time for Friday, one working day too late for Wednesday.
    answer = save_day(made.at("office"), day, replace(day, date=date(2026, 11, 25)))
    assert answer.said is Said.QUESTION
    assert answer.text.startswith(
        "No longer in time for Wed 25 Nov: 2 Brake rotor for shot 1 (1 working day too late)."
    )
    assert made.bytes() == before
    assert answer.question.yes().said is Said.DONE
    assert now(made, day).date == date(2026, 11, 25)


def test_what_was_too_late_before_is_not_told_again(made, day):
    with made.shop.transaction("earlier", terminal="office") as tx:
        day = tx.change(day, date=date(2026, 11, 25))
    assert save_day(made.at("office"), day, replace(day, title="x")).said is Said.DONE


@pytest.mark.parametrize("moved", [FRIDAY, date(2026, 12, 4)])
def test_a_day_moved_later_asks_nothing(made, day, moved):
    assert save_day(made.at("office"), day, replace(day, date=moved)).said is Said.DONE


def test_a_day_in_the_past_is_asked_about_unless_all_is_filmed(made, day):
    past = replace(day, date=date(2026, 11, 20))
    assert "Fri 20 Nov is past." in save_day(made.at("office"), day, past).text
    filmed = replace(past, shots=(boxes(made, filmed=True),))
    assert save_day(made.at("office"), day, filmed).said is Said.DONE


def test_a_shot_that_cannot_be_is_said_while_it_is_saved(made, day):
    needs = (*boxes(made).needs, Need(Condition.MOCKED_UP, part=made.rotor.id))
    answer = save_day(made.at("office"), day, replace(day, shots=(Shot("both", needs),)))
    assert answer.said is Said.QUESTION
    assert "Shot 1 (both): Brake rotor (" in answer.text
    assert "cannot be both sealed and mocked up." in answer.text


def test_a_filmed_shot_does_not_vanish_unasked(made, day):
    with made.shop.transaction("filmed", terminal="office") as tx:
        day = tx.change(day, shots=(boxes(made, filmed=True), Shot("yard")))
    answer = save_day(made.at("office"), day, replace(day, shots=(Shot("yard"),)))
    assert answer.text.startswith("Shot 1 (the boxes) is filmed and would go off the list.")


def test_two_people_change_one_day(made, day):
    mine, theirs = replace(day, title="Mine"), replace(day, date=date(2026, 12, 4), call_time="08:00")
    assert save_day(made.at("floor"), day, theirs).said is Said.DONE
    assert save_day(made.at("office"), day, mine).said is Said.DONE
    both = now(made, day)
    assert (both.title, both.date, both.call_time) == ("Mine", date(2026, 12, 4), "08:00")


def test_the_second_to_change_a_field_is_shown_the_first(made, day):
    save_day(made.at("floor"), day, replace(day, date=date(2026, 12, 4)))
    answer = save_day(made.at("office"), day, replace(day, date=date(2026, 12, 3)))
    assert answer.said is Said.QUESTION
    assert answer.text.startswith("The day was changed meanwhile to Fri 4 Dec; yours would stand instead.")
    answer.question.yes()
    assert now(made, day).date == date(2026, 12, 3)


def test_a_day_called_off_keeps_nothing(made, day):
    with made.shop.transaction("came", terminal="door") as tx:
        tx.enter(verbs.receive(made.shop.book, made.rotor.id, 2, order=made.order.id))
    before = made.bytes()
    answer = call_off(made.at("office"), day)
    assert answer.text == "Call off Fri 27 Nov (First day), 1 of 1 shots not filmed? Enter: yes."
    assert made.bytes() == before
    answer.question.yes()
    assert open_part(made.at("door"), made.rotor, 1).said is Said.DONE


@pytest.mark.parametrize("text", ["24:00", "7:60", "seven", "-1", "7:5", "", "\u0667:30"])
def test_what_is_no_time_of_day(text):
    with pytest.raises(CellError, match=r"A time such as 07:30 was expected"):
        call_time(text)
