"""The one thread on which the store is written, and another for making files."""

import asyncio
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from time import monotonic
from typing import TypeVar

T = TypeVar("T")


class Worker:
    """A single thread that runs plain functions in the order they come."""

    def __init__(self, name: str, *, tick: Callable[[], float] = monotonic) -> None:
        """Take a name for the thread.

        Args:
            name: Of the thread.
            tick: Seconds of a clock, by which it is told how long a piece of work takes.
        """
        self._pool = ThreadPoolExecutor(max_workers=1, thread_name_prefix=name)
        self._tick = tick
        self._since: float | None = None

    async def run(self, work: Callable[[], T]) -> T:
        """Run a function on the thread and return what it returns.

        A started piece of work is finished even if the caller is cancelled.
        """
        loop = asyncio.get_running_loop()
        return await asyncio.shield(loop.run_in_executor(self._pool, self._watched, work))

    def beat(self) -> None:
        """Say, on the thread, that a piece of work which takes long gets on."""
        self._since = self._tick()

    def hung_for(self) -> float:
        """Return for how many seconds the thread has not got on; 0 while it has nothing to do.

        However much waits for it: each piece of work that is done shows that it gets on.
        """
        since = self._since
        return 0.0 if since is None else self._tick() - since

    def close(self) -> None:
        """Wait for what is under way, then end the thread."""
        self._pool.shutdown(wait=True)

    def _watched(self, work: Callable[[], T]) -> T:
        self.beat()
        try:
            return work()
        finally:
            self._since = None
