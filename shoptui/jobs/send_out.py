"""Send pieces out for paint, coating or machining, and take them back."""

from datetime import date

from shoptui.domain import verbs
from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import UNSORTED, State
from shoptui.domain.readiness import work_left
from shoptui.domain.records import OrderLine, Part
from shoptui.domain.verbs import HERE
from shoptui.jobs.answers import Answer, Question, Said, stop
from shoptui.jobs.at import At, name
from shoptui.jobs.carry_out import carry_out
from shoptui.jobs.order import OUTSIDE, find_or_make_order, find_or_make_supplier, supplier_name
from shoptui.jobs.place_words import order_name, place_words, today
from shoptui.jobs.take_down import down_moves
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
    down: bool = False,
) -> Answer:
    """Hand pieces to an outside shop; its job is made where it has none of that number yet.

    What hangs for trial is asked about: it is taken down in the same transaction.

    Args:
        at: Where it is done.
        part: The part.
        qty: Pieces.
        to: Id, code or name of the outside shop; a name that nobody knows yet makes one.
        work: The word for the part once it is done (`painted`); empty takes the part's next outside work.
        due: Day it is expected back.
        number: The outside shop's job number, may be empty.
        down: Whether what is mocked up is taken down for it.

    """
    shop = at.shop
    if isinstance(to, str) and not to.strip():
        return stop("An outside shop was expected: give a name or a code.", field="to")
    if due is not None and due < today(shop):
        words = f"The day {day_words(due, today(shop))} is in the past; a day to come was expected."
        return stop(words, field="due")
    work = work.strip() or next_work(shop, part)

    hanging = qty - shop.book.in_state(part.id, *HERE)
    hanging = hanging if 0 < hanging <= shop.book.in_state(part.id, State.MOCKED_UP) else 0
    if hanging and not down:
        spots = " and ".join(
            dict.fromkeys(place_words(shop, place) for place, _ in shop.book.places(part.id, State.MOCKED_UP))
        )
        return Answer(
            Said.QUESTION,
            f"{name(part)} is {spots}. Enter: take {hanging} down and send out.",
            kind="part",
            part=part.code,
            qty=qty,
            subject=part.id,
            question=Question(
                yes=lambda: send_out(at, part, qty, to=to, work=work, due=due, number=number, down=True)
            ),
        )

    def moves(tx: Transaction) -> tuple[Move, ...]:
        painter = find_or_make_supplier(shop, tx, to)
        job = find_or_make_order(shop, tx, OUTSIDE, painter, number, due, work)
        tx.change(job, lines=(*job.lines, OrderLine(part.id, qty)), due=due or job.due, work=job.work or work)
        taken_down = down_moves(shop, part, hanging) if hanging else ()
        with shop.book.supposing(taken_down):
            return (*taken_down, *verbs.send_out(shop.book, part.id, qty, job=job.id))

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
