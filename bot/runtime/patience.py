"""Work on the store that does not give up: a conflict is tried again, an absence is waited for."""

import asyncio
import random
from collections.abc import Awaitable, Callable
from time import monotonic
from typing import Final, TypeVar

import structlog

from bot.errors import ConflictError, UnavailableError
from bot.runtime.metrics import Metrics
from bot.runtime.worker import Worker

T = TypeVar("T")

TRIES: Final = 8
"""How often a unit of work is tried that others are in the way of (design choice: with the pauses
below about two seconds; the lock of a conversation is held for milliseconds)."""

_FIRST_S: Final = 0.01
_LONGEST_S: Final = 0.5
_AWAY_FIRST_S: Final = 0.05
_AWAY_LONGEST_S: Final = 1.0
"""Pauses in seconds; each is twice the one before, up to the longest (design choice: a database
that was restarted is found again within a second)."""

_log = structlog.get_logger("wallside.store")


class PatientWorker:
    """Runs functions on a worker's thread, again and again until the store has taken them."""

    def __init__(
        self,
        worker: Worker,
        metrics: Metrics,
        *,
        chance: Callable[[], float] = random.random,
        sleep: Callable[[float], Awaitable[None]] = asyncio.sleep,
    ) -> None:
        """Take the thread.

        Args:
            worker: Where functions run.
            metrics: Where it is counted.
            chance: Returns a number from 0 up to 1; two who collide do not collide again.
            sleep: Waits so many seconds.
        """
        self._worker = worker
        self._metrics = metrics
        self._chance = chance
        self._sleep = sleep
        self._away = 0

    @property
    def away(self) -> bool:
        """Whether somebody is waiting for a store that cannot be reached."""
        return self._away > 0

    async def run(self, work: Callable[[], T], *, within: float | None = None) -> T:
        """Run a function whose effect is all or nothing, until it succeeds.

        Args:
            work: The function. When its outcome is unknown it is run again.
            within: For how many seconds a store that is away is waited for; without it, for ever.

        Raises:
            ConflictError: Others were in the way each time.
            UnavailableError: The store has not come back in time.
        """
        try:
            return await self._worker.run(work)
        except ConflictError:
            self._metrics.conflicted()
            return await self._again(work, within, met=1)
        except UnavailableError:
            return await self._again(work, within, met=0)

    async def _again(self, work: Callable[[], T], within: float | None, *, met: int) -> T:
        began, absences = monotonic(), 0
        try:
            while True:
                if met:
                    await self._pause(_FIRST_S, met, _LONGEST_S)
                else:
                    absences = self._miss(absences)
                    await self._pause(_AWAY_FIRST_S, absences, _AWAY_LONGEST_S)
                try:
                    return await self._worker.run(work)
                except ConflictError:
                    met += 1
                    self._metrics.conflicted()
                    if met >= TRIES:
                        raise
                except UnavailableError:
                    met = 0
                    if within is not None and monotonic() - began > within:
                        raise
        finally:
            if absences:
                self._away -= 1
                if not self._away:
                    _log.info("the store is no longer waited for")

    def _miss(self, absences: int) -> int:
        if not absences:
            self._away += 1
            if self._away == 1:
                _log.warning("the store cannot be reached; waiting for it")
        return absences + 1

    async def _pause(self, first: float, count: int, longest: float) -> None:
        whole = min(longest, first * 2 ** min(count - 1, 10))
        await self._sleep(whole * (0.5 + self._chance() / 2))
