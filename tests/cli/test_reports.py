"""The reports on the invented shop: keys, formats, widths, exit codes."""

import csv
import io

import pytest

from shoptui.cli.output import as_csv, as_json, table
from shoptui.domain.places import State


def rows(text):
    return list(csv.DictReader(io.StringIO(text)))


def test_boxes_as_json(run, sample_shop):
    boxes = run("boxes", "--format", "json").json
    assert all(list(box) == ["code", "orders", "due", "arrived", "lines"] for box in boxes)
    lines = [line for box in boxes for line in box["lines"]]
    assert all(list(line) == ["part", "description", "expected", "received"] for line in lines)
    ten = next(box for box in boxes if box["code"] == "XTEN22J")
    assert (ten["due"], ten["arrived"], len(ten["lines"])) == ("2026-11-04", None, 10)
    assert sum(line["expected"] for line in ten["lines"]) == 10


def test_open_boxes_are_those_not_closed(run, sample_shop):
    every = {box["code"] for box in run("boxes", "--format", "json").json}
    unclosed = {box["code"] for box in run("boxes", "--open", "--format", "json").json}
    assert unclosed < every


def test_parts_as_json(run, sample_shop):
    parts = run("parts", "--format", "json").json
    assert all(
        list(part) == ["code", "description", "section", "needed", "to_order", "states"] for part in parts
    )
    for part in parts:
        assert list(part["states"]) == [state.value for state in State]
        assert sum(part["states"].values()) == 0
    assert len(run("parts", "--build", "longbed", "--format", "json").json) < len(parts)


def test_missing_as_json(run, sample_shop):
    ran = run("missing", "--format", "json")
    assert ran.code == 0
    assert list(ran.json) == ["shoot", "date", "lines", "moving", "generic"]
    keys = ["part", "description", "shot", "needs", "state", "where", "why", "next", "qty", "past"]
    assert all(list(line) == keys for line in ran.json["lines"])
    assert ran.json["date"] >= "2026-11-04"
    assert run("missing", "--shoot", "next", "--format", "json").json == ran.json
    assert run("missing", "--shoot", ran.json["shoot"].upper(), "--format", "json").json == ran.json


@pytest.mark.parametrize("report", ["boxes", "parts", "missing"])
def test_csv_says_what_json_says(run, sample_shop, report):
    found = run(report, "--format", "json").json
    got = rows(run(report, "--format", "csv").out)
    if report == "boxes":
        assert [row["part"] for row in got if row["part"]] == [
            line["part"] for box in found for line in box["lines"]
        ]
    elif report == "parts":
        assert [(row["code"], row["to_order"], row["installed"]) for row in got] == [
            (part["code"], str(part["to_order"]), str(part["states"]["installed"])) for part in found
        ]
    else:
        assert got == [{**line, "qty": str(line["qty"])} for line in found["lines"]]


@pytest.mark.parametrize("report", [["boxes"], ["parts"], ["missing"], ["history", "BR-10"]])
def test_text_fits_80_columns(run, sample_shop, report):
    ran = run(*report)
    assert ran.code == 0
    assert max(len(line) for line in ran.out.splitlines()) <= 80


def test_the_sheet_as_markdown(run, sample_shop):
    out = run("missing", "--format", "md").out
    assert out.startswith("# Missing for ")
    assert "| part | shot | needs | why | next | in time |" in out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("missing", "--shoot", "nope"), "no filming day nope"),
        (("parts", "--build", "nope"), "no build nope"),
        (("where", "no", "such", "thing"), "Nothing here is called no such thing"),
        (("history", "no such thing"), "No part has the code"),
        (("history", "caliper"), "is more than one part"),
        (("import", "parts", "nope.csv", "--build", "nope"), "no build nope"),
        (("import", "shop", "nope.toml"), "nope.toml"),
    ],
)
def test_what_cannot_be_done_is_a_sentence_and_1(run, sample_shop, arguments, words):
    ran = run(*arguments)
    assert (ran.code, ran.out) == (1, "")
    assert words in ran.err
    assert "Traceback" not in ran.err


def test_a_terminal_that_did_nothing_has_nothing_to_undo(run, sample_shop):
    ran = run("undo", terminal="nobody was here")
    assert (ran.code, ran.out, ran.err) == (1, "", "There is nothing to undo at this terminal.\n")


def test_where_finds_by_words_code_and_bin(run, sample_shop):
    assert "Brake caliper, front left (BR-02)" in run("where", "caliper", "front").out
    assert run("where", "br-02").out.splitlines()[0] == "Brake caliper, front left (BR-02)"
    assert run("where", "A1").out.startswith("bin A1")
    assert run("where", "WCLK22L").out.startswith("wrench ")


def test_history_is_told_in_order(run, sample_shop):
    lines = run("history", "BR-10").out.splitlines()
    assert lines[0] == "Brake hose, front (BR-10)"
    assert "written down" in lines[1]


def test_a_sound_shop_has_no_problems(run, sample_shop):
    run("new", str(sample_shop.parent / "fresh"))
    ran = run("--store", str(sample_shop.parent / "fresh"), "check")
    assert (ran.code, ran.out.startswith("No problems")) == (0, True)


def test_the_invented_shop_has_two_problems_to_be_found(run, sample_shop):
    ran = run("check")
    first, remedy, wrench, papers = ran.out.splitlines()
    assert (ran.code, first.startswith("part WH-02: joint Wheel nuts: short: 8 mm of thread")) == (1, True)
    assert "maker's sheet" in remedy
    assert wrench == "wrench T-25: its papers say 6 %, II A permits 4 %."
    assert papers.strip("> ") == (
        "Read its papers again; where the tool's own papers say otherwise, they go first."
    )


def test_what_was_taken_back_is_not_counted(run, sample_shop):
    before = run("check").out
    path = sample_shop.parent / "parts.csv"
    path.write_text("description,on hand\nDoor mirror,\n")
    assert run("import", "parts", str(path), "--build", "longbed").out == (
        "1 part of longbed imported from parts.csv.\n"
    )
    run("undo")
    assert run("check").out == before


def test_problems_are_told_and_1(run, sample_shop):
    path = sample_shop.parent / "orders.csv"
    path.write_text(
        "order,supplier,part,qty,placed,due\nZ1,Battery shelf (example),EL-01,1,2026-11-04,2026-11-01\n"
    )
    ran = run("import", "orders", str(path))
    if ran.code == 0:
        ran = run("check")
        assert ran.code == 1
        assert "before it was placed" in ran.out
    else:
        assert "2026-11-01" in ran.err


def test_the_day_is_that_of_the_fixed_clock(run, sample_shop):
    assert run("missing", now="2026-11-20", terminal="x").out.startswith("Missing for")


def test_with_no_filming_day_ahead_nothing_can_be_missing(run, sample_shop):
    ran = run("missing", now="2036-11-20")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out == "No filming day from today on has a shot that is not filmed yet.\n"
    assert run("missing", "--format", "json", now="2036-11-20").json == {
        "shoot": None,
        "date": None,
        "lines": [],
        "moving": [],
        "generic": [],
    }
    assert run("missing", "--format", "csv", now="2036-11-20").out.count("\n") == 1
    assert run("missing", "--format", "md", now="2036-11-20").code == 0


def test_what_could_act_on_a_terminal_is_a_number_in_json():
    text = as_json(["a\x1b\x9b\u202e\U000e0001é\x7f"], indent=None)
    assert text == '["a\\u001b\\u009b\\u202e\\udb40\\udc01é\\u007f"]'


def test_tables_give_way_in_one_column():
    text = table(("code", "part"), [("A", "x" * 100), ("B", "界" * 60)], wide=1)
    assert [line[-1] for line in text.splitlines()[1:]] == ["…", "…"]


def test_text_is_no_formula_to_a_spreadsheet():
    text = as_csv(("a", "b"), [("=1+1", -2), ("-2", 3), ("@x", "+4"), ("a=b", "\t=1")])
    assert text == "a,b\n'=1+1,-2\n'-2,3\n'@x,'+4\na=b,\N{SYMBOL FOR HORIZONTAL TABULATION}=1\n"


def test_where_finds_a_vehicle_and_an_order(run, sample_shop):
    assert run("where", "longbed").out.startswith("vehicle ")
    assert run("where", "W-1042").out.startswith("order W-1042 ")
