"""Numbers published with their check digits, and libraries that compute the same ones."""

import pytest
from biip.checksums import gs1_standard_check_digit
from hypothesis import given
from hypothesis import strategies as st
from stdnum import ean
from stdnum.iso7064 import mod_37_2

from shoptui.domain import check_digits, codes, vin
from shoptui.domain.element_strings import GS, element_string
from shoptui.domain.recognise import read
from shoptui.domain.tags import check_character

digits = st.text("0123456789", min_size=7, max_size=17)


@pytest.mark.parametrize(
    ("data", "check"),
    [
        ("629104150021", "3"),  # gs1.org, "How to calculate a check digit manually"
        ("730001100001", "7"),  # gs1.se
        ("950110153100", "0"),  # biip's documentation, citing GS1 General Specifications 7.9.1
        ("9501234", "6"),  # likewise
        ("03600024145", "7"),  # encyclopedia article on the UPC, worked out there
        ("0952123454321", "3"),  # manual of the BWIPP library
        ("37610425002123456", "9"),  # GS1 General Specifications table 7-9, as quoted in secondary sources
    ],
)
def test_gs1_check_digits(data, check):
    assert check_digits.gs1_check_digit(data) == check
    assert check_digits.gs1_holds(data + check)


@given(digits)
def test_gs1_check_digit_is_that_of_biip(data):
    assert int(check_digits.gs1_check_digit(data)) == gs1_standard_check_digit(data)


@given(st.sampled_from((8, 12, 13, 14)).flatmap(lambda n: st.text("0123456789", min_size=n, max_size=n)))
def test_a_gtin_is_one_for_python_stdnum_too(number):
    assert bool(check_digits.gtin14(number)) == (ean.is_valid(number) and number.strip("0") != "")


@pytest.mark.parametrize(
    ("short", "upc"),
    [
        ("04252614", "042100005264"),  # biip's documentation
        ("01245608", "012000004568"),  # printer manual: 12000 + 00456; check digit by biip
        ("02758314", "027100005834"),  # likewise, as the following five
        ("04120229", "041200002029"),
        ("08765438", "087600000548"),
        ("07537743", "075370000073"),
        ("02137568", "021375000068"),
        ("05170197", "051701000097"),
        ("01234558", "012345000058"),  # manual of the BWIPP library
        ("00123457", "001234000057"),  # tests of an open barcode library
        ("08787337", "087800000737"),  # likewise
    ],
)
def test_upc_e_stands_for_its_upc_a(short, upc):
    assert check_digits.upc_e_expanded(short) == upc
    assert codes.normal("]E0" + short) == codes.normal(upc) == "00" + upc
    assert read(short).candidates[-1] == "00" + upc


@pytest.mark.parametrize(
    ("serial", "check"),
    [
        ("47312482", "9"),  # encyclopedia article on S10: RR473124829GB
        ("00000008", "0"),  # the case of ten, by hand: 8 x 7 = 56, 11 - 56 mod 11 = 10
        ("00000015", "5"),  # the case of eleven, by hand: 9 + 35 = 44, 11 - 0 = 11
        ("12345678", "5"),  # by hand: 204, 11 - 204 mod 11 = 5
    ],
)
def test_s10_check_digits(serial, check):
    assert check_digits.s10_check_digit(serial) == check
    assert read(f"RR{serial}{check}GB").s10 == f"RR{serial}{check}GB"


@given(st.text("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ", min_size=1, max_size=20))
def test_check_character_is_that_of_python_stdnum(text):
    assert check_character(text) == mod_37_2.calc_check_digit(text)


@pytest.mark.parametrize(
    "number",
    [
        "1G4AH59H45G118341",  # the worked example of 49 CFR 565.15 (c), from memory: sum 411, 411 mod 11 = 4
        "17111111X11111111",  # the case of ten, by hand: 89 + 6 x 7 = 131, 131 mod 11 = 10
        "11111111111111111",  # well-known test number, by hand: the weights add up to 89, 89 mod 11 = 1
    ],
)
def test_vin_check_digits(number):
    assert vin.holds(number)
    assert vin.check(number) is None


@pytest.mark.parametrize(
    ("text", "fields"),
    [
        # manual of the BWIPP library, as printed for people and as in the symbol
        (
            "(01)09521234543213(17)100101(10)123ABC(21)1234567890",
            {"01": "09521234543213", "17": "100101", "10": "123ABC", "21": "1234567890"},
        ),
        (
            "0109521234543213" + "17100101" + "10123ABC" + GS + "211234567890",
            {"01": "09521234543213", "17": "100101", "10": "123ABC", "21": "1234567890"},
        ),
        # biip's tests of GS1-128
        (
            "]C1" + "0106291041500213101234AB" + GS + "17301231",
            {"01": "06291041500213", "10": "1234AB", "17": "301231"},
        ),
    ],
)
def test_element_strings(text, fields):
    symbology, rest = codes.split_symbology(text)
    found = element_string(rest, symbology)
    assert dict(found.fields) == fields
    assert found.problem == found.unread == ""
