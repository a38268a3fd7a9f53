"""An app of one label that counts scans and repaints on Enter: what the screens are measured beside."""

from textual import events
from textual.app import App, ComposeResult
from textual.widgets import Static


class OneLabel(App[None]):
    """Shows how many Enters came."""

    def __init__(self) -> None:
        super().__init__()
        self.count = 0
        self.label = Static("scan 0.")

    def compose(self) -> ComposeResult:
        """The label."""
        yield self.label

    def on_key(self, event: events.Key) -> None:
        """Count what ends a scan."""
        if event.key == "enter":
            self.count += 1
            self.label.update(f"scan {self.count}.")


if __name__ == "__main__":
    OneLabel().run()
