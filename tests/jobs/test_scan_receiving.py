import pytest

from shoptui.domain.places import OPENED, Place, State
from shoptui.domain.records import Box, BoxLine, LearnedCode, Part
from shoptui.domain.tags import Kind
from shoptui.jobs.answers import Answer, Question, Said
from shoptui.jobs.box_list import expected_in
from shoptui.jobs.scan import Scanning

GTIN = "9521234543213"
PARCEL = "RR473124829GB"


@pytest.fixture
def door(made):
    return made.scans("receiving")


def test_a_box_by_scanner_alone(made, door):
    said = [door.take(code) for code in (PARCEL, GTIN, GTIN, "A3", made.hub.tag, "A4", "KDNE22X")]
    assert [answer.said for answer in said] == ["done"] * 7
    assert [answer.kind for answer in said] == ["box", "part", "part", "bin", "part", "bin", "command"]
    assert said[2].text.startswith("1 Brake rotor received, 2 of 2 here. 1 still in the box.")
    assert said[4].text.startswith("1 Hub received. The box is complete.")
    assert (said[1].part, said[1].qty, said[1].state) == (made.rotor.code, 1, "received")
    assert made.shop.book.parts_at(State.RECEIVED, made.a3.id) == {made.rotor.id: 2}
    assert made.shop.book.parts_at(State.RECEIVED, made.a4.id) == {made.hub.id: 1}
    box = made.shop.boxes.get(made.box.id)
    assert box.closed
    assert not box.open_at


@pytest.mark.parametrize("code", ["1042", PARCEL, "rr 473 124 829 gb"])
def test_a_box_opens_by_its_order_or_tracking_number(made, door, code):
    assert door.take(code).said == "done"
    assert made.shop.boxes.get(made.box.id).open_at == "door"


def test_without_a_box_it_says_where_the_thing_is_expected(made, door):
    answer = door.take(GTIN)
    assert answer.said == "stop"
    assert "order 1042" in answer.text
    assert made.box.code[1:] in answer.text


def test_more_than_ordered_asks_and_no_changes_nothing(made, door):
    door.take(PARCEL)
    door.take(GTIN)
    door.take(GTIN)
    before = made.bytes()
    answer = door.take(GTIN)
    assert answer.said == "question"
    assert "as over" in answer.text
    assert door.take("no").said == "stop"
    assert made.bytes() == before
    door.take(GTIN)
    assert door.take(GTIN).said == "done", "the same scan again is a yes"
    assert made.count(made.rotor, State.HELD) == 1
    assert made.count(made.rotor, State.RECEIVED) == 2


def test_a_thing_of_another_order_is_asked_about_and_then_booked_there(made, door):
    door.take(PARCEL)
    answer = door.take(made.hood.tag)
    assert answer.said == "question"
    assert "1043" in answer.text
    assert door.take("KYES22M").said == "done"
    assert made.count(made.hood, State.RECEIVED) == 1
    box = made.shop.boxes.get(made.box.id)
    assert (box.orders, box.also_orders) == ((made.order.id,), (made.late.id,))
    expected = {line.part: line.expected for line in expected_in(made.shop, box)}
    assert expected == {made.rotor.id: 2, made.hub.id: 1, made.hood.id: 1}, "not the rest of that order"
    assert door.take(made.clip.tag).said == "done", "another of the same order is not asked about again"


def test_what_nobody_ordered_is_held_after_a_yes(made, door):
    door.take(PARCEL)
    assert door.take(made.foreign.tag).said == "question"
    assert made.count(made.foreign, State.HELD) == 0
    assert door.yes().said == "done"
    assert made.count(made.foreign, State.HELD) == 1


def test_another_scan_drops_the_question_with_words(made, door):
    door.take(PARCEL)
    door.take(made.foreign.tag)
    answer = door.take(GTIN)
    assert answer.said == "done"
    assert "dropped" in answer.text
    assert made.count(made.foreign, State.HELD) == 0


def test_an_unknown_code_is_learned_by_its_row_and_received(made, door):
    door.take(PARCEL)
    unknown = door.take("HUB-CARTON-7")
    assert unknown.said == "unknown"
    assert door.take("HUB-CARTON-7").said == "unknown", "the same code again is no answer"
    assert door.typed("2").said == "done"
    assert made.count(made.hub, State.RECEIVED) == 1
    door.take("undo")
    assert made.count(made.hub, State.RECEIVED) == 0
    assert door.take("HUB-CARTON-7").said == "unknown", "what was learned is taken back with it"


def test_a_scanned_number_is_never_a_row(made, door):
    door.take(PARCEL)
    before = made.bytes()
    assert door.take("2").said == "unknown"
    assert made.bytes() == before


def test_a_thing_without_code_by_its_row_and_a_blank_tag(made, door):
    door.take(PARCEL)
    assert door.typed("2").said == "done"
    blank = made.shop.new_tag(Kind.PART)
    bound = door.take(blank)
    assert bound.said == "done"
    assert "now stands for Hub" in bound.text
    assert door.take("A3").said == "done"
    assert door.take(blank).said == "question", "it is over now, and known"


def test_a_wrong_check_digit_is_stopped_and_never_learned_by_scanning_again(made, door):
    door.take(PARCEL)
    for _ in range(2):
        answer = door.take("9521234543214")
        assert answer.said == "stop"
        assert "expected check digit 3, got 4" in answer.text
    learned = door.learn_on_purpose(made.hub)
    assert learned.said == "done"
    assert door.take("9521234543214").part == made.hub.code, "what is known wins over a failed check"


def test_left_and_right_with_one_code_ask_which(made, door):
    with made.shop.transaction("", terminal="office") as tx:
        for each in (made.hub, made.hood):
            tx.add(LearnedCode(0, "SAME-1", "same-1", "parts", each.id))
    answer = made.scans("parts").take("SAME-1")
    assert answer.said == "question"
    assert "1 Hub" in answer.text.replace("Hood", "Hub")
    door.take(PARCEL)
    assert door.take("SAME-1").part == made.hub.code, "the open box narrows"


def test_a_carton_code_means_two_and_a_typed_number_that_many(made, door):
    with made.shop.transaction("", terminal="office") as tx:
        tx.add(LearnedCode(0, "PAIR", "pair", "parts", made.rotor.id, 2))
    door.take(PARCEL)
    assert door.take("PAIR").qty == 2
    assert made.count(made.rotor, State.RECEIVED) == 2
    door.take("1043")
    assert door.take(made.clip.tag, 4).qty == 4


def test_damaged_holds_the_last_thing(made, door):
    door.take(PARCEL)
    door.take(GTIN)
    assert door.take("KDMG22X").said == "done"
    assert made.count(made.rotor, State.HELD) == 1
    assert made.count(made.rotor, State.RECEIVED) == 0
    assert door.take("A3").qty == 1


def test_things_since_the_last_bin_survive_closing_the_program(made, door):
    door.take(PARCEL)
    door.take(GTIN)
    again = Scanning(made.reopened(), "door", station="receiving")
    assert again.at.box is not None
    assert again.take("A3").qty == 1


def test_two_terminals_receive_the_last_one_at_once(made, door):
    door.take(PARCEL)
    other_shop = made.reopened()
    other = Scanning(other_shop, "cart", station="receiving")
    other.take(PARCEL)
    assert other.yes().said == "done", "taken over from the other terminal"
    door.take(PARCEL)
    door.yes()
    assert door.take(made.hub.tag).said == "done"
    other.take(PARCEL)
    other.yes()
    assert other.take(made.hub.tag).said == "question"
    assert other_shop.book.in_state(made.hub.id, State.RECEIVED) == 1


def test_an_unknown_parcel_asks_for_its_order(made, door):
    answer = door.take("RR123456785GB")
    assert (answer.said, answer.kind) == ("question", "tracking")
    opened = door.take("1043")
    assert opened.said == "done"
    assert "New box" in opened.text
    assert door.take(made.hood.tag).said == "done"


def test_an_order_in_two_boxes_asks_which(made, door):
    with made.shop.transaction("", terminal="office") as tx:
        tx.add(Box(0, "", (made.order.id,)))
    answer = door.take("1042")
    assert answer.said == "question"
    assert len(answer.question.choices) == 2
    assert door.typed("1").said == "done"


def test_work_comes_back_without_a_box(made, door):
    from shoptui.jobs.send_out import send_out  # noqa: PLC0415 - only here

    door.take("1043")
    door.take(made.hood.tag)
    door.take("done")
    sent = send_out(made.at("office"), made.hood, 1, to=made.painter.id, work="painted", number="P-7")
    assert sent.said == "done", sent.text
    answer = door.take(made.hood.tag)
    assert answer.said == "question"
    assert "back, painted" in answer.text
    assert door.yes().said == "done"
    ((place, qty),) = made.shop.book.places(made.hood.id, State.RECEIVED)
    assert (place.condition, qty) == ("painted", 1)


def test_the_same_code_twice_at_once_is_a_question(made, door):
    door.take(PARCEL)
    door.take(GTIN)
    before = made.bytes()
    assert door.take(GTIN, twice=True).said == "question"
    assert made.bytes() == before
    assert door.yes().said == "done"
    assert made.count(made.rotor, State.RECEIVED) == 2


@pytest.mark.parametrize(
    "text",
    ["\x1b[31mred", "[bold]x[/bold]", "a" * 10_000, "\u202eabc", "", "\x00", "]", "]?0123", "٣٣٣", "\n"],
)
def test_hostile_codes_change_nothing_and_come_back_inert(made, door, text):
    door.take(PARCEL)
    before = made.bytes()
    answer = door.take(text)
    assert answer.said in ("stop", "unknown")
    assert made.bytes() == before
    assert all(character.isprintable() for character in answer.text + answer.code)


def test_no_box_to_close_and_nothing_to_put_away(made, door):
    assert door.take("done").said == "stop"
    assert door.take("A3").said == "stop"


def test_closing_says_what_is_still_to_come(made, door):
    door.take(PARCEL)
    door.take(GTIN)
    answer = door.take("done")
    assert "Short: 1 Brake rotor, 1 Hub; still ordered. On the bench still: 1;" in answer.text
    assert made.count(made.hub, State.ORDERED) == 1


def test_nothing_is_sealed_once_opened(made, door):
    door.take(PARCEL)
    door.take(GTIN)
    places = made.shop.book.places(made.rotor.id, State.RECEIVED)
    assert places == ((Place(State.RECEIVED, "", "sealed"), 1),)
    assert OPENED == ""


def test_a_part_listed_later_is_known_at_once(made, door):
    with made.shop.transaction("", terminal="office") as tx:
        part = tx.add(Part(0, "", "", made.build.id, "Washer", number="W-8"))
    assert door.take("w8").part == part.code, "a maker's number is known without its dash"


def test_what_is_damaged_shows_as_held_in_its_box(made, door):
    door.take(PARCEL)
    door.take(GTIN)
    door.take("damaged")
    (line, *_) = expected_in(made.shop, made.shop.boxes.get(made.box.id))
    assert (line.expected, line.received, line.held) == (2, 1, 1)
    door.take("undo")
    (line, *_) = expected_in(made.shop, made.shop.boxes.get(made.box.id))
    assert line.held == 0


@pytest.mark.parametrize("damaged_last", [True, False])
def test_good_things_do_not_go_into_the_bin_for_held_ones(made, door, damaged_last):
    door.take(PARCEL)
    if damaged_last:
        door.take(made.hub.tag)
        door.take(GTIN)
        door.take("damaged")
    else:
        door.take(GTIN)
        door.take("damaged")
        door.take(made.hub.tag)
    first = door.take("A3")
    assert first.qty == 1
    assert "still on the bench" in first.text
    assert door.take("A4").qty == 1
    held, good = (made.a3, made.a4) if damaged_last else (made.a4, made.a3)
    assert made.shop.book.parts_at(State.HELD, held.id) == {made.rotor.id: 1}
    assert made.shop.book.parts_at(State.RECEIVED, good.id) == {made.hub.id: 1}
    assert door.take("A3").said == "stop"


def test_an_unknown_parcel_is_one_while_another_box_is_open_too(made, door):
    door.take(PARCEL)
    assert door.take("RR123456785GB").kind == "tracking"
    assert door.take("1043").said == "done"
    assert door.at.box.tracking == ("RR123456785GB",)


def test_an_order_that_has_come_whole_asks_before_a_box_is_made(made, door):
    for code in (PARCEL, GTIN, GTIN, made.hub.tag, "done"):
        door.take(code)
    before = len(list(made.shop.boxes.all()))
    assert door.take("1042").said == "question"
    assert len(list(made.shop.boxes.all())) == before
    assert door.yes().said == "done"


def test_an_unknown_code_is_not_learned_for_the_next_thing(made, door):
    door.take(PARCEL)
    assert door.take("ZZ-77").said == "unknown"
    assert door.take(GTIN).text.startswith("1 Brake rotor received")
    assert door.take("ZZ-77").said == "unknown"
    assert door.take(made.hub.tag).text.startswith("ZZ-77 now stands for Hub.")
    assert made.shop.history.transaction(next(made.shop.history.at_terminal("door")).id).words == (
        "learned code ZZ-77 for Hub, and received 1"
    )


@pytest.mark.parametrize("blank", ["   ", "\t", "\u00a0"])
def test_blanks_are_no_code(made, door, blank):
    door.take(PARCEL)
    assert door.take(blank).said == "stop"


def test_a_scanned_number_says_not_what_an_unknown_code_is(made, door):
    door.take(PARCEL)
    door.take("ZZ-77")
    assert door.take("2").said == "unknown"
    assert made.count(made.hub, State.RECEIVED) == 0


def test_what_came_another_way_is_not_expected_in_its_box(made, door):
    with made.shop.transaction("", terminal="office") as tx:
        second = tx.add(Box(0, "", (made.order.id,), contents=(BoxLine(made.hub.id, 1),)))
    door.take(PARCEL)
    assert door.take(made.hub.tag).said == "done"
    assert expected_in(made.shop, second) == ()
    door.take(second.code)
    assert "All that was expected" in door.take("done").text


def test_a_blank_box_tag_is_a_parcel_that_nobody_knows(made, door):
    tag = made.shop.new_tag(Kind.BOX)
    assert door.take(tag).said == "question"
    assert door.take("1043").said == "done"
    assert door.at.box.code == tag
    assert made.scans("lift").take(made.shop.new_tag(Kind.BOX)).said == "stop"


def test_an_unknown_parcel_is_asked_for_with_a_box_open_too(made, door):
    door.take(PARCEL)
    assert door.take("PARCEL-88").said == "unknown"
    assert door.take("1043").said == "done"
    assert door.at.box.tracking == ("PARCEL-88",)


def test_rows_of_the_box_mean_nothing_at_another_station(made, door):
    door.take(PARCEL)
    racks = made.scans("racks", terminal="door")
    asked = racks.take(made.shop.new_tag(Kind.PART))
    assert asked.said == "question"
    assert "row" not in asked.text
    assert racks.typed("1").said == "stop"


def test_a_yes_that_cannot_be_done_leaves_no_question_open(made, door):
    def fail() -> None:
        raise ValueError("no")

    door.question = Answer(Said.QUESTION, "?", code="X", question=Question(yes=fail))
    with pytest.raises(ValueError, match="no"):
        door.yes()
    assert door.question is None
