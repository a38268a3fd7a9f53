"""A build's torque record as a document for the folder that goes with the vehicle: text, or Markdown."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby

from shoptui.domain.inert import inert
from shoptui.domain.records import Build
from shoptui.domain.wrapping import escaped, wrapped
from shoptui.jobs.at import name_and_code
from shoptui.jobs.joint_words import NO_LONGER, is_generic, value_words
from shoptui.jobs.joints import JointAt
from shoptui.jobs.place_words import today
from shoptui.jobs.torque_lines import (
    HANDBOOK_ONLY,
    accepted,
    asked_for,
    finished_words,
    lines_of,
    name_at,
    standing_words,
    together,
    wrenches,
)
from shoptui.jobs.torque_record import again_words, left_day
from shoptui.store.shop import Shop

WIDTH = 80

_FOOT = (
    "This record says what people wrote down; it has not seen the vehicle. As set: the wrench was set to the "
    "value. As read: the value was read off it. What is not done, or is to be checked again now, is done "
    "before the vehicle moves. What was struck out, or tightened before a part came off again, stays listed "
    "and does not count. The maker's papers come first."
)


_GONE = (
    "Joints that were renamed, or taken off the list of their part: what was stated of them does not count."
)


@dataclass(frozen=True, slots=True)
class _List:
    """A list at the head of the record: what a person has to know or do.

    Args:
        title: What is listed.
        columns: Over its cells.
        rows: Part and joint first, then what the list is about.
        to_do: Whether somebody has to do something of each.

    """

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    to_do: bool = False


def as_text(shop: Shop, build: Build | None, joints: tuple[JointAt, ...]) -> str:
    """Return the record as text, 80 cells wide; of all vehicles one after the other."""
    told: list[Iterable[str]] = [_text(shop, *each) for each in _by_vehicle(shop, build, joints)]
    if build is None and (words := finished_words(shop)):
        told.append(wrapped(words, WIDTH, ""))
    return "\n".join("\n".join(lines) + "\n" for lines in told)


def as_markdown(shop: Shop, build: Build | None, joints: tuple[JointAt, ...]) -> str:
    """Return the record as Markdown with tables; what came from outside is escaped."""
    told: list[Iterable[str]] = [_markdown(shop, *each) for each in _by_vehicle(shop, build, joints)]
    if build is None and (words := finished_words(shop)):
        told.append((escaped(words),))
    return "\n".join("\n".join(lines) + "\n" for lines in told)


def _by_vehicle(
    shop: Shop, build: Build | None, joints: tuple[JointAt, ...]
) -> Iterator[tuple[Build | None, tuple[JointAt, ...]]]:
    if build is not None or not joints:
        yield build, joints
        return
    for number, own in groupby(joints, key=lambda each: each.part.build):
        yield None if number is None else shop.builds.get(number), tuple(own)


def _text(shop: Shop, build: Build | None, found: tuple[JointAt, ...]) -> Iterator[str]:
    joints = tuple(each for each in found if each.pieces)
    yield from wrapped(_title(shop, build), WIDTH, "  ")
    yield from wrapped(_vehicle(build, found), WIDTH, "  ")
    yield from wrapped(_left(found), WIDTH, "  ")
    yield from ("", *wrapped(_summary(joints), WIDTH, ""))
    for listed in _lists(shop, joints):
        yield from ("", listed.title.upper())
        for part, joint, words in listed.rows:
            mark = "[ ]" if listed.to_do else "-"
            yield from wrapped(f"{mark} {part}, {joint}: {words}", WIDTH, "    ")
    for section, own in groupby(joints, key=_section):
        yield from ("", section.upper())
        for part, some in groupby(own, key=lambda each: name_and_code(each.part)):
            yield from ("", *wrapped(part, WIDTH, "  "))
            for each in some:
                yield from wrapped(f"  {name_at(each)}: {standing_words(shop, each)}", WIDTH, "    ")
                for label, words in zip(_ASKED, asked_for(shop, each), strict=True):
                    yield from wrapped(f"    {label}: {words}" if words else "", WIDTH, "      ")
                for line in lines_of(shop, each):
                    yield from wrapped(f"    - {line}", WIDTH, "      ")
    if gone := _no_longer(shop, found):
        yield from _gone_text(shop, gone)
    if tools := wrenches(shop, found):
        yield from _wrenches_text(tools)
    yield from ("", *wrapped(_FOOT, WIDTH, ""))


def _wrenches_text(tools: Iterable[tuple[str, ...]]) -> Iterator[str]:
    yield from ("", "THE WRENCHES, AS THEY ARE TODAY")
    for code, named, *facts, why_not in tools:
        told = [f"{label} {words}" for label, words in zip(_WRENCH[2:-1], facts, strict=True) if words]
        told += [f"{_WRENCH[-1]}, {why_not}"] if why_not else []
        yield from wrapped(f"- {', '.join(filter(None, (code, named)))}: {'; '.join(told)}", WIDTH, "  ")


def _gone_text(shop: Shop, gone: Iterable[JointAt]) -> Iterator[str]:
    yield from ("", NO_LONGER.upper(), *wrapped(_GONE, WIDTH, ""))
    for each in gone:
        yield from ("", *wrapped(f"{name_and_code(each.part)}, {name_at(each)}", WIDTH, "  "))
        for line in lines_of(shop, each):
            yield from wrapped(f"    - {line}", WIDTH, "      ")


_ASKED = ("fasteners", "value", "sheet", "check again")
_WRENCH = ("wrench", "name", "scale", "last check", "next check", "not to be used")
_READINGS = ("joint", "day", "odometer", "what", "with", "by", "note")


def _markdown(shop: Shop, build: Build | None, found: tuple[JointAt, ...]) -> Iterator[str]:
    joints = tuple(each for each in found if each.pieces)
    yield f"# {escaped(_title(shop, build))}"
    for words in filter(None, (_vehicle(build, found), _left(found))):
        yield from ("", escaped(words))
    yield from ("", escaped(_summary(joints)))
    for listed in _lists(shop, joints):
        yield from ("", f"## {escaped(listed.title)}", "", *_table(listed.columns, listed.rows))
    for section, own in groupby(joints, key=_section):
        yield from ("", f"## {escaped(section)}")
        for part, group in groupby(own, key=lambda each: name_and_code(each.part)):
            some = tuple(group)
            yield from ("", f"### {escaped(part)}", "")
            asked = ((name_at(each), standing_words(shop, each), *asked_for(shop, each)) for each in some)
            yield from _table(("joint", "stands", *_ASKED), asked)
            if done := tuple(_cells(shop, some)):
                yield from ("", *_table(_READINGS, done))
    if gone := _no_longer(shop, found):
        yield from ("", f"## {NO_LONGER.capitalize()}", "", _GONE)
        for part, group in groupby(gone, key=lambda each: name_and_code(each.part)):
            yield from ("", f"### {escaped(part)}", "", *_table(_READINGS, _cells(shop, group)))
    if tools := wrenches(shop, found):
        yield from ("", "## The wrenches, as they are today", "", *_table(_WRENCH, tools))
    yield from ("", escaped(_FOOT))


def _cells(shop: Shop, joints: Iterable[JointAt]) -> Iterator[tuple[str, ...]]:
    """Yield what was stated of some joints, under `_READINGS`."""
    for each in joints:
        for line in lines_of(shop, each):
            what = _marked(line.mark, line.what)
            yield name_at(each), line.day, line.odometer, what, line.wrench, line.who, line.note


def _marked(mark: str, words: str) -> str:
    return f"{mark}: {words}" if mark else words


def _table(columns: Iterable[str], rows: Iterable[Iterable[str]]) -> Iterator[str]:
    """Yield a table of Markdown: each cell on one line, with no pipe of its own."""
    columns = tuple(columns)
    yield "| " + " | ".join(columns) + " |"
    yield "|" + "---|" * len(columns)
    for row in rows:
        yield "| " + " | ".join(escaped(cell) for cell in row) + " |"


def _title(shop: Shop, build: Build | None) -> str:
    which = "all vehicles" if build is None else f"{inert(build.title, 200)} ({inert(build.code)})"
    return f"Torque record: {which}, {today(shop).isoformat()}"


def _no_longer(shop: Shop, found: Iterable[JointAt]) -> list[JointAt]:
    return [each for each in found if not each.pieces and any(lines_of(shop, each))]


def _left(found: Iterable[JointAt]) -> str:
    """Say that a vehicle was handed over, and when."""
    days = sorted({day for each in found if (day := left_day(each))})
    return f"Handed over {', '.join(days)}: its joints stand here as they stood then." if days else ""


def _vehicle(build: Build | None, found: Iterable[JointAt]) -> str:
    """Return which vehicle it is; one that was handed over with the odometer that it left with."""
    if build is None:
        return ""
    build = next((each.build for each in found if each.build and each.handed_over), build)
    told = [inert(build.vehicle, 200), f"VIN {inert(build.vin)}" if build.vin else ""]
    if build.odometer is not None:
        told.append(f"odometer {build.odometer} {build.odometer_unit}")
    return ", ".join(filter(None, told))


def _section(each: JointAt) -> str:
    return inert(each.part.section, 200) or "Without a section"


def _summary(joints: tuple[JointAt, ...]) -> str:
    if not joints:
        return "No joint of what is on is written down."
    made = [each for each in joints if not each.is_open]
    due = sum(each.standing.is_due for each in made)
    generic = sum(is_generic(each.joint) for each in made)
    outside = sum(len(each.outside) for each in joints if each.left)
    told = f"{len(made) - due} done, {len(joints) - len(made)} not done, {due} to be checked again now."
    if generic:
        told += f" {generic} of those done {'is' if generic == 1 else 'are'} {HANDBOOK_ONLY}."
    if outside:
        told += f" {outside} reading{'s' * (outside != 1)} OUTSIDE THE SHEET."
    counted = "1 joint or check" if len(joints) == 1 else f"{len(joints)} joints and checks"
    return f"{counted}: {told}"


def _lists(shop: Shop, joints: tuple[JointAt, ...]) -> Iterator[_List]:
    """Yield what stands first: not done, due now or later, accepted outside its sheet, done to no sheet."""
    due = [each for each in joints if each.standing.is_due]
    later = [each for each in joints if not each.standing.is_due and again_words(shop, each)]
    plain = [each for each in joints if not each.is_open and is_generic(each.joint)]
    for title, last, rows, to_do in (
        ("Not done", "why", [(each, each.standing.why) for each in joints if each.is_open], True),
        ("To be checked again now", "since", [(each, again_words(shop, each)) for each in due], True),
        ("To be checked again later", "when", [(each, again_words(shop, each)) for each in later], False),
        ("Accepted although outside the sheet", "why and by whom", list(accepted(shop, joints)), False),
        (
            HANDBOOK_ONLY.capitalize(),
            "value",
            [(each, value_words(shop, each.joint)) for each in plain],
            False,
        ),
    ):
        if rows:
            named = ((name_and_code(each.part), name_at(each), words) for each, words in rows)
            yield _List(title, ("part", "joint", last), tuple(named if to_do else together(rows)), to_do)
