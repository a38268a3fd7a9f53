"""What can become of a part's pieces now, as a question with one choice for each."""

from collections.abc import Callable, Iterator

from shoptui.domain.places import SEALED, Place, State
from shoptui.domain.records import Part
from shoptui.domain.verbs import HERE, ON_A_SHELF
from shoptui.jobs.answers import Answer, Choice, Question, ask_about, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.core_deposit import ask_deposit, bought_for
from shoptui.jobs.cores import Core, cores_of, refund
from shoptui.jobs.dispose import LEAVES_FROM, REASONS, dispose
from shoptui.jobs.order import cancel
from shoptui.jobs.place_words import order_name, place_words, today
from shoptui.jobs.send_out import next_work, take_back
from shoptui.jobs.set_aside import hold, open_part, release, return_to_stock
from shoptui.jobs.strike_out import torque_choices
from shoptui.jobs.strip import ask_strip
from shoptui.jobs.substitute import accept, refuse, waiting
from shoptui.jobs.take_apart import ask_take_apart
from shoptui.jobs.take_down import ask_take_down
from shoptui.jobs.transfer import ask_transfer

HOLD_NOTES = ("damaged", "wrong", "waits for somebody's word")
Deed = Callable[[Part], Answer]


def what_next(at: At, part: Part, qty: int) -> Answer:
    """Ask what becomes of so many pieces; only what can be is offered."""
    choices = tuple(_choices(at, part, qty))
    if not choices:
        return stop(f"None of {name(part)} is ordered, here or out: there is nothing to do.")
    return ask_about(
        part,
        f"What becomes of {pieces(qty, part)}? Its number, then Enter.",
        Question(choices=choices),
        qty=qty,
    )


def _choices(at: At, part: Part, qty: int) -> Iterator[Choice]:
    places = at.shop.book.places(part.id)
    states = {place.state for place, _ in places}
    if any(place.state in HERE and place.condition == SEALED for place, _ in places):
        yield _choice(at, part, "unpack it: opened, no longer sealed", lambda now: open_part(at, now, qty))
    if states.intersection(HERE):
        yield _choice(at, part, "hold it ...", lambda now: _ask_why_held(at, now, qty))
    if State.HELD in states:
        yield from _came_instead(at, part)
        if _held_otherwise(at, part):
            yield _choice(at, part, "release it: may be used after all", lambda now: release(at, now, qty))
    if State.REMOVED in states:
        yield _choice(at, part, "return it to stock: usable again", lambda now: return_to_stock(at, now, qty))
    yield from _taken_off(at, part, qty, states)
    yield from torque_choices(at, part)
    for place, _ in places:
        if place.state is State.SENT_OUT and isinstance(place.where, int):
            yield from _back(at, part, qty, place, place.where)
    for place, _ in places:
        if place.state is State.ORDERED and isinstance(place.where, int):
            yield _canceller(at, part, qty, place, place.where)
    yield from _leaving(at, part, qty, states)


def _came_instead(at: At, part: Part) -> Iterator[Choice]:
    """Yield the lead's two words on what a supplier sent in its place: all of it, whatever was typed."""
    if (came := waiting(at.shop, part)) is not None:
        number, held = came
        yield _choice(at, part, f"accept {number} in its place", lambda now: accept(at, now, held))
        yield _choice(at, part, f"refuse {number}: return it, order again", lambda now: refuse(at, now, held))


def _held_otherwise(at: At, part: Part) -> bool:
    """Whether any is held that is no substitute: what came instead is accepted or refused, not released."""
    came = waiting(at.shop, part)
    return came is None or came[1] < at.shop.book.in_state(part.id, State.HELD)


def _leaving(at: At, part: Part, qty: int, states: set[State]) -> Iterator[Choice]:
    """Yield how it leaves this list for good, and what came back for it."""
    if states.intersection((*ON_A_SHELF, State.INSTALLED)) and not part.is_hardware:
        yield _choice(at, part, "give it to another build ...", lambda now: ask_transfer(at, now, qty))
    if states.intersection(LEAVES_FROM):
        yield _choice(at, part, "it is gone ...", lambda now: _ask_why_gone(at, now, qty))
    cores = cores_of(at.shop, part, today(at.shop))
    for core in cores:
        yield _refund(at, core)
    if State.REMOVED in states and not cores and (bought := bought_for(at.shop, part)) is not None:
        words = f"its core goes back: note the deposit of order {order_name(bought[0])} ..."
        yield _choice(at, part, words, lambda now: ask_deposit(at, now, *bought))


def _taken_off(at: At, part: Part, qty: int, states: set[State]) -> Iterator[Choice]:
    """Yield how it comes off what it is on or in, and what can come out of it."""
    if State.MOCKED_UP in states:
        yield _choice(at, part, "take it down: trial fit over", lambda now: ask_take_down(at, now, qty))
    if State.ASSEMBLED in states:
        yield _choice(at, part, "take it apart from its carrier", lambda now: ask_take_apart(at, now, qty))
    if states.intersection((*HERE, State.HELD, State.ORDERED)) and not part.is_hardware:
        yield _choice(
            at, part, "take something out of it; the rest of it goes ...", lambda now: ask_strip(at, now, qty)
        )


def _choice(at: At, part: Part, label: str, deed: Deed) -> Choice:
    """Return a choice that does a deed with the part as it is when the choice is taken."""
    return Choice(label, lambda: deed(at.shop.parts.get(part.id)))


def _back(at: At, part: Part, qty: int, place: Place, job: int) -> Iterator[Choice]:
    work = at.shop.orders.get(job).work or next_work(at.shop, part) or "done"
    words = place_words(at.shop, place)
    yield _choice(at, part, f"it is back, {work} ({words})", lambda now: take_back(at, now, qty, job=job))
    yield _choice(
        at,
        part,
        f"it is back, as it went ({words})",
        lambda now: take_back(at, now, qty, job=job, done=False),
    )


def _canceller(at: At, part: Part, qty: int, place: Place, order: int) -> Choice:
    words = place_words(at.shop, place)
    return _choice(at, part, f"cancel it ({words})", lambda now: cancel(at, now, qty, order=order))


def _refund(at: At, core: Core) -> Choice:
    words = f"its core deposit came back: {core.amount} (order {order_name(core.order)})"
    return Choice(words, lambda: refund(at, core))


def _ask_why_held(at: At, part: Part, qty: int) -> Answer:
    return _ask_why(
        at, part, qty, "Why is it held?", HOLD_NOTES, lambda why: lambda now: hold(at, now, qty, note=why)
    )


def _ask_why_gone(at: At, part: Part, qty: int) -> Answer:
    return _ask_why(
        at, part, qty, "Why is it gone?", REASONS, lambda why: lambda now: dispose(at, now, qty, reason=why)
    )


def _ask_why(
    at: At, part: Part, qty: int, ask: str, reasons: tuple[str, ...], deed: Callable[[str], Deed]
) -> Answer:
    choices = tuple(_choice(at, part, reason, deed(reason)) for reason in reasons)
    return ask_about(part, f"{pieces(qty, part)}: {ask} Its number, then Enter.", Question(choices=choices))
