import pytest
from hypothesis import given
from hypothesis import strategies as st
from reading import examples

from shoptui.labels.errors import PositionError
from shoptui.labels.layout import Label
from shoptui.labels.page import Correction
from shoptui.labels.sheets import Job, pages
from shoptui.labels.stock import read_stock

SHEET = read_stock("sheet-letter-3x10-66x25")
LABELS = examples(7)
OWN = """widest_module = 0.4
between = 1

[[rows]]
what = "words"
words = "{word}"
share = 1

[[rows]]
what = "symbol"
share = 1
"""


def places(job):
    """(page, position, shown code) of each label, found from where its words lie."""
    found = []
    for number, page in enumerate(pages(job), 1):
        for text in page.texts:
            if text.text[1:2] == "-" and len(text.text) == 8:
                column = int((text.x - SHEET.left) // SHEET.across)
                row = int((text.baseline - SHEET.top) // SHEET.down)
                found.append((number, row * SHEET.columns + column + 1, text.text))
    return found


@given(st.integers(1, 7), st.integers(1, 30), st.integers(1, 12), st.data())
def test_each_label_is_where_the_job_says(count, start, copies, data):
    again_from = data.draw(st.integers(1, count * copies))
    job = Job(LABELS[:count], SHEET, start=start, copies=copies, again_from=again_from)
    every = [label.shown for label in LABELS[:count] for _ in range(copies)]
    wanted = []
    for at, shown in enumerate(every[again_from - 1 :], start - 1):
        page, position = divmod(at, SHEET.labels)
        wanted.append((page + 1, position + 1, shown))
    assert places(job) == wanted
    assert wanted[0][:2] == (1, start)
    assert (job.count, job.page_count) == (len(wanted), wanted[-1][0])
    assert sum(page.labels for page in pages(job)) == job.count


def test_print_again_from_label_7_on_a_fresh_sheet():
    job = Job(LABELS, SHEET, again_from=7)
    assert places(job) == [(1, 1, LABELS[6].shown)]


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ({"start": 31}, "A position from 1 to 30 was expected on sheet-letter-3x10-66x25; 31 came"),
        ({"start": 0}, "A position from 1 to 30"),
        ({"copies": 0}, "1 to 1000 copies were expected; 0 came"),
        ({"copies": 1001}, "1 to 1000 copies"),
        ({"again_from": 8}, "A label from 1 to 7 to print again from was expected; 8 came"),
        ({"again_from": 0}, "A label from 1 to 7"),
    ],
)
def test_what_cannot_be_is_refused_before_anything_is_drawn(options, words):
    with pytest.raises(PositionError, match=words):
        Job(LABELS, SHEET, **options)


def test_no_labels_are_refused():
    with pytest.raises(PositionError, match="there is none to print"):
        Job([], SHEET)


def test_a_page_says_each_note_once():
    (page,) = pages(Job([Label("part", "P8R5F4A", title="שלום")] * 3, SHEET))
    assert page.notes == ("Hebrew cannot be set in the font of labels; [Hebrew] stands for it.",)


def test_a_correction_that_goes_beyond_the_page_is_said():
    edge = read_stock("sheet-a4-3x10-70x29.7")
    (page,) = pages(Job(LABELS, edge, correction=Correction(down=0.97)))
    assert "would reach beyond the page" in page.notes[0]
    (page,) = pages(Job(LABELS, edge, correction=Correction(down=1.01, left=0.5)))
    assert page.notes == ()


def test_a_layout_is_read_anew_for_every_job(tmp_path):
    """Somebody who changes a layout prints it again at once."""
    (tmp_path / "layouts").mkdir()
    job = Job(LABELS[:1], SHEET, own=tmp_path)
    for word in ("Shelf", "Rack"):
        (tmp_path / "layouts" / "bin.toml").write_text(OWN.format(word=word))
        (page,) = pages(job)
        assert [text.text for text in page.texts] == [word]
