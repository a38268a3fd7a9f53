import pytest

from shoptui.domain import verbs
from shoptui.domain.places import SEALED, Place, State
from shoptui.domain.records import Part
from shoptui.domain.tags import Kind

GTIN = "9521234543213"


@pytest.fixture
def stocked(made):
    with made.shop.transaction("", terminal="office") as tx:
        tx.enter(verbs.receive(made.shop.book, made.rotor.id, 2, order=made.order.id, to=made.a3.id))
    return made


@pytest.fixture
def lift(stocked):
    return stocked.scans("lift")


def test_installed_by_a_position_scan(stocked, lift):
    card = lift.take(GTIN)
    assert (card.said, card.kind, card.part) == ("question", "part", stocked.rotor.code)
    assert "A3" in card.where
    answer = lift.take("KRF222V")
    assert (answer.said, answer.kind, answer.state, answer.where) == ("done", "position", "installed", "RF")
    assert stocked.shop.book.at(stocked.rotor.id, Place(State.INSTALLED, "RF")) == 1


def test_installed_by_one_enter_at_the_next_free_position(stocked, lift):
    for position in ("LF", "RF"):
        lift.take(GTIN)
        assert lift.yes().where == position


def test_no_leaves_the_store_byte_equal(stocked, lift):
    before = stocked.bytes()
    lift.take(GTIN)
    lift.take("no")
    lift.take(GTIN)
    lift.drop()
    assert stocked.bytes() == before


def test_never_received_asks_once_then_receives_and_installs_in_one_transaction(stocked, lift):
    answer = lift.take(stocked.hub.tag)
    assert answer.said == "question"
    assert "Never received" in answer.text
    assert "order 1042" in answer.text
    assert lift.yes().said == "done"
    assert stocked.count(stocked.hub, State.INSTALLED) == 1
    assert stocked.count(stocked.hub, State.ORDERED) == 0
    lift.take("undo")
    assert stocked.count(stocked.hub, State.ORDERED) == 1


def test_a_part_of_another_build_asks(stocked, lift):
    with stocked.shop.transaction("", terminal="office") as tx:
        tx.enter(verbs.receive_unordered(stocked.foreign.id, 1, supplier="unknown"))
    answer = lift.take(stocked.foreign.tag)
    assert answer.said == "question"
    assert "It belongs to Coupe" in answer.text


def test_what_must_be_on_first_is_said_and_a_position_alone_does_not_pass_it(stocked, lift):
    with stocked.shop.transaction("", terminal="office") as tx:
        tx.change(stocked.rotor, install_after=(stocked.hub.id,))
    assert "First: Hub not on yet" in lift.take(GTIN).text
    assert lift.take("LF").said == "question"
    assert stocked.count(stocked.rotor, State.INSTALLED) == 0
    assert lift.yes().where == "LF"


def test_a_position_that_is_not_listed_asks(stocked, lift):
    lift.take(GTIN)
    answer = lift.take("LR")
    assert answer.said == "question"
    assert "listed for LF, RF" in answer.text


def test_all_ten_in_one_go(stocked, lift):
    with stocked.shop.transaction("", terminal="office") as tx:
        tx.enter(verbs.receive(stocked.shop.book, stocked.clip.id, 10, order=stocked.late.id))
    lift.take(stocked.clip.tag)
    assert lift.typed("1").qty == 10
    assert stocked.count(stocked.clip, State.INSTALLED) == 10


def test_removed_into_a_bag_from_a_blank_tag(stocked, lift):
    lift.take(GTIN)
    lift.take("LF")
    lift.take(GTIN)
    lift.take("RF")
    bag = stocked.shop.new_tag(Kind.BAG)
    assert lift.take(bag).said == "question"
    assert lift.yes().said == "done"
    assert lift.take(bag).kind == "bag"
    assert lift.take(GTIN).said == "question"
    answer = lift.take("LF")
    assert (answer.said, answer.state) == ("done", "removed")
    made_bag = stocked.shop.bins.by_code(bag)
    assert stocked.shop.book.parts_at(State.REMOVED, made_bag.id) == {stocked.rotor.id: 1}


def test_a_bag_scanned_while_the_card_lies_open_only_says_where_to(stocked, lift):
    lift.take(GTIN)
    lift.take("LF")
    lift.take(GTIN)
    lift.take("remove")
    assert lift.take("A4").said == "question"
    assert lift.take("A4").said == "question", "the bin again is not a yes"
    assert lift.yes().where == "A4"


def test_an_original_that_no_list_has(stocked, lift):
    before = stocked.bytes()
    answer = lift.take("rear bumper bracket")
    assert answer.said == "question"
    assert stocked.bytes() == before
    removed = lift.take("yes")
    part = stocked.shop.parts.by_code(removed.part)
    assert part.original
    assert stocked.count(part, State.REMOVED) == 1
    assert stocked.shop.book.at(part.id, Place(State.NOT_OURS, "vehicle as bought")) == -1


def test_a_position_alone_lists_that_corner(stocked, lift):
    assert "Brake rotor" in lift.take("LF").text


def test_boxes_are_for_receiving(stocked, lift):
    assert lift.take("RR473124829GB").said == "stop"


def test_the_card_lies_open_again_after_closing_the_program(stocked, lift):
    lift.take(GTIN)
    lift.card.remember(lift.shop, lift.terminal)
    again = type(lift)(stocked.reopened(), "lift", station="lift")
    card = again.card_again()
    assert card.part == stocked.rotor.code
    assert again.yes().state == "installed"


def test_a_badge_lapses(stocked, lift):
    assert lift.take(stocked.person.tag).kind == "badge"
    assert lift.at.person is not None
    stocked.clock.advance(minutes=19)
    assert lift.at.person is not None
    stocked.clock.advance(minutes=2)
    assert lift.at.person is None


def test_a_badge_lasts_by_what_its_person_does_and_not_by_what_others_do(stocked, lift):
    lift.take(stocked.person.tag)
    stocked.clock.advance(minutes=15)
    lift.take(GTIN)
    lift.yes()
    stocked.clock.advance(minutes=15)
    assert lift.at.person is not None
    stocked.clock.advance(minutes=6)
    lift.take(GTIN)
    lift.yes()
    assert lift.at.person is None


def test_a_vehicle_sets_the_build(stocked, lift):
    assert lift.take(stocked.other.tag).kind == "vehicle"
    assert lift.at.build.code == "coupe"


def test_undo_has_words_and_an_end(stocked, lift):
    lift.take(GTIN)
    lift.yes()
    assert lift.take("KUND22F").text == "Undone: installed 1 Brake rotor at LF"
    assert lift.take("undo").said == "stop"
    place = Place(State.RECEIVED, stocked.a3.id, SEALED)
    assert stocked.shop.book.at(stocked.rotor.id, place) == 2


def test_racks_show_and_put_away(stocked):
    racks = stocked.scans("racks")
    assert "2 Brake rotor" in racks.take("A3").text
    assert racks.take(GTIN).state == "received"
    moved = racks.take("A4")
    assert (moved.said, moved.qty, moved.where) == ("done", 2, "A4")
    assert "empty" in racks.take("A3").text


def test_no_scan_a_second_time_is_a_yes_to_what_was_doubted(stocked, lift):
    with stocked.shop.transaction("", terminal="office") as tx:
        tx.change(stocked.rotor, install_after=(stocked.hub.id,))
    lift.take(GTIN)
    asked = lift.take("RF")
    assert asked.said == "question"
    assert asked.text.endswith("Install 1 Brake rotor at RF all the same? Enter.")
    for again in ("LF", "LF", GTIN, GTIN, "LF"):
        assert lift.take(again).said == "question"
    assert stocked.count(stocked.rotor, State.INSTALLED) == 0
    assert lift.yes().where == "LF"


def test_a_position_read_twice_puts_nothing_where_it_does_not_belong(stocked, lift):
    with stocked.shop.transaction("the right one", terminal="office") as tx:
        tx.change(stocked.rotor, positions=("RF",), needed=1)
    lift.take(GTIN)
    for _ in range(2):
        asked = lift.take("LF")
        assert asked.text == (
            "It is listed for RF, not for LF. Install 1 Brake rotor, RF at LF all the same? Enter."
        )
    assert stocked.count(stocked.rotor, State.INSTALLED) == 0


def test_the_part_read_twice_goes_on_only_where_one_place_can_be_meant(stocked, lift):
    lift.take(GTIN)
    assert lift.take(GTIN).said == "question", "LF is the program's word, not the hand's"
    with stocked.shop.transaction("one place", terminal="office") as tx:
        tx.change(stocked.rotor, positions=("RF",), needed=1)
    lift.take(GTIN)
    assert lift.take(GTIN).where == "RF"


@pytest.mark.parametrize(
    ("on_at", "goes_to", "asked"),
    [
        (
            "LF",
            "LF",
            "Old disc is still on at LF: this replaces it. Install 1 Brake rotor at LF all",
        ),
        ("", "LF", "Old disc is still on: this replaces it. Install 1 Brake rotor at LF all the"),
        ("LF", "RF", ""),
    ],
)
def test_what_it_replaces_is_asked_about_while_it_is_on_there(stocked, lift, on_at, goes_to, asked):
    with stocked.shop.transaction("as bought", terminal="office") as tx:
        old = tx.add(Part(0, "OLD", "", stocked.build.id, "Old disc", original=True))
        tx.enter(verbs.stock(old.id, 1, to=stocked.a3.id))
        tx.change(stocked.rotor, replaces=(old.id,))
    with stocked.shop.transaction("on", terminal="office") as tx:
        tx.enter(verbs.install(stocked.shop.book, old.id, 1, position=on_at))
    lift.take(GTIN)
    answer = lift.take(goes_to)
    if not asked:
        assert answer.said == "done"
        return
    assert answer.text.startswith(asked)
    lift.take(goes_to)
    assert stocked.count(stocked.rotor, State.INSTALLED) == 0
    lift.take("OLD")
    lift.yes()
    lift.take(GTIN)
    assert lift.take(goes_to).said == "done", "it is off"


def test_the_last_piece_gone_meanwhile_is_asked_about_anew(stocked, lift):
    lift.take(GTIN)
    lift.yes()
    other = type(lift)(stocked.reopened(), "lift 2", station="lift")
    other.shop.remember("lift 2", build=stocked.build.id)
    lift.take(GTIN)
    other.take(GTIN)
    assert other.yes().said == "done"
    answer = lift.yes()
    assert answer.said == "question"
    assert "none is here or ordered: 1 installed at LF; 1 installed at RF." in answer.text
    assert stocked.shop.book.in_state(stocked.rotor.id, State.INSTALLED) == 2


def test_one_typed_word_can_be_an_original_too(stocked, lift):
    assert lift.take("ashtray").said == "unknown", "a scanner may have read it"
    assert lift.typed("ashtray").said == "question"
    assert lift.yes().text.startswith("Original ashtray listed and removed to the bench.")
    lift.typed("original fan shroud")
    assert lift.yes().text.startswith("original fan shroud listed")


def test_an_offer_does_not_outlive_its_station(stocked):
    racks = stocked.scans("racks")
    assert "Scan a bin" in racks.take(GTIN).text
    racks.station = "parts"
    assert "empty" in racks.take("A4").text
    assert stocked.shop.book.parts_at(State.RECEIVED, stocked.a4.id) == {}


def test_what_is_gone_was_received_once(stocked, lift):
    sold = next(p for p, n in stocked.shop.book.places(stocked.rotor.id, State.RECEIVED) if n == 2)
    with stocked.shop.transaction("", terminal="office") as tx:
        tx.enter(verbs.dispose(stocked.shop.book, stocked.rotor.id, 1, reason="sold"))
        tx.enter(verbs.count_short(stocked.shop.book, stocked.rotor.id, sold, 1))
    answer = lift.take(GTIN)
    assert "none is here or ordered: 1 gone, not found when counted; 1 gone, sold." in answer.text
    assert "none was ever" not in answer.text
