import pytest

from shoptui.jobs import attach as module
from shoptui.jobs.attach import attach, file_words, files_of
from shoptui.jobs.check import check


@pytest.fixture
def photo(tmp_path):
    path = tmp_path / "the dent.jpg"
    path.write_bytes(b"a photo")
    return path


def test_a_file_is_kept_with_what_it_belongs_to(made, photo):
    at = made.at("office")
    for record in (made.rotor, made.box, made.order):
        assert attach(at, record, f"'{photo}'", note="as it came").said == "done"
    assert attach(at, made.rotor, str(photo)).said == "stop", "it is there already"
    (file,) = files_of(at, made.rotor)
    assert file_words(file) == "the dent.jpg, 7 bytes, as it came"
    assert check(made.shop) == ()
    made.scans("parts", "office").take("undo")
    assert files_of(at, made.order) == ()
    assert check(made.shop) == ()


def test_bytes_that_are_gone_are_a_problem(made, photo):
    attach(made.at("office"), made.rotor, str(photo))
    next(path for path in (made.folder / "files").rglob("*") if path.is_file()).unlink()
    (problem,) = check(made.shop)
    assert "its bytes are not in the folder" in problem.what


@pytest.mark.parametrize(
    "path", ["", "  ", "/gone.jpg", "/", "~nobody-here/x", "file:///gone", "'/a\x1b[31m"]
)
def test_what_cannot_be_kept_changes_nothing(made, path):
    before = made.bytes()
    answer = attach(made.at("office"), made.rotor, path)
    assert answer.said == "stop"
    assert answer.text.isprintable()
    assert made.bytes() == before


def test_a_big_one_is_work_that_is_begun(made, photo, monkeypatch):
    monkeypatch.setattr(module, "BIG", 3)
    begun = attach(made.at("office"), made.rotor, str(photo))
    assert begun.text == "Copying the dent.jpg ..."
    assert files_of(made.at("office"), made.rotor) == ()
    assert begun.work.at_once().said == "done"
    assert len(files_of(made.at("office"), made.rotor)) == 1
