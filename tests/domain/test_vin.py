import pytest

from shoptui.domain import vin


@pytest.mark.parametrize(
    ("number", "sentence"),
    [
        ("1111111111111111", "Expected a VIN of 17 characters, got 16"),
        ("1111111111111111O", "without I, O and Q in a VIN, got 'O' in place 17"),
        ("1111111111111111\x1b", "got '\\x1b' in place 17"),
        ("11111111X11111111", "Expected check digit 1 in the ninth place of this VIN, got X"),
    ],
)
def test_what_is_wrong_is_a_sentence(number, sentence):
    assert sentence in vin.check(number)


def test_outside_north_america_the_check_need_not_hold():
    assert vin.check("W1111111X11111111") is None
    assert "need not" in vin.note("W1111111X11111111")
    assert vin.note("11111111111111111") == ""


def test_blanks_and_lower_case_are_forgiven():
    assert vin.check("17111111x 1111-1111") is None
