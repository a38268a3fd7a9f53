"""Whether a part is as a shot needs it: what fills a need, and what could."""

from collections.abc import Iterable

from shoptui.domain.places import AS_BOUGHT, OPENED, SEALED, Place, State
from shoptui.domain.records import OutsideWork, Part
from shoptui.domain.shoots import Condition, Need

_IN_THE_SHOP = (State.RECEIVED, State.REMOVED)
_NOT_YET_ON = (State.RECEIVED, State.REMOVED, State.MOCKED_UP)
"""States in which a piece can be filmed as it is before its outside work: a trial is taken down again."""

_BACK = (State.RECEIVED, State.REMOVED, State.MOCKED_UP, State.ASSEMBLED, State.INSTALLED)
_OF_ORIGINALS = (Condition.REMOVED, Condition.STILL_IN_PLACE)
_OF_WORK = (Condition.BEFORE_WORK, Condition.BACK_FROM_WORK)


def concerns(need: Need, part: Part) -> bool:
    """Return whether a need asks something of a part.

    A need of a section asks of the parts to be fitted, or of the originals where it speaks of what comes off
    or stays; where it speaks of outside work, of the parts that get some. A kit has no pieces to ask for.
    """
    if need.part is not None:
        return need.part == part.id
    if (
        part.build != need.build
        or part.section.casefold() != need.section.casefold()
        or part.withdrawn
        or part.kit
    ):
        return False
    if need.condition in _OF_ORIGINALS:
        return part.original
    if need.condition in _OF_WORK and not part.outside_work:
        return False
    return part.needed > 0 and not part.original


def pieces_needed(need: Need, part: Part, places: Iterable[tuple[Place, int]]) -> int:
    """Return how many pieces a need asks for; 0 in the need means all of the line.

    All of an original is what was on the vehicle when that came, all of any other line is what it wants.
    """
    if need.qty:
        return need.qty
    if part.original:
        bought = -sum(
            qty for place, qty in places if place.state is State.NOT_OURS and place.where == AS_BOUGHT
        )
        return max(1, bought)
    return max(1, part.needed)


def meets(condition: Condition, part: Part, place: Place) -> bool:  # noqa: PLR0911 - one line a condition
    """Return whether a piece of a part in a place is as a shot needs it; what is held never is.

    Of its joints it knows nothing: where torque is to be done, that is asked beside.

    >>> rotor = Part(1, "BR-02", "", 1, "rotor", outside_work=(OutsideWork("coated"),))
    >>> meets(Condition.SEALED, rotor, Place(State.RECEIVED, 3, SEALED))
    True
    >>> meets(Condition.BACK_FROM_WORK, rotor, Place(State.RECEIVED, 3, SEALED))
    False
    """
    state, how = place.state, place.condition
    match condition:
        case Condition.SEALED:
            return state is State.RECEIVED and how == SEALED
        case Condition.BEFORE_WORK:
            return state in _NOT_YET_ON and _untouched(part, how)
        case Condition.BACK_FROM_WORK:
            return state in _BACK and not work_left(part, how) and how not in (SEALED, OPENED)
        case Condition.ON_HAND:
            return state in _IN_THE_SHOP
        case Condition.MOCKED_UP:
            return state is State.MOCKED_UP
        case Condition.INSTALLED | Condition.TORQUE_DONE:
            return state is State.INSTALLED
        case Condition.REMOVED:
            return state is State.REMOVED
        case Condition.STILL_IN_PLACE:
            return state is State.INSTALLED and part.original


def work_left(part: Part, condition: str) -> tuple[OutsideWork, ...]:
    """Return the outside work that a piece still needs, in order; a word that the part does not know is done.

    >>> part = Part(1, "", "", 1, "bracket", outside_work=(OutsideWork("blasted"), OutsideWork("coated")))
    >>> [work.work for work in work_left(part, "blasted")], work_left(part, "coated")
    (['coated'], ())
    """
    if condition in (SEALED, OPENED):
        return part.outside_work
    for number, work in enumerate(part.outside_work):
        if work.work == condition:
            return part.outside_work[number + 1 :]
    return ()


def _untouched(part: Part, condition: str) -> bool:
    return condition in (SEALED, OPENED) or condition not in {work.work for work in part.outside_work}
