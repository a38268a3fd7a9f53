"""What a change of an order's lines or of its supplier moves in the ledger: only what is still to come."""

from collections import Counter
from collections.abc import Iterator

from shoptui.domain import verbs
from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.places import Place, State
from shoptui.domain.records import Order
from shoptui.jobs.asked import Sense
from shoptui.jobs.at import name
from shoptui.jobs.kit import contents


def order_moves(sense: Sense, before: Order | None, after: Order) -> Iterator[Move]:
    """Yield what is promised now and was not, and what is promised no longer.

    Raises:
        CannotMoveError: A line would be less than what came on it already.

    """
    shop = sense.shop
    if after.kind != "purchase":
        return
    was, now = _pieces(sense, before), _pieces(sense, after)
    other_seller = before is not None and before.supplier != after.supplier
    for part in dict.fromkeys((*was, *now)):
        there = shop.book.at(part, Place(State.ORDERED, after.id))
        still = there + now[part] - was[part]
        if still < 0:
            came = was[part] - there
            raise CannotMoveError(
                f"{came} of {was[part]} {name(shop.parts.get(part))} came already: leave {came} or more."
            )
        if before is not None and there and (other_seller or still < there):
            gone = there if other_seller else there - still
            yield from verbs.cancel(shop.book, part, gone, supplier=before.supplier, order=after.id)
        if (more := still if other_seller else still - there) > 0:
            yield from verbs.order(part, more, supplier=after.supplier, order=after.id)


def _pieces(sense: Sense, order: Order | None) -> Counter[int]:
    """Return the pieces of each part that an order's lines are of; a kit's are its contents."""
    found: Counter[int] = Counter()
    for line in order.lines if order else ():
        for part, qty in contents(sense.shop, sense.shop.parts.get(line.part), line.qty):
            found[part.id] += qty
    return found
