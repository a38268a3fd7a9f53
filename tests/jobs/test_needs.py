"""What a shot asks of: a part, all of a section, or what is in a kit."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import KitLine, Part
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs.answers import Said
from shoptui.jobs.check import check
from shoptui.jobs.missing import missing
from shoptui.jobs.needs import asked, asked_of
from shoptui.jobs.set_aside import open_part

TODAY = date(2026, 11, 25)


@pytest.fixture
def kit(made):
    """A kit of both rotors and the hub, all of them sealed here; a sponsor wants the hub seen."""
    with made.shop.transaction("a kit", terminal="office") as tx:
        inside = (KitLine(made.rotor.id, 2), KitLine(made.hub.id))
        kit = tx.add(Part(0, "KIT", "", made.build.id, "Axle kit", section="Brakes", needed=1, kit=inside))
        tx.change(made.hub, sponsor=True)
        for part, qty in ((made.rotor, 2), (made.hub, 1)):
            tx.enter(verbs.receive(made.shop.book, part.id, qty, order=made.order.id))
    return kit


def shoot(made, *needs):
    with made.shop.transaction("filming", terminal="office") as tx:
        return tx.add(Shoot(0, "day1", "", TODAY, shots=(Shot("the kit", needs),)))


def test_a_kit_stands_for_what_is_in_it(made, kit):
    found = list(asked(made.shop, Need(Condition.SEALED, part=kit.id, qty=1)))
    assert [(part.id, need.part, need.qty) for part, need in found] == [
        (made.rotor.id, made.rotor.id, 2),
        (made.hub.id, made.hub.id, 1),
    ]
    assert asked_of(made.shop, Need(Condition.SEALED, part=kit.id), made.hood) is None


def test_a_shot_of_a_kit_is_ready_once_its_contents_are_and_they_are_kept(made, kit):
    day = shoot(made, Need(Condition.SEALED, part=kit.id))
    report = missing(made.shop, day, TODAY)
    assert (report.ready, report.wanted, report.lines) == (2, 2, ())
    answer = open_part(made.at("door"), made.hub, 1)
    assert answer.said is Said.QUESTION
    assert "shot 1 (the kit) needs it sealed" in answer.text
    answer.question.yes()
    (line,) = missing(made.shop, day, TODAY).lines
    assert line.part.id == made.hub.id
    assert check(made.shop) == ()  # the sponsor's hub is seen in its kit


def test_a_section_asks_a_kit_line_for_no_pieces(made, kit):
    day = shoot(made, Need(Condition.SEALED, build=made.build.id, section="brakes"))
    report = missing(made.shop, day, TODAY)
    assert (report.ready, report.wanted) == (2, 2)


def test_a_finished_build_is_asked_for_nothing(made, kit):
    day = shoot(made, Need(Condition.SEALED, part=kit.id), Need(Condition.SEALED, part=made.rotor.id))
    with made.shop.transaction("done", terminal="office") as tx:
        tx.change(made.build, status="finished")
    assert missing(made.shop, day, TODAY).wanted == 0
    assert open_part(made.at("door"), made.hub, 1).said is Said.DONE
