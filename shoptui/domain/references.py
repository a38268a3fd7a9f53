"""Which record points at which: read by undo (is it still needed?) and by the check (is it there?)."""

from collections.abc import Iterator

from shoptui.domain import records, shoots
from shoptui.domain.ledger import Move
from shoptui.domain.places import Place, State

Reference = tuple[str, int]
"""A table and an id in it."""

_TABLE_OF_PLACE = {
    State.NOT_OURS: "suppliers",
    State.ORDERED: "orders",
    State.SENT_OUT: "orders",
    State.RECEIVED: "bins",
    State.HELD: "bins",
    State.REMOVED: "bins",
    State.ASSEMBLED: "parts",
    State.INSTALLED: "parts",
}


def place_reference(place: Place) -> Reference | None:
    """Return the record that a place's `where` is the id of, None where it is words.

    >>> place_reference(Place(State.ORDERED, 4)), place_reference(Place(State.INSTALLED, "LF"))
    (('orders', 4), None)
    """
    table = _TABLE_OF_PLACE.get(place.state)
    return (table, place.where) if table and isinstance(place.where, int) else None


def move_references(move: Move) -> Iterator[Reference]:
    """Yield the records that a move points at."""
    yield "parts", move.part
    for place in (move.source, move.target):
        if reference := place_reference(place):
            yield reference


def record_references(record: object) -> Iterator[Reference]:
    """Yield the records that a record points at."""
    match record:
        case records.Part():
            yield from _of_part(record)
        case records.Bin():
            yield from _some("parts", record.part)
        case records.Order():
            yield "suppliers", record.supplier
            yield from (("parts", line.part) for line in record.lines)
            yield from (("parts", charge.part) for charge in record.charges if charge.part is not None)
        case records.Box():
            yield from (("orders", order) for order in (*record.orders, *record.also_orders))
            yield from (("parts", line.part) for line in record.contents)
        case shoots.Shoot():
            yield from _of_shoot(record)
        case records.LearnedCode():
            yield record.kind, record.record
        case records.Attachment():
            yield record.table, record.record
        case records.LabelRun():
            yield from ((record.table, number) for number in record.records)
        case records.Terminal():
            yield from _of_terminal(record)


def _of_shoot(shoot: shoots.Shoot) -> Iterator[Reference]:
    for need in (need for shot in shoot.shots for need in shot.needs):
        yield from _some("parts", need.part)
        yield from _some("builds", need.build)


def _of_terminal(terminal: records.Terminal) -> Iterator[Reference]:
    yield from _some("builds", terminal.build)
    yield from _some("people", terminal.person)
    yield from _some("parts", terminal.card_part)
    yield from _some("bins", terminal.bin)
    yield from _some("wrenches", terminal.wrench)
    yield from _some("bins", terminal.counting)
    yield from (("parts", line.part) for line in terminal.counted)


def _of_part(part: records.Part) -> Iterator[Reference]:
    yield from _some("builds", part.build)
    yield from (("parts", other) for other in (*part.install_after, *part.replaces))
    yield from (("parts", line.part) for line in part.kit)
    yield from (("parts", line.part) for line in part.hardware)
    for joint in part.joints:
        yield from (("parts", other) for other in joint.clamps)
        yield from _some("files", joint.sheet)


def _some(table: str, number: int | None) -> Iterator[Reference]:
    if number is not None:
        yield table, number
