"""A list copied from an earlier build: its lines, codes, kits and order of work, never what was done."""

import pytest

from shoptui.domain.codes import normal
from shoptui.domain.places import State
from shoptui.domain.records import HARDWARE, HardwareLine, Joint, KitLine, LearnedCode, Part
from shoptui.jobs.answers import Said
from shoptui.jobs.copy_list import copy_list
from shoptui.jobs.undo import undo


@pytest.fixture
def earlier(made):
    """The wagon's list with an order of work, a kit, a carton's code and an original."""
    with made.shop.transaction("list", terminal="office") as tx:
        tx.change(made.rotor, install_after=(made.hub.id,), sponsor=True)
        kit = tx.add(Part(0, "KIT", "", made.build.id, "Front kit", section="Brakes"))
        tx.change(kit, kit=(KitLine(made.hub.id), KitLine(made.clip.id, 4)))
        tx.add(LearnedCode(0, "CARTON-7", normal("CARTON-7"), "parts", made.clip.id, 2))
        original = tx.add(Part(0, "", "", made.build.id, "Old rotor", original=True))
        tx.change(made.hub, replaces=(original.id,))
    return made.build


def lines(made):
    return {part.description: part for part in made.shop.parts.all() if part.build == made.other.id}


def copy(made, source, **which):
    answer = copy_list(made.at("office", "coupe"), source, **which)
    assert answer.said is Said.QUESTION, answer.text
    return answer.question.yes()


def test_a_list_is_copied_after_it_was_said(made, earlier):
    before = made.bytes()
    answer = copy_list(made.at("office", "coupe"), earlier)
    assert answer.text.startswith(
        "Copy 5 lines of Wagon to the list of Coupe: Brake rotor, Hub, Hood and 2 more?"
    )
    assert made.bytes() == before
    assert answer.question.yes().text.startswith("Copied 5 lines of Wagon to the list of coupe. 1 mention")
    copies = lines(made)
    assert set(copies) == {"Mirror", "Brake rotor", "Hub", "Hood", "Clip", "Front kit"}
    rotor, kit = copies["Brake rotor"], copies["Front kit"]
    assert (rotor.needed, rotor.positions, rotor.sponsor) == (2, ("LF", "RF"), False)
    assert rotor.install_after == (copies["Hub"].id,)
    assert kit.kit == (KitLine(copies["Hub"].id), KitLine(copies["Clip"].id, 4))
    assert copies["Hub"].replaces == ()
    assert rotor.code == rotor.tag != made.rotor.tag
    assert not made.count(rotor, *State)


def test_a_printed_code_stands_for_the_copy_at_its_build(made, earlier):
    copy(made, earlier)
    made.shop.remember("office", build=made.other.id)
    assert made.scans("parts", "office").take("CARTON-7").subject == lines(made)["Clip"].id


def test_a_section_or_chosen_lines_with_what_is_in_their_kits(made, earlier):
    copy(made, earlier, section="body")
    assert set(lines(made)) == {"Mirror", "Hood"}
    kit = made.shop.parts.by_code("KIT")
    copy(made, earlier, only=(kit.id,))
    assert set(lines(made)) == {"Mirror", "Hood", "Front kit", "Hub", "Clip"}


def test_what_is_there_already_is_not_doubled_and_is_pointed_at(made, earlier):
    copy(made, earlier, only=(made.hub.id,))
    hub = lines(made)["Hub"]
    answer = copy_list(made.at("office", "coupe"), earlier)
    assert "1 is there already" in answer.text
    answer.question.yes()
    assert lines(made)["Brake rotor"].install_after == (hub.id,)
    assert "every one of them is there already" in copy_list(made.at("office", "coupe"), earlier).text


def test_a_copy_is_undone_by_itself(made, earlier):
    copy(made, earlier)
    assert undo(made.at("office")).said is Said.DONE
    assert set(lines(made)) == {"Mirror"}


def test_what_cannot_be_copied(made, earlier):
    assert "itself" in copy_list(made.at("office"), earlier).text
    assert "no line" in copy_list(made.at("office", "coupe"), earlier, section="Glass").text
    with made.shop.transaction("done", terminal="office") as tx:
        tx.change(made.other, status="finished")
    assert "is finished" in copy_list(made.at("office", "coupe"), earlier).text


def test_hardware_and_joints_are_copied_and_hold_what_is_on_that_list(made):
    with made.shop.transaction("fastened", terminal="office") as tx:
        bolt = tx.add(Part(0, "HW-1", "", None, "Bolt", kind=HARDWARE, designation="M8 x 20 - 8.8"))
        joint = Joint("flange", 5, "M8", value="25 N m", source="Sheet", clamps=(made.hub.id,))
        tx.change(made.rotor, hardware=(HardwareLine(bolt.id, 5),), joints=(joint,))
    copy_list(made.at("office", "coupe"), made.build, section="Brakes").question.yes()
    copies = {part.description: part for part in made.shop.parts.all() if part.build == made.other.id}
    rotor = copies["Brake rotor"]
    assert rotor.hardware == (HardwareLine(bolt.id, 5),), "hardware is there for every build"
    assert [(each.name, each.value, each.clamps) for each in rotor.joints] == [
        ("flange", "25 N m", (copies["Hub"].id,))
    ]
    with made.shop.transaction("taken off the list", terminal="office") as tx:
        for part in copies.values():
            tx.change(part, withdrawn=True)
    only = (made.rotor.id,)
    answer = copy_list(made.at("office", "coupe"), made.build, only=only).question.yes()
    assert "1 mention of lines that are not on it left out" in answer.text
