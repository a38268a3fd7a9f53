"""The boxes that rows of orders name, and what is in each."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from shoptui.domain.inert import inert
from shoptui.domain.names import code_key
from shoptui.domain.records import Box, BoxLine, Order
from shoptui.domain.tables import Reading
from shoptui.jobs.kit import contents as inside
from shoptui.jobs.order_rows import OrderRow
from shoptui.store.shop import Shop


@dataclass(slots=True)
class Parcel:
    """A box that the list speaks of.

    Args:
        code: Its tag, empty if it has none yet.
        tracking: Its tracking numbers.
        lines: The rows that name it.
        spread: Whether the rows' own pieces are what is in it.

    """

    code: str
    tracking: tuple[str, ...]
    lines: list[OrderRow]
    spread: bool = False

    def record(self, shop: Shop, orders: dict[tuple[int, str], Order]) -> Box:
        """Return the box; what rows say is in it counts as its shipping notice."""
        contents: dict[int, int] = {}
        for line in self.lines:
            if qty := line.in_box or (line.qty if self.spread else 0):
                for part, pieces in inside(shop, line.part, qty):
                    contents[part.id] = contents.get(part.id, 0) + pieces
        return Box(
            id=0,
            code=self.code,
            orders=tuple(dict.fromkeys(orders[line.order_key].id for line in self.lines)),
            tracking=self.tracking,
            contents=tuple(BoxLine(part, qty) for part, qty in contents.items()),
            due=next((line.box_due for line in self.lines if line.box_due), None),
        )


def boxes_named(shop: Shop, reading: Reading, lines: Sequence[OrderRow]) -> list[Parcel]:
    """Return the boxes that rows name, each with its rows; what cannot be is a trouble."""
    there = {code_key(number): box for box in shop.boxes.all() for number in box.tracking}
    parcels: dict[str, Parcel] = {}
    for line in lines:
        for number in line.tracking:
            if code_key(number) in there:
                reading.trouble(line.line, "tracking", f"A box with {inert(number)} is already there.")
        if line.box:
            parcel = parcels.setdefault(line.box, Parcel(line.box, (), []))
            parcel.tracking = tuple(dict.fromkeys((*parcel.tracking, *line.tracking)))
            parcel.lines.append(line)
            continue
        if line.in_box and len(line.tracking) != 1:
            reading.trouble(line.line, "in box", "How many are in a box needs the one box that it speaks of.")
        for number in line.tracking:
            parcels.setdefault(code_key(number), Parcel("", (number,), [])).lines.append(line)
    for number in _spread_over(lines):
        parcels[number].spread = True
    return list(parcels.values())


def _spread_over(lines: Sequence[OrderRow]) -> set[str]:
    """Return the tracking numbers, as keys, over which rows spread their pieces by themselves.

    Where each row of an order names one tracking number and not all name the same, that row is in that box.
    Boxes are shared between orders, so all orders that share one, also through others, must say so plainly:
    a slip that lists one order of two would hide the other.
    """
    orders: dict[tuple[int, str], list[OrderRow]] = {}
    for line in lines:
        orders.setdefault(line.order_key, []).append(line)
    found: set[str] = set()
    for numbers, rows in _groups(orders.values()):
        plain = all(
            len(row.tracking) == 1 and row.kind == "purchase" and not row.box and not row.in_box
            for row in rows
        )
        if plain and len(numbers) > 1:
            found |= numbers
    return found


def _groups(orders: Iterable[list[OrderRow]]) -> list[tuple[set[str], list[OrderRow]]]:
    """Return tracking numbers with their rows, orders that share a number in one group."""
    groups: list[tuple[set[str], list[OrderRow]]] = []
    for order in orders:
        numbers = {code_key(number) for row in order for number in row.tracking}
        rows = list(order)
        apart = []
        for group in groups:
            if group[0].isdisjoint(numbers):
                apart.append(group)
            else:
                numbers |= group[0]
                rows = group[1] + rows
        groups = [*apart, (numbers, rows)]
    return groups
