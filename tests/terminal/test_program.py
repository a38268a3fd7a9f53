"""The program as a person meets it: started, killed, resized, in terminals that cannot show it."""

import os
import re
import subprocess
import sys

import pytest
from pseudo_terminal import PREFIX, Program

from shoptui.domain.places import State

CTRL_A, CTRL_Q = "\x01", "\x11"
F3, F8 = "\x1bOR", "\x1b[19~"


def sequence(played, rounds):
    """Codes and parts of so many scans, none the same twice in a row."""
    pairs = list(played.codes.items())
    chosen = [pairs[number % len(pairs)] for number in range(rounds)]
    return [code for code, _ in chosen], [part for _, part in chosen]


def test_five_hundred_scans_as_fast_as_they_are_taken_arrive_in_order(program, played):
    codes, parts = sequence(played, 500)
    before = played.last_transaction()
    program.send("".join(f"{PREFIX}{code}\r" for code in codes))
    program.until(lambda: len(played.received_since(before)) >= len(parts), 60)
    assert played.received_since(before) == parts
    assert played.done_since(before) == len(parts)
    program.until(lambda: program.line == "")


def test_five_hundred_scans_without_the_prefix_arrive_in_order(program, played):
    codes, parts = sequence(played, 500)
    before = played.last_transaction()
    program.send("".join(f"{code}\r" for code in codes))
    program.until(lambda: len(played.received_since(before)) >= len(parts), 60)
    assert played.received_since(before) == parts
    assert played.done_since(before) == len(parts)


ENDS = (
    (True, "\r\n"),
    (True, "\r\r"),
    (True, "\n"),
    (True, "\t"),  # without the prefix Tab goes to the next list, card or question
    (False, "\r\n"),
    (False, "\r\r"),
    (False, "\n"),
)


def test_a_second_end_key_opens_no_row(program, played):
    program.send(CTRL_A)  # the list of boxes: Enter there would open one
    program.until(lambda: "all boxes" in program.text)
    codes, parts = sequence(played, 3 * len(ENDS))
    before = played.last_transaction()
    for number, code in enumerate(codes):
        prefix, end = ENDS[number // 3]
        program.play(code, 1, prefix=prefix, end=end)
        program.until(lambda number=number: len(played.received_since(before)) == number + 1)
    program.until(lambda: f"{800_000 - len(codes)} still in the box" in program.words)
    assert played.received_since(before) == parts
    assert played.done_since(before) == len(codes)
    assert "all boxes" in program.text
    assert program.line == ""


def test_a_scan_whose_end_is_missing_is_said(program, played):
    before = played.last_transaction()
    program.play(next(iter(played.codes)), 1, end="")
    program.until(lambda: "reading a scan" in program.text)
    program.until(lambda: "The scan is incomplete; nothing changed." in program.words, 5)
    assert program.line == ""
    assert played.done_since(before) == 0
    program.play(next(iter(played.codes)), 1)
    program.until(lambda: len(played.received_since(before)) == 1)


@pytest.mark.parametrize("field", [False, True], ids=["line", "field"])
def test_a_pasted_code_is_a_scan(program, played, field):
    before = played.last_transaction()
    if field:
        program.send(F8)
        program.until(lambda: "Parts:" in program.text)
        program.send("\x0f")
        program.until(lambda: "Order number" in program.text)
        badge, person = next(iter(played.badges.items()))
        program.send(f"\x1b[200~{badge}\x1b[201~")
        program.until(lambda: played.person_at() == person)
        assert badge not in program.text
    else:
        code, part = next(iter(played.codes.items()))
        program.send(f"\x1b[200~{code}\x1b[201~")
        program.until(lambda: played.received_since(before) == [part])
        program.until(lambda: program.line == "")


def test_an_unchecked_scan_without_prefix_into_a_field_changes_nothing(program, played):
    program.send(F8)
    program.until(lambda: "Parts:" in program.text)
    program.send("\x0f")
    program.until(lambda: "Order number" in program.text)
    before = played.last_transaction()
    for number in played.numbers:
        program.play(number, 5, prefix=False)
    program.until(lambda: "A scan went into the field" in program.words)
    assert played.done_since(before) == 0
    assert re.search(r"Supplier +TRY-7/Z", program.text)


def test_a_resize_in_the_middle_of_a_scan_loses_nothing(program, played):
    before = played.last_transaction()
    codes, parts = sequence(played, 6)
    for code, size in zip(codes, [(120, 40), (80, 24), (40, 10), (80, 24), (200, 60), (80, 24)], strict=True):
        half = len(code) // 2
        program.play(code[:half], 5, end="")
        program.resize(*size)
        program.play(code[half:], 5, prefix=False)
    program.until(lambda: len(played.received_since(before)) == len(parts))
    assert played.received_since(before) == parts
    program.until(lambda: "still in the box" in program.words and program.line == "")


def test_killed_in_the_middle_of_receiving(program, played, begin):
    codes, parts = sequence(played, 5)
    before = played.last_transaction()
    first_bin = next(bin_ for bin_ in played.shop.bins.all() if bin_.kind == "rack bin")
    for code in codes[:2]:
        program.play(code, 1)
    program.until(lambda: len(played.received_since(before)) == 2)
    program.play(first_bin.tag, 1)
    program.until(lambda: len(played.received_since(before)) == 4)
    for number, code in enumerate(codes[2:], 3):
        program.play(code, 1)
        program.until(lambda number=number: f"{800_000 - number} still in the box" in program.words)
    program.play(codes[0][:4], 1, end="")
    program.kill()
    acknowledged = played.received_since(before)
    assert [part for part in acknowledged if part in parts[2:]] == parts[2:]

    again = begin(Program.shop, played.folder)
    again.send(F3)
    again.until(lambda: f"{800_000 - 5} to come" in again.text and "3 to put away" in again.text)
    again.play(first_bin.tag, 1)
    again.until(lambda: len(played.received_since(before)) == 5 + 2 + 3)
    for part in parts[:5]:
        places = played.shop.book.places(part, State.RECEIVED)
        assert [(place.where, qty) for place, qty in places] == [(first_bin.id, 1)]


def test_a_small_terminal_says_what_it_needs(played, begin):
    program = begin(
        Program, "-m", "shoptui", "--store", played.folder, "--terminal", "t", width=40, height=10
    )
    program.until(lambda: "40x10" in program.words and "80x24" in program.words)
    before = played.last_transaction()
    program.play(played.box, 1)
    program.until(lambda: played.done_since(before) == 1)
    program.resize(80, 24)
    program.until(lambda: "Receiving: box" in program.text)


@pytest.mark.parametrize(
    ("env", "words"),
    [
        ({"TERM": "dumb"}, "TERM=dumb"),
        ({"LANG": "C"}, "UTF-8"),
        ({"LANG": None}, "UTF-8"),
        ({"LC_ALL": "POSIX"}, "UTF-8"),
    ],
)
def test_a_terminal_that_cannot_show_it_is_refused_in_a_sentence(played, begin, env, words):
    program = begin(Program, "-m", "shoptui", "--store", played.folder, env=env)
    assert program.ended() == 1
    assert words in program.words
    assert program.words.count(". ") == 0
    assert program.words.endswith(".")
    assert b"\x1b[?1049h" not in b"".join(data for _, data in program.drawn)


def test_no_terminal_is_refused_in_a_sentence(played):
    done = subprocess.run(
        [sys.executable, "-m", "shoptui", "--store", played.folder],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "TERM": "xterm", "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8"},
    )
    assert done.returncode == 1
    assert "need a terminal" in done.stderr
    assert not done.stdout


def test_without_colour(played, begin):
    program = begin(Program.shop, played.folder, env={"NO_COLOR": "1"})
    program.play(played.box, 1)
    program.until(lambda: "Receiving: box" in program.text)
    program.play("no such thing", 1)
    program.until(lambda: "UNKNOWN" in program.text)
    colours = {cell.fg for row in program.cells for cell in row} | {
        cell.bg for row in program.cells for cell in row
    }
    assert colours == {"default"}


def test_leaving_asks(program):
    program.send(CTRL_Q)
    program.until(lambda: "Leave the program?" in program.words)
    assert program.process.poll() is None
    program.send("\x1b")
    program.until(lambda: "Leave the program?" not in program.words)
    program.send(CTRL_Q)
    program.until(lambda: "Leave the program?" in program.words)
    program.send("\r")
    assert program.ended() == 0
