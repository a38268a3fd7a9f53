import json
import os
import shutil
import tempfile
from contextlib import ExitStack
from pathlib import Path

import pytest
from tinydb import TinyDB

from shoptui.store.database import Database
from shoptui.store.errors import (
    DamagedError,
    NetworkShareError,
    NewerStoreError,
    NoPermissionError,
    NoStoreError,
    OlderStoreError,
    ReadOnlyError,
    StoreError,
    StoreExistsError,
)
from shoptui.store.folder import network_share


def insert(database, **document):
    with database.transaction():
        return database.insert("parts", document)


def parts(folder):
    database = Database(folder)
    found = dict(database.documents("parts"))
    database.close()
    return found


@pytest.fixture
def store(folder):
    """Generation 2 with a document in the snapshot and two in the journal."""
    database = Database.create(folder)
    insert(database, code="A")
    database.compact()
    insert(database, code="B")
    insert(database, code="C")
    database.close()
    return folder


@pytest.fixture
def opened():
    """Open a store; it is closed after the test."""
    with ExitStack() as stack:

        def one(folder, **given):
            database = Database(folder, **given)
            stack.callback(database.close)
            return database

        yield one


@pytest.fixture
def anybodys():
    """A folder that an unprivileged user can reach, which pytest's own are not."""
    with tempfile.TemporaryDirectory() as place:
        Path(place).chmod(0o755)
        yield Path(place) / "shop"


def as_nobody(function):
    def run():
        if os.getuid() == 0:
            os.setgroups([])
            os.setgid(65534)
            os.setuid(65534)
        function()

    return run


def test_a_folder_that_is_no_store(tmp_path):
    (tmp_path / "letter.txt").write_text("hello")
    with pytest.raises(NoStoreError, match="There is no store in"):
        Database(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["letter.txt"]
    with pytest.raises(NoStoreError):
        Database(tmp_path / "nowhere")
    with pytest.raises(NoStoreError):
        Database(tmp_path / "letter.txt")


def test_a_new_store_wants_a_folder_of_its_own(tmp_path, store):
    (tmp_path / "letter.txt").write_text("hello")
    with pytest.raises(StoreExistsError, match=r"holds 'letter\.txt'"):
        Database.create(tmp_path)
    with pytest.raises(StoreExistsError, match="is a file"):
        Database.create(tmp_path / "letter.txt")
    with pytest.raises(StoreExistsError, match="There is a store in"):
        Database.create(store)
    assert len(parts(store)) == 3


@pytest.mark.parametrize(
    "left", [[], ["lock"], ["lock", "journal-1.jsonl"], ["lock", "snapshot-1.json.7.part"]]
)
def test_making_a_store_that_was_interrupted_is_done_again(folder, left):
    folder.mkdir()
    for name in left:
        (folder / name).touch()
    with pytest.raises(NoStoreError):
        Database(folder)
    Database.create(folder).close()
    assert parts(folder) == {}
    assert not list(folder.glob("*.part"))


def test_the_snapshot_is_what_tinydb_reads(store, opened):
    opened(store).compact()
    path = store / "snapshot-3.json"
    with TinyDB(path, access_mode="r") as plain:
        assert [dict(each) for each in plain.table("parts")] == [{"code": "A"}, {"code": "B"}, {"code": "C"}]
        assert [each.doc_id for each in plain.table("parts")] == [1, 2, 3]
        own = plain.table("_store").get(doc_id=1)
    assert (own["schema"], own["generation"], own["highest"]) == (1, 3, {"parts": 3})
    assert sorted(name.name for name in store.iterdir()) == ["journal-3.jsonl", "lock", "snapshot-3.json"]


def test_a_store_of_a_newer_version_is_refused(store):
    database = Database(store, schema=2)
    assert len(database.documents("parts")) == 3
    database.close()
    with pytest.raises(NewerStoreError, match="format 2; this program knows formats up to 1"):
        Database(store)


def test_an_upgrade_is_a_new_generation_and_stops_older_programs(store, opened):
    def give_names(memory):
        for number, document in list(memory.documents("parts").items()):
            memory.apply("parts", number, document | {"name": document["code"].lower()})
        memory.apply("bins", 7, {"code": "new"})

    old = opened(store)
    new = opened(store, schema=3, upgrades={2: give_names})
    assert new.documents("parts")[2] == {"code": "B", "name": "b"}
    assert new.generation == 3
    insert(new, code="D", name="d")
    with new.transaction():
        assert new.insert("bins", {}) == 8
    with pytest.raises(NewerStoreError):
        old.refresh()
    assert not old.refresh()
    assert "format 3" in old.read_only
    with pytest.raises(ReadOnlyError, match="format 3"):
        insert(old, code="E")
    assert len(old.documents("parts")) == 3
    new.close()
    again = opened(store, schema=3, upgrades={2: give_names})
    assert again.generation == 3
    assert [each["name"] for each in again.documents("parts").values()] == ["a", "b", "c", "d"]


def test_who_slept_through_an_upgrade_stops_as_well(store, opened):
    old = opened(store)
    new = opened(store, schema=2)
    new.compact()
    new.compact()
    with pytest.raises(NewerStoreError):
        old.refresh()
    assert not old.refresh()
    assert "format 2" in old.read_only
    assert len(old.documents("parts")) == 3


def test_an_upgrade_sees_what_an_older_program_wrote_last(store, opened):
    old = opened(store)
    insert(old, code="D")
    seen = []
    opened(store, schema=2, upgrades={1: lambda memory: seen.extend(memory.documents("parts"))}).close()
    assert seen == [1, 2, 3, 4]


@pytest.mark.parametrize("name", ["snapshot-2.json", "journal-2.jsonl"])
def test_a_missing_file_is_named(store, name):
    (store / name).unlink()
    with pytest.raises(DamagedError, match=rf"{name}: it is missing"):
        Database(store)
    assert not (store / name).exists()


@pytest.mark.parametrize("length", [0, 1, 20, -60, -3, -2])
def test_a_snapshot_cut_in_the_middle_is_refused(store, length):
    path = store / "snapshot-2.json"
    path.write_bytes(path.read_bytes()[:length])
    with pytest.raises(DamagedError, match=r"snapshot-2\.json: it cannot be read"):
        Database(store)


@pytest.mark.parametrize(
    "text", ["[]", "7", '{"parts": {}}', '{"_store": {"1": {}}}', '{"_store": 1}', "[" * 100_000, "\xff"]
)
def test_a_snapshot_of_something_else_is_refused(store, text):
    (store / "snapshot-2.json").write_text(text)
    with pytest.raises(DamagedError):
        Database(store)


@pytest.mark.parametrize("parts", ["[]", '{"x": {}}', '{"1": 5}', "null"])
def test_a_table_of_something_else_is_refused(store, parts):
    own = '{"1": {"schema": 1, "generation": 2, "highest": {}}}'
    (store / "snapshot-2.json").write_text(f'{{"parts": {parts}, "_store": {own}}}')
    with pytest.raises(DamagedError, match="numbered documents"):
        Database(store)


def test_a_changed_byte_in_a_snapshot_is_found(store):
    path = store / "snapshot-2.json"
    path.write_bytes(path.read_bytes().replace(b'"A"', b'"Z"'))
    with pytest.raises(DamagedError, match="not those that were written"):
        Database(store)


def test_a_snapshot_mended_by_hand_is_taken_without_its_crc(store):
    path = store / "snapshot-2.json"
    tables = json.loads(path.read_bytes())
    tables["parts"]["1"]["code"] = "Z"
    del tables["_store"]["1"]["crc"]
    path.write_text(json.dumps(tables, indent=2))
    assert parts(store)[1] == {"code": "Z"}


def test_a_damaged_journal_is_refused_and_stays_as_it_is(store):
    path = store / "journal-2.jsonl"
    damaged = path.read_bytes().replace(b'"B"', b'"Z"')
    path.write_bytes(damaged)
    with pytest.raises(DamagedError, match=r"journal-2\.jsonl at byte 0: .*whole ones follow"):
        Database(store)
    assert path.read_bytes() == damaged


def test_damage_met_while_open_stops_the_store(store, opened):
    database, other = opened(store), opened(store)
    insert(other, code="D")
    insert(other, code="E")
    path = store / "journal-2.jsonl"
    path.write_bytes(path.read_bytes().replace(b'"D"', b'"Z"'))
    with pytest.raises(DamagedError):
        insert(database, code="F")
    assert "is damaged" in database.read_only
    assert not database.refresh()
    assert len(database.documents("parts")) == 3


def test_a_folder_removed_while_open_is_noticed(store, opened):
    database = opened(store)
    shutil.rmtree(store)
    with pytest.raises(StoreError, match="removed or replaced"):
        insert(database, code="D")
    with pytest.raises(ReadOnlyError, match="open the store again"):
        insert(database, code="D")


def test_another_lock_in_its_place_is_noticed(store, opened):
    database = opened(store)
    (store / "lock").unlink()
    other = opened(store)
    with pytest.raises(StoreError, match="removed or replaced"):
        insert(database, code="D")
    assert "removed or replaced" in database.read_only
    assert insert(other, code="E") == 4


def test_who_may_only_read_reads_and_is_told_why_he_cannot_write(anybodys, child, opened):
    Database.create(anybodys).close()
    database = opened(anybodys)
    insert(database, code="A")
    anybodys.chmod(0o555)
    for path in anybodys.iterdir():
        path.chmod(0o444)

    @as_nobody
    def look():
        reader = Database(anybodys)
        assert dict(reader.documents("parts")) == {1: {"code": "A"}}
        assert "this user may not write" in reader.read_only
        with pytest.raises(ReadOnlyError, match="this user may not write"):
            insert(reader, code="B")
        with pytest.raises(ReadOnlyError):
            reader.compact()
        assert not reader.idle()
        with pytest.raises(OlderStoreError, match="as a user who may write"):
            Database(anybodys, schema=2)

    assert child(look) == 0
    (anybodys / "lock").unlink()
    assert child(look) == 0
    assert len(parts(anybodys)) == 1
    anybodys.chmod(0o755)


def test_who_may_only_read_follows_what_others_write(anybodys, child, opened):
    Database.create(anybodys).close()
    database = opened(anybodys)
    anybodys.chmod(0o555)
    for path in anybodys.iterdir():
        path.chmod(0o444)
    ready, go = os.pipe(), os.pipe()

    @as_nobody
    def follow():
        reader = Database(anybodys)
        os.write(ready[1], b"x")
        os.read(go[0], 1)
        assert reader.refresh()
        assert len(reader.documents("parts")) == 2

    number = os.fork()
    if number == 0:
        os._exit(0 if child(follow) == 0 else 1)
    os.read(ready[0], 1)
    if os.getuid() != 0:
        anybodys.chmod(0o755)
        (anybodys / "journal-1.jsonl").chmod(0o644)
    insert(database, code="A")
    database.compact()
    insert(database, code="B")
    for path in anybodys.glob("*-2.*"):
        path.chmod(0o444)
    os.write(go[1], b"x")
    assert os.waitpid(number, 0)[1] == 0
    anybodys.chmod(0o755)
    for end in (*ready, *go):
        os.close(end)


def test_who_may_not_even_look_is_told_so(anybodys, child, opened):
    Database.create(anybodys).close()
    anybodys.chmod(0o700 if os.getuid() == 0 else 0)

    @as_nobody
    def refused():
        with pytest.raises(NoPermissionError, match="may not be opened by this user"):
            Database(anybodys)
        with pytest.raises(NoPermissionError):
            Database.create(anybodys / "inner")

    assert child(refused) == 0
    anybodys.chmod(0o755)
    for path in anybodys.iterdir():
        path.chmod(0o600 if os.getuid() == 0 else 0)

    @as_nobody
    def refused_a_file():
        with pytest.raises(NoPermissionError):
            Database(anybodys)

    assert child(refused_a_file) == 0


MOUNTS = r"""
overlay / overlay rw 0 0
tmpfs /tmp tmpfs rw 0 0
server.example.com:/export /mnt/shop nfs4 rw,vers=4.2 0 0
/dev/sda1 /mnt/shop/local ext4 rw 0 0
//server.example.com/b /mnt/our\040shop cifs rw 0 0
share /mnt/vm 9p rw 0 0
proc /proc
"""


@pytest.mark.parametrize(
    ("place", "kind"),
    [
        ("/mnt/shop", "nfs4"),
        ("/mnt/shop/a/b", "nfs4"),
        ("/mnt/shopping", None),
        ("/mnt/shop/local/a", None),
        ("/mnt/our shop/a", "cifs"),
        ("/mnt/vm/a", None),
        ("/tmp/a", None),  # noqa: S108 - nothing is written there
        ("/home/a", None),
    ],
)
def test_which_folders_lie_on_a_network_share(place, kind):
    assert network_share(Path(place), MOUNTS) == kind


def test_a_network_share_is_refused_unless_told_otherwise(folder, monkeypatch):
    monkeypatch.setattr("shoptui.store.opening.network_share", lambda *_: "nfs4")
    monkeypatch.delenv("SHOPTUI_ALLOW_NETWORK", raising=False)
    with pytest.raises(NetworkShareError, match="SHOPTUI_ALLOW_NETWORK=1"):
        Database.create(folder)
    Database.create(folder, allow_network=True).close()
    with pytest.raises(NetworkShareError):
        Database(folder)
    monkeypatch.setenv("SHOPTUI_ALLOW_NETWORK", "1")
    Database(folder).close()
    with pytest.raises(NetworkShareError):
        Database(folder, allow_network=False)
