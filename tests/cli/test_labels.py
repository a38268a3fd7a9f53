import os
import signal

import pytest
import zxingcpp
from PIL import Image

from shoptui.cli import progress


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch, sample_shop):
    """Be in the test's folder, beside the invented shop."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def system(tmp_path, monkeypatch):
    """A system whose `lp` the test writes."""
    folder = tmp_path / "bin"
    folder.mkdir()
    monkeypatch.setenv("PATH", str(folder))
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))

    def lp(script):
        (folder / "lp").write_text(f"#!/bin/sh\n{script}\n")
        (folder / "lp").chmod(0o755)

    return lp


def lacking(run, many):
    rows = [line.split() for line in run("labels", "lacking").out.splitlines()]
    return next((int(row[1]) for row in rows if row[0] == many), 0)


def read(path):
    with Image.open(path) as picture:
        return sorted(each.text for each in zxingcpp.read_barcodes(picture))


def test_the_walk_of_a_new_rack_a_box_and_three_bags(run, here):
    rows = ("labels", "bins", "--rows", "rack 3, A to F, 1 to 8")
    asked = run(*rows, "--out", "rack.pdf")
    assert (asked.code, asked.out) == (1, "")
    assert asked.err.startswith("48 bins for rack 3: 3-A1 to 3-F8.")
    assert not (here / "rack.pdf").exists()
    made = run(*rows, "--yes", "--out", "rack.pdf")
    sound = run("check").out
    assert made.code == 0
    assert "48 labels in rack.pdf." in made.out
    assert (here / "rack.pdf").read_bytes().startswith(b"%PDF")
    assert run("labels", "boxes", "--unlabelled", "--out", "boxes.svg").code == 0
    assert (here / "boxes.svg").is_file()
    assert run("labels", "bags", "G1", "G2", "G3", "--out", "bags.png").code == 0
    assert read("bags.png") == ["GBMP22M", "GCLM22U", "GSEAT2P"]
    before = lacking(run, "bins")
    assert "Not said yet: 4 box labels" in run("labels", "came-out").out
    assert run("labels", "came-out").out.startswith("4 box labels, to ")
    assert run("labels", "came-out").code == 0
    assert run("labels", "came-out").code == 1
    assert (lacking(run, "bags"), lacking(run, "boxes"), lacking(run, "bins")) == (3, 0, before - 48)
    assert run("check").out == sound


def test_several_pages_of_pictures_are_numbered(run, here):
    ran = run("labels", "bins", "--all", "--out", "bins.png")
    assert "44 labels in bins-1.png to bins-3.png." in ran.out
    assert sum(len(read(f"bins-{page}.png")) for page in (1, 2, 3)) == 44


def test_where_to_is_asked_and_nothing_is_printed(run, unchanged):
    ran = run("labels", "bins")
    assert ran.code == 0
    assert ran.out.startswith("To print: 44 bins: A1, A2, A3, A4, A5, A6, A7, A8 and 36 more.")
    assert run("labels", "test-page").code == 1
    assert unchanged()


def test_all_have_their_labels(run, here):
    run("labels", "vehicles", "--out", "vehicles.pdf")
    run("labels", "came-out")
    ran = run("labels", "vehicles", "--out", "again.pdf")
    assert (ran.code, ran.out) == (0, "No vehicle that is here lacks its label: nothing to print.\n")
    assert run("labels", "vehicles", "--all", "--out", "again.pdf").code == 0


def test_again_after_a_jam(run, here):
    bins = ("labels", "bins", "A1", "A2", "A3", "A4", "--out", "bins.png")
    run(*bins)
    other = run("labels", "bins", "B1", "--again-from", "3", "--out", "rest.png")
    assert (other.code, "leave the codes out" in other.err) == (1, True)
    assert run(*bins[:-1], "rest.png", "--again-from", "3").code == 0
    assert read("rest.png") == ["BA3RK2Z", "BA4RK2J"]
    assert lacking(run, "bins") == 42
    assert run("labels", "came-out", "3").code == 0
    assert lacking(run, "bins") == 41


def test_blank_tags_again_are_the_same(run, here):
    run("labels", "blanks", "bag", "--count", "4", "--out", "blanks.png")
    run("labels", "blanks", "bag", "--again-from", "3", "--out", "rest.png")
    first, rest = read("blanks.png"), read("rest.png")
    assert len(first) == 4
    assert {tag[0] for tag in first} == {"G"}
    assert len(rest) == 2
    assert set(rest) < set(first)
    run("labels", "blanks", "bag", "--start", "29", "--out", "sheet.png")
    assert len(read("sheet.png")) == 2
    ran = run("scan", "--station", "racks", scans=f"{first[0]}\nyes\n".encode())
    assert [line.split("\t")[0] for line in ran.out.splitlines()] == ["question", "done"]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("bins", "A9X"), "There is no bin A9X."),
        (("bins", "G1"), "G1 is a bag: shoptui labels bags"),
        (("people", "led"), "There is no person led. Was Lead"),
        (("parts", "nothing-like-it"), "No part has the code nothing-like-it"),
        (("bins", "A1", "--label-stock", "sheet-a4-3x10"), "sheet-a4-3x10-70x29.7 or"),
        (("bins", "A1", "--start", "17"), "A position from 1 to 16 was expected"),
        (("bins", "A1", "--out", "x.doc"), "A name that ends in .pdf, .svg, .png was expected"),
        (("bins", "A1", "--out", "nowhere/x.pdf"), "x.pdf could not be written into nowhere"),
        (("bins", "A1", "--build", "nobody"), "There is no build nobody."),
        (("bins", "--rows", "rack 3, F to A"), "The smaller one first was expected, A to F"),
        (("bins", "A1", "--rows", "rack 3, A to F, 1 to 8"), "Codes or --rows were expected"),
        (("bins", "--again-from", "7"), "there are none to print again"),
        (("blanks", "--label-stock", "roll-60x25-203dpi"), "say how many with --count N"),
        (("came-out",), "it is known how they came out"),
        (("test-page", "--across", "12"), "About 150 mm were expected"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else "",
)
def test_what_cannot_be_is_said_and_changes_nothing(run, unchanged, arguments, words):
    ran = run(
        "labels",
        *(arguments if "--out" in arguments or arguments[0] != "bins" else (*arguments, "--out", "x.pdf")),
    )
    assert ran.code == 1
    assert words in ran.err
    assert unchanged()


@pytest.mark.parametrize(
    "arguments",
    [
        ("bins", "--start", "0"),
        ("bins", "--copies", "none"),
        ("blanks", "wrench"),
        ("blanks", "--count", "0"),
        ("test-page", "--across", "wide"),
        (),
    ],
    ids=" ".join,
)
def test_wrong_usage(run, unchanged, arguments):
    assert run("labels", *arguments).code == 2
    assert unchanged()


def test_printing_and_no_queue(run, system, here):
    ran = run("labels", "bins", "A1", "--print")
    assert ran.code == 1
    assert ran.err.startswith(
        "This computer has no print queue that the program could use. The file lies at "
    )
    (path,) = here.glob("shoptui-labels-*/labels-bin.pdf")
    assert str(path) in ran.err
    system('echo "lp: The printer is out of paper." >&2; exit 1')
    ran = run("labels", "bins", "A1", "--queue", "lab")
    assert "The print queue refused the labels: The printer is out of paper." in ran.err
    system('echo "request id is lab-7 (1 file(s))"')
    ran = run("labels", "bins", "A1", "--queue", "lab")
    assert ran.out.startswith("1 label. Sent to lab: request id is lab-7 (1 file(s)).")


def test_a_correction_from_a_test_page(run, here):
    assert run("labels", "test-page", "--out", "page.pdf").code == 0
    ran = run("labels", "test-page", "--across", "147", "--left", "6")
    assert (ran.code, "98.00% of the width" in ran.out) == (0, True)
    assert run("labels", "parts", "--out", "parts.pdf").code == 0
    assert run("undo").out.startswith("Undone: printed")
    assert run("undo").out.startswith("Undone: measured the test page")


def test_the_stock_is_listed_with_what_is_wrong(run, sample_shop):
    own = sample_shop / "labels" / "stock"
    own.mkdir(parents=True)
    (own / "tape.toml").write_text('kind = "roll"\nlabel_width = 8000\n')
    ran = run("labels", "stock")
    assert ran.code == 0
    assert "tape: cannot be used. tape.toml, line 2: " in ran.out
    assert (
        "sheet-a4-2x8-95x34: sheet 210 x 297 mm, 2 x 8 labels of 95 x 34 mm, 600 dpi; takes bin labels"
        in ran.out
    )
    assert str(own) in ran.out


def test_ctrl_c_leaves_no_file(run, here, monkeypatch, unchanged):
    told = progress.Shown.__call__

    def press(self, doing, at, all_):
        os.kill(os.getpid(), signal.SIGINT)
        return told(self, doing, at, all_)

    monkeypatch.setattr(progress.Shown, "__call__", press)
    ran = run("labels", "bins", "--all", "--out", "bins.pdf")
    assert (ran.code, ran.out) == (130, "")
    assert ran.err.startswith("Stopped after 16 of 44 labels; nothing was written.")
    assert not (here / "bins.pdf").exists()
    assert unchanged()


def test_the_answer_as_json(run, here):
    facts = run("labels", "people", "lead", "--out", "badge.pdf", "--json").json
    assert (facts["answer"], facts["kind"]) == ("done", "labels")
