"""The box that lies open at this terminal, watched: somebody may close it elsewhere."""

from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer, Said
from shoptui.jobs.at import shown
from shoptui.store.shop import Shop


class OpenBox:
    """Remembers which box lay open when it was last looked at.

    Args:
        shop: The shop.
        terminal: Name of the terminal.

    """

    def __init__(self, shop: Shop, terminal: str) -> None:
        self._shop = shop
        self._terminal = terminal
        self._number = shop.box_index.open_at.get(terminal)

    def went_on(self) -> Answer | None:
        """Return words for the person here if the box was closed or taken over at another terminal since."""
        before, self._number = self._number, self._shop.box_index.open_at.get(self._terminal)
        if before is None or before == self._number:
            return None
        elsewhere = self._last_changed_at(before)
        if elsewhere == self._terminal:
            return None
        box = self._shop.boxes.get(before)
        how = "was closed at" if box.closed else "went on at"
        words = f"Box {shown(box.code)} {how} {inert(elsewhere)}; it is not open here any more."
        # Not done by anybody here, and the next scan would fall on the floor: it rings as a stop does.
        return Answer(Said.STOP, words, subject=box.id)

    def _last_changed_at(self, box: int) -> str:
        """Return the terminal that last said where a box lies open."""
        for edit in self._shop.history.edits_since(0):
            if (edit.table, edit.record) == ("boxes", box) and edit.field in ("open_at", "also_at", "closed"):
                return self._shop.history.transaction(edit.transaction).terminal
        return self._terminal
