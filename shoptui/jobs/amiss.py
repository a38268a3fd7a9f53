"""What is amiss with the last thing from a box: damaged, wrong, over; a note or a photo may follow."""

from collections.abc import Callable
from dataclasses import replace

from shoptui.domain import verbs
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import UNSORTED, Place, State
from shoptui.domain.recognise import read
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Choice, Question, Said, stop
from shoptui.jobs.at import LOOK_BACK_MOVES, At, name, pieces
from shoptui.jobs.at_the_door import OVER, on_the_bench, promised, seller
from shoptui.jobs.attach import attach, names_a_file
from shoptui.jobs.box_list import WRONG
from shoptui.jobs.held import why_held
from shoptui.jobs.receive import receive

DAMAGED = "damaged"
NOTE_LIMIT = 300
OFFER = "Type a note or a photo's file, or go on."
APART = f"Lay it apart, then scan the bin for held things. {OFFER}"

Thing = tuple[Part, Place]


def set_aside(at: At, qty: int, *, why: str) -> Answer:
    """Hold so many of the last thing that this terminal took in: damaged, or wrong and still to come.

    Where it is held already, what is amiss is noted of it as well.
    """
    return _of_the_last(at, why, lambda thing: _hold(at, thing, qty, why))


def over(at: At, qty: int) -> Answer:
    """Hold so many more of the last thing than were ordered; what was ordered after all is received."""
    if at.box is None:
        return stop("No box is open here: scan the box first, then the thing.")
    return _of_the_last(at, "over", lambda thing: _over(at, thing[0], qty))


def _of_the_last(at: At, why: str, deed: Callable[[Thing], Answer]) -> Answer:
    """Do a deed with the last thing; where one scan stood for several, as a kit does, ask which."""
    things = _last_things(at)
    if not things:
        return stop(f"Nothing lies on the bench to call {why}. Scan the thing first.")
    if len(things) == 1:
        return deed(things[0])
    return Answer(
        Said.QUESTION,
        f"Which is {why}? Its number, then Enter.",
        question=Question(choices=tuple(_choice(thing, deed) for thing in things)),
    )


def _choice(thing: Thing, deed: Callable[[Thing], Answer]) -> Choice:
    part, place = thing
    held = ", held already" if place.state is State.HELD else ""
    return Choice(f"{name(part)}{held}", lambda: deed(thing))


def _last_things(at: At) -> list[Thing]:
    """Return what the last scan took in, where it lies on this terminal's bench: held too, if it is.

    Of a thing that was taken in for use and partly set aside since, what is still good is meant.
    """
    bench = at.since_last_bin()
    last, found = 0, dict[Thing, None]()
    for entry in at.shop.history.moved_at(at.terminal, LOOK_BACK_MOVES) if bench else ():
        move = entry.move
        if last and entry.transaction != last:
            break
        if move.source.state in verbs.ON_A_SHELF or move.target.state not in (State.RECEIVED, State.HELD):
            continue  # it was here before
        aside = Place(State.HELD, UNSORTED, move.target.condition)
        place = next((place for place in (move.target, aside) if (move.part, place) in bench), None)
        if place is not None:
            last = entry.transaction
            found[at.shop.parts.get(move.part), place] = None
    return list(reversed(found))


def _hold(at: At, thing: Thing, qty: int, why: str) -> Answer:
    part, place = thing
    if qty > (there := at.since_last_bin().get((part.id, place), 0)):
        return stop(f"{pieces(there, part)} on the bench; {qty} cannot be held as {why}.", subject=part.id)
    if place.state is State.HELD:
        return _held_already(at, part, place, qty, why)
    box = at.box
    came = box is not None and at.shop.box_index.received(box.code).get(part.id, 0) > 0
    ref = box.code if box is not None and came else ""
    target = Place(State.HELD, place.where, place.condition)
    with at.doing(f"held {pieces(qty, part)}: {why}") as transaction:
        transaction.enter([Move(part.id, qty, place, target, note=why, ref=ref)])
        order = _came_from(at, part) if why == WRONG else None
        if order is not None:
            supplier = at.shop.orders.get(order).supplier
            transaction.enter(verbs.order(part.id, qty, supplier=supplier, order=order))
    still = " The right one stays ordered." if order is not None else ""
    return with_offer(
        at,
        on_the_bench(
            f"{pieces(qty, part)} held: {why}.{still} {APART}",
            part,
            qty,
            State.HELD,
        ),
        part,
        target,
        why,
    )


def _held_already(at: At, part: Part, place: Place, qty: int, why: str) -> Answer:
    """Note what else is amiss with pieces that are held: whether the right one is to come, the lead says."""
    if not (known := why in why_held(at.shop, part.id)):
        with at.doing(f"noted of {pieces(qty, part)}, held already: {why}") as transaction:
            transaction.enter([Move(part.id, qty, place, place, note=why)])
    reasons = ", ".join(inert(note, 80) for note in reversed(why_held(at.shop, part.id)) if note)
    told = f"{pieces(qty, part)} held{' already' if known else ''}: {reasons}. {APART}"
    return with_offer(at, on_the_bench(told, part, qty, State.HELD), part, place, why)


def _came_from(at: At, part: Part) -> int | None:
    """Return the order from which this terminal received a part last."""
    for entry in at.shop.history.moved_at(at.terminal, LOOK_BACK_MOVES):
        source = entry.move.source
        if entry.move.part == part.id and entry.move.target.state is State.RECEIVED:
            return source.where if source.state is State.ORDERED and isinstance(source.where, int) else None
    return None


def _over(at: At, part: Part, qty: int) -> Answer:
    box = at.box
    assert box is not None  # noqa: S101 - seen by the caller
    if promised(at, box, part, qty):
        return receive(at, part, qty)
    with at.doing(f"held {pieces(qty, part)}: {OVER}") as transaction:
        moves = verbs.hold_unordered(part.id, qty, supplier=seller(at, box), note=OVER, ref=box.code)
        transaction.enter(moves)
    answer = on_the_bench(
        f"{pieces(qty, part)} held: {OVER}. {APART}",
        part,
        qty,
        State.HELD,
    )
    return with_offer(at, answer, part, moves[-1].target, OVER)


def with_offer(at: At, answer: Answer, part: Part, place: Place, why: str) -> Answer:
    """Return an answer after which typed words are a note on what was set aside, or a path its photo."""
    return replace(answer, question=Question(words=lambda text: _noted(at, part, place, why, text)))


def _noted(at: At, part: Part, place: Place, why: str, text: str) -> Answer | None:
    if names_a_file(text):
        answer = attach(at, part, text, note=why)
        if answer.work is not None or answer.asks:
            return answer
        answer = replace(answer, text=f"{answer.text} {OFFER}")
    elif _may_be_a_code(text):
        return None
    else:
        answer = _note(at, part, place, why, " ".join(text.split())[:NOTE_LIMIT])
    return with_offer(at, answer, part, place, why)


def _may_be_a_code(text: str) -> bool:
    """Return whether a line can be a scan: one without a key before it looks as if it was typed."""
    one_word_with_digits = len(text.split()) == 1 and any(letter.isdigit() for letter in text)
    return one_word_with_digits or read(text).checked


def _note(at: At, part: Part, place: Place, why: str, note: str) -> Answer:
    if at.shop.book.at(part.id, place) < 1:
        return stop(f"{name(part)} lies there no more, so nothing was noted.", subject=part.id)
    with at.doing(f"noted of {pieces(1, part)}, {why}: {inert(note)}") as transaction:
        transaction.enter([Move(part.id, 1, place, place, note=f"{why}: {note}")])
    return on_the_bench(f"Noted: {inert(note)}. A photo's file, or go on.", part, 1, State.HELD)
