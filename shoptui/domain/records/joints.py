"""Joints of a part as its sheet gives them, and what was done to them: readings, never changed."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from shoptui.domain.fasteners.surfaces import Prepared


@dataclass(frozen=True, slots=True)
class Joint:
    """What holds a part, as its sheet says it is tightened; or a check that somebody signs.

    Args:
        name: In words; by it readings find their joint, so it is unique within the part.
        fasteners: How many hold one piece of the part; 0 is a check that is signed: bled, no leaks, aligned.
        designation: Thread, with class or grade: `M12x1.5 10.9`.
        prepared: Threads, as the sheet wants them; not said where it says nothing of them.
        value: As on the sheet, with its unit: `110 N m`, `100 to 120 N m`, `40 N m + 90 deg`.
        aim: What is aimed at within a range that the sheet leaves open, in the unit of the value.
        passes: In how many the value is reached.
        pattern: Order of tightening, see `shoptui.domain.fasteners.patterns`; empty for any.
        ride_height: Whether it is tightened with the vehicle's weight on its wheels.
        one_use: Whether its fasteners may be used once only.
        second_check: Whether somebody else has to check it.
        again_after: Distance after which it is checked again, in the unit of the build's odometer; 0 never.
        again_days: Days after which it is; 0 never.
        plain: Whether the lead marked it as plain, steel bracket or trim: then a handbook value may be shown.
        clamps: Ids of further parts that it holds: with any of them removed it is open again.
        sheet: Id of the attached file, None for none.
        source: Title and edition of the sheet, where it is not attached.
        page: In the sheet.
        read_by: Who read it.
        engagement: Length, grip, what it goes into, spacer and washers, see
            `shoptui.domain.fasteners.measures`; empty where nobody measured. The sheet says nothing of it.
        read_in: Id of the older edition in which all this was read; None where that is the sheet itself.
            Until somebody has read the newer one the joint is open.

    """

    name: str
    fasteners: int = 1
    designation: str = ""
    prepared: Prepared = Prepared.NOT_SAID
    value: str = ""
    aim: str = ""
    passes: int = 1
    pattern: str = ""
    ride_height: bool = False
    one_use: bool = False
    second_check: bool = False
    again_after: int = 0
    again_days: int = 0
    plain: bool = False
    clamps: tuple[int, ...] = ()
    sheet: int | None = None
    source: str = ""
    page: str = ""
    read_by: str = ""
    engagement: str = ""
    read_in: int | None = None

    @property
    def sheet_says(self) -> str:
        """What a reading is a reading of: with anything of it changed, what was tightened before is not.

        Dry was once what stood where nothing was said of the threads. So both say the same here: readings
        of that time count on, and writing down that they are dry opens no joint.
        """
        unsaid = self.prepared is Prepared.NOT_SAID
        told = (
            self.fasteners,
            self.designation,
            Prepared.DRY.value if unsaid else self.prepared.value,
            self.value,
            self.sheet or "",
            self.source,
            self.page,
        )
        return " | ".join(str(each) for each in told)

    @property
    def has_source(self) -> bool:
        """Whether somebody can look up where the value stands."""
        return bool(self.sheet or self.source)


class What(StrEnum):
    """What a row of the readings states."""

    TIGHTENED = "tightened"
    SIGNED = "signed"
    SECOND = "second check"
    CHECKED = "checked again"
    FAILED = "failed its check"
    LOOSENED = "loosened"
    ACCEPTED = "accepted as it is"
    STRUCK = "struck out"


class How(StrEnum):
    """How a value came about; for one that was set the tool is believed."""

    NOTHING = ""
    SET = "set"
    MEASURED = "measured"


@dataclass(frozen=True, slots=True)
class Reading:
    """One statement about a joint of a part at one position; a row that is never changed.

    Args:
        id: Document id, 0 before the store has given one.
        what: What it states.
        part: Id of the part.
        joint: The joint's name.
        position: On the vehicle; empty where the part has none, and on the bench.
        fasteners: How many it states.
        value: As it was typed or set; empty where there is none.
        unit: Of it: a unit of torque, or `deg`.
        how: Whether it was set or measured.
        wrench: Id of the tool, None where nobody said which.
        deviation_percent: What the tool might deviate then, plus and minus; None in readings of before this
            was written down, which take what it may now.
        checked: Day of the tool's last check then; None where there was none, or it was not written down.
        who: Id of the person, None where nobody said who.
        odometer: Of the build then; None if not known.
        odometer_unit: In which it counted; empty in readings of before this was written down.
        sheet_says: The joint's at that time.
        note: In words: why an unsuited wrench, an extension, what was asked about and written all the same.
        strikes: Id of the reading that it strikes out, with the note as reason.
        transaction: Id of the transaction, 0 before the store has given one.

    """

    id: int
    what: What
    part: int
    joint: str
    position: str = ""
    fasteners: int = 0
    value: str = ""
    unit: str = ""
    how: How = How.NOTHING
    wrench: int | None = None
    deviation_percent: float | None = None
    checked: date | None = None
    who: int | None = None
    odometer: int | None = None
    odometer_unit: str = ""
    sheet_says: str = ""
    note: str = ""
    strikes: int | None = None
    transaction: int = 0
