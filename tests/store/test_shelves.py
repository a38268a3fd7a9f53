import random
from datetime import UTC, datetime

import pytest

from shoptui.domain.records import Bin
from shoptui.store.shop import Shop


@pytest.fixture
def shop(tmp_path):
    shop = Shop.create(
        tmp_path / "shop", clock=lambda: datetime(2026, 11, 25, tzinfo=UTC), rng=random.Random(1)
    )
    yield shop
    shop.close()


def test_a_record_is_found_by_code_and_tag_however_written(shop):
    with shop.transaction("", terminal="office") as tx:
        made = tx.add(Bin(0, "Rack-3", ""))
    for text in ("rack-3", "RACK 3", made.tag, made.tag.lower(), f"{made.tag[0]}-{made.tag[1:]}"):
        assert shop.bins.by_code(text) == made


def test_an_aborted_doublet_leaves_the_first_to_be_found(shop):
    with shop.transaction("", terminal="office") as tx:
        first = tx.add(Bin(0, "A1", ""))

    def add_in_vain():
        with shop.transaction("", terminal="office") as tx:
            tx.add(Bin(0, "A1", ""))
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        add_in_vain()
    assert shop.bins.by_code("A1") == first
    assert len(list(shop.bins.all())) == 1


def test_a_transaction_that_changes_nothing_writes_nothing(shop, tmp_path):
    before = {path: path.read_bytes() for path in tmp_path.rglob("journal*")}
    with shop.transaction("nothing", terminal="office"):
        pass
    assert {path: path.read_bytes() for path in tmp_path.rglob("journal*")} == before


def test_every_changed_field_leaves_an_edit(shop):
    with shop.transaction("made", terminal="office") as tx:
        made = tx.add(Bin(0, "A1", ""))
    with shop.transaction("named", terminal="office") as tx:
        tx.change(made, words="rack A", room="hall")
    edits = shop.history.edits_of("bins", made.id)
    assert [(edit.field, edit.before, edit.after) for edit in edits] == [
        ("made", None, None),
        ("words", "", "rack A"),
        ("room", "", "hall"),
    ]
    assert shop.history.transaction(edits[1].transaction).words == "named"
