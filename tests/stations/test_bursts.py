"""A burst that passes no check: nobody typed it, so its Enter may not press anything."""

import pytest

from shoptui.stations.scanner import NO_HAND, Decoder


def played(text: str, gap: float) -> bool:
    decoder = Decoder(checks=lambda text: False)
    for number, letter in enumerate(text):
        decoder.key(letter, letter, 10 + number * gap)
    return decoder.key("enter", "\r", 10 + len(text) * gap).unchecked


@pytest.mark.parametrize("gap", [0.0, 0.001, 0.020])
def test_what_no_hand_types_is_told(gap):
    assert played("EW-1234", gap)


def test_a_hand_is_no_burst():
    assert not played("EW-1234", 0.080)


def test_a_few_keys_may_be_a_hand_that_rolls_over_them():
    assert not played("ab", 0.010)
    assert not played("x" * (NO_HAND - 1), 0.010)
    assert played("x" * NO_HAND, 0.010)


def test_words_by_hand_and_a_burst_behind_them():
    decoder = Decoder(checks=lambda text: False)
    decoder.key("a", "a", 1.0)
    for number in range(7):
        decoder.key("7", "7", 2 + number * 0.001)
    assert decoder.key("enter", "\r", 2.007).unchecked
    assert not decoder.key("enter", "\r", 3.0).unchecked
