"""A fastener: what it is, its thread, length and strength; printed as its standard writes it.

`shoptui.domain.fasteners.reading` reads what people write.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from shoptui.domain.fasteners.figures import PlaceError
from shoptui.domain.fasteners.strength import Strength
from shoptui.domain.fasteners.threads import INCH_MM, SAME, System, Thread


class Kind(StrEnum):
    """What it is: a bolt, screw or a thread of which no more is said; or another thing, which is named."""

    BOLT = "bolt"
    STUD = "stud"
    NUT = "nut"
    WASHER = "washer"


_KINDS = {
    Kind.NUT: (
        *("ISO 4032", "ISO 4033", "ISO 4035", "ISO 4161", "ISO 7040", "ISO 7042", "ISO 8673", "ISO 8674"),
        *("ISO 10511", "ISO 10512", "DIN 934", "DIN 936", "DIN 980", "DIN 982", "DIN 985", "DIN 6923"),
    ),
    Kind.WASHER: (
        *("ISO 7089", "ISO 7090", "ISO 7091", "ISO 7092", "ISO 7093", "ISO 7094"),
        *("DIN 125", "DIN 126", "DIN 127", "DIN 433", "DIN 6796", "DIN 9021"),
    ),
    Kind.STUD: ("DIN 835", "DIN 938", "DIN 939", "DIN 976"),
}
"""Product standards that say what the thing is; from memory, all others are taken for bolts and screws."""


def kind_said_by(standard: str) -> Kind | None:
    """Return what a product standard is for, None where it is not in the list or none is named.

    >>> kind_said_by("DIN 934"), kind_said_by("ISO 4762")
    (<Kind.NUT: 'nut'>, None)
    """
    return next(
        (kind for kind, names in _KINDS.items() if any(f"{name} " in f"{standard} " for name in names)), None
    )


_PARTS = 64
"""Of an inch: the finest that an inch rule has."""


class DesignationError(PlaceError):
    """What of a designation cannot be read, and where."""


@dataclass(frozen=True, slots=True)
class Designation:
    """A fastener: bolt, screw, stud, nut or washer; or a thread alone.

    Args:
        kind: What it is.
        thread: Its thread; of a washer, the thread that it is for.
        standard: Of the product, `ISO 4762`; empty if none is named.
        length_mm: Nominal length, to a thousandth; None if it has none or it was not said.
        threaded_mm: Length of the thread, where it was said.
        strength: Class, grade or stainless group.
        tolerance: Class of fit, `6g`, `6H/6g`, `2A`.
        left_hand: Whether it turns the other way.
        hardness: Of a washer, HV.

    """

    kind: Kind
    thread: Thread
    standard: str = ""
    length_mm: float | None = None
    threaded_mm: float | None = None
    strength: Strength | None = None
    tolerance: str = ""
    left_hand: bool = False
    hardness: int | None = None

    @property
    def is_bolt(self) -> bool:
        """Whether it is drawn tight by its own thread: bolt, screw or stud."""
        return self.kind in {Kind.BOLT, Kind.STUD}

    def __str__(self) -> str:
        """As standards write it, in plain letters.

        So `ISO 4762 - M8 x 30 - 10.9`, `3/8-16 UNC x 1 1/2 - grade 8`.
        """
        name = "" if self.kind in {Kind.BOLT, kind_said_by(self.standard)} else f"{self.kind} "
        size = self._washer_size() if self.kind is Kind.WASHER else str(self.thread)
        if self.length_mm is not None:
            size += f" x {self._length(self.length_mm)}"
        parts = (
            self.standard,
            f"{name}{size}",
            "" if self.threaded_mm is None else self._length(self.threaded_mm),
            self.tolerance,
            "LH" if self.left_hand else "",
            "" if self.strength is None else str(self.strength),
            f"{self.hardness} HV" if self.hardness else "",
        )
        return " - ".join(part for part in parts if part)

    def _washer_size(self) -> str:
        """The size without its threads, where nothing else can be meant by it."""
        size = self.thread.size
        if self.thread.system is System.METRIC:
            return size if self.standard else f"M{size}"
        return str(self.thread) if size.isdigit() else size

    def _length(self, length_mm: float) -> str:
        if self.thread.system is System.METRIC:
            alone = not self.standard and self.thread.series == "coarse"
            return f"{length_mm:g}{' mm' * (alone and length_mm < self.thread.major_mm)}"
        parts = round(length_mm / INCH_MM * _PARTS)
        if abs(parts / _PARTS * INCH_MM - length_mm) > SAME:
            return f"{length_mm:g} mm"
        whole, rest = divmod(parts, _PARTS)
        common = math.gcd(rest, _PARTS)
        return f"{whole or ''} {f'{rest // common}/{_PARTS // common}' if rest else ''}".strip()
