"""Strut, spring and mount are assembled on the bench, installed on LF, then one is taken apart again."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import OPENED, Place, State
from shoptui.domain.records import Joint, Part
from shoptui.jobs.answers import Said
from shoptui.jobs.find import part_found
from shoptui.jobs.grounds import waits_for
from shoptui.jobs.today import today_lines
from shoptui.stations.lift.rows import lift_row


@pytest.fixture
def shop(made):
    with made.shop.transaction("", terminal="office") as tx:
        for word in ("strut", "spring", "mount"):
            positions = ("LF", "RF") if word == "strut" else ()
            part = tx.add(
                Part(
                    0,
                    word,
                    "",
                    made.build.id,
                    word.capitalize(),
                    section="Front",
                    needed=2,
                    positions=positions,
                )
            )
            setattr(made, word, part)
            tx.enter(verbs.stock(part.id, 2, to=made.a3.id))
    return made


@pytest.fixture
def lift(shop):
    return shop.scans("lift")


def build_in(lift, part, carrier):
    lift.take(part)
    lift.take("KASMB2N")
    return lift.take(carrier)


def test_assembled_installed_on_lf_and_one_taken_apart(shop, lift):
    assert build_in(lift, "spring", "strut").text == ("1 Spring built into Strut, which is in A3.")
    build_in(lift, "mount", "strut")
    asked = lift.take("strut")
    assert "With it: 1 Spring, 1 Mount." in asked.text
    assert lift.take("LF").text == "1 Strut installed at LF. 1 of 2 on. With it: 1 Spring, 1 Mount."
    assert "Spring" in lift.take("LF").text, "the corner knows what is in the strut"
    assert "built into Strut (1 in A3, 1 installed at LF)" in " ".join(
        part_found(shop.shop, shop.spring).places
    )
    lift.take("mount")
    asked = lift.take("remove")
    assert "installed at LF" in asked.text
    assert lift.yes().text == "1 Mount taken out of Strut, to the bench."
    assert shop.shop.book.at(shop.mount.id, Place(State.RECEIVED, "", OPENED)) == 1
    lift.take("undo")
    assert shop.count(shop.mount, State.ASSEMBLED) == 1


def test_what_waits_for_a_spring_sees_it_in_the_strut(shop, lift):
    with shop.shop.transaction("", terminal="office") as tx:
        hub = tx.change(shop.hub, install_after=(shop.spring.id,), positions=("LF",))
        tx.change(shop.spring, needed=1)
    assert waits_for(shop.shop, hub) == ("Spring",)
    build_in(lift, "spring", "strut")
    assert waits_for(shop.shop, hub) == ("Spring",)
    lift.take("strut")
    lift.take("LF")
    assert waits_for(shop.shop, hub) == ()


def test_several_at_once_and_what_is_built_in_is_shown_with_its_carrier(shop, lift):
    lift.take("spring", 2)
    assert "2 Spring" in lift.take("assemble").text
    assert lift.take("strut").text.startswith("2 Spring built into Strut")
    asked = lift.take("spring")
    assert "Spring is built into Strut" in asked.text
    assert "Install 1 Strut" in lift.yes().text
    lift.take("spring")
    assert "Take 1 Spring out of Strut" in lift.typed("1").text
    lift.take("A4")
    assert lift.yes().text == "1 Spring taken out of Strut, to A4."


def test_a_carrier_that_was_never_received_is_asked_and_received_with_it(shop, lift):
    before = shop.bytes()
    lift.take("spring")
    lift.take("assemble")
    asked = lift.take(shop.hub.tag)
    assert "Hub: Never received" in asked.text
    lift.drop()
    assert shop.bytes() == before
    build_in(lift, "spring", shop.hub.tag)
    assert lift.yes().state == "assembled"
    assert shop.count(shop.hub, State.RECEIVED) == 1
    lift.take("undo")
    assert shop.count(shop.hub, State.ORDERED) == 1
    assert shop.count(shop.spring, State.RECEIVED) == 2


@pytest.mark.parametrize("said", ["spring", "Strut"])
def test_what_cannot_be_is_refused(shop, lift, said):
    build_in(lift, "strut", "spring")
    lift.take("spring")
    lift.take("assemble")
    answer = lift.take(said)
    assert answer.said == "stop"
    assert "itself" in answer.text or "take it apart first" in answer.text


def test_the_carrier_is_named_by_words_or_a_number(shop, lift):
    lift.take("assemble")
    lift.take("spring")
    assert [choice.label for choice in lift.question.question.choices] == ["Strut", "Mount"]
    assert lift.typed("str").text.startswith("1 Spring built into Strut")
    lift.take("assemble")
    assert lift.typed("1").said == "done"
    assert shop.count(shop.spring, State.ASSEMBLED) == 2


def test_a_name_that_no_part_has_is_asked_again(shop, lift):
    lift.take("assemble")
    lift.take("spring")
    before = shop.bytes()
    assert lift.typed("gearbox").text.startswith("No part is called “gearbox”. Into what is Spring built?")
    assert shop.bytes() == before
    assert lift.typed("str").state == "assembled"


def test_the_card_survives_closing_the_terminal(shop, lift):
    lift.take("spring")
    lift.take("assemble")
    lift.card.remember(lift.shop, lift.terminal)
    again = type(lift)(shop.reopened(), "lift", station="lift")
    assert "Into what is Spring built?" in again.card_again().text
    assert again.take("strut").state == "assembled"


def test_the_carrier_comes_off_with_what_is_in_it(shop, lift):
    build_in(lift, "spring", "strut")
    lift.take("strut")
    lift.take("LF")
    lift.take("strut")
    assert "With it: 1 Spring." in lift.take("remove").text
    assert "With it: 1 Spring." in lift.yes().text


def test_what_is_built_in_is_not_still_to_go_on_by_itself(shop, lift):
    with shop.shop.transaction("", terminal="office") as tx:
        tx.enter(verbs.stock(shop.spring.id, 1))
    lift.take("spring", 2)
    lift.take("assemble")
    lift.take("strut")
    lines = today_lines(shop.shop, date(2026, 11, 25))
    assert {line.subject for line in lines if line.kind == "install"} == {shop.strut.id, shop.mount.id}


def test_of_several_carriers_those_on_the_bench_come_first_and_what_the_books_do_not_know_has_a_mark(
    shop, lift
):
    lift.take("strut")
    lift.take("LF")
    said = build_in(lift, "spring", "strut")
    assert said.said is Said.DONE
    assert said.text == (
        "1 Spring built into Strut on the bench (1 here, 1 on the vehicle). Which one has it the books do "
        "not keep: until all have one, lists say so with a ?."
    )
    _, row = lift_row(lift.at, shop.shop.parts.get(shop.spring.id))
    assert row.cells[2] == "1? of 2"
    assert lift.take("LF").text.startswith("LF: 2 on: Strut, perhaps Spring.")
    said = build_in(lift, "spring", "strut")
    assert said.text == "1 Spring built into Strut on the bench (1 here, 1 on the vehicle)."
    _, row = lift_row(lift.at, shop.shop.parts.get(shop.spring.id))
    assert row.cells[2] == "1 of 2"


def test_into_what_is_on_the_vehicle_alone_is_asked_first(shop, lift):
    with shop.shop.transaction("its joint", terminal="office") as tx:
        tx.change(shop.strut, joints=(Joint("Top nuts", 3, value="40 N m", source="Sheet"),))
    for position in ("LF", "RF"):
        lift.take("strut")
        lift.take(position)
        lift.drop()
        lift.take("done")
    asked = build_in(lift, "spring", "strut")
    assert asked.said is Said.QUESTION
    assert asked.text == (
        "Strut is installed at LF and installed at RF, and none is on the bench. If it came off for that, "
        "remove it first: its joints are open then. Build 1 Spring into Strut all the same? Enter."
    )
    assert shop.count(shop.spring, State.ASSEMBLED) == 0
    assert lift.yes().text == "1 Spring built into Strut (1 installed at LF, 1 installed at RF)."
