"""The command that reports hardware."""

import csv
import io
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from shoptui.jobs.hardware import stands
from shoptui.stations.hardware.rows import hardware_row
from shoptui.store.shop import Shop


def test_text_fits_the_terminal_and_says_what_to_buy(run, sample_shop):
    ran = run("hardware")
    assert ran.code == 0
    lines = ran.out.splitlines()
    assert lines[0].split() == ["hardware", "needed", "new", "used", "ordered", "short", "buy", "where"]
    assert all(len(line) <= 80 for line in lines)
    assert any(line.startswith("Hub nut M24 x 2 - 10") and line.split()[-1] == "1" for line in lines)


def test_short_is_what_is_to_be_bought(run, sample_shop):
    found = run("hardware", "--short", "--format", "json").json
    assert {each["code"]: (each["short"], each["to_buy"]) for each in found} == {
        "HW-03": (0, 5),
        "HW-06": (1, 1),
        "HW-09": (2, 5),
        "HW-10": (6, 6),
        "HW-13": (0, 10),
    }


def test_of_one_build_only_what_that_needs(run, sample_shop):
    found = run("hardware", "--build", "longbed", "--format", "json").json
    assert {each["code"] for each in found} == {"HW-06", "HW-07", "HW-09", "HW-10", "HW-11", "HW-13"}
    assert run("hardware", "--build", "coupe").out == "No hardware.\n"
    assert run("hardware", "--build", "coupe", "--short").out == "Nothing is short.\n"


def test_csv_has_the_same(run, sample_shop):
    rows = list(csv.DictReader(io.StringIO(run("hardware", "--format", "csv").out)))
    values = run("hardware", "--format", "json").json
    assert [row["code"] for row in rows] == [each["code"] for each in values]
    (clamp,) = [row for row in rows if row["code"] == "HW-13"]
    assert (clamp["new"], clamp["used"], clamp["where"]) == ("4", "2", "drawer L4; bag G6")
    assert {row["one_use"] for row in rows} == {"yes", "no"}


def test_the_columns_are_those_that_the_manual_names(run, sample_shop):
    columns = "code,description,designation,one_use,needed,new,used,on_hand,on_order,short,"
    columns += "minimum,pack,to_buy,where"
    for short in ((), ("--short",)):
        assert run("hardware", *short, "--format", "csv").out.splitlines()[0] == columns
        for each in run("hardware", *short, "--format", "json").json:
            assert list(each) == columns.split(",")
    manual = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    assert all(f"`{column}`" in manual for column in columns.split(","))


def test_the_numbers_are_those_of_the_station(run, sample_shop):
    """The screen's rows and what is printed are the same job's."""
    printed = {each["code"]: each for each in run("hardware", "--format", "json").json}
    short = {each["code"] for each in run("hardware", "--short", "--format", "json").json}
    with closing(Shop.open(sample_shop, clock=lambda: datetime(2026, 11, 4, 9, 30, tzinfo=UTC))) as shop:
        found = stands(shop)
        assert {each.part.code for each in found} == set(printed)
        assert {each.part.code for each in found if each.short} == short
        for each in found:
            of = printed[each.part.code]
            shown = hardware_row(each).cells[1:]
            numbers = [of[key] for key in ("needed", "new", "used", "on_order")]
            assert shown[:4] == tuple(str(number or "") for number in numbers)
            assert shown[4].startswith("! ") is bool(of["to_buy"])
            assert shown[5] == str(of["to_buy"] or "")
            assert shown[4] == f"! {of['short']} short" or not of["short"]


def test_what_cannot_be(run, sample_shop, unchanged):
    ran = run("hardware", "--build", "roadster")
    assert (ran.code, ran.err) == (1, "There is no build roadster. Builds: longbed, coupe.\n")
    assert run("hardware", "--format", "xml").code == 2
    assert unchanged()


@pytest.mark.parametrize("command", ["install", "mock-up"])
def test_hardware_goes_on_with_its_part_alone(run, sample_shop, unchanged, command):
    ran = run(command, "HW-07")
    assert ran.code == 1
    assert "goes on with the part that it fastens" in ran.err
    assert unchanged()


def test_hardware_belongs_to_no_build(run, sample_shop, unchanged):
    ran = run("transfer", "HW-07", "--to", "longbed")
    assert (ran.code, "is there for every build" in ran.err) == (1, True)
    assert unchanged()
