"""Checks of the records: each yields the problems that it finds."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from shoptui.domain import vin
from shoptui.domain.inert import inert
from shoptui.domain.problems import Problem, cycles
from shoptui.domain.references import record_references
from shoptui.jobs.at import shown
from shoptui.jobs.box_list import expected_in
from shoptui.jobs.check_codes import ONE
from shoptui.jobs.place_words import order_name
from shoptui.store.shop import Shop

if TYPE_CHECKING:
    from shoptui.domain.records import Part


def references(shop: Shop) -> Iterator[Problem]:
    """Find records that point at records which are not there or were withdrawn."""
    shelves = {shelf.table: shelf for shelf in shop.shelves.values()}
    for shelf in shop.shelves.values():
        if shelf.table not in ONE or shelf.table == "terminals":
            continue
        for record in shelf.all():
            for table, number in dict.fromkeys(record_references(record)):
                name = f"{ONE[shelf.table]} {shown(record.code)}"
                if table not in ONE or number not in shop.database.documents(table):
                    what = f"it points at {ONE.get(table, inert(table))} {number}, which is not there"
                    yield Problem(name, what, "Change it to one that is there.")
                elif shelves[table].get(number).withdrawn:
                    gone = f"{ONE[table]} {shown(shelves[table].get(number).code)}"
                    what = f"it points at {gone}, which was undone"
                    yield Problem(name, what, "Change it to one that is there, or make that again.")


def install_after(shop: Shop) -> Iterator[Problem]:
    """Find parts each of which must be on before the other."""
    after = {part.id: part.install_after for part in shop.parts.all() if part.install_after}
    for ring in cycles(after):
        names = " after ".join(shown(shop.parts.get(number).code) for number in (*ring, ring[0]))
        first = shown(shop.parts.get(ring[0]).code)
        yield Problem(
            f"part {first}", f"install {names}: no order of work fits", "Drop one of these conditions."
        )


def doubled_parts(shop: Shop) -> Iterator[Problem]:
    """Find lines of one build that say the same."""
    seen: dict[tuple[object, ...], Part] = {}
    for part in shop.parts.all():
        key = (
            part.build,
            part.original,
            part.description.casefold(),
            part.maker.casefold(),
            part.number.casefold(),
            part.section.casefold(),
            part.positions,
            part.designation,
            part.finish,
        )
        first = seen.setdefault(key, part)
        named = part.code != part.tag and first.code != first.tag  # two names were given on purpose
        if first is not part and not named:
            what = f"the list has it twice, as {shown(first.code)} too: {inert(part.description)}"
            yield Problem(f"part {shown(part.code)}", what, "Undo one of them, or say how they differ.")


def vins(shop: Shop) -> Iterator[Problem]:
    """Find VINs that are not well formed, or whose check digit is wrong."""
    for build in shop.builds.all():
        if build.vin and (what := vin.check(build.vin)):
            remedy = "Read it again from the vehicle; outside North America the check digit need not hold."
            yield Problem(f"build {shown(build.code)}", what.rstrip("."), remedy)


def orders(shop: Shop) -> Iterator[Problem]:
    """Find orders due before they were placed."""
    for order in shop.orders.all():
        if order.placed and order.due and order.due < order.placed:
            what = f"it is due on {order.due.isoformat()}, before it was placed on {order.placed.isoformat()}"
            yield Problem(f"order {order_name(order)}", what, "Correct one of the two days.")


def boxes(shop: Shop) -> Iterator[Problem]:
    """Find boxes open at two terminals at once, two open at one, and boxes closed with nothing received."""
    open_at: dict[str, list[str]] = {}
    for box in shop.boxes.all():
        name = f"box {shown(box.code)}"
        for terminal in box.terminals:
            open_at.setdefault(terminal, []).append(name)
            if box.closed is not None:
                what = f"it is closed and lies open at {inert(terminal)}"
                yield Problem(name, what, "Open it there and close it again.")
        came = any(qty > 0 for qty in shop.box_index.received(box.code).values())
        if box.closed is not None and not came and any(line.short for line in expected_in(shop, box)):
            yield Problem(
                name, "it is closed and nothing was received from it", "Open it again, scan what is in it."
            )
    for terminal, names in open_at.items():
        if len(names) > 1:
            what = f"{len(names)} boxes lie open at it: {', '.join(names)}"
            yield Problem(
                f"terminal {inert(terminal)}", what, "Close all but the one that is being unpacked."
            )


def terminals(shop: Shop) -> Iterator[Problem]:
    """Find terminals that stand in a build, or hold a card, bin or badge, that is not there."""
    for terminal in shop.terminals.all():
        for table, number in record_references(terminal):
            document = shop.database.documents(table).get(number)
            if document is None or document.get("withdrawn"):
                what = f"its {ONE[table]} {number} is not there"
                yield Problem(
                    f"terminal {inert(terminal.code)}", what, "Scan one that is there, at that terminal."
                )
