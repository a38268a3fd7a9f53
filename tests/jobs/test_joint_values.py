"""A joint's value at its form, from a file, in the check: as sheets print it, asked about where far off."""

import pytest

from shoptui.domain.row_text import row_text
from shoptui.jobs.answers import Said
from shoptui.jobs.asked import Sense
from shoptui.jobs.check import check
from shoptui.jobs.edit import edit, written
from shoptui.jobs.import_shop import import_shop
from shoptui.jobs.joint_fields import JOINTS
from shoptui.store.files_in import ImportRefusedError

NUTS = {"name": "Nuts", "fasteners": "5", "designation": "M10x1.25 10.9", "source": "Sheet"}
FAR = "1000 N m takes M10 x 1.25 - 10.9 past its proof load, however its threads are prepared"
LOW = "9 N m is less than a tenth of what M14 - 10.9 is usually given"


def change(made, rows):
    part = made.shop.parts.get(made.hub.id)
    before = written(made.shop, part)
    return edit(made.at("office"), part, {**before, "joints": row_text(rows)}, before=before)


@pytest.mark.parametrize(
    ("typed", "stands"),
    [
        ("115\u00b15", "115 +/- 5 N m"),
        ("80 Nm -5/+10", "80 +10/-5 N m"),
        ("110 N m (81 lb ft)", "110 N m"),
        ("40 Nm + 1/2 turn", "40 N m + 180 deg"),
        ("40 Nm, then 90\u00b0", "40 N m + 90 deg"),
    ],
)
def test_values_as_sheets_print_them(made, typed, stands):
    assert change(made, [{**NUTS, "value": typed}]).said is Said.DONE
    assert made.shop.parts.get(made.hub.id).joints[0].value == stands


def test_a_value_that_is_far_off_is_asked_about_and_taken_all_the_same(made):
    asked = JOINTS.wrong(Sense(made.shop), {**NUTS, "value": "1000"})
    assert (asked.said, asked.text) == (
        Said.QUESTION,
        f"Nuts: {FAR}. Misread, or in another unit? Enter: take it as it is.",
    )
    assert JOINTS.wrong(Sense(made.shop), {**NUTS, "value": "76 N m"}) is None
    assert change(made, [{**NUTS, "value": "1000 N m"}]).said is Said.DONE
    told = [each for each in check(made.shop) if FAR in each.what]
    assert [each.what for each in told] == [f"joint Nuts: {FAR}"]
    assert told[0].remedy.startswith("Misread, or in another unit? Read the sheet again")


FILE = """
[[joints]]
part = "Hub"
name = "Axle nut"
fasteners = 1
designation = "M10x1.25 10.9"
value = "1000 N m"

[[joints]]
part = "Hub"
name = "Studs"
fasteners = 4
designation = "M14 10.9"
value = "9 N m"
"""


def taken(made, tmp_path, text):
    path = tmp_path / "torque.toml"
    path.write_text(text)
    return import_shop(made.shop, path, terminal="office").text


def test_a_file_s_far_off_values_are_taken_and_said(made, tmp_path):
    assert taken(made, tmp_path, FILE) == (
        f"2 joints imported from torque.toml. Taken as it is, and to be looked at: Line 2: Axle nut: {FAR}. "
        "Misread, or in another unit? And 1 more. All are in shoptui check."
    )
    whats = [each.what for each in check(made.shop)]
    assert f"joint Axle nut: {FAR}" in whats
    assert f"joint Studs: {LOW}" in whats


def test_a_file_with_values_that_bolts_bear_says_nothing_more(made, tmp_path):
    right = FILE.replace("1000 N m", "76 N m").replace('"9 N m"', '"180 N m, then 1/4 turn"')
    assert taken(made, tmp_path, right) == "2 joints imported from torque.toml."
    assert made.shop.parts.get(made.hub.id).joints[1].value == "180 N m + 90 deg"


@pytest.mark.parametrize(
    ("value", "words"),
    [
        ("115\u00b15", "A unit behind the torque is needed in a file, such as 110 N m; 115\u00b15 came."),
        ("115 -5/+10", "A unit behind the torque is needed in a file, such as 110 N m; 115 -5/+10 came."),
        ("1.250 N m", "A torque could be 1250 or 1.25 where 1.250 is written; write one of them."),
        ("1,250 N m", "A torque could be 1250 or 1.25 where 1,250 is written; write one of them."),
        ("20 + 90 + 90", "A torque with its unit, then angles with deg behind each"),
        ("110 N m (91 lb ft)", "One torque in two units was expected; 110 N m and 91 lbf ft came"),
    ],
)
def test_what_a_file_cannot_mean_is_one_sentence_at_its_line(made, tmp_path, value, words):
    with pytest.raises(ImportRefusedError) as refused:
        taken(made, tmp_path, FILE.replace("1000 N m", value))
    assert f"Line 7, value: {words}" in str(refused.value)
    assert str(refused.value).count("Line ") == 1
