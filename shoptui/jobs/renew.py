"""New fasteners where a joint that may be tightened once is tightened again: the old ones are scrap."""

from shoptui.domain.fasteners.hardware import thread_of
from shoptui.domain.ledger import Move
from shoptui.domain.places import Place, State
from shoptui.domain.records import Part, What
from shoptui.jobs.fastened import SCRAP, on_it, put_on
from shoptui.jobs.joints import JointAt
from shoptui.store.shop import Shop


def renewed(shop: Shop, each: JointAt, count: int) -> tuple[Move, ...]:
    """Return the moves of new fasteners for a joint whose own were tightened since the part went on.

    Those that went on with the part were new then, and are not taken twice.
    """
    if not each.joint.one_use or not _tightened_before(shop, each):
        return ()
    thread = thread_of(each.joint.designation)
    kinds = (shop.parts.get(number) for number in on_it(shop, each.part.id))
    kind = next((each for each in kinds if each.one_use and thread_of(each.designation) == thread), None)
    if kind is None:
        return ()
    there = Place(State.INSTALLED, each.part.id)
    off = min(count, shop.book.at(kind.id, there))
    old = (Move(kind.id, off, there, Place(State.GONE, SCRAP)),) if off else ()
    return (*old, *put_on(shop, each.part, kind, count))


def _tightened_before(shop: Shop, each: JointAt) -> bool:
    since = _went_on(shop, each.part, each.position)
    counted = {row.id for row in each.counted}
    return any(
        row.what is What.TIGHTENED
        and (row.joint, row.position) == (each.joint.name, each.position)
        and row.transaction >= since
        and row.id not in counted
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
