"""Joints as a form and a file say them: what can be meant, and one sentence for what cannot."""

import json

import pytest

from shoptui.domain.row_text import row_text
from shoptui.jobs.answers import Said
from shoptui.jobs.edit import edit, written
from shoptui.jobs.import_shop import import_shop
from shoptui.store.files_in import ImportRefusedError


def change(made, part, rows):
    part = made.shop.parts.get(part.id)
    before = written(made.shop, part)
    return edit(made.at("office"), part, {**before, "joints": row_text(rows)}, before=before)


NUTS = {"name": "Nuts", "fasteners": "5", "designation": "M12 x 1,5 10.9", "value": "110 Nm"}


def joint(made, **more):
    answer = change(made, made.hub, [{**NUTS, **more}])
    assert answer.said is Said.DONE, answer.text
    return made.shop.parts.get(made.hub.id).joints[0]


def test_what_is_typed_stands_in_one_way(made):
    found = joint(made, pattern="Star", passes="3", clamps="Hood", second_check="yes")
    assert (found.designation, found.value) == ("M12 x 1.5 - 10.9", "110 N m")
    assert (found.pattern, found.passes, found.prepared) == ("star", 3, "dry")
    assert found.clamps == (made.hood.id,)
    again = written(made.shop, made.shop.parts.get(made.hub.id))["joints"]
    assert change(made, made.hub, json.loads(again)).text.startswith("Nothing was changed")


@pytest.mark.parametrize(
    ("typed", "stands"),
    [
        ("110", "110 N m"),
        ("110+-10", "110 +/- 10 N m"),
        ("65-75 ft-lb", "65 to 75 lbf ft"),
        ("40 N\u00b7m + 90\u00b0", "40 N m + 90 deg"),
        ("8,5", "8.5 N m"),
    ],
)
def test_values_as_sheets_write_them(made, typed, stands):
    assert joint(made, value=typed).value == stands


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"name": ""}, "joint 1, Joint: Words were expected"),
        ({"fasteners": "-1"}, "0 to 40"),
        ({"designation": "M10 blue"}, 'where "blue" stands'),
        ({"designation": "3/8-16 10.9"}, "10.9"),
        ({"value": "0"}, "above 0"),
        ({"value": "120 to 110"}, "range that rises"),
        ({"value": "110 parsec"}, "A unit of torque was expected"),
        ({"value": "40 + 400 deg"}, "up to 360"),
        ({"prepared": "glued"}, "One of dry, oiled, threadlocker"),
        ({"pattern": "spiral"}, "One of any, cross, star"),
        ({"passes": "9"}, "1 to 6"),
        ({"aim": "112"}, "an aim is for a range"),
        ({"value": "100 to 120", "aim": "150"}, "an aim from 100 to 120 N m was expected"),
        ({"fasteners": "0"}, "a check that is signed has no value"),
        ({"plain": "yes"}, "needs its maker's sheet"),
        ({"clamps": "Unicorn"}, "no part is called that"),
        ({"sheet": "sheet.pdf"}, "A file kept with the part was expected (none yet)"),
    ],
)
def test_what_cannot_be_meant_has_one_sentence(made, more, words):
    answer = change(made, made.hub, [{**NUTS, **more}])
    assert (answer.said, answer.field) == (Said.STOP, "joints")
    assert words in answer.text


def test_a_name_twice_is_refused(made):
    assert "there twice" in change(made, made.hub, [NUTS, {**NUTS, "name": "nuts"}]).text


FILE = """
[[wrenches]]
code = "T-200"
name = "Click 200"
low = 20
high = 200
deviation_percent = 4
checked = "2026-09-01"

[[joints]]
part = "Hub"
name = "Axle nut"
fasteners = 1
value = "250 N m"
passes = 2
source = "Torque sheet, edition 2"

[[joints]]
part = "Hub"
name = "Turns freely"
fasteners = 0
"""


def test_joints_and_wrenches_from_a_file(made, tmp_path):
    path = tmp_path / "torque.toml"
    path.write_text(FILE)
    assert import_shop(made.shop, path, terminal="office").text == (
        "1 wrench, 2 joints imported from torque.toml."
    )
    assert [each.name for each in made.shop.parts.get(made.hub.id).joints] == ["Axle nut", "Turns freely"]
    assert made.shop.wrenches.by_code("t200").high == 200


@pytest.mark.parametrize(
    ("value", "words"),
    [
        ('"115"', "Line 14, value: A unit behind the torque is needed in a file, such as 110 N m; 115 came."),
        ("115", "Line 14, value: A unit behind the torque is needed in a file"),
        ('"1150000 N m"', "Line 14, value: A torque up to 5000 N m was expected; 1150000 N m came."),
        ('"lots"', "Line 14, value: A torque such as"),
    ],
)
def test_a_value_in_a_file_has_its_unit_and_can_be_meant(made, tmp_path, value, words):
    path = tmp_path / "torque.toml"
    path.write_text(FILE.replace('"250 N m"', value))
    assert path.read_text().splitlines()[13].startswith("value")
    with pytest.raises(ImportRefusedError) as refused:
        import_shop(made.shop, path, terminal="office")
    assert words in str(refused.value)


def test_a_file_that_cannot_be_meant_names_lines_and_changes_nothing(made, tmp_path):
    path = tmp_path / "torque.toml"
    path.write_text(FILE.replace("250 N m", "lots").replace("high = 200", "high = 10"))
    before = made.bytes()
    with pytest.raises(ImportRefusedError) as refused:
        import_shop(made.shop, path, terminal="office")
    assert "More than the lowest mark, 20, was expected; 10 came" in str(refused.value)
    assert "A torque such as" in str(refused.value)
    assert made.bytes() == before
