"""Work that goes on by itself, and is finished before the program ends."""

import asyncio
from collections.abc import Awaitable
from typing import Any

import structlog

_log = structlog.get_logger("wallside.desk")


class Errands:
    """Holds what was begun and is not yet done."""

    def __init__(self) -> None:
        self._under_way: set[asyncio.Task[Any]] = set()

    def begin(self, work: Awaitable[Any]) -> asyncio.Task[Any]:
        """Begin something; it goes on even if nobody waits for it any more."""
        task: asyncio.Task[Any] = asyncio.ensure_future(_awaited(work))
        self._under_way.add(task)
        task.add_done_callback(self._done)
        return task

    async def finish(self, patience: float) -> None:
        """Wait until all is done, for so many seconds at most."""
        await finished(self._under_way, patience)

    def _done(self, task: asyncio.Task[Any]) -> None:
        self._under_way.discard(task)
        if not task.cancelled() and (error := task.exception()) is not None:
            _log.info("an errand failed", error=type(error).__name__)


async def _awaited(work: Awaitable[Any]) -> Any:
    return await work


async def finished(tasks: set[asyncio.Task[Any]], patience: float) -> None:
    """Wait for tasks for as long as patience lasts, then end them."""
    if not tasks:
        return
    _, pending = await asyncio.wait(set(tasks), timeout=patience)
    for task in pending:
        task.cancel()
    await asyncio.gather(*pending, return_exceptions=True)


async def a_moment(seconds: float, ending: asyncio.Event) -> None:
    """Wait so many seconds, or until the end."""
    waiting = asyncio.create_task(ending.wait())
    await asyncio.wait({waiting}, timeout=seconds)
    waiting.cancel()
