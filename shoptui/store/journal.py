"""Where transactions go: one record each, in one order for everybody.

`Journal` is the seam: all that the store asks for. A file does it for one machine (`file_journal.py`);
anything else that keeps one order and tells when it has moved could do it for several.
"""

from contextlib import AbstractContextManager
from typing import NamedTuple, Protocol

from shoptui.store.errors import StoreError


class Position(NamedTuple):
    """A place between two records: everything before it has been read."""

    generation: int
    offset: int


class HeadMovedError(StoreError):
    """Somebody appended in the meantime; read on and try again."""

    def __init__(self) -> None:
        super().__init__("Another program changed the store in the meantime. Do it again.")


class OutrunError(StoreError):
    """What follows a position is gone from the journal; only the snapshot still has it."""

    def __init__(self) -> None:
        super().__init__("The store has moved on by several generations and is read afresh.")


class Journal(Protocol):
    """What the store asks of a journal."""

    def turn(self) -> AbstractContextManager[None]:
        """Keep others from appending; raise BusyError if they keep us waiting too long."""

    def read(self, after: Position) -> tuple[tuple[bytes, ...], Position]:
        """Return the records after a position, and the next position; raise OutrunError if they are gone."""

    def append(self, record: bytes, head: Position) -> Position:
        """Add a record durably if the head is still here, in one's turn; return the new head.

        Raises:
            HeadMovedError: If it is not.
            WriteFailedError: If the record could not be made durable; it is not there then.

        """

    def wait(self, after: Position, seconds: float) -> bool:
        """Wait until there is something after a position; return whether there is."""
