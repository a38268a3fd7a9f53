import errno
import os
import resource
import shutil

import pytest
from reading import examples, made

from shoptui.labels import files
from shoptui.labels.errors import StoppedError, TextError, WritingError
from shoptui.labels.files import write_labels
from shoptui.labels.layout import Label
from shoptui.labels.sheets import Job
from shoptui.labels.stock import read_stock

SHEET = read_stock("sheet-letter-3x10-66x25")
LABELS = examples(35)
JOB = Job(LABELS, SHEET)


@pytest.mark.parametrize(
    ("name", "names"),
    [
        ("out.pdf", ["out.pdf"]),
        ("out.PDF", ["out.PDF"]),
        ("out.svg", ["out-1.svg", "out-2.svg"]),
        ("rack 3.b.png", ["rack 3.b-1.png", "rack 3.b-2.png"]),
    ],
)
def test_several_pages(name, names, tmp_path):
    written = write_labels(JOB, tmp_path / name)
    assert [path.name for path in written.paths] == names
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(names)
    assert written.labels == 35
    assert "③ cannot be set in the font of labels; 3 stands for it." in written.notes
    assert len(set(written.notes)) == len(written.notes)


def test_one_page_has_no_number(tmp_path):
    assert [path.name for path in made(tmp_path, LABELS[:3], SHEET, ".svg")] == ["labels.svg"]


def test_the_same_labels_are_the_same_file(tmp_path):
    (first,) = made(tmp_path, LABELS, SHEET)
    before = first.read_bytes()
    assert made(tmp_path, LABELS, SHEET)[0].read_bytes() == before


def test_ten_thousand_labels_say_how_far_they_are(tmp_path):
    seen = []
    job = Job(LABELS[:10], SHEET, copies=1000)

    def progress(done, count):
        seen.append((done, count))
        return len(seen) < 4

    with pytest.raises(StoppedError, match="Stopped after 120 of 10000 labels; nothing was written"):
        write_labels(job, tmp_path / "many.pdf", progress)
    assert seen == [(30, 10_000), (60, 10_000), (90, 10_000), (120, 10_000)]
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["out.pdf", "out.svg", "out.png"])
def test_a_label_that_cannot_be_leaves_what_was_there(name, tmp_path):
    first = write_labels(Job(LABELS[:3], SHEET), tmp_path / name).paths[0].read_bytes()
    wrong = Job([*LABELS, Label("bin", "Größe")], SHEET)
    with pytest.raises(TextError):
        write_labels(wrong, tmp_path / name)
    assert [path.name for path in tmp_path.iterdir()] == [name]
    assert (tmp_path / name).read_bytes() == first


def test_a_disk_that_fills_up_leaves_nothing(tmp_path, child):
    def on_a_full_disk():
        resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000))
        with pytest.raises(
            WritingError, match=r"out.pdf could not be written into .*: file too large. Nothing is left"
        ):
            write_labels(JOB, tmp_path / "out.pdf")

    assert child(on_a_full_disk) == 0
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("trouble", "words"),
    [
        (errno.EACCES, "permission denied"),
        (errno.ENOSPC, "no space left on device"),
        (errno.EROFS, "read-only"),
    ],
)
def test_what_the_system_refuses_is_said(trouble, words, tmp_path, monkeypatch):
    def refuse(*args, **kwargs):
        raise OSError(trouble, os.strerror(trouble))

    monkeypatch.setattr(files.tempfile, "mkstemp", refuse)
    with pytest.raises(WritingError, match=words):
        write_labels(JOB, tmp_path / "out.pdf")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_not_there_is_said(tmp_path):
    with pytest.raises(WritingError, match="no such file or directory"):
        write_labels(JOB, tmp_path / "nowhere" / "out.pdf")
    (tmp_path / "out.pdf").mkdir()
    with pytest.raises(WritingError, match="is a directory"):
        write_labels(JOB, tmp_path / "out.pdf")
    shutil.rmtree(tmp_path / "out.pdf")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["labels", "labels.txt", "labels.\x1b[31m"])
def test_a_name_that_says_no_kind_is_refused(name, tmp_path):
    with pytest.raises(
        WritingError, match=r"A name that ends in .pdf, .svg, .png was expected; labels"
    ) as told:
        write_labels(JOB, tmp_path / name)
    assert "\x1b" not in str(told.value)


def test_words_do_not_act_in_an_svg(tmp_path):
    label = Label("part", "P8R5F4A", "P-8R5F4A", "<script>&\"'</script>")
    (path,) = made(tmp_path, [label], SHEET, ".svg")
    text = path.read_text()
    assert "<script>" not in text
    assert "&lt;script&gt;&amp;" in text
