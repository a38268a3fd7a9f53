"""What one line gave to another: which line that was, and which has what an old label is stuck on.

The ledger holds a gift as two moves, one entered right after the other: out of the line that gives, into the
line that gets.
"""

from shoptui.domain.inert import inert
from shoptui.domain.places import OFF_THE_BOOKS, OTHER_BUILD, Place, State
from shoptui.domain.records import Part
from shoptui.jobs.at import shown
from shoptui.store.history import Entry
from shoptui.store.shop import Shop

STOCK = "the shop's stock"


def build_words(shop: Shop, build: int | None) -> str:
    """Return whose list a line is on: a build's code, or the shop's stock."""
    return STOCK if build is None else inert(shop.builds.get(build).code)


def other_line(shop: Shop, entry: Entry) -> Part | None:
    """Return the line that got what a move gave, or gave what it got; None for any other move."""
    gave, got = _is_gift(entry.move.target, State.GONE), _is_gift(entry.move.source, State.NOT_OURS)
    other = shop.history.beside(entry, 1 if gave else -1) if gave != got else None
    part = shop.parts.get(other.move.part) if other is not None else None
    return None if part is None or part.withdrawn else part


def _is_gift(place: Place, state: State) -> bool:
    return place.state is state and place.where == OTHER_BUILD


def line_words(shop: Shop, part: Part) -> str:
    """Return a line as the other one's history names it: `coupe (P-7K3QXM)`."""
    return f"{build_words(shop, part.build)} ({shown(part.code)})"


def now_on(shop: Shop, part: Part) -> Part:
    """Return the line that has the pieces which a part's label is stuck on: itself, or the one that got them.

    A label stays on a piece that another line got. Where this line has none any more, nor is to get any, the
    last line that got some of it and still has them is meant.
    """
    seen = {part.id}
    line = part
    while not _has_any(shop, line):
        got = _got_last(shop, line)
        if got is None or got.id in seen:
            return part
        seen.add(got.id)
        line = got
    return line


def _has_any(shop: Shop, part: Part) -> bool:
    return any(qty > 0 and place.state not in OFF_THE_BOOKS for place, qty in shop.book.places(part.id))


def _got_last(shop: Shop, part: Part) -> Part | None:
    """Return the line that got pieces of a part last."""
    if not any(_is_gift(place, State.GONE) for place, _ in shop.book.places(part.id)):
        return None
    for entry in reversed(shop.history.moves_of_part(part.id)):
        if _is_gift(entry.move.target, State.GONE) and not shop.history.is_undone(entry.transaction):
            return other_line(shop, entry)
    return None
