"""The report on hardware: stock against need, and what to buy."""

import argparse
from typing import Any

from shoptui.cli.opening import build_of, opened
from shoptui.cli.output import as_csv, as_json, lines, table, write, write_data
from shoptui.jobs.hardware import Stand, stands


def hardware(arguments: argparse.Namespace) -> int:
    """Print how each kind of hardware stands against what the parts not installed still need."""
    with opened(arguments) as shop:
        build = build_of(shop, arguments.build)
        found = [
            each for each in stands(shop, build.id if build else None) if each.short or not arguments.short
        ]
        match arguments.format:
            case "json":
                write_data(as_json([_values(each) for each in found]) + "\n")
            case "csv":
                write_data(as_csv(COLUMNS, (tuple(_cells(each)) for each in found)))
            case _ if not found:
                lines(["Nothing is short." if arguments.short else "No hardware."])
            case _:
                header = ("hardware", "needed", "new", "used", "ordered", "short", "buy", "where")
                write(table(header, [_text(each) for each in found], wide=0, right=(1, 2, 3, 4, 5, 6)))
    return 0


COLUMNS = (
    *("code", "description", "designation", "one_use", "needed", "new", "used", "on_hand", "on_order"),
    *("short", "minimum", "pack", "to_buy", "where"),
)
"""Columns in CSV and keys in JSON, in this order; scripts read them, so a new one goes to the end."""


def _values(each: Stand) -> dict[str, Any]:
    part, stock, need = each.part, each.stock, each.need
    values = (
        *(part.code, part.description, part.designation, part.one_use, need.needed, stock.new, stock.used),
        *(need.on_hand, stock.on_order, need.short, part.minimum, part.pieces, need.to_buy, list(each.where)),
    )
    return dict(zip(COLUMNS, values, strict=True))


def _cells(each: Stand) -> list[object]:
    """Return the values as CSV has them: yes and no, and several places in one cell."""
    values = _values(each) | {"one_use": "yes" if each.part.one_use else "no", "where": "; ".join(each.where)}
    return list(values.values())


def _text(each: Stand) -> tuple[str, ...]:
    stock, need = each.stock, each.need
    numbers = (need.needed, stock.new, stock.used, stock.on_order, need.short, need.to_buy)
    where = each.where[0] if each.where else ""
    return (each.part.words, *(str(number or "") for number in numbers), where)
