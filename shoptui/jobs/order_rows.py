"""One row of a list of orders, read: what it names is found in the shop."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial

from shoptui.domain.amounts import money, unit_in
from shoptui.domain.cells import CellError, Pieces, day, pieces
from shoptui.domain.headers import Column
from shoptui.domain.inert import inert
from shoptui.domain.names import Names, code_key
from shoptui.domain.part_cells import tracking as tracking_numbers
from shoptui.domain.records import Part, Supplier
from shoptui.domain.tables import Reading, Row
from shoptui.domain.tags import Kind
from shoptui.jobs.import_names import add_part_names, part_found
from shoptui.jobs.taken import NamesTaken
from shoptui.store.shop import Shop

COLUMNS = (
    Column("order", ("order number", "order no", "po", "po number", "number"), needed=True),
    Column("supplier", ("from", "vendor", "shop"), needed=True),
    Column(
        "part",
        ("part number", "part no", "item number", "item no", "item", "part name", "description"),
        needed=True,
        surer=("code", "part code", "item code"),
    ),
    Column("build"),
    Column("qty", ("quantity", "pieces", "pcs", "count", "amount", "qty ordered", "order qty"), needed=True),
    Column("total", ("line total", "total price", "total cost", "line price", "paid")),
    Column("price", ("unit price", "price each", "each", "cost", "unit cost")),
    Column("placed", ("ordered", "order date", "date")),
    Column("due", ("expected", "due date", "delivery date")),
    Column("kind", ("type",)),
    Column("work", ("outside work",)),
    Column("tracking", ("tracking number", "tracking numbers", "parcel", "shipment")),
    Column("box", ("box tag",)),
    Column("box due", ("parcel due",)),
    Column("in box", ("qty in box", "packed", "shipped")),
)

AMOUNTS = {"qty", "total", "price", "in box"}
"""Columns that a row with sums fills."""

KINDS = ("purchase", "outside")


@dataclass(frozen=True, slots=True)
class OrderRow:
    """One row, read; `alone`: its quantity is a number alone, which does not say of what."""

    line: int
    number: str
    supplier: Supplier
    part: Part
    qty: int
    total: int | None
    currency: str
    placed: date | None
    due: date | None
    kind: str
    work: str
    tracking: tuple[str, ...]
    box: str
    box_due: date | None
    in_box: int
    alone: bool

    @property
    def order_key(self) -> tuple[int, str]:
        """Rows with the same supplier and number are one order."""
        return self.supplier.id, code_key(self.number)


class OrderRows:
    """Reads rows, finding what they name in the shop."""

    def __init__(self, shop: Shop, reading: Reading, base: date, headers: Mapping[str, str]) -> None:
        self._shop = shop
        self._reading = reading
        self._base = base
        self._taken = NamesTaken(shop)
        self._units = {name: self._unit(headers.get(name, "")) for name in ("total", "price")}
        self._tags: dict[str, str] = {}
        self._suppliers: Names[Supplier] = Names()
        for supplier in shop.suppliers.all():
            self._suppliers.add(supplier, supplier.code, supplier.name)
        self._parts: dict[int | None, Names[Part]] = {None: Names()}
        for part in shop.parts.all():
            for build in {None, part.build}:
                names = self._parts.setdefault(build, Names())
                add_part_names(names, part)

    def line(self, row: Row) -> OrderRow | None:
        """Return a row read, None if what it names is not there."""
        reading = self._reading
        kind = (reading.text(row, "kind") or KINDS[0]).lower()
        if kind not in KINDS:
            reading.trouble(row.line, "kind", f"purchase or outside was expected; {inert(kind)} came.")
        work = reading.text(row, "work", limit=60)
        if kind == "outside" and not work:
            reading.trouble(row.line, "work", 'What an outside job does, such as "painted", is needed.')
        number = reading.text(row, "order", limit=60)
        self._need(row, "order", number)
        supplier, part = self._supplier(row), self._part(row)
        qty = reading.take(row, "qty", pieces, Pieces(0))
        self._need(row, "qty", row.cells.get("qty", ""))
        total, currency = self._total(row, qty)
        in_box = reading.take(row, "in box", pieces, Pieces(0))
        days = {name: reading.take(row, name, self._day, None) for name in ("placed", "due", "box due")}
        tracking = reading.take(row, "tracking", tracking_numbers, ())
        box = self._box_tag(row)
        if supplier is None or part is None:
            return None
        return OrderRow(
            row.line, number, supplier, part, qty.total, total, currency, days["placed"], days["due"],
            kind, work, tracking, box, days["box due"], in_box.total,
            not any(character.isalpha() for character in row.cells.get("qty", "")),
        )  # fmt: skip

    def _unit(self, header: str) -> str:
        """Return the currency that a header names, else the shop's."""
        try:
            return unit_in(header, self._shop.settings.currency)
        except CellError as error:
            self._reading.trouble(0, "", str(error))
            return self._shop.settings.currency

    def _total(self, row: Row, qty: Pieces) -> tuple[int | None, str]:
        """Return what the whole row cost: as it says, else by the price of one as sold."""
        amounts = {
            name: self._reading.take(row, name, partial(money, usual=unit), (None, unit))
            for name, unit in self._units.items()
        }
        total, currency = amounts["total"]
        price, unit = amounts["price"]
        if total is not None or price is None:
            return total, currency
        return price * (qty.total // qty.each), unit

    def _day(self, cell: str) -> date | None:
        return day(cell, self._base)

    def _need(self, row: Row, column: str, said: str) -> None:
        if not said and not row.cells.get(column):
            self._reading.trouble(row.line, column, "This cell is needed; it is empty.")

    def _box_tag(self, row: Row) -> str:
        """Return the tag of a row's box; several rows may name the same."""
        key = code_key(row.cells.get("box", ""))
        if key not in self._tags:
            self._tags[key] = self._taken.tag(self._reading, row, "box", (Kind.BOX,))
        return self._tags[key]

    def _supplier(self, row: Row) -> Supplier | None:
        name = self._reading.text(row, "supplier")
        self._need(row, "supplier", name)
        found = self._suppliers.find(name) if name else ()
        if name and len(found) != 1:
            self._reading.trouble(
                row.line,
                "supplier",
                f"{len(found)} suppliers are called {inert(name)}; give a code."
                if found
                else f"There is no supplier {inert(name)}; import the shop's suppliers first.",
            )
        return found[0] if len(found) == 1 else None

    def _part(self, row: Row) -> Part | None:
        name, build_code = self._reading.text(row, "part"), self._reading.text(row, "build")
        self._need(row, "part", name)
        build = self._shop.builds.by_code(build_code) if build_code else None
        if build_code and build is None:
            self._reading.trouble(row.line, "build", f"There is no build {inert(build_code)}.")
            return None
        names: Names[Part] = self._parts.get(build.id if build else None) or Names()
        return part_found(self._reading, row.line, "part", names, name) if name else None
