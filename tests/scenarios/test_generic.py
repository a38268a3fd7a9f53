"""A plain joint that is tightened to a handbook's value: done for filming, never done to a specification."""

import json
from dataclasses import replace
from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import Joint, Part, Wrench
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs.against import HANDBOOK
from shoptui.jobs.edit import edit, written
from shoptui.jobs.joints import joints_of
from shoptui.jobs.missing import missing
from shoptui.jobs.missing_sheet import as_markdown, as_text, as_values, rows
from shoptui.jobs.torque_record import as_values as torque_values
from shoptui.jobs.torque_record import record_of
from shoptui.stations.filming.rows import against_facts, against_row, in_full, shots_facts
from shoptui.stations.lift.joints import tighten_facts

TODAY = date(2026, 11, 25)

BOLTS = Joint("Bracket bolts", 2, "M8 8.8", plain=True)

GENERIC = "done, generic, not a specification"


@pytest.fixture
def shop(made):
    with made.shop.transaction("a bracket", terminal="office") as tx:
        made.wrench = tx.add(Wrench(0, "T-60", "", "Click 60", low=5, high=60, checked=date(2026, 9, 1)))
        made.bracket = tx.add(
            Part(
                0, "BRA", "", made.build.id, "Bracket", section="Trim", needed=2, positions=("LF", "RF"),
                joints=(BOLTS,),
            )
        )  # fmt: skip
        tx.enter(verbs.stock(made.bracket.id, 2, to=made.a3.id))
        need = Need(Condition.TORQUE_DONE, part=made.bracket.id)
        made.day = tx.add(Shoot(0, "day-1", "Rolling", date(2026, 11, 27), shots=(Shot("out", (need,)),)))
    lift = made.scans("lift")
    for each in ("lead", "T-60"):
        lift.take(each)
    for spot in ("LF", "RF"):
        lift.take("BRA")
        lift.take(spot)
        lift.yes()
    return made


def report(shop):
    return missing(shop.shop, shop.shop.shoots.get(shop.day.id), TODAY)


def test_it_counts_as_done_and_a_person_decides(shop):
    found = report(shop)
    assert (found.ready, found.wanted, found.lines) == (1, 1, ())
    (decide,) = found.to_decide
    assert (decide.where, decide.stands, decide.qty) == ("Bracket bolts at LF, RF", GENERIC, 2)
    text = as_text(found)
    assert "DONE, BUT TO NO SHEET\n[ ] 2 Bracket (BRA): Bracket bolts at LF, RF, done, generic, not a" in text
    assert "the maker's sheet comes first" in " ".join(text.split())
    assert max(map(len, text.splitlines())) <= 80
    assert "## Done, but to no sheet" in as_markdown(found)
    assert as_values(found)["generic"] == [
        {
            "shot": "out",
            "part": "BRA",
            "description": "Bracket",
            "joint": "Bracket bolts at LF, RF",
            "why": GENERIC,
        }
    ]
    json.dumps(as_values(found))
    (row,) = rows(found)
    assert row[3:8] == (
        "installed with torque done",
        "installed",
        "Bracket bolts at LF, RF",
        f"Bracket bolts at LF, RF, {GENERIC}",
        "the person in charge: find the maker's sheet, or decide that it will do",
    )


def test_filming_shows_it_as_a_line_on_which_somebody_decides(shop):
    found = report(shop)
    (decide,) = found.to_decide
    assert against_row(decide).cells[:2] == ("in charge", "- decide")
    assert HANDBOOK in in_full(decide)
    title, facts = against_facts(decide)
    assert "moves" not in title
    assert HANDBOOK in [fact.text for fact in facts]
    told = [fact.text for fact in shots_facts(shop.shop, found)[1]]
    assert f"- Bracket: Bracket bolts at LF, RF, {GENERIC}, for the person in charge to decide" in told
    assert not [words for words in told if words.startswith("+ Bracket")], "not among what is as needed"


def test_the_lifts_card_and_the_record_mark_it(shop):
    told = [fact.text for fact in tighten_facts(shop.at("lift"), shop.shop.parts.get(shop.bracket.id), 1)]
    assert told.count(f"+ {GENERIC}") == 2
    found = torque_values(shop.shop, record_of(shop.shop, shop.build))
    assert [(each["stands"], each["open"], each["generic"]) for each in found] == [(GENERIC, False, True)] * 2


def test_with_a_sheet_nobody_has_to_decide(shop):
    with shop.shop.transaction("a sheet", terminal="office") as tx:
        tx.change(shop.bracket, joints=(replace(BOLTS, value="25 N m", source="Sheet"),))
    assert report(shop).to_decide == ()
    assert len(report(shop).lines) == 2, "its sheet changed: it is to be tightened again"


def test_a_joint_that_is_plain_no_more_is_open(shop):
    with shop.shop.transaction("not plain", terminal="office") as tx:
        tx.change(shop.bracket, joints=(replace(BOLTS, plain=False),))
    part = shop.shop.parts.get(shop.bracket.id)
    assert {each.standing.why for each in joints_of(shop.shop, part)} == {
        "no value: the maker's sheet is needed"
    }


@pytest.mark.parametrize(
    "section", ["Brakes", "Steering", "Front suspension", "Wheels", "Seat belts", "Fuel"]
)
def test_what_can_hurt_somebody_is_never_plain_whatever_was_written_down_before(shop, section):
    part = shop.shop.parts.get(shop.bracket.id)
    before = written(shop.shop, part)
    answer = edit(shop.at("office"), part, {**before, "section": section}, before=before)
    assert (answer.said, "this part needs its maker's sheet" in answer.text) == ("stop", True)
    with shop.shop.transaction("by other means", terminal="office") as tx:
        tx.change(shop.bracket, section=section)
    part = shop.shop.parts.get(shop.bracket.id)
    assert {each.standing.why for each in joints_of(shop.shop, part)} == {
        "no value: the maker's sheet is needed"
    }
    assert report(shop).to_decide == ()
    assert len(report(shop).lines) == 2
