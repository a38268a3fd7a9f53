"""Several processes at once on one store."""

import os
import time

import pytest

from shoptui.store.database import Database
from shoptui.store.errors import BusyError


def start(function):
    number = os.fork()
    if number == 0:
        try:
            function()
        except BaseException:  # noqa: BLE001 - nothing may get past the fork
            os._exit(1)
        os._exit(0)
    return number


def wait_for(*numbers):
    for number in numbers:
        assert os.waitpid(number, 0)[1] == 0


@pytest.fixture
def store(folder):
    Database.create(folder).close()
    return folder


def test_two_that_insert_100_each_make_200(store):
    def insert_100():
        database = Database(store)
        for _ in range(100):
            database.tinydb.table("parts").insert({"by": os.getpid()})

    wait_for(start(insert_100), start(insert_100))
    database = Database(store)
    found = database.documents("parts")
    assert list(found) == list(range(1, 201))
    by = [each["by"] for each in found.values()]
    assert sorted(by.count(each) for each in set(by)) == [100, 100]
    database.close()


def test_the_last_one_is_taken_once(store):
    """Two terminals that receive the last piece at one moment: the block sees what the other did."""
    database = Database(store)
    with database.transaction():
        database.insert("parts", {"left": 1})

    def take():
        mine = Database(store)
        with mine.transaction():
            left = mine.documents("parts")[1]["left"]
            if left:
                mine.replace("parts", 1, {"left": left - 1})
                mine.insert("taken", {"by": os.getpid()})

    wait_for(*(start(take) for _ in range(4)))
    database.refresh()
    assert database.documents("parts")[1] == {"left": 0}
    assert len(database.documents("taken")) == 1
    database.close()


def test_a_process_that_stops_with_the_lock_is_named_and_its_death_frees_the_store(store):
    ready = os.pipe()

    def hold():
        database = Database(store)
        with database.transaction():
            database.insert("parts", {"code": "half"})
            os.write(ready[1], b"x")
            time.sleep(60)

    holder = start(hold)
    os.read(ready[0], 1)
    with pytest.raises(BusyError, match=r"more than 0\.1 seconds"):
        Database(store, lock_seconds=0.1)
    os.kill(holder, 9)
    os.waitpid(holder, 0)
    database = Database(store)
    assert not database.documents("parts")
    with database.transaction():
        database.insert("parts", {"code": "A"})
    database.close()
    for end in ready:
        os.close(end)


def test_a_store_that_another_process_compacts_waits_and_works(store):
    database = Database(store)
    with database.transaction():
        for number in range(2000):
            database.insert("parts", {"code": f"{number}", "notes": "x" * 100})

    def compact():
        other = Database(store)
        for _ in range(5):
            other.compact()

    compacting = start(compact)
    for number in range(50):
        with database.transaction():
            database.insert("bins", {"n": number})
    wait_for(compacting)
    database.refresh()
    assert database.generation == 6
    assert [each["n"] for each in database.documents("bins").values()] == list(range(50))
    again = Database(store)
    assert dict(again.documents("bins")) == dict(database.documents("bins"))
    assert len(again.documents("parts")) == 2000
    again.close()
    database.close()
