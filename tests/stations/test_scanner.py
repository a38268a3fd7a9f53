"""The decoder, fed with what the terminal's own parser makes of a scanner's bytes."""

import string

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual import events
from textual._xterm_parser import XTermParser

from shoptui.domain.recognise import read
from shoptui.stations.scanner import Decoder, How, Incomplete, Scan

F9 = "\x1b[20~"
GTIN = "9521234543213"
TAG = "P7K3QXV"
FAST = 0.001
HAND = 0.12


class Terminal:
    """Plays bytes into a decoder and keeps what it lets through."""

    def __init__(self, **settings):
        self.decoder = Decoder(lambda text: read(text).checked, **settings)
        self.parser = XTermParser()
        self.time = 100.0
        self.happened = []
        self.passed = []

    def send(self, data, gap=FAST):
        for event in [*self.parser.feed(data), *self.parser.tick()]:
            if isinstance(event, events.Paste):
                decision = self.decoder.paste(event.text, self.time)
                name = event.text
            elif isinstance(event, events.Key):
                decision = self.decoder.key(event.key, event.character, self.time)
                name = event.key
            else:
                continue
            self.time += gap
            self.happened += decision.events
            if not decision.taken:
                self.passed.append(name)
        return self

    def wait(self, seconds):
        self.time += seconds
        self.happened += self.decoder.tick(self.time)
        return self

    @property
    def texts(self):
        return [event.text for event in self.happened if isinstance(event, Scan)]


@pytest.fixture
def terminal():
    return Terminal()


@pytest.mark.parametrize("prefix", [F9, "\x1b[20;1~"])
@pytest.mark.parametrize("end", ["\r", "\n", "\t", "\r\n", "\r\r"])
def test_between_prefix_and_end_every_character_arrives(terminal, prefix, end):
    code = " " + string.digits + string.ascii_letters + string.punctuation + "äÖé漢😀 "
    terminal.send(prefix + code + end)
    assert terminal.happened == [Scan(code, How.PREFIX)]
    assert terminal.passed == []


@given(st.text(st.characters(min_codepoint=0x20, exclude_categories=["Cs", "Cc"]), min_size=1, max_size=40))
def test_any_printable_text_arrives_whole(code):
    terminal = Terminal().send(F9 + code + "\r")
    assert terminal.texts == [code]
    assert terminal.passed == []


def test_gs_arrives_with_and_without_a_character(terminal):
    terminal.send(F9 + "]C110A\x1d21B\r")
    terminal.send(F9 + "10A\x1b[93;5u21B\r")
    assert terminal.texts == ["]C110A\x1d21B", "10A\x1d21B"]


def test_other_control_keys_in_a_scan_are_swallowed(terminal):
    terminal.send(F9 + "A\x02\x11\x1a\x1b[A\x1bOPB\x1e\x04\x7fC\r")
    assert terminal.texts == ["ABC"]
    assert terminal.passed == []


def test_a_prefix_of_another_key():
    terminal = Terminal(prefix="ctrl+b").send("\x02AB\r" + F9)
    assert terminal.texts == ["AB"]
    assert terminal.passed == ["f9"]


def test_an_unfinished_scan_is_said_when_the_next_begins(terminal):
    terminal.send(F9 + "AB" + F9 + "CD\r")
    assert terminal.happened == [Incomplete("AB"), Scan("CD", How.PREFIX)]


def test_silence_ends_a_scan(terminal):
    terminal.send(F9 + "AB").wait(1.9)
    assert terminal.happened == []
    assert terminal.decoder.capturing
    terminal.wait(0.2)
    assert terminal.happened == [Incomplete("AB")]
    assert not terminal.decoder.capturing
    terminal.time += 3
    terminal.send("x\r")
    assert terminal.passed == ["x", "enter"]


def test_silence_is_seen_at_the_next_key_too(terminal):
    terminal.send(F9 + "AB")
    terminal.time += 3
    terminal.send("x")
    assert terminal.happened == [Incomplete("AB")]
    assert terminal.passed == ["x"]


def test_a_busy_program_that_ticks_before_it_reads_its_keys_loses_nothing(terminal):
    terminal.send(F9 + "AB")
    terminal.happened += terminal.decoder.tick(terminal.time + 5)
    terminal.send("CD\r")
    assert terminal.texts == ["ABCD"]
    assert terminal.passed == []


def test_nothing_between_prefix_and_end_is_no_scan(terminal):
    terminal.send(F9 + "\r")
    assert terminal.happened == [Incomplete("")]


def test_the_second_end_key_is_swallowed_only_at_once(terminal):
    terminal.send(F9 + "AB\r\n")
    terminal.wait(0.2)
    terminal.send("\r")
    assert terminal.passed == ["enter"]


def test_the_second_end_key_after_typed_words_is_swallowed_too(terminal):
    terminal.send("AB\r\n")
    assert terminal.passed == ["A", "B", "enter"]


def test_the_same_code_twice_at_once_is_said(terminal):
    scan = F9 + "AB\r"
    terminal.send(scan + scan).wait(0.5).send(scan).send(F9 + "CD\r" + scan)
    assert [event.twice for event in terminal.happened] == [False, True, False, False, False]


def test_how_long_twice_is_can_be_set():
    terminal = Terminal(twice_seconds=0).send(F9 + "AB\r").wait(0.1).send(F9 + "AB\r")
    assert [event.twice for event in terminal.happened] == [False, False]


def test_five_hundred_scans_at_once_arrive_in_order(terminal):
    codes = [f"CODE-{number}" for number in range(500)]
    terminal.send("".join(f"{F9}{code}\r" for code in codes), gap=0)
    assert terminal.texts == codes
    assert terminal.passed == []


@pytest.mark.parametrize("gap", [0, 0.001, 0.005, 0.02])
@pytest.mark.parametrize("code", [GTIN, TAG, "RR473124829GB"])
def test_a_burst_that_passes_its_check_is_taken_back_out_of_the_field(terminal, gap, code):
    terminal.send("seat belt ", HAND).wait(HAND).send(code + "\r", gap)
    assert terminal.happened == [Scan(code, How.BURST, take_back=len(code))]
    assert terminal.passed[-1] == code[-1]


def test_separators_within_a_burst_stand_in_no_field(terminal):
    code = "]C1" + "0109521234543213" + "10AB\x1d21C"
    terminal.send(code + "\r")
    assert terminal.happened == [Scan(code, How.BURST, take_back=len(code) - 1)]


@pytest.mark.parametrize("text", [GTIN, TAG])
def test_a_checked_code_typed_by_hand_is_left_to_the_line(terminal, text):
    terminal.send(text + "\r", 0.05)
    assert terminal.happened == []
    assert terminal.passed[-1] == "enter"


def test_a_burst_without_a_right_check_changes_nothing(terminal):
    terminal.send("9521234543214\r")
    assert terminal.happened == []
    assert len(terminal.passed) == 14


def test_a_key_of_a_person_just_before_the_burst_stays_where_it_is(terminal):
    terminal.send("ab", HAND).send("c", 0.02).send(TAG + "\r")
    assert terminal.happened == [Scan(TAG, How.BURST, take_back=len(TAG))]


def test_a_blank_of_a_person_just_before_the_burst_stays_where_it_is(terminal):
    terminal.send("ab", HAND).send(" ", 0.02).send(GTIN + "\r")
    assert terminal.happened == [Scan(GTIN, How.BURST, take_back=len(GTIN))]


@pytest.mark.parametrize("cut", range(1, 13))
def test_the_end_of_a_number_that_the_machine_held_up_is_no_scan(cut):
    for number in (GTIN, "376104250021234569", "036000241457", "0042100005264", "2100000000005"):
        terminal = Terminal().send(number[:cut], FAST).wait(0.3).send(number[cut:] + "\r")
        assert terminal.happened == []


@pytest.mark.parametrize("key", ["\x7f", "\x1b[D", "\x1b[1;5D"])
def test_an_edited_text_is_no_burst(terminal, key):
    terminal.send(TAG[:3] + key + TAG[3:] + "\r")
    assert terminal.texts == []


def test_forgotten_typing_is_no_burst(terminal):
    terminal.send(TAG)
    terminal.decoder.forget_typing()
    terminal.send("\r")
    assert terminal.happened == []


def test_letters_with_alt_are_commands(terminal):
    terminal.send(F9 + "A")
    assert terminal.decoder.key("alt+x", "x", terminal.time).taken
    terminal.send("B\r")
    assert terminal.texts == ["AB"]


def paste(text):
    return f"\x1b[200~{text}\x1b[201~"


def test_a_checked_code_pasted_on_one_line_is_a_scan(terminal):
    terminal.send(paste(GTIN) + paste(TAG + "\r\n"))
    assert terminal.happened == [Scan(GTIN, How.PASTE), Scan(TAG, How.PASTE)]


@pytest.mark.parametrize("text", ["some words", f"{GTIN}\n{TAG}", "9521234543214", ""])
def test_other_pasted_text_is_passed_on(text):
    terminal = Terminal().send(paste(text))
    assert terminal.happened == []
    assert terminal.passed == [text]


def test_what_is_pasted_within_a_scan_belongs_to_it(terminal):
    terminal.send(F9 + paste("10A\x1d2\x071B") + "C\r")
    assert terminal.texts == ["10A\x1d21BC"]
    terminal.send(F9 + paste("AB\n"))
    assert terminal.texts[1:] == ["AB"]


def test_the_same_code_pasted_twice_is_two(terminal):
    terminal.send(paste(TAG) + paste(TAG))
    assert [event.twice for event in terminal.happened] == [False, False]


def test_a_code_taken_by_the_line_counts_as_the_last_one(terminal):
    assert not terminal.decoder.is_twice("AB", 1.0)
    assert terminal.decoder.is_twice("AB", 1.4)
    assert not terminal.decoder.is_twice("AB", 1.9)


@pytest.mark.parametrize("typed", ["a", "brake"])
def test_tabs_of_a_quick_hand_behind_its_typing_are_its_own(terminal, typed):
    terminal.send(typed, HAND).send("\t\t\t", 0.07)
    assert terminal.passed[-3:] == ["tab"] * 3


@pytest.mark.parametrize("code", ["AB1", "AB123456", GTIN])
def test_the_second_end_key_of_a_scanner_without_prefix_does_nothing(terminal, code):
    terminal.send(f"{code}\r\n\t")
    assert terminal.passed.count("enter") <= 1
    assert not {"ctrl+j", "tab"} & set(terminal.passed)
