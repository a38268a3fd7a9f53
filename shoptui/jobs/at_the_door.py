"""What jobs at the door share: what is still promised, how it comes in, and how that is said."""

from collections.abc import Callable

from shoptui.domain import verbs
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import UNKNOWN, Place, State
from shoptui.domain.records import Box, Order, Part
from shoptui.jobs.answers import Answer, Question, ask_about, done
from shoptui.jobs.at import At
from shoptui.jobs.kit import contents
from shoptui.jobs.place_words import place_words
from shoptui.store.transaction import Transaction

OVER = "over: more than ordered"
NOT_ORDERED = "came without an order"


def promised(at: At, box: Box, part: Part, qty: int, *, also: Order | None = None) -> tuple[Move, ...]:
    """Return the moves for as many pieces as a box's orders still promise, at most `qty`.

    Args:
        at: Where it is done.
        box: The box.
        part: The part.
        qty: Pieces, at most.
        also: One more order that the box may bring.

    """
    moves: list[Move] = []
    left = qty
    orders = [at.shop.orders.get(number) for number in (*box.orders, *box.also_orders)]
    for order in (*orders, *([also] if also else [])):
        if taken := min(left, there_is(at, order, part)):
            moves.extend(from_order(at, order, part, taken, box))
            left -= taken
    return tuple(moves)


def there_is(at: At, order: Order, part: Part) -> int:
    """Return the pieces of a part that an order still promises, or an outside job still has."""
    return sum(qty for place, qty in at.shop.book.places(part.id, waiting(order)) if place.where == order.id)


def waiting(order: Order) -> State:
    """Return the state in which what an order will bring stands."""
    return State.SENT_OUT if order.kind == "outside" else State.ORDERED


def from_order(at: At, order: Order, part: Part, qty: int, box: Box | None) -> tuple[Move, ...]:
    """Return the moves that take pieces in from an order, or back from an outside job."""
    ref = box.code if box else ""
    if order.kind == "outside":
        return verbs.take_back(at.shop.book, part.id, qty, job=order.id, done=order.work, ref=ref)
    return verbs.receive(at.shop.book, part.id, qty, order=order.id, ref=ref)


def other_orders(at: At, part: Part, box: Box | None) -> list[Order]:
    """Return orders other than the box's that promise the part or a kit's contents, or jobs that have it."""
    known = {*box.orders, *box.also_orders} if box else set()
    places = [
        place
        for inside, _ in contents(at.shop, part)
        for place, _ in at.shop.book.places(inside.id, State.ORDERED, State.SENT_OUT)
    ]
    numbers = dict.fromkeys(place.where for place in places if place.where not in known)
    return [at.shop.orders.get(number) for number in numbers if isinstance(number, int)]


def bring_too(at: At, transaction: Transaction, box: Box, order: Order) -> Box:
    """Write down that a box brought something of an order that it was not expected to.

    A parcel of no known order is this one's; else it is not expected to hold the rest of it.
    """
    box = at.shop.boxes.get(box.id)
    field = "also_orders" if box.orders else "orders"
    return transaction.change(box, **{field: (*getattr(box, field), order.id)})


def seller(at: At, box: Box) -> int | str:
    """Return the supplier whose box it is, as far as its orders say so."""
    return at.shop.orders.get(box.orders[0]).supplier if box.orders else UNKNOWN


def from_words(at: At, order: Order) -> str:
    """Name an order, or a job that has no number by the shop that does it."""
    if order.kind == "purchase" and order.number:
        return f"order {inert(order.number)}"
    return inert(at.shop.suppliers.get(order.supplier).name)


def order_words(at: At, order: Order) -> str:
    """Say where what an order will bring stands: ordered from whom, or at whose shop."""
    return place_words(at.shop, Place(waiting(order), order.id))


def on_the_bench(text: str, part: Part, qty: int, state: State) -> Answer:
    """Return the answer that something lies on the bench now."""
    return done(
        text,
        kind="part",
        part=part.code,
        qty=qty,
        state=state.value,
        where="on the bench, unsorted",
        subject=part.id,
    )


def ask_yes(text: str, part: Part, qty: int, yes: Callable[[], Answer]) -> Answer:
    """Ask about something that nobody expected."""
    return ask_about(part, f"{text} Enter: yes.", Question(yes=yes), qty=qty)
