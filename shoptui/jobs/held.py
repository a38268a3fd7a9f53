"""Why pieces are held, in the words of whoever set them aside: the words say what to do."""

from dataclasses import dataclass, replace

from shoptui.domain.inert import inert
from shoptui.domain.places import Place, State
from shoptui.store.history import Entry
from shoptui.store.shop import Shop


@dataclass(frozen=True, slots=True)
class HeldLot:
    """Pieces in one place that are held for the same reason.

    Args:
        qty: Pieces.
        notes: Why they were set aside, then what was noted later; empty where nobody wrote a word.
        since: Id of the move by which they were set aside: a later one is greater.

    """

    qty: int
    notes: tuple[str, ...]
    since: int


def held_lots(shop: Shop, part: int) -> dict[Place, list[HeldLot]]:
    """Return what is held of a part, by where it lies; in one place the longest held stands first.

    Followed through the history: what was put elsewhere while it was held is held for the same reason. Of
    several in one place the longest held are taken to leave it first.
    """
    lots: dict[Place, list[HeldLot]] = {}
    if shop.book.in_state(part, State.HELD) <= 0:
        return lots
    for entry in shop.history.moves_of_part(part):
        if State.HELD in (entry.move.source.state, entry.move.target.state):
            own = shop.history.transaction(entry.transaction)
            if own.undoes is None and not shop.history.is_undone(own.id):
                _follow(lots, entry)
    return {place: there for place, there in lots.items() if there}


def _follow(lots: dict[Place, list[HeldLot]], entry: Entry) -> None:
    """Let the lots stand as they do after one more move."""
    move = entry.move
    if move.source.state is not State.HELD:
        came = [HeldLot(move.qty, (), entry.id)]
    else:
        # What is noted is noted of what was set aside last.
        came = drawn(lots, move.source, move.qty, last=move.source == move.target)
    if move.note:
        came = [replace(lot, notes=(*lot.notes, move.note)) for lot in came]
    if move.target.state is State.HELD:
        lots.setdefault(move.target, []).extend(came)


def drawn(lots: dict[Place, list[HeldLot]], place: Place, qty: int, *, last: bool = False) -> list[HeldLot]:
    """Take so many pieces out of the lots of a place and return them: the longest held, or the last ones."""
    left, taken, stay = qty, list[HeldLot](), list[HeldLot]()
    there = lots.get(place, [])
    for lot in reversed(there) if last else there:
        goes = min(left, lot.qty)
        left -= goes
        taken += [replace(lot, qty=goes)] if goes else []
        stay += [replace(lot, qty=lot.qty - goes)] if lot.qty > goes else []
    lots[place] = stay[::-1] if last else stay
    return taken


def why_held(shop: Shop, part: int, place: Place | None = None) -> tuple[str, ...]:
    """Return the notes under which the held pieces of a part were set aside, the last one first.

    What was noted later, while they were held, counts too. A note is empty where somebody set pieces aside
    without a word; none are told for what is not held.

    Args:
        shop: The shop.
        part: Id of the part.
        place: Where they lie; None asks for all of them.

    """
    lots = held_lots(shop, part)
    there = [lot for at, held in lots.items() if place in (None, at) for lot in held]
    there.sort(key=lambda lot: lot.since, reverse=True)
    notes = dict.fromkeys(note for lot in there for note in reversed(lot.notes or ("",)))
    return tuple(note for note in notes if not any(other.startswith(f"{note}: ") for other in notes))


def why_words(shop: Shop, part: int, place: Place | None = None) -> str:
    """Return why pieces are held in one line, safe to show; empty where nobody wrote a word."""
    return ", ".join(inert(note, 80) for note in why_held(shop, part, place) if note)
