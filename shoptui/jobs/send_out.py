"""Send pieces out for paint, coating or machining, and take them back."""

from datetime import date

from shoptui.domain import verbs
from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import UNSORTED, State
from shoptui.domain.readiness import work_left
from shoptui.domain.records import OrderLine, Part
from shoptui.jobs.answers import Answer, stop
from shoptui.jobs.at import At
from shoptui.jobs.carry_out import carry_out
from shoptui.jobs.order import OUTSIDE, find_or_make_order, find_or_make_supplier, supplier_name
from shoptui.jobs.place_words import order_name, today
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction


def send_out(
    at: At,
    part: Part,
    qty: int,
    *,
    to: int | str,
    work: str = "",
    due: date | None = None,
    number: str = "",
) -> Answer:
    """Hand pieces to an outside shop; its job is made where it has none of that number yet.

    Args:
        at: Where it is done.
        part: The part.
        qty: Pieces.
        to: Id, code or name of the outside shop; a name that nobody knows yet makes one.
        work: The word for the part once it is done (`painted`); empty takes the part's next outside work.
        due: Day it is expected back.
        number: The outside shop's job number, may be empty.

    """
    shop = at.shop
    if isinstance(to, str) and not to.strip():
        return stop("An outside shop was expected: give a name or a code.", field="to")
    if due is not None and due < today(shop):
        words = f"The day {day_words(due, today(shop))} is in the past; a day to come was expected."
        return stop(words, field="due")
    work = work.strip() or next_work(shop, part)

    def moves(tx: Transaction) -> tuple[Move, ...]:
        painter = find_or_make_supplier(shop, tx, to)
        job = find_or_make_order(shop, tx, OUTSIDE, painter, number, due, work)
        tx.change(job, lines=(*job.lines, OrderLine(part.id, qty)), due=due or job.due, work=job.work or work)
        return verbs.send_out(shop.book, part.id, qty, job=job.id)

    deed = f"sent out to {supplier_name(shop, to)}" + (f" to be {inert(work)}" if work else "")
    hint = f"Due back {day_words(due, today(shop))}." if due else ""
    return carry_out(at, part, qty, deed, moves, hint=hint)


def take_back(
    at: At,
    part: Part,
    qty: int,
    *,
    job: int,
    done: bool = True,
    to: int | str = UNSORTED,
    ref: str = "",
) -> Answer:
    """Take pieces back from an outside job, by its id; with `done` false they came back as they went."""
    shop = at.shop
    order = shop.orders.get(job)
    work = (order.work or next_work(shop, part)) if done else ""

    def moves(_: Transaction) -> tuple[Move, ...]:
        return verbs.take_back(shop.book, part.id, qty, job=job, done=work, to=to, ref=ref)

    how = inert(work) if work else "as it went"
    deed = f"back from {supplier_name(shop, order.supplier)} (job {order_name(order)}), {how}"
    return carry_out(at, part, qty, deed, moves)


def next_work(shop: Shop, part: Part) -> str:
    """Return the word of the outside work that a part's pieces here or out need next, empty if none."""
    for place, _ in shop.book.places(part.id, State.SENT_OUT, State.RECEIVED, State.REMOVED):
        if left := work_left(part, place.condition):
            return left[0].work
    return part.outside_work[0].work if part.outside_work else ""
