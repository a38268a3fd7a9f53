"""Makes text from outside safe to show: what a label, a list or a person sent never acts on the terminal.

Control characters become their pictures, invisible and direction-changing characters a visible mark, so two
texts that look alike hide nothing. Square brackets stay: whoever paints must not read markup out of data.
"""

import unicodedata

ELLIPSIS = "\N{HORIZONTAL ELLIPSIS}"
MARK = "\N{REPLACEMENT CHARACTER}"
"""Stands for one character that cannot be shown."""

NO_BASE = "\N{DOTTED CIRCLE}"
"""Carries a combining mark that has nothing before it to combine with."""

MOST_MARKS = 3
"""Combining marks on one character; scripts use two or three, more is a heap that runs into other lines."""

_PICTURES = 0x2400
_SPACE, _DELETE = 0x20, 0x7F
_DELETE_PICTURE = "\N{SYMBOL FOR DELETE}"

_BLANK_LETTERS = frozenset("\u034f\u115f\u1160\u17b4\u17b5\u2800\u3164\uffa0")
"""Letters, marks and symbols that are drawn as nothing."""

_JAMO_START, _JAMO_END = "\u1161", "\u11ff"
"""Hangul vowels and finals, which join the syllable before them."""

_UNSHOWN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
_COMBINING = frozenset({"Mn", "Me", "Mc"})
_VARIATION = (("\ufe00", "\ufe0f"), ("\U000e0100", "\U000e01ef"))


def inert(text: str, limit: int = 60) -> str:
    r"""Return a text that is safe to show, at most `limit` terminal cells wide.

    What does not fit ends in an ellipsis, never inside a character and its combining marks.

    >>> inert("AB\x1b[31m\u202e01")
    'AB␛[31m�01'
    >>> inert("front subframe", limit=8)
    'front s…'
    """
    if len(text) <= limit and text.isascii() and text.isprintable():
        return text  # nearly all there is: lists of thousands of rows come through here
    shown: list[str] = []
    room = limit
    before_last = (0, limit)
    for cluster in _clusters(text):
        width = cells(cluster)
        if width > room:
            return _cut(shown, before_last)
        if room - width >= 1:
            before_last = (len(shown) + 1, room - width)
        shown.append(cluster)
        room -= width
    return "".join(shown)


def _cut(shown: list[str], fits: tuple[int, int]) -> str:
    """Keep as many clusters as leave a cell for the ellipsis."""
    count, room = fits
    return "".join(shown[:count]) + ELLIPSIS if room >= 1 else ""


def cells(text: str) -> int:
    """Return the width of a text in terminal cells; Unicode Standard Annex 11 says which are two wide."""
    return len(text) if text.isascii() else sum(_cells(character) for character in text)


def _cells(character: str) -> int:
    if character.isascii():
        return 1
    if _joins(character):
        return 1 if unicodedata.category(character) == "Mc" else 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def _joins(character: str) -> bool:
    return unicodedata.category(character) in _COMBINING or _JAMO_START <= character <= _JAMO_END


def _clusters(text: str) -> list[str]:
    """Return the text's safe characters, each with the marks that belong to it."""
    clusters: list[str] = []
    marks = 0
    for character in text:
        safe = _safe(character)
        if not _joins(safe):
            clusters.append(safe)
            marks = 0
        elif marks >= MOST_MARKS:
            continue
        elif clusters and clusters[-1] != MARK:
            clusters[-1] += safe
            marks += 1
        else:
            clusters.append(NO_BASE + safe)
            marks = 1
    return clusters


def _safe(character: str) -> str:
    code = ord(character)
    if code < _SPACE:
        return chr(_PICTURES + code)
    if code == _DELETE:
        return _DELETE_PICTURE
    if character.isascii():
        return character
    category = unicodedata.category(character)
    if category == "Zs":
        return " "
    varies = any(first <= character <= last for first, last in _VARIATION)
    return MARK if category in _UNSHOWN or character in _BLANK_LETTERS or varies else character
