"""Carries parcels from the outbox to the channel, and puts down what became of them.

Several are under way at once, but never two of one conversation, words of safety excepted: the
store gives out the next one of a person only when what became of the last is put down.
"""

import asyncio
import time
from collections import OrderedDict
from collections.abc import Awaitable, Callable
from contextlib import suppress
from datetime import timedelta
from typing import Final

import structlog

from bot.engine.effects import HandCalendar, OfferLink, Revise, Say, Urgency
from bot.engine.events import Failure
from bot.errors import ConflictError, SupersededError, UnavailableError
from bot.runtime.metrics import Metrics
from bot.runtime.pace import Pace
from bot.runtime.patience import PatientWorker
from bot.runtime.ports import (
    Channel,
    Clock,
    Delivery,
    Later,
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

_PATROL: Final = 5.0
"""Seconds after which the outbox is looked at unasked: the operator's commands write there."""

_BLOCKED_FOR: Final = 600.0
"""Seconds for which no reminder that waits is tried in a chat that was closed to us (design
choice). That it is, is a fact of its conversation: none is put down from then on."""

_BLOCKED_AT_MOST: Final = 10_000

_log = structlog.get_logger("wallside.courier")


def nobody(address: str) -> bool:
    """Return that an address is no group: where a channel has none."""
    del address
    return False


def always() -> bool:
    """Return that we lead: where there is nobody else."""
    return True


class Courier:
    """Sends what is in the outbox until it is told to stop."""

    def __init__(
        self,
        *,
        store: Store,
        channel: Channel,
        present: Presenter,
        clock: Clock,
        writer: PatientWorker,
        speaker: Worker,
        maker: Worker,
        on_failure: Callable[[Parcel, Failure], Awaitable[None]],
        metrics: Metrics,
        is_group: Callable[[str], bool] = nobody,
        leads: Callable[[], bool] = always,
    ) -> None:
        """Take what it needs.

        Args:
            store: Where the outbox is.
            channel: What sends.
            present: Puts a parcel into words and pictures.
            clock: The time of the conversations.
            writer: Where the store is used.
            speaker: A thread on which words are made.
            maker: A thread on which files are made, so that no words wait for them.
            on_failure: Hears of what was given up.
            metrics: Where it is counted.
            is_group: Whether an address is that of a group.
            leads: Whether we may still send, asked right before each send.
        """
        self._store = store
        self._channel = channel
        self._present = present
        self._clock = clock
        self._writer = writer
        self._speaker = speaker
        self._maker = maker
        self._on_failure = on_failure
        self._metrics = metrics
        self._is_group = is_group
        self._leads = leads
        # A clock for trying out runs fast, and so does what it allows; else a minute of it would
        # take a minute.
        now = clock.now()
        self._speed = (clock.ahead(timedelta(seconds=1)) - now).total_seconds()
        self._pace = Pace(now=self._time())
        self._work = asyncio.Event()
        self._under_way: set[asyncio.Task[None]] = set()
        self._blocked: OrderedDict[str, float] = OrderedDict()
        self._closing = False

    def ring(self) -> None:
        """Say that there may be something to send."""
        self._work.set()

    def heard_from(self, conversation_id: str) -> None:
        """Say that something arrived from a person, who can so be reached again."""
        self._blocked.pop(conversation_id, None)

    def blocked_by(self, conversation_id: str) -> None:
        """Say that a person has blocked us: no reminder of theirs that waits is tried."""
        self._blocked[conversation_id] = self._time()
        while len(self._blocked) > _BLOCKED_AT_MOST:
            self._blocked.popitem(last=False)

    def close(self) -> None:
        """Say that the parcels under way are the last ones."""
        self._closing = True
        self._work.set()

    async def run(self, epoch: int | None = None) -> None:
        """Send until closed, or until another has taken the lead; then finish what is under way.

        Args:
            epoch: Our count of the lead; without it, nobody else can lead.
        """
        self._closing = False
        try:
            while not self._closing:
                self._work.clear()
                now = self._time()
                least = self._pace.least(now, len(self._under_way))
                try:
                    parcel = None if least is None else await self._claim(least, epoch)
                    if parcel is not None and least is not None:
                        await self._begin(parcel, least)
                    elif not self._closing:
                        await self._rest(least)
                except SupersededError:
                    _log.warning("another process leads")
                    return
                except ConflictError:
                    _log.warning("could not look into the outbox for others in the way")
        finally:
            if self._under_way:
                await asyncio.wait(self._under_way)

    def _time(self) -> float:
        return time.monotonic() * self._speed

    async def _claim(self, least: Urgency, epoch: int | None) -> Parcel | None:
        now = self._clock.now()
        claim = lambda: self._store.claim_parcel(now, LEASE, least=least, epoch=epoch)  # noqa: E731
        return await self._writer.run(claim)

    async def _begin(self, parcel: Parcel, least: Urgency) -> None:
        """Send a parcel beside others; one whose chat had too much of late is put back."""
        now, group = self._time(), self._is_group(parcel.address)
        wait = self._pace.chat_opens_in(parcel.address, now, group=group)
        if self._is_closed_to_us(parcel, now):
            await self._settle(parcel, Refused(blocked=True))
        elif _may_be_left_out(parcel) and (wait > 0 or least < parcel.effect.urgency):
            self._metrics.left_out()
            await self._settle(parcel, Sent(""))
        elif wait > 0 and parcel.effect.urgency is not Urgency.SAFETY:
            await self._settle(parcel, Later(timedelta(seconds=wait)))
        else:
            self._pace.take(parcel.address, now, group=group)
            task = asyncio.create_task(self._carry(parcel))
            self._under_way.add(task)
            task.add_done_callback(self._arrived)

    def _arrived(self, task: asyncio.Task[None]) -> None:
        self._under_way.discard(task)
        if not task.cancelled() and (error := task.exception()) is not None:
            _log.error("a parcel was lost sight of", error=type(error).__name__)
        self.ring()

    async def _carry(self, parcel: Parcel) -> None:
        begun = time.monotonic()
        delivery = await self._deliver(parcel)
        if delivery is None:
            return  # another leads, who has taken it over
        took = timedelta(seconds=time.monotonic() - begun)
        self._metrics.tried(parcel.effect.urgency, delivery, took)
        now = self._time()
        if isinstance(delivery, Later):  # the far side waits in ordinary time
            wait = self._clock.ahead(delivery.wait) - self._clock.now()
            delivery = Later(wait, delivery.everybody)
            seconds = wait.total_seconds()
            if delivery.everybody:
                self._pace.rest(seconds, now)
            else:
                self._pace.refused(parcel.address, seconds, now)
        elif isinstance(delivery, Refused) and delivery.blocked:
            self.blocked_by(parcel.conversation_id)
        await self._settle(parcel, delivery)

    async def _settle(self, parcel: Parcel, delivery: Delivery) -> None:
        """Put down what became of a parcel, however long the store is away."""
        settled_at = self._clock.now()
        put = lambda: self._store.settle(parcel, delivery, settled_at)  # noqa: E731
        if await self._writer.run(put):
            failure = _why(delivery)
            self._metrics.gave_up(parcel.effect.urgency)
            _log.warning("gave up a parcel", parcel=parcel.id, failure=failure.value)
            await self._on_failure(parcel, failure)

    def _is_closed_to_us(self, parcel: Parcel, now: float) -> bool:
        since = self._blocked.get(parcel.conversation_id)
        if since is None or parcel.effect.urgency <= Urgency.REPLY:
            return False
        return now - since < _BLOCKED_FOR

    async def _deliver(self, parcel: Parcel) -> Delivery | None:
        """Send a parcel; `None` if we may not any more."""
        words = isinstance(parcel.effect, Say | Revise | HandCalendar | OfferLink)
        thread = self._speaker if words else self._maker
        try:
            bubble = await thread.run(
                lambda: self._present(parcel.effect, parcel.locale, parcel.kept)
            )
        except Exception:  # a parcel that cannot be made must not hold up all others
            _log.exception("could not make a parcel", parcel=parcel.id)
            return Refused()
        if not self._leads():
            return None
        if isinstance(parcel.effect, Revise):
            if parcel.target is None:
                return Sent("")  # what it would change never arrived: nothing to do
            delivery = await self._channel.revise(parcel.address, parcel.target, bubble)
            # Only nice to see: never worth a second try.
            return Sent("") if isinstance(delivery, Unknown | Refused) else delivery
        return await self._channel.send(parcel.address, bubble)

    async def _rest(self, least: Urgency | None) -> None:
        """Wait for the bell, for more allowance, for a parcel that had to wait, or a while."""
        wait = _PATROL
        opens_in = self._pace.opens_in(least, self._time())
        if opens_in is not None:
            wait = min(wait, opens_in / self._speed + 0.001)
        if least is not None:
            with suppress(UnavailableError):
                due = await self._writer.run(self._store.next_parcel_at)
                if due is not None:
                    wait = min(wait, self._clock.wait(due).total_seconds() + 0.001)
        with suppress(TimeoutError):
            await asyncio.wait_for(self._work.wait(), timeout=wait)


def _why(delivery: Delivery) -> Failure:
    """Return why a parcel was given up."""
    if not isinstance(delivery, Refused):
        return Failure.UNKNOWN
    return Failure.BLOCKED if delivery.blocked else Failure.REFUSED


def _may_be_left_out(parcel: Parcel) -> bool:
    """Whether a parcel only shows how far a clock has run: it is the first to go."""
    effect = parcel.effect
    return isinstance(effect, Revise) and effect.until is not None
