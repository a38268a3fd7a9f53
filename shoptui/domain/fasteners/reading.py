"""Reads a fastener as people write it; what it cannot read it says, and where it stands."""

from shoptui.domain.fasteners.designations import Designation, DesignationError, Kind, kind_said_by
from shoptui.domain.fasteners.pieces import Piece, pieces, plain
from shoptui.domain.fasteners.strength import (
    BOLT_CLASSES,
    BOLT_GRADES,
    NUT_CLASSES,
    NUT_GRADES,
    STAINLESS,
    Scale,
    Strength,
    belongs,
)
from shoptui.domain.fasteners.thread_tables import METRIC, UNIFIED
from shoptui.domain.fasteners.threads import INCH_MM, System, Thread, metric, unified

MOST_INCHES = 24
"""A longer bolt with an inch thread was meant in millimetres. No source."""


def designation(text: str) -> Designation:
    """Return the fastener that a text means.

    Raises:
        DesignationError: A piece of it cannot be read; it says which.
        FastenerError: Pieces that do not go together: a pitch that cannot be, a class of another system.

    >>> str(designation("M10 x 1,25 - 8.8 x 30")), str(designation("1/2-13 UNC-2A LH"))
    ('M10 x 1.25 x 30 - 8.8', '1/2-13 UNC - 2A - LH')
    >>> designation("M10 blue").thread
    Traceback (most recent call last):
    shoptui.domain.fasteners.designations.DesignationError: M10 blue: where "blue" stands, a \
length behind x, a class such as 10.9, a grade such as grade 8 or a group such as A2-70 was expected.

    """
    return _Read(plain(text)).designation()


class _Read:
    """The pieces of one text, put together."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._found = pieces(text)
        self._standard = " ".join(_standard_name(piece) for piece in self._found.get("standard", ()))
        self._kind = self._said_kind()
        self._place_bare()

    def designation(self) -> Designation:
        """Return what they come to."""
        thread, length = self._thread_and_length()
        strength = self._strength()
        if strength is not None:
            belongs(strength, thread)
        fit, hand, hardness = self._one("fit"), self._one("hand"), self._one("hardness")
        if fit and (fit["name"][-1] in "AB") != (thread.system is System.UNIFIED):
            raise self._wrong(fit, f"a class of fit of {thread.system} threads")
        if hardness and self._kind is not Kind.WASHER:
            raise self._wrong(hardness, "a washer before a hardness")
        return Designation(
            self._kind,
            thread,
            self._standard,
            length,
            self._threaded(length),
            strength,
            fit["name"] if fit else "",
            left_hand=bool(hand and hand["name"]),
            hardness=int(hardness["name"]) if hardness else None,
        )

    def _one(self, slot: str) -> Piece | None:
        return next(iter(self._found.get(slot, ())), None)

    def _wrong(self, piece: Piece | None, expected: str) -> DesignationError:
        if piece is None:
            return DesignationError(self._text, len(self._text), "", expected)
        return DesignationError(self._text, piece.at, piece.found[0].strip(), expected)

    def _said_kind(self) -> Kind:
        piece = self._one("kind")
        if piece is None:
            return kind_said_by(self._standard) or Kind.BOLT
        word = piece["name"].lower()
        return Kind.BOLT if word == "screw" else Kind(word)

    def _place_bare(self) -> None:
        """A number alone is the class of a nut or the size of a washer, if nothing else said them."""
        slot = {Kind.NUT: "strength", Kind.WASHER: "thread"}.get(self._kind, "")
        if slot and slot not in self._found and "bare" in self._found:
            self._found[slot] = self._found.pop("bare")

    def _thread_and_length(self) -> tuple[Thread, float | None]:
        piece = self._one("thread")
        if piece is None:
            raise self._wrong(None, "a thread such as M10, M10x1.25, 3/8-16 or #10-32")
        by = self._found.get("by", [])
        if piece.form == "unified":
            if len(by) > 1:
                raise self._wrong(by[1], "one length")
            return self._unified(piece), self._length(by[0], in_inches=True) if by else None
        size = _value(piece["name"])
        pitch = by[0] if by and (len(by) > 1 or self._is_pitch(by[0], size)) else None
        thread = metric(size, _value(pitch["name"]) if pitch else None)
        lengths = [each for each in by if each is not pitch]
        return thread, self._length(lengths[0], in_inches=False) if lengths else None

    def _is_pitch(self, piece: Piece, size: float) -> bool:
        """Behind a product standard, what is above all listed pitches is a length; else from the diameter on.

        So `M10x9` is refused as a pitch that cannot be, and not taken for a length that nobody meant.
        """
        if piece["unit"] or "/" in piece["name"]:
            return False
        value, listed = _value(piece["name"]), METRIC.get(size)
        return value <= listed[0] if self._standard and listed else value < size

    def _unified(self, piece: Piece) -> Thread:
        per_inch, series = piece["per_inch"], piece["series"].strip(" -").upper().removesuffix("R")
        if self._kind is Kind.WASHER and not per_inch and not series:
            series = "UNC"
        return unified(_inch_size(piece["name"], per_inch), int(per_inch) if per_inch else None, series)

    def _length(self, piece: Piece, *, in_inches: bool) -> float:
        text = piece["name"]
        value = _inches(text) if "/" in text else _value(text)
        if value == 0:
            raise self._wrong(piece, "a length above 0")
        if piece["unit"].lower() == "mm" or (not piece["unit"] and "/" not in text and not in_inches):
            return round(value, 3)
        if value > MOST_INCHES:
            raise self._wrong(piece, f"a length up to {MOST_INCHES} in, or one with mm behind it,")
        return round(value * INCH_MM, 3)

    def _threaded(self, length: float | None) -> float | None:
        piece = self._one("bare")
        if piece is None:
            return None
        value = _value(piece["name"])
        if not self._standard or length is None or not 0 < value <= length:
            raise self._wrong(piece, self._meant_by_bare(piece["name"]))
        return round(value, 3)

    def _meant_by_bare(self, name: str) -> str:
        """Say what would tell what a number alone is; of those that are marked on nuts, that."""
        known = {"metric": NUT_CLASSES, "unified": NUT_GRADES}[self._found["thread"][0].form]
        if "strength" not in self._found and name in known:
            if known is NUT_GRADES:
                return f"the word grade before {name}"
            return f"a class of bolts such as 8.8, or the word nut ({name} alone is a class of nuts),"
        return "a sign of what this number is, such as x before a length,"

    def _strength(self) -> Strength | None:
        piece = self._one("strength")
        if piece is None:
            return None
        nut = self._kind is Kind.NUT
        name = piece["name"].upper()
        match piece.form:
            case "grade":
                scale, known = Scale.GRADE, NUT_GRADES if nut else BOLT_GRADES
            case "stainless":
                scale, known, name = Scale.STAINLESS, STAINLESS, f"{name}-{piece['number']}"
            case _:
                scale, known, name = Scale.CLASS, NUT_CLASSES if nut else BOLT_CLASSES, name.replace(",", ".")
        if name not in known:
            said = "group of stainless steel" if scale is Scale.STAINLESS else f"{scale}{' of nuts' * nut}"
            raise self._wrong(piece, f"a {said} that exists ({', '.join(known)})")
        return Strength(scale, name)


def _standard_name(piece: Piece) -> str:
    return " ".join((*piece["name"].upper().split(), piece["number"].upper()))


def _inch_size(text: str, per_inch: str) -> str:
    """Return a Unified size as its table has it, or as decimal inches; a whole number is a gauge if it fits.

    >>> _inch_size("No. 10", "32"), _inch_size("10", "32"), _inch_size("1", "8"), _inch_size("3/8", "")
    ('#10', '#10', '1', '0.375')
    """
    digits = text.lower().removeprefix("no").strip("#. ")
    if text[0] in "#nN":
        return f"#{int(digits)}"
    if "/" in text:
        return f"{_inches(text):g}"
    gauge = f"#{text}"
    if gauge in UNIFIED and (text not in UNIFIED or per_inch in map(str, UNIFIED[gauge][1:])):
        return gauge
    return text


def _value(text: str) -> float:
    return float(text.replace(",", "."))


def _inches(text: str) -> float:
    """Return the value of `1 1/2` or `1-1/2`.

    >>> _inches("1-1/2")
    1.5
    """
    *whole, fraction = text.replace("-", " ").split()
    above, below = fraction.split("/")
    return sum(map(int, whole)) + (int(above) / int(below) if int(below) else 0.0)
