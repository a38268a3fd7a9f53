"""Boxes at the door: opened, also at two terminals at once, and made for a parcel that nobody knew."""

from collections.abc import Callable
from dataclasses import replace

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.places import State
from shoptui.domain.records import Box, Order
from shoptui.jobs.answers import Answer, Choice, Question, Said, done
from shoptui.jobs.at import At, name, shown
from shoptui.jobs.box_list import expected_in, still_to_come
from shoptui.jobs.place_words import order_name, today
from shoptui.store.transaction import Transaction


def open_box(at: At, box: Box) -> Answer:
    """Open a box at this terminal, and lay the one that lies open aside.

    One that somebody else unpacks is asked about; then both do.
    """
    if at.terminal in box.terminals:
        return done(f"Box {shown(box.code)} lies open here already. {_contents(at, box)}", **_facts(at, box))
    if box.open_at:
        return Answer(
            Said.QUESTION,
            f"Box {shown(box.code)} lies open at {who_has(at, box)}. Enter: unpack it here too.",
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
        lay_aside(at, transaction)
        box = at.shop.boxes.get(box.id)
        first, *others = (*box.terminals, at.terminal)
        box = transaction.change(
            box,
            open_at=first,
            also_at=tuple(others),
            opened=box.opened or now,
            arrived=box.arrived or now,
            closed=None,
        )
    return done(f"Box {shown(box.code)} open. {_contents(at, box)}", **_facts(at, box))


def lay_aside(at: At, transaction: Transaction) -> None:
    """Lay the box that lies open at this terminal aside; whoever else unpacks it goes on."""
    box = at.box
    if box is not None:
        left = [terminal for terminal in box.terminals if terminal != at.terminal]
        transaction.change(box, open_at=left[0] if left else "", also_at=tuple(left[1:]))


def who_has(at: At, box: Box) -> str:
    """Return at which other terminals a box lies open, and who is there where a badge said so."""
    told = []
    for terminal in box.terminals:
        person = At(at.shop, terminal).person
        named = f" ({inert(person.name)})" if person is not None else ""
        told.append("" if terminal == at.terminal else f"{inert(terminal)}{named}")
    return " and ".join(filter(None, told))


def _facts(at: At, box: Box) -> dict[str, object]:
    where = ", ".join(order_name(at.shop.orders.get(number)) for number in box.orders)
    return {"subject": box.id, "show": "receiving", "where": f"order {where}" if where else "no order"}


def _contents(at: At, box: Box) -> str:
    lines = expected_in(at.shop, box)
    if not lines:
        return "Nothing is known of what is in it. Scan each thing."
    missing = still_to_come(at.shop, box, lines)
    told = f"{missing or 'nothing more'} to come out of it.".capitalize()
    return f"{told} Scan each thing, then its bin."


def open_order(at: At, order: Order) -> Answer:
    """Open the box of an order; several ask which, none is made.

    While another box lies open here, the number may stand on a second slip in it: that is asked.
    """
    box = at.box
    if box is None or order.id in box.orders or not _still_comes(at, order):
        return _open_order(at, order)
    return Answer(
        Said.QUESTION,
        f"Box {shown(box.code)} lies open here. Is order {order_name(order)} in it too? "
        "Enter: yes, the same box.",
        question=Question(
            yes=lambda: _same_box(at, box, order),
            choices=(Choice("No, it is another box", lambda: _open_order(at, order)),),
        ),
        subject=box.id,
    )


def _still_comes(at: At, order: Order) -> bool:
    state = State.SENT_OUT if order.kind == "outside" else State.ORDERED
    return bool(at.shop.book.parts_at(state, order.id))


def _same_box(at: At, box: Box, order: Order) -> Answer:
    with at.doing(f"order {order_name(order)} is in box {shown(box.code)} too") as transaction:
        box = at.shop.boxes.get(box.id)
        box = transaction.change(
            box,
            orders=(*box.orders, order.id),
            also_orders=tuple(number for number in box.also_orders if number != order.id),
        )
        _drop_expected(at, transaction, order)
    return done(f"Order {order_name(order)} is in this box too. {_contents(at, box)}", **_facts(at, box))


def _drop_expected(at: At, transaction: Transaction, order: Order) -> None:
    """Withdraw the box that was only written down because the order would need one: another came."""
    for box in at.shop.boxes.all():
        if box.orders == (order.id,) and not (box.arrived or box.tracking or box.contents or box.due):
            transaction.change(box, withdrawn=True)


def _open_order(at: At, order: Order) -> Answer:
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
    if not _still_comes(at, order):
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
        lay_aside(at, transaction)
        for order in orders:
            _drop_expected(at, transaction, order)
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
    """Ask which order a parcel belongs to whose number nobody knows.

    A typed order number that nobody knows is asked for again: it is not taken for the parcel's.
    """

    def order_of(text: str) -> Answer | None:
        match = _order_named(at, text)
        return None if match is None else new_box(at, (match,), tracking=tracking, tag=tag)

    def no_order(text: str) -> Answer | None:
        if inert(text) == inert(tracking):
            return None
        return replace(
            asked, text=f"No order is called {inert(text)}. {_which_order(tracking or shown(tag))}"
        )

    asked = Answer(
        Said.QUESTION,
        f"No box has this {form}. {_which_order('')}",
        question=Question(
            yes=lambda: new_box(at, (), tracking=tracking, tag=tag), accepts=order_of, words=no_order
        ),
    )
    return asked


def _which_order(parcel: str) -> str:
    its = f"Parcel {inert(parcel)}: scan or type its" if parcel else "Scan or type its"
    return f"{its} order number. Enter: no order is known, each thing in it is asked about."


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
