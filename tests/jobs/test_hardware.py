"""Hardware against need, and what files say of it."""

import re

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import HARDWARE, HardwareLine, Part
from shoptui.domain.tables import ImportRefusedError
from shoptui.jobs.answers import Said
from shoptui.jobs.edit import make
from shoptui.jobs.hardware import stands, takers
from shoptui.jobs.import_parts import import_parts
from shoptui.jobs.import_shop import import_shop
from shoptui.jobs.install import install
from shoptui.jobs.order import order
from shoptui.jobs.today import today_lines
from tests.jobs.conftest import START

KINDS = """
[[bins]]
code = "D3"
kind = "drawer"

[[hardware]]
code = "HW-01"
designation = "M12x1,5 x 35 - 10.9"
description = "Caliper bolt"
finish = "zinc flake"
one_use = true
minimum = 4
pack = 10
price = "1.20"
on_hand = 7
bin = "D3"

[[hardware]]
code = "HW-02"
designation = "cotter pin 3.2 x 40"
"""

LIST = (
    "description,code,qty,hardware\nBrake caliper,CAL,2,HW-01*2; hw 02\nBracket,,1,M12 x 1.5 x 35 - 10.9*3\n"
)


@pytest.fixture
def file(tmp_path):
    def file(text, name="shop.toml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return file


@pytest.fixture
def kinds(made, file):
    assert "2 kinds of hardware imported" in import_shop(made.shop, file(KINDS), terminal="office").text
    import_parts(made.shop, file(LIST, "list.csv"), "wagon", terminal="office")
    return made.shop.parts.by_code("HW-01"), made.shop.parts.by_code("HW-02")


def needs(made, build=None):
    return {
        each.part.code: (each.need.needed, each.need.on_hand, each.need.short, each.need.to_buy)
        for each in stands(made.shop, build)
    }


def test_what_the_file_says_is_there(made, kinds):
    bolt, pin = kinds
    assert (bolt.designation, bolt.finish, bolt.one_use) == ("M12 x 1.5 x 35 - 10.9", "zinc flake", True)
    assert (bolt.minimum, bolt.sold_as, bolt.pieces, bolt.build) == (4, "pack", 10, None)
    assert (pin.designation, pin.tag[0]) == ("cotter pin 3.2 x 40", "H")
    assert made.count(bolt, State.RECEIVED) == 7
    caliper = made.shop.parts.by_code("CAL")
    assert caliper.hardware == (HardwareLine(bolt.id, 2), HardwareLine(pin.id, 1))


def test_the_need_of_what_is_not_on_yet_to_the_nearest_pack(made, kinds):
    # 2 calipers with 2 bolts and 3 for the bracket: 7, which are here; with the minimum of 4 a pack is short.
    assert needs(made) == {"HW-01": (7, 7, 0, 10), "HW-02": (2, 0, 2, 2)}
    assert needs(made, made.other.id) == {}
    caliper = made.shop.parts.by_code("CAL")
    with made.shop.transaction("here", terminal="office") as tx:
        tx.enter(verbs.stock(caliper.id, 1))
    install(made.at("lift"), caliper, 1)
    assert needs(made)["HW-01"] == (5, 5, 0, 10)
    order(made.at("office"), kinds[0], 10, supplier="brakes")
    assert needs(made)["HW-01"] == (5, 5, 0, 0)
    (taker,) = takers(made.shop, kinds[1])
    assert (taker.part.code, taker.qty, taker.ahead, taker.renew) == ("CAL", 1, 1, 0)


def test_today_says_what_is_short(made, kinds):
    lines = [line for line in today_lines(made.shop, START.date()) if line.kind == "bolts"]
    assert [(line.words, line.station, line.subject) for line in lines] == [
        ("short for what is to go on: 2 cotter pin 3.2 x 40", "hardware", kinds[1].id)
    ]
    order(made.at("office"), kinds[1], 2, supplier="brakes")
    assert not [line for line in today_lines(made.shop, START.date()) if line.kind == "bolts"]


def test_a_finished_build_needs_nothing(made, kinds):
    with made.shop.transaction("finished", terminal="office") as tx:
        tx.change(made.build, status="finished")
    assert needs(made)["HW-01"] == (0, 7, 0, 0)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('designation = "M12 blue"', 'M12 blue: where "blue" stands'),
        ('designation = "bolt 3/8"', "leaves open how many threads to the inch"),
        ('designation = ""', "This is needed"),
        ('description = "a bolt"', "designation: This is needed"),
        ('designation = "M8"\npack = 0', "1 to"),
        ('designation = "M8"\nminimum = -1', "whole"),
        ('designation = "M8"\nbin = "Z9"', "There is no bin Z9"),
        ('designation = "M8"\ncode = "A3"', "already there, as a bin"),
        ('designation = "M8"\ntag = "P7K3QXV"', "A tag that begins with H was expected"),
        ('designation = "M8"\ncolour = "red"', "colour"),
    ],
)
def test_wrong_hardware_is_named(made, file, text, words):
    before = made.bytes()
    with pytest.raises(ImportRefusedError) as refused:
        import_shop(made.shop, file(f"[[hardware]]\n{text}\n"), terminal="office")
    assert words in str(refused.value)
    assert made.bytes() == before


@pytest.mark.parametrize(
    ("cell", "words"),
    [
        ("HW-09*2", "There is no hardware HW-09"),
        ("HW-01*0", 'Hardware such as "HW-01*5'),
        ("*3", "Hardware such"),
    ],
)
def test_wrong_hardware_of_a_part_is_named(made, file, kinds, cell, words):
    with pytest.raises(ImportRefusedError, match=re.escape(words)):
        import_parts(
            made.shop, file(f"item,hardware\nDoor,{cell}\n", "doors.csv"), "wagon", terminal="office"
        )


def new(made, **values):
    return make(made.at("office"), Part, values, build=None, kind=HARDWARE)


def test_a_new_kind_is_made_in_a_form(made):
    answer = new(made, designation="3/8-16 grade 8 x 1 1/2", description="Bracket bolt", minimum="20")
    assert answer.text == "New: Bracket bolt 3/8-16 UNC x 1 1/2 - grade 8."
    assert made.shop.parts.get(answer.subject).tag.startswith("H")


@pytest.mark.parametrize(
    ("values", "field", "words"),
    [
        ({"designation": "", "description": "Bolt"}, "designation", "A designation such as"),
        ({"designation": "M10 class 11.9", "description": "Bolt"}, "designation", "class that exists"),
        ({"designation": "M10 grade 8", "description": "Bolt"}, "designation", "grade 8"),
        ({"designation": "M8", "description": "Bolt", "minimum": "-2"}, "minimum", "0 or more"),
        ({"designation": "M8", "description": "Bolt", "finish": "a\x07"}, "finish", "control"),
        ({"designation": "M8", "description": "Bolt", "one_use": "often"}, "one_use", '"yes" or "no"'),
    ],
)
def test_what_a_form_of_hardware_refuses(made, values, field, words):
    answer = new(made, **values)
    assert (answer.said, answer.field) == (Said.STOP, field)
    assert words in answer.text
