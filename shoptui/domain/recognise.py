"""What a scanned or typed text can be: every form that it has, and which form it has whose check fails.

Nothing here knows what the shop has; `shoptui.domain.lookup` finds what a reading stands for.
"""

from dataclasses import dataclass
from functools import lru_cache

from shoptui.domain import codes
from shoptui.domain.check_digits import (
    GTIN_LENGTHS,
    SSCC_LENGTH,
    UPC_E_LENGTH,
    gs1_check_digit,
    s10_check_digit,
    upc_e_expanded,
)
from shoptui.domain.element_strings import GS, ElementString, element_string
from shoptui.domain.tags import TAG_LENGTH, Kind, Tag, TagError, without_blanks_and_dashes

KEPT = 256
"""Readings kept."""

NUMBERS_OF_OTHERS = ("400", "401", "402", "403", "240", "241", "21")
"""Fields that name an order, a shipment, the maker's or customer's own number, or one piece."""

POST_CODE_FIELDS = ("420", "421")
_POST_CODE_LENGTHS = range(3, 13)
_SHORTEST_TRACKING = 12


@dataclass(frozen=True, slots=True)
class Reading:
    """All that one text can be.

    Args:
        scanned: What came, untouched.
        text: The same without the symbology identifier.
        symbology: AIM symbology identifier (`]C1`), empty if the scanner sends none.
        candidates: Texts to look up, each as `codes.normal` gives them, the most specific first.
        tag: A tag of ours.
        gtin: GTIN, 14 digits; of two that 8 digits can be, the first.
        sscc: Number of a logistic unit, 18 digits.
        s10: Number of a postal item.
        serial: Serial number of an element string.
        lot: Lot of an element string.
        count: Pieces that an element string says, None if it says nothing.
        elements: The whole element string.
        fails: A sentence if the text has the form of a code and its check fails, else empty.
        refused: A sentence if the text cannot be a code at all (nothing, too long), else empty.

    """

    scanned: str
    text: str
    symbology: str = ""
    candidates: tuple[str, ...] = ()
    tag: Tag | None = None
    gtin: str = ""
    sscc: str = ""
    s10: str = ""
    serial: str = ""
    lot: str = ""
    count: int | None = None
    elements: ElementString | None = None
    fails: str = ""
    refused: str = ""

    @property
    def checked(self) -> bool:
        """Whether it is a code that passes a check of its own, which ordinary typing hardly ever does."""
        return bool(self.tag or self.gtin or self.sscc or self.s10)

    @property
    def form(self) -> str:
        """What it looks like, in words."""
        if self.tag:
            return f"tag of a {self.tag.kind.words}"
        forms = {"GTIN": self.gtin, "SSCC": self.sscc, "postal item number": self.s10}
        named = next((name for name, value in forms.items() if value), "")
        return named or ("GS1 code" if self.elements else "text")


@lru_cache(maxsize=KEPT)
def read(text: str) -> Reading:
    """Say what a text can be; never raises. One scan is read several times on its way, so some are kept.

    >>> read("(01)09521234543213(30)2").count
    2
    >>> read("9521234543214").fails
    'This has the form of a GTIN, but fails its check: expected check digit 3, got 4.'
    """
    if not text.strip():
        return Reading(text, text, refused="Nothing was scanned.")
    if len(text) > codes.LONGEST:
        words = f"This code is too long: at most {codes.LONGEST} characters were expected, got {len(text)}."
        return Reading(text, text, refused=words)
    symbology, rest = codes.split_symbology(text)
    if not rest.isascii():
        return Reading(text, rest, symbology, candidates=(codes.folded(rest),))
    elements = element_string(rest, symbology)
    if elements is not None:
        return _of_elements(text, rest, symbology, elements)
    tag = codes.tag(rest)
    gtins = () if tag else codes.gtins(rest, symbology)
    sscc, s10 = codes.sscc(rest), codes.s10(rest)
    candidates = (codes.normal(text), *gtins, *_after_post_code(rest), *_gtin_inside(rest))
    return Reading(
        text,
        rest,
        symbology,
        candidates=tuple(dict.fromkeys(candidates)),
        tag=tag,
        gtin=gtins[0] if gtins else "",
        sscc=sscc,
        s10=s10,
        fails="" if tag or gtins or sscc or s10 else _fails(rest, symbology),
    )


def _of_elements(text: str, rest: str, symbology: str, elements: ElementString) -> Reading:
    sound = not elements.problem
    gtin = elements.value("01", "02") if sound else ""
    sscc = elements.value("00") if sound else ""
    candidates = [codes.normal(text), sscc]
    for place, (identifier, value) in enumerate(elements.fields):
        if identifier in POST_CODE_FIELDS:
            behind = "".join(map("".join, elements.fields[place + 1 :])) + elements.unread
            candidates.append(codes.normal(behind) if behind else "")
        if identifier in NUMBERS_OF_OTHERS:
            candidates.append(codes.normal(value))
    candidates += [*_after_post_code(rest), gtin]
    return Reading(
        text,
        rest,
        symbology,
        candidates=tuple(dict.fromkeys(candidate for candidate in candidates if candidate)),
        gtin=gtin,
        sscc=sscc,
        serial=elements.value("21"),
        lot=elements.value("10"),
        count=int(elements.value("30", "37") or 0) or None,
        elements=elements,
        fails=elements.problem,
    )


def _after_post_code(text: str) -> tuple[str, ...]:
    """Return what can be the tracking number on a label on which the receiver's post code comes first.

    The code has no fixed length, and carriers and scanners leave the separator out.
    """
    if not text.startswith(POST_CODE_FIELDS[0]) or GS in text:
        return ()
    start = len(POST_CODE_FIELDS[0])
    tails = (text[start + length :] for length in _POST_CODE_LENGTHS)
    return tuple(codes.normal(tail) for tail in tails if len(tail) >= _SHORTEST_TRACKING)


def _gtin_inside(text: str) -> tuple[str, ...]:
    """Return the GTIN of an element string whose rest cannot be read, as when the separators got lost."""
    start, end = 2, 16
    return codes.gtins(text[start:end]) if text.startswith("01") and len(text) > end else ()


def _fails(text: str, symbology: str) -> str:
    """Return which form a text has whose check fails.

    A symbol with a check of its own (Code 128, Data Matrix) was read right, so digits in it that are no
    GTIN are none; only what came without identifier or from a retail symbol can have been misread or typed.
    """
    if symbology and symbology not in codes.RETAIL_SYMBOLOGIES:
        return ""
    digits = text.replace(" ", "")
    if digits.isdigit():
        return _digits_fail(digits)
    if plain := codes.has_s10_form(text):
        return _sentence("a postal item number", "digit", s10_check_digit(plain[2:10]), plain[10])
    return _tag_fails(text)


def _digits_fail(digits: str) -> str:
    if not digits.strip("0"):
        return ""
    if len(digits) in GTIN_LENGTHS:
        expected = gs1_check_digit(digits[:-1])
        if len(digits) == UPC_E_LENGTH and (upc := upc_e_expanded(digits)):
            expected += f" (or {gs1_check_digit(upc[:-1])} as UPC-E)"
        return _sentence("a GTIN", "digit", expected, digits[-1])
    if len(digits) == SSCC_LENGTH:
        return _sentence("an SSCC", "digit", gs1_check_digit(digits[:-1]), digits[-1])
    return ""


def _tag_fails(text: str) -> str:
    """Report a misread tag, but no word: tags given out have a digit, and are often typed with their dash."""
    plain = without_blanks_and_dashes(text)
    if len(plain) != TAG_LENGTH or plain[:1].upper() not in list(Kind):
        return ""
    if text[1:2] != "-" and not any(character.isdigit() for character in plain):
        return ""
    try:
        Tag.parse(text)
    except TagError as wrong:
        return f"This has the form of one of our tags, but expected {wrong.expected}, got {wrong.got}."
    return ""


def _sentence(form: str, what: str, expected: str, got: str) -> str:
    return f"This has the form of {form}, but fails its check: expected check {what} {expected}, got {got}."
