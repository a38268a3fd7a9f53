"""What can become of a part's pieces now, as a question with one choice for each."""

from collections.abc import Callable, Iterator

from shoptui.domain.places import SEALED, Place, State
from shoptui.domain.records import Part
from shoptui.domain.verbs import HERE
from shoptui.jobs.answers import Answer, Choice, Question, Said, stop
from shoptui.jobs.at import At, pieces
from shoptui.jobs.dispose import REASONS, dispose
from shoptui.jobs.order import cancel
from shoptui.jobs.place_words import place_words
from shoptui.jobs.send_out import next_work, take_back
from shoptui.jobs.set_aside import hold, open_part, release, return_to_stock

HOLD_NOTES = ("damaged", "wrong", "waits for somebody's word")
LEAVES_FROM = (State.RECEIVED, State.HELD, State.REMOVED, State.SENT_OUT)


def what_next(at: At, part: Part, qty: int) -> Answer:
    """Ask what becomes of so many pieces; only what can be is offered."""
    choices = tuple(_choices(at, part, qty))
    if not choices:
        return stop(f"None of {part.description} is ordered, here or out: there is nothing to do.")
    return Answer(
        Said.QUESTION,
        f"What becomes of {pieces(qty, part)}? Its number, then Enter.",
        kind="part",
        part=part.code,
        subject=part.id,
        qty=qty,
        question=Question(choices=choices),
    )


def _choices(at: At, part: Part, qty: int) -> Iterator[Choice]:
    shop, terminal = at.shop, at.terminal
    who = at.person.id if at.person else None
    places = shop.book.places(part.id)
    states = {place.state for place, _ in places}
    if any(place.state in HERE and place.condition == SEALED for place, _ in places):
        yield Choice("open it: no longer sealed", lambda: open_part(shop, terminal, part.id, qty, who=who))
    if states.intersection(HERE):
        yield Choice("hold it ...", lambda: _why(at, part, qty, "Why is it held?", HOLD_NOTES, _holder))
    if State.HELD in states:
        yield Choice("release it: may be used", lambda: release(shop, terminal, part.id, qty, who=who))
    if State.REMOVED in states:
        yield Choice(
            "return it to stock: usable again", lambda: return_to_stock(shop, terminal, part.id, qty, who=who)
        )
    for place, _ in places:
        if place.state is State.SENT_OUT:
            yield from _back(at, part, qty, place)
    for place, _ in places:
        if place.state is State.ORDERED and isinstance(place.where, int):
            yield _canceller(at, part, qty, place, place.where)
    if states.intersection(LEAVES_FROM):
        yield Choice("it is gone ...", lambda: _why(at, part, qty, "Why is it gone?", REASONS, _disposer))


def _back(at: At, part: Part, qty: int, place: Place) -> Iterator[Choice]:
    if not isinstance(place.where, int):
        return
    job, who = place.where, at.person.id if at.person else None
    work = at.shop.orders.get(job).work or next_work(at.shop, part.id) or "done"
    words = place_words(at.shop, place)
    for done, how in ((True, work), (False, "as it went")):
        yield Choice(
            f"it is back, {how} ({words})",
            lambda done=done: take_back(at.shop, at.terminal, part.id, qty, job=job, done=done, who=who),  # type: ignore[misc]
        )


def _canceller(at: At, part: Part, qty: int, place: Place, order: int) -> Choice:
    who = at.person.id if at.person else None
    return Choice(
        f"cancel it ({place_words(at.shop, place)})",
        lambda: cancel(at.shop, at.terminal, part.id, qty, order=order, who=who),
    )


Doer = Callable[[At, Part, int, str], Callable[[], Answer]]


def _why(at: At, part: Part, qty: int, ask: str, reasons: tuple[str, ...], doer: Doer) -> Answer:
    choices = tuple(Choice(reason, doer(at, part, qty, reason)) for reason in reasons)
    return Answer(
        Said.QUESTION,
        f"{pieces(qty, part)}: {ask} Its number, then Enter.",
        kind="part",
        part=part.code,
        subject=part.id,
        question=Question(choices=choices),
    )


def _holder(at: At, part: Part, qty: int, note: str) -> Callable[[], Answer]:
    who = at.person.id if at.person else None
    return lambda: hold(at.shop, at.terminal, part.id, qty, note=note, who=who)


def _disposer(at: At, part: Part, qty: int, reason: str) -> Callable[[], Answer]:
    who = at.person.id if at.person else None
    return lambda: dispose(at.shop, at.terminal, part.id, qty, reason=reason, who=who)
