"""Receiving: what is told of the boxes, of the open one, and of one that goes on elsewhere."""

import threading
from datetime import date

from shoptui.domain import verbs
from shoptui.domain.records import Bin, Box, Order, OrderLine
from shoptui.jobs import attach
from shoptui.jobs.scan import Scanning
from shoptui.stations import long_work


async def until(hands, true):
    """Wait for what another thread does."""
    for _ in range(500):
        await hands.settle()
        if true():
            return
        await hands.pilot.pause(0.01)
    raise AssertionError(hands.said)


def card(hands) -> str:
    """What stands beside the list, where there is room."""
    return "\n".join(line[73:] for line in hands.screen_text.splitlines()[1:30])


async def test_a_box_that_goes_on_elsewhere_says_so_here(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        with trial.shop.transaction("taken over", terminal="office") as tx:
            tx.change(trial.shop.boxes.get(trial.box.id), open_at="office")
        await hands.settle()
        assert "went on at office" in hands.said
        assert "scan a box" in hands.screen_text.splitlines()[0]
        with trial.shop.transaction("something else", terminal="office") as tx:
            tx.add(Bin(0, "C1", "", "rack C"))
        await hands.settle()
        assert [heard.answer.text for heard in hands.app.hearing.heard if "went on" in heard.answer.text][
            1:
        ] == []


async def test_a_box_that_is_closed_or_laid_aside_here_goes_on_nowhere(trial):
    with trial.shop.transaction("a second box", terminal="office") as tx:
        second = tx.add(Box(0, "", due=date(2026, 11, 30)))
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(second.code)
        await hands.press("ctrl+x")
        assert not any("went on" in heard.answer.text for heard in hands.app.hearing.heard)


async def test_what_is_to_put_away_is_told_in_every_heading(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.hub.tag)
        assert "1 to put away" in hands.screen_text.splitlines()[0]
        await hands.press("ctrl+a")
        assert "1 to put away" in hands.screen_text.splitlines()[0]
        await hands.press("ctrl+x")
        assert "scan a box, 1 to put away" in hands.screen_text.splitlines()[0]
        await hands.scan(trial.bin.tag)
        assert "to put away" not in hands.screen_text.splitlines()[0]


async def test_an_open_box_of_which_nothing_is_known_says_so(trial):
    with trial.shop.transaction("a parcel", terminal="office") as tx:
        parcel = tx.add(Box(0, ""))
    async with trial.screens() as hands:
        await hands.scan(parcel.code)
        assert "Nothing is known of what is in this box. Scan each thing." in hands.screen_text
        assert "No box is expected" not in hands.screen_text


async def test_a_part_spoken_of_is_not_looked_for_among_the_boxes(trial):
    """Ids of parts and boxes are counted each from 1."""
    with trial.shop.transaction("boxes", terminal="office") as tx:
        for _ in range(3):
            tx.add(Box(0, ""))
    async with trial.screens() as hands:
        await hands.press("f3")
        before = hands.app.screen.shown_list().row
        await hands.scan(trial.hub.tag)
        assert "No box is open here" in hands.said
        assert hands.app.screen.shown_list().row == before


async def test_words_after_damaged_are_a_note_and_no_search(trial, tmp_path):
    photo = tmp_path / "dent.jpg"
    photo.write_bytes(b"a photo")
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.hub.tag)
        await hands.press("ctrl+d")
        assert "held: damaged" in hands.said
        await hands.type("hub")
        await hands.press("enter")
        assert "Noted: hub" in hands.said
        await hands.type(str(tmp_path / "none.jpg"))
        await hands.press("enter")
        assert "There is no file" in hands.said
        assert "Type a note or a photo's file, or go on." in hands.said
        assert "Esc  No" not in hands.screen_text, "nothing is asked"
        await hands.type(str(photo))
        await hands.press("enter")
        assert "dent.jpg kept with Hub, 7 bytes. Type a note" in hands.said
        await hands.type("1")
        await hands.press("enter")
        assert "1 Brake rotor received" in hands.said, "a number is a row all the same"
        await hands.type("hub")
        await hands.press("enter")
        assert "Receive 1 Hub?" in hands.said


async def test_what_is_amiss_without_a_tag_or_a_key_of_its_own(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.hub.tag)
        await hands.press("ctrl+g")
        assert "What is amiss?" in hands.said
        await hands.type("2")
        await hands.press("enter")
        assert "The right one stays ordered" in hands.said
        assert "1 wrong" in hands.screen_text
        await hands.press("ctrl+t")
        assert "is short of" in hands.said
        await hands.press("escape", "ctrl+o", "ctrl+y")
        assert "instead of" in hands.said


async def test_the_slip_is_typed_line_by_line(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.press("ctrl+l")
        await hands.press("backspace", *"1", "tab", "backspace", *"x")
        await hands.press("ctrl+g")
        assert "whole number" in hands.said
        await hands.press("backspace", *"1", "ctrl+g")
        assert "3 pieces. 3 to come out of it" in hands.said
        assert trial.shop.boxes.get(trial.box.id).contents[0].qty == 1


async def test_a_file_is_kept_with_the_row_or_with_the_box(trial, tmp_path):
    photo = tmp_path / "box.jpg"
    photo.write_bytes(b"a photo")
    async with trial.screens() as hands:
        await hands.press("f3", "ctrl+f")
        await hands.type(str(photo))
        await hands.press("ctrl+g")
        assert "box.jpg kept with box" in hands.said
        await hands.scan(trial.box.code)
        await hands.press("ctrl+f")
        await hands.type(str(tmp_path))
        await hands.press("ctrl+g")
        assert "is a folder" in hands.said
        await hands.press("escape", "enter")
        assert [file.table for file in trial.shop.files.all()] == ["boxes"]


async def test_a_big_file_shows_how_far_it_is_and_escape_stops_it(trial, tmp_path, monkeypatch):
    film = tmp_path / "film.mov"
    film.write_bytes(bytes(4_000_000))
    keep = attach.keep
    monkeypatch.setattr(attach, "BIG", 1)
    monkeypatch.setattr(long_work, "SHOWN_EVERY", 0.01)
    monkeypatch.setattr(
        attach, "keep", lambda *args, go_on: keep(*args, go_on=lambda *far: waits(go_on, *far))
    )
    goes_on = threading.Event()

    def waits(go_on, *far):
        going = go_on(*far)
        goes_on.wait(10)
        return going and go_on(*far)

    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.hub.tag)
        await hands.press("ctrl+d")
        await hands.type(str(film))
        await hands.press("enter")
        await until(hands, lambda: "1 of 4 MB. Escape stops it" in hands.said)
        await hands.scan(trial.rotor.tag)
        assert "1 Brake rotor received" in hands.said, "the door does not wait for it"
        await hands.press("escape")
        goes_on.set()
        await until(hands, lambda: "Stopped; nothing was kept" in hands.said)
        assert list(trial.shop.files.all()) == []
        await hands.press("ctrl+d")
        await hands.type(str(film))
        await hands.press("enter")
        await until(hands, lambda: "film.mov kept" in hands.said)


async def test_the_card_is_of_what_is_asked_about(trial):
    async with trial.screens(120, 40) as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.clips[5].tag)
        assert "Clip 5" in hands.said
        assert "Clip 5" in card(hands)
        assert "not expected" in card(hands)
        await hands.press("escape")
        assert "Clip 5" not in card(hands)


async def test_of_two_orders_in_one_box_each_row_says_whose_it_is(trial):
    with trial.shop.transaction("a second order", terminal="office") as tx:
        (first,) = trial.shop.orders.all()
        line = OrderLine(trial.clips[7].id, 1)
        second = tx.add(Order(0, "1043", "purchase", first.supplier, "1043", lines=(line,)))
        tx.enter(verbs.order(line.part, 1, supplier=first.supplier, order=second.id))
    async with trial.screens(120, 40) as hands:
        await hands.scan(trial.box.code)
        assert "BR-100" in hands.screen_text.splitlines()[2]
        assert "1042" in card(hands)
        await hands.scan("1043")
        await hands.press("enter")
        head, *rows = hands.screen_text.splitlines()[1:6]
        assert "order" in head
        assert [row.split()[:4] for row in rows][3] == ["4", "Clip", "7", "1043"]
        assert "1042" in rows[0]


async def test_a_box_may_be_unpacked_by_two(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        cart = Scanning(trial.shop, "cart", station="receiving")
        assert "lies open at door" in cart.take(trial.box.code).text
        cart.yes()
        cart.take(trial.hub.tag)
        await hands.settle()
        assert "3 to come out" in hands.screen_text.splitlines()[0]
        await hands.scan(trial.rotor.tag)
        assert "1 of 2 here" in hands.said
        cart.take("done")
        await hands.settle()
        assert "was closed at cart" in hands.said
