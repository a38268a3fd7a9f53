"""Why pieces in the shop or on the vehicle are not as a shot needs them, and what is done about it."""

from shoptui.domain.lack import Grounds, Lack, Who, never, timed
from shoptui.domain.places import OPENED, SEALED, Place, State
from shoptui.domain.readiness import work_left
from shoptui.domain.records import Part
from shoptui.domain.shoots import Condition

_LOOSE = (State.RECEIVED, State.REMOVED)

_WANT_WORK_DONE = (Condition.BACK_FROM_WORK, Condition.INSTALLED, Condition.TORQUE_DONE)
"""A part is sent out before it goes on the vehicle for good; a trial needs no paint."""

_FITTED = (Condition.INSTALLED, Condition.TORQUE_DONE)


def not_as_needed(  # noqa: PLR0911 - one return for each thing that a shot can want
    condition: Condition, part: Part, place: Place, qty: int, grounds: Grounds
) -> Lack:
    """Return why pieces that are received, removed, mocked up, built in or installed do not meet a need."""
    if condition is Condition.REMOVED:
        return _not_removed(part, place, qty, grounds)
    if condition is Condition.SEALED or (
        condition is Condition.BEFORE_WORK and place.condition in {work.work for work in part.outside_work}
    ):
        return spoilt(part, place, qty, grounds, _spoilt_by(condition, place))
    if condition is Condition.TORQUE_DONE and place.state is State.INSTALLED:
        why = f"{_stands(part, place, grounds)}, {grounds.open_joints(part, place)}"
        return timed(grounds, qty, place, why, Who.LIFT, "tighten it", grounds.today, 0)
    works = work_left(part, place.condition) if condition in _WANT_WORK_DONE else ()
    if not works and condition in (*_FITTED, Condition.MOCKED_UP):
        return _to_be_put_on(condition, part, place, qty, grounds)
    stands = _stands(part, place, grounds)
    if condition is Condition.STILL_IN_PLACE:
        if not part.original:
            return never(f"{stands}, and it is no original part", "change the shot", place, qty)
        act = "put it back or change the shot"
        return timed(grounds, qty, place, stands, Who.LIFT, act, grounds.today, 0)
    if works:
        act = ", ".join(filter(None, (_loosened(place, grounds), f"send it out to be {works[0].work}")))
        who = Who.LEAD if place.state in _LOOSE else Who.LIFT
        why = f"{stands}, not {works[0].work} yet"
        days = sum(work.days for work in works)
        return timed(grounds, qty, place, why, who, act, grounds.today, days)
    if condition is Condition.BACK_FROM_WORK:
        why, act = f"{stands}, and its line names no outside work", "send it out or change the shot"
        return timed(grounds, qty, place, why, Who.LEAD, act, grounds.today, 0)
    act = _loosened(place, grounds)
    if place.state is State.INSTALLED:
        act += " or change the shot"
    return timed(grounds, qty, place, stands, Who.LIFT, act, grounds.today, 0)


def first_step(condition: Condition, part: Part, place: Place) -> Place:
    """Return where a piece goes first on its way to be as a shot needs it: out for work, on, or off."""
    how = OPENED if place.condition == SEALED else place.condition
    works = condition in _WANT_WORK_DONE and work_left(part, place.condition)
    if works or condition is Condition.BACK_FROM_WORK:
        return Place(State.SENT_OUT, 0, how)
    return Place(_GOES.get(condition, State.RECEIVED), place.where, how)


_GOES = {
    Condition.MOCKED_UP: State.MOCKED_UP,
    Condition.INSTALLED: State.INSTALLED,
    Condition.TORQUE_DONE: State.INSTALLED,
    Condition.STILL_IN_PLACE: State.INSTALLED,
    Condition.REMOVED: State.REMOVED,
}


def _to_be_put_on(condition: Condition, part: Part, place: Place, qty: int, grounds: Grounds) -> Lack:
    """A shot wants it on the vehicle, for good or for trial."""
    trial = condition is Condition.MOCKED_UP
    if place.state in _LOOSE:
        why, act = (
            f"{place.state.value}, not {'mocked up' if trial else 'installed'}",
            "mock it up" if trial else "install it",
        )
    else:
        why = _stands(part, place, grounds)
        if place.state is State.INSTALLED:
            act = "remove it, mock it up, or change the shot"
        elif place.state is State.ASSEMBLED:
            act = f"{'mock up' if trial else 'install'} {_carrier(place, grounds)}"
        else:
            why, act = f"{why}, not installed", "install it"
    waits = () if trial else grounds.waits_for(part)
    if waits:
        why += f"; {', '.join(waits)} must be on first"
    return timed(grounds, qty, place, why, Who.LIFT, act, grounds.today, 0)


def _not_removed(part: Part, place: Place, qty: int, grounds: Grounds) -> Lack:
    """A shot wants to see it off: only what was on the vehicle can come off it."""
    if place.state is State.INSTALLED:
        where = f" at {place.where}" if place.where else ""
        return timed(grounds, qty, place, f"still on{where}", Who.LIFT, "remove it", grounds.today, 0)
    if place.state is State.MOCKED_UP and part.original:
        why = _stands(part, place, grounds)
        return timed(grounds, qty, place, why, Who.LIFT, "take it down", grounds.today, 0)
    return never(f"{place.state.value}, not on the vehicle", "change the shot", place, qty)


def spoilt(part: Part, place: Place, qty: int, grounds: Grounds, how: str) -> Lack:
    """Return the lack of pieces to which something was done that nobody can take back."""
    why = f"{how}{since_words(part, place, grounds)}"
    return never(why, "order another or change the shot", place, qty)


def since_words(part: Part, place: Place, grounds: Grounds) -> str:
    """Return since when pieces are in a place: ` on Tue 3 Nov`, or nothing where that is not known."""
    day = grounds.since(part, place)
    return f" on {grounds.told(day)}" if day else ""


def work_days(condition: Condition, part: Part, how: str) -> int:
    """Return the working days of outside work before a piece can be as the shot needs it."""
    return sum(work.days for work in work_left(part, how)) if condition in _WANT_WORK_DONE else 0


def _spoilt_by(condition: Condition, place: Place) -> str:
    """Say what was done to it."""
    if place.state is State.ASSEMBLED:
        return "built into another part"
    if place.state in _LOOSE and condition is Condition.SEALED and place.state is State.RECEIVED:
        return "opened"
    if place.state in _LOOSE and condition is Condition.BEFORE_WORK:
        return place.condition
    return place.state.value


def _stands(part: Part, place: Place, grounds: Grounds) -> str:
    """Say how pieces stand: here, mocked up at front, built into Wheel (in bin A3), installed at LF."""
    at = f" at {place.where}" if place.where else ""
    match place.state:
        case State.INSTALLED:
            return f"installed{at}{since_words(part, place, grounds)}"
        case State.MOCKED_UP:
            return f"mocked up{at}"
        case State.ASSEMBLED if isinstance(place.where, int):
            name, lies = grounds.carrier(place.where)
            return f"built into {name}" + (f", which is {lies}" if lies else "")
        case State.REMOVED:
            return f"removed{since_words(part, place, grounds)}"
    return "here" if place.condition in (SEALED, OPENED) else f"here, {place.condition}"


def _loosened(place: Place, grounds: Grounds) -> str:
    """Say what is done first, so that a piece can be worked on; empty for what lies loose."""
    match place.state:
        case State.MOCKED_UP:
            return "take it down"
        case State.ASSEMBLED:
            return f"take it out of {_carrier(place, grounds)}"
        case State.INSTALLED:
            return "remove it"
    return ""


def _carrier(place: Place, grounds: Grounds) -> str:
    return grounds.carrier(place.where)[0] if isinstance(place.where, int) else "what carries it"
