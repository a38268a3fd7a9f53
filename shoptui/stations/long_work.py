"""Work that takes longer than a blink: shown as it goes on, stopped by one key; else all goes on as ever."""

import asyncio
from threading import Event
from typing import TYPE_CHECKING

from shoptui.jobs.answers import Answer, Steps, Work, stop

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp

SHOWN_EVERY = 0.25
"""Seconds between two looks at how far it is."""


class LongWork:
    """What is under way: in a thread, where the shop is only touched when it is done; or step by step."""

    def __init__(self, app: "ShopApp") -> None:
        self._app = app
        self._stops: list[Event] = []
        self._turn = asyncio.Lock()

    @property
    def under_way(self) -> bool:
        """Whether anything is."""
        return bool(self._stops)

    def stop(self) -> None:
        """Stop what is under way; it says so itself as soon as it has."""
        for stopped in self._stops:
            stopped.set()

    def begin(self, answer: Answer, work: Work | Steps) -> None:
        """Begin some work of which an answer said that it would be done."""
        if isinstance(work, Steps):
            self._walk(answer, work)
        else:
            self._app.run_worker(self._do(answer, work), name="work")

    async def _do(self, answer: Answer, work: Work) -> None:
        async with self._turn:
            stopped = self._stoppable()
            far = (0, 0)

            def go_on(done: int, all_: int) -> bool:
                nonlocal far
                far = (done, all_)
                return not stopped.is_set()

            task = asyncio.create_task(asyncio.to_thread(work.run, go_on))
            try:
                while not (await asyncio.wait({task}, timeout=SHOWN_EVERY))[0]:
                    answer = self._say_far(answer, work, work.far(*far))
            finally:
                # The program may be closing: a thread that nobody waits for must not hold it up.
                stopped.set()
                self._stops.remove(stopped)
            self._app.jobs.later(lambda: work.finish(task.result()))

    def _walk(self, answer: Answer, work: Steps) -> None:
        """Take each step as a job of the queue: scans and keys have theirs between two of them."""
        stopped, steps = self._stoppable(), work.begin()

        def step() -> Answer | None:
            nonlocal answer
            ended = True
            try:
                if stopped.is_set():
                    return stop(f"{work.words}: stopped.")
                far = next(steps)
                ended = False
            except StopIteration as end:
                return end.value  # type: ignore[no-any-return]
            finally:
                if ended:
                    self._stops.remove(stopped)
            answer = self._say_far(answer, work, f"{far[0]} of {far[1]}")
            self._app.jobs.later(step)
            return None

        self._app.jobs.later(step)

    def _stoppable(self) -> Event:
        stopped = Event()
        self._stops.append(stopped)
        return stopped

    def _say_far(self, answer: Answer, work: Work | Steps, far: str) -> Answer:
        return self._app.hearing.say_instead(answer, f"{work.words}, {far}. Escape stops it.")
