"""Fields that name another record, or the record itself: its code, parts, a supplier."""

import re
from dataclasses import replace
from typing import Any

from shoptui.domain import cells
from shoptui.domain.cells import CellError
from shoptui.domain.inert import inert
from shoptui.domain.records import Part
from shoptui.jobs.asked import Asked, Sense
from shoptui.jobs.at import name_and_code, shown
from shoptui.jobs.import_names import LISTED, part_names
from shoptui.jobs.order import known_supplier
from shoptui.jobs.put_away import bin_name
from shoptui.store.command_tags import command_named
from shoptui.store.shelves import short

LONGEST_CODE = 40


def code(hint: str = "the shop's own short name; empty: its tag") -> Asked:
    """Ask for the shop's own name of a record; it stands for one thing in the whole shop."""

    def read(sense: Sense, typed: str) -> str:
        own = sense.record
        return _own_name(sense, typed) or getattr(own, "tag", "") or getattr(own, "code", "")

    return Asked("code", "Code", hint, read, lambda _, value: shown(value))


def old_names() -> Asked:
    """Ask for the names that a bin had before, which stickers still say."""

    def read(sense: Sense, typed: str) -> tuple[str, ...]:
        return tuple(dict.fromkeys(_own_name(sense, each) for each in cells.listed(typed)))

    hint = "its names before, that still mean it; ; between"
    return Asked("old_names", "Older stickers", hint, read, lambda _, value: "; ".join(map(shown, value)))


def _own_name(sense: Sense, typed: str) -> str:
    """Return a name that means the record and nothing else in the whole shop; an empty one means nothing.

    Raises:
        CellError: It is no name, or stands for something else.

    """
    found, own = cells.words(typed, limit=LONGEST_CODE), sense.record
    names = (own.code, getattr(own, "tag", ""), *getattr(own, "old_names", ())) if own is not None else ()
    if not found or short(found) in map(short, names):
        return found
    if found.lstrip("+-").isdigit():
        raise CellError(f"{inert(found)} is only digits, which pick a row; add a letter.")
    if command_named(found):
        raise CellError(f"{inert(found)} is a command or a position; choose another name.")
    there = sense.shop.bins.by_code(found)
    if there is not None and short(found) in map(short, there.old_names):
        raise CellError(
            f"{shown(found)} stands on an older sticker of {bin_name(there)}; choose another name, "
            "or take it out of that one's older stickers first."
        )
    if sense.shop.codes.knows(found) or sense.shop.suppliers.by_code(found) is not None:
        raise CellError(f"{shown(found)} stands for something else already; choose another name.")
    return found


def part_called(sense: Sense, typed: str) -> Part:
    """Return the part that is meant by a code, a tag, a maker's number, a description, or `Rotor (BR-02)`.

    Raises:
        CellError: No part, or several.

    """
    shop, said = sense.shop, cells.words(typed)
    bracket = re.search(r"\(([^()]+)\)$", said)
    for wanted in (said, bracket[1] if bracket else ""):
        if wanted and (found := shop.parts.by_code(wanted)) is not None:
            return found
    several = part_names(shop).find(said)
    if len(several) > 1:
        several = tuple(part for part in several if part.build == sense.build) or several
    if len(several) == 1:
        return several[0]
    if several:
        codes = ", ".join(shown(part.code) for part in several[:LISTED])
        raise CellError(f"{inert(said, 40)} stands for {len(several)} parts ({codes}); give the code of one.")
    raise CellError(
        f"A part's code, number or description was expected; {inert(said, 40) or 'nothing'} came, "
        "and no part is called that."
    )


def part(name: str, label: str, hint: str = "a few letters, or its code", *, needed: bool = True) -> Asked:
    """Ask for one part."""

    def read(sense: Sense, typed: str) -> int | None:
        return part_called(sense, typed).id if typed.strip() or needed else None

    def write(sense: Sense, value: int | None) -> str:
        return "" if value is None else name_and_code(sense.shop.parts.get(value))

    return Asked(name, label, hint, read, write, names="parts", one_value=True)


def hardware(name: str, label: str) -> Asked:
    """Ask for one kind of hardware."""

    def read(sense: Sense, typed: str) -> int:
        found = part_called(replace(sense, build=None), typed)
        if not found.is_hardware:
            raise CellError(f"A kind of hardware was expected; {name_and_code(found)} is a part.")
        return found.id

    def write(sense: Sense, value: int) -> str:
        return name_and_code(sense.shop.parts.get(value)) if value else ""

    return Asked(name, label, "a few letters, or its code", read, write, names="hardware")


def parts(name: str, label: str, hint: str = "parts, with ; between; may be empty") -> Asked:
    """Ask for any number of parts."""

    def read(sense: Sense, typed: str) -> tuple[int, ...]:
        return tuple(dict.fromkeys(part_called(sense, each).id for each in cells.listed(typed)))

    def write(sense: Sense, value: tuple[int, ...]) -> str:
        return "; ".join(name_and_code(sense.shop.parts.get(number)) for number in value)

    return Asked(name, label, hint, read, write, names="parts")


def supplier(name: str, label: str) -> Asked:
    """Ask for a supplier that is there."""

    def read(sense: Sense, typed: str) -> int:
        found = known_supplier(sense.shop, cells.words(typed))
        if found is None:
            raise CellError(
                f"A supplier's name or code was expected; {inert(typed, 40) or 'nothing'} came. "
                "New suppliers are made in Set-up."
            )
        return found.id

    def write(sense: Sense, value: Any) -> str:  # noqa: ANN401 - a record's field
        if not value:
            return ""
        found = sense.shop.suppliers.get(value)
        return found.name or found.code

    return Asked(name, label, "a few letters of the name", read, write, names="suppliers", one_value=True)
