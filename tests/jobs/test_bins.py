"""Bins are made, renamed, emptied into another and withdrawn."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import Bin
from shoptui.domain.tags import Kind
from shoptui.jobs.answers import Said
from shoptui.jobs.bins import inside, withdraw_bin
from shoptui.jobs.check_codes import codes
from shoptui.jobs.edit import edit, make, written
from shoptui.jobs.move_bin import move_all
from shoptui.jobs.undo import undo


@pytest.fixture
def filled(made):
    shop = made.shop
    with shop.transaction("filled", terminal="office") as tx:
        tx.enter(verbs.receive(shop.book, made.rotor.id, 2, order=made.order.id, to=made.a3.id))
        tx.enter(verbs.receive(shop.book, made.hub.id, 1, order=made.order.id, to=made.a3.id))
        tx.enter(verbs.hold(shop.book, made.hub.id, 1, note="damaged"))
    return made


def described(code, kind="rack bin", words="", room=""):
    return {"code": code, "kind": kind, "words": words, "room": room}


def test_a_drawer_is_made_and_found_by_its_name_and_tag(made):
    answer = make(made.at("racks"), Bin, described("D-1", "drawer", "cabinet", "back"))
    bin_ = made.shop.bins.by_code("d1")
    assert answer.text == "New: drawer D-1."
    assert (bin_.words, bin_.kind, bin_.room) == ("cabinet", "drawer", "back")
    assert made.shop.bins.by_code(bin_.tag) == bin_


@pytest.mark.parametrize(
    ("code", "kind", "why"),
    [
        ("a-3", "rack bin", "stands for something else already"),
        ("wagon", "rack bin", "stands for something else already"),
        ("9521234543213", "rack bin", "only digits"),
        ("12", "rack bin", "only digits"),
        ("undo", "rack bin", "is a command or a position"),
        ("LF", "rack bin", "is a command or a position"),
        ("x" * 41, "rack bin", "40"),
        ("B1", "shelf", "One of rack bin, drawer, bag, bench was expected"),
    ],
)
def test_a_name_that_cannot_be_is_refused_with_nothing_changed(made, code, kind, why):
    before = made.bytes()
    answer = make(made.at("racks"), Bin, described(code, kind))
    assert answer.said is Said.STOP
    assert why in answer.text
    assert answer.field in ("code", "kind")
    assert made.bytes() == before


def test_a_bin_is_renamed_and_stands_elsewhere_with_what_is_in_it(filled):
    before = written(filled.shop, filled.a3)
    edit(filled.at("racks"), filled.a3, described("C7", words="rack C", room="hall"), before=before)
    assert filled.shop.bins.by_code("a3") == filled.shop.bins.by_code("c7")  # its sticker still says so
    assert filled.shop.bins.by_code("c7").room == "hall"
    assert len(inside(filled.shop, filled.shop.bins.by_code("c7").id)) == 2
    assert undo(filled.at("racks")).said is Said.DONE
    assert filled.shop.bins.by_code("a3") is not None


def test_all_that_is_in_a_bin_goes_into_another_as_it_is(filled):
    racks = filled.scans("racks")
    racks.take(filled.a3.tag)
    assert "Which bin takes all 3 pieces in A3?" in racks.take("move all to", typed=True).text
    answer = racks.take(filled.a4.tag)
    assert answer.text == "From A3 into A4: 2 Brake rotor, 1 Hub."
    assert not inside(filled.shop, filled.a3.id)
    assert [(part.id, place.state, n) for part, place, n in inside(filled.shop, filled.a4.id)] == [
        (filled.rotor.id, State.RECEIVED, 2),
        (filled.hub.id, State.HELD, 1),
    ]
    assert undo(filled.at("racks")).said is Said.DONE
    assert len(inside(filled.shop, filled.a3.id)) == 2


def test_an_empty_bin_and_the_bin_itself_are_refused(filled):
    assert "is empty" in move_all(filled.at("racks"), filled.a4, filled.a3).text
    assert "another bin was expected" in move_all(filled.at("racks"), filled.a3, filled.a3).text


def test_a_bin_is_withdrawn_when_empty_and_its_name_is_free_again(filled):
    at = filled.at("racks")
    assert withdraw_bin(at, filled.a3).text == (
        "A3 is not empty: 2 Brake rotor, 1 Hub. Move all of it to another bin first."
    )
    assert withdraw_bin(at, filled.a4).said is Said.DONE
    assert filled.shop.bins.by_code("a4") is None
    assert make(at, Bin, described("A4")).said is Said.DONE


def test_a_bin_that_is_being_counted_is_not_withdrawn(made):
    racks = made.scans("racks")
    racks.take("a4")
    racks.take("count")
    assert "being counted at racks" in withdraw_bin(made.at("office"), made.a4).text


def renamed(made, bin_, code):
    now = made.shop.bins.get(bin_.id)
    before = written(made.shop, now)
    return edit(made.at("racks"), now, {**before, "code": code}, before=before)


def test_an_old_sticker_still_means_a_bin_that_was_renamed(filled):
    answer = renamed(filled, filled.a3, "C7")
    assert answer.text.endswith("from A3 to C7. A sticker that says A3 still means it.")
    racks = filled.scans("racks")
    assert racks.take("A3").subject == filled.a3.id
    racks.take(filled.a4.tag)
    racks.take(filled.a3.tag)
    racks.take("move all", typed=True)
    assert racks.take(filled.a4.tag).said is Said.DONE
    racks.take("move all", typed=True)
    assert racks.take("a-3").said is Said.DONE  # an answer may be the old sticker too
    assert not list(codes(filled.shop))


def test_a_bin_gets_its_old_name_back(filled):
    renamed(filled, filled.a3, "C7")
    renamed(filled, filled.a3, "A3")
    assert filled.shop.bins.get(filled.a3.id).old_names == ("C7",)


def test_a_name_on_an_old_sticker_is_free_once_the_sticker_is_gone(filled):
    renamed(filled, filled.a3, "C7")
    answer = renamed(filled, filled.a4, "A3")
    assert "A3 stands on an older sticker of C7" in answer.text
    now = filled.shop.bins.get(filled.a3.id)
    before = written(filled.shop, now)
    edit(filled.at("racks"), now, {**before, "old_names": ""}, before=before)
    assert renamed(filled, filled.a4, "A3").said is Said.DONE


def test_a_blank_bag_is_given_its_words(made):
    racks = made.scans("racks")
    assert "Type what is in it" in racks.take(made.shop.new_tag(Kind.BAG)).text
    answer = racks.typed("bolts of [the] front")
    assert (answer.said, answer.text.endswith(": bolts of [the] front.")) == ("done", True)
    bag = made.shop.bins.get(answer.subject)
    assert (bag.kind, bag.words, bag.code) == ("bag", "bolts of [the] front", bag.tag)
