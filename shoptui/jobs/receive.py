"""Receiving: a thing from the open box is taken in; what nobody expected is asked about first."""

from shoptui.domain import verbs
from shoptui.domain.ledger import Move
from shoptui.domain.places import State
from shoptui.domain.records import Box, Order, Part
from shoptui.jobs.answers import Answer, stop
from shoptui.jobs.at import At, name, pieces, shown
from shoptui.jobs.at_the_door import (
    NOT_ORDERED,
    OVER,
    ask_yes,
    bring_too,
    from_order,
    from_words,
    on_the_bench,
    order_words,
    other_orders,
    promised,
    seller,
    there_is,
)
from shoptui.jobs.box_list import expected_in, still_to_come
from shoptui.jobs.receive_kit import receive_kit


def receive(at: At, part: Part, qty: int = 1) -> Answer:
    """Receive pieces of a part from the open box; without one, say which box they are expected in.

    What the box's orders promise is received. What they do not is a question, and nothing changes until
    it is answered.
    """
    box = at.box
    if box is None:
        return _no_box(at, part, qty)
    if part.kit:
        return receive_kit(at, part, qty)
    with at.doing(f"received {pieces(qty, part)}") as transaction:
        moves = promised(at, box, part, qty)
        if sum(move.qty for move in moves) == qty:
            transaction.enter(moves)
            return _received(at, box, part, moves)
    return _ask(at, box, part, qty, moves)


def _received(at: At, box: Box, part: Part, moves: tuple[Move, ...]) -> Answer:
    qty = sum(move.qty for move in moves)
    lines = expected_in(at.shop, box)
    here = next((line for line in lines if line.part == part.id), None)
    count = f", {here.received} of {here.expected} here" if here and here.expected > 1 else ""
    if here and here.over:
        count += f", {here.over} more than {'its slip lists' if box.contents else 'expected'}"
    missing = still_to_come(at.shop, box, lines)
    rest = f"{missing} still in the box.".capitalize() if missing else "The box is complete."
    back = any(move.source.state is State.SENT_OUT for move in moves)
    word = f"back, {moves[0].target.condition}" if back else "received"
    return on_the_bench(
        f"{pieces(qty, part)} {word}{count}. {rest} Next thing, or the bin.",
        part,
        qty,
        State.RECEIVED,
    )


def _ask(at: At, box: Box, part: Part, qty: int, moves: tuple[Move, ...]) -> Answer:
    """Ask about what the box's orders do not promise, in the order in which it is likely."""
    here = sum(move.qty for move in moves)
    if here:
        rest = qty - here
        return ask_yes(
            f"{pieces(qty, part)}: the order promises {here} more. Receive {here} and hold {rest} as over?",
            part,
            qty,
            lambda: _receive_and_hold(at, box, part, qty),
        )
    elsewhere = other_orders(at, part, box)
    if elsewhere:
        order = elsewhere[0]
        return ask_yes(
            f"{name(part)} is not expected in this box; it is {order_words(at, order)}. "
            "Did it come in this one?",
            part,
            qty,
            lambda: _receive_from_other(at, box, order, part, qty),
        )
    if came := at.shop.box_index.received(box.code).get(part.id):
        text = f"{name(part)}: {came} received already, as ordered. Hold {qty} more as over?"
    else:
        text = f"{name(part)} is on no open order. Hold {qty} until somebody decides?"
    return ask_yes(text, part, qty, lambda: _receive_and_hold(at, box, part, qty))


def _receive_from_other(at: At, box: Box | None, order: Order, part: Part, qty: int) -> Answer:
    back = order.kind == "outside"
    words = f"{'took back' if back else 'received'} {pieces(qty, part)} from {from_words(at, order)}"
    with at.doing(words) as transaction:
        there = there_is(at, order, part)
        if there < qty:
            return stop(
                f"{there} of {name(part)} can come from {from_words(at, order)} now, not {qty}. "
                "Nothing changed."
            )
        moves = from_order(at, order, part, qty, box)
        transaction.enter(moves)
        if box is not None and not back:
            box = bring_too(at, transaction, box, order)
    if box is not None:
        return _received(at, box, part, moves)
    return on_the_bench(
        f"{pieces(qty, part)} back, {moves[0].target.condition or 'as sent'}. Next thing, or the bin.",
        part,
        qty,
        State.RECEIVED,
    )


def _receive_and_hold(at: At, box: Box, part: Part, qty: int) -> Answer:
    with at.doing() as transaction:
        box = at.shop.boxes.get(box.id)
        moves = promised(at, box, part, qty)
        over = qty - sum(move.qty for move in moves)
        transaction.enter(moves)
        if over:
            note = OVER if at.shop.box_index.received(box.code).get(part.id) else NOT_ORDERED
            transaction.enter(
                verbs.hold_unordered(part.id, over, supplier=seller(at, box), note=note, ref=box.code)
            )
        transaction.say(
            f"received {pieces(qty - over, part)}, held {over}"
            if over < qty
            else f"held {pieces(over, part)}"
        )
    received = f"{qty - over} received, " if over < qty else ""
    return on_the_bench(
        f"{name(part)}: {received}{over} held. Lay it apart, then scan the bin for held things.",
        part,
        qty,
        State.HELD,
    )


def _no_box(at: At, part: Part, qty: int) -> Answer:
    """Without a box: what is out may come back; what is expected comes in a box."""
    orders = other_orders(at, part, None)
    outside = [order for order in orders if order.kind == "outside" and not part.kit]
    if outside:
        order = outside[0]
        return ask_yes(
            f"{name(part)} is {order_words(at, order)}. Is it back, {order.work or 'done'}?",
            part,
            qty,
            lambda: _receive_from_other(at, None, order, part, qty),
        )
    if orders:
        boxes = [
            box.code
            for box in at.shop.boxes.all()
            if box.closed is None and any(order.id in box.orders for order in orders)
        ]
        words = f", expected in box {' or '.join(map(shown, boxes))}" if boxes else ""
        return stop(
            f"No box is open here. {name(part)} is {order_words(at, orders[0])}{words}. "
            "Scan the box or the order number first.",
            part=part.code,
            subject=part.id,
        )
    return stop(
        f"No box is open here, and {name(part)} is on no open order. Scan the box that it came in first.",
        part=part.code,
        subject=part.id,
    )
