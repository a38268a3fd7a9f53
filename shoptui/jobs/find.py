"""Where is it? By a code, or by words."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.places import State
from shoptui.domain.recognise import read
from shoptui.domain.records import Bin, Box, Build, Order, Part, Person, Wrench
from shoptui.jobs.at import shown
from shoptui.jobs.given import line_words, now_on
from shoptui.jobs.part_list import still_to_order
from shoptui.jobs.place_words import bin_name, order_name, piece_words, today
from shoptui.jobs.positions import on_vehicle
from shoptui.jobs.wrench_words import scale_words, why_not_now
from shoptui.store.command_tags import command_named
from shoptui.store.shop import Shop


@dataclass(frozen=True, slots=True)
class Found:
    """One thing that was found.

    Args:
        kind: part, bin, box, order, vehicle, person or wrench.
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
    order number or a maker's number. Words are looked for in description, section, code, numbers and
    positions of parts, in the words of bins and in the names of vehicles and people, each at the beginning of
    a word; case is forgiven.
    positions of parts, in the words of bins and in names of wrenches, each at the beginning of a word; case
    is forgiven.
    """
    return tuple(_by_code(shop, text)) or tuple(_by_words(shop, text))


def _by_code(shop: Shop, text: str) -> Iterator[Found]:
    seen: set[tuple[str, int]] = set()
    for match in shop.codes.find(read(text)):
        for found in _of(shop, match.kind, match.record):
            if (found.kind, found.record) not in seen:
                seen.add((found.kind, found.record))
                yield found
    if (wrench := shop.wrenches.by_code(text)) is not None:
        yield _wrench_found(shop, wrench)


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
            yield _order_found(shop, order)
            for number in dict.fromkeys(line.part for line in order.lines):
                yield part_found(shop, shop.parts.get(number))
        case "vehicle":
            yield _build_found(shop, shop.builds.get(record))
        case "badge":
            yield _person_found(shop.people.get(record))


def _by_words(shop: Shop, text: str) -> Iterator[Found]:
    words = [re.compile(rf"(?<!\w){re.escape(word)}") for word in text.casefold().split()]
    if not words:
        return
    for part in shop.parts.all():
        told = " ".join((part.description, part.section, part.code, part.maker, part.number, *part.positions))
        if _all_in(words, told):
            yield part_found(shop, part)
    yield from _others_by_words(shop, words)


def _others_by_words(shop: Shop, words: list[re.Pattern[str]]) -> Iterator[Found]:
    """Yield bins, vehicles, people and wrenches by what stands on their labels."""
    told: list[tuple[str, Callable[[], Found]]] = [
        *(
            (f"{each.kind} {each.code} {each.words} {each.room}", partial(bin_found, shop, each))
            for each in shop.bins.all()
        ),
        *(
            (f"{each.title} {each.vehicle} {each.code}", partial(_build_found, shop, each))
            for each in shop.builds.all()
        ),
        *((f"{each.name} {each.code}", partial(_person_found, each)) for each in shop.people.all()),
        *((f"{each.name} {each.code}", partial(_wrench_found, shop, each)) for each in shop.wrenches.all()),
    ]
    yield from (found() for text, found in told if _all_in(words, text))


def _all_in(words: list[re.Pattern[str]], told: str) -> bool:
    told = told.casefold()
    return all(word.search(told) for word in words)


def _wrench_found(shop: Shop, wrench: Wrench) -> Found:
    """Return a torque tool with its scale, and whether it may be used; where it lies nobody writes down."""
    why = why_not_now(shop, wrench)
    used = f"not to be used, {inert(why)}" if why else "may be used"
    name = f"wrench {inert(wrench.name)} ({shown(wrench.code)})"
    return Found("wrench", wrench.id, name, (scale_words(wrench), used))


def parts_named(shop: Shop, text: str, build: int | None) -> tuple[Part, ...]:
    """Return the parts that a scan or typed words name, those of a build before any others."""
    if command_named(text):
        return ()
    parts = [shop.parts.get(found.record) for found in where(shop, text) if found.kind == "part"]
    return tuple(part for part in parts if part.build == build) or tuple(parts)


def part_found(shop: Shop, part: Part) -> Found:
    """Return a part with each place of its pieces, and what is still to be ordered."""
    places = [
        piece_words(shop, place, qty)
        for place, qty in shop.book.places(part.id)
        if place.state is not State.NOT_OURS and qty
    ]
    if more := still_to_order(shop, part):
        places.append(f"{more} to order")
    if (line := now_on(shop, part)) is not part:
        places.append(f"now on {line_words(shop, line)}")
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


def _order_found(shop: Shop, order: Order) -> Found:
    """Return an order with what is still to come on it, or from work outside."""
    supplier = shop.suppliers.get(order.supplier)
    kind = "job" if order.kind == "outside" else "order"
    name = f"{kind} {order_name(order)} ({inert(supplier.name or supplier.code)})"
    state = State.SENT_OUT if order.kind == "outside" else State.ORDERED
    open_pieces = sum(shop.book.parts_at(state, order.id).values())
    stands = f"{open_pieces} still to come" if open_pieces else "nothing more to come"
    if order.due is not None and open_pieces:
        stands += f", due {day_words(order.due, today(shop))}"
    return Found("order", order.id, name, (stands,))


def _build_found(shop: Shop, build: Build) -> Found:
    parts = [part for part in shop.parts.all() if part.build == build.id]
    on = sum(on_vehicle(shop.book, part.id).total() for part in parts)
    stands = f"{build.status}: {len(parts)} parts on its list, {on} pieces installed"
    return Found("vehicle", build.id, f"vehicle {inert(build.title)} ({shown(build.code)})", (stands,))


def _person_found(person: Person) -> Found:
    return Found("person", person.id, f"{inert(person.name)} ({shown(person.code)})", ("works here",))


def _box_found(shop: Shop, box: Box) -> Found:
    orders = ", ".join(order_name(shop.orders.get(number)) for number in box.orders) or "none"
    if box.closed:
        stands = "unpacked and closed"
    elif box.open_at:
        stands = f"open at terminal {inert(box.open_at)}"
    else:
        stands = "here, not unpacked" if box.arrived else "not arrived"
    return Found("box", box.id, f"box {shown(box.code)} (orders: {orders})", (stands,))
