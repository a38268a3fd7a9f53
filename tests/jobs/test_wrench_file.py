"""Torque tools from a shop's file: what is read, and what is wrong by its line."""

from datetime import date

import pytest

from shoptui.domain.tables import ImportRefusedError
from shoptui.domain.wrenches import may_deviate
from shoptui.jobs.import_shop import import_shop

FILE = """
[[wrenches]]
name = "Click 200"
code = "T-200"
unit = "Nm"
low = 20
high = 200
kind = "type II class A"
deviation_percent = "4 %"
length_mm = 465
checked = 2026-09-01
interval_months = 6
cycles = 120
"""

KEYS = [line.partition(" ")[0] for line in FILE.splitlines()]


def imported(made, tmp_path, text):
    path = tmp_path / "tools.toml"
    path.write_text(text)
    return import_shop(made.shop, path, terminal="office", base=date(2026, 11, 25))


def test_all_of_a_tool(made, tmp_path):
    assert imported(made, tmp_path, FILE).text == "1 wrench imported from tools.toml."
    tool = made.shop.wrenches.by_code("T-200")
    assert (tool.unit, tool.low, tool.high, tool.kind) == ("N m", 20, 200, "II A")
    assert (tool.deviation_percent, tool.length_mm, tool.cycles) == (4, 465, 120)
    assert (tool.checked, tool.interval_months) == (date(2026, 9, 1), 6)


def test_what_is_usual_need_not_stand_there(made, tmp_path):
    imported(made, tmp_path, '[[wrenches]]\nname = "Beam"\nhigh = 25\n')
    (tool,) = made.shop.wrenches.all()
    assert (tool.unit, tool.kind, tool.interval_months, tool.checked, tool.gone) == (
        "N m",
        "setting",
        12,
        None,
        False,
    )


def test_an_old_scale_in_another_unit(made, tmp_path):
    imported(
        made, tmp_path, '[[wrenches]]\nname = "Old"\nunit = "kgf-cm"\nlow = 20\nhigh = 100\nkind = "1b"\n'
    )
    (tool,) = made.shop.wrenches.all()
    assert (tool.unit, tool.kind) == ("kgf cm", "I B")
    assert may_deviate(tool) == 6, "9.8 N m at most"


def test_one_that_is_gone(made, tmp_path):
    imported(made, tmp_path, FILE + 'gone = true\nbarred = "sold"\n')
    assert made.shop.wrenches.by_code("T-200").gone


@pytest.mark.parametrize(
    ("key", "value", "words"),
    [
        ("unit", '"kg"', "A unit of torque was expected"),
        ("unit", '"N"', "A unit of torque was expected"),
        ("low", "-5", "A number such as"),
        ("low", "200", "More than the lowest mark, 200, was expected; 200 came."),
        ("high", "10", "More than the lowest mark, 20, was expected; 10 came."),
        ("high", "inf", "A number such as"),
        ("high", "nan", "A number such as"),
        ("high", '"two hundred"', "A number such as"),
        ("kind", '"click"', "A type of ISO 6789 such as II A was expected"),
        ("kind", '"II H"', "Type II has the classes A to G; II H came."),
        ("deviation_percent", "400", "At most 100 was expected; 400 came."),
        ("deviation_percent", '"few"', "A number such as"),
        ("length_mm", '"long"', "A number such as"),
        ("checked", "2027-01-01", "is still to come; a day until today was expected."),
        ("checked", '"last spring"', "A day as year-month-day"),
        ("interval_months", "0", "1 to 120"),
        ("cycles", "-1", "0 to 1000000"),
    ],
)
def test_what_is_wrong_is_named_with_its_own_line(made, tmp_path, key, value, words):
    number = KEYS.index(key)
    lines = FILE.splitlines()
    lines[number] = f"{key} = {value}"
    before = made.bytes()
    with pytest.raises(ImportRefusedError) as refused:
        imported(made, tmp_path, "\n".join(lines))
    told = [line for line in str(refused.value).splitlines() if "Line " in line]
    blamed = KEYS.index("high") if "lowest mark" in words else number
    name = "high" if "lowest mark" in words else key
    assert len(told) == 1
    assert f"Line {blamed + 1}, {name}: " in told[0]
    assert words in told[0]
    assert made.bytes() == before


def test_gone_without_a_why(made, tmp_path):
    with pytest.raises(
        ImportRefusedError, match="barred: It is gone: why was expected, such as sold or lost"
    ):
        imported(made, tmp_path, FILE + "gone = true\n")
