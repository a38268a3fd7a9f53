from dataclasses import replace
from pathlib import Path

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import UNSORTED
from shoptui.domain.records import HARDWARE, Bin, Box, Part, Wrench
from shoptui.domain.tags import Kind, Tag
from shoptui.jobs import label_output
from shoptui.jobs.came_out import ask_came_out, came_out, last_run, open_runs
from shoptui.jobs.check import check
from shoptui.jobs.label_kinds import KINDS, kind_of, lacking, lacks
from shoptui.jobs.label_output import Onto
from shoptui.jobs.label_printers import choice_of, correction_of, measured, print_test_page
from shoptui.jobs.print_labels import labels_of, print_again, print_blanks, print_commands, print_labels
from shoptui.jobs.print_lacking import lacking_words
from shoptui.jobs.undo import undo
from shoptui.labels.errors import PrintingError
from shoptui.labels.page import Correction
from shoptui.store.command_tags import command_tags
from shoptui.store.label_feed import LabelIndex


@pytest.fixture
def pdf(tmp_path):
    return Onto(file=tmp_path / "labels.pdf")


def through(answer):
    """The true answer of one that has work."""
    return answer.work.at_once()


def bins_of(made, count):
    with made.shop.transaction("bins", terminal="office") as tx:
        return [tx.add(Bin(0, f"C{number}", "")) for number in range(count)]


def lack(made, many):
    return {each.code for each in lacking(made.shop, KINDS[many])}


def fed_anew(made):
    return LabelIndex(made.shop.database)


def test_only_what_is_here_lacks_a_label(made):
    assert lack(made, "parts") == set()
    assert lack(made, "boxes") == set()
    made.scans("receiving").take(made.box.code)
    assert lack(made, "boxes") == {made.box.code}
    made.scans("receiving").take("9521234543213")
    assert lack(made, "parts") == {made.rotor.code}
    assert lack(made, "bins") == {"A3", "A4"}
    assert lack(made, "vehicles") == {"wagon", "coupe"}
    assert lack(made, "people") == {"lead"}
    made.scans("receiving").take("done")
    assert lack(made, "boxes") == set()


def test_what_the_ledger_has_on_a_shelf_is_what_is_here(made):
    """What is told of all parts at once is what is told of each, in the order they were made in."""
    with made.shop.transaction("found", terminal="door") as tx:
        for part in (made.foreign, made.rotor):
            tx.enter(verbs.count_over(made.shop.book, part.id, 1, to=UNSORTED))
    each = [part for part in made.shop.parts.all() if lacks(made.shop, part)]
    assert list(lacking(made.shop, KINDS["parts"])) == each
    assert {made.foreign.id, made.rotor.id} == {part.id for part in each}


def test_parts_of_one_build(made):
    for part in (made.rotor, made.foreign):
        with made.shop.transaction("found", terminal="door") as tx:
            tx.enter(verbs.count_over(made.shop.book, part.id, 1, to=UNSORTED))
    assert [part.id for part in lacking(made.shop, KINDS["parts"], made.other)] == [made.foreign.id]


def test_what_came_out_well_lacks_nothing(made, pdf):
    at = made.at("office")
    things = lacking(made.shop, KINDS["bins"])
    answer = through(print_labels(at, things, pdf))
    assert answer.said == "done"
    assert pdf.file.read_bytes().startswith(b"%PDF")
    assert lack(made, "bins") == {"A3", "A4"}  # nobody has said so yet
    (run,) = open_runs(made.reopened())  # also after a crash
    assert (run.kind, run.records, run.to, run.terminal) == (
        "bin",
        (made.a3.id, made.a4.id),
        str(pdf.file),
        "office",
    )
    assert ask_came_out(at, run).question.yes().said == "done"
    assert lack(made, "bins") == set()
    assert not open_runs(made.shop)
    undo(at)
    assert lack(made, "bins") == {"A3", "A4"}


def test_again_from_a_label_after_a_jam(made, pdf):
    at = made.at("office")
    bins = bins_of(made, 10)
    through(print_labels(at, bins, pdf))
    answer = through(ask_came_out(at, last_run(at)).question.accepts("7"))
    assert answer.said == "done"
    assert answer.text.startswith("4 labels in ")
    assert not lacks(made.shop, bins[5])
    assert all(lacks(made.shop, each) for each in bins[6:])
    assert [each.id for each in open_runs(made.shop)] == [answer.subject]
    came_out(at, last_run(at))
    assert not any(lacks(made.shop, each) for each in bins)
    assert fed_anew(made)._labels == made.shop.labels._labels


def test_a_thing_has_its_label_with_its_last_copy(made, pdf):
    at = made.at("office")
    bins = bins_of(made, 3)
    through(print_labels(at, bins, Onto(file=pdf.file, copies=2)))
    came_out(at, last_run(at), 3)
    assert [lacks(made.shop, each) for each in bins] == [False, True, True]
    through(print_again(at, last_run(at), 4, pdf))
    came_out(at, last_run(at), 4)
    assert [lacks(made.shop, each) for each in bins] == [False, False, True]


@pytest.mark.parametrize("number", [-1, 3, 10**9])
def test_a_label_that_was_not_printed_did_not_come_out(made, pdf, number):
    at = made.at("office")
    through(print_labels(at, (made.a3, made.a4), pdf))
    assert came_out(at, last_run(at), number).said == "stop"
    assert print_again(at, last_run(at), number, pdf).said == "stop"
    assert last_run(at).came is None


def test_none_came_out(made, pdf):
    at = made.at("office")
    through(print_labels(at, (made.a3, made.a4), pdf))
    assert came_out(at, last_run(at), 0).said == "done"
    assert lack(made, "bins") == {"A3", "A4"}
    assert not open_runs(made.shop)


def test_blank_tags_are_never_given_out_twice(made, pdf):
    at = made.at("office")
    through(print_blanks(at, Kind.BAG, 500, pdf))
    run = last_run(at)
    tags = set(run.tags)
    assert len(tags) == 500
    assert {Tag.parse(tag).kind for tag in tags} == {Kind.BAG}
    other = made.reopened()
    other.rng.seed(1)
    made.shop.rng.seed(1)
    assert not tags & set(made.shop.new_tags(Kind.BAG, 500))
    undo(at)
    assert not tags & set(other.new_tags(Kind.BAG, 2000))


def test_two_processes_print_other_blanks(made, pdf):
    other = made.reopened()
    other.rng.seed(7)
    made.shop.rng.seed(7)
    through(print_blanks(made.at("office"), Kind.PART, 40, pdf))
    through(print_blanks(type(made.at("x"))(other, "door"), Kind.PART, 40, pdf))
    made.shop.refresh()
    first, second = made.shop.label_runs.all()
    assert not set(first.tags) & set(second.tags)


def test_a_bound_blank_needs_no_label(made, pdf):
    at = made.at("door")
    scans = made.scans("receiving")
    scans.take(made.box.code)
    scans.take("9521234543213")
    for kind in (Kind.BAG, Kind.BIN, Kind.PART):
        through(print_blanks(at, kind, 1, pdf))
        racks = made.scans("racks", "door")
        asked = racks.take(last_run(at).tags[0])
        answer = racks.take(made.rotor.tag) if kind is Kind.PART else racks.yes()
        assert (asked.said, answer.said) == ("question", "done")
    assert lack(made, "bags") == set()
    assert lack(made, "parts") == set()
    assert lack(made, "bins") == {"A3", "A4"}
    scans = made.scans("receiving", "gate")
    scans.take(made.shop.new_tag(Kind.BOX))
    scans.yes()
    assert lack(made, "boxes") == {made.box.code}
    assert not check(made.shop)


def test_blank_tags_that_were_not_drawn_are_printed_again(made, pdf, tmp_path):
    at = made.at("office")
    nowhere = Onto(file=tmp_path / "nowhere" / "labels.pdf")
    answer = through(print_blanks(at, Kind.PART, 3, nowhere))
    assert answer.said == "stop"
    assert "could not be written into" in answer.text
    tags = last_run(at).tags
    through(print_again(at, last_run(at), 1, pdf))
    assert last_run(at).tags == tags


@pytest.mark.parametrize("count", [0, -1, 10_001])
def test_so_many_blanks_are_not_printed(made, pdf, count):
    before = made.bytes()
    assert print_blanks(made.at("office"), Kind.PART, count, pdf).said == "stop"
    assert made.bytes() == before


@pytest.mark.parametrize(
    "wrong",
    [
        {"stock": "sheet-of-gold"},
        {"start": 31},
        {"start": 0},
        {"copies": 0},
        {"copies": 1001},
        {"file": Path("labels.doc")},
    ],
    ids=str,
)
def test_what_cannot_be_printed_changes_nothing(made, pdf, wrong):
    before = made.bytes()
    onto = replace(pdf, **wrong)
    at = made.at("office")
    for answer in (print_labels(at, (made.a3,), onto), print_blanks(at, Kind.BIN, 3, onto)):
        assert (answer.said, answer.work) == ("stop", None)
    assert made.bytes() == before


def test_stopped_labels_leave_nothing(made, pdf):
    bins = bins_of(made, 40)
    before = made.bytes()
    work = print_labels(made.at("office"), bins, pdf).work
    answer = work.finish(work.run(lambda drawn, _all: drawn < 20))
    assert (answer.said, answer.subject) == ("stop", 0)
    assert answer.text.startswith("Stopped after ")
    assert not pdf.file.exists()
    assert made.bytes() == before


def test_a_queue_that_refuses_leaves_the_file(made, monkeypatch, tmp_path):
    def send(path, queue):
        assert path.is_file()
        raise PrintingError(f"The print queue refused the labels of {queue}: it is out of paper.")

    monkeypatch.setattr(label_output, "send", send)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    at = made.at("office")
    answer = through(print_labels(at, (made.a3,), Onto(print=True, queue="lab")))
    assert answer.said == "stop"
    assert "out of paper" in answer.text
    run = last_run(at)
    assert answer.subject == run.id
    assert Path(run.to).read_bytes().startswith(b"%PDF")
    assert choice_of(made.shop, "bin").queue == ""  # not the queue that refused


def test_a_queue_that_takes_it_is_remembered(made, monkeypatch, tmp_path):
    sent = []
    monkeypatch.setattr(label_output, "send", lambda path, queue: sent.append((path, queue)) or "Sent.")
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    at = made.at("office")
    onto = Onto(print=True, queue="lab", stock="roll-60x40-203dpi")
    assert through(print_labels(at, (made.a3,), onto)).text == "1 label. Sent. Stock: roll-60x40-203dpi."
    assert last_run(at).to == "lab"
    through(print_labels(at, (made.a4,), Onto(print=True)))
    assert [queue for _, queue in sent] == ["lab", "lab"]
    assert not any(path.exists() for path, _ in sent)
    assert last_run(at).stock == "roll-60x40-203dpi"
    assert choice_of(made.shop, "part").stock != "roll-60x40-203dpi"


def test_the_words_of_labels_are_inert_and_whole(made, pdf):
    with made.shop.transaction("made", terminal="office") as tx:
        bag = tx.add(Bin(0, "", "", "[b]bolts\x1b[2J", kind="bag"))
        wrench = tx.add(Wrench(0, "", "", "Big \u202e one", low=20, high=200, deviation_percent=4))
        box = tx.add(Box(0, "", (made.order.id, made.late.id), arrived=made.clock()))
        rotor = tx.change(made.rotor, description="Brake rotor " * 20)
    labels = {each: kind_of(made.shop, each).label(made.shop, each) for each in (bag, wrench, box, rotor)}
    assert labels[bag].title == "[b]bolts␛[2J"
    assert labels[wrench].title == "Big � one"
    assert labels[wrench].lines == ("20 to 200 N m, 4 % either way",)
    assert labels[box].title == "Brakes and more"
    assert labels[box].lines == ("order 1042, 1043", "came Wed 25 Nov 2026")
    assert labels[rotor].lines == ("Wagon, LF RF", "BR-100")
    assert labels[rotor].title.endswith("rotor ")
    assert labels[rotor].code == rotor.tag
    assert labels[rotor].shown == f"P-{rotor.tag[1:]}"


def test_a_bag_says_what_is_in_it(made):
    with made.shop.transaction("made", terminal="office") as tx:
        bag = tx.add(Bin(0, "G1", "", "of the front", kind="bag"))
        for part in (made.hub, made.hood, made.clip, made.rotor):
            tx.enter(verbs.count_over(made.shop.book, part.id, 1, to=bag.id))
    label = kind_of(made.shop, bag).label(made.shop, bag)
    assert label.title.endswith(" and 1 more")
    assert label.title.count(",") == 2
    assert label.lines == ("G1", "of the front")


def test_a_bag_says_for_which_part_and_how_many(made):
    with made.shop.transaction("a bag", terminal="lift") as tx:
        bolt = tx.add(Part(0, "", "", None, "Bolt", kind=HARDWARE, designation="M8 x 20 - 8.8"))
        bag = tx.add(Bin(0, "G7", "", "left side", kind="bag", part=made.rotor.id))
        tx.enter(verbs.stock(made.rotor.id, 1))
        tx.enter(verbs.stock(bolt.id, 3, to=bag.id))
    label = kind_of(made.shop, bag).label(made.shop, bag)
    assert (label.title, label.lines) == ("Brake rotor", ("G7", "3 Bolt M8 x 20 - 8.8", "left side", "Wagon"))


def hardware(made, **fields):
    with made.shop.transaction("hardware", terminal="office") as tx:
        kind = tx.add(Part(0, "", "", None, kind=HARDWARE, **fields))
        tx.enter(verbs.stock(kind.id, 5, to=made.a3.id))
    return kind


@pytest.mark.parametrize(
    ("fields", "title", "lines"),
    [
        (
            {"description": "Seat bolt", "designation": "M10 x 1.25 x 25 - 10.9", "one_use": True},
            "M10 x 1.25 x 25 - 10.9",
            ("class 10.9, one use: new each time", "Seat bolt"),
        ),
        (
            {"description": "", "designation": "3/8-16 UNC x 1 1/2 - grade 8", "finish": "zinc"},
            "3/8-16 UNC x 1 1/2 - grade 8",
            ("grade 8", "zinc"),
        ),
        ({"description": "Locking fluid", "designation": ""}, "Locking fluid", ()),
        ({"description": "", "designation": "cotter pin 3.2 x 40"}, "cotter pin 3.2 x 40", ()),
    ],
)
def test_hardware_has_a_label_of_its_own(made, pdf, fields, title, lines):
    kind = hardware(made, **fields)
    assert lack(made, "hardware") == {kind.code}
    assert lack(made, "parts") == set()
    label = kind_of(made.shop, kind).label(made.shop, kind)
    assert (label.kind, label.code, label.title, label.lines) == ("hardware", kind.tag, title, lines)
    assert lacking_words(made.shop).split(", ")[1] == "1 kind of hardware"
    at = made.at("office")
    through(print_labels(at, (kind,), pdf))
    assert ask_came_out(at, last_run(at)).question.yes().said == "done"
    assert lack(made, "hardware") == set()
    assert "hardware" not in lacking_words(made.shop)


def test_hardware_of_which_none_is_here_needs_no_label(made):
    kind = hardware(made, description="Nut", designation="nut M8 - 8")
    with made.shop.transaction("all used up", terminal="office") as tx:
        tx.enter(verbs.dispose(made.shop.book, kind.id, 5, reason="used up"))
    assert lack(made, "hardware") == set()


def test_the_page_of_commands(made, pdf):
    at = made.at("office")
    assert through(print_commands(at, pdf)).text.startswith(f"{len(command_tags())} labels in ")
    assert "KYES22M" in [label.code for label in labels_of(made.shop, last_run(at))]


def test_a_test_page_mends_its_printer_and_stock_alone(made, pdf):
    at, stock = made.at("office"), "sheet-a4-3x10-70x29.7"
    assert through(print_test_page(at, stock, pdf)).said == "done"
    assert measured(at, stock, "lab", across=147, left=6).said == "done"
    assert correction_of(made.shop, "lab", stock) == Correction(0.98, 1.0, 1.1, 0.0)
    assert correction_of(made.shop, "", stock) == Correction()
    assert measured(at, stock, "lab", across=10).said == "stop"
    assert measured(at, "gold", across=147).said == "stop"
    undo(at)
    assert correction_of(made.shop, "lab", stock) == Correction()


def test_the_shop_s_own_stock(made, pdf):
    folder = made.folder / "labels" / "stock"
    folder.mkdir(parents=True)
    (folder / "tape.toml").write_text(
        'kind = "roll"\nlabel_width = 80\nlabel_length = 40\ngap = 2\ninset = 1\ndpi = 300\n'
    )
    (folder / "wrong.toml").write_text('kind = "roll"\nlabel_width = 8000\n')
    at = made.at("office")
    assert through(print_labels(at, (made.a3,), Onto("tape", file=pdf.file))).said == "done"
    answer = print_labels(at, (made.a3,), Onto("wrong", file=pdf.file))
    assert answer.text.startswith("wrong.toml, line 2: ")
