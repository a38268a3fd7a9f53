"""What is asked of a joint: how its sheet has it tightened, and where that stands."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from enum import StrEnum
from typing import Any, NamedTuple

from shoptui.domain import cells
from shoptui.domain.cautions import may_be_plain
from shoptui.domain.cells import CellError
from shoptui.domain.fasteners.figures import FastenerError, number
from shoptui.domain.fasteners.measures import measures
from shoptui.domain.fasteners.passes import MOST_PASSES
from shoptui.domain.fasteners.patterns import MOST, Pattern
from shoptui.domain.fasteners.reading import designation
from shoptui.domain.fasteners.surfaces import Prepared
from shoptui.domain.fasteners.units import Unit
from shoptui.domain.inert import inert
from shoptui.domain.joint_doubts import joint_doubt
from shoptui.domain.joint_sheets import asked_by, value_text
from shoptui.domain.records import Joint, Part
from shoptui.jobs import ask_for
from shoptui.jobs.ask_for_records import parts
from shoptui.jobs.asked import Asked, AskedLines, Sense


def _one_of(name: str, label: str, kind: type[StrEnum], hint: str, *, usual: str) -> Asked:
    """Ask for one of some words; an empty field is what is usual, which may be none of them."""
    choices = (usual, *(each for each in kind if each != usual))

    def read(_: Sense, typed: str) -> str:
        said = cells.words(typed).casefold() or usual
        if said not in choices:
            raise CellError(f"One of {', '.join(choices)} was expected; {inert(typed, 40)} came.")
        return kind(said) if said in tuple(kind) else ""

    return Asked(name, label, hint, read, lambda _, value: str(value) or usual, choices=choices)


def _own_unit(name: str, label: str, hint: str, read: Callable[[str, Unit], str]) -> Asked:
    """Ask for a torque; where no unit is typed the one is meant that the shop shows first."""
    return Asked(
        name,
        label,
        hint,
        lambda sense, typed: read(typed, Unit(sense.shop.settings.units)) if typed.strip() else "",
        lambda _, value: str(value),
    )


def _file() -> Asked:
    """Ask for the sheet by the name of a file that is kept with a part."""

    def read(sense: Sense, typed: str) -> int | None:
        if not (said := cells.words(typed)):
            return None
        kept = [file for file in sense.shop.files.all() if file.table == "parts"]
        # Saving another field of the form must not turn a joint to another file of the same name.
        used = {joint.sheet for joint in getattr(sense.record, "joints", ())}
        kept.sort(
            key=lambda file: (file.id not in used, file.record != getattr(sense.record, "id", 0), -file.id)
        )
        found = next((file for file in kept if file.name.casefold() == said.casefold()), None)
        if found is None:
            own = ", ".join(dict.fromkeys(inert(file.name, 40) for file in kept[:3])) or "none yet"
            raise CellError(
                f"A file kept with the part was expected ({own}); {inert(said, 40)} came. "
                "Parts (F8) keeps one: Photo, file (Ctrl+F)."
            )
        return found.id

    def write(sense: Sense, value: Any) -> str:  # noqa: ANN401 - a record's field
        return "" if value is None else sense.shop.files.get(value).name

    return Asked("sheet", "Sheet, file", "name of a file kept with the part; may be empty", read, write)


_READ = (("page", ", page {}"), ("read_by", ", read by {}"))
_CHECK = ask_for.line_words(("name", "{}, a check that is signed"), *_READ)
_FASTENED = ask_for.line_words(
    ("name", "{}"),
    ("fasteners", ", {}"),
    ("designation", " x {}"),
    ("prepared", ", {}"),
    ("value", ", {}"),
    ("engagement", ", {}"),
    *_READ,
)


def _joint_words(row: Mapping[str, str]) -> str:
    """Say a joint; of a check that is signed nothing is counted, and no threads are prepared."""
    is_check = row.get("fasteners", "").strip() in ("", "0") and not row.get("value")
    return _CHECK(row) if is_check else _FASTENED(row)


def _line_refused(
    sense: Sense, joint: Joint, others: Sequence[Mapping[str, str]], beside: Mapping[str, str]
) -> tuple[str, str] | None:
    """Return what the part could not be saved with, as its other fields stand now."""
    if any(cells.words(row.get("name", "")).casefold() == joint.name.casefold() for row in others):
        return "name", TWICE
    part = sense.record or Part(0, "", "", None, "")
    told = {name: beside[name] for name in ("section", "description") if name in beside}
    return _refused(replace(part, **told), joint)


def _still_unread(sense: Sense, joints: tuple[Joint, ...]) -> tuple[Joint, ...]:
    """Let joints stay unread in the newer edition of their sheet, except where somebody is said to have."""
    was = sense.record.joints if isinstance(sense.record, Part) else ()
    read_in = {joint.sheet: joint.read_in for joint in was}
    return tuple(
        joint if joint.read_by else replace(joint, read_in=read_in.get(joint.sheet)) for joint in joints
    )


JOINTS = AskedLines(
    Joint,
    (
        ask_for.text("name", "Joint", "wheel nuts, caliper bolts, bled and no leaks", needed=True, limit=60),
        ask_for.number(
            "fasteners", "Fasteners", "for one piece; 0: a check that is signed", most=MOST, empty=0
        ),
        ask_for.read_by(
            "designation",
            "Designation",
            "M12x1.5 10.9, 3/8-16 grade 8; may be empty",
            lambda typed: str(designation(typed)) if typed.strip() else "",
        ),
        _one_of("prepared", "Threads", Prepared, "as the sheet says, or not said", usual=Prepared.NOT_SAID),
        _own_unit("value", "Value", "110 N m, 110+-10, 100-120 lbf ft, 40 N m + 90+-5 deg", value_text),
        ask_for.read_by(
            "aim",
            "Aim at",
            "in a range: what is aimed at; else empty",
            lambda typed: f"{number(typed, 'An aim'):f}" if typed.strip() else "",
        ),
        ask_for.number("passes", "Passes", "in how many", least=1, most=MOST_PASSES, empty=1),
        _one_of("pattern", "Order", Pattern, "any, cross, star, inside out, in line", usual="any"),
        ask_for.yes_or_no("ride_height", "Ride height", "yes: with the weight on the wheels"),
        ask_for.yes_or_no("one_use", "Used once", "yes: new fasteners each time"),
        ask_for.yes_or_no("second_check", "Second check", "yes: by somebody else"),
        ask_for.number("again_after", "Again after", "distance, as the odometer counts; 0: never", empty=0),
        ask_for.number("again_days", "Again, days", "days after it; 0: never", most=9999, empty=0),
        ask_for.yes_or_no("plain", "Plain", "yes: steel bracket or trim, a handbook value will do"),
        parts("clamps", "Holds too", "further parts; with one of them off it is open again"),
        _file(),
        ask_for.text("source", "Source", "title and edition of the maker's sheet"),
        ask_for.text("page", "Page", limit=20),
        ask_for.text("read_by", "Read by", "who read it there"),
        ask_for.read_by(
            "engagement",
            "Engagement",
            "length 40, grip 22, into steel, hole 25, spacer 5",
            lambda typed: str(measures(typed)) if typed.strip() else "",
        ),
    ),
    "joint",
    _joint_words,
    joint_doubt,
    _line_refused,
    _still_unread,
)


TWICE = "it is there twice; readings find a joint by its name."


class JointRefusal(NamedTuple):
    """What cannot be about one of a part's joints: its place from 0, which field of it, and why."""

    place: int
    field: str
    words: str


def joints_refused(part: Part) -> str:
    """Say what cannot be about the joints of a part, empty if they can."""
    refusal = joint_refused(part)
    if refusal is None:
        return ""
    return f"joint {refusal.place + 1}, {inert(part.joints[refusal.place].name)}: {refusal.words}"


def joint_refused(part: Part) -> JointRefusal | None:
    """Return what cannot be about the first joint of a part that cannot be, None if they all can."""
    seen: set[str] = set()
    for place, joint in enumerate(part.joints):
        if joint.name.casefold() in seen:
            return JointRefusal(place, "name", TWICE)
        seen.add(joint.name.casefold())
        if found := _refused(part, joint):
            return JointRefusal(place, *found)
    return None


def _refused(part: Part, joint: Joint) -> tuple[str, str] | None:
    """Return the field of a joint that cannot be, and why."""
    if not joint.fasteners and joint.value:
        words = "a check that is signed has no value; {} came. How many fasteners are there?"
        return "value", words.format(inert(joint.value))
    if not joint.fasteners and joint.engagement:
        return "engagement", "a check that is signed engages nothing. How many fasteners are there?"
    if joint.plain and not may_be_plain(part.section, part.description):
        return "plain", "plain is for steel brackets and trim; this part needs its maker's sheet."
    if part.id in joint.clamps:
        return "clamps", "the part itself is held anyway."
    try:
        words = _aim_refused(joint)
    except FastenerError as error:
        words = str(error)
    return ("aim", words) if words else None


def _aim_refused(joint: Joint) -> str:
    """Say what cannot be about a value and what is aimed at within it."""
    asked, open_ = asked_by(joint), asked_by(replace(joint, aim=""))
    if not joint.aim:
        return ""
    if asked is None or open_ is None or open_.target is not None or asked.target is None:
        return "an aim is for a range, such as 100 to 120 N m; there is none."
    if not asked.value.low <= asked.target <= asked.value.high:
        return f"an aim from {open_.value} was expected; {joint.aim} came."
    return ""
