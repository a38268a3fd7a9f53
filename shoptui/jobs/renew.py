"""New fasteners where a joint that may be tightened once is tightened again: the old ones are scrap."""

from collections.abc import Iterator
from itertools import takewhile

from shoptui.domain.fasteners.hardware import thread_of
from shoptui.domain.ledger import Move
from shoptui.domain.places import UNKNOWN, Place, State
from shoptui.domain.records import Part, What
from shoptui.jobs.fastened import SCRAP, off_part, on_it, put_on, sources
from shoptui.jobs.joints import JointAt, joints_of, readings_at
from shoptui.store.history import Entry
from shoptui.store.shop import Shop


def renewed(shop: Shop, each: JointAt, count: int) -> tuple[Move, ...]:
    """Return the moves of new fasteners for a joint whose own were tightened since the part went on.

    Those that were never tightened are new still, and go first. The old ones are scrap.
    """
    kind = _kind(shop, each)
    again = 0 if kind is None else count - min(count, _fresh(shop, each, kind))
    if kind is None or not again:
        return ()
    old = off_part(
        shop, kind.id, again, each.part.id, lambda place: Place(State.GONE, SCRAP, place.condition)
    )
    return (*old, *put_on(shop, each.part, kind, again))


def to_renew(shop: Shop, part: Part) -> Iterator[tuple[int, int]]:
    """Yield kind and pieces that are to be new, for each joint of a part that is open again."""
    if not any(joint.one_use for joint in part.joints) or not shop.readings.of_part(part.id):
        return
    for each in joints_of(shop, part):
        kind = _kind(shop, each) if each.left else None
        again = 0 if kind is None else each.left - min(each.left, _fresh(shop, each, kind))
        if kind is not None and again:
            yield kind.id, again


def new_ones_booked(shop: Shop, each: JointAt, count: int) -> int:
    """Return how many of the fasteners that are tightened now are new by the books.

    All of them, where the part's hardware has none of that thread: then the books know nothing of them.
    """
    found = new_for(shop, each)
    if found is None:
        return count
    kind, in_stock = found
    fresh = _fresh(shop, each, kind)
    first, went_on = min(count, fresh), max(0, fresh - _from_nowhere(shop, each, kind))
    return min(first, went_on) + min(count - first, in_stock)


def new_for(shop: Shop, each: JointAt) -> tuple[Part, int] | None:
    """Return what a joint takes new, and how many of it are here; None where the books know nothing of it."""
    kind = _kind(shop, each)
    if kind is None:
        return None
    return kind, sum(shop.book.at(kind.id, place) for place in sources(shop, each.part, kind))


def _kind(shop: Shop, each: JointAt) -> Part | None:
    """Return the hardware of one use that is on with the part and has the joint's thread."""
    if not each.joint.one_use:
        return None
    thread = thread_of(each.joint.designation)
    kinds = (shop.parts.get(number) for number in on_it(shop, each.part.id))
    return next((kind for kind in kinds if kind.one_use and thread_of(kind.designation) == thread), None)


def _fresh(shop: Shop, each: JointAt, kind: Part) -> int:
    """Return how many of a joint's fasteners were never tightened: went on, or renewed, less the readings."""
    on = _went_on(shop, each)
    if not on:
        return each.wanted
    rows = [row for row in readings_at(shop, each) if row.transaction >= min(on)]
    stated = {row.transaction for row in rows}
    tightened = sum(
        row.fasteners
        for row in rows
        if row.what is What.TIGHTENED and shop.readings.struck_by(row.id) is None
    )
    new = sum(
        entry.move.qty for entry in _put_on_since(shop, each, kind, min(on)) if entry.transaction in stated
    )
    return max(0, min(each.wanted, each.joint.fasteners * sum(on.values()) + new - tightened))


def _from_nowhere(shop: Shop, each: JointAt, kind: Part) -> int:
    """Return how many went on with the part though none was booked."""
    on = _went_on(shop, each)
    missing = 0
    for entry in _of_kind_since(shop, kind, min(on, default=0)):
        if entry.transaction in on and entry.move.source == Place(State.NOT_OURS, UNKNOWN):
            missing += entry.move.qty
    return missing


def _put_on_since(shop: Shop, each: JointAt, kind: Part, transaction: int) -> Iterator[Entry]:
    """Yield the moves by which pieces of a kind went on with a part, without those that were taken back."""
    for entry in _of_kind_since(shop, kind, transaction):
        there = (entry.move.target.state, entry.move.target.where) == (State.INSTALLED, each.part.id)
        if there and not shop.history.is_undone(entry.transaction):
            yield entry


def _of_kind_since(shop: Shop, kind: Part, transaction: int) -> Iterator[Entry]:
    return takewhile(lambda entry: entry.transaction >= transaction, shop.history.latest_of_part(kind.id))


def _went_on(shop: Shop, each: JointAt) -> dict[int, int]:
    """Return transaction to pieces of a part that went on at its spot since the last time that none was."""
    on: dict[int, int] = {}
    there = each.pieces
    for entry in shop.history.latest_of_part(each.part.id):
        came, went = (_is_spot(place, each.position) for place in (entry.move.target, entry.move.source))
        if came and not went:
            on[entry.transaction] = on.get(entry.transaction, 0) + entry.move.qty
            there -= entry.move.qty
        elif went and not came:
            there += entry.move.qty
        if there <= 0:
            break
    return on


def _is_spot(place: Place, position: str) -> bool:
    """Return whether a place is where a joint is: a position, or none in another part."""
    if place.state is State.ASSEMBLED:
        return not position
    return place.state is State.INSTALLED and place.where == position


def new_words(new: int, not_booked: int) -> tuple[str, ...]:
    """Return what a reading says of the fasteners that it states.

    >>> new_words(4, 0), new_words(0, 1), new_words(2, 2)
    (('new fasteners',), ('new ones not booked',), ('2 new fasteners', '2 new ones not booked'))
    """
    if not (new and not_booked):
        return ("new fasteners" if new else "new ones not booked",)
    return (f"{new} new fasteners", f"{not_booked} new ones not booked")
