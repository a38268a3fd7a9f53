"""A list and the card of its row: side by side where there is room, else one after the other."""

from textual.app import ComposeResult
from textual.containers import Container
from textual.reactive import reactive

from shoptui.stations.card import Card
from shoptui.stations.listed import Column
from shoptui.stations.long_list import LongList


class ListAndCard(Container):
    """Holds both; on a narrow screen `opened` says which of them is shown."""

    SCOPED_CSS = False  # whether there is room is a class of the screen
    DEFAULT_CSS = """
    ListAndCard {
        layout: horizontal;
        height: 1fr;
        & > Card { display: none; }
        &.-opened > LongList { display: none; }
        &.-opened > Card { display: block; }
    }
    Screen.-wide ListAndCard {
        & > LongList { display: block; width: 2fr; }
        & > Card { display: block; width: 1fr; border-left: solid $border; }
    }
    """

    opened: reactive[bool] = reactive(default=False)

    def __init__(self, *columns: Column, empty: str) -> None:
        super().__init__()
        self.list = LongList(*columns, empty=empty)
        self.card = Card()

    def compose(self) -> ComposeResult:
        """The list, then the card."""
        yield self.list
        yield self.card

    @property
    def card_is_seen(self) -> bool:
        """Whether the card can be seen: drawing one that cannot is work for nothing."""
        return self.opened or self.screen.has_class("-wide")

    def watch_opened(self, opened: bool) -> None:  # noqa: FBT001 - Textual calls it so
        """Show the card or the list, and let the arrow keys work in what is shown."""
        self.set_class(opened, "-opened")
        if (
            self.is_attached
            and self.screen.is_current
            and self.screen.focused in (self.list, self.card, None)
        ):
            target = self.card if opened and not self.screen.has_class("-wide") else self.list
            self.screen.set_focus(target, scroll_visible=False)
