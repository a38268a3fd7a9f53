"""New fasteners where a joint that may be tightened once is tightened again: the old ones are scrap."""

from shoptui.domain.fasteners.hardware import thread_of
from shoptui.domain.ledger import Move
from shoptui.domain.places import UNKNOWN, Place, State
from shoptui.domain.records import Part, What
from shoptui.jobs.fastened import SCRAP, on_it, put_on, sources
from shoptui.jobs.joints import JointAt
from shoptui.store.shop import Shop


def renewed(shop: Shop, each: JointAt, count: int) -> tuple[Move, ...]:
    """Return the moves of new fasteners for a joint whose own were tightened since the part went on.

    Those that went on with the part were new then, and are not taken twice.
    """
    kind, again = _kind(shop, each), _again(shop, each, count)
    if kind is None or not again:
        return ()
    there = Place(State.INSTALLED, each.part.id)
    off = min(again, shop.book.at(kind.id, there))
    old = (Move(kind.id, off, there, Place(State.GONE, SCRAP)),) if off else ()
    return (*old, *put_on(shop, each.part, kind, again))


def new_ones_booked(shop: Shop, each: JointAt, count: int) -> int:
    """Return how many of the fasteners that are tightened now are new by the books.

    All of them, where the part's hardware has none of that thread: then the books know nothing of them.
    """
    kind = _kind(shop, each)
    if kind is None:
        return count
    again = _again(shop, each, count)
    in_stock = sum(shop.book.at(kind.id, place) for place in sources(shop, each.part, kind))
    first, tightened = count - again, each.wanted - each.left
    went_on = max(0, each.wanted - _from_nowhere(shop, each, kind) - tightened)
    return min(first, went_on) + min(again, in_stock)


def _kind(shop: Shop, each: JointAt) -> Part | None:
    """Return the hardware of one use that is on with the part and has the joint's thread."""
    if not each.joint.one_use:
        return None
    thread = thread_of(each.joint.designation)
    kinds = (shop.parts.get(number) for number in on_it(shop, each.part.id))
    return next((kind for kind in kinds if kind.one_use and thread_of(kind.designation) == thread), None)


def _from_nowhere(shop: Shop, each: JointAt, kind: Part) -> int:
    """Return how many went on with the part though none was booked."""
    since = _went_on(shop, each.part, each.position)
    missing = 0
    for entry in shop.history.latest_of_part(kind.id):
        if entry.transaction < since:
            break
        if entry.transaction == since and entry.move.source == Place(State.NOT_OURS, UNKNOWN):
            missing += entry.move.qty
    return missing


def _again(shop: Shop, each: JointAt, count: int) -> int:
    """Return how many of so many were tightened before; those that were not come first."""
    outside = sum(row.fasteners for row in each.outside)
    turned = each.left if _tightened_before(shop, each) else outside
    return max(0, count - max(0, each.left - turned))


def _tightened_before(shop: Shop, each: JointAt) -> bool:
    since = _went_on(shop, each.part, each.position)
    now = {row.id for row in (*each.counted, *each.outside)}
    return any(
        row.what is What.TIGHTENED
        and (row.joint, row.position) == (each.joint.name, each.position)
        and row.transaction >= since
        and row.id not in now
        and shop.readings.struck_by(row.id) is None
        for row in shop.readings.of_part(each.part.id)
    )


def _went_on(shop: Shop, part: Part, position: str) -> int:
    """Return the transaction in which a part went on where it is."""
    for entry in shop.history.latest_of_part(part.id):
        target = entry.move.target
        if target.state is State.INSTALLED and target.where == position:
            return entry.transaction
    return 0


def new_words(new: int, not_booked: int) -> tuple[str, ...]:
    """Return what a reading says of the fasteners that it states.

    >>> new_words(4, 0), new_words(0, 1), new_words(2, 2)
    (('new fasteners',), ('new ones not booked',), ('2 new fasteners', '2 new ones not booked'))
    """
    if not (new and not_booked):
        return ("new fasteners" if new else "new ones not booked",)
    return (f"{new} new fasteners", f"{not_booked} new ones not booked")
