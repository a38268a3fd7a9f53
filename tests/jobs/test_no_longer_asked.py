"""A joint that is renamed or taken off its part's list: its readings are asked about, and kept."""

import json
from dataclasses import replace

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import How, Joint, Reading, What
from shoptui.domain.row_text import row_text
from shoptui.jobs.answers import Said
from shoptui.jobs.edit import edit, written
from shoptui.jobs.torque_record import as_values, record_of, rows
from shoptui.jobs.torque_sheet import as_markdown, as_text

NUT = Joint("Axle nut", 1, "M24x2", value="250 N m", source="Sheet")
BLED = Joint("Turns freely", 0, source="Sheet")


@pytest.fixture
def shop(made):
    with made.shop.transaction("on", terminal="office") as tx:
        made.hub = tx.change(made.hub, joints=(NUT, BLED), positions=("LF",))
        tx.enter(verbs.stock(made.hub.id, 1, to=made.a3.id))
        tx.enter(verbs.install(made.shop.book, made.hub.id, 1, position="LF"))
    with made.shop.transaction("tightened", terminal="lift") as tx:
        said = NUT.sheet_says
        tx.state(
            Reading(0, What.TIGHTENED, made.hub.id, NUT.name, "LF", 1, "250", "N m", How.SET, sheet_says=said)
        )
    return made


def lines(shop):
    return json.loads(written(shop.shop, shop.shop.parts.get(shop.hub.id))["joints"])


def change(shop, found):
    part = shop.shop.parts.get(shop.hub.id)
    before = written(shop.shop, part)
    return edit(shop.at("office"), part, {**before, "joints": row_text(found)}, before=before)


def names(shop):
    return [joint.name for joint in shop.shop.parts.get(shop.hub.id).joints]


@pytest.mark.parametrize("taken_off", [True, False])
def test_readings_that_would_lose_their_joint_are_asked_about(shop, taken_off):
    nut, bled = lines(shop)
    asked = change(shop, [bled] if taken_off else [{**nut, "name": "Hub nut"}, bled])
    assert asked.said is Said.QUESTION
    assert asked.text == (
        "Axle nut has 1 reading: a joint has what was stated under its name, and there would be none of that "
        "name any more. Its number, then Enter."
    )
    assert names(shop) == ["Axle nut", "Turns freely"], "a question changes nothing"
    (choice,) = asked.question.choices
    assert choice.label == "do it: they count no more; the torque record still lists them"
    assert choice.take().said is Said.DONE
    assert names(shop) == (["Turns freely"] if taken_off else ["Hub nut", "Turns freely"])


def test_what_has_no_reading_or_keeps_its_name_is_not_asked_about(shop):
    nut, bled = lines(shop)
    assert change(shop, [{**nut, "value": "260 N m"}, {**bled, "name": "Turns"}]).said is Said.DONE
    assert change(shop, lines(shop)[:1]).said is Said.DONE


def test_the_record_lists_what_is_no_longer_asked_for(shop):
    before = as_text(shop.shop, None, record_of(shop.shop, None))
    assert "NO LONGER ASKED FOR" not in before
    _, bled = lines(shop)
    change(shop, [bled]).question.choices[0].take()
    found = record_of(shop.shop, None)
    text, markdown = as_text(shop.shop, None, found), as_markdown(shop.shop, None, found)
    after = text.partition("NO LONGER ASKED FOR")[2]
    assert "Axle nut at left front" in after
    assert "NO LONGER COUNTS: " in after
    assert "1 tightened to 250 N m, as set" in " ".join(after.split())
    assert "1 joint or check: 0 done, 1 not done" in text
    assert "## No longer asked for" in markdown
    assert "| Axle nut at left front |" in markdown.partition("## No longer asked for")[2]
    (gone,) = [each for each in as_values(shop.shop, found) if each["joint"] == "Axle nut"]
    assert (gone["stands"], gone["open"], gone["due"], gone["again"]) == (
        "no longer asked for",
        False,
        False,
        "",
    )
    assert [each["counts"] for each in gone["readings"]] == ["no"]
    assert any(row[4] == "Axle nut" for row in rows(shop.shop, found))
    assert all(each.joint.name != "Axle nut" for each in record_of(shop.shop, None, only_open=True))


def test_a_joint_that_has_its_name_again_has_its_readings_again(shop):
    _, bled = lines(shop)
    change(shop, [bled]).question.choices[0].take()
    with shop.shop.transaction("again", terminal="office") as tx:
        tx.change(shop.shop.parts.get(shop.hub.id), joints=(replace(NUT), BLED))
    assert [each.joint.name for each in record_of(shop.shop, None) if not each.is_open] == ["Axle nut"]
    assert "NO LONGER ASKED FOR" not in as_text(shop.shop, None, record_of(shop.shop, None))
