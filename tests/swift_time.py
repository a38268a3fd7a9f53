"""Waiting that takes no time: once nothing is left to do, the clock jumps to what comes next.

What waits for a timer waits as long as ever by this clock, and always in the same order, however fast the
machine is. Time passes truly only while a thread is at work for the loop.
"""

import asyncio
import selectors
import time

A_ROUND = 0.0001
"""Seconds that a round of work takes, so that time goes on also where work never ends."""

A_BREATH = 0.02
"""Seconds between two keys, twice: slower than any scanner."""

A_MOMENT = 0.15
"""Seconds, longer than what waits for no hand to be so fast: a scanner's second end key, a list to narrow."""


class _Clock:
    """Seconds that have passed on all these loops; one of them runs at a time."""

    now = 0.0


class _Selector(selectors.DefaultSelector):
    """Waits for files and threads as ever, and for the time to pass not at all."""

    def __init__(self) -> None:
        super().__init__()
        self.at_work = 0
        """Threads whose results the loop waits for."""

    def select(self, timeout=None):
        if timeout is None or self.at_work:
            began = time.monotonic()
            ready = super().select(timeout)
            _Clock.now += time.monotonic() - began
            return ready
        ready = super().select(0)
        _Clock.now += A_ROUND if ready else max(A_ROUND, timeout)
        return ready


class SwiftLoop(asyncio.SelectorEventLoop):
    """An event loop that goes by this clock."""

    def __init__(self) -> None:
        self._swift = _Selector()
        super().__init__(self._swift)

    def time(self):
        return _Clock.now

    def run_in_executor(self, executor, func, *args):
        self._swift.at_work += 1
        future = super().run_in_executor(executor, func, *args)
        future.add_done_callback(self._thread_ended)
        return future

    def _thread_ended(self, _) -> None:
        self._swift.at_work -= 1


async def _idle(*_) -> None:
    """The clock goes on only when everything has been done: no need to watch the processor for that."""
    await asyncio.sleep(A_BREATH)


def go_swiftly(monkeypatch) -> None:
    """Let keys and timers go by the loop's clock, as they do outside, where both are the system's."""
    monkeypatch.setattr("textual._time.get_time", lambda: _Clock.now)
    monkeypatch.setattr("textual.app.wait_for_idle", _idle)
    monkeypatch.setattr("textual.pilot.wait_for_idle", _idle)


def run_swiftly(app):
    """Let an application that is run by itself, not in a test's loop, run on such a loop; return it."""

    def run(**options):
        with asyncio.Runner(loop_factory=SwiftLoop) as runner:
            return runner.run(app.run_async(**options))

    app.run = run
    return app


async def settled(app) -> None:
    """Wait until all is answered and drawn, and a moment longer."""
    await asyncio.sleep(A_MOMENT)
    while app.others.telling and app.is_running:  # noqa: ASYNC110 - the clock jumps: nothing is polled
        await asyncio.sleep(A_MOMENT)
