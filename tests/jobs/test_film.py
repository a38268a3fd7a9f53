"""Shots marked filmed, and what is mocked up on a vehicle that moves in one."""

import csv
import io
import json
from datetime import date

import pytest

from shoptui.cli.output import as_csv, as_json
from shoptui.domain import verbs
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs import missing_sheet
from shoptui.jobs.answers import Said
from shoptui.jobs.film import film, not_filmed
from shoptui.jobs.missing import missing
from shoptui.jobs.set_aside import open_part
from shoptui.jobs.undo import undo

TODAY = date(2026, 11, 25)


@pytest.fixture
def day(made):
    """Today's filming: the rotors in their boxes, the hub on the vehicle, and the yard."""
    shots = (
        Shot("the boxes", (Need(Condition.SEALED, part=made.rotor.id),)),
        Shot("hub on", (Need(Condition.INSTALLED, part=made.hub.id),)),
        Shot("the yard", moves=True),
    )
    with made.shop.transaction("filming", terminal="office") as tx:
        day = tx.add(Shoot(0, "day1", "First day", TODAY, "07:30", shots))
        for part, qty in ((made.rotor, 2), (made.hub, 1)):
            tx.enter(verbs.receive(made.shop.book, part.id, qty, order=made.order.id))
        tx.enter(verbs.receive(made.shop.book, made.hood.id, 1, order=made.late.id))
    return day


def now(made, day):
    return made.shop.shoots.get(day.id)


def test_a_shot_that_has_all_it_needs_is_filmed_without_a_question(made, day):
    answer = film(made.at("floor"), day, 1)
    assert answer.said is Said.DONE
    assert answer.text.startswith("Filmed: shot 1 (the boxes), Wed 25 Nov.")
    assert [shot.filmed for shot in now(made, day).shots] == [True, False, False]


def test_a_filmed_shot_protects_nothing_any_more(made, day):
    assert open_part(made.at("door"), made.rotor, 1).said is Said.QUESTION
    film(made.at("floor"), day, 1)
    assert open_part(made.at("door"), made.rotor, 1).said is Said.DONE


def test_a_shot_to_be_filmed_again_protects_again(made, day):
    film(made.at("floor"), day, 1)
    assert not_filmed(made.at("floor"), now(made, day), 1).said is Said.DONE
    assert open_part(made.at("door"), made.rotor, 1).said is Said.QUESTION
    assert not_filmed(made.at("floor"), now(made, day), 1).said is Said.STOP


def test_what_is_missing_by_the_books_is_asked_about_and_a_no_changes_nothing(made, day):
    before = made.bytes()
    answer = film(made.at("floor"), day, 2)
    assert answer.said is Said.QUESTION
    assert (
        "Enter: yes. By the books missing: 1 Hub, needed installed (received, not installed)." in answer.text
    )
    assert made.bytes() == before
    assert answer.question.yes().said is Said.DONE
    assert now(made, day).shots[1].filmed


def test_a_whole_day_is_filmed_at_once_and_undone_at_once(made, day):
    film(made.at("floor"), day).question.yes()
    assert all(shot.filmed for shot in now(made, day).shots)
    assert film(made.at("floor"), now(made, day)).said is Said.STOP
    undo(made.at("floor"))
    assert not any(shot.filmed for shot in now(made, day).shots)


def test_a_day_to_come_is_asked_about(made, day):
    with made.shop.transaction("later", terminal="office") as tx:
        later = tx.change(day, date=date(2026, 11, 27))
    assert film(made.at("floor"), later, 1).text.endswith("Enter: yes. Fri 27 Nov is still to come.")


@pytest.mark.parametrize("number", [0, 4, -1])
def test_a_shot_that_is_not_there_is_refused_with_what_there_is(made, day, number):
    for answer in (film(made.at("floor"), day, number), not_filmed(made.at("floor"), day, number)):
        assert answer.said is Said.STOP
        assert answer.text == f"The filming day day1 has 3 shots; there is no shot {number}."


def test_shots_that_somebody_changed_meanwhile_are_looked_at_again(made, day):
    question = film(made.at("floor"), day, 2).question
    with made.shop.transaction("other order", terminal="office") as tx:
        tx.change(day, shots=day.shots[::-1])
    before = made.bytes()
    assert question.yes().said is Said.STOP
    assert made.bytes() == before


# A shot in which the vehicle moves


def mock_up(made, part, position):
    with made.shop.transaction("trial", terminal="lift") as tx:
        tx.enter(verbs.mock_up(made.shop.book, part.id, 1, position=position))


def trials(made, day):
    return [(p.part.id, p.qty, p.where) for s in missing(made.shop, day, TODAY).moving for p in s.on_trial]


def test_nothing_is_listed_while_nothing_is_mocked_up(made, day):
    assert trials(made, day) == []
    text = missing_sheet.as_text(missing(made.shop, day, TODAY))
    told = "shot 3 (the yard): by the books nothing is mocked up, and no joint that it moves by is open"
    assert told in " ".join(text.split())
    assert "person in charge" in text


def test_what_is_mocked_up_is_listed_where_the_vehicle_moves(made, day):
    mock_up(made, made.hood, "front")
    assert trials(made, day) == [(made.hood.id, 1, "mocked up at front")]


def test_what_is_built_into_it_is_listed_too(made, day):
    with made.shop.transaction("bench", terminal="lift") as tx:
        tx.enter(verbs.assemble(made.shop.book, made.rotor.id, 1, carrier=made.hub.id))
    mock_up(made, made.hub, "")
    assert [part for part, *_ in trials(made, day)] == [made.rotor.id, made.hub.id]


def test_another_vehicle_s_trial_is_none_of_this_shot(made, day):
    with made.shop.transaction("one vehicle", terminal="office") as tx:
        need = Need(Condition.ON_HAND, part=made.foreign.id)
        day = tx.change(day, shots=(*day.shots[:2], Shot("the yard", (need,), moves=True)))
    mock_up(made, made.hood, "front")
    assert trials(made, day) == []


def test_a_filmed_shot_lists_nothing(made, day):
    mock_up(made, made.hood, "front")
    film(made.at("floor"), day, 3)
    assert trials(made, now(made, day)) == []


def test_the_sheets_list_what_is_mocked_up(made, day):
    mock_up(made, made.hood, "front")
    report = missing(made.shop, day, TODAY)
    values = json.loads(as_json(missing_sheet.as_values(report)))
    (moving,) = values["moving"]
    assert moving["shot"] == "the yard"
    assert [(piece["description"], piece["where"], piece["qty"]) for piece in moving["mocked_up"]] == [
        ("Hood", "mocked up at front", 1)
    ]
    rows = list(csv.DictReader(io.StringIO(as_csv(missing_sheet.COLUMNS, missing_sheet.rows(report)))))
    assert (rows[-1]["needs"], rows[-1]["state"]) == ("nothing mocked up", "mocked up")
    assert len(rows) == len(values["lines"]) + 1
    text = missing_sheet.as_text(report)
    assert "THE VEHICLE MOVES\nshot 3 (the yard): mocked up on it\n[ ] 1 Hood" in text
    assert "1 part is only mocked up on a vehicle that moves." in " ".join(text.split())
    assert max(map(len, text.splitlines())) <= 80
    assert "## The vehicle moves" in missing_sheet.as_markdown(report)
