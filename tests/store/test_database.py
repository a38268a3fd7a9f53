import gc
import threading

import pytest

from shoptui.store.database import Database
from shoptui.store.errors import StoreError


@pytest.fixture
def database(folder):
    database = Database.create(folder)
    yield database
    database.close()


def reopened(database):
    other = Database(database.folder)
    tables = {name: dict(other.documents(name)) for name in other.tables()}
    other.close()
    return tables


def insert(database, table="parts", **document):
    with database.transaction():
        return database.insert(table, document)


def test_what_was_acknowledged_is_there_after_opening_again(database):
    assert insert(database, code="A") == 1
    assert insert(database, code="Ä\u2028\x1b[31m") == 2
    with database.transaction():
        database.replace("parts", 1, {"code": "B"})
        database.insert("bins", {"code": "R1"})
    with database.transaction():
        database.delete("parts", 2)
    assert reopened(database) == {"parts": {1: {"code": "B"}}, "bins": {1: {"code": "R1"}}}


def test_an_exception_takes_everything_back_and_writes_nothing(database):
    insert(database, code="A")
    told = []
    database.listen("parts", lambda *change: told.append(change))
    before = database.position

    def fail():
        with database.transaction():
            database.replace("parts", 1, {"code": "B"})
            database.insert("parts", {"code": "C"})
            database.delete("parts", 1)
            raise KeyError

    with pytest.raises(KeyError):
        fail()
    assert dict(database.documents("parts")) == {1: {"code": "A"}}
    assert database.position == before
    a, b, c = {"code": "A"}, {"code": "B"}, {"code": "C"}
    assert told == [
        (1, None, a),
        (1, a, b),
        (2, None, c),
        (1, b, None),
        (1, None, b),
        (2, c, None),
        (1, b, a),
    ]


def test_a_block_that_changes_nothing_writes_nothing(database):
    insert(database, code="A", seen=1)
    before = database.position
    with database.transaction():
        database.replace("parts", 1, {"code": "B"})
        database.replace("parts", 1, {"code": "A", "seen": 1})
        database.delete("parts", database.insert("parts", {"code": "C"}))
    assert database.position == before
    with database.transaction():
        database.replace("parts", 1, {"code": "A", "seen": True})
    assert database.position != before
    assert reopened(database)["parts"][1]["seen"] is True


def test_a_block_inside_another_joins_it(database):
    def fail_inside():
        with database.transaction():
            database.insert("parts", {"code": "B"})
            raise KeyError

    with database.transaction():
        insert(database, code="A")
        with pytest.raises(KeyError):
            fail_inside()
        insert(database, code="C")
    assert [each["code"] for each in database.documents("parts").values()] == ["A", "C"]
    assert reopened(database)["parts"] == dict(database.documents("parts"))

    def fail():
        with database.transaction():
            insert(database, code="D")
            raise KeyError

    with pytest.raises(KeyError):
        fail()
    assert len(database.documents("parts")) == 2


def test_kept_documents_are_nobody_elses(database):
    document = {"code": "A", "at": [1, {"x": 2}], "pair": (1, 2)}
    with database.transaction():
        database.insert("parts", document)
        document["at"][1]["x"] = 3
        document["code"] = "B"
    kept = database.documents("parts")[1]
    assert kept == {"code": "A", "at": [1, {"x": 2}], "pair": [1, 2]}
    with pytest.raises(TypeError):
        database.documents("parts")[1] = {}
    before = kept
    with database.transaction():
        database.replace("parts", 1, {"code": "C"})
    assert before["code"] == "A"


@pytest.mark.parametrize("value", [float("nan"), float("inf"), {1, 2}, b"x", object()])
def test_what_json_cannot_hold_is_refused_and_changes_nothing(database, value):
    def fail():
        with database.transaction():
            database.insert("parts", {"code": "A"})
            database.insert("parts", {"code": value})

    with pytest.raises((TypeError, ValueError)):
        fail()
    assert reopened(database) == {}
    assert insert(database, code="B")


def test_an_id_is_never_given_twice(folder):
    database = Database.create(folder)
    assert [insert(database, code=code) for code in "ABC"] == [1, 2, 3]
    with database.transaction():
        database.delete("parts", 3)
    database.close()
    database = Database(folder)
    assert insert(database, code="D") == 4
    with database.transaction():
        database.delete("parts", 4)
        database.delete("parts", 1)
    database.compact()
    database.close()
    database = Database(folder)
    assert insert(database, code="E") == 5
    database.close()


def test_a_listener_hears_what_is_there_and_what_comes(database):
    insert(database, code="A")
    told = []
    database.listen("parts", lambda *change: told.append(change))
    insert(database, code="B")
    assert told == [(1, None, {"code": "A"}), (2, None, {"code": "B"})]


def test_a_listener_that_fails_leaves_the_others_as_they_were(database):
    codes = {}

    def index(number, _before, after):
        codes[number] = after

    def refuse(_number, _before, after):
        if after is not None and after["code"] == "bad":
            raise LookupError

    database.listen("parts", index)
    database.listen("parts", refuse)

    def fail():
        with database.transaction():
            database.insert("parts", {"code": "good"})
            database.insert("parts", {"code": "bad"})

    with pytest.raises(LookupError):
        fail()
    assert codes == {1: None, 2: None}
    assert not database.documents("parts")
    assert reopened(database) == {}


def test_changes_stand_inside_a_transaction_only(database):
    for change in (
        lambda: database.insert("parts", {}),
        lambda: database.replace("parts", 1, {}),
        lambda: database.delete("parts", 1),
        lambda: database.next_id("parts"),
    ):
        with pytest.raises(RuntimeError, match="inside a transaction"):
            change()


def test_the_stores_own_table_is_not_for_others(database):
    with pytest.raises(StoreError, match="belongs to the store"), database.transaction():
        database.insert("_store", {"schema": 9})


def test_another_thread_cannot_step_into_a_transaction(database):
    refused = []

    def intrude():
        try:
            with database.transaction():
                database.insert("parts", {"code": "B"})
        except RuntimeError as error:
            refused.append(error)

    with database.transaction():
        database.insert("parts", {"code": "A"})
        thread = threading.Thread(target=intrude)
        thread.start()
        thread.join()
    assert len(refused) == 1
    assert len(database.documents("parts")) == 1


def test_two_databases_on_one_folder_see_each_other(database):
    other = Database(database.folder)
    told = []
    other.listen("parts", lambda *change: told.append(change))
    view = other.documents("parts")
    assert not other.refresh()
    insert(database, code="A")
    assert other.refresh()
    assert not other.refresh()
    assert dict(view) == {1: {"code": "A"}}
    assert insert(other, code="B") == 2
    # A transaction takes in what others wrote before its block runs.
    with database.transaction():
        assert len(database.documents("parts")) == 2
        database.delete("parts", 1)
    assert other.refresh()
    assert told == [(1, None, {"code": "A"}), (2, None, {"code": "B"}), (1, {"code": "A"}, None)]
    other.close()


def test_the_collector_is_as_it_was(folder):
    frozen = gc.get_freeze_count()
    database = Database.create(folder)
    database.listen("parts", lambda *_: None)
    database.close()
    assert gc.isenabled()
    assert gc.get_freeze_count() == frozen


def test_waiting_for_another_process(database):
    other = Database(database.folder)
    assert not other._journal.wait(other.position, 0)
    insert(database, code="A")
    assert other._journal.wait(other.position, 5)
    other.close()
