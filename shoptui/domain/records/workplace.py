"""What a shop has and who works in it: builds, bins, people, wrenches, settings."""

from dataclasses import dataclass
from datetime import date

from shoptui.domain.records.printed import LabelChoice, PrinterCorrection


@dataclass(frozen=True, slots=True)
class Meter:
    """What was found of an odometer at a moment: another unit, another instrument, a figure that was wrong.

    Args:
        until: Id of the last reading of any joint that was written down before it.
        unit: In which the figures until then count: km or mi.
        behind_km: What the figures after it are behind those before.
        most_km: What had been driven at most then: a figure above it was wrong; None for any.

    """

    until: int
    unit: str
    behind_km: float = 0.0
    most_km: float | None = None


@dataclass(frozen=True, slots=True)
class Build:
    """One vehicle project; `status` is open or finished, `odometer` a figure in the vehicle's own unit.

    `meters` says how figures before are read, the oldest first: see `shoptui.domain.odometers`.
    """

    id: int
    code: str
    tag: str
    title: str
    vehicle: str = ""
    vin: str = ""
    odometer: int | None = None
    odometer_unit: str = "km"
    meters: tuple[Meter, ...] = ()
    labour_rate_minor: int | None = None
    status: str = "open"
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class Bin:
    """One place to put things.

    Args:
        id: Document id.
        code: The shop's own name for it, or the tag.
        tag: Our tag, kind B, of a bag kind G.
        words: Where it stands.
        kind: rack bin, drawer, bag or bench.
        room: In words.
        part: Of a bag, id of the part whose hardware is in it; None where it is for none.
        old_names: Its short names before: they still stand on stickers, so they still mean it.
        withdrawn: Whether an undo took back its making.

    """

    id: int
    code: str
    tag: str
    words: str = ""
    kind: str = "rack bin"
    room: str = ""
    part: int | None = None
    old_names: tuple[str, ...] = ()
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who works here: name as spoken, badge (tag, kind U), and if they may sign a second check."""

    id: int
    code: str
    tag: str
    name: str
    second_check: bool = False
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class Wrench:
    """One torque tool.

    Args:
        id: Document id.
        code: The shop's own name for it, or the tag.
        tag: Our tag, kind W.
        name: In words.
        unit: Unit of its scale: `N m`, `lbf ft`, `lbf in`.
        low: Lowest marked value, in that unit.
        high: Highest marked value, in that unit.
        kind: Its type by ISO 6789, such as `II A`, where its papers say one; else setting or indicating.
        deviation_percent: What its own papers permit, plus and minus; 0 where they say nothing.
        length_mm: From the middle of the grip to the drive, for extensions; 0 is not known.
        checked: Day of the last check.
        interval_months: Months until the next check.
        checked_after: Id of the last reading before that check; 0 where its day alone is known.
        cycles: Uses since the last check that stand in no reading.
        barred: Why it may not be used (dropped, failed its check, sold); empty if it may.
        gone: Whether it is here no more: nobody has to check it.
        withdrawn: Whether an undo took back its making.

    """

    id: int
    code: str
    tag: str
    name: str
    unit: str = "N m"
    low: float = 0.0
    high: float = 0.0
    kind: str = "setting"
    deviation_percent: float = 0.0
    length_mm: float = 0.0
    checked: date | None = None
    interval_months: int = 12
    checked_after: int = 0
    cycles: int = 0
    barred: str = ""
    gone: bool = False
    withdrawn: bool = False

    @property
    def is_set(self) -> bool:
        """Whether it is set to a value and releases there; one that is not is read."""
        return self.kind == "setting" or self.kind.startswith("II ")


@dataclass(frozen=True, slots=True)
class Settings:
    """The shop's settings.

    Args:
        id: Document id.
        code: Always `shop`.
        name: The shop's name.
        currency: ISO 4217 code.
        units: Unit of torque that is shown first, `N m` or `lbf ft`.
        working_days: Days on which the shop and its suppliers work, Monday is 0.
        working_hours: From when to when, `08:00-17:00`, local time; empty where nobody said.
        holidays: Days on which nobody works.
        twice_seconds: The same code twice within this time is one reading seen twice.
        badge_minutes: A badge lapses after this time.
        any_wrench: Whether a wrench past its date, or outside its marks, may be used with a reason.
        scanner_prefix: Textual's name of the key that the scanner sends first.
        label_choices: What each kind of label was printed on last.
        corrections: How printers are off, as measured.

    """

    id: int = 0
    code: str = "shop"
    name: str = ""
    currency: str = "EUR"
    units: str = "N m"
    working_days: tuple[int, ...] = (0, 1, 2, 3, 4)
    working_hours: str = ""
    holidays: tuple[date, ...] = ()
    twice_seconds: float = 0.4
    badge_minutes: int = 20
    any_wrench: bool = True
    scanner_prefix: str = "f9"
    label_choices: tuple[LabelChoice, ...] = ()
    corrections: tuple[PrinterCorrection, ...] = ()
    withdrawn: bool = False
