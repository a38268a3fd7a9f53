"""What the scanner sends, key by key, and whether that is right."""

from textual.screen import ModalScreen


class ScannerPage(ModalScreen[None]):
    """Shows each key that the scanner sends."""

    def __init__(self, prefix: str) -> None:
        super().__init__()
        self._prefix = prefix
