"""One alarm for each conversation that sleeps and is due soon. An alarm is a hint, never a fact.

They hold the near future only, rebuilt from the store's `wake_at` whenever this process begins to
lead and by a slow sweep, so nothing is lost with them, and their number does not grow with that
of the tests that sleep. APScheduler is the alarm clock: it is set to the first of them. What is
due within a moment of it rings with it, each at its time, before the clock is set again.

However many are due or found at once, the loop is kept by a few of them at a time only.
"""

import asyncio
import heapq
from collections.abc import Awaitable, Callable
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from typing import Final

import structlog
from apscheduler.schedulers.asyncio import AsyncIOScheduler

from bot.runtime.patience import PatientWorker
from bot.runtime.ports import Clock, Store

HORIZON: Final = timedelta(minutes=2)
"""How far ahead alarms are held, on the machine's clock."""

SWEEP: Final = timedelta(seconds=20)
"""How often the store is looked through for what is due soon; well within the horizon. Also what
an alarm may be late when the machine's clock was put forward, or the machine slept."""

LATE: Final = timedelta(seconds=30)
"""An alarm this long overdue, by the machine's clock, means that the program stood still or was
not running; it is longer than another takes to follow a leader (design choice)."""

CATCHES_UP: Final = timedelta(seconds=5)
"""How long such an alarm waits, for what people have written meanwhile (design choice). It would
end a test as silent whose readings are waiting at the messenger."""

_LITTER: Final = 64
"""Entries of the heap that no longer count and are left in it before it is made anew."""

AT_ONCE: Final = 64
"""Alarms that ring, or are set by a sweep, in one turn of the event loop: some milliseconds of it
(design choice), whether a hundred are due or all that there are."""

_MOMENT_S: Final = 0.02
"""Alarms nearer to each other than this, in seconds, need no setting of the clock between them
(design choice): with a thousand in a second that would take longer than to ring. It is also what
an alarm may be late that is put before them meanwhile."""

_SAME_S: Final = 0.001
"""An alarm that a sweep finds is the one that is set, if it is due so near to it, in seconds."""

_log = structlog.get_logger("wallside.alarms")


class Alarms:
    """Calls back when conversations are due."""

    def __init__(
        self,
        *,
        store: Store,
        clock: Clock,
        writer: PatientWorker,
        ring: Callable[[str, datetime], Awaitable[None]],
    ) -> None:
        self._store = store
        self._clock = clock
        self._writer = writer
        self._ring = ring
        self._due: dict[str, tuple[float, datetime]] = {}
        self._heap: list[tuple[float, str]] = []
        self._scheduler: AsyncIOScheduler | None = None
        self._going_off = False
        self._ringing: dict[str, asyncio.Task[None]] = {}
        self._sweeping: asyncio.Task[None] | None = None
        self._look = asyncio.Event()

    async def start(self) -> None:
        """Arm what is due soon, and sweep from now on."""
        self._scheduler = AsyncIOScheduler(timezone=UTC)
        self._scheduler.start()
        await self.sweep()
        self._sweeping = asyncio.create_task(self._keep_sweeping())

    def stop(self) -> None:
        """Let all alarms go; the store still knows. What rings is finished."""
        if self._sweeping is not None:
            self._sweeping.cancel()
            self._sweeping = None
        if self._scheduler is not None:
            self._scheduler.shutdown(wait=False)
            self._scheduler = None
        self._due.clear()
        self._heap.clear()

    def look(self) -> None:
        """Sweep soon: something may have been put down that nobody told us of."""
        self._look.set()

    def __len__(self) -> int:
        """Return how many alarms are held."""
        return len(self._due)

    def arm(self, conversation_id: str, wake_at: datetime | None) -> None:
        """Set, move or clear the alarm of one conversation."""
        wait = None if wake_at is None else self._clock.wait(wake_at)
        if wake_at is None or wait is None or wait > HORIZON:
            self._due.pop(conversation_id, None)
            return
        at = asyncio.get_running_loop().time() + wait.total_seconds()
        if self._is_set(conversation_id, at, wake_at):
            return
        self._due[conversation_id] = (at, wake_at)
        heapq.heappush(self._heap, (at, conversation_id))
        if len(self._heap) > 2 * len(self._due) + _LITTER:
            self._heap = [(at, name) for name, (at, _) in self._due.items()]
            heapq.heapify(self._heap)
        if self._heap[0] == (at, conversation_id):
            self._set_clock()

    async def sweep(self) -> None:
        """Arm every conversation that is due within the horizon."""
        # A fast clock covers more of its own time in the same horizon: ask how far it will get.
        until = self._clock.ahead(HORIZON)
        found = await self._writer.run(lambda: self._store.sleepers(until))
        for number, (conversation_id, wake_at) in enumerate(found, 1):
            if conversation_id not in self._ringing:
                self.arm(conversation_id, wake_at)
            if number % AT_ONCE == 0:
                await asyncio.sleep(0)
        self._set_clock()

    async def _keep_sweeping(self) -> None:
        while True:
            with suppress(TimeoutError):
                await asyncio.wait_for(self._look.wait(), timeout=SWEEP.total_seconds())
            self._look.clear()
            try:
                await self.sweep()
            except Exception:  # the next sweep may succeed; without any, nobody would be woken
                _log.exception("could not look for what is due")

    def _set_clock(self) -> None:
        """Set the alarm clock to the first alarm; often, since the machine's time may move."""
        wait = self._first_in()
        if wait is None or self._scheduler is None or self._going_off:
            return
        self._scheduler.add_job(
            self._go_off,
            "date",
            run_date=datetime.now(UTC) + timedelta(seconds=max(wait, 0)),
            id="first",
            replace_existing=True,
            misfire_grace_time=None,
            max_instances=2,  # one that begins while another ends
        )

    def _first_in(self) -> float | None:
        """Return in how many seconds the first alarm is due; below 0 if it is late."""
        while self._heap and not self._counts(*self._heap[0]):
            heapq.heappop(self._heap)
        return self._heap[0][0] - asyncio.get_running_loop().time() if self._heap else None

    def _is_set(self, name: str, at: float, wake_at: datetime) -> bool:
        """Whether a conversation has this alarm already."""
        armed = self._due.get(name)
        return armed is not None and armed[1] == wake_at and abs(armed[0] - at) < _SAME_S

    def _counts(self, at: float, name: str) -> bool:
        """Whether an entry of the heap is still the alarm of its conversation."""
        armed = self._due.get(name)
        return armed is not None and armed[0] == at

    async def _go_off(self) -> None:
        """Ring for the first alarm, and for what is due in a moment after it, each at its time."""
        if self._going_off:
            return
        self._going_off = True
        try:
            while (wait := self._first_in()) is not None and wait <= _MOMENT_S:
                await asyncio.sleep(max(wait, 0))  # what is due at once gives the loop its turn too
                self._ring_due()
        finally:
            self._going_off = False
        self._set_clock()

    def _ring_due(self) -> None:
        """Ring for what is due by now; what is more than a few waits for the loop's next turn."""
        now, rung = asyncio.get_running_loop().time(), 0
        while self._heap and self._heap[0][0] <= now and rung < AT_ONCE:
            at, name = heapq.heappop(self._heap)
            if self._counts(at, name):
                _, wake_at = self._due.pop(name)
                self._ringing[name] = asyncio.create_task(self._answer(name, wake_at))
                rung += 1

    async def _answer(self, name: str, wake_at: datetime) -> None:
        try:
            if wake_at < self._clock.shown_at(datetime.now(UTC) - LATE):
                await asyncio.sleep(CATCHES_UP.total_seconds())
                if self._scheduler is None:
                    return  # no longer ours to answer
            await self._ring(name, wake_at)
        except Exception:  # a later sweep finds it still due
            _log.exception("an alarm could not be answered", conversation=name)
        finally:
            if self._ringing.get(name) is asyncio.current_task():
                del self._ringing[name]
