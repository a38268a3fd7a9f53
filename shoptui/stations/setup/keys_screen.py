"""The list of keys, over Set-up: each with what it does, and a new one for it."""

from collections.abc import Callable, Iterable

from textual import events
from textual.widget import Widget

from shoptui.jobs.answers import Answer, Question, stop
from shoptui.stations.keyboard import Keyboard
from shoptui.stations.list_and_card import ListAndCard
from shoptui.stations.long_list import LongList
from shoptui.stations.setup.key_list import (
    ALL_USUAL,
    KEY_COLUMNS,
    NEW_KEY,
    NO_LETTERS,
    NewKey,
    key_facts,
    key_rows,
    restore,
)
from shoptui.stations.station import CardStation


class KeysScreen(CardStation):
    """All keys; Enter on a line asks for another one."""

    station_name = "setup"

    def __init__(self) -> None:
        super().__init__()
        self._new_key: NewKey | None = None

    def body(self) -> Iterable[Widget]:
        """A list and its card."""
        yield ListAndCard(*KEY_COLUMNS, empty="Nothing has a key.")

    def heading(self) -> str:
        """Return whose keys they are."""
        return "Keys of this person on this machine. Enter changes one"

    def reload(self) -> None:
        """Read the keys again."""
        self.shown_list().set_rows(list(key_rows(self.shop_app.keyboard)))
        self._show_card()

    def on_long_list_pointed(self, message: LongList.Pointed) -> None:
        """The card follows the list."""
        message.stop()
        self._show_card()

    def _show_card(self) -> None:
        keyboard, row = self.shop_app.keyboard, self.shown_list().row
        action = keyboard.actions.get(str(row.key)) if row is not None else None
        self.both.card.show("Keys", key_facts(keyboard, action))

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Ask for the new key of a line, or whether all shall be as usual."""
        message.stop()
        asking, keyboard, name = self.shop_app.asking, self.shop_app.keyboard, str(message.row.key)
        if name == ALL_USUAL:
            question = Question(yes=lambda: self._changed(restore))
            asking.ask_for("Give every action its usual key again? Enter does.", question)
        else:
            self._new_key = NewKey(keyboard, keyboard.actions[name])
            asking.ask_for(self._new_key.asked, Question(), kind=NEW_KEY)

    def take_key(self, event: events.Key) -> bool:
        """Take the new key of a line, if one is waited for."""
        asking, waiting = self.shop_app.asking, self._new_key
        if waiting is None or not asking.is_asking(NEW_KEY) or event.key == "escape":
            return False
        if waiting.goes_on(event):
            asking.settle(stop(f"{NO_LETTERS} Nothing changed; Enter on the line asks again."))
            return False
        asking.settle(self._changed(lambda _: waiting.take(event.key)))
        return True

    def _changed(self, change: Callable[[Keyboard], Answer]) -> Answer:
        """Change keys, and go by them from now on."""
        answer = change(self.shop_app.keyboard)
        self.shop_app.keys_changed()
        self.reread()
        return answer

    def step_back(self) -> None:
        """Back to Set-up."""
        self.shop_app.clear_line()
        self.dismiss()
