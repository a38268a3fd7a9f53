"""Code 128 as published, and sizes that printed bars must have."""

import pytest
from code128 import values as decoded_values

from shoptui.labels.symbols import QUIET, check_value, symbol


@pytest.mark.parametrize(
    ("values", "total", "check"),
    [
        ([103, 40, 41, 99, 34, 56, 78], 1406, 67),  # HI345678: barcodeisland.com
        ([103, 48, 42, 42, 17, 18, 19, 35], 878, 54),  # PJJ123C: encyclopedia article on Code 128
        ([103, 33, 34, 35, 36, 37, 38], 866, 42),  # ABCDEF: barcoderesource.com
        ([104, 65, 66, 67, 68, 69, 70], 1539, 97),  # abcdef: likewise
        ([105, 34, 56, 78], 485, 73),  # 345678: likewise
        ([104, 34, 65, 82, 99, 1, 23, 100, 20, 35, 79, 68, 69], 4594, 62),  # Bar01234Code: barmatrixcode.de
    ],
)
def test_check_values(values, total, check):
    assert values[0] + sum(at * value for at, value in enumerate(values)) == total
    assert check_value(values) == check


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("345678", [105, 34, 56, 78, 73]),
        ("abcdef", [104, 65, 66, 67, 68, 69, 70, 97]),
        # Published with code set A first; the encoder takes B, whose values for these letters are the same.
        ("HI345678", [104, 40, 41, 99, 34, 56, 78, 68]),
    ],
)
def test_symbols_have_the_published_values(text, values):
    assert decoded_values(symbol(text).runs) == values


def test_every_character_has_11_modules_and_the_stop_13():
    # ISO/IEC 15417, as quoted in secondary sources
    assert symbol("BAARK2Y").modules == 11 * (1 + 7 + 1) + 13


def test_quiet_zones_are_ten_modules():
    assert QUIET == 10  # GS1 General Specifications v18 5.4.4.2
