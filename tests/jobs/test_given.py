"""What one line gives to another: why it is held goes along, old labels find it, histories name the build."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import Place, State
from shoptui.domain.records import Attachment, LearnedCode
from shoptui.jobs.answers import Said
from shoptui.jobs.check_pieces import held_without_a_word
from shoptui.jobs.find import where
from shoptui.jobs.given import now_on
from shoptui.jobs.hand_over import hand_over
from shoptui.jobs.held import why_held
from shoptui.jobs.story import story
from shoptui.jobs.substitute import CAME, waiting
from shoptui.jobs.transfer import ask_transfer, transfer
from shoptui.jobs.undo import undo


@pytest.fixture
def held(made):
    """A hub held in A4 since another number came, with a photo; two rotors usable in A3."""
    shop = made.shop
    note = f"{CAME}HB-9"
    with shop.transaction("here", terminal="office") as tx:
        made.hub = tx.change(made.hub, code="SP-1", number="HB-1")
        tx.enter(verbs.hold_ordered(shop.book, made.hub.id, 1, order=made.order.id, note=note))
        tx.enter(verbs.receive(shop.book, made.rotor.id, 2, order=made.order.id, to=made.a3.id))
        tx.add(Attachment(0, "d", "label.jpg", "image/jpeg", 3, "d", "parts", made.hub.id, "HB-9 came"))
    bench = shop.book.places(made.hub.id, State.HELD)[0][0]
    with shop.transaction("put away", terminal="office") as tx:
        tx.enter(verbs.put_away(shop.book, made.hub.id, bench, 1, to=made.a4.id))
    return made


def in_stock(made, part):
    return next(each for each in made.shop.parts.all() if each.build is None and each.number == part.number)


def handed_over(made):
    return hand_over(made.at("office"), made.build).question.choices[0].take()


def test_why_it_is_held_goes_to_the_stock_with_it(held):
    assert "1 held (Hub: substitute: HB-9)" in hand_over(held.at("office"), held.build).text
    handed_over(held)
    line = in_stock(held, held.hub)
    assert why_held(held.shop, line.id) == (f"{CAME}HB-9",)
    assert waiting(held.shop, line) == ("HB-9", 1)
    assert not list(held_without_a_word(held.shop))
    assert [file.name for file in held.shop.files.all() if file.record == line.id] == ["label.jpg"]
    undo(held.at("office"))
    assert waiting(held.shop, held.hub) == ("HB-9", 1)


def test_a_held_piece_is_not_given_away_without_a_word(held):
    before = held.bytes()
    said = transfer(held.at("office"), held.hub, 1, to=None, no_longer_needed=False)
    assert said.text == (
        "1 Hub to the shop's stock: 1 held (substitute: HB-9). Enter: give it all the same, still held."
    )
    assert held.bytes() == before
    assert said.question.yes().said is Said.DONE
    assert why_held(held.shop, in_stock(held, held.hub).id) == (f"{CAME}HB-9",)


def test_held_pieces_are_told_apart_by_why(held):
    with held.shop.transaction("held", terminal="office") as tx:
        tx.enter(verbs.receive_unordered(held.hub.id, 1, supplier=held.supplier.id, to=held.a3.id))
        tx.enter(verbs.hold(held.shop.book, held.hub.id, 1, note="damaged"))
    said = transfer(held.at("office"), held.hub, 1, to=None, no_longer_needed=False)
    assert [choice.label.rpartition(": ")[2] for choice in said.question.choices] == ["damaged", "HB-9"]
    said.question.choices[1].take()
    line = in_stock(held, held.hub)
    assert held.shop.book.at(line.id, Place(State.HELD, held.a4.id, "sealed")) == 1
    assert why_held(held.shop, held.hub.id) == ("damaged",)
    assert why_held(held.shop, line.id) == (f"{CAME}HB-9",)


def test_what_was_noted_later_goes_along(held):
    place = Place(State.HELD, held.a4.id, "sealed")
    with held.shop.transaction("noted", terminal="office") as tx:
        move = verbs.put_away(held.shop.book, held.hub.id, place, 1, to=held.a4.id)[0]
        tx.enter([type(move)(held.hub.id, 1, place, place, note="HB-9 came instead: longer thread")])
    told = why_held(held.shop, held.hub.id)
    assert told == ("HB-9 came instead: longer thread", f"{CAME}HB-9")
    handed_over(held)
    assert why_held(held.shop, in_stock(held, held.hub).id) == told


def test_who_gets_it_is_answered_by_the_vehicle(held):
    ask = ask_transfer(held.at("office"), held.rotor, 1)
    assert ask.text == "1 Brake rotor: who gets it? Its number and Enter, or scan the vehicle."
    assert "to coupe" in ask.question.accepts("COUPE").text
    assert "to coupe" in ask.question.accepts(held.other.tag).text
    assert "still needed" in ask.question.accepts("stock").text
    assert ask.question.accepts("A3") is None


def test_an_old_label_finds_the_line_that_has_the_pieces(held):
    handed_over(held)
    line = in_stock(held, held.hub)
    tag = f"P-{line.tag[1:]}"
    assert now_on(held.shop, held.hub) == line
    racks = held.scans("racks")
    said = racks.take("SP-1")
    assert said.text == (
        f"Hub: 1 gone, other build. Now on the shop's stock ({tag}): "
        "1 held, sealed, in bin A4 (rack A, shelf 4). Scan a bin to put it there."
    )
    assert said.subject == line.id
    racks.take("A3")
    assert held.shop.book.at(line.id, Place(State.HELD, held.a3.id, "sealed")) == 1
    assert where(held.shop, "SP-1")[0].places[-1] == f"now on the shop's stock ({tag})"
    assert held.scans("parts").take("SP-1").subject == held.hub.id


def test_a_count_takes_an_old_label_for_what_lies_there(held):
    handed_over(held)
    racks = held.scans("racks")
    for scan in ("A4", "count", "SP-1"):
        racks.take(scan)
    assert racks.take("done").text.endswith("1 counted, all as booked.")


def test_a_code_of_both_lines_means_the_one_that_has_the_pieces(held):
    code = "9521234500017"
    with held.shop.transaction("code", terminal="office") as tx:
        tx.add(LearnedCode(0, code, code, "parts", held.rotor.id))
    handed_over(held)
    assert held.scans("racks").take(code).subject == in_stock(held, held.rotor).id


def test_a_line_that_still_has_some_is_meant_itself(held):
    transfer(held.at("office"), held.rotor, 1, to=None, no_longer_needed=False)
    assert now_on(held.shop, held.rotor) == held.shop.parts.get(held.rotor.id)


def test_both_histories_name_the_other_build(held):
    transfer(held.at("office"), held.rotor, 2, to=None, no_longer_needed=False)
    line = in_stock(held, held.rotor)
    gave, got = story(held.shop, held.rotor)[-1], story(held.shop, line)[0]
    assert gave.endswith(f"2 given to the shop's stock (P-{line.tag[1:]})")
    assert f"2 from wagon (P-{held.rotor.tag[1:]}), in bin A3 (rack A, shelf 3)" in got
