"""Two terminals of one machine: what one does stands on the other's screen, and who is at what is said."""

import pytest
from pseudo_terminal import Program

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.stations.scanner import ECHO_SECONDS

F2, F3, F5, F6, F8 = "\x1bOQ", "\x1bOR", "\x1b[15~", "\x1b[17~", "\x1b[19~"
CTRL_E, CTRL_G, CTRL_O, CTRL_Z = "\x05", "\x07", "\x0f", "\x1a"
PIECES = 800_000


@pytest.fixture
def cart(played, begin):
    """Another terminal of the same shop, at Receiving."""
    cart = begin(Program.shop, played.folder, terminal="cart")
    cart.send(F3)
    cart.until(lambda: "Receiving: scan a box" in cart.text)
    return cart


def shows(program, words):
    program.until(lambda: words in program.words)


def test_a_box_that_lies_open_elsewhere_is_unpacked_by_two_who_see_each_other(program, cart, played):
    program.play(next(iter(played.badges)), 1)
    shows(program, "is at this terminal now.")
    cart.play(played.box, 1)
    shows(cart, "lies open at t (Lead). Enter: unpack it here too.")
    cart.pause(2 * ECHO_SECONDS)  # an Enter sooner is taken for the scanner's second one
    cart.send("\r")
    shows(cart, f"{PIECES} to come out")
    (first, part), (second, other), *_ = played.codes.items()
    before = played.last_transaction()
    program.play(first, 1)
    shows(cart, f"{PIECES - 1} to come out")
    cart.play(second, 1)
    shows(program, f"{PIECES - 2} to come out")
    assert played.received_since(before) == [part, other]


def test_each_takes_back_what_was_done_there(program, cart, played):
    code, part = next(iter(played.codes.items()))
    program.play(code, 1)
    shows(program, f"{PIECES - 1} to come out")
    cart.send(CTRL_Z)
    shows(cart, "There is nothing to undo at this terminal.")
    program.send(CTRL_Z)
    shows(program, f"{PIECES} to come out")
    played.shop.refresh()
    assert played.shop.book.in_state(part, State.RECEIVED) == 0


def test_a_form_that_lies_open_elsewhere_says_by_whom(program, cart, played):
    program.play(next(iter(played.badges)), 1)
    shows(program, "is at this terminal now.")
    for each in (program, cart):
        each.send(F8)
        shows(each, "Parts:")
        each.send(CTRL_O)
        shows(each, "Order number")
        each.pause(0.5)
    shows(cart, "It lies open at another terminal too: Lead at t.")


def test_of_two_who_change_one_field_the_second_is_shown_the_first(program, cart, played):
    program.play(next(iter(played.badges)), 1)
    shows(program, "is at this terminal now.")
    for each in (program, cart):
        each.send(F8)
        shows(each, "Parts:")
        each.send(CTRL_E)
        shows(each, "What it is")
    shows(cart, "It lies open at another terminal too: Lead at t.")
    program.send(" one")
    shows(program, "ordered one")
    program.send(CTRL_G)
    shows(program, "to Part that nobody ordered one.")
    cart.send(" two")
    shows(cart, "ordered two")
    cart.send(CTRL_G)
    shows(cart, "1 theirs: Part that nobody ordered one")
    assert "Lead at t) from Part that nobody ordered to Part that nobody ordered one." in cart.words
    cart.send("2\r")
    shows(cart, "to Part that nobody ordered two.")
    played.shop.refresh()
    assert played.shop.parts.by_code("Q-1").description == "Part that nobody ordered two"


def renamed(shop, record, field):
    with shop.transaction("called otherwise", terminal="office") as tx:
        tx.change(record, **{field: "Aaa new"})


def on_parts(shop):
    listed = (part for part in shop.parts.all() if not part.is_hardware)
    first = min(listed, key=lambda part: (part.section, part.description))
    renamed(shop, first, "description")


def on_racks(shop):
    renamed(shop, min(shop.bins.all(), key=lambda each: each.code), "kind")


def on_filming_days(shop):
    for shoot in list(shop.shoots.all()):
        renamed(shop, shoot, "title")


def on_boxes(shop):
    renamed(shop, shop.orders.by_code("W-1042"), "number")


@pytest.mark.parametrize(
    ("key", "heading", "change"),
    [
        (F2, "Today, ", on_filming_days),
        (F3, "Receiving: ", on_boxes),
        (F5, "Filming ", on_filming_days),
        (F6, "Racks: ", on_racks),
        (F8, "Parts: ", on_parts),
    ],
)
def test_each_list_follows_another_process(played, begin, key, heading, change):
    program = begin(Program.shop, played.folder, terminal="cart")
    program.send(key)
    shows(program, heading)
    assert "Aaa new" not in program.words
    change(played.shop)
    shows(program, "Aaa new")


def test_a_list_follows_many_changes_of_others_and_scans_go_on(program, played):
    codes = list(played.codes.items())[:5]
    before = played.last_transaction()
    order = played.shop.orders.by_code("TRIAL-1")
    last = order.lines[-1].part
    for code, _ in codes:
        with played.shop.transaction("received", terminal="office") as tx:
            tx.enter(verbs.receive(played.shop.book, last, 1, order=order.id, ref=played.box))
        program.play(code, 1)
    shows(program, f"{PIECES - 2 * len(codes)} to come out")
    assert [part for part in played.received_since(before) if part != last] == [part for _, part in codes]
