"""How codes are compared: one text for each thing that a code can stand for, however it was scanned or typed.

Two codes are the same if `normal` gives the same text for both:

- a symbology identifier (`]C0`) says which symbol the scanner saw and is no part of the code;
- a tag of ours and a postal item's number (UPU S10) are upper case, without blanks and dashes;
- a GTIN whose check digit holds is 14 digits, whichever of its lengths it came in, blanks between left out;
  with a wrong check digit it is only some digits, and is compared as it stands;
- an SSCC is 18 digits, with or without its (00);
- a GS1 element string is its fields with brackets, in one case, however it was carried or typed;
- anything else is compared exactly as it came, blanks included, except for upper and lower case.

`loose` forgives more, for numbers that are printed in groups and typed without: no blanks, no dashes.
"""

import re
import unicodedata

from shoptui.domain.check_digits import (
    SSCC_LENGTH,
    UPC_E_LENGTH,
    gs1_holds,
    gtin14,
    s10_check_digit,
    upc_e_expanded,
)
from shoptui.domain.element_strings import ElementString, element_string
from shoptui.domain.tags import TAG_LENGTH, Tag, TagError, without_blanks_and_dashes

RETAIL_SYMBOLOGIES = frozenset({"]E0", "]E3", "]E4", "]I1"})
"""Symbols that carry a GTIN and nothing else. GS1 General Specifications, figure 5.1.2-2."""

LONGEST = 512
"""Characters of the longest code; a QR symbol holds up to 4,296, but no label that a shop meets does."""

_SYMBOLOGY = re.compile(r"\][A-Za-z][0-9A-Za-z](?=.)", re.DOTALL)
_S10 = re.compile(r"[A-Z]{2}[0-9]{9}[A-Z]{2}")
S10_LENGTH = 13
_GTIN_13_LENGTH = 13


def split_symbology(text: str) -> tuple[str, str]:
    """Return the symbology identifier, empty if there is none, and the rest (ISO/IEC 15424).

    >>> split_symbology("]E09521234543213"), split_symbology("]")
    ((']E0', '9521234543213'), ('', ']'))
    """
    if text.startswith("]") and (found := _SYMBOLOGY.match(text)):
        return found.group(), text[found.end() :]
    return "", text


def gtins(text: str, symbology: str = "") -> tuple[str, ...]:
    """Return the GTINs, as 14 digits, that a text can be: none, one, or two for 8 digits.

    Eight digits can be a GTIN-8 and a shortened UPC (UPC-E) at once; the symbol says which where the scanner
    tells. Only `]E0` makes 6 or 7 digits a UPC-E without its check digit.
    """
    digits = text.replace(" ", "")
    if not (digits.isascii() and digits.isdigit()):
        return ()
    if symbology == "]E3":
        digits = digits[:_GTIN_13_LENGTH]
    if symbology == "]E0" and len(digits) < UPC_E_LENGTH:
        return _upc_e_without_check(digits)
    found = [] if symbology == "]E0" and len(digits) == UPC_E_LENGTH else [gtin14(digits)]
    if symbology not in {"]E3", "]E4", "]I1"}:
        found.append(gtin14(upc_e_expanded(digits)))
    return tuple(gtin for gtin in found if gtin)


def _upc_e_without_check(digits: str) -> tuple[str, ...]:
    for number in (digits, "0" + digits):
        if expanded := upc_e_expanded(number + "0"):
            from_payload = expanded[:-1]
            return tuple(gtin14(from_payload + last) for last in "0123456789" if gtin14(from_payload + last))
    return ()


def sscc(text: str) -> str:
    """Return the 18 digits of an SSCC whose check digit holds, with or without (00) before it; else empty."""
    digits = text.replace(" ", "")
    if len(digits) == SSCC_LENGTH + 2 and digits.startswith("00"):
        digits = digits[2:]
    right = len(digits) == SSCC_LENGTH and digits.isascii() and digits.isdigit() and gs1_holds(digits)
    return digits if right else ""


def has_s10_form(text: str) -> str:
    """Return a text as upper case without blanks if it has the form of a postal item's number, else empty."""
    plain = without_blanks_and_dashes(text)
    if len(plain) != S10_LENGTH or not plain.isascii():
        return ""
    plain = plain.upper()
    return plain if _S10.fullmatch(plain) else ""


def s10(text: str) -> str:
    """Return a postal item's number whose check digit holds (UPU S10), else empty.

    >>> s10("rr 47 312 482 9 gb"), s10("RR473124828GB")
    ('RR473124829GB', '')
    """
    plain = has_s10_form(text)
    return plain if plain and plain[10] == s10_check_digit(plain[2:10]) else ""


def tag(text: str) -> Tag | None:
    """Return a tag of ours whose check character holds, else None."""
    if len(without_blanks_and_dashes(text)) != TAG_LENGTH:
        return None
    try:
        return Tag.parse(text)
    except TagError:
        return None


def folded(text: str) -> str:
    """Return a text for comparing without regard to case (Unicode's canonical caseless match, D145)."""
    if text.isascii():
        return text.lower()
    return unicodedata.normalize("NFD", unicodedata.normalize("NFD", text).casefold())


def loose(text: str) -> str:
    """Return a text as numbers typed from paper are compared: no blanks, no dashes, one case.

    >>> loose("12-345 678a")
    '12345678a'
    """
    return folded("".join(without_blanks_and_dashes(text).split()))


def normal(text: str) -> str:
    """Return the text by which a code is compared; see the module for the rules.

    >>> normal("]E0036000241457") == normal("036000241457") == "00036000241457"
    True
    >>> normal(" Ab-1 ")
    ' ab-1 '
    """
    symbology, text = split_symbology(text)
    if not text.isascii() or len(text) > LONGEST:
        return folded(text)
    bare = without_blanks_and_dashes(text)
    if len(bare) == TAG_LENGTH and (known := tag(bare)):
        return str(known)
    if bare.isdigit():
        if number := next(iter(gtins(text, symbology)), "") or sscc(text):
            return number
    elif len(bare) == S10_LENGTH and (number := s10(bare)):
        return number
    if (elements := element_string(text, symbology)) is not None and not elements.unread:
        return normal_elements(elements)
    return folded(text)


def normal_elements(elements: ElementString) -> str:
    """Return how an element string is compared: a GTIN or an SSCC alone is that number.

    With a wrong check digit it is compared with brackets, and so never as the number that it is not.
    """
    if len(elements.fields) == 1 and not elements.problem:
        (identifier, value) = elements.fields[0]
        if identifier in {"00", "01"}:
            return value
    return folded(elements.bracketed)
