"""Take orders in from a spreadsheet, one row for each line of an order."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path

from shoptui.domain import verbs
from shoptui.domain.inert import inert
from shoptui.domain.ledger import CannotMoveError
from shoptui.domain.names import code_key
from shoptui.domain.records import Box, Order, OrderLine
from shoptui.domain.tables import Reading
from shoptui.jobs.answers import Answer, done
from shoptui.jobs.import_boxes import boxes_named
from shoptui.jobs.import_names import LISTED
from shoptui.jobs.import_parts import imported_words
from shoptui.jobs.import_rows import without_sums
from shoptui.jobs.order import code_for, promises
from shoptui.jobs.order_rows import AMOUNTS, COLUMNS, OrderRow, OrderRows
from shoptui.jobs.place_words import today
from shoptui.jobs.steps import each
from shoptui.store.files_in import read_csv
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction


def import_orders(shop: Shop, path: Path, *, terminal: str, base: date | None = None) -> Answer:
    """Take in every order of a list with its boxes, or none.

    A purchase books its pieces as ordered. An outside job sends out pieces that are here. Rows of one
    order for one part are one line of it. A tracking number is one box, whichever orders name it; a box
    tag makes all tracking numbers of its rows one box. A purchase of which no row names a box gets one.

    Args:
        shop: The shop.
        path: A CSV file, see `COLUMNS`.
        terminal: Where this is done.
        base: The day from which `+6` and `-3` are counted; None is today.

    Raises:
        ImportRefusedError: Names every wrong row.

    """
    table = read_csv(path, COLUMNS)
    reading = Reading(path.name)
    finder = OrderRows(shop, reading, base or today(shop), table.headers)
    found, notes = without_sums(table.rows, AMOUNTS)
    lines = [line for row in each(found, "Reading rows") if (line := finder.line(row)) is not None]
    orders: dict[tuple[int, str], list[OrderRow]] = {}
    for line in lines:
        orders.setdefault(line.order_key, []).append(line)
    in_sets: list[str] = []
    for key, rows in orders.items():
        _refuse_unlike(shop, reading, rows)
        orders[key] = _in_sets(rows, in_sets)
    lines = [row for rows in orders.values() for row in rows]
    boxes = boxes_named(shop, reading, lines)
    reading.finish()
    words = f"{len(orders)} order{'s' * (len(orders) != 1)}"
    with shop.transaction(f"imported {words} from {inert(path.name)}", terminal=terminal) as tx:
        made = {
            key: _add_order(shop, tx, reading, rows) for key, rows in each(orders.items(), "Writing orders")
        }
        for box in each(boxes, "Writing boxes"):
            tx.add(box.record(shop, made))
        boxed = {line.order_key for box in boxes for line in box.lines}
        for key, order in made.items():
            if order.kind == "purchase" and key not in boxed:
                tx.add(Box(0, "", orders=(order.id,)))
        reading.finish()
    return done(imported_words(words, path, table, (*notes, *_sets_told(in_sets))), qty=len(orders))


def _in_sets(rows: Sequence[OrderRow], told: list[str]) -> list[OrderRow]:
    """Take numbers alone as sets where they cannot be pieces: nobody sells one out of a set of four.

    Of one part of an order they count together: four wheels in four boxes are four rows of one. What was
    taken so is told.
    """
    alone = Counter[int]()
    for row in rows:
        alone[row.part.id] += row.qty if row.alone and row.kind == "purchase" else 0
    read = []
    for row in rows:
        each = max(1, row.part.pieces)
        in_sets = row.alone and alone[row.part.id] % each > 0
        if in_sets:
            sold = f"{row.qty} {row.part.sold_as} of {each}"
            told.append(f"line {row.line}, {inert(row.part.description, 40)}: {sold}")
        read.append(replace(row, qty=row.qty * each, in_box=row.in_box * each) if in_sets else row)
    return read


def _sets_told(told: Sequence[str]) -> tuple[str, ...]:
    more = f"; {len(told) - LISTED} more" if len(told) > LISTED else ""
    words = f"Counted as they are sold: {'; '.join(told[:LISTED])}{more}."
    return (f"{words} Write “3 pieces” where pieces are meant.",) if told else ()


def _refuse_unlike(shop: Shop, reading: Reading, rows: Sequence[OrderRow]) -> None:
    """Note an order that is there already, or whose rows say different things of it."""
    first = rows[0]
    for order in shop.orders.all():
        if order.supplier == first.supplier.id and code_key(order.number) == code_key(first.number):
            reading.trouble(first.line, "order", f"{inert(first.number)} is already there.")
    for row in rows[1:]:
        for column, said in (
            ("placed", row.placed),
            ("due", row.due),
            ("kind", row.kind),
            ("work", row.work),
        ):
            if said and said != getattr(first, column):
                reading.trouble(
                    row.line,
                    column,
                    f"{said} differs from line {first.line} of the same order, "
                    f"which has {getattr(first, column) or 'nothing'}.",
                )
        if row.currency != first.currency and row.total is not None and first.total is not None:
            reading.trouble(row.line, "total", f"Line {first.line} of the same order is in {first.currency}.")


def _add_order(shop: Shop, tx: Transaction, reading: Reading, rows: Sequence[OrderRow]) -> Order:
    first = rows[0]
    lines: dict[int, OrderLine] = {}
    for row in rows:
        before = lines.get(row.part.id, OrderLine(row.part.id, 0, 0))
        total = None if row.total is None or before.total_minor is None else before.total_minor + row.total
        lines[row.part.id] = replace(before, qty=before.qty + row.qty, total_minor=total)
    order = tx.add(
        Order(
            id=0,
            code=code_for(shop, first.number),
            kind=first.kind,
            supplier=first.supplier.id,
            number=first.number,
            placed=first.placed,
            due=first.due,
            lines=tuple(lines.values()),
            currency=first.currency,
            work=first.work,
        )
    )
    for row in rows:
        try:
            if order.kind == "purchase":
                tx.enter(promises(shop, row.part, row.qty, order))
            else:
                tx.enter(verbs.send_out(shop.book, row.part.id, row.qty, job=order.id))
        except CannotMoveError as error:
            reading.trouble(row.line, "qty", f"{inert(row.part.description)}: {error}")
    return order
