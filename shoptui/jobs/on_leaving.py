"""What left with a handed over vehicle, and its joints as they stood then.

It follows from the moves: a piece that was handed over was at a position until that day.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any, TypeVar

from shoptui.domain.places import HANDED_OVER, State
from shoptui.domain.records import Build, Part
from shoptui.jobs.joints import JointAt, standing_at, was_off
from shoptui.store.documents import read_field
from shoptui.store.history import Edit
from shoptui.store.shop import Shop

R = TypeVar("R", Part, Build)

_SAID = {"parts": ("joints", "section", "description"), "builds": ("odometer", "odometer_unit", "meters")}
"""Fields by which joints stand as they do: whatever they are now, they count as they were on leaving."""


@dataclass(slots=True)
class Left:
    """What left of a part: position to pieces, of what was built in none; and with which transaction."""

    where: Counter[str] = field(default_factory=Counter)
    transaction: int = 0


def left_of(shop: Shop, part: int) -> Left:
    """Return what left of a part with its vehicle; a hand-over that was taken back does not count."""
    left = Left()
    for entry in shop.history.latest_of_part(part):
        source, target = entry.move.source, entry.move.target
        if (target.state, target.where) == (State.GONE, HANDED_OVER):
            left.where[_position(source.state, source.where)] += entry.move.qty
            if not shop.history.is_undone(entry.transaction):
                left.transaction = max(left.transaction, entry.transaction)
        elif (source.state, source.where) == (State.GONE, HANDED_OVER):
            left.where[_position(target.state, target.where)] -= entry.move.qty
    left.where = +left.where
    return left


def _position(state: State, where: int | str) -> str:
    return str(where) if state is State.INSTALLED else ""


def joints_left(shop: Shop, parts: Iterable[int]) -> tuple[JointAt, ...]:
    """Return the joints of what left of some parts, as they were written down and stood on that day.

    What was said of their readings since then counts: one was struck out, or its wrench failed a check.
    """
    return tuple(
        replace(each, handed_over=day)
        for part, build, where, day in as_they_left(shop, parts)
        if not part.original or was_off(shop, part)
        for each in standing_at(shop, part, build, where, day)
    )


def as_they_left(shop: Shop, parts: Iterable[int]) -> Iterator[tuple[Part, Build | None, Counter[str], date]]:
    """Yield each part that left with its vehicle, as both were then; where how many were on; and the day."""
    found = {number: left for number in parts if (left := left_of(shop, number)).where}
    since = min((left.transaction for left in found.values()), default=0)
    later = _later(shop, since) if found else {}
    for number, left in found.items():
        part = _then(shop.parts.get(number), later.get(("parts", number), ()), left)
        build = None
        if part.build is not None:
            build = _then(shop.builds.get(part.build), later.get(("builds", part.build), ()), left)
        when = shop.history.transaction(left.transaction).when
        yield part, build, left.where, when.astimezone().date()


def _later(shop: Shop, since: int) -> dict[tuple[str, int], list[Edit]]:
    """Return what was changed since then in the records by which joints stand, the newest change first."""
    found: dict[tuple[str, int], list[Edit]] = {}
    for edit in shop.history.edits_since(since):
        if edit.field in _SAID.get(edit.table, ()):
            found.setdefault((edit.table, edit.record), []).append(edit)
    return found


def _then(record: R, later: Iterable[Edit], left: Left) -> R:
    """Return a record as it was on leaving."""
    before: dict[str, Any] = {
        edit.field: read_field(type(record), edit.field, edit.before)
        for edit in later
        if edit.transaction > left.transaction
    }
    return replace(record, **before)
