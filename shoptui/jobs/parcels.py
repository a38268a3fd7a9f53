"""Boxes at the door: opened, taken over from another terminal, made for a parcel that nobody knew, closed."""

from collections.abc import Callable

from shoptui.domain.days import day_words
from shoptui.domain.places import State
from shoptui.domain.records import Box, Order, Part
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.at import At, name, shown
from shoptui.jobs.box_list import expected_in
from shoptui.jobs.place_words import order_name, today


def open_box(at: At, box: Box) -> Answer:
    """Open a box at this terminal, and lay the one that lies open aside."""
    if box.open_at == at.terminal:
        return done(f"Box {shown(box.code)} lies open here already. {_contents(at, box)}", **_facts(at, box))
    if box.open_at:
        return Answer(
            Said.QUESTION,
            f"Box {shown(box.code)} lies open at terminal {box.open_at}. Enter: go on with it here.",
            question=Question(yes=lambda: _open(at, box)),
            subject=box.id,
        )
    if box.closed is not None:
        day = day_words(box.closed.astimezone().date(), today(at.shop))
        return Answer(
            Said.QUESTION,
            f"Box {shown(box.code)} was closed on {day}. Enter: open it again.",
            question=Question(yes=lambda: _open(at, box)),
            subject=box.id,
        )
    return _open(at, box)


def _open(at: At, box: Box) -> Answer:
    now = at.shop.clock()
    with at.doing(f"opened box {shown(box.code)}") as transaction:
        before = at.box
        if before is not None and before.id != box.id:
            transaction.change(before, open_at="")
        box = at.shop.boxes.get(box.id)
        box = transaction.change(
            box,
            open_at=at.terminal,
            opened=box.opened or now,
            arrived=box.arrived or now,
            closed=None,
        )
    return done(f"Box {shown(box.code)} open. {_contents(at, box)}", **_facts(at, box))


def _facts(at: At, box: Box) -> dict[str, object]:
    where = ", ".join(order_name(at.shop.orders.get(number)) for number in box.orders)
    return {"subject": box.id, "show": "receiving", "where": f"order {where}" if where else "no order"}


def _contents(at: At, box: Box) -> str:
    lines = expected_in(at.shop, box)
    if not lines:
        return "Nothing is known of what is in it. Scan each thing."
    missing = sum(line.short for line in lines)
    return f"{missing} to come out of it. Scan each thing, then its bin."


def open_order(at: At, order: Order) -> Answer:
    """Open the box of an order; several ask which, none is made."""
    boxes = [box for box in at.shop.boxes.all() if order.id in box.orders and box.closed is None]
    here = [box for box in boxes if box.open_at == at.terminal]
    if len(boxes) == 1 or here:
        return open_box(at, (here or boxes)[0])
    if boxes:
        return Answer(
            Said.QUESTION,
            f"{len(boxes)} boxes are expected for order {order_name(order)}. Which is it? "
            "Its number, then Enter.",
            question=Question(choices=tuple(Choice(_box_label(at, box), _opener(at, box)) for box in boxes)),
            subject=order.id,
        )
    if not at.shop.book.parts_at(State.SENT_OUT if order.kind == "outside" else State.ORDERED, order.id):
        return Answer(
            Said.QUESTION,
            f"All of order {order_name(order)} has come. Enter: here is another box of it.",
            question=Question(yes=lambda: new_box(at, (order,))),
            subject=order.id,
        )
    return new_box(at, (order,))


def _opener(at: At, box: Box) -> Callable[[], Answer]:
    return lambda: open_box(at, at.shop.boxes.get(box.id))


def _box_label(at: At, box: Box) -> str:
    parts = [at.shop.parts.get(line.part) for line in expected_in(at.shop, box)]
    inside = ", ".join(name(part) for part in parts[:2]) + (" ..." if len(parts) > 2 else "")  # noqa: PLR2004
    arrived = "here" if box.arrived else "not arrived"
    return f"{shown(box.code)} {' '.join(box.tracking)} {arrived}: {inside}"


def new_box(at: At, orders: tuple[Order, ...], *, tracking: str = "", tag: str = "") -> Answer:
    """Write down a parcel that nobody had announced, and open it."""
    now = at.shop.clock()
    with at.doing() as transaction:
        before = at.box
        if before is not None:
            transaction.change(before, open_at="")
        box = transaction.add(
            Box(
                0,
                tag,
                orders=tuple(order.id for order in orders),
                tracking=(tracking,) if tracking else (),
                arrived=now,
                opened=now,
                open_at=at.terminal,
            )
        )
        transaction.say(f"opened new box {shown(box.code)}")
    words = f"for order {order_name(orders[0])}" if orders else "without an order"
    return done(f"New box {shown(box.code)} {words}, open. {_contents(at, box)}", **_facts(at, box))


def unknown_parcel(at: At, tracking: str, form: str, *, tag: str = "") -> Answer:
    """Ask which order a parcel belongs to whose number nobody knows."""

    def order_of(text: str) -> Answer | None:
        match = _order_named(at, text)
        return None if match is None else new_box(at, (match,), tracking=tracking, tag=tag)

    return Answer(
        Said.QUESTION,
        f"No box has this {form}. Scan or type its order number; or Enter: a parcel without an order.",
        question=Question(yes=lambda: new_box(at, (), tracking=tracking, tag=tag), accepts=order_of),
    )


def _order_named(at: At, text: str) -> Order | None:
    wanted = text.strip().casefold()
    if not wanted:
        return None
    return next(
        (
            order
            for order in at.shop.orders.all()
            if wanted in (order.number.casefold(), order.code.casefold())
        ),
        None,
    )


def close_box(at: At) -> Answer:
    """Close the open box: say what was short against its slip, else what is still to come."""
    box = at.box
    if box is None:
        return stop("No box is open here, so there is none to close.")
    lines = expected_in(at.shop, box)
    missing = [(at.shop.parts.get(line.part), line.short) for line in lines if line.short]
    unsorted = sum(at.since_last_bin().values())
    with at.doing(f"closed box {shown(box.code)}") as transaction:
        transaction.change(box, closed=at.shop.clock(), open_at="")
    words = _missing_words(at, box, missing)
    bench = f" On the bench still: {unsorted}; scan the bin for that." if unsorted else ""
    return done(
        f"Box {shown(box.code)} closed. {words}{bench}", subject=box.id, qty=sum(n for _, n in missing)
    )


def _missing_words(at: At, box: Box, missing: list[tuple[Part, int]]) -> str:
    if not missing:
        return "All that was expected in it is here."
    listed = ", ".join(f"{qty} {name(part)}" for part, qty in missing[:3])
    more = f" and {len(missing) - 3} more lines" if len(missing) > 3 else ""  # noqa: PLR2004
    later = [
        each
        for each in at.shop.boxes.all()
        if each.id != box.id and each.closed is None and set(each.orders) & set(box.orders)
    ]
    word = "Short" if box.contents or not later else "Still to come"
    return f"{word}: {listed}{more}{'; still ordered' if word == 'Short' else ''}."
