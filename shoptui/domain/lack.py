"""Pieces that are not as a shot needs them, and what must be known to say why."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.places import Place, State
from shoptui.domain.records import Box, Order, Part
from shoptui.domain.working_days import WorkingDays


class Who(StrEnum):
    """Who acts next; the list is sorted in this order, since the first three are in the shop."""

    LEAD = "lead"
    RECEIVING = "receiving"
    LIFT = "lift"
    OUTSIDE = "outside shop"
    SUPPLIER = "supplier"


@dataclass(frozen=True, slots=True)
class Grounds:
    """What must be known beside the ledger.

    Args:
        today: Day that it is.
        day: Filming day.
        days: Which days are worked.
        order: Order of an id, None if it is not in the books.
        boxes: Boxes of an order, not closed, that may hold a part: given order id and part id.
        supplier_name: Name of the supplier of an id.
        last_supplier: Name and usual lead days of whom a part came from, None if it never was ordered.
        since: Day on which pieces of a part came to be as they are in a place, None if not known.
        waits_for: Names of parts that must be on before a part, and are not.
        open_joints: Which joints of a part are open where its pieces are on, and why; empty for none.
        carrier: Of the part that something is built into, given its id: the name of the outermost part that
            carries it, and where that lies.
        late: How many of a supplier's other orders of the same kind came more than so many working days
            after their day, and of how many; given one of its orders.

    """

    today: date
    day: date
    days: WorkingDays
    order: Callable[[int], Order | None]
    boxes: Callable[[int, int], tuple[Box, ...]]
    supplier_name: Callable[[int], str]
    last_supplier: Callable[[Part], tuple[str, int | None] | None]
    since: Callable[[Part, Place], date | None]
    waits_for: Callable[[Part], tuple[str, ...]]
    open_joints: Callable[[Part, Place], str]
    carrier: Callable[[int], tuple[str, str]]
    late: Callable[[Order, int], tuple[int, int]]

    def told(self, day: date) -> str:
        """Return a day in words."""
        return day_words(day, self.today)


@dataclass(frozen=True, slots=True)
class Lack:
    """Pieces that are not as a shot needs them.

    Args:
        qty: How many.
        place: Where they are; None for what was never ordered or written down.
        why: In words, with dates.
        who: Who acts next.
        act: What they do, in words.
        earliest: Day on which they can be ready; None is not known, or never.
        latest: Day on which the act is still in time; None is not known.
        spare: Working days from the earliest day to the filming day, negative is too late; None is not known.
        possible: Whether these very pieces can still become what the shot needs.
        past: How often the supplier was later than the days to spare, by this shop's own books; empty where
            the books do not say.

    """

    qty: int
    place: Place | None
    why: str
    who: Who
    act: str
    earliest: date | None = None
    latest: date | None = None
    spare: int | None = None
    possible: bool = True
    past: str = ""

    @property
    def state(self) -> State:
        """State of the ledger; what was never ordered is not ours."""
        return State.NOT_OURS if self.place is None else self.place.state

    @property
    def late(self) -> bool:
        """Whether it cannot be in time by what is known; where no day is known, nobody can say so."""
        return not self.possible or (self.spare is not None and self.spare < 0)

    @property
    def odds(self) -> str:
        """Whether it can be in time, in words."""
        if not self.possible:
            return "cannot be"
        if self.spare is None:
            return "no day known"
        if self.spare < 0:
            return f"{days_words(-self.spare)} too late"
        return f"{days_words(self.spare)} to spare" if self.spare else "no day to spare"


def timed(
    grounds: Grounds,
    qty: int,
    place: Place | None,
    why: str,
    who: Who,
    act: str,
    start: date | None,
    work: int,
) -> Lack:
    """Return a lack with its days: ready after the outside work that follows the start."""
    latest = grounds.days.subtract(grounds.day, work)
    if start is None:
        return Lack(qty, place, why, who, act, None, latest)
    earliest = grounds.days.add(max(start, grounds.today), work)
    spare = grounds.days.between(earliest, grounds.day)
    if earliest > grounds.day:
        spare = min(spare, -1)  # over a weekend no working day passes, and it is too late all the same
    return Lack(qty, place, why, who, act, earliest, latest, spare)


def with_past(lack: Lack, order: Order, grounds: Grounds) -> Lack:
    """Return a lack with how often its supplier was later than there are days to spare.

    A share of what happened, not a forecast: it says so, and of how many.
    """
    if lack.spare is None or lack.spare < 0:
        return lack
    late, of = grounds.late(order, lack.spare)
    if not of:
        return lack
    kind = "job" if order.kind == "outside" else "order"
    than = f"more than {days_words(lack.spare)} late" if lack.spare else "late"
    past = f"{late} of {of} earlier {kind}{'s' * (of > 1)} came {than}"
    return replace(lack, past=past)


def never(why: str, act: str, place: Place, qty: int) -> Lack:
    """Return a lack that these very pieces can no longer mend."""
    return Lack(qty, place, why, Who.LEAD, act, possible=False)


def days_words(count: int) -> str:
    """Return a count of working days in words."""
    return f"{count} working day" + ("" if count == 1 else "s")


def under(order: Order | None) -> str:
    """Return the number to name on the telephone, in brackets."""
    if order is None:
        return ""
    return f" ({'job' if order.kind == 'outside' else 'order'} {inert(order.number or order.code)})"
