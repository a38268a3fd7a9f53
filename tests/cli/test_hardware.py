"""The command that reports hardware."""

import csv
import io

import pytest


def test_text_fits_the_terminal_and_says_what_to_buy(run, sample_shop):
    ran = run("hardware")
    assert ran.code == 0
    lines = ran.out.splitlines()
    assert lines[0].split() == ["hardware", "needed", "new", "used", "ordered", "buy", "where"]
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
