"""What came in each box, which box lies open where, and which boxes an order comes in."""

from shoptui.domain.places import State
from shoptui.store.database import Database
from shoptui.store.documents import Document, place_of

Pieces = dict[str, dict[int, int]]
"""Box code to part id to pieces."""

_OUTSIDE = (State.ORDERED, State.NOT_OURS, State.SENT_OUT)


class BoxIndex:
    """What every receiving scan asks of boxes: fed, never searched for.

    Args:
        database: Followed from now on.

    """

    def __init__(self, database: Database) -> None:
        self._received: Pieces = {}
        self._unasked: Pieces = {}
        self._held: Pieces = {}
        self.open_at: dict[str, int] = {}
        """Terminal to the box that lies open at it."""
        self.of_order: dict[int, set[int]] = {}
        """Order to its boxes, without those withdrawn."""
        database.listen("moves", self._move_changed)
        database.listen("boxes", self._box_changed)

    def received(self, code: str) -> dict[int, int]:
        """Return the pieces of each part that came in a box."""
        return self._received.get(code, {})

    def unasked(self, code: str) -> dict[int, int]:
        """Return those of them that came on no order."""
        return self._unasked.get(code, {})

    def held(self, code: str) -> dict[int, int]:
        """Return those of them that were set aside as they came."""
        return self._held.get(code, {})

    def _move_changed(self, _number: int, before: Document | None, after: Document | None) -> None:
        for document, sign in ((before, -1), (after, 1)):
            if document is None or not (box := document.get("ref")):
                continue
            part, qty = document["part"], document["qty"] * sign
            source, target = place_of(document["from"]).state, place_of(document["to"]).state
            # Pieces come in it, or that is taken back.
            came = qty * ((source in _OUTSIDE) - (target in _OUTSIDE))
            _count(self._received, box, part, came)
            if State.NOT_OURS in (source, target):
                _count(self._unasked, box, part, came)
            aside = (target is State.HELD) - (source is State.HELD)
            _count(self._held, box, part, qty * aside)

    def _box_changed(self, number: int, before: Document | None, after: Document | None) -> None:
        for terminal in _terminals_of(before):
            if self.open_at.get(terminal) == number:
                del self.open_at[terminal]
        for terminal in _terminals_of(after):
            self.open_at[terminal] = number
        for order in (before or {}).get("orders", ()):
            self.of_order.get(order, set()).discard(number)
        if after is not None and not after.get("withdrawn"):
            for order in after.get("orders", ()):
                self.of_order.setdefault(order, set()).add(number)


def _terminals_of(box: Document | None) -> tuple[str, ...]:
    """Return the terminals at which a box lies open."""
    if box is None or box.get("withdrawn") or not box.get("open_at"):
        return ()
    return (box["open_at"], *box.get("also_at", ()))


def _count(index: Pieces, box: str, part: int, qty: int) -> None:
    in_box = index.setdefault(box, {})
    in_box[part] = in_box.get(part, 0) + qty
