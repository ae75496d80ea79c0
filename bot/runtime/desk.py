"""The desk: where conductor, courier and alarms work together while the program runs.

Any number of desks may take arrivals for one store; one of them leads, which alone sends and keeps
time. The others tell it by a bell what they have put down.
"""

import asyncio
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from datetime import datetime
from functools import partial
from typing import Any, Final

import structlog

from bot.engine.events import Blocked, Failure
from bot.errors import SettingsError
from bot.runtime.alarms import Alarms
from bot.runtime.alone import Alone, NoBell
from bot.runtime.conductor import Conductor, Step
from bot.runtime.courier import Courier, nobody
from bot.runtime.door import Answer, Door
from bot.runtime.errands import Errands, a_moment, finished
from bot.runtime.gathering import Gatherer
from bot.runtime.metrics import Metrics
from bot.runtime.patience import PatientWorker
from bot.runtime.ports import (
    Bell,
    Bubble,
    Channel,
    Clock,
    Inbound,
    Leadership,
    Parcel,
    Presenter,
    Store,
    Woken,
)
from bot.runtime.worker import Worker

_PATIENCE: Final = 10.0
"""Seconds that a send under way may still take when the program is asked to end."""

_ANSWERS_WITHIN: Final = 2.0
"""Seconds within which the store has to answer, to count as well."""

_ASKED_EVERY: Final = 0.5
"""Seconds after which a leader makes sure that it still leads, and another tries to."""

_log = structlog.get_logger("wallside.desk")


class Desk:
    """Takes arrivals in; while it leads it keeps alarms, and rings the courier."""

    def __init__(
        self,
        *,
        store: Store,
        conductor: Conductor,
        channel: Channel,
        present: Presenter,
        clock: Clock,
        metrics: Metrics | None = None,
        leadership: Leadership | None = None,
        bell: Bell | None = None,
        is_group: Callable[[str], bool] = nobody,
        turned_away: Callable[[Answer, str | None], Bubble] | None = None,
    ) -> None:
        """Take the parts.

        Args:
            store: Where everything is kept.
            conductor: Carries events to conversations.
            channel: What sends.
            present: Puts effects into words and pictures.
            clock: The time of the conversations.
            metrics: Where it is counted.
            leadership: The right to send; without it, nobody else can have it.
            bell: How those who share the store tell the leader; without it, there are none.
            is_group: Whether an address is that of a group.
            turned_away: What is said, once, to a chat from which something is not taken, by why,
                and by the language tag of its client; without it, everything is taken.
        """
        self.metrics = metrics or Metrics()
        self.leading = False
        self._stumbled = False
        self._store = store
        self._conductor = conductor
        self._channel = channel
        self._clock = clock
        self._door = Door()
        self._turned_away = turned_away
        self._leadership = leadership or Alone()
        self._bell = bell or NoBell()
        self._thread = Worker("writer")
        self._others = (Worker("speaker"), Worker("maker"), Worker("lead"))
        speaker, maker, self._lead_thread = self._others
        self._writer = PatientWorker(self._thread, self.metrics)
        self._gatherer = Gatherer(store, self._thread)
        self._reigning: asyncio.Task[None] | None = None
        self._carrying: asyncio.Task[None] | None = None
        self._known = asyncio.Event()
        self._ending = asyncio.Event()
        self._errands = Errands()
        self._alarms = Alarms(store=store, clock=clock, writer=self._writer, ring=self._ring)
        self._courier = Courier(
            store=store,
            channel=channel,
            present=present,
            clock=clock,
            writer=self._writer,
            speaker=speaker,
            maker=maker,
            on_failure=self._failed,
            metrics=self.metrics,
            is_group=is_group,
            leads=self._leadership.trusted,
        )

    @asynccontextmanager
    async def at_work(
        self, while_leading: Callable[[], Awaitable[None]] | None = None
    ) -> AsyncIterator[None]:
        """Lead whenever nobody else does; on leaving, finish what is under way.

        Args:
            while_leading: What else only the leader does; cancelled when it no longer leads.
        """
        loop = asyncio.get_running_loop()

        def rang(woken: Woken) -> None:
            loop.call_soon_threadsafe(self._rang, woken)

        unlisten = self._bell.listen(rang)
        self._reigning = asyncio.create_task(self._keep_leading(while_leading))
        known = asyncio.create_task(self._known.wait())
        await asyncio.wait({known, self._reigning}, return_when=asyncio.FIRST_COMPLETED)
        known.cancel()
        try:
            yield
        finally:
            self._ending.set()
            self._courier.close()
            await finished({self._reigning}, _PATIENCE)
            await self._errands.finish(_PATIENCE)
            await asyncio.to_thread(unlisten)
            for thread in (self._thread, *self._others):
                await asyncio.to_thread(thread.close)

    async def ended(self) -> None:
        """Wait until this desk can no longer lead, which is for ever unless something is wrong.

        Raises:
            SettingsError: As `while_leading` raised it.
        """
        if self._reigning is not None:
            await asyncio.shield(self._reigning)

    async def take(self, inbound: Inbound, *, within: float | None = None) -> Step:
        """Take in one arrival; when this returns it is durable and may be acknowledged.

        What was begun is finished even if the caller is cancelled.

        Args:
            inbound: The arrival.
            within: For how many seconds a store that is away is waited for; else for ever.

        Raises:
            ConflictError: Others were in the way each time; nothing was changed.
            UnavailableError: The store has not come back in time.
        """
        if self._turned_away is not None and not await self._lets_in(inbound, within):
            return Step(conversation_id="", wake_at=None, fresh=False)
        return await asyncio.shield(self._errands.begin(self._take(inbound, within)))

    async def _lets_in(self, inbound: Inbound, within: float | None) -> bool:
        """Whether an arrival is taken; who is not heard is told so, once."""
        answer = self._door.knock(inbound.address, inbound.event)
        if answer is Answer.DEPENDS:
            asked = partial(self._conductor.knows, inbound.address)
            known = await self._writer.run(asked, within=within)
            self._door.learn(inbound.address, known=known)
            answer = self._door.knock(inbound.address, inbound.event)
        if answer is Answer.TAKEN:
            return True
        self.metrics.turned_away()
        if self._turned_away is not None and answer in {Answer.SAID_ONCE, Answer.BUSY}:
            said = self._turned_away(answer, inbound.language)
            self._errands.begin(self._channel.send(inbound.address, said))
        return False

    async def _take(self, inbound: Inbound, within: float | None) -> Step:
        step = await self._writer.patiently(
            lambda: self._gatherer.run(lambda unit: self._conductor.handle_in(unit, inbound)),
            within=within,
        )
        self.metrics.arrived(type(inbound.event).__name__)
        if isinstance(inbound.event, Blocked):
            self._courier.blocked_by(step.conversation_id)
        else:
            self._courier.heard_from(step.conversation_id)
        self._follow(step)
        return step

    async def figures(self) -> bytes:
        """Return the program's figures, in Prometheus' text format."""
        try:
            async with asyncio.timeout(_ANSWERS_WITHIN):
                waiting = await self._thread.run(self._store.waiting)
        except Exception:  # without the store there is still much to tell
            return self.metrics.text(None)
        return self.metrics.text(waiting)

    async def unwell(self) -> list[str]:
        """Return what is wrong; nothing when the store answers soon and the courier runs."""
        wrong = []
        try:
            async with asyncio.timeout(_ANSWERS_WITHIN):
                await self._thread.run(self._store.next_parcel_at)
        except TimeoutError:
            wrong.append("the store does not answer")
        except Exception as error:  # whatever it is, it is what whoever runs us has to know
            wrong.append(f"the store cannot be used: {type(error).__name__}")
        if self._stumbled or self._reigning is None or self._reigning.done():
            wrong.append("nothing is being sent")
        return wrong

    def role(self) -> str:
        """Return what this process is among those that share the store."""
        return "leader" if self.leading else "standby"

    # -- leading

    async def _keep_leading(self, while_leading: Callable[[], Awaitable[None]] | None) -> None:
        try:
            while not self._ending.is_set():
                try:
                    if await self._may_lead(self._leadership.acquire):
                        await self._reign(while_leading)
                except SettingsError:
                    raise
                except Exception:  # tried again; until then its health says so
                    self._stumbled = True
                    _log.exception("could not lead")
                self._known.set()
                await a_moment(_ASKED_EVERY, self._ending)
        finally:
            await self._lead_thread.run(self._leadership.release)

    async def _may_lead(self, asked: Callable[[float], bool]) -> bool:
        return await self._lead_thread.run(partial(asked, self._thread.hung_for()))

    async def _reign(self, while_leading: Callable[[], Awaitable[None]] | None) -> None:
        """Send and keep time for as long as we lead."""
        tasks: set[asyncio.Task[Any]] = {asyncio.create_task(self._begin(while_leading))}
        try:
            while not self._ending.is_set():
                done, _ = await asyncio.wait(
                    {*tasks, *([self._carrying] if self._carrying else [])},
                    timeout=_ASKED_EVERY,
                    return_when=asyncio.FIRST_COMPLETED,
                )
                for task in done:
                    task.result()  # what went wrong there is wrong here
                if done or not await self._may_lead(self._leadership.held):
                    break
                self._stumbled = False
        finally:
            self.leading = False
            self.metrics.led(leads=False)
            self._alarms.stop()
            self._courier.close()
            for task in tasks:
                task.cancel()
            await asyncio.gather(*tasks, return_exceptions=True)
            if self._carrying is not None:
                await asyncio.gather(self._carrying, return_exceptions=True)
                self._carrying = None
                _log.info("no longer leading")
            if not self._ending.is_set():
                self._tell(())  # whoever follows may have looked before our last step

    async def _begin(self, while_leading: Callable[[], Awaitable[None]] | None) -> None:
        epoch, released = await self._writer.run(self._store.take_over)
        _log.info("leading", epoch=epoch, sent_again=released)
        self.leading = True
        self.metrics.led(leads=True)
        self._carrying = asyncio.create_task(self._courier.run(epoch))
        await self._alarms.start()
        self._known.set()
        if while_leading is not None:
            await while_leading()
        await asyncio.Event().wait()

    # -- what follows from a step

    async def _ring(self, conversation_id: str, due: datetime) -> None:
        now = self._clock.now()
        step = await self._writer.patiently(
            lambda: self._gatherer.run(
                lambda unit: self._conductor.wake_in(unit, conversation_id, now)
            )
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
        woken = ((step.conversation_id, step.wake_at), *step.others)
        if self.leading:
            self._heard(woken)
        else:
            self._tell(woken)

    def _rang(self, woken: Woken) -> None:
        """Take in what another process has put down."""
        for conversation_id, _ in woken:
            self._courier.heard_from(conversation_id)
        if self.leading:
            self._heard(woken)

    def _heard(self, woken: Woken) -> None:
        """Take in what was put down, here or elsewhere."""
        for conversation_id, wake_at in woken:
            self._alarms.arm(conversation_id, wake_at)
        if not woken:
            self._alarms.look()
        self._courier.ring()

    def _tell(self, woken: Woken) -> None:
        """Tell whoever leads. If it is not heard, their next look finds what it was about."""
        self._errands.begin(self._thread.run(partial(self._bell.ring, woken)))
