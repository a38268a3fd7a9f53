"""Why a part is not yet as a shot needs it, who acts next, and whether it can be ready in time."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date

from shoptui.domain.lack import Grounds, Lack, Who, days_words, never, timed, under
from shoptui.domain.places import COUNTS_AS_HAD, SEALED, Place, State
from shoptui.domain.readiness import meets, met, pieces_needed, work_left
from shoptui.domain.records import Box, OutsideWork, Part
from shoptui.domain.shoots import Condition, Need
from shoptui.domain.tags import shown

_OF_THE_VEHICLE = (Condition.REMOVED, Condition.STILL_IN_PLACE)
"""No new piece can fill such a need."""

_WANT_WORK_DONE = (Condition.BACK_FROM_WORK, Condition.INSTALLED, Condition.TORQUE_DONE)
"""A part is sent out before it goes on the vehicle for good."""


def lacks(need: Need, part: Part, places: Iterable[tuple[Place, int]], grounds: Grounds) -> tuple[Lack, ...]:
    """Return what keeps a need from being met, soonest ready first; empty if it is met."""
    held = tuple((place, qty) for place, qty in places if qty)
    short = pieces_needed(need, part, dict(held)) - met(need.condition, part, held)
    if short <= 0:
        return ()
    ways = [
        _way(need.condition, part, place, qty, grounds)
        for place, qty in held
        if qty > 0 and not meets(need.condition, part, place) and _counts(part, place)
    ]
    ways.sort(key=lambda lack: (not lack.possible, lack.earliest or date.max))
    orders = [] if need.condition in _OF_THE_VEHICLE else _not_ordered(part, held, grounds)
    hopeful = [lack for lack in ways if lack.possible]
    hopeless = [lack for lack in ways if not lack.possible]
    return tuple(_drawn(short, [*hopeful, *orders, *hopeless], need, part, grounds))


def _counts(part: Part, place: Place) -> bool:
    """What never was ours says nothing; what is gone says something only of an original."""
    return place.state is not State.NOT_OURS and (part.original or place.state is not State.GONE)


def _drawn(short: int, ways: list[Lack], need: Need, part: Part, grounds: Grounds) -> Iterator[Lack]:
    for lack in ways:
        if short <= 0:
            return
        taken = min(short, lack.qty)
        yield lack if taken == lack.qty else replace(lack, qty=taken)
        short -= taken
    if short > 0:
        yield _unknown(short, need, part, grounds)


def _way(condition: Condition, part: Part, place: Place, qty: int, grounds: Grounds) -> Lack:
    match place.state:
        case State.ORDERED:
            return _ordered(condition, part, place, qty, grounds)
        case State.SENT_OUT:
            return _sent_out(condition, part, place, qty, grounds)
        case State.HELD:
            return _held(condition, part, place, qty, grounds)
        case State.INSTALLED:
            return _installed(condition, part, place, qty, grounds)
        case State.GONE:
            return never(f"gone ({place.where})", "change the shot", place, qty)
    return _here(condition, part, place, qty, grounds)


def _ordered(condition: Condition, part: Part, place: Place, qty: int, grounds: Grounds) -> Lack:
    if condition in _OF_THE_VEHICLE:
        return never("ordered, so it was never on", "change the shot", place, qty)
    order = grounds.order(place.where) if isinstance(place.where, int) else None
    boxes = () if order is None else grounds.boxes(order.id, part.id)
    work = _work_days(condition, part, SEALED)
    here = next((box for box in boxes if box.arrived is not None), None)
    if here is not None:
        return _in_a_box(here, place, qty, work, grounds)
    due = min((box.due for box in boxes if box.due), default=None) or (order.due if order else None)
    name = grounds.supplier_name(order.supplier) if order else "the supplier"
    if due is None:
        return timed(
            grounds,
            qty,
            place,
            "ordered, no due day",
            Who.LEAD,
            f"ask {name} when{under(order)}",
            None,
            work,
        )
    why = f"ordered, due {grounds.told(due)}"
    if due < grounds.today:
        soonest = grounds.days.add(grounds.today, 1)
        why = f"{why}, overdue, box not arrived"
        return timed(grounds, qty, place, why, Who.LEAD, f"call {name}{under(order)}", soonest, work)
    why = f"{why}, box not arrived"
    return timed(grounds, qty, place, why, Who.SUPPLIER, f"{name} delivers{under(order)}", due, work)


def _in_a_box(box: Box, place: Place, qty: int, work: int, grounds: Grounds) -> Lack:
    tag = shown(box.code)
    why = (
        f"box {tag} is open, this is not out of it yet" if box.opened else f"box {tag} is here, not unpacked"
    )
    return timed(grounds, qty, place, why, Who.RECEIVING, f"unpack box {tag}", grounds.today, work)


def _sent_out(condition: Condition, part: Part, place: Place, qty: int, grounds: Grounds) -> Lack:
    job = grounds.order(place.where) if isinstance(place.where, int) else None
    name = grounds.supplier_name(job.supplier) if job else "the outside shop"
    if condition in (Condition.SEALED, Condition.BEFORE_WORK, Condition.STILL_IN_PLACE):
        on = _on(grounds.since(part, place), grounds)
        return never(f"sent out{on} to {name}", "order another or change the shot", place, qty)
    done = job.work if job else ""
    work = _work_days(condition, part, done or place.condition)
    if job is None or job.due is None:
        return timed(
            grounds,
            qty,
            place,
            f"at {name}, no day set",
            Who.LEAD,
            f"ask {name} when{under(job)}",
            None,
            work,
        )
    why = f"at {name}, due back {grounds.told(job.due)}"
    if job.due < grounds.today:
        soonest = grounds.days.add(grounds.today, 1)
        return timed(
            grounds, qty, place, f"{why}, overdue", Who.LEAD, f"call {name}{under(job)}", soonest, work
        )
    return timed(grounds, qty, place, why, Who.OUTSIDE, f"{name} finishes{under(job)}", job.due, work)


def _held(condition: Condition, part: Part, place: Place, qty: int, grounds: Grounds) -> Lack:
    if condition is Condition.SEALED and place.condition != SEALED:
        return _spoilt(part, place, qty, grounds, "opened")
    work = _work_days(condition, part, place.condition)
    act = "say whether it may be used"
    return timed(grounds, qty, place, "held, waiting for a word", Who.LEAD, act, grounds.today, work)


def _installed(condition: Condition, part: Part, place: Place, qty: int, grounds: Grounds) -> Lack:
    on = _on(grounds.since(part, place), grounds)
    where = f" at {place.where}" if place.where else ""
    if condition is Condition.REMOVED:
        return timed(grounds, qty, place, f"still on{where}", Who.LIFT, "remove it", grounds.today, 0)
    works = {work.work for work in part.outside_work}
    if condition is Condition.SEALED or (condition is Condition.BEFORE_WORK and place.condition in works):
        return _spoilt(part, place, qty, grounds, "installed")
    work = _work_days(condition, part, place.condition)
    why = f"installed{where}{on}"
    act = "remove it" + (f", to be {_next(part, place)}" if work else " or change the shot")
    return timed(grounds, qty, place, why, Who.LIFT, act, grounds.today, work)


def _here(  # noqa: PLR0911 - one return for each thing that can be wrong
    condition: Condition, part: Part, place: Place, qty: int, grounds: Grounds
) -> Lack:
    """Received, removed, mocked up or assembled, and not as the shot needs it."""
    state = place.state.value
    if condition is Condition.SEALED:
        return _spoilt(part, place, qty, grounds, "opened" if place.state is State.RECEIVED else state)
    if condition is Condition.BEFORE_WORK and place.state in (State.RECEIVED, State.REMOVED):
        return _spoilt(part, place, qty, grounds, place.condition)
    if condition is Condition.STILL_IN_PLACE:
        on = _on(grounds.since(part, place), grounds)
        why = f"{state}{on}"
        return timed(grounds, qty, place, why, Who.LIFT, "put it back or change the shot", grounds.today, 0)
    if condition is Condition.REMOVED:
        return never(f"{state}, not on the vehicle", "change the shot", place, qty)
    if condition in _WANT_WORK_DONE and work_left(part, place.condition):
        work = _work_days(condition, part, place.condition)
        first = (
            "send it out" if place.state in (State.RECEIVED, State.REMOVED) else "take it down, send it out"
        )
        told = _next(part, place)
        return timed(
            grounds,
            qty,
            place,
            f"here, not {told} yet",
            Who.LEAD,
            f"{first} to be {told}",
            grounds.today,
            work,
        )
    if condition in (Condition.INSTALLED, Condition.TORQUE_DONE):
        waits = grounds.waits_for(part)
        why = f"{state}, not installed" + (f"; {', '.join(waits)} must be on first" if waits else "")
        return timed(grounds, qty, place, why, Who.LIFT, "install it", grounds.today, 0)
    return timed(grounds, qty, place, state, Who.LIFT, f"make it {condition.value}", grounds.today, 0)


def _not_ordered(part: Part, held: Iterable[tuple[Place, int]], grounds: Grounds) -> Iterator[Lack]:
    """Yield what the list wants and nobody has ordered."""
    states = COUNTS_AS_HAD | {State.REMOVED}
    qty = part.needed - sum(n for place, n in held if place.state in states)
    if qty > 0 and not part.original:
        yield _to_order(part, qty, grounds, "not ordered", work_left(part, SEALED))


def _to_order(part: Part, qty: int, grounds: Grounds, why: str, works: tuple[OutsideWork, ...]) -> Lack:
    seller = grounds.last_supplier(part)
    lead = seller[1] if seller else None
    act = f"order {qty}" + (f" from {seller[0]}" if seller else "")
    if lead is None:
        return Lack(qty, None, why, Who.LEAD, act)
    due = grounds.days.add(grounds.today, lead)
    lack = timed(grounds, qty, None, why, Who.LEAD, act, due, sum(work.days for work in works))
    latest = grounds.days.subtract(lack.latest or grounds.day, lead)
    return replace(lack, latest=latest, act=f"{act} (usual {days_words(lead)})")


def _unknown(qty: int, need: Need, part: Part, grounds: Grounds) -> Lack:
    if part.original or need.condition in _OF_THE_VEHICLE:
        what = "scan or name it at the lift when it comes off"
        if need.condition is Condition.STILL_IN_PLACE:
            what = "say whether it is on the vehicle, or change the shot"
        return Lack(qty, None, "nobody wrote down that it was on", Who.LIFT, what)
    return _to_order(part, qty, grounds, "the list wants fewer than the shot", work_left(part, SEALED))


def _spoilt(part: Part, place: Place, qty: int, grounds: Grounds, how: str) -> Lack:
    why = f"{how}{_on(grounds.since(part, place), grounds)}"
    return never(why, "order another or change the shot", place, qty)


def _work_days(condition: Condition, part: Part, how: str) -> int:
    """Working days of outside work before a piece can be as the shot needs it."""
    if condition in _WANT_WORK_DONE:
        return sum(work.days for work in work_left(part, how))
    return 0


def _next(part: Part, place: Place) -> str:
    left = work_left(part, place.condition)
    return left[0].work if left else "worked on"


def _on(day: date | None, grounds: Grounds) -> str:
    return f" on {grounds.told(day)}" if day else ""
