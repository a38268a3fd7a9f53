"""Check digits of the numbers that suppliers and carriers print: GTIN, UPC-E, SSCC, S10.

All functions take ASCII digits and letters; whoever calls has made sure of that.
"""

GTIN_LENGTHS = (8, 12, 13, 14)
SSCC_LENGTH = 18
UPC_E_LENGTH = 8

S10_WEIGHTS = (8, 6, 4, 2, 3, 5, 9, 7)


def gs1_check_digit(data: str) -> str:
    """Return the check digit that belongs after the digits of a GTIN, an SSCC or a location number.

    Weights 3 and 1 in turn from the right; GS1 General Specifications, section 7.9.1.

    >>> gs1_check_digit("629104150021")
    '3'
    """
    return str(-(3 * sum(map(int, data[-1::-2])) + sum(map(int, data[-2::-2]))) % 10)


def gs1_holds(number: str) -> bool:
    """Return whether the last digit is the right check digit; a number of noughts only is none."""
    return number[-1] == gs1_check_digit(number[:-1]) and number.strip("0") != ""


def gtin14(number: str) -> str:
    """Return a GTIN of 8, 12, 13 or 14 digits as 14 digits, empty if it is none.

    >>> gtin14("036000241457"), gtin14("036000241458")
    ('00036000241457', '')
    """
    return number.zfill(14) if len(number) in GTIN_LENGTHS and gs1_holds(number) else ""


def upc_e_expanded(number: str) -> str:
    """Return the 12 digits that the 8 digits of a UPC-E stand for, empty if they cannot be one.

    The check digit is not looked at. GS1 General Specifications, section 5.2.2.4.2.

    >>> upc_e_expanded("04252614")
    '042100005264'
    """
    if len(number) != UPC_E_LENGTH or number[0] not in "01":
        return ""
    system, digits, last, check = number[0], number[1:6], number[6], number[7]
    if last in "012":
        middle = f"{digits[:2]}{last}0000{digits[2:]}"
    elif last == "3":
        middle = f"{digits[:3]}00000{digits[3:]}"
    elif last == "4":
        middle = f"{digits[:4]}00000{digits[4]}"
    else:
        middle = f"{digits}0000{last}"
    return f"{system}{middle}{check}"


def s10_check_digit(serial: str) -> str:
    """Return the check digit after the eight digits of a postal item's number.

    UPU standard S10; weights and the two special cases from secondary copies that agree.

    >>> s10_check_digit("47312482")
    '9'
    """
    rest = 11 - sum(int(digit) * weight for digit, weight in zip(serial, S10_WEIGHTS, strict=True)) % 11
    return {10: "0", 11: "5"}.get(rest, str(rest))
