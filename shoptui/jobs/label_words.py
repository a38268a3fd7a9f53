"""What stands on a label: the thing's tag as bars, and the words by which a person knows it."""

from collections import Counter

from shoptui.domain.days import day_with_year
from shoptui.domain.fasteners.hardware import read_designation
from shoptui.domain.inert import inert
from shoptui.domain.records import Bin, Box, Build, Part, Person, Wrench
from shoptui.domain.tags import shown
from shoptui.domain.wrenches import next_check
from shoptui.jobs.at import name
from shoptui.jobs.bins import inside
from shoptui.jobs.fastened import kept_for
from shoptui.jobs.place_words import order_name
from shoptui.jobs.wrench_words import scale_words
from shoptui.labels.layout import Label
from shoptui.store.command_tags import CommandTag
from shoptui.store.shop import Shop

MOST = 400
"""Cells of a text that a label is given; what does not fit on it is then said to be cut."""

LISTED = 3
"""Things that a bag's label names."""


def part_label(shop: Shop, part: Part) -> Label:
    """Return the label of a part: where it belongs comes before its number, as small labels have one line."""
    build = "shop stock" if part.build is None else _build_name(shop.builds.get(part.build))
    positions = " ".join(part.positions) if len(part.positions) > 1 else ""
    numbers = _joined(", ", _own_name(part), part.number)
    return _label("part", part.tag, name(part, MOST), _joined(", ", build, positions), numbers)


def hardware_label(_shop: Shop, part: Part) -> Label:
    """Return the label of a kind of hardware: its designation as its standard writes it, then what it is."""
    designated = read_designation(part.designation)
    said = "" if designated is None or designated.strength is None else str(designated.strength)
    strength = f"class {said}" if said[:1].isdigit() else said
    once = "one use: new each time" if part.one_use else ""
    what = part.description if part.designation else ""
    numbers = _joined(", ", _own_name(part), part.number)
    words = (_joined(", ", strength, once), _joined(", ", what, part.finish), numbers)
    return _label("hardware", part.tag, part.designation or part.description, *words)


def bin_label(_shop: Shop, bin_: Bin) -> Label:
    """Return the label of a bin, drawer or bench: its name as large as it goes."""
    return _label("bin", bin_.tag, shown(bin_.code), _joined(", ", bin_.words, bin_.room))


def bag_label(shop: Shop, bag: Bin) -> Label:
    """Return the label of a bag: for which part it is and what is in it; of an empty one what is known."""
    of = kept_for(shop, bag)
    things = Counter[str]()
    for part, _, qty in inside(shop, bag.id):
        things[name(part, MOST)] += qty
    told = [f"{qty} {words}" if of else words for words, qty in things.items()]
    more = f" and {len(told) - LISTED} more" if len(told) > LISTED else ""
    listed = ", ".join(told[:LISTED]) + more
    title = (name(of, MOST) if of else listed) or bag.words or _own_name(bag) or "Bag"
    build = "" if of is None or of.build is None else _build_name(shop.builds.get(of.build))
    lines = (_own_name(bag), listed if of else "", bag.words, build)
    return _label("bag", bag.tag, title, *(each for each in lines if each != title))


def box_label(shop: Shop, box: Box) -> Label:
    """Return the label of a box: from whom, of which orders, when it came."""
    orders = [shop.orders.get(number) for number in box.orders]
    sellers = dict.fromkeys(shop.suppliers.get(order.supplier).name for order in orders)
    came = f"came {day_with_year(box.arrived.astimezone().date())}" if box.arrived else ""
    numbers = ", ".join(order_name(order) for order in orders)
    words = (f"order {numbers}" if numbers else "no order", came, ", ".join(box.tracking))
    return _label("box", box.tag, ", ".join(sellers) or "Box", *words)


def vehicle_label(_shop: Shop, build: Build) -> Label:
    """Return the label of a build's vehicle."""
    return _label("vehicle", build.tag, build.title or build.code, build.vehicle, build.vin)


def wrench_label(_shop: Shop, wrench: Wrench) -> Label:
    """Return the label of a torque tool: its scale, and until when its check holds."""
    due = next_check(wrench)
    check = f"next check {day_with_year(due)}" if due else ""
    return _label("wrench", wrench.tag, wrench.name or wrench.code, scale_words(wrench), check)


def badge_label(_shop: Shop, person: Person) -> Label:
    """Return a person's badge."""
    may = "may sign a second check" if person.second_check else ""
    return _label("badge", person.tag, person.name or person.code, may)


def command_label(command: CommandTag) -> Label:
    """Return the label of a command or a position."""
    return _label("command", command.code, command.word, command.words)


def blank_label(kind: str, tag: str) -> Label:
    """Return a label that stands for nothing yet; `kind` is its layout."""
    return _label(kind, tag, "")


def _label(kind: str, tag: str, title: str, *lines: str) -> Label:
    told = tuple(inert(line, MOST) for line in lines if line.strip())
    return Label(kind, tag, shown(tag), inert(title, MOST), told)


def _own_name(record: Part | Bin) -> str:
    """Return the shop's own name of a record; nothing where that is its tag, which stands there anyway."""
    return "" if record.code == record.tag else record.code


def _build_name(build: Build) -> str:
    return build.title or build.code


def _joined(between: str, *words: str) -> str:
    return between.join(filter(None, words))
