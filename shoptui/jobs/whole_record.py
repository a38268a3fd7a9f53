"""What cannot be about a record as a whole, though each of its fields can."""

import re
from typing import NamedTuple

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.problems import cycles
from shoptui.domain.records import Build, Order, Part, Person, Supplier, Wrench
from shoptui.jobs.asked import Sense
from shoptui.jobs.at import name_and_code, shown
from shoptui.jobs.joint_fields import joints_refused
from shoptui.jobs.kit import refused as kit_refused
from shoptui.jobs.place_words import order_name

PAIR = 2


class Refusal(NamedTuple):
    """Which field a form should go to, and what is wrong."""

    field: str
    words: str


def part_refused(sense: Sense, after: Part) -> Refusal | None:
    """Refuse a line that waits for itself, a kit or joint that cannot be, pieces that are no pair or set."""
    inside = tuple(sense.shop.parts.get(line.part) for line in after.kit)
    told = (
        ("description", _unnamed(after)),
        ("install_after", _ring(sense, after)),
        ("replaces", "A part cannot replace itself." if after.id in after.replaces else ""),
        ("kit", kit_refused(sense.shop, after, inside) if inside else ""),
        ("joints", joints_refused(after)),
        ("pieces", _wrong_pieces(after)),
    )
    return next((Refusal(field, words) for field, words in told if words), None)


def _unnamed(after: Part) -> str:
    """Say that words are missing; the designation of hardware is enough to know it by."""
    if after.words and not re.fullmatch(r"[+-]\d+", after.description, re.ASCII):
        return ""
    came = f"{after.description} came" if after.description else "the field is empty"
    return f"Words were expected; {came}."


def _wrong_pieces(after: Part) -> str:
    wanted = {"each": "1", "pair": "2"}.get(after.sold_as, "2 or more")
    right = {"each": after.pieces == 1, "pair": after.pieces == PAIR, "kit": True}
    if after.is_hardware or right.get(after.sold_as, after.pieces >= PAIR):
        return ""  # how hardware is sold follows from its pieces
    return f"Sold as {after.sold_as}: {wanted} in one was expected, not {after.pieces}."


def _ring(sense: Sense, after: Part) -> str:
    """Name the ring in which parts wait for one another, if a part's conditions close one."""
    if not after.install_after or not after.id:
        return ""
    parts = {part.id: part for part in sense.shop.parts.all()} | {after.id: after}
    for ring in cycles({number: part.install_after for number, part in parts.items()}):
        if after.id in ring:
            first = ring.index(after.id)
            names = [name_and_code(parts[number]) for number in (*ring[first:], *ring[: first + 1])]
            if len(ring) == 1:
                return f"{names[0]} would wait for itself."
            return f"Each would wait for the other: {' after '.join(names)}."
    return ""


def order_refused(sense: Sense, after: Order) -> Refusal | None:
    """Refuse an order of nothing, one that is there already, one due before it was placed."""
    if after.kind == "purchase" and not after.lines and not after.id:
        return Refusal("lines", "At least one line was expected: what is ordered?")
    if after.placed and after.due and after.due < after.placed:
        due, placed = (day_words(day, sense.today) for day in (after.due, after.placed))
        return Refusal("due", f"It was placed on {placed} and cannot be due on {due}, before that.")
    for other in sense.shop.orders.all():
        same = (other.kind, other.supplier, other.number) == (after.kind, after.supplier, after.number)
        if same and after.number and other.id != after.id:
            return Refusal("number", f"This supplier's order {order_name(other)} is there already.")
    for number, charge in enumerate(after.charges, 1):
        if charge.kind == "core deposit" and charge.part is None:
            return Refusal("charges", f"charge {number}: which part's core is the deposit for?")
        if charge.kind != "core deposit" and (charge.part or charge.due):
            return Refusal("charges", f"charge {number}: only a core deposit has a core and a day for it.")
    return None


def supplier_refused(sense: Sense, after: Supplier) -> Refusal | None:
    """Refuse a supplier that is there already."""
    for other in sense.shop.suppliers.all():
        if other.id != after.id and other.name.casefold() == after.name.casefold():
            return Refusal("name", f"{inert(other.name)} is there already, as {inert(other.code)}.")
    return None


def name_there(sense: Sense, after: Person | Wrench | Build) -> str:
    """Say that another has the same name: it may be meant, or the same one made twice."""
    called = _called(after)
    for other in sense.shop.shelves[type(after)].all():
        if other.id != after.id and _called(other).casefold() == called.casefold():
            return f"{inert(called)} is there already, as {shown(other.code)}."
    return ""


def _called(record: Person | Wrench | Build) -> str:
    return record.title if isinstance(record, Build) else record.name
