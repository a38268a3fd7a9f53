"""Send pieces out for paint, coating or machining, and take them back."""

from collections.abc import Callable
from datetime import date
from functools import partial

from shoptui.domain import verbs
from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.lack import days_words
from shoptui.domain.ledger import Move
from shoptui.domain.places import UNSORTED, State
from shoptui.domain.readiness import work_left
from shoptui.domain.records import OrderLine, OutsideWork, Part
from shoptui.domain.verbs import HERE
from shoptui.domain.working_days import WorkingDays
from shoptui.jobs.answers import Answer, Question, ask_about, stop
from shoptui.jobs.at import At, name
from shoptui.jobs.bring_in import not_here
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
    other_work: bool = False,
) -> Answer:
    """Hand pieces to an outside shop; its job is made where it has none of that number yet.

    What hangs for trial is asked about: it is taken down in the same transaction. So is work that the part's
    line does not name, where it names some.

    Args:
        at: Where it is done.
        part: The part.
        qty: Pieces.
        to: Id, code or name of the outside shop; a name that nobody knows yet makes one.
        work: The word for the part once it is done (`painted`); empty takes the part's next outside work.
        due: Day it is expected back; None is the day by which such work usually is, where the line says so.
        number: The outside shop's job number, may be empty.
        down: Whether what is mocked up is taken down for it.
        other_work: Whether work is meant that the part does not need by its line.

    """
    shop = at.shop
    if isinstance(to, str) and not to.strip():
        return stop("An outside shop was expected: give a name or a code.", field="to")
    if due is not None and due < today(shop):
        words = f"The day {day_words(due, today(shop))} is in the past; a day to come was expected."
        return stop(words, field="due")
    work = work.strip() or next_work(shop, part)
    wanted = {each.work.casefold(): each for each in _works_left(shop, part)}
    usual = wanted.get(work.casefold())
    work = work if usual is None else usual.work
    again = partial(send_out, to=to, work=work, due=due, number=number)
    if part.outside_work and usual is None and not other_work:
        needs = ", then ".join(inert(each.work) for each in wanted.values()) or "no more work"
        ask = f"{name(part)} needs {needs} by its line. Enter: send it out to be {inert(work)}."
        return _question(at, part, qty, ask, partial(again, down=down, other_work=True))
    hanging = qty - shop.book.in_state(part.id, *HERE)
    hanging = hanging if 0 < hanging <= shop.book.in_state(part.id, State.MOCKED_UP) else 0
    if hanging and not down:
        ask = f"{name(part)} is {_hangs(shop, part)}. Enter: take {hanging} down and send out."
        return _question(at, part, qty, ask, partial(again, down=True, other_work=True))
    back_by = due

    def moves(tx: Transaction) -> tuple[Move, ...]:
        nonlocal back_by
        painter = find_or_make_supplier(shop, tx, to)
        job = find_or_make_order(shop, tx, OUTSIDE, painter, number, due, work)
        back_by = due or job.due or _usual_day(shop, usual)
        tx.change(job, lines=(*job.lines, OrderLine(part.id, qty)), due=back_by, work=job.work or work)
        taken_down = down_moves(shop, part, hanging) if hanging else ()
        with shop.book.supposing(taken_down):
            return (*taken_down, *verbs.send_out(shop.book, part.id, qty, job=job.id))

    def hint() -> str:
        if back_by is None:
            return "No day is known when it is back."
        usually = usual is not None and due is None and back_by == _usual_day(shop, usual)
        why = f", after the {days_words(usual.days)} of its line" if usual and usually else ""
        return f"Due back {day_words(back_by, today(shop))}{why}."

    deed = f"sent out to {supplier_name(shop, to)}" + (f" to be {inert(work)}" if work else "")
    return carry_out(at, part, qty, deed, moves, hint=hint)


def _question(at: At, part: Part, qty: int, text: str, again: Callable[[At, Part, int], Answer]) -> Answer:
    return ask_about(part, text, Question(yes=lambda: again(at, at.shop.parts.get(part.id), qty)), qty=qty)


def _hangs(shop: Shop, part: Part) -> str:
    """Say where pieces are mocked up."""
    places = shop.book.places(part.id, State.MOCKED_UP)
    return " and ".join(dict.fromkeys(place_words(shop, place) for place, _ in places))


def _usual_day(shop: Shop, usual: OutsideWork | None) -> date | None:
    """Return the day by which work is usually done that is begun today; None where nobody wrote that down."""
    if usual is None or not usual.days:
        return None
    settings = shop.settings
    days = WorkingDays(settings.working_days, frozenset(settings.holidays))
    return days.add(today(shop), usual.days)


def nothing_to_send(shop: Shop, part: Part) -> str:
    """Say why no piece of a part can be sent out; empty where one can, also after it is taken down."""
    if shop.book.in_state(part.id, *HERE, State.MOCKED_UP):
        return ""
    return f"{name(part)}: {not_here(shop, part, 1)} There is nothing to send out."


def usual_days(shop: Shop, part: Part) -> int:
    """Return the working days after which what a part's pieces need next is usually back, 0 if not known."""
    return next((each.days for each in _works_left(shop, part)), 0)


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
    return next((each.work for each in _works_left(shop, part) or part.outside_work), "")


def _works_left(shop: Shop, part: Part) -> tuple[OutsideWork, ...]:
    """Return the outside work that pieces out, here or hung for trial still need, in order."""
    places = shop.book.places(part.id, State.SENT_OUT, State.RECEIVED, State.REMOVED, State.MOCKED_UP)
    left = dict.fromkeys(each for place, _ in places for each in work_left(part, place.condition))
    return tuple(left) if places else part.outside_work
