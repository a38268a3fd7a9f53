import pytest
from tinydb import TinyDB, where
from tinydb.operations import increment
from tinydb.table import Document

from shoptui.store.database import Database


@pytest.fixture
def database(folder):
    database = Database.create(folder)
    yield database
    database.close()


@pytest.fixture
def parts(database):
    return database.tinydb.table("parts")


def test_it_is_tinydb_on_the_same_documents(database, parts):
    assert isinstance(database.tinydb, TinyDB)
    assert parts.insert({"code": "A"}) == 1
    with database.transaction():
        assert database.insert("parts", {"code": "B"}) == 2
    assert parts.get(where("code") == "B").doc_id == 2
    assert dict(database.documents("parts")) == {1: {"code": "A"}, 2: {"code": "B"}}
    assert database.tinydb.tables() == {"parts"}
    again = Database(database.folder)
    assert again.tinydb.table("parts").all() == parts.all()
    again.close()


def test_what_comes_out_is_a_copy(database, parts):
    parts.insert({"code": "A", "at": [1]})
    for found in (
        parts.get(doc_id=1),
        parts.get(where("code") == "A"),
        parts.get(doc_ids=[1])[0],
        parts.search(where("code") == "A")[0],
        parts.all()[0],
        next(iter(parts)),
    ):
        found["at"].append(2)
        found["code"] = "Z"
    assert dict(database.documents("parts")) == {1: {"code": "A", "at": [1]}}


def test_no_cache_outlives_what_others_write(database, parts):
    other = Database(database.folder)
    here = where("code") == "A"
    assert parts.search(here) == []
    other.tinydb.table("parts").insert({"code": "A"})
    other.close()
    database.refresh()
    assert len(parts.search(here)) == 1
    assert database.tinydb.table("bins", cache_size=30)._query_cache.capacity == 0


def test_one_table_for_each_name_ever(database, parts):
    assert database.tinydb.table("parts", cache_size=5) is parts
    parts.insert({"code": "A"})
    database.tinydb.drop_table("parts")
    assert database.tinydb.table("parts") is parts
    assert parts.all() == []
    assert parts.insert({"code": "B"}) == 2
    database.tinydb.drop_tables()
    assert database.tinydb.table("parts") is parts
    assert parts.insert({"code": "C"}) == 3


def test_two_processes_never_get_one_id(database, parts):
    other = Database(database.folder)
    theirs = other.tinydb.table("parts")
    ids = [table.insert({"n": n}) for n in range(5) for table in (parts, theirs, parts)]
    assert ids == list(range(1, 16))
    assert theirs.insert_multiple([{"n": 1}, {"n": 2}]) == [16, 17]
    assert parts.upsert({"n": 99}, where("n") == 98) == [18]
    other.close()


def test_an_updater_that_fails_changes_nothing(database, parts):
    parts.insert_multiple([{"n": 1, "in": {"x": 1}}, {"n": 2, "in": {"x": 1}}])
    before = database.position

    def fail_at_two(document):
        document["in"]["x"] = 7
        if document["n"] == 2:
            raise KeyError

    with pytest.raises(KeyError):
        parts.update(fail_at_two)
    assert [each["in"]["x"] for each in parts] == [1, 1]
    assert database.position == before
    assert parts.update(increment("n")) == [1, 2]
    assert [each["n"] for each in parts] == [2, 3]


def test_an_update_is_one_record(database, parts):
    parts.insert_multiple([{"n": n} for n in range(10)])
    lines = (database.folder / "journal-1.jsonl").read_bytes().count(b"\n")
    parts.update({"seen": True})
    parts.remove(where("n") < 5)
    assert (database.folder / "journal-1.jsonl").read_bytes().count(b"\n") == lines + 2


def test_calls_join_a_transaction(database, parts):
    parts.insert({"code": "A"})

    def fail():
        with database.transaction():
            parts.insert({"code": "B"})
            parts.update({"code": "C"}, doc_ids=[1])
            parts.truncate()
            assert len(parts) == 0
            raise KeyError

    with pytest.raises(KeyError):
        fail()
    assert [dict(each) for each in parts] == [{"code": "A"}]


def test_ids_that_a_caller_chose_are_not_given_again(parts):
    parts.insert(Document({"code": "A"}, doc_id=7))
    assert parts.insert({"code": "B"}) == 8
    assert parts.insert_multiple([Document({"code": "C"}, doc_id=9), {"code": "D"}]) == [9, 10]
    assert [each["code"] for each in parts] == ["A", "B", "C", "D"]
    with pytest.raises(ValueError, match="already exists"):
        parts.insert(Document({"code": "E"}, doc_id=7))


def test_the_default_table(database):
    database.tinydb.insert({"code": "A"})
    assert len(database.tinydb) == 1
    assert [dict(each) for each in database.tinydb] == [{"code": "A"}]
    assert database.tables() == ("_default",)


def test_a_removed_document_can_come_back_under_its_id(parts):
    parts.insert({"code": "A"})

    def again(document):
        document.clear()
        document["code"] = "B"

    parts.update(again)
    assert parts.get(doc_id=1) == {"code": "B"}
    parts.remove(doc_ids=[1])
    assert parts.get(doc_id=1) is None
    parts.insert(Document({"code": "C"}, doc_id=1))
    assert parts.get(doc_id=1) == {"code": "C"}
    assert "x" not in parts._read_table()
