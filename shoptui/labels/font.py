"""The font of labels, DejaVu Sans Mono, which python-barcode brings along: what it can set, and its measures.

Every glyph is as wide as every other, so a width is a count of characters. What the font cannot set is put
into words and said, never dropped: letters of scripts that run from right to left or join are not attempted,
since set one by one they would be broken.
"""

import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING

from shoptui.domain.inert import ELLIPSIS, MARK, inert

if TYPE_CHECKING:
    from PIL.ImageFont import FreeTypeFont

NAME = "DejaVu Sans Mono"
ADVANCE = 1233 / 2048
"""Width of every glyph in ems, from the font's own tables."""

CAPITAL = 1493 / 2048
"""Height of a capital or a digit, likewise."""

MM_PER_POINT = 25.4 / 72
LEAST_SIZE = 5 * MM_PER_POINT
"""Smallest em that is printed, mm: 5 points."""

_CAPITALS = frozenset("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-+.: ")
"""Signs that stay between the baseline and the height of capitals: what codes are made of."""

_ROUND = 0.02
"""How far round capitals reach beyond both, in ems; this and what follows is measured on the drawn glyphs."""

_TAIL_OF_Q = 0.14
_TALL, _DEEP = 0.8, 0.24
"""How far other ASCII reaches above and below the baseline."""

_MEASURED_AT = 2048
"""Em in pixels at which other glyphs are measured: the font's own units."""

_RIGHT_TO_LEFT = frozenset({"R", "AL", "AN"})

_LATIN = range(0xA1, 0x180)
"""Letters and signs of Europe's languages, all of which the font has: they need no look into its file."""

_NO_SCRIPT = frozenset({"", "COMBINING", "FULLWIDTH", "MODIFIER", "VARIATION"})
"""First words of names of characters that belong to no script."""

_LANGUAGES = {"CJK": "Chinese", "HIRAGANA": "Japanese", "KATAKANA": "Japanese", "HANGUL": "Korean"}
"""Scripts that people know by a language; others are called as Unicode calls them."""


@dataclass(frozen=True, slots=True)
class Settable:
    """A text that the font can set, and what had to be done to it, in sentences."""

    text: str
    notes: tuple[str, ...] = ()


def path() -> Path:
    """Return the font's file."""
    return Path(str(files("barcode") / "fonts" / "DejaVuSansMono.ttf"))


@cache
def _glyphs() -> frozenset[int]:
    from reportlab.pdfbase.ttfonts import TTFontFile  # noqa: PLC0415 - costs time that others need not spend

    return frozenset(TTFontFile(str(path())).charToGlyph)


def settable(text: str) -> Settable:
    r"""Return a text as the font can set it.

    >>> settable("Größe Ω ③").text, settable("שלום 2").text
    ('Größe Ω 3', '[Hebrew] 2')

    """
    plain = unicodedata.normalize("NFC", inert(text, len(text) * 2))
    if plain.isascii():
        return Settable(plain)
    told: list[str] = []
    notes: list[str] = []
    for script, run in groupby(plain, _script):
        part = "".join(run)
        if script is None:
            told.append(part)
        elif script:
            if told[-2:] == [f"[{script}]", " "]:
                del told[-2:]  # several words of it are one
            told.append(f"[{script}]")
            notes.append(f"{script} cannot be set in the font of labels; [{script}] stands for it.")
        else:
            put, note = _substitutes(part)
            told.append(put)
            notes += note
    return Settable("".join(told), tuple(dict.fromkeys(notes)))


def _script(character: str) -> str | None:
    """Return None for what can be set, the script's name for a letter of another one, else nothing."""
    if character.isascii():
        return None
    runs_left = unicodedata.bidirectional(character) in _RIGHT_TO_LEFT
    joins = unicodedata.combining(character) > 0
    if not runs_left and not joins and (ord(character) in _LATIN or ord(character) in _glyphs()):
        return None
    first = unicodedata.name(character, "").split(" ")[0]
    letter = runs_left or unicodedata.category(character)[0] in "LM"
    if not letter or first in _NO_SCRIPT or _simpler(character):
        return ""
    return _LANGUAGES.get(first, first.title())


def _simpler(character: str) -> str:
    """Return the ASCII that a character is a variant of, nothing where there is none."""
    simpler = unicodedata.normalize("NFKC", character)
    return simpler if simpler.isascii() else ""


def _substitutes(text: str) -> tuple[str, list[str]]:
    """Return what stands for signs that the font lacks, and the sentences that say so."""
    put, notes = [], []
    for character in text:
        if unicodedata.combining(character):
            accent = unicodedata.name(character, "?").lower()
            notes.append(f"The accent {accent} cannot be set in the font of labels and is left out.")
        else:
            put.append(_simpler(character) or MARK)
            notes.append(f"{character} cannot be set in the font of labels; {put[-1]} stands for it.")
    return "".join(put), notes


def width(text: str, size: float) -> float:
    """Return the width of a line, mm, at an em of `size` mm."""
    return len(text) * ADVANCE * size


def above(text: str) -> float:
    """Return how far a line reaches above its baseline, in ems."""
    return max(_ascii_above(text), *(_reach(sign)[0] for sign in _others(text)), 0)


def below(text: str) -> float:
    """Return how far a line reaches below its baseline, in ems."""
    return max(_ascii_below(text), *(_reach(sign)[1] for sign in _others(text)), 0)


def _others(text: str) -> set[str]:
    """Return the signs of a text that have to be measured."""
    return set() if text.isascii() else {sign for sign in text if not sign.isascii()} - {ELLIPSIS}


def _ascii_above(text: str) -> float:
    """Return how high the ASCII of a text reaches; other signs count as capitals."""
    return CAPITAL + _ROUND if all(sign in _CAPITALS or not sign.isascii() for sign in text) else _TALL


def _ascii_below(text: str) -> float:
    """Return how deep it reaches likewise."""
    if not all(sign in _CAPITALS or not sign.isascii() for sign in text):
        return _DEEP
    return _TAIL_OF_Q if "Q" in text else _ROUND


@lru_cache(maxsize=4096)
def _reach(sign: str) -> tuple[float, float]:
    """Return how far a glyph reaches above and below its baseline, in ems."""
    _, top, _, bottom = pen(_MEASURED_AT).getbbox(sign, anchor="ls")
    return -top / _MEASURED_AT, bottom / _MEASURED_AT


@lru_cache(maxsize=64)
def pen(size: float) -> "FreeTypeFont":
    """Return the font at an em of `size` pixels."""
    from PIL import ImageFont  # noqa: PLC0415 - costs time that others need not spend

    return ImageFont.truetype(str(path()), size, layout_engine=ImageFont.Layout.BASIC)
