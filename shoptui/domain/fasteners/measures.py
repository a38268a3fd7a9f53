"""What a bolt or stud goes through and into, read from the words that people write, printed in one way."""

import re
from dataclasses import dataclass
from typing import Any

from shoptui.domain.fasteners.engagement import Material
from shoptui.domain.fasteners.figures import FastenerError, PlaceError
from shoptui.domain.fasteners.pieces import plain
from shoptui.domain.fasteners.threads import INCH_MM

MOST_MM = 1000
"""Longer than any bolt of a vehicle. No source."""
MOST_WASHERS = 20
LONGEST = 120
"""Signs; longer ones are something else. No source."""


@dataclass(frozen=True, slots=True)
class Measures:
    """Lengths in millimetres, each None where it is not known.

    Args:
        length: Of a bolt under its head, of a stud what stands out of its root.
        grip: Thickness of all that it goes through; spacer and washers not counted.
        material: What it goes into; None where nobody said, or into a nut.
        nut: Whether it goes through, into an open nut.
        nut_height: Of a nut that is not the usual one.
        hole: Depth of full thread in a blind hole; None goes through.
        spacer: Thickness.
        washers: How many.
        washer: Thickness of each; None for the usual one of the size.

    """

    length: float | None = None
    grip: float | None = None
    material: Material | None = None
    nut: bool = False
    nut_height: float | None = None
    hole: float | None = None
    spacer: float | None = None
    washers: int = 0
    washer: float | None = None

    def __str__(self) -> str:
        """In the one way in which they are written; `measures` reads it back."""
        lengths = (("length", self.length), ("grip", self.grip))
        told = [f"{name} {value:g}" for name, value in lengths if value is not None]
        told += [f"into {self.material}"] if self.material else []
        told += [f"nut {self.nut_height:g}" if self.nut_height else "nut"] if self.nut else []
        rest = (("hole", self.hole), ("spacer", self.spacer))
        told += [f"{name} {value:g}" for name, value in rest if value is not None]
        if self.washers:
            thick = f" {self.washer:g}" if self.washer else ""
            told.append(f"{self.washers} washer{'s' * (self.washers != 1)}{thick}")
        return ", ".join(told)


_MATERIALS = {
    **{str(each): each for each in Material},
    **dict.fromkeys(("aluminum", "alloy", "light alloy"), Material.ALUMINIUM),
    **dict.fromkeys(("iron", "grey iron", "gray iron"), Material.CAST_IRON),
    "bronze": Material.BRASS,
    "plastics": Material.PLASTIC,
}
"""What people call them; bronze has the rule of brass."""

_NAMED = "|".join(sorted(_MATERIALS, key=len, reverse=True))
_VALUE = re.compile(
    r"[\s:=]*(?P<value>[+-]?(?:(?:\d{1,2}[ -])?\d{1,2}/\d{1,2}|\d{1,6}(?:[.,]\d{1,3})?|[.,]\d{1,3}))(?![\d/])"
    rf"\s?(?P<unit>mm\b|cm\b|in(?:ch|ches)?\b(?!\s+(?:{_NAMED}))|\")?",
    re.IGNORECASE | re.ASCII,
)
_WASHERS = r"(?:(?P<count>\d{1,3})\s?x?\s?)?washer(?P<many>s?)\b(?:\s+of\b)?"
_PIECES = tuple(
    (name, re.compile(pattern, re.IGNORECASE | re.ASCII))
    for name, pattern in (
        ("length", r"(?:bolt |stud )?length\b|(?:bolt|stud)\b"),
        ("grip", r"grip\b"),
        ("hole", r"(?:blind )?hole\b"),
        ("spacer", r"spacer\b"),
        ("washers", _WASHERS),
        ("part of a washer", r"\d{1,3}[.,]\d{1,3}\s?x?\s?washers?\b"),
        ("nut", r"(?:into\s+(?:an?\s+)?)?nut\b"),
        ("material", rf"in(?:to)?\b\s*(?P<said>(?:{_NAMED})\b)?"),
    )
)
_GAP = re.compile(r"[\s,;]*")


def measures(text: str) -> Measures:
    """Return what words say of an engagement; lengths without a unit are millimetres, fractions are inches.

    Raises:
        PlaceError: A piece of it cannot be read, or says again what was said; it says which.
        FastenerError: A length that cannot be, or pieces that do not go together.

    >>> str(measures("length 40mm; grip 22 in aluminum, hole 1 in, 1 washer 2,5"))
    'length 40, grip 22, into aluminium, hole 25.4, 1 washer 2.5'
    >>> measures("grip 22, into cheese")
    Traceback (most recent call last):
    shoptui.domain.fasteners.figures.PlaceError: grip 22, into cheese: where "cheese" stands, \
one of steel, cast iron, brass, aluminium, zinc, plastic, nut was expected.

    """
    text = plain(text)
    if len(text) > LONGEST:
        raise PlaceError(text, LONGEST, text[LONGEST:], f"an end after at most {LONGEST} signs")
    said: dict[str, Any] = {}
    at = _after_gap(text, 0)
    while at < len(text):
        at = _after_gap(text, _take(text, at, said))
    if not said.get("washers"):
        said.pop("washer", None)
    found = Measures(**said)
    if found.nut and (found.material or found.hole):
        raise FastenerError(
            "An open nut has neither a blind hole nor a material here; a closed one is written: into steel, "
            "hole 18."
        )
    return found


def _after_gap(text: str, at: int) -> int:
    gap = _GAP.match(text, at)
    return gap.end() if gap else at


def _take(text: str, at: int, said: dict[str, Any]) -> int:
    """Take the piece that stands at a place; return where it ends."""
    for name, pattern in _PIECES:
        if (match := pattern.match(text, at)) is None:
            continue
        if name in said:
            raise PlaceError(text, at, match[0], f"{name} no more than once")
        match name:
            case "material":
                if match["said"] is None:
                    came = text[match.end() :].split(maxsplit=1)[:1]
                    wanted = f"one of {', '.join(Material)}, nut"
                    raise PlaceError(text, match.end(), came[0].rstrip(",;") if came else "", wanted)
                said[name] = _MATERIALS[match["said"].lower()]
                return match.end()
            case "nut":
                said[name] = True
                return _value(text, match.end(), "nut_height", said, needed=False)
            case "part of a washer":
                raise PlaceError(text, at, match[0], "a whole number of washers, such as 2 washers 2.5,")
            case "washers":
                return _washers(text, match, said)
            case _:
                return _value(text, match.end(), name, said)
    raise PlaceError(text, at, text[at:].split(maxsplit=1)[0], _EXPECTED)


_EXPECTED = "one of length 40, grip 22, into aluminium, nut, hole 25, spacer 5, 1 washer 2.5"


def _washers(text: str, found: re.Match[str], said: dict[str, Any]) -> int:
    """Take how many washers, and how thick each is: a number behind `washers` alone could be either."""
    if found["count"] is None and found["many"]:
        raise PlaceError(text, found.start(), found[0], "how many washers, such as 2 washers 2.5,")
    count = int(found["count"] or 1)
    if count > MOST_WASHERS:
        raise FastenerError(f"0 to {MOST_WASHERS} washers were expected; {count} came.")
    said["washers"] = count
    return _value(text, found.end(), "washer", said, needed=False)


def _value(text: str, at: int, name: str, said: dict[str, Any], *, needed: bool = True) -> int:
    match = _VALUE.match(text, at)
    if not needed and (match is None or re.match(_WASHERS, text[match.start("value") :], re.IGNORECASE)):
        return at  # the number counts washers, or there is none
    if match is None:
        start = _after_gap(text, at)
        came = text[start:].split(maxsplit=1)[0] if text[start:] else ""
        raise PlaceError(text, start, came, f"a length such as 22, 22 mm or 7/8 in behind {name}")
    value = _mm(match["value"], (match["unit"] or "").lower())
    if not 0 < value <= MOST_MM:
        raise FastenerError(
            f"{name.capitalize().replace('_', ' ')} above 0 and up to {MOST_MM} mm was expected; "
            f"{match[0].strip(' :=')} came."
        )
    said[name] = value
    return match.end()


def _mm(number: str, unit: str) -> float:
    sign = -1 if number.startswith("-") else 1
    *whole, last = number.lstrip("+-").replace("-", " ").split()
    if "/" in last:
        above, below = map(int, last.split("/"))
        value = (sum(map(int, whole)) + above / below) * INCH_MM if below else 0.0
        return round(sign * value * _OF_INCH.get(unit, 1), 3)
    return round(sign * float(last.replace(",", ".")) * _IN_MM.get(unit[:2], 1), 3)


_IN_MM = {"mm": 1, "cm": 10, "in": INCH_MM, '"': INCH_MM}
_OF_INCH = {"mm": 1 / INCH_MM, "cm": 10 / INCH_MM}
