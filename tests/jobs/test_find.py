"""What a person reads on a label finds the thing."""

import pytest

from shoptui.domain.records import Bin, Box, Part, Person
from shoptui.domain.tags import shown
from shoptui.jobs.find import where
from shoptui.jobs.label_kinds import KINDS


@pytest.mark.parametrize("many", KINDS)
def test_the_code_for_the_eye_finds_the_thing(made, many):
    kind = KINDS[many]
    for thing in kind.every(made.shop):
        label = kind.label(made.shop, thing)
        assert [found.record for found in where(made.shop, shown(thing.tag).lower())] == [thing.id]
        assert label.shown == shown(thing.tag)


@pytest.mark.parametrize("many", ["bins", "parts", "vehicles", "people"])
def test_the_title_finds_the_thing(made, many):
    with made.shop.transaction("more", terminal="office") as tx:
        tx.add(Person(0, "", "", "Second fabricator"))
        tx.add(Bin(0, "C-9", "", "rack C, the lowest"))
    kind = KINDS[many]
    for thing in kind.every(made.shop):
        label = kind.label(made.shop, thing)
        assert thing.id in [found.record for found in where(made.shop, label.title)], label


def test_a_bins_words_and_a_parts_number(made):
    assert made.rotor.id in [found.record for found in where(made.shop, made.rotor.number)]
    assert {type(each) for each in (made.rotor, made.box)} == {Part, Box}
    with made.shop.transaction("more", terminal="office") as tx:
        bin_ = tx.add(Bin(0, "C-9", "", "rack C, the lowest", room="cellar"))
    assert [found.record for found in where(made.shop, "rack c, lowest")] == [bin_.id]
    assert [found.record for found in where(made.shop, "cellar")] == [bin_.id]
