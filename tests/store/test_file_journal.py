import os
import threading

import pytest

from shoptui.store.database import Database
from shoptui.store.errors import BusyError, DamagedError, WriteFailedError
from shoptui.store.file_journal import FileJournal
from shoptui.store.folder import LOCK
from shoptui.store.frames import frame
from shoptui.store.journal import HeadMovedError, OutrunError, Position
from shoptui.store.lock import FolderLock

RECORD = b'{"changes":[["parts",1,{"code":"A"}]]}'
START = Position(1, 0)


@pytest.fixture
def journals(folder):
    Database.create(folder).close()
    made = []

    def one(**given):
        given = {"schema": 1, "lock_seconds": 0.05} | given
        journal = FileJournal(folder, FolderLock(folder / LOCK), **given)
        journal.open(1)
        made.append(journal)
        return journal

    yield one
    for journal in made:
        journal.close()


def append(journal, head, record=RECORD):
    with journal.turn():
        return journal.append(record, head)


def test_a_record_goes_to_the_head_and_is_read_from_there(journals):
    one, two = journals(), journals()
    assert two.read(START) == ((), START)
    head = append(one, START)
    assert head == Position(1, len(frame(RECORD)))
    assert two.changed(START)
    assert two.read(START) == ((RECORD,), head)
    assert two.read(head) == ((), head)


def test_a_head_that_moved_is_refused(journals):
    one, two = journals(), journals()
    append(one, START)
    with pytest.raises(HeadMovedError):
        append(two, START)
    assert two.read(START)[0] == (RECORD,)


def test_nobody_appends_out_of_turn(journals):
    journal = journals()
    with pytest.raises(RuntimeError, match="turn"):
        journal.append(RECORD, START)
    with journal.glance(), pytest.raises(RuntimeError, match="turn"):
        journal.append(RECORD, START)


def test_whoever_waits_too_long_is_told_so(journals):
    one, two = journals(), journals()
    with one.turn():
        with pytest.raises(BusyError, match=r"more than 0\.05 seconds"):
            append(two, START)
        # A reader comes back later.
        one.append(RECORD, START)
        assert two.read(START) == ((), START)
    assert len(two.read(START)[0]) == 1


def test_a_wait_that_was_given_up_locks_nobody_out(journals):
    one, two, three = journals(), journals(), journals()
    with one.turn():
        for _ in range(3):
            with pytest.raises(BusyError):
                append(two, START)
    for thread in threading.enumerate():
        if thread.name == "waiting for the store":
            thread.join(5)
    append(three, START)


def test_a_turn_comes_as_soon_as_it_is_free(journals):
    one, two = journals(), journals(lock_seconds=30)
    heads = []
    with one.turn():
        thread = threading.Thread(target=lambda: heads.append(append(two, START)))
        thread.start()
        thread.join(0.05)
        assert thread.is_alive()
    thread.join(10)
    assert heads == [Position(1, len(frame(RECORD)))]


@pytest.mark.parametrize("cut", range(1, len(frame(RECORD))))
def test_a_torn_tail_is_cut_by_a_writer_only(journals, folder, cut):
    journal = journals()
    head = append(journal, START)
    path = folder / "journal-1.jsonl"
    torn = path.read_bytes() + frame(RECORD)[:cut]
    path.write_bytes(torn)
    assert journal.read(START) == ((RECORD,), head)
    assert path.read_bytes() == torn
    after = append(journal, head, b'{"changes":[]}')
    assert path.read_bytes() == frame(RECORD) + frame(b'{"changes":[]}')
    assert after.offset == path.stat().st_size


def test_damage_is_refused_and_never_cut(journals, folder):
    journal = journals()
    head = append(journal, append(journal, START))
    path = folder / "journal-1.jsonl"
    damaged = bytearray(path.read_bytes())
    damaged[30] ^= 1
    path.write_bytes(damaged)
    with pytest.raises(DamagedError, match=r"journal-1\.jsonl at byte 0"):
        journal.read(START)
    # Whoever has read past the damage does not see it, and harms nothing.
    assert append(journal, head).offset == path.stat().st_size
    assert path.read_bytes().startswith(damaged)
    with pytest.raises(DamagedError):
        Database(folder)


@pytest.mark.parametrize("broken", ["write", "fsync"])
def test_a_record_that_cannot_be_written_is_not_there(journals, folder, monkeypatch, broken):
    journal = journals()
    head = append(journal, START)

    def fail(*_):
        raise OSError(28, "No space left on device")

    if broken == "fsync":
        monkeypatch.setattr(os, "fsync", fail)
    else:

        def put_half(_self, offset, line):
            with (folder / "journal-1.jsonl").open("r+b") as file:
                file.seek(offset)
                file.write(line[:20])
            fail()

        monkeypatch.setattr(FileJournal, "_put", put_half)
    with pytest.raises(WriteFailedError, match="No space left on device"):
        append(journal, head)
    assert (folder / "journal-1.jsonl").read_bytes() == frame(RECORD)


def test_a_short_write_goes_on_where_it_stopped(journals):
    journal = journals()
    whole = journal._file

    class Slow:
        def write(self, data):
            return whole.write(data[:7])

        def __getattr__(self, name):
            return getattr(whole, name)

    journal._file = Slow()
    head = append(journal, START)
    assert journal.read(START) == ((RECORD,), head)


def test_a_journal_that_is_missing_is_never_made(journals, folder):
    journal = journals()
    with pytest.raises(OutrunError):
        journal.open(2)
    assert not (folder / "journal-2.jsonl").exists()


def test_a_lock_held_by_nobody_is_not_released_twice(folder):
    folder.mkdir()
    lock = FolderLock(folder / LOCK)
    lock.release()
    assert lock.take(shared=False, seconds=0)
    with pytest.raises(RuntimeError, match="held already"):
        lock.take(shared=False, seconds=0)
    lock.close()
    assert not lock.exclusive
