"""What the scanner sends, key by key, and whether its set-up is right."""

from typing import TYPE_CHECKING, cast

from textual import events
from textual.app import ComposeResult

from shoptui.stations.card import Card, Fact
from shoptui.stations.key_names import key_words
from shoptui.stations.marks import Tone
from shoptui.stations.page import Page
from shoptui.stations.scanner_trial import Trial

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp

PAUSE = 0.5
"""Seconds without a key after which the next key begins another trial."""


class ScannerPage(Page):
    """Shows each key of a scan; nothing scanned here does anything.

    Args:
        prefix: Name of the key that the scanner should send first.

    """

    def __init__(self, prefix: str) -> None:
        super().__init__()
        self._prefix = prefix
        self._trial = Trial("", prefix)
        self._last = 0.0

    def compose(self) -> ComposeResult:
        """One card holds the page."""
        yield Card()

    def on_mount(self) -> None:
        """Say what to do."""
        self.query_one(Card).border_title = self.BACK_WORDS
        self._show()

    def take_key(self, event: events.Key) -> bool:
        """Take a key of the scanner's; return whether it was taken."""
        keyboard = cast("ShopApp", self.app).keyboard
        if event.key in ("escape", *keyboard.keys("leave"), *keyboard.keys("leave_too")):
            return False
        if self._trial.ended and event.time - self._last > PAUSE:
            self._trial = Trial("", self._prefix)
        self._last = event.time
        self._trial.key(event.key, event.character, event.time)
        self._show()
        return True

    def _show(self) -> None:
        sent = self._trial.keys
        facts = [
            Fact("", "Scan any code now. Each key that the scanner sends is shown here and does nothing."),
            Fact("", f"Best is {key_words(self._prefix)} before the code and Enter after it."),
            Fact(),
        ]
        if sent:
            facts.append(Fact("keys", " | ".join(key.words for key in sent)))
            facts.append(Fact("text", self._trial.text))
            facts.append(Fact())
        if self._trial.ended:
            facts.append(Fact("Is it right?"))
            for finding in self._trial.findings():
                mark, tone = ("+", Tone.GOOD) if finding.right else ("!", Tone.BAD)
                facts.append(Fact("", f"{mark} {finding.words}", tone))
        self.query_one(Card).show("What the scanner sends", facts)
