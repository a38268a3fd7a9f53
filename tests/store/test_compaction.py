import shutil

import pytest

from shoptui.store.database import Database
from shoptui.store.errors import BusyError
from shoptui.store.tidying import COMPACT_BYTES

POINTS = (
    "snapshot written",
    "journal written",
    "journal in place",
    "snapshot in place",
    "names on the disk",
    "rotated",
    "removed snapshot",
    "removed journal",
)


def insert(database, **document):
    with database.transaction():
        return database.insert("parts", document)


def parts(database):
    return {number: each["code"] for number, each in database.documents("parts").items()}


@pytest.fixture
def pair(folder):
    """Two databases on one store, as two processes have them."""
    one = Database.create(folder)
    two = Database(folder)
    yield one, two
    one.close()
    two.close()


@pytest.fixture
def index(pair):
    """What a listener of the second one makes of what it hears."""
    codes = {}

    def hear(number, before, after):
        assert codes.pop(number, None) == (before and before["code"])
        if after:
            codes[number] = after["code"]

    pair[1].listen("parts", hear)
    return codes


def write_snapshot(database):
    """Let the thread write, as in an idle moment; commit with the next one."""
    due = database._tidying.due
    database._tidying.due = lambda *_: True
    assert database.idle()
    database._tidying.due = due
    database._tidying._attempt._thread.join()


def test_a_new_generation_holds_the_same(pair, folder):
    one, two = pair
    for code in "ABC":
        insert(one, code=code)
    one.compact()
    assert (one.generation, one.position.offset) == (2, 0)
    insert(one, code="D")
    assert two.refresh()
    assert two.position == one.position
    assert parts(two) == {1: "A", 2: "B", 3: "C", 4: "D"}
    insert(two, code="E")
    assert one.refresh()
    assert sorted(path.name for path in folder.iterdir()) == ["journal-2.jsonl", "lock", "snapshot-2.json"]


def test_who_has_read_all_follows_without_reading_again(pair, monkeypatch):
    one, two = pair
    insert(one, code="A")
    two.refresh()
    one.compact()
    monkeypatch.setattr("shoptui.store.following.load", None)
    assert not two.refresh()
    assert two.position == one.position


def test_what_comes_while_the_snapshot_is_written_is_kept(pair, index):
    one, two = pair
    insert(one, code="A")
    write_snapshot(one)
    insert(two, code="B")
    insert(one, code="C")
    insert(two, code="D")
    assert not one.idle()
    assert one.generation == 2
    assert one.position.offset > 0
    insert(one, code="E")
    two.refresh()
    assert index == parts(two) == parts(one) == dict(enumerate("ABCDE", 1))
    again = Database(one.folder)
    assert parts(again) == parts(one)
    again.close()


def test_who_slept_through_generations_is_told_what_is_different(pair, index):
    one, two = pair
    for code in "ABC":
        insert(one, code=code)
    two.refresh()
    for code in "DEF":
        insert(one, code=code)
        one.compact()
        with one.transaction():
            one.delete("parts", "DEF".index(code) + 1)
            one.replace("parts", 4, {"code": f"D{code}"})
    with one.transaction():
        one.insert("bins", {"code": "R"})
    one.compact()
    insert(one, code="G")
    assert two.generation == 1
    assert two.refresh()
    assert parts(two) == index == parts(one) == {4: "DF", 5: "E", 6: "F", 7: "G"}
    assert dict(two.documents("bins")) == {1: {"code": "R"}}
    assert two.position == one.position


def test_who_slept_does_not_wait_for_a_busy_writer(pair):
    one, two = pair
    insert(one, code="A")
    one.compact()
    one.compact()
    two._journal.lock_seconds = 0.02
    with one._journal.turn():
        assert not two.refresh()
    assert not two.read_only
    assert two.refresh()
    assert parts(two) == {1: "A"}


def test_who_slept_writes_at_the_right_place(pair, index):
    one, two = pair
    for code in "ABC":
        insert(one, code=code)
        one.compact()
    assert insert(two, code="D") == 4
    one.refresh()
    assert index == parts(one) == dict(enumerate("ABCD", 1))


def test_ids_of_removed_documents_stay_taken_for_who_slept(pair):
    one, two = pair
    insert(one, code="A")
    with one.transaction():
        one.delete("parts", 1)
    one.compact()
    one.compact()
    one.compact()
    assert insert(two, code="B") == 2


def test_of_two_that_write_a_snapshot_one_gives_up(pair, folder):
    one, two = pair
    insert(one, code="A")
    two.refresh()
    write_snapshot(one)
    write_snapshot(two)
    assert not one.idle()
    assert not two.idle()
    assert one.position == two.position
    assert one.generation == 2
    assert not list(folder.glob("*.part"))
    assert parts(two) == {1: "A"}


def test_a_store_that_is_being_compacted_takes_transactions(pair):
    one, two = pair
    insert(one, code="A")
    write_snapshot(one)
    for code in "BCDEF":
        insert(two, code=code)
    with two._journal.turn():
        assert one.idle()  # not now: somebody writes
    assert not one.idle()
    insert(two, code="G")
    one.refresh()
    assert list(parts(one).values()) == list("ABCDEFG")


def test_idle_moments_are_used_when_the_journal_has_grown(pair):
    one, two = pair
    assert not one.idle()
    insert(one, code="A", notes="x" * COMPACT_BYTES)
    two.refresh()
    assert not two.idle()  # the one that wrote last does it
    assert one.idle()
    one._tidying._attempt._thread.join()
    assert not one.idle()
    assert one.generation == 2
    # A journal much shorter than its snapshot is left alone.
    insert(one, code="B", notes="x" * (COMPACT_BYTES // 8))
    assert not one.idle()


def test_closing_tidies_up_after_much_was_written(folder):
    database = Database.create(folder)
    insert(database, code="A", notes="x" * COMPACT_BYTES * 3)
    database.close()
    again = Database(folder)
    assert again.generation == 2
    again.close()


def test_closing_while_a_snapshot_is_written_leaves_nothing(pair, folder):
    one, _ = pair
    insert(one, code="A")
    one._tidying.due = lambda *_: True
    assert one.idle()
    one._tidying.due = lambda *_: False
    one.close()
    assert not list(folder.glob("*.part"))
    again = Database(folder)
    assert parts(again) == {1: "A"}
    again.close()


def test_a_compaction_that_cannot_get_its_turn_says_so(folder):
    one = Database.create(folder)
    two = Database(folder, lock_seconds=0.02)
    with one._journal.turn(), pytest.raises(BusyError):
        two.compact()
    two.compact()
    assert two.generation == 2
    one.close()
    two.close()


@pytest.fixture
def crashed(pair, folder, tmp_path):
    """What is on the disk at each point of a compaction, with a record that came in the meantime."""
    one, two = pair
    for code in "ABC":
        insert(one, code=code)
    with one.transaction():
        one.delete("parts", 2)
    write_snapshot(one)
    insert(two, code="D")

    def keep(point):
        shutil.copytree(folder, tmp_path / point)

    shutil.copytree(folder, tmp_path / "snapshot written")
    one._tidying._attempt._at = keep
    one.idle()
    return tmp_path


EXPECTED = {1: "A", 3: "C", 4: "D"}


@pytest.mark.parametrize("point", POINTS)
def test_a_crash_at_any_point_loses_nothing(crashed, point):
    folder = crashed / point
    database = Database(folder)
    assert parts(database) == EXPECTED
    assert database.generation == (2 if POINTS.index(point) >= POINTS.index("rotated") else 1)
    assert insert(database, code="E") == 5
    other = Database(folder)
    assert parts(other) == EXPECTED | {5: "E"}
    other.compact()
    assert insert(other, code="F") == 6
    other.close()
    database.refresh()
    assert parts(database) == EXPECTED | {5: "E", 6: "F"}
    generation = database.generation
    database.close()
    names = {path.name for path in folder.iterdir()}
    assert names == {f"journal-{generation}.jsonl", f"snapshot-{generation}.json", "lock"}


def test_a_commit_torn_at_any_byte_is_no_commit(crashed, tmp_path):
    whole = (crashed / "rotated" / "journal-1.jsonl").read_bytes()
    before = (crashed / "names on the disk" / "journal-1.jsonl").read_bytes()
    assert whole.startswith(before)
    for length in range(len(before), len(whole) + 1):
        folder = tmp_path / f"torn-{length}"
        shutil.copytree(crashed / "rotated", folder)
        (folder / "journal-1.jsonl").write_bytes(whole[:length])
        database = Database(folder)
        assert database.generation == (2 if length == len(whole) else 1)
        assert parts(database) == EXPECTED
        insert(database, code="E")
        database.close()
        again = Database(folder)
        assert parts(again) == EXPECTED | {5: "E"}
        again.close()


def test_a_snapshot_that_never_came_to_count_is_not_mistaken_for_one(crashed):
    folder = crashed / "names on the disk"
    for code in "EF":
        database = Database(folder)
        insert(database, code=code)
        database.close()
    # Both generations lie there; the newer one lacks E and F.
    assert (folder / "snapshot-2.json").exists()
    database = Database(folder)
    assert list(parts(database).values()) == list("ACDEF")
    database.close()


def test_a_snapshot_lost_before_the_commit_is_missed(crashed):
    folder = crashed / "names on the disk"
    (folder / "snapshot-1.json").unlink()
    with pytest.raises(ValueError, match=r"snapshot-1\.json: it is missing"):
        Database(folder)


def test_leftovers_of_several_crashes(crashed):
    folder = crashed / "rotated"
    for name in ("journal-1.jsonl", "snapshot-1.json"):
        shutil.copy(folder / name, crashed / name)
    database = Database(folder)
    database.compact()
    database.close()
    # As if removing had not come far in either generation.
    shutil.copy(crashed / "journal-1.jsonl", folder)
    shutil.copy(crashed / "rotated" / "snapshot-3.json", folder / "snapshot-3.json.123.part")
    database = Database(folder)
    assert parts(database) == EXPECTED
    assert database.generation == 3
    database.close()
    assert {path.name for path in folder.iterdir()} == {"journal-3.jsonl", "snapshot-3.json", "lock"}
