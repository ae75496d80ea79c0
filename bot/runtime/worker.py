"""The one thread on which the store is written, and another for making files."""

import asyncio
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

T = TypeVar("T")


class Worker:
    """A single thread that runs plain functions in the order they come."""

    def __init__(self, name: str) -> None:
        self._pool = ThreadPoolExecutor(max_workers=1, thread_name_prefix=name)

    async def run(self, work: Callable[[], T]) -> T:
        """Run a function on the thread and return what it returns.

        A started piece of work is finished even if the caller is cancelled.
        """
        loop = asyncio.get_running_loop()
        return await asyncio.shield(loop.run_in_executor(self._pool, work))

    def close(self) -> None:
        """Wait for what is under way, then end the thread."""
        self._pool.shutdown(wait=True)
