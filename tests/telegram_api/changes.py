"""One lock for everything the server knows, and a way to wait until something became true."""

import asyncio
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TypeVar

T = TypeVar("T")


class Changes:
    """Guards the state against several threads and wakes whoever waits for a change.

    The tests, the server and the client under test may each live on a thread or a loop of their
    own, so waiting comes in two forms: one blocks a thread, the other a coroutine.
    """

    def __init__(self) -> None:
        self._condition = threading.Condition()
        self._wakers: set[Callable[[], None]] = set()

    @contextmanager
    def held(self) -> Iterator[None]:
        """Hold the lock in order to read."""
        with self._condition:
            yield

    @contextmanager
    def made(self) -> Iterator[None]:
        """Hold the lock in order to change something, and tell the waiting afterwards."""
        with self._condition:
            try:
                yield
            finally:
                self._condition.notify_all()
                for wake in self._wakers:
                    wake()

    def wait_for(self, predicate: Callable[[], T], timeout: float) -> T:
        """Block the thread until the predicate is truthy; return its last value in any case."""
        with self._condition:
            return self._condition.wait_for(predicate, timeout)

    async def until(self, predicate: Callable[[], T], timeout: float | None) -> T:  # noqa: ASYNC109 - a last look is due at the end, so cancelling will not do
        """Wait until the predicate is truthy; return its last value in any case."""
        loop = asyncio.get_running_loop()
        changed = asyncio.Event()
        deadline = None if timeout is None else loop.time() + timeout

        def wake() -> None:
            loop.call_soon_threadsafe(changed.set)

        with self._condition:
            self._wakers.add(wake)
        try:
            while True:
                changed.clear()
                with self._condition:
                    found = predicate()
                if found or (deadline is not None and loop.time() >= deadline):
                    return found
                try:
                    async with asyncio.timeout_at(deadline):
                        await changed.wait()
                except TimeoutError:
                    pass
        finally:
            with self._condition:
                self._wakers.discard(wake)
