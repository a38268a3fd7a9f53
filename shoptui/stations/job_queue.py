"""The one queue of jobs: answers come in the order of the scans, and a slow job never holds up the keys."""

import asyncio
from collections.abc import Callable

from shoptui.jobs.answers import Answer

Job = Callable[[], Answer | None]


class JobQueue:
    """Jobs that wait for their turn.

    Args:
        run: Runs one of them and says what it answered.

    """

    def __init__(self, run: Callable[[Job], object]) -> None:
        self._run = run
        self._jobs: asyncio.Queue[Job] = asyncio.Queue()

    def later(self, job: Job) -> None:
        """Put a job at the end of the queue."""
        self._jobs.put_nowait(job)

    async def work_through(self) -> None:
        """Run the jobs one after the other, for ever."""
        while True:
            self._run(await self._jobs.get())
            # Others get their turn: a hundred scans in the queue must not freeze the keys.
            await asyncio.sleep(0)

    @property
    def idle(self) -> bool:
        """Whether nothing waits to be done."""
        return self._jobs.empty()
