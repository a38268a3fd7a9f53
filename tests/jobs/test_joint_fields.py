"""Joints as a form and a file say them: what can be meant, and one sentence for what cannot."""

import json
from dataclasses import replace

import pytest

from shoptui.domain.fasteners.surfaces import Prepared
from shoptui.domain.joint_sheets import handbook_of
from shoptui.domain.records import Joint
from shoptui.domain.row_text import row_text
from shoptui.jobs.answers import Said
from shoptui.jobs.asked import Sense
from shoptui.jobs.at import shown
from shoptui.jobs.check import check
from shoptui.jobs.edit import edit, written
from shoptui.jobs.import_shop import import_shop
from shoptui.jobs.joint_fields import JOINTS
from shoptui.jobs.joint_words import fasteners_words
from shoptui.store.documents import plain
from shoptui.store.files_in import ImportRefusedError


def change(made, part, rows):
    part = made.shop.parts.get(part.id)
    before = written(made.shop, part)
    return edit(made.at("office"), part, {**before, "joints": row_text(rows)}, before=before)


def sense(made):
    return Sense(made.shop)


NUTS = {"name": "Nuts", "fasteners": "5", "designation": "M12 x 1,5 10.9", "value": "110 Nm"}


def joint(made, **more):
    answer = change(made, made.hub, [{**NUTS, **more}])
    assert answer.said is Said.DONE, answer.text
    return made.shop.parts.get(made.hub.id).joints[0]


def test_what_is_typed_stands_in_one_way(made):
    found = joint(made, pattern="Star", passes="3", clamps="Hood", second_check="yes")
    assert (found.designation, found.value) == ("M12 x 1.5 - 10.9", "110 N m")
    assert (found.pattern, found.passes, found.prepared) == ("star", 3, "not said")
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
        ({"prepared": "glued"}, "One of not said, dry, oiled, threadlocker"),
        ({"pattern": "spiral"}, "One of any, cross, star"),
        ({"passes": "9"}, "1 to 6"),
        ({"aim": "112"}, "an aim is for a range"),
        ({"value": "100 to 120", "aim": "150"}, "an aim from 100 to 120 N m was expected"),
        ({"fasteners": "0"}, "a check that is signed has no value"),
        ({"plain": "yes"}, "needs its maker's sheet"),
        ({"clamps": "Unicorn"}, "no part is called that"),
        ({"sheet": "sheet.pdf"}, "A file kept with the part was expected (none yet)"),
        ({"engagement": "length 40, blue"}, 'joint 1, Engagement: length 40, blue: where "blue"'),
        ({"engagement": "grip 0"}, "Grip above 0"),
        ({"fasteners": "0", "value": "", "engagement": "grip 5"}, "a check that is signed engages nothing"),
    ],
)
def test_what_cannot_be_meant_has_one_sentence(made, more, words):
    answer = change(made, made.hub, [{**NUTS, **more}])
    assert (answer.said, answer.field) == (Said.STOP, "joints")
    assert words in answer.text


def test_a_name_twice_is_refused(made):
    assert "there twice" in change(made, made.hub, [NUTS, {**NUTS, "name": "nuts"}]).text


def test_an_engagement_stands_in_one_way_and_is_no_reading_s_business(made):
    without = joint(made)
    found = joint(made, engagement="grip 8mm; length 2,6 cm into steel; 2 x washers of 1,5")
    assert found.engagement == "length 26, grip 8, into steel, 2 washers 1.5"
    assert found.sheet_says == without.sheet_says


def test_an_old_joint_says_what_it_always_said():
    found = Joint("Nuts", 5, "M12 x 1.5", value="110 N m", source="Sheet", page="4")
    assert found.sheet_says == "5 | M12 x 1.5 | dry | 110 N m |  | Sheet | 4"
    assert replace(found, prepared=Prepared.DRY).sheet_says == found.sheet_says
    assert replace(found, prepared=Prepared.OILED).sheet_says != found.sheet_says


def test_threads_of_which_the_sheet_says_nothing_are_not_called_dry(made):
    not_said, dry = joint(made), joint(made, prepared="Dry")
    assert fasteners_words(not_said, 5) == "5 x M12 x 1.5 - 10.9"
    assert fasteners_words(dry, 5) == "5 x M12 x 1.5 - 10.9, dry"
    row = {"name": "Nuts", "fasteners": "5", "prepared": "not said", "value": "110 N m"}
    assert JOINTS.words(row) == "Nuts, 5, 110 N m"
    assert "prepared" not in plain(not_said)


def test_a_handbook_s_value_says_that_it_assumes_dry_threads():
    bracket = Joint("Bolts", 2, "M8 8.8", plain=True)
    assert fasteners_words(bracket, 2) == "2 x M8 - 8.8, dry assumed"
    assumed = handbook_of(bracket)
    assert assumed.tightening.assumptions[0] == "dry threads assumed: how they are prepared is not said"
    assert assumed.torque == handbook_of(replace(bracket, prepared=Prepared.DRY)).torque


def test_a_line_says_a_check_as_what_it_is():
    assert (
        JOINTS.words({"name": "Bled", "fasteners": "0", "prepared": "dry"}) == "Bled, a check that is signed"
    )
    assert JOINTS.words({"name": "Nuts", "fasteners": "5", "prepared": "dry"}) == "Nuts, 5, dry"


SHORT = {**NUTS, "engagement": "length 26, grip 8, into steel, spacer 8"}


def test_what_engages_too_little_is_asked_about_and_taken_all_the_same(made):
    asked = JOINTS.wrong(sense(made), SHORT)
    assert asked.said is Said.QUESTION
    assert asked.text == (
        "Nuts: short: 10 mm of thread engage, at least 12 mm (1 d in steel) are wanted, 2 mm more (a rule of "
        "thumb, the maker's sheet goes first). Enter: take it as it is."
    )
    assert JOINTS.wrong(sense(made), {**SHORT, "engagement": "length 26, grip 8, into steel"}) is None
    assert JOINTS.wrong(sense(made), {**SHORT, "engagement": ""}) is None
    assert change(made, made.hub, [SHORT]).said is Said.DONE


def test_what_engages_too_little_is_a_problem_and_what_moves_the_vehicle_is_told_first(made):
    with made.shop.transaction("turned round", terminal="office") as tx:
        tx.change(made.clip, section="Brakes")
    change(made, made.hood, [SHORT])
    long = {"engagement": "length 40, grip 20, into steel, hole 18", "designation": "M10 8.8"}
    change(made, made.clip, [{**NUTS, **long}])
    told = [(each.where, each.what) for each in check(made.shop) if "rule of thumb" in each.what]
    assert [where.removeprefix("part ") for where, _ in told] == [
        shown(made.clip.code),
        shown(made.hood.code),
    ]
    assert (
        "bottoms out: 20 mm of bolt reach into 18 mm of thread, 2 mm too long: 2 washers of 2 mm"
        in told[0][1]
    )
    assert "short: 10 mm of thread engage" in told[1][1]


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


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("passes = 2", 'aim = "200"', "Line 15, aim: An aim is for a range"),
        (
            "passes = 2",
            'engagement = "grip 5, blue"',
            'Line 15, engagement: grip 5, blue: where "blue"',
        ),
        (
            "fasteners = 0",
            'engagement = "grip 5"\nfasteners = 0',
            "Line 21, engagement: A check that is signed",
        ),
        ('"Turns freely"', '"axle nut"', "Line 20, name: It is there twice"),
        ("passes = 2", "plain = true", "Line 15, plain: Plain is for steel brackets"),
    ],
)
def test_what_cannot_be_about_a_joint_is_named_by_its_own_line_and_once(made, tmp_path, old, new, words):
    path = tmp_path / "torque.toml"
    path.write_text(FILE.replace(old, new))
    with pytest.raises(ImportRefusedError) as refused:
        import_shop(made.shop, path, terminal="office")
    assert words in str(refused.value)
    assert str(refused.value).count("Line ") == 1


def test_an_engagement_from_a_file(made, tmp_path):
    path = tmp_path / "torque.toml"
    path.write_text(FILE.replace("passes = 2", 'engagement = "length 30, grip 12,5; into alloy"'))
    import_shop(made.shop, path, terminal="office")
    found = made.shop.parts.get(made.hub.id).joints[0]
    assert found.engagement == "length 30, grip 12.5, into aluminium"


def test_a_file_that_cannot_be_meant_names_lines_and_changes_nothing(made, tmp_path):
    path = tmp_path / "torque.toml"
    path.write_text(FILE.replace("250 N m", "lots").replace("high = 200", "high = 10"))
    before = made.bytes()
    with pytest.raises(ImportRefusedError) as refused:
        import_shop(made.shop, path, terminal="office")
    assert "More than the lowest mark, 20, was expected; 10 came" in str(refused.value)
    assert "A torque such as" in str(refused.value)
    assert made.bytes() == before
