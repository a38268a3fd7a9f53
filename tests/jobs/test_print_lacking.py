"""One word prints what lacks a label: in the open box, else in the shop; on what, where to, and what then."""

from pathlib import Path

import pytest

from shoptui.domain.records import Bin, Person
from shoptui.jobs import label_output, usual_outlet
from shoptui.jobs.answers import Said
from shoptui.jobs.came_out import came_out, open_runs
from shoptui.jobs.label_kinds import KINDS, lacking, lacks
from shoptui.jobs.label_output import NO_KEEPING, Onto
from shoptui.jobs.print_and_ask import ask_each
from shoptui.jobs.print_labels import print_labels
from shoptui.jobs.print_lacking import print_said
from shoptui.jobs.usual_outlet import next_free, outlet_of, outlet_typed, usual_onto
from shoptui.labels.errors import PrintingError

ROLL = "roll-60x40-203dpi"


@pytest.fixture(autouse=True)
def home(monkeypatch, tmp_path):
    """No print queue, and a home of its own."""
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setattr(usual_outlet, "can_print", lambda: False)
    return tmp_path


@pytest.fixture
def queue(monkeypatch):
    """A queue that takes everything; returns what it was given."""
    sent = []
    monkeypatch.setattr(usual_outlet, "can_print", lambda: True)
    monkeypatch.setattr(label_output, "send", lambda path, queue: sent.append((path.name, queue)) or "Sent.")
    return sent


def through(answer):
    """The true answer of one that has work."""
    return answer.work.at_once()


def lack(made):
    return sum(len(lacking(made.shop, kind)) for kind in KINDS.values())


def test_all_of_the_shop_goes_into_files_in_one_go(made, home):
    at = made.at("office")
    every = lack(made)
    answer = print_said(at)
    assert answer.said is Said.QUESTION
    assert "2 bins" in answer.text
    assert len(answer.question.choices) == sum(bool(lacking(made.shop, kind)) for kind in KINDS.values())
    answer = through(answer.question.yes())
    assert {path.name for path in home.glob("labels-*.pdf")} >= {"labels-bin.pdf", "labels-vehicle.pdf"}
    assert lack(made) == every
    asked = 0
    while answer.said is Said.QUESTION:
        answer, asked = answer.question.yes(), asked + 1
    assert asked == 3
    assert answer.text.endswith("Nothing that is here lacks its label.")
    assert lack(made) == 0


def test_sheets_for_a_printer_come_one_kind_after_the_other(made, queue):
    at = made.at("office")
    answer = through(print_said(at).question.yes())
    assert queue == [("labels-bin.pdf", "")]
    answer = answer.question.yes()
    assert "All labels came out well." in answer.text
    assert "lack their labels" in answer.text
    through(answer.question.choices[1].take())
    assert [name for name, _ in queue] == ["labels-bin.pdf", "labels-badge.pdf"]


def test_all_labels_of_one_roll_go_in_one_go(made, queue):
    at = made.at("office")
    for kind in KINDS.values():
        if things := lacking(made.shop, kind):
            came_out(at, made.shop.label_runs.get(through(print_labels(at, things, Onto(ROLL))).subject))
    with made.shop.transaction("more", terminal="office") as tx:
        tx.add(Bin(0, "T1", ""))
        tx.add(Person(0, "", "", "Painter"))
    queue.clear()
    answer = through(print_said(at).question.yes())
    assert [name for name, _ in queue] == ["labels-bin.pdf", "labels-badge.pdf"]
    assert "Nothing that is here" in answer.question.yes().question.yes().text


def test_what_waits_for_a_word_is_asked_about_and_not_printed_again(made, queue):
    at = made.at("office")
    through(print_labels(at, (made.a3,), Onto()))
    assert "1 bin," in print_said(at).text
    for kind in KINDS.values():
        if things := [each for each in lacking(made.shop, kind) if each != made.a3]:
            through(print_labels(at, things, Onto()))
    assert print_said(at).text.startswith("1 bin label, to")


def test_of_several_runs_all_are_asked_about_whatever_is_answered(made, home):
    at = made.at("office")
    asked = through(print_said(at).question.yes())
    runs = len(open_runs(made.shop))
    wrong = asked.question.accepts("99")
    assert (wrong.said, "99 came." in wrong.text, len(open_runs(made.shop))) == (Said.QUESTION, True, runs)
    (home / "labels-bin.pdf").unlink()
    (home / "labels-bin.pdf").mkdir()  # cannot be written over
    failed = through(wrong.question.accepts("2"))
    assert (failed.said, len(open_runs(made.shop))) == (Said.QUESTION, runs)
    for _ in range(runs):
        failed = failed.question.yes()
    assert not open_runs(made.shop)


def test_a_label_that_is_scanned_is_where_to_begin_again(made, home):
    at = made.at("office")
    bins = (made.a3, made.a4)
    asked = ask_each(at, (through(print_labels(at, bins, Onto(file=home / "a.pdf", copies=2))).subject,))
    assert asked.question.accepts(made.rotor.tag) is None
    again = asked.question.accepts(made.a4.tag)
    assert again.text.startswith("Label 3 of 4. Enter prints again from it on. Labels 1 to 2 came out well")
    assert "(2 bin labels)" in through(again.question.yes()).text
    assert [lacks(made.shop, each) for each in bins] == [False, True]


def test_what_a_queue_refused_is_said_and_waits(made, queue, monkeypatch):
    def refuse(path, queue):
        raise PrintingError("The printer is on fire.")

    monkeypatch.setattr(label_output, "send", refuse)
    at = made.at("office")
    answer = through(print_said(at).question.choices[0].take())
    assert (answer.said, "on fire" in answer.text) == (Said.STOP, True)
    (run,) = open_runs(made.shop)
    assert NO_KEEPING in run.to
    assert usual_onto(at, run.kind).file is None  # nobody chose that file


def test_the_next_free_position_is_where_the_last_labels_ended(made, home):
    at = made.at("office")
    stock = "sheet-a4-2x8-95x34"
    assert next_free(at, stock) == 1
    through(print_labels(at, (made.a3, made.a4), Onto(stock, start=14, file=home / "a.pdf")))
    assert next_free(at, stock) == 16
    assert next_free(made.at("door"), stock) == 1
    assert next_free(at, "sheet-a4-3x10-70x29.7") == 1
    through(print_labels(at, (made.a3,), Onto(stock, start=16, file=home / "a.pdf")))
    assert next_free(at, stock) == 1  # the sheet is full
    through(print_labels(at, (made.a3,), Onto(ROLL, file=home / "a.pdf")))
    assert next_free(at, ROLL) == 1


def test_a_file_is_offered_that_is_not_there_yet(made, home):
    at = made.at("office")
    assert usual_onto(at, "bin").file == home / "labels-bin.pdf"
    through(print_labels(at, (made.a3,), Onto(file=home / "rack.png")))
    assert usual_onto(at, "bin").file == home / "rack-2.png"
    through(print_labels(at, (made.a3,), Onto(file=home / "rack-2.png")))
    assert usual_onto(at, "bin").file == home / "rack-3.png"
    (home / "rack-3-1.png").touch()  # the first page of several
    assert usual_onto(at, "bin").file == home / "rack-4.png"
    assert outlet_typed(usual_onto(at, "bin")) == "~/rack-4.png"


@pytest.mark.parametrize("typed", ["/etc/labels", "~", "labels/x.txt", "a\\b"])
def test_a_file_that_is_none_is_refused(typed):
    with pytest.raises(ValueError, match=r"A file that ends in"):
        outlet_of(typed)


def test_a_file_is_told_from_a_printer(home):
    assert outlet_of("~/x.pdf") == (home / "x.pdf", "")
    assert outlet_of("x.PNG") == (Path("x.PNG").absolute(), "")
    assert outlet_of(" office ") == (None, "office")
