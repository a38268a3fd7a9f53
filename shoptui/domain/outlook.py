"""Why a part is not yet as a shot needs it, who acts next, and whether it can be ready in time."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date
from functools import partial

from shoptui.domain.in_the_shop import not_as_needed, since_words, spoilt, work_days
from shoptui.domain.lack import Grounds, Lack, Who, days_words, never, timed, under, with_past
from shoptui.domain.places import COUNTS_AS_HAD, SEALED, Place, State
from shoptui.domain.readiness import meets, pieces_needed, work_left
from shoptui.domain.records import Box, OutsideWork, Part
from shoptui.domain.shoots import Condition, Need
from shoptui.domain.tags import shown

_OF_THE_VEHICLE = (Condition.REMOVED, Condition.STILL_IN_PLACE)
"""No new piece can fill such a need."""

_HAD = COUNTS_AS_HAD | {State.REMOVED}


def lacks(need: Need, part: Part, places: Iterable[tuple[Place, int]], grounds: Grounds) -> tuple[Lack, ...]:
    """Return what keeps a need from being met, soonest ready first; empty if it is met."""
    held = tuple(places)
    fits = partial(_fits, need.condition, part, grounds)
    short = pieces_needed(need, part, held) - sum(qty for place, qty in held if qty > 0 and fits(place))
    if short <= 0:
        return ()
    ways = [
        _way(need.condition, part, place, qty, grounds)
        for place, qty in held
        if qty > 0 and not fits(place) and _counts(part, place)
    ]
    ways.sort(key=lambda lack: (not lack.possible, lack.earliest or date.max))
    orders = [] if need.condition in _OF_THE_VEHICLE else _not_ordered(part, held, grounds)
    hopeful = [lack for lack in ways if lack.possible]
    hopeless = [lack for lack in ways if not lack.possible]
    return tuple(_drawn(short, [*hopeful, *orders, *hopeless], need, part, grounds))


def _fits(condition: Condition, part: Part, grounds: Grounds, place: Place) -> bool:
    """Return whether a piece is as a shot needs it, its joints done where it needs that."""
    if not meets(condition, part, place):
        return False
    return condition is not Condition.TORQUE_DONE or not grounds.open_joints(part, place)


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
        case State.GONE:
            return never(f"gone ({place.where})", "change the shot", place, qty)
    return not_as_needed(condition, part, place, qty, grounds)


def _ordered(condition: Condition, part: Part, place: Place, qty: int, grounds: Grounds) -> Lack:
    if condition in _OF_THE_VEHICLE:
        return never("ordered, so it was never on", "change the shot", place, qty)
    order = grounds.order(place.where) if isinstance(place.where, int) else None
    boxes = () if order is None else grounds.boxes(order.id, part.id)
    work = work_days(condition, part, SEALED)
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
    lack = timed(grounds, qty, place, why, Who.SUPPLIER, f"{name} delivers{under(order)}", due, work)
    return with_past(lack, order, grounds) if order else lack


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
        on = since_words(part, place, grounds)
        return never(f"sent out{on} to {name}", "order another or change the shot", place, qty)
    done = job.work if job else ""
    work = work_days(condition, part, done or place.condition)
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
    lack = timed(grounds, qty, place, why, Who.OUTSIDE, f"{name} finishes{under(job)}", job.due, work)
    return with_past(lack, job, grounds)


def _held(condition: Condition, part: Part, place: Place, qty: int, grounds: Grounds) -> Lack:
    if condition is Condition.SEALED and place.condition != SEALED:
        return spoilt(part, place, qty, grounds, "opened")
    work = work_days(condition, part, place.condition)
    act = "say whether it may be used"
    return timed(grounds, qty, place, "held, waiting for a word", Who.LEAD, act, grounds.today, work)


def _not_ordered(part: Part, held: Iterable[tuple[Place, int]], grounds: Grounds) -> Iterator[Lack]:
    """Yield what the list wants and nobody has ordered."""
    qty = part.needed - sum(n for place, n in held if place.state in _HAD)
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
