"""Why pieces are held, in the words of whoever set them aside: the words say what to do."""

from shoptui.domain.places import State
from shoptui.store.shop import Shop


def why_held(shop: Shop, part: int) -> tuple[str, ...]:
    """Return the notes under which the held pieces of a part were set aside, the last one first.

    What was noted later, while they were held, counts too. A note is empty where somebody set pieces aside
    without a word; none are told for what is not held.
    """
    notes: dict[str, None] = {}
    left = shop.book.in_state(part, State.HELD)
    for entry in shop.history.latest_of_part(part):
        if left <= 0:
            break
        move = entry.move
        set_aside = move.source.state is not State.HELD
        if move.target.state is State.HELD and (set_aside or move.note):
            own = shop.history.transaction(entry.transaction)
            if own.undoes is None and not shop.history.is_undone(own.id):
                left -= move.qty if set_aside else 0
                notes[move.note] = None
    return tuple(note for note in notes if not any(other.startswith(f"{note}: ") for other in notes))
