"""Hardware from files: its kinds from a shop's file, and what fastens a part from a list of parts."""

from collections.abc import Iterable, Iterator

from shoptui.domain import verbs
from shoptui.domain.amounts import price
from shoptui.domain.cells import CellError, listed, whole, yes
from shoptui.domain.fasteners.hardware import hardware_designation
from shoptui.domain.inert import inert
from shoptui.domain.names import Names
from shoptui.domain.part_cells import in_kit
from shoptui.domain.places import UNSORTED
from shoptui.domain.prices import NOT_KNOWN
from shoptui.domain.records import HARDWARE, HardwareLine, Part
from shoptui.domain.tables import Reading, Row
from shoptui.domain.tags import Kind
from shoptui.jobs.at import shown
from shoptui.jobs.hardware import all_kinds
from shoptui.jobs.import_cells import count
from shoptui.jobs.import_names import LISTED, add_part_names
from shoptui.jobs.shop_file import ShopFile
from shoptui.jobs.toml_rows import toml_row
from shoptui.store.shop import Shop

KEYS = (
    *("code", "tag", "designation", "description", "finish", "one_use", "minimum", "pack"),
    *("maker", "number", "price", "notes", "on_hand", "bin"),
)


def put_hardware(coming: ShopFile, line: int, values: object) -> None:
    """Add one kind of hardware, with what lies in the shop of it."""
    shop, tx, reading, taken = coming.shop, coming.tx, coming.reading, coming.taken
    row = toml_row(reading, line, values, KEYS)
    if not row.cells.get("designation"):
        reading.trouble(line, "designation", "This is needed; it is not there.")
    pack = reading.take(row, "pack", count, 1)
    part = tx.add(
        Part(
            id=0,
            code=taken.code(reading, row, "code"),
            tag=taken.tag(reading, row, "tag", (Kind.HARDWARE,)),
            build=None,
            kind=HARDWARE,
            designation=reading.take(row, "designation", hardware_designation, ""),
            description=reading.text(row, "description"),
            finish=reading.text(row, "finish", limit=60),
            one_use=reading.take(row, "one_use", yes, default=False),
            minimum=reading.take(row, "minimum", whole, 0),
            sold_as="pack" if pack > 1 else "each",
            pieces=pack,
            maker=reading.text(row, "maker"),
            number=reading.text(row, "number", limit=60),
            price=reading.take(row, "price", lambda cell: price(cell, shop.settings.currency), NOT_KNOWN),
            notes=reading.text(row, "notes"),
        )
    )
    here, code = reading.take(row, "on_hand", whole, 0), reading.text(row, "bin", limit=40)
    found = shop.bins.by_code(code) if code else None
    if code and found is None:
        reading.trouble(line, "bin", f"There is no bin {inert(code)}.")
    if here:
        tx.enter(verbs.stock(part.id, here, to=found.id if found else UNSORTED))


def _kinds(shop: Shop) -> Names[Part]:
    """Return the names of all kinds of hardware."""
    names: Names[Part] = Names()
    for part in all_kinds(shop):
        add_part_names(names, part)
        names.add(part, part.designation, part.words)
    return names


def fastened_by(cell: str) -> tuple[tuple[str, int], ...]:
    """Return the names of what fastens one piece of a part, and how many of each.

    Raises:
        CellError: No count behind the star.

    >>> fastened_by("HW-01*5; HW-02")
    (('HW-01', 5), ('HW-02', 1))

    """
    try:
        return tuple((name, qty or 1) for name, qty in map(in_kit, listed(cell)))
    except CellError as error:
        words = f'Hardware such as "HW-01*5; HW-02*5" was expected; {inert(cell, 40)} came.'
        raise CellError(words) from error


def fastenings(shop: Shop, reading: Reading, rows: Iterable[Row]) -> dict[int, tuple[HardwareLine, ...]]:
    """Return what fastens the parts of a list, by their lines."""
    named = [row for row in rows if "hardware" in row.cells]
    kinds = _kinds(shop) if named else Names[Part]()
    return {row.line: tuple(_lines(reading, row, kinds)) for row in named}


def _lines(reading: Reading, row: Row, kinds: Names[Part]) -> Iterator[HardwareLine]:
    for name, qty in reading.take(row, "hardware", fastened_by, ()):
        found = kinds.find(name)
        if len(found) == 1:
            yield HardwareLine(found[0].id, qty)
            continue
        codes = ", ".join(shown(part.code) for part in found[:LISTED])
        reading.trouble(
            row.line,
            "hardware",
            f"{inert(name, 40)} stands for {len(found)} kinds of hardware ({codes}); give the code of one."
            if found
            else f"There is no hardware {inert(name, 40)}; it comes with import shop.",
        )
