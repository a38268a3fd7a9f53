"""GS1 element strings: what a carton label says beside the GTIN, read with biip and its traps fenced off.

biip reads an element string out of almost any digits (a bare SSCC is a count and a serial number to it) and
passes over wrong check digits, so what may be one is decided here. It is imported when the first one comes.
"""

import re
from dataclasses import dataclass

from shoptui.domain.check_digits import gs1_check_digit

GS = "\x1d"
"""The separator after a field of variable length (FNC1 in the symbol)."""

GS1_SYMBOLOGIES = frozenset({"]C1", "]e0", "]e1", "]e2", "]d2", "]Q3", "]J1"})
"""Symbols that carry element strings. GS1 General Specifications, figure 5.1.2-2."""

_BARE = re.compile(r"00[0-9]{18}|0[12][0-9]{14}")
_BRACKETED = re.compile(r" *(?:\([0-9]{2,4}\)[^()\s]+ *)+")
_BRACKET_PAIR = re.compile(r"\(([0-9]{2,4})\)([^()\s]+)")
_LINK = re.compile(r"https?://", re.IGNORECASE)
_CHECKED = re.compile(r"0[012]|41[0-7]")


@dataclass(frozen=True, slots=True)
class ElementString:
    """The fields of one element string.

    Args:
        fields: Application identifier and value, in the order on the label.
        unread: What came after the last field that could be read, usually because a separator got lost.
        problem: A sentence if the check digit of a field is wrong, else empty.

    """

    fields: tuple[tuple[str, str], ...]
    unread: str = ""
    problem: str = ""

    def value(self, *identifiers: str) -> str:
        """Return the value of the first field with one of the identifiers, empty if there is none."""
        return next((value for identifier, value in self.fields if identifier in identifiers), "")

    @property
    def bracketed(self) -> str:
        """The fields as they are printed for people, which is the same however the symbol carried them."""
        return "".join(f"({identifier}){value}" for identifier, value in self.fields)


def element_string(text: str, symbology: str = "") -> ElementString | None:
    """Read an element string; None if the text is none.

    With a GS1 symbology identifier or a separator inside, what can be read is read. A bare text must begin
    with 00, 01 or 02, be readable to its end and follow the rules on which fields go together, since
    otherwise any long number would do. Typed with brackets and as a GS1 Digital Link it is accepted too.

    >>> element_string("(01)09521234543213(10)AB").value("10")
    'AB'
    >>> element_string("9521234543213") is None
    True
    """
    if not text.isascii():
        return None
    if text[:1] in {"h", "H"} and _LINK.match(text):
        return _of_link(text)
    if "(" in text and _BRACKETED.fullmatch(text):
        pairs: list[tuple[str, str]] = _BRACKET_PAIR.findall(text)
        plain = GS.join(identifier + value for identifier, value in pairs)
        found = _read(plain)
        return found if found is not None and list(found.fields) == pairs else None
    if symbology in GS1_SYMBOLOGIES or GS in text:
        return _read(text)
    if text[:1] == "0" and _BARE.match(text):
        found = _read(text)
        return found if found is not None and not found.unread and _goes_together(found) else None
    return None


def _read(text: str) -> ElementString | None:
    from biip import ParseConfig, ParseError  # noqa: PLC0415 - most runs of the program scan nothing
    from biip.gs1_element_strings import GS1ElementString  # noqa: PLC0415

    config = ParseConfig(gs1_element_strings_verify_date=False)
    fields = []
    rest = text.lstrip(GS)
    while rest:
        try:
            element = GS1ElementString.extract(rest, config=config)
        except (ParseError, ValueError):
            break
        fields.append((element.ai.ai, element.value))
        rest = rest[len(element) :].lstrip(GS)
    return ElementString(tuple(fields), rest, _problem(fields)) if fields else None


def _of_link(text: str) -> ElementString | None:
    from biip import ParseError  # noqa: PLC0415
    from biip.gs1_digital_link_uris import GS1DigitalLinkURI  # noqa: PLC0415

    try:
        elements = GS1DigitalLinkURI.parse(text).element_strings
    except (ParseError, ValueError):
        return None
    fields = [(element.ai.ai, element.value) for element in elements]
    return ElementString(tuple(fields), problem=_problem(fields))


def _problem(fields: list[tuple[str, str]]) -> str:
    for identifier, value in fields:
        if _CHECKED.fullmatch(identifier) and value[-1] != (expected := gs1_check_digit(value[:-1])):
            return (
                f"The number after ({identifier}) in this GS1 code fails its check: "
                f"expected check digit {expected}, got {value[-1]}."
            )
    return ""


def _goes_together(found: ElementString) -> bool:
    """Say whether the fields obey the rules of GS1's syntax dictionary for 01, 02 and 37."""
    has = {identifier for identifier, _ in found.fields}
    if "01" in has and has & {"02", "37"}:
        return False
    return ("02" in has) == ("37" in has) or ("37" in has and "00" in has and "02" not in has)
