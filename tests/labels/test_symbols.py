import random
import string

import pytest
from barcode.codex import Code128
from code128 import decode, values
from hypothesis import given
from hypothesis import strategies as st

from shoptui.labels.errors import TextError
from shoptui.labels.symbols import MOST_CHARACTERS, read_back, symbol

RANDOM_TEXTS = 20_000
ASCII = "".join(map(chr, range(128)))
ALPHABETS = (ASCII, string.digits, "9", "99A", string.digits + "Aa\t", string.ascii_letters + string.digits)


def bits(runs):
    return "".join(("1", "0")[at % 2] * run for at, run in enumerate(runs))


def random_texts(count, seed=128):
    rng = random.Random(seed)
    for _ in range(count):
        alphabet = rng.choice(ALPHABETS)
        yield "".join(rng.choice(alphabet) for _ in range(rng.randint(1, 16)))


def test_random_texts_are_decoded_as_they_were():
    assert [text for text in random_texts(RANDOM_TEXTS) if decode(symbol(text).runs) != text] == []


@given(st.text(ASCII, min_size=1, max_size=MOST_CHARACTERS))
def test_any_ascii_is_decoded_as_it_was(text):
    assert decode(symbol(text).runs) == text


@pytest.mark.parametrize("text", ["999999", "99ABC", "9", "99", "99\t", "9999A9", "a\tb\tC"])
def test_what_the_library_gets_wrong_or_could(text):
    assert decode(symbol(text).runs) == text
    assert decode(symbol(text).runs) == text  # and again, after its state was used


def test_the_library_still_needs_mending():
    """If this fails, python-barcode was repaired: take the mending out of shoptui/labels/symbols.py."""
    assert "".join(map(str, Code128("999999").encoded)) == "1059999"  # a pair of 99 is lost
    twice = Code128("12AB")
    assert twice.build() != twice.build()  # the second begins in the code set in which the first ended
    assert Code128("\xf1").encoded  # taken for a function character without a word
    with pytest.raises(IndexError):
        Code128("").build()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "A code of one character or more was expected; an empty one came."),
        ("A\xf1B", "ñ came as character 2"),
        ("\xf2", "ò came as character 1"),
        ("\xf3", "ó came as character 1"),
        ("\xf4", "ô came as character 1"),
        ("Größe", "ö came as character 3"),
        ("ΩA", "Ω came as character 1"),
        ("A" * (MOST_CHARACTERS + 1), "at most 48 characters was expected; one of 49 came"),
    ],
)
def test_what_no_symbol_carries_is_refused_in_words(text, words):
    with pytest.raises(TextError, match=words):
        symbol(text)


def test_a_wrong_check_value_is_found():
    runs = symbol("BAARK2Y").runs
    right = bits(runs)
    assert read_back(right) == "BAARK2Y"
    check = values(runs)[-1]
    other = bits(symbol("BAARK2Z").runs)[-24:-13]
    assert values(symbol("BAARK2Z").runs)[-1] != check
    with pytest.raises(TextError, match=f"Check value {check} was expected"):
        read_back(right[:-24] + other + right[-13:])


@pytest.mark.parametrize("wrong", ["", "1" * 35, "11010010000", "0" * 40 + "1100011101011"])
def test_modules_that_are_no_symbol_are_refused(wrong):
    with pytest.raises(TextError, match="these are none"):
        read_back(wrong)
