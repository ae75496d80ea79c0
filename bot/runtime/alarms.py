"""One alarm for each conversation that sleeps and is due soon. An alarm is a hint, never a fact.

APScheduler is the alarm clock only: its memory holds the near future, rebuilt from the store's
`wake_at` at start-up and by a slow sweep, so nothing is lost with it.
"""

from collections.abc import Awaitable, Callable
from datetime import UTC, datetime, timedelta
from typing import Final

from apscheduler.schedulers.asyncio import AsyncIOScheduler

from bot.runtime.ports import Clock, Store
from bot.runtime.worker import Worker

HORIZON: Final = timedelta(minutes=10)
"""How far ahead alarms are held, on the machine's clock."""

LATE: Final = timedelta(seconds=5)
"""An alarm this long overdue means that the program stood still, or was not running."""

CATCHES_UP: Final = timedelta(seconds=5)
"""How long such an alarm waits, for what people have written meanwhile (design choice). It would
end a test as silent whose readings are waiting at the messenger."""

SWEEP: Final = timedelta(minutes=1)
"""How often the store is looked through for what is due soon."""


class Alarms:
    """Calls back when conversations are due."""

    def __init__(
        self,
        *,
        store: Store,
        clock: Clock,
        writer: Worker,
        ring: Callable[[str, datetime], Awaitable[None]],
    ) -> None:
        self._store = store
        self._clock = clock
        self._writer = writer
        self._ring = ring
        self._scheduler = AsyncIOScheduler(
            timezone=UTC,
            # An alarm that is due again while it is still being answered must not be skipped.
            job_defaults={"misfire_grace_time": None, "coalesce": True, "max_instances": 3},
        )

    async def start(self) -> None:
        """Arm what is due soon, and sweep from now on."""
        self._scheduler.start()
        self._scheduler.add_job(
            self.sweep, "interval", seconds=SWEEP.total_seconds(), id="sweep", replace_existing=True
        )
        await self.sweep()

    def stop(self) -> None:
        """Let all alarms go; the store still knows."""
        self._scheduler.shutdown(wait=False)

    def arm(self, conversation_id: str, wake_at: datetime | None) -> None:
        """Set, move or clear the alarm of one conversation."""
        job_id = f"wake:{conversation_id}"
        wait = None if wake_at is None else self._clock.wait(wake_at)
        if wake_at is None or wait is None or wait > HORIZON:
            if self._scheduler.get_job(job_id) is not None:
                self._scheduler.remove_job(job_id)
            return
        self._set(conversation_id, wake_at, wait, put_off=False)

    async def sweep(self) -> None:
        """Arm every conversation that is due within the horizon."""
        # A fast clock covers more of its own time in the same horizon: ask how far it will get.
        until = self._clock.ahead(HORIZON)
        for conversation_id, wake_at in await self._writer.run(lambda: self._store.sleepers(until)):
            self.arm(conversation_id, wake_at)

    def _set(
        self, conversation_id: str, wake_at: datetime, wait: timedelta, *, put_off: bool
    ) -> None:
        self._scheduler.add_job(
            self._due,
            "date",
            run_date=datetime.now(UTC) + wait,
            args=(conversation_id, wake_at, put_off),
            id=f"wake:{conversation_id}",
            replace_existing=True,
        )

    async def _due(self, conversation_id: str, wake_at: datetime, put_off: bool) -> None:
        """Ring; but first, what waited while nobody was there may come in."""
        if not put_off and self._clock.now() - wake_at > LATE:
            self._set(conversation_id, wake_at, CATCHES_UP, put_off=True)
        else:
            await self._ring(conversation_id, wake_at)
