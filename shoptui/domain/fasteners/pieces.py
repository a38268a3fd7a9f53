"""Parts what people write of a fastener into pieces, from left to right, each known by its form."""

import re
from dataclasses import dataclass

from shoptui.domain.fasteners.designations import DesignationError

LONGEST = 80
"""Signs of a designation; longer ones are something else. No source."""

_PLAIN = str.maketrans(
    {
        **dict.fromkeys("\u00d7*", "x"),
        **dict.fromkeys("\u2013\u2014\u2212", "-"),
        **dict.fromkeys("\u00b7()", " "),
        **dict.fromkeys("\u2033\u201d", '"'),
    }
)
_FRACTIONS = {
    "\u00bc": "1/4",
    "\u00bd": "1/2",
    "\u00be": "3/4",
    "\u215b": "1/8",
    "\u215c": "3/8",
    "\u215d": "5/8",
    "\u215e": "7/8",
}

_NUMBER = r"\d{1,3}(?:[.,]\d{1,5})?"
_FRACTION = r"(?:\d{1,2}[ -])?\d{1,2}/\d{1,2}"
_INCHES = rf"(?:\#|no\.?)\s?\d{{1,2}}|{_FRACTION}|(?:\d{{0,2}}[.]\d{{1,4}}|\d{{1,2}})(?=\"?-\d|\"?\s?-?\s?UN)"
_SERIES = r"\s?-?\s?(?:UNC|UNF|UNS|UN)R?\b"

_FORMS = (
    ("grade", r"(?:SAE\s)?(?:J\d{3}\s)?(?:grade|gr\.?|g)\s?(?P<name>\d{1,2}(?:\.\d)?)(?![\d.])"),
    (
        "standard",
        r"(?P<name>(?:(?:DIN|EN|ISO|ASME|ANSI|SAE|BS)\s?)+)(?P<number>[A-Z]?\d{1,6}(?:\.\d{1,2}){0,3})(?![.\d])",
    ),
    ("kind", r"(?:hex(?:agon)?\s(?:head\s)?)?(?:cap\s)?(?P<name>bolt|screw|stud|nut|washer)s?\b"),
    ("hardness", r"(?P<name>\d{2,3})\s?HV\b"),
    ("metric", rf"M\s?(?P<name>{_NUMBER})(?!\d)"),
    (
        "unified",
        rf"(?P<name>{_INCHES})\s?\"?(?:\s?-\s?(?P<per_inch>\d{{1,2}})(?![\d.,/]|\s?HV))?(?P<series>{_SERIES})?",
    ),
    ("by", rf'x\s?(?P<name>{_FRACTION}|{_NUMBER}|[.]\d{{1,5}})(?![./\d])\s?(?P<unit>mm\b|inch\b|in\b|")?'),
    ("hand", r"(?P<name>LH|left[ -]?hand(?:ed)?)\b|(?:RH|right[ -]?hand(?:ed)?)\b"),
    ("stainless", r"(?P<name>[ACDF]\d)(?:\s?-?\s?(?P<number>\d{2,3}))?(?!\d)"),
    ("fit", r"(?-i:(?P<name>(?:[3-9][a-hGH]){1,2}(?:/(?:[3-9][a-h]){1,2})?|[123][AB]))(?![A-Z0-9])"),
    ("class", r"(?:(?:property\s)?(?:class|cl\.?)\s?)?(?P<name>\d{1,2}[.,]\d{1,2})(?![\d.,])"),
    ("class", r"(?:property\s)?(?:class|cl\.?)\s?(?P<name>\d{1,2})(?![\d.])"),
    ("bare", rf"(?P<name>{_NUMBER})(?![\d.,/])\s?(?:mm\b)?"),
)
"""In the order in which they are tried; `name` is what each says."""

_PATTERNS = tuple((form, re.compile(pattern, re.IGNORECASE | re.ASCII)) for form, pattern in _FORMS)
_GAP = re.compile(r"[\s,;-]*")

SLOTS = {
    **dict.fromkeys(("metric", "unified"), "thread"),
    **dict.fromkeys(("grade", "stainless", "class"), "strength"),
}
"""What forms say the same thing: one thread, one strength."""

_MOST = {"standard": 2, "by": 2}
"""A fastener may follow two standards, and have a pitch and a length; all else is said once."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a designation.

    Args:
        form: Its form; see the table.
        at: Where it begins.
        found: What matched.

    """

    form: str
    at: int
    found: re.Match[str]

    def __getitem__(self, name: str) -> str:
        """Return a part of it, empty if it does not have that."""
        return self.found[name] or ""


def plain(text: str) -> str:
    """Return the text with plain signs for crosses, dashes and fractions, and single blanks.

    >>> plain("M8\u00d71.25 \u2013  6H"), plain("1\u00bd")
    ('M8x1.25 - 6H', '1 1/2')
    """
    text = " ".join(text.translate(_PLAIN).split())
    for sign, digits in _FRACTIONS.items():
        text = re.sub(rf"(?<=\d)\s?{sign}", f" {digits}", text).replace(sign, digits)
    return text


def pieces(text: str) -> dict[str, list[Piece]]:
    """Return the pieces of a plain text by what they say.

    Raises:
        DesignationError: One has no known form, or says again what was said.

    """
    if len(text) > LONGEST:
        raise DesignationError(text, LONGEST, text[LONGEST:], f"an end after at most {LONGEST} signs")
    found: dict[str, list[Piece]] = {}
    at = _after_gap(text, 0)
    while at < len(text):
        piece = _piece(text, at, found)
        if piece is None:
            raise DesignationError(text, at, text[at:].split(maxsplit=1)[0], _expected(found))
        found.setdefault(SLOTS.get(piece.form, piece.form), []).append(piece)
        at = _after_gap(text, piece.found.end())
    return found


def _after_gap(text: str, at: int) -> int:
    gap = _GAP.match(text, at)
    return gap.end() if gap else at


def _piece(text: str, at: int, before: dict[str, list[Piece]]) -> Piece | None:
    for form, pattern in _PATTERNS:
        taken = len(before.get(SLOTS.get(form, form), ()))
        if taken < _MOST.get(form, 1) and (match := pattern.match(text, at)):
            return Piece(form, at, match)
    return None


def _expected(found: dict[str, list[Piece]]) -> str:
    if "thread" not in found:
        return "a thread such as M10, M10x1.25, 3/8-16 or #10-32"
    if "strength" not in found:
        return "a length behind x, a class such as 10.9, a grade such as grade 8 or a group such as A2-70"
    return "nothing more than a length behind x, a class of fit, LH or a standard such as ISO 4014"
