"""Take in what a shop is: settings, builds, people, suppliers, bins and learned codes, from a TOML file."""

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

from shoptui.domain.amounts import currency, money
from shoptui.domain.cells import listed, whole, yes
from shoptui.domain.codes import normal
from shoptui.domain.inert import inert
from shoptui.domain.names import code_key
from shoptui.domain.records import Bin, Build, LearnedCode, Person, Supplier
from shoptui.domain.tables import Reading
from shoptui.domain.tags import Kind
from shoptui.jobs.answers import Answer, done
from shoptui.jobs.import_cells import count, odometer, odometer_unit, vehicle_number, working_days
from shoptui.jobs.import_hardware import put_hardware
from shoptui.jobs.import_names import part_found, part_names
from shoptui.jobs.import_shoots import ShootFile, put_shoot
from shoptui.jobs.import_torque import put_joint, put_wrench
from shoptui.jobs.place_words import today
from shoptui.jobs.shop_file import ShopFile, needed
from shoptui.jobs.taken import Bearer, CodesTaken, NamesTaken
from shoptui.jobs.toml_rows import header_lines, tables, toml_row
from shoptui.store.files_in import read_toml
from shoptui.store.shop import Shop

SETTINGS = ("name", "currency", "working_days", "holidays")
BUILDS = ("code", "tag", "title", "vehicle", "vin", "odometer", "odometer_unit", "labour_rate", "status")
PEOPLE = ("code", "tag", "name", "second_check")
SUPPLIERS = ("code", "name", "lead_days")
BINS = ("code", "tag", "words", "kind", "room")
CODES = ("code", "part", "bin", "build", "person", "qty")

BIN_KINDS = ("rack bin", "drawer", "bag", "bench")


def import_shop(shop: Shop, path: Path, *, terminal: str, base: date | None = None) -> Answer:
    """Take in all that a file says of the shop, or nothing.

    Filming days name parts, so they come in a file of their own once the parts are there. One whose code is
    there already is changed; of everything else that is there already the file is refused.

    Args:
        shop: The shop.
        path: A TOML file.
        terminal: Where this is done.
        base: The day from which `+6` and `-3` are counted; None is today.

    Raises:
        ImportRefusedError: Names everything that is wrong.

    """
    document, text = read_toml(path)
    reading = Reading(path.name)
    for key in document:
        if key != "shop" and key not in _READERS and key != "shoots":
            known = ", ".join(("shop", *_READERS, "shoots"))
            reading.trouble(0, inert(key, 40), f"This is not known; known are {known}.")
    with shop.transaction(f"imported the shop from {inert(path.name)}", terminal=terminal) as tx:
        names = NamesTaken(shop)
        coming = ShopFile(
            shop, tx, reading, names, CodesTaken(shop, names), part_names(shop), base or today(shop), text
        )
        if "shop" in document:
            _settings(coming, document["shop"])
        for name, read in _READERS.items():
            for line, values in tables(reading, document, name, text):
                read(coming, line, values)
                coming.counts[name] = coming.counts.get(name, 0) + 1
        shots = iter(header_lines(text, "shoots.shots"))
        filming = ShootFile(shop, tx, reading, coming.parts, shots, coming.day)
        for line, values in tables(reading, document, "shoots", text):
            put_shoot(filming, line, values)
            coming.counts["shoots"] = coming.counts.get("shoots", 0) + 1
        if "shop" not in document and not coming.counts:
            reading.trouble(0, "", f"Tables such as {_KNOWN} were expected; there are none.")
        reading.finish()
    found = [
        f"{count} {_MANY.get(name, name) if count > 1 else _ONE[name]}"
        for name, count in coming.counts.items()
    ]
    if "shop" in document:
        found.insert(0, "Settings")
    words = f"{', '.join(found)} imported from {inert(path.name)}."
    return done(f"{words}{_to_look_at(coming.doubts)}", qty=sum(coming.counts.values()))


def _to_look_at(doubts: list[str]) -> str:
    """Return what was taken as it is and is to be looked at: the first, how many more, and where all are."""
    if not doubts:
        return ""
    more = f" And {len(doubts) - 1} more." if len(doubts) > 1 else ""
    return f" Taken as it is, and to be looked at: {doubts[0]}{more} All are in shoptui check."


_KNOWN = "[shop], [[builds]] or [[bins]]"

_ONE = {
    "builds": "build",
    "people": "person",
    "suppliers": "supplier",
    "bins": "bin",
    "hardware": "kind of hardware",
    "wrenches": "wrench",
    "joints": "joint",
    "codes": "code",
    "shoots": "filming day",
}


_MANY = {"hardware": "kinds of hardware"}


def _settings(coming: ShopFile, values: object) -> None:
    reading = coming.reading
    row = toml_row(reading, 0, values, SETTINGS)
    usual = coming.shop.settings
    found: dict[str, Any] = {
        "name": reading.text(row, "name") or usual.name,
        "currency": reading.take(row, "currency", currency, usual.currency),
        "working_days": reading.take(row, "working_days", working_days, usual.working_days),
        "holidays": reading.take(
            row, "holidays", lambda cell: tuple(coming.day(each) for each in listed(cell)), usual.holidays
        ),
    }
    coming.tx.change_settings(**found)


def _build(coming: ShopFile, line: int, values: object) -> None:
    reading = coming.reading
    row = toml_row(reading, line, values, BUILDS)
    usual = coming.shop.settings.currency
    status = reading.text(row, "status") or "open"
    if status not in {"open", "finished"}:
        reading.trouble(line, "status", f"open or finished was expected; {inert(status)} came.")
    rate, unit = reading.take(row, "labour_rate", lambda cell: money(cell, usual), (None, usual))
    if unit != usual:
        reading.trouble(line, "labour_rate", f"The shop's currency, {usual}, was expected; {unit} came.")
    coming.tx.add(
        Build(
            id=0,
            code=coming.taken.code(reading, row, "code"),
            tag=coming.taken.tag(reading, row, "tag", (Kind.VEHICLE,)),
            title=needed(reading, row, "title"),
            vehicle=reading.text(row, "vehicle"),
            vin=reading.take(row, "vin", vehicle_number, ""),
            odometer=reading.take(row, "odometer", odometer, None),
            odometer_unit=reading.take(row, "odometer_unit", odometer_unit, "km"),
            labour_rate_minor=rate,
            status=status,
        )
    )


def _person(coming: ShopFile, line: int, values: object) -> None:
    reading = coming.reading
    row = toml_row(reading, line, values, PEOPLE)
    coming.tx.add(
        Person(
            id=0,
            code=coming.taken.code(reading, row, "code"),
            tag=coming.taken.tag(reading, row, "tag", (Kind.PERSON,)),
            name=needed(reading, row, "name"),
            second_check=reading.take(row, "second_check", yes, default=False),
        )
    )


def _supplier(coming: ShopFile, line: int, values: object) -> None:
    reading = coming.reading
    row = toml_row(reading, line, values, SUPPLIERS)
    code, name = needed(reading, row, "code"), needed(reading, row, "name")
    for there in coming.shop.suppliers.all():
        if code_key(code) == code_key(there.code) or name.casefold() == there.name.casefold():
            reading.trouble(line, "", f"The supplier {inert(name)} is already there, as {inert(there.code)}.")
            return
    coming.tx.add(Supplier(0, code, name, reading.take(row, "lead_days", whole, None)))


def _bin(coming: ShopFile, line: int, values: object) -> None:
    reading = coming.reading
    row = toml_row(reading, line, values, BINS)
    kind = reading.text(row, "kind") or BIN_KINDS[0]
    if kind not in BIN_KINDS:
        reading.trouble(line, "kind", f"One of {', '.join(BIN_KINDS)} was expected; {inert(kind)} came.")
    tag_kind = Kind.BAG if kind == "bag" else Kind.BIN
    coming.tx.add(
        Bin(
            id=0,
            code=coming.taken.code(reading, row, "code"),
            tag=coming.taken.tag(reading, row, "tag", (tag_kind,)) or coming.shop.new_tag(tag_kind),
            words=reading.text(row, "words"),
            kind=kind,
            room=reading.text(row, "room"),
        )
    )


def _code(coming: ShopFile, line: int, values: object) -> None:
    """Add a learned code; what it stands for is named by code or tag, a part by any of its names."""
    reading, shop = coming.reading, coming.shop
    row = toml_row(reading, line, values, CODES)
    code = needed(reading, row, "code")
    shelves: dict[str, Any] = {
        "part": shop.parts,
        "bin": shop.bins,
        "build": shop.builds,
        "person": shop.people,
    }
    named = [name for name in shelves if name in row.cells]
    if len(named) != 1:
        reading.trouble(line, "", f"What the code stands for: one of {', '.join(shelves)} was expected.")
        return
    shelf = shelves[named[0]]
    name = row.cells[named[0]]
    if shelf is shop.parts:
        record = part_found(reading, line, "part", coming.parts, name)
    elif (record := shelf.by_code(name)) is None:
        reading.trouble(line, named[0], f"There is no {named[0]} {inert(name, 40)}.")
    if record is None:
        return
    qty = reading.take(row, "qty", count, 1)
    bearer = Bearer(shelf.table, record.id, getattr(record, "build", None))
    if code and coming.codes.claim(reading, line, "code", code, bearer):
        coming.tx.add(LearnedCode(0, code, normal(code), shelf.table, record.id, qty))


_READERS: dict[str, Callable[[ShopFile, int, object], None]] = {
    "builds": _build,
    "people": _person,
    "suppliers": _supplier,
    "bins": _bin,
    "wrenches": put_wrench,
    "joints": put_joint,
    "hardware": put_hardware,
    "codes": _code,
}
