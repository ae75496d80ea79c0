"""The desk: where conductor, courier and alarms work together while the program runs."""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress
from functools import partial

import structlog

from bot.engine.events import Failure
from bot.runtime.alarms import Alarms
from bot.runtime.conductor import Conductor, Step
from bot.runtime.courier import Courier
from bot.runtime.ports import Channel, Clock, Inbound, Parcel, Presenter, Store
from bot.runtime.worker import Worker

_PATIENCE = 10.0
"""Seconds that a send under way may still take when the program is asked to end."""

_log = structlog.get_logger("wallside.desk")


class Desk:
    """Takes arrivals in, keeps alarms in step with conversations, and rings the courier."""

    def __init__(
        self,
        *,
        store: Store,
        conductor: Conductor,
        channel: Channel,
        present: Presenter,
        clock: Clock,
    ) -> None:
        self._store = store
        self._conductor = conductor
        self._clock = clock
        self._writer = Worker("writer")
        self._maker = Worker("maker")
        self._alarms = Alarms(store=store, clock=clock, writer=self._writer, ring=self._ring)
        self._courier = Courier(
            store=store,
            channel=channel,
            present=present,
            clock=clock,
            writer=self._writer,
            maker=self._maker,
            on_failure=self._failed,
        )

    @asynccontextmanager
    async def at_work(self) -> AsyncIterator[None]:
        """Run the courier and the alarms; on leaving, finish what is under way."""
        released = await self._writer.run(self._store.release_parcels)
        if released:
            _log.info("sending again what was under way at the last end", parcels=released)
        await self._alarms.start()
        carrying = asyncio.create_task(self._courier.run())
        try:
            yield
        finally:
            self._alarms.stop()
            self._courier.close()
            with suppress(TimeoutError):
                await asyncio.wait_for(carrying, timeout=_PATIENCE)
            await asyncio.to_thread(self._writer.close)
            await asyncio.to_thread(self._maker.close)

    async def take(self, inbound: Inbound) -> Step:
        """Take in one arrival; when this returns it is durable and may be acknowledged."""
        step = await self._writer.run(partial(self._conductor.handle, inbound))
        self._follow(step)
        return step

    async def _ring(self, conversation_id: str) -> None:
        now = self._clock.now()
        step = await self._writer.run(partial(self._conductor.wake, conversation_id, now))
        if step is not None:
            self._follow(step)

    async def _failed(self, parcel: Parcel, failure: Failure) -> None:
        tell = partial(
            self._conductor.delivery_failed,
            parcel.conversation_id,
            parcel.effect.number,
            failure,
            self._clock.now(),
        )
        step = await self._writer.run(tell)
        if step is not None:
            self._follow(step)

    def _follow(self, step: Step) -> None:
        for conversation_id, wake_at in ((step.conversation_id, step.wake_at), *step.others):
            self._alarms.arm(conversation_id, wake_at)
        self._courier.ring()
