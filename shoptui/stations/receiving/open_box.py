"""The box that lies open at this terminal, watched: somebody may go on with it elsewhere."""

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
        self._number = shop.open_boxes.get(terminal)

    def went_on(self) -> Answer | None:
        """Return words for the person here if the box was taken over at another terminal since."""
        before, self._number = self._number, self._shop.open_boxes.get(self._terminal)
        if before is None or before == self._number:
            return None
        box = self._shop.boxes.get(before)
        if box.open_at in ("", self._terminal):
            return None
        words = f"Box {shown(box.code)} went on at {shown(box.open_at)}; it is not open here any more."
        # Not done by anybody here, and the next scan would fall on the floor: it rings as a stop does.
        return Answer(Said.STOP, words, subject=box.id)
