"""Shots: filmed sealed and painted before it is installed; a day earlier; a trial fit; a vehicle that moves.

Today is Wed 25 Nov 2026; working days are counted by hand on that calendar.
"""

from dataclasses import replace
from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import OutsideWork
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs.answers import Said
from shoptui.jobs.film import film
from shoptui.jobs.filming_day import save_day
from shoptui.jobs.missing import find_shoot, missing
from shoptui.jobs.missing_sheet import as_text
from shoptui.jobs.send_out import send_out
from shoptui.jobs.set_aside import open_part
from shoptui.jobs.today import today_lines

TODAY = date(2026, 11, 25)


@pytest.fixture
def shop(made):
    """A hood that is painted before it goes on, sealed in bin A3; the rotors are on order."""
    with made.shop.transaction("", terminal="office") as tx:
        made.hood = tx.change(made.hood, outside_work=(OutsideWork("painted", 5),))
        tx.enter(verbs.receive(made.shop.book, made.hood.id, 1, order=made.late.id, to=made.a3.id))
    return made


def filming(shop, when, *shots):
    answer = save_day(shop.at("office"), None, Shoot(0, "", "", when, shots=shots))
    return shop.shop.shoots.by_code("day-1"), answer


def hood(shop, condition):
    return Need(condition, part=shop.hood.id)


def lines(shop, day):
    """What is missing for a day: the number of the shot, why, and who does what next."""
    day = find_shoot(shop.shop, day.code, TODAY)
    return [(line.number, line.lack.why, line.act) for line in missing(shop.shop, day, TODAY).lines]


def test_filmed_sealed_then_painted_then_filmed_on_the_vehicle(shop):
    day, _ = filming(
        shop,
        date(2026, 12, 4),
        Shot("the box", (hood(shop, Condition.SEALED),)),
        Shot("shut it", (hood(shop, Condition.INSTALLED),)),
    )
    assert lines(shop, day) == [
        (
            2,
            "here, not painted yet",
            "lead: send it out to be painted, by Fri 27 Nov; but shot 1 needs it sealed: film that first",
        ),
    ]
    before = shop.bytes()
    for asked in (
        open_part(shop.at("door"), shop.hood, 1),
        send_out(shop.at("office"), shop.hood, 1, to="paint"),
        shop.scans("lift").take(shop.hood.tag),
    ):
        assert asked.said is Said.QUESTION
        assert "Fri 4 Dec, shot 1 (the box) needs it sealed" in asked.text
    assert shop.bytes() == before

    # The box is filmed two days early, which is asked about; from then on nothing keeps it shut.
    film(shop.at("floor"), day, 1).question.yes()
    out = send_out(shop.at("office"), shop.hood, 1, to="paint", due=date(2026, 12, 3))
    assert out.said is Said.DONE
    assert lines(shop, day) == [
        (
            2,
            "at Paint shop, due back Thu 3 Dec",
            "outside shop: Paint shop finishes (job paint 2026-11-25), by Fri 4 Dec",
        )
    ]
    door = shop.scans("receiving")
    door.take(shop.hood.tag)
    assert door.yes().text.startswith("1 Hood back, painted")
    lift = shop.scans("lift")
    assert lift.take(shop.hood.tag).text == "Install 1 Hood? Enter."
    lift.yes()
    assert lines(shop, day) == []
    assert "Fri 4 Dec, shot 2 (shut it) needs it installed" in lift.take("remove").text


def test_the_filming_day_a_week_earlier(shop):
    rotors = Need(Condition.ON_HAND, part=shop.rotor.id)
    day, answer = filming(
        shop,
        date(2026, 12, 4),
        Shot("shut it", (hood(shop, Condition.INSTALLED),)),
        Shot("rotors", (rotors,)),
    )
    assert answer.said is Said.DONE
    # Painted it is on Wed 2 Dec, five working days from today: three too late for Fri 27 Nov.
    moved = save_day(shop.at("office"), day, replace(day, date=date(2026, 11, 27)))
    assert moved.said is Said.QUESTION
    assert moved.text == (
        "No longer in time for Fri 27 Nov: 1 Hood for shot 1 (3 working days too late). "
        "Enter: write it down all the same."
    )
    assert find_shoot(shop.shop, "day-1", TODAY).date == date(2026, 12, 4)
    moved.question.yes()
    late = [line for line in today_lines(shop.shop, TODAY) if line.kind == "filming"]
    assert late[0].words == "Fri 27 Nov, day-1: 0 of 2 ready, 1 cannot be in time"


def test_a_trial_fit_is_filmed(shop):
    day, _ = filming(shop, TODAY, Shot("does it fit", (hood(shop, Condition.MOCKED_UP),)))
    assert lines(shop, day) == [(1, "received, not mocked up", "lift: mock it up, by Wed 25 Nov")]
    lift = shop.scans("lift")
    lift.take("mock up")
    assert "painted" not in lift.take(shop.hood.tag).text  # a trial needs no paint
    lift.yes()
    assert lines(shop, day) == []
    before = shop.bytes()
    assert "Wed 25 Nov, shot 1 (does it fit) needs it mocked up" in lift.take("remove").text
    lift.drop()
    assert shop.bytes() == before
    assert film(shop.at("floor"), day, 1).said is Said.DONE
    lift.take(shop.hood.tag)
    assert "shot 1" not in lift.take("remove").text
    lift.yes()
    assert shop.shop.book.in_state(shop.hood.id, "received") == 1


def test_the_vehicle_moves_with_something_mocked_up(shop):
    day, _ = filming(
        shop, TODAY, Shot("out of the door", (hood(shop, Condition.MOCKED_UP),), moves=True), Shot("the yard")
    )
    lift = shop.scans("lift")
    lift.take("mock up")
    lift.take(shop.hood.tag)
    lift.yes()
    text = as_text(missing(shop.shop, day, TODAY))
    told = " ".join(text.split())
    assert f"shot 1 (out of the door): mocked up on it [ ] 1 Hood (P-{shop.hood.tag[1:]}): mocked up" in told
    assert "Whether the vehicle may move is for the person in charge to decide" in told
    assert [line.words for line in today_lines(shop.shop, TODAY) if line.kind == "moves"] == [
        f"Wed 25 Nov: the vehicle moves, and mocked up on it: 1 Hood (P-{shop.hood.tag[1:]})"
    ]
    film(shop.at("floor"), day, 1)
    assert [line for line in today_lines(shop.shop, TODAY) if line.kind == "moves"] == []
