"""A disk that fails: nothing is acknowledged, nothing is lost, and the store says what happened."""

import errno
import os
import resource
import shutil
import subprocess

import pytest

from shoptui.store.database import Database
from shoptui.store.errors import CompactionError, ReadOnlyError, WriteFailedError


def insert(database, **document):
    with database.transaction():
        return database.insert("parts", document)


def codes(folder):
    database = Database(folder)
    found = [each["code"] for each in database.documents("parts").values()]
    database.close()
    return found


@pytest.fixture
def database(folder):
    database = Database.create(folder)
    insert(database, code="A")
    yield database
    database.close()


def no_room(*_):
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def test_after_a_failed_write_the_store_is_read_only(database, monkeypatch):
    told = []
    database.listen("parts", lambda *change: told.append(change))
    with monkeypatch.context() as broken:
        broken.setattr(os, "fsync", no_room)
        with pytest.raises(WriteFailedError, match=r"No space left on device\) and was not made"):
            insert(database, code="B")
    assert [each["code"] for each in database.documents("parts").values()] == ["A"]
    assert told[-2:] == [(2, None, {"code": "B"}), (2, {"code": "B"}, None)]
    assert "takes no more changes" in database.read_only
    with pytest.raises(ReadOnlyError, match="No space left on device"):
        insert(database, code="C")
    with pytest.raises(ReadOnlyError):
        database.compact()
    assert not database.idle()
    # Others go on, and it still reads what they write.
    other = Database(database.folder)
    insert(other, code="D")
    other.close()
    assert database.refresh()
    assert codes(database.folder) == ["A", "D"]


def test_a_reader_never_sees_what_was_taken_back(database, monkeypatch):
    other = Database(database.folder)

    def look_and_fail(*_):
        assert not other.refresh()
        no_room()

    with monkeypatch.context() as broken:
        broken.setattr(os, "fsync", look_and_fail)
        with pytest.raises(WriteFailedError):
            insert(database, code="B")
    assert not other.refresh()
    assert len(other.documents("parts")) == 1
    other.close()


def test_when_even_taking_back_fails_the_words_say_so(database, monkeypatch):
    class Stuck:
        def __init__(self, file):
            self.file = file

        def truncate(self, _):
            no_room()

        def __getattr__(self, name):
            return getattr(self.file, name)

    database._journal._file = Stuck(database._journal._file)
    with monkeypatch.context() as broken:
        broken.setattr(os, "fsync", no_room)
        with pytest.raises(WriteFailedError, match="may be there or not: look before"):
            insert(database, code="B")
    assert database.refresh()  # it is there
    assert codes(database.folder) == ["A", "B"]


def test_a_full_disk_in_the_middle_of_a_record(database, child):
    length = database.position.offset

    def write():
        writer = Database(database.folder)
        resource.setrlimit(resource.RLIMIT_FSIZE, (length + 40, length + 40))
        with pytest.raises(WriteFailedError, match="File too large"):
            insert(writer, code="B" * 100)
        assert len(writer.documents("parts")) == 1
        with pytest.raises(ReadOnlyError):
            insert(writer, code="C")

    assert child(write) == 0
    assert (database.folder / "journal-1.jsonl").stat().st_size == length
    insert(database, code="D")
    assert codes(database.folder) == ["A", "D"]


def test_no_room_for_a_snapshot_leaves_the_store_as_it_was(database, child):
    for _ in range(20):
        insert(database, code="A" * 100)
    before = sorted(path.name for path in database.folder.iterdir())

    def compact():
        writer = Database(database.folder)
        resource.setrlimit(resource.RLIMIT_FSIZE, (500, 500))
        with pytest.raises(CompactionError, match=r"File too large\)\. Nothing is lost"):
            writer.compact()
        assert not writer.read_only
        assert writer.generation == 1
        # In an idle moment nobody is told, and it is not tried again at once.
        writer._tidying._not_before = 0
        writer._tidying.due = lambda position, _: writer._tidying._not_before <= position.offset
        assert writer.idle()
        writer._tidying._attempt._thread.join()
        assert not writer.idle()
        assert not writer.idle()

    assert child(compact) == 0
    assert sorted(path.name for path in database.folder.iterdir()) == before
    database.compact()
    assert len(codes(database.folder)) == 21


@pytest.mark.parametrize("call", [1, 2, 3, 4])
def test_a_disk_that_fails_while_a_generation_is_made(database, monkeypatch, call):
    """The calls bring to the disk: the snapshot, the journal, the names, the commit."""
    real, calls = os.fsync, []

    def fail(descriptor):
        calls.append(descriptor)
        if len(calls) == call:
            no_room()
        real(descriptor)

    with monkeypatch.context() as broken:
        broken.setattr(os, "fsync", fail)
        with pytest.raises(WriteFailedError if call == 4 else CompactionError):
            database.compact()
    assert bool(database.read_only) == (call == 4)
    assert codes(database.folder) == ["A"]
    other = Database(database.folder)
    assert other.generation == 1
    insert(other, code="B")
    other.compact()
    other.close()
    database.refresh()
    assert database.generation == 2
    assert codes(database.folder) == ["A", "B"]


def test_a_disk_that_is_really_full(tmp_path):
    place = tmp_path / "small"
    place.mkdir()
    mount = shutil.which("mount")
    small = [mount or "mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(place)]
    if mount is None or subprocess.run(small, capture_output=True, check=False).returncode:
        pytest.skip("a small disk cannot be mounted here")
    try:
        fill_up(place / "shop")
    finally:
        subprocess.run(["umount", str(place)], check=True)


def fill_up(folder):
    database = Database.create(folder)
    done = []

    def write_on():
        while True:
            insert(database, code=f"{len(done)}", notes="x" * 1000)
            done.append(f"{len(done)}")

    with pytest.raises(WriteFailedError, match="No space left on device"):
        write_on()
    assert len(done) > 20
    with pytest.raises(ReadOnlyError):
        insert(database, code="no")
    assert [each["code"] for each in database.documents("parts").values()] == done
    database.close()
    assert codes(folder) == done
    database = Database(folder)
    with pytest.raises(CompactionError, match="No space left"):
        database.compact()
    database.close()
    assert codes(folder) == done
