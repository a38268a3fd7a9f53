"""Long work on the command line: how far it is, on standard error, and Ctrl+C between two steps."""

import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from threading import current_thread, main_thread
from time import monotonic
from types import FrameType

from shoptui.jobs.steps import StoppedError, telling

SHOWN_AFTER = 0.5
"""Seconds that nobody minds waiting for; after them it is said how far the work is."""

SHOWN_EVERY = 0.1
"""Seconds between two looks."""

ECHO = "^C"
"""What a terminal puts behind the line when Ctrl+C is pressed."""


@contextmanager
def under_way(unchanged: str) -> Iterator["Shown"]:
    """Show how far the work within is; Ctrl+C stops it before its next step, never in the middle of one.

    When the last step is done it is too late to stop: the work is then finished, and its result said. A
    second Ctrl+C does not wait.

    Args:
        unchanged: What to say of work that was stopped: `Nothing was imported.`

    Raises:
        KeyboardInterrupt: It was stopped; with the words.

    """
    shown = Shown()
    try:
        with _asked_to_stop(shown), telling(shown):
            yield shown
    except StoppedError as error:
        raise KeyboardInterrupt(f"Stopped. {unchanged}") from error
    finally:
        shown.clear()


class Shown:
    """One line that is written over itself, on a terminal only; `goes_on` until somebody asked to stop."""

    def __init__(self) -> None:
        self.goes_on = True
        self._next = monotonic() + SHOWN_AFTER
        self._width = 0

    def __call__(self, doing: str, at: int, all_: int) -> bool:
        """Show how far it is, and return whether it goes on."""
        if (now := monotonic()) >= self._next and sys.stderr.isatty():
            self._next = now + SHOWN_EVERY
            self._write(f"{doing}: {at} of {all_}. Ctrl+C stops it.")
        return self.goes_on

    def clear(self) -> None:
        """Take the line away again."""
        if self._width:
            self._width += len(ECHO)
            self._write("")
            self._width = 0

    def _write(self, words: str) -> None:
        blanks = " " * max(0, self._width - len(words))
        sys.stderr.write(f"\r{words}{blanks}" + ("" if words else "\r"))
        sys.stderr.flush()
        self._width = len(words)


@contextmanager
def _asked_to_stop(shown: Shown) -> Iterator[None]:
    def asked(_number: int, _frame: FrameType | None) -> None:
        if not shown.goes_on:
            raise KeyboardInterrupt
        shown.goes_on = False

    if current_thread() is not main_thread():  # only there can a signal be waited for
        yield
        return
    before = signal.signal(signal.SIGINT, asked)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
