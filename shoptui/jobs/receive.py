"""Receiving: a thing from the open box is taken in; what nobody expected is asked about first."""

from collections.abc import Callable

from shoptui.domain import verbs
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import UNKNOWN, UNSORTED, Place, State
from shoptui.domain.records import Box, Order, Part
from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.at import At, name, pieces, shown
from shoptui.jobs.box_list import expected_in
from shoptui.jobs.place_words import place_words

OVER = "over: more than ordered"
NOT_ORDERED = "came without an order"


def receive(at: At, part: Part, qty: int = 1) -> Answer:
    """Receive pieces of a part from the open box; without one, say which box they are expected in.

    What the box's orders promise is received. What they do not is a question, and nothing changes until
    it is answered.
    """
    box = at.box
    if box is None:
        return _no_box(at, part, qty)
    with at.doing(f"received {pieces(qty, part)}") as transaction:
        moves = _promised(at, box, part, qty)
        if sum(move.qty for move in moves) == qty:
            transaction.enter(moves)
            return _received(at, box, part, moves)
    return _ask(at, box, part, qty, moves)


def _promised(at: At, box: Box, part: Part, qty: int) -> tuple[Move, ...]:
    """Return the moves for as many pieces as the box's orders still promise, at most `qty`."""
    moves: list[Move] = []
    left = qty
    for order in (at.shop.orders.get(number) for number in (*box.orders, *box.also_orders)):
        state = State.SENT_OUT if order.kind == "outside" else State.ORDERED
        there = sum(n for place, n in at.shop.book.places(part.id, state) if place.where == order.id)
        if taken := min(left, there):
            moves.extend(_from_order(at, order, part, taken, box))
            left -= taken
    return tuple(moves)


def _from_order(at: At, order: Order, part: Part, qty: int, box: Box | None) -> tuple[Move, ...]:
    ref = box.code if box else ""
    if order.kind == "outside":
        return verbs.take_back(at.shop.book, part.id, qty, job=order.id, done=order.work, ref=ref)
    return verbs.receive(at.shop.book, part.id, qty, order=order.id, ref=ref)


def _received(at: At, box: Box, part: Part, moves: tuple[Move, ...]) -> Answer:
    qty = sum(move.qty for move in moves)
    lines = expected_in(at.shop, box)
    here = next((line for line in lines if line.part == part.id), None)
    count = f", {here.received} of {here.expected} here" if here and here.expected > 1 else ""
    missing = sum(line.short for line in lines)
    rest = f"{missing} still in the box." if missing else "The box is complete."
    back = any(move.source.state is State.SENT_OUT for move in moves)
    word = f"back, {moves[0].target.condition}" if back else "received"
    return _on_the_bench(
        f"{pieces(qty, part)} {word}{count}. {rest} Next thing, or the bin.",
        part,
        qty,
        State.RECEIVED,
    )


def _on_the_bench(text: str, part: Part, qty: int, state: State) -> Answer:
    return done(
        text,
        kind="part",
        part=part.code,
        qty=qty,
        state=state.value,
        where="on the bench, unsorted",
        subject=part.id,
    )


def _ask(at: At, box: Box, part: Part, qty: int, promised: tuple[Move, ...]) -> Answer:
    """Ask about what the box's orders do not promise, in the order in which it is likely."""
    here = sum(move.qty for move in promised)
    if here:
        rest = qty - here
        return _question(
            f"{pieces(qty, part)}: the order promises {here} more. Receive {here} and hold {rest} as over?",
            part,
            qty,
            lambda: _receive_and_hold(at, box, part, qty),
        )
    elsewhere = _other_orders(at, part, box)
    if elsewhere:
        order = elsewhere[0]
        return _question(
            f"{name(part)} is not expected in this box; it is {_words(at, order)}. Did it come in this one?",
            part,
            qty,
            lambda: _receive_from_other(at, box, order, part, qty),
        )
    if at.shop.received_in.get(box.code, {}).get(part.id):
        came = at.shop.received_in[box.code][part.id]
        text = f"{name(part)}: {came} received already, as ordered. Hold {qty} more as over?"
    else:
        text = f"{name(part)} is on no open order. Hold {qty} until somebody decides?"
    return _question(text, part, qty, lambda: _receive_and_hold(at, box, part, qty))


def _question(text: str, part: Part, qty: int, yes: Callable[[], Answer]) -> Answer:
    return Answer(
        Said.QUESTION,
        f"{text} Enter: yes.",
        kind="part",
        part=part.code,
        qty=qty,
        subject=part.id,
        question=Question(yes=yes),
    )


def _other_orders(at: At, part: Part, box: Box | None) -> list[Order]:
    """Return orders other than the box's that promise the part, or outside jobs that have it."""
    known = {*box.orders, *box.also_orders} if box else set()
    places = at.shop.book.places(part.id, State.ORDERED, State.SENT_OUT)
    numbers = dict.fromkeys(place.where for place, _ in places if place.where not in known)
    return [at.shop.orders.get(number) for number in numbers if isinstance(number, int)]


def _receive_from_other(at: At, box: Box | None, order: Order, part: Part, qty: int) -> Answer:
    back = order.kind == "outside"
    words = f"{'took back' if back else 'received'} {pieces(qty, part)} from {_from_words(at, order)}"
    with at.doing(words) as transaction:
        state = State.SENT_OUT if back else State.ORDERED
        there = sum(n for place, n in at.shop.book.places(part.id, state) if place.where == order.id)
        if there < qty:
            return stop(
                f"{there} of {name(part)} can come from {_from_words(at, order)} now, not {qty}. "
                "Nothing changed."
            )
        moves = _from_order(at, order, part, qty, box)
        transaction.enter(moves)
        if box is not None and not back:
            # A parcel of no known order is this one's; else it is not expected to hold the rest of it.
            box = at.shop.boxes.get(box.id)
            field = "also_orders" if box.orders else "orders"
            box = transaction.change(box, **{field: (*getattr(box, field), order.id)})
    if box is not None:
        return _received(at, box, part, moves)
    return _on_the_bench(
        f"{pieces(qty, part)} back, {moves[0].target.condition or 'as sent'}. Next thing, or the bin.",
        part,
        qty,
        State.RECEIVED,
    )


def _receive_and_hold(at: At, box: Box, part: Part, qty: int) -> Answer:
    with at.doing() as transaction:
        box = at.shop.boxes.get(box.id)
        moves = _promised(at, box, part, qty)
        over = qty - sum(move.qty for move in moves)
        transaction.enter(moves)
        if over:
            note = OVER if at.shop.received_in.get(box.code, {}).get(part.id) else NOT_ORDERED
            supplier = at.shop.orders.get(box.orders[0]).supplier if box.orders else UNKNOWN
            transaction.enter(verbs.hold_unordered(part.id, over, supplier=supplier, note=note, ref=box.code))
        transaction.say(
            f"received {pieces(qty - over, part)}, held {over}"
            if over < qty
            else f"held {pieces(over, part)}"
        )
    received = f"{qty - over} received, " if over < qty else ""
    return _on_the_bench(
        f"{name(part)}: {received}{over} held. Lay it apart, then scan the bin for held things.",
        part,
        qty,
        State.HELD,
    )


def _from_words(at: At, order: Order) -> str:
    """Name an order, or a job that has no number by the shop that does it."""
    if order.kind == "purchase" and order.number:
        return f"order {inert(order.number)}"
    return inert(at.shop.suppliers.get(order.supplier).name)


def _words(at: At, order: Order) -> str:
    state = State.SENT_OUT if order.kind == "outside" else State.ORDERED
    return place_words(at.shop, Place(state, order.id))


def _no_box(at: At, part: Part, qty: int) -> Answer:
    """Without a box: what is out may come back; what is expected comes in a box."""
    orders = _other_orders(at, part, None)
    outside = [order for order in orders if order.kind == "outside"]
    if outside:
        order = outside[0]
        return _question(
            f"{name(part)} is {_words(at, order)}. Is it back, {order.work or 'done'}?",
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
            f"No box is open here. {name(part)} is {_words(at, orders[0])}{words}. "
            "Scan the box or the order number first.",
            part=part.code,
            subject=part.id,
        )
    return stop(
        f"No box is open here, and {name(part)} is on no open order. Scan the box that it came in first.",
        part=part.code,
        subject=part.id,
    )


def set_aside(at: At, why: str) -> Answer:
    """Hold the last thing that this terminal received: damaged, wrong."""
    things = [
        (part, place, qty)
        for (part, place), qty in at.since_last_bin().items()
        if place.state is State.RECEIVED and place.where == UNSORTED
    ]
    if not things:
        return stop(f"Nothing lies on the bench to call {why}. Scan the thing first.")
    part_id, place, _ = things[-1]
    part = at.shop.parts.get(part_id)
    with at.doing(f"held {pieces(1, part)}: {why}") as transaction:
        target = Place(State.HELD, place.where, place.condition)
        box = at.box
        came = box is not None and at.shop.received_in.get(box.code, {}).get(part_id, 0) > 0
        ref = box.code if box is not None and came else ""
        transaction.enter([Move(part_id, 1, place, target, note=why, ref=ref)])
    return _on_the_bench(
        f"{pieces(1, part)} held: {why}. Lay it apart, then scan the bin for held things.",
        part,
        1,
        State.HELD,
    )
