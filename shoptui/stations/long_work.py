"""Work that takes longer than a blink: done by a thread, shown as it goes on, stopped by one key."""

import asyncio
from threading import Event
from typing import TYPE_CHECKING

from shoptui.jobs.answers import Answer, Work

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp

SHOWN_EVERY = 0.25
"""Seconds between two looks at how far it is."""


class LongWork:
    """What is under way, one after the other; the shop is only touched when it is done."""

    def __init__(self, app: "ShopApp") -> None:
        self._app = app
        self._stop: Event | None = None
        self._turn = asyncio.Lock()

    @property
    def under_way(self) -> bool:
        """Whether anything is."""
        return self._stop is not None

    def stop(self) -> None:
        """Stop what is under way; it says so itself as soon as it has."""
        if self._stop is not None:
            self._stop.set()

    def begin(self, answer: Answer, work: Work) -> None:
        """Begin some work of which an answer said that it would be done."""
        self._app.run_worker(self._do(answer, work), name="work")

    async def _do(self, answer: Answer, work: Work) -> None:
        async with self._turn:
            stopped = self._stop = Event()
            far = (0, 0)

            def go_on(done: int, all_: int) -> bool:
                nonlocal far
                far = (done, all_)
                return not stopped.is_set()

            task = asyncio.create_task(asyncio.to_thread(work.run, go_on))
            try:
                while not (await asyncio.wait({task}, timeout=SHOWN_EVERY))[0]:
                    answer = self._app.talk.say_instead(
                        answer, f"{work.words}, {_far(*far)}. Escape stops it."
                    )
            finally:
                # The program may be closing: a thread that nobody waits for must not hold it up.
                stopped.set()
                self._stop = None
            self._app.talk.later(lambda: work.finish(task.result()))


def _far(done: int, all_: int) -> str:
    """Say how far something is.

    >>> _far(50_000_000, 200_000_000)
    '50 of 200 MB'
    """
    return f"{done // 1_000_000} of {-(-all_ // 1_000_000)} MB"
