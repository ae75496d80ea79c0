"""Carries parcels from the outbox to the channel, and puts down what became of them."""

import asyncio
import time
from collections.abc import Awaitable, Callable
from datetime import timedelta
from typing import Final

import structlog

from bot.engine.effects import Revise
from bot.engine.events import Failure
from bot.runtime.metrics import Metrics
from bot.runtime.ports import (
    Channel,
    Clock,
    Delivery,
    Parcel,
    Presenter,
    Refused,
    Sent,
    Store,
    Unknown,
)
from bot.runtime.worker import Worker

LEASE: Final = timedelta(minutes=2)
"""How long a parcel is held for one try; past that another try may begin."""

_PATROL: Final = 30.0
"""Seconds after which the outbox is looked at unasked: the operator's commands write there."""

_log = structlog.get_logger("wallside.courier")


class Courier:
    """Sends what is in the outbox until it is told to stop."""

    def __init__(
        self,
        *,
        store: Store,
        channel: Channel,
        present: Presenter,
        clock: Clock,
        writer: Worker,
        maker: Worker,
        on_failure: Callable[[Parcel, Failure], Awaitable[None]],
        metrics: Metrics,
    ) -> None:
        self._store = store
        self._channel = channel
        self._present = present
        self._clock = clock
        self._writer = writer
        self._maker = maker
        self._on_failure = on_failure
        self._metrics = metrics
        self._work = asyncio.Event()
        self._closing = False

    def ring(self) -> None:
        """Say that there may be something to send."""
        self._work.set()

    def close(self) -> None:
        """Say that the parcel under way is the last one."""
        self._closing = True
        self._work.set()

    async def run(self) -> None:
        """Send until closed."""
        while not self._closing:
            self._work.clear()
            if not await self.carry_one() and not self._closing:
                await self._rest()

    async def carry_one(self) -> bool:
        """Send one parcel if one may be sent now; False when there was none."""
        now = self._clock.now()
        parcel = await self._writer.run(lambda: self._store.claim_parcel(now, LEASE))
        if parcel is None:
            return False
        begun = time.monotonic()
        delivery = await self._deliver(parcel)
        took = timedelta(seconds=time.monotonic() - begun)
        self._metrics.tried(parcel.effect.urgency, delivery, took)
        settled_at = self._clock.now()
        given_up = await self._writer.run(lambda: self._store.settle(parcel, delivery, settled_at))
        if given_up:
            failure = Failure.REFUSED if isinstance(delivery, Refused) else Failure.UNKNOWN
            self._metrics.gave_up(parcel.effect.urgency)
            _log.warning("gave up a parcel", parcel=parcel.id, failure=failure.value)
            await self._on_failure(parcel, failure)
        return True

    async def _deliver(self, parcel: Parcel) -> Delivery:
        try:
            bubble = await self._maker.run(
                lambda: self._present(parcel.effect, parcel.locale, parcel.kept)
            )
        except Exception:  # a parcel that cannot be made must not hold up all others
            _log.exception("could not make a parcel", parcel=parcel.id)
            return Refused()
        if isinstance(parcel.effect, Revise):
            if parcel.target is None:
                return Sent("")  # what it would change never arrived: nothing to do
            delivery = await self._channel.revise(parcel.address, parcel.target, bubble)
            # Only nice to see: never worth a second try.
            return Sent("") if isinstance(delivery, Unknown | Refused) else delivery
        return await self._channel.send(parcel.address, bubble)

    async def _rest(self) -> None:
        """Wait for the bell, for a parcel that had to wait, or for one of another process."""
        due = await self._writer.run(self._store.next_parcel_at)
        wait = _PATROL
        if due is not None:
            wait = min(wait, self._clock.wait(due).total_seconds() + 0.001)
        try:
            await asyncio.wait_for(self._work.wait(), timeout=wait)
        except TimeoutError:
            return
