"""Units of work that wait at the same time are committed at once.

A commit costs a sync of the disk, whatever is in it. While the writer is busy others come in; they
go into its next transaction together, each in a part of it that can fail alone. None of them is
answered before the commit, so what was promised for one unit of work holds for each.
"""

import asyncio
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any, Final, TypeVar

from bot.runtime.ports import Store, UnitOfWork
from bot.runtime.worker import Worker

MOST: Final = 32
"""Units in one transaction: a sync is then 3 % of the work, and nobody waits for it for long."""

T = TypeVar("T")
Work = Callable[[UnitOfWork], Any]


@dataclass(frozen=True, slots=True)
class _Failed:
    """What a unit of work came to that failed."""

    error: Exception


class Gatherer:
    """Runs units of work on the thread that writes, in the order they come."""

    def __init__(self, store: Store, writer: Worker) -> None:
        self._store = store
        self._writer = writer
        self._waiting: deque[tuple[Work, asyncio.Future[Any]]] = deque()
        self._serving: asyncio.Task[None] | None = None

    async def run(self, work: Callable[[UnitOfWork], T]) -> T:
        """Run a piece of work in a unit of its own; when this returns, it is durable.

        It is done even if the caller is cancelled meanwhile. It may be run twice, if the
        transaction that it was in could not be committed.
        """
        loop = asyncio.get_running_loop()
        answer: asyncio.Future[T] = loop.create_future()
        self._waiting.append((work, answer))
        if self._serving is None:
            self._serving = loop.create_task(self._serve())
        return await answer

    async def _serve(self) -> None:
        try:
            while self._waiting:
                taken = [self._waiting.popleft() for _ in range(min(MOST, len(self._waiting)))]
                works = [work for work, _ in taken]
                try:
                    outcomes = await self._writer.run(partial(self._carry, works))
                except Exception as error:  # the writer is closed: nobody may wait for ever
                    outcomes = [_Failed(error)] * len(taken)
                for (_, answer), outcome in zip(taken, outcomes, strict=True):
                    _tell(answer, outcome)
        finally:
            self._serving = None

    def _carry(self, works: list[Work]) -> list[Any]:
        """Do all in one transaction; if that cannot be committed, each in one of its own."""
        if len(works) > 1:
            try:
                with self._store.together() as unit:
                    return [self._attempted(unit, work) for work in works]
            except Exception:  # whatever it was, each is told its own
                return [self._attempted(self._store.unit, work) for work in works]
        return [self._attempted(self._store.unit, work) for work in works]

    def _attempted(self, unit: Callable[[], Any], work: Work) -> Any:
        self._writer.beat()
        try:
            with unit() as opened:
                return work(opened)
        except Exception as error:  # it is its caller's, and takes nobody else along
            return _Failed(error)


def _tell(answer: asyncio.Future[Any], outcome: Any) -> None:
    if answer.done():
        return  # whoever asked was cancelled
    if isinstance(outcome, _Failed):
        answer.set_exception(outcome.error)
    else:
        answer.set_result(outcome)
