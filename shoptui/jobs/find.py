"""Where is it? By a code, or by words."""

from collections.abc import Iterator
from dataclasses import dataclass

from shoptui.domain.inert import inert
from shoptui.domain.places import State
from shoptui.domain.recognise import read
from shoptui.domain.records import Bin, Box, Part
from shoptui.domain.verbs import to_order
from shoptui.jobs.at import shown
from shoptui.jobs.place_words import bin_name, order_name, piece_words
from shoptui.store.shop import Shop


@dataclass(frozen=True, slots=True)
class Found:
    """One thing that was found.

    Args:
        kind: part, bin or box.
        record: Its id.
        name: What it is, in words, with its code.
        places: Where its pieces are, or what is in it, one line each.

    """

    kind: str
    record: int
    name: str
    places: tuple[str, ...]


def where(shop: Shop, text: str) -> tuple[Found, ...]:
    """Return what a code stands for; if it stands for nothing, all whose words contain every word given.

    A code is a tag, the shop's own short name, a learned code, a GTIN in any length, a tracking number, an
    order number or a maker's number. Words are looked for in description, section, code and numbers of
    parts, and in the words of bins; case is forgiven.
    """
    return tuple(_by_code(shop, text)) or tuple(_by_words(shop, text))


def _by_code(shop: Shop, text: str) -> Iterator[Found]:
    seen: set[tuple[str, int]] = set()
    for match in shop.codes.find(read(text)):
        for found in _of(shop, match.kind, match.record):
            if (found.kind, found.record) not in seen:
                seen.add((found.kind, found.record))
                yield found


def _of(shop: Shop, kind: str, record: int) -> Iterator[Found]:
    match kind:
        case "part":
            yield part_found(shop, shop.parts.get(record))
        case "bin" | "bag":
            yield bin_found(shop, shop.bins.get(record))
        case "box":
            yield _box_found(shop, shop.boxes.get(record))
        case "order":
            order = shop.orders.get(record)
            for number in dict.fromkeys(line.part for line in order.lines):
                yield part_found(shop, shop.parts.get(number))


def _by_words(shop: Shop, text: str) -> Iterator[Found]:
    words = text.casefold().split()
    if not words:
        return
    for part in shop.parts.all():
        told = " ".join((part.description, part.section, part.code, part.maker, part.number, *part.positions))
        if all(word in told.casefold() for word in words):
            yield part_found(shop, part)
    for bin_ in shop.bins.all():
        told = f"{bin_.kind} {bin_.code} {bin_.words} {bin_.room}".casefold()
        if all(word in told for word in words):
            yield bin_found(shop, bin_)


def part_found(shop: Shop, part: Part) -> Found:
    """Return a part with each place of its pieces, and what is still to be ordered."""
    places = [
        piece_words(shop, place, qty)
        for place, qty in shop.book.places(part.id)
        if place.state is not State.NOT_OURS and qty
    ]
    if more := to_order(shop.book, part.id, needed=part.needed, original=part.original):
        places.append(f"{more} to order")
    name = f"{inert(part.description, 120)} ({shown(part.code)})"
    return Found("part", part.id, name, tuple(places) or ("nowhere: not ordered, not here",))


def bin_found(shop: Shop, bin_: Bin) -> Found:
    """Return a bin with what is in it."""
    inside = []
    for state in (State.RECEIVED, State.HELD, State.REMOVED):
        for number, qty in sorted(shop.book.parts_at(state, bin_.id).items()):
            part = shop.parts.get(number)
            inside.append(f"{qty} {inert(part.description, 120)} ({shown(part.code)}), {state.value}")
    return Found("bin", bin_.id, bin_name(bin_), tuple(inside) or ("empty",))


def _box_found(shop: Shop, box: Box) -> Found:
    orders = ", ".join(order_name(shop.orders.get(number)) for number in box.orders) or "none"
    if box.closed:
        stands = "unpacked and closed"
    elif box.open_at:
        stands = f"open at terminal {inert(box.open_at)}"
    else:
        stands = "here, not unpacked" if box.arrived else "not arrived"
    return Found("box", box.id, f"box {shown(box.code)} (orders: {orders})", (stands,))
