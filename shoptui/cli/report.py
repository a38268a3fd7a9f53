"""The lists: boxes and parts."""

import argparse
from collections.abc import Iterator
from typing import Any

from shoptui.cli.opening import build_of, opened
from shoptui.cli.output import as_csv, as_json, lines, table, write, write_data
from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.places import OURS, State
from shoptui.jobs.at import shown
from shoptui.jobs.box_list import BoxLines, ExpectedLine, box_list
from shoptui.jobs.part_list import PartLine, part_lines
from shoptui.jobs.place_words import order_name, today
from shoptui.store.shop import Shop

_HEADER = ("code", "description", "section", "needed", "to_order", *(state.value for state in State))


def boxes(arguments: argparse.Namespace) -> int:
    """Print the boxes, soonest due first, with what should be in them and what came."""
    with opened(arguments) as shop:
        found = box_list(shop, open_only=arguments.open)
        match arguments.format:
            case "json":
                write_data(as_json([_box_values(shop, each) for each in found]) + "\n")
            case "csv":
                header = ("code", "orders", "due", "arrived", "part", "description", "expected", "received")
                write_data(as_csv(header, (row for each in found for row in _box_rows(shop, each))))
            case _:
                write("\n".join(_box_text(shop, each) for each in found) or "No boxes.\n")
    return 0


def _box_values(shop: Shop, each: BoxLines) -> dict[str, Any]:
    box = each.box
    return {
        "code": box.code,
        "orders": [shop.orders.get(number).number or shop.orders.get(number).code for number in box.orders],
        "due": each.due.isoformat() if each.due else None,
        "arrived": box.arrived.isoformat() if box.arrived else None,
        "lines": [
            {
                "part": shop.parts.get(line.part).code,
                "description": shop.parts.get(line.part).description,
                "expected": line.expected,
                "received": line.received,
            }
            for line in each.lines
        ],
    }


def _box_rows(shop: Shop, each: BoxLines) -> Iterator[tuple[object, ...]]:
    values = _box_values(shop, each)
    head = (values["code"], " ".join(values["orders"]), values["due"] or "", values["arrived"] or "")
    for line in values["lines"]:
        yield (*head, line["part"], line["description"], line["expected"], line["received"])
    if not values["lines"]:
        yield (*head, "", "", "", "")


def _box_text(shop: Shop, each: BoxLines) -> str:
    box = each.box
    day = today(shop)
    words = [f"box {shown(box.code)}"]
    if box.orders:
        words.append(f"order {', '.join(order_name(shop.orders.get(number)) for number in box.orders)}")
    if box.arrived:
        words.append(f"arrived {day_words(box.arrived.astimezone().date(), day)}")
    elif each.due:
        words.append(f"{'was due' if each.due < day else 'due'} {day_words(each.due, day)}")
    if box.closed:
        words.append("closed")
    elif box.open_at:
        words.append(f"open at {inert(box.open_at)}")
    rows = [_line_words(shop, line) for line in each.lines]
    return (
        ", ".join(words)
        + "\n"
        + (table(("", "part", "expected", "received", ""), rows, wide=1) if rows else "")
    )


def _line_words(shop: Shop, line: ExpectedLine) -> tuple[str, ...]:
    part = shop.parts.get(line.part)
    notes = [f"{line.over} over"] if line.over else []
    if line.held:
        notes.append(f"{line.held} held")
    name = f"{part.description} ({shown(part.code)})"
    return ("", name, f"{line.expected}", f"{line.received}", ", ".join(notes))


def parts(arguments: argparse.Namespace) -> int:
    """Print the parts of a build, or of the whole shop."""
    with opened(arguments) as shop:
        build = build_of(shop, arguments.build)
        found = part_lines(shop, build.id if build else None)
        match arguments.format:
            case "json":
                write_data(as_json([_part_values(each) for each in found]) + "\n")
            case "csv":
                write_data(as_csv(_HEADER, (_part_row(each) for each in found)))
            case _ if not found:
                lines(["No parts."])
            case _:
                header = ("code", "part", "section", "needed", "where")
                rows = [_part_text(each) for each in found]
                write(table(header, rows, wide=1, right=(3,)))
    return 0


def _part_values(each: PartLine) -> dict[str, Any]:
    part = each.part
    return {
        "code": part.code,
        "description": part.description,
        "section": part.section,
        "needed": part.needed,
        "to_order": each.to_order,
        "states": {state.value: qty for state, qty in each.states.items()},
    }


def _part_row(each: PartLine) -> tuple[object, ...]:
    part = each.part
    return (part.code, part.description, part.section, part.needed, each.to_order, *each.states.values())


def _part_text(each: PartLine) -> tuple[str, ...]:
    part = each.part
    states = [f"{each.states[state]} {state.value}" for state in (*OURS, State.GONE) if each.states[state]]
    if each.to_order:
        states.insert(0, f"{each.to_order} to order")
    return (
        shown(part.code),
        part.description,
        inert(part.section, 12),
        str(part.needed),
        inert(", ".join(states), 26),
    )
