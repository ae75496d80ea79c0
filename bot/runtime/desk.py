"""The desk: where conductor, courier and alarms work together while the program runs."""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress
from datetime import datetime
from functools import partial

import structlog

from bot.engine.events import Failure
from bot.runtime.alarms import Alarms
from bot.runtime.conductor import Conductor, Step
from bot.runtime.courier import Courier
from bot.runtime.gathering import Gatherer
from bot.runtime.metrics import Metrics
from bot.runtime.ports import Channel, Clock, Inbound, Parcel, Presenter, Store
from bot.runtime.worker import Worker

_PATIENCE = 10.0
"""Seconds that a send under way may still take when the program is asked to end."""

_ANSWERS_WITHIN = 2.0
"""Seconds within which the store has to answer, to count as well."""

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
        metrics: Metrics | None = None,
    ) -> None:
        self.metrics = metrics or Metrics()
        self._store = store
        self._conductor = conductor
        self._clock = clock
        self._writer = Worker("writer")
        self._gatherer = Gatherer(store, self._writer)
        self._maker = Worker("maker")
        self._carrying: asyncio.Task[None] | None = None
        self._alarms = Alarms(store=store, clock=clock, writer=self._writer, ring=self._ring)
        self._courier = Courier(
            store=store,
            channel=channel,
            present=present,
            clock=clock,
            writer=self._writer,
            maker=self._maker,
            on_failure=self._failed,
            metrics=self.metrics,
        )

    @asynccontextmanager
    async def at_work(self) -> AsyncIterator[None]:
        """Run the courier and the alarms; on leaving, finish what is under way."""
        released = await self._writer.run(self._store.release_parcels)
        if released:
            _log.info("sending again what was under way at the last end", parcels=released)
        await self._alarms.start()
        self._carrying = carrying = asyncio.create_task(self._courier.run())
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
        step = await self._gatherer.run(lambda unit: self._conductor.handle_in(unit, inbound))
        self.metrics.arrived(type(inbound.event).__name__)
        self._follow(step)
        return step

    async def figures(self) -> bytes:
        """Return the program's figures, in Prometheus' text format."""
        return self.metrics.text(await self._writer.run(self._store.waiting))

    async def unwell(self) -> list[str]:
        """Return what is wrong; nothing when the store answers soon and the courier runs."""
        wrong = []
        try:
            async with asyncio.timeout(_ANSWERS_WITHIN):
                await self._writer.run(self._store.next_parcel_at)
        except TimeoutError:
            wrong.append("the store does not answer")
        except Exception as error:  # whatever it is, it is what whoever runs us has to know
            wrong.append(f"the store cannot be used: {type(error).__name__}")
        if self._carrying is None or self._carrying.done():
            wrong.append("nothing is being sent")
        return wrong

    async def _ring(self, conversation_id: str, due: datetime) -> None:
        now = self._clock.now()
        step = await self._gatherer.run(
            lambda unit: self._conductor.wake_in(unit, conversation_id, now)
        )
        if step is not None:
            self.metrics.woken(self._clock.now() - due)
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
