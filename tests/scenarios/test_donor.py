"""A donor lamp is bought for its lens."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import Place, State
from shoptui.domain.records import Part
from shoptui.jobs.strip import ask_strip


@pytest.fixture
def shop(made):
    with made.shop.transaction("", terminal="office") as tx:
        made.lamp = tx.add(Part(0, "lamp", "", made.build.id, "Donor lamp"))
        made.lens = tx.add(Part(0, "lens", "", made.build.id, "Tail lens", needed=1))
        made.bulb = tx.add(Part(0, "bulb", "", made.build.id, "Bulb", needed=2))
        tx.enter(verbs.stock(made.lamp.id, 1, to=made.a3.id))
    return made


def asked(shop, station="lift"):
    scans = shop.scans(station)
    scans.asked(ask_strip(shop.at("lift"), shop.lamp))
    return scans


def test_the_lens_comes_out_into_a_bin_and_the_lamp_goes(shop):
    scans = asked(shop)
    before = shop.shop.book.places(shop.lamp.id)
    assert "the rest of it goes" in scans.take("lens").text
    assert "to A4" in scans.take("A4").text
    assert shop.shop.book.places(shop.lamp.id) == before
    assert scans.yes().text == "1 Tail lens out of Donor lamp, to A4. Donor lamp is gone, stripped."
    assert shop.shop.book.at(shop.lens.id, Place(State.RECEIVED, shop.a4.id)) == 1
    assert shop.count(shop.lamp, State.GONE) == 1
    scans.take("undo")
    assert shop.count(shop.lamp, State.RECEIVED) == 1
    assert shop.count(shop.lens, State.RECEIVED) == 0


def test_it_stays_while_more_comes_out(shop):
    scans = asked(shop)
    scans.typed("tail")
    assert "still here" in scans.typed("1").text
    scans.asked(ask_strip(shop.at("lift"), shop.lamp, 2))
    scans.take("bulb")
    scans.yes()
    assert shop.count(shop.bulb, State.RECEIVED) == 2
    assert shop.count(shop.lamp, State.GONE) == 1


def test_a_name_that_no_list_has_is_listed_as_what_came_out(shop):
    scans = asked(shop)
    before = shop.bytes()
    answer = scans.typed("backing plate")
    assert answer.text.startswith("“backing plate” is new: it is listed. 1 backing plate out of Donor lamp")
    assert shop.bytes() == before
    assert scans.take("A4").text.startswith("“backing plate” is new")
    assert scans.yes().text == "1 backing plate out of Donor lamp, to A4. Donor lamp is gone, stripped."
    (plate,) = (part for part in shop.shop.parts.all() if part.description == "backing plate")
    assert (plate.build, plate.original, plate.needed) == (shop.build.id, False, 1)
    assert shop.shop.book.at(plate.id, Place(State.RECEIVED, shop.a4.id)) == 1
    scans.take("undo")
    assert shop.shop.parts.get(plate.id).withdrawn
    assert shop.count(shop.lamp, State.RECEIVED) == 1


@pytest.mark.parametrize(
    ("number", "needed", "told"), [("", 2, "to order again"), ("2", 1, "no longer needed")]
)
def test_a_donor_that_its_line_wants_is_asked_about(shop, number, needed, told):
    with shop.shop.transaction("", terminal="office") as tx:
        tx.change(shop.lamp, needed=2)
    scans = asked(shop)
    assert "Enter: the rest of it goes, 1 to order again." in scans.take("lens").text
    answer = scans.typed(number) if number else scans.yes()
    assert answer.text.endswith(f"Donor lamp is gone, stripped, 1 {told}.")
    assert shop.shop.parts.get(shop.lamp.id).needed == needed


def test_no_leaves_everything_and_itself_cannot_come_out(shop):
    before = shop.bytes()
    scans = asked(shop)
    scans.take("lens")
    scans.take("no")
    assert asked(shop).take("lamp").said == "stop"
    assert shop.bytes() == before
