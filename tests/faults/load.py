"""Puts a store under load: many people's arrivals and alarms, and what follows is sent.

Time is that of the people: it moves on, from one instant at which something is due to the next,
when all that was due has been done. So whatever happens to the process meanwhile, each person's
course is the same, and can be held against a run in which nothing went wrong.
"""

import threading
import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from functools import partial
from typing import Final, TypeVar
from uuid import uuid4

from bot.engine.context import Context
from bot.errors import ConflictError, UnavailableError
from bot.runtime.conductor import Conductor
from bot.runtime.ports import Inbound, Parcel, Sent, Store
from bot.texts import language_for
from tests.faults.journal import Journal, Seen
from tests.faults.people import START, Arrival

CONTEXT: Final = Context()
LEASE: Final = timedelta(minutes=2)
ENDS: Final = timedelta(hours=3)
"""When the people of `arrivals` have long been left alone."""

_PAUSE_S: Final = 0.01
_TRIES: Final = 3000

T = TypeVar("T")


def conductor_on(store: Store) -> Conductor:
    """Return a conductor on a store."""
    return Conductor(store, CONTEXT, new_id=lambda: uuid4().hex, language_for=language_for)


@dataclass(slots=True, kw_only=True)
class Load:
    """The load, from wherever an earlier process left it.

    Attributes:
        store: Under load.
        plan: What people do, by address.
        journal: Where the outside world is put down.
        workers: How many conversations are handled at once.
        in_trouble: Called when the store could not be used; then the same is tried again.
        after: Called after each thing done.
    """

    store: Store
    plan: Mapping[str, Sequence[Arrival]]
    journal: Journal
    workers: int = 1
    in_trouble: Callable[[], None] = lambda: None
    after: Callable[[], None] = lambda: None
    _idle: threading.Event = field(default_factory=threading.Event)
    _troubled: bool = False

    def run(self, before: Seen) -> None:
        """Do what is left to do, until all is over."""
        conductor = conductor_on(self.store)
        waiting = {
            address: [a for a in theirs if a.key not in before.taken]
            for address, theirs in self.plan.items()
        }
        self.persist(self.store.release_parcels)
        self._idle.set()
        self._send(before.now or START)
        with ThreadPoolExecutor(self.workers + 1) as pool:
            while (now := self._next(waiting)) is not None:
                self.journal.time(now)
                self._idle.clear()
                sending = pool.submit(self._send, now) if self.workers > 1 else None
                try:
                    self._wake(conductor, pool, now)
                    due = [[a for a in theirs if a.event.at <= now] for theirs in waiting.values()]
                    self._each(pool, lambda some: self._take(conductor, some), due)
                finally:
                    self._idle.set()
                if sending is not None:
                    sending.result()
                self._send(now)
                for address, theirs in waiting.items():
                    waiting[address] = [a for a in theirs if a.event.at > now]
        self.journal.note("over")

    def persist(self, work: Callable[[], T]) -> T:
        """Do something that may have to be tried again."""
        for _ in range(_TRIES):
            try:
                done = work()
            except (ConflictError, UnavailableError):
                self._troubled = True
                self.in_trouble()
                time.sleep(_PAUSE_S)
            else:
                self.after()
                return done
        raise AssertionError("the store never came back")

    def _each(
        self,
        pool: ThreadPoolExecutor,
        work: Callable[[T], object],
        things: Iterable[T],
    ) -> None:
        if self.workers == 1:
            for thing in things:
                work(thing)
        else:
            list(pool.map(work, things))

    def _next(self, waiting: Mapping[str, Sequence[Arrival]]) -> datetime | None:
        """Return when the next thing is due, by the people's plans or by the store."""
        planned = [theirs[0].event.at for theirs in waiting.values() if theirs]
        sleepers = self.persist(lambda: self.store.sleepers(START + ENDS))
        return min([*planned, *(at for _, at in sleepers)], default=None)

    def _wake(self, conductor: Conductor, pool: ThreadPoolExecutor, now: datetime) -> None:
        while sleepers := self.persist(lambda: self.store.sleepers(now)):
            self._each(pool, lambda sleeper: self._ring(conductor, *sleeper), sleepers)

    def _ring(self, conductor: Conductor, name: str, at: datetime) -> None:
        with self.journal.doing(f"wake {name}"):
            self.persist(lambda: conductor.wake(name, at))

    def _take(self, conductor: Conductor, some: Sequence[Arrival]) -> None:
        for arrival in some:
            inbound = Inbound(key=arrival.key, address=arrival.address, event=arrival.event)
            with self.journal.doing(f"take {arrival.key}"):
                self.persist(partial(conductor.handle, inbound))

    def _send(self, now: datetime) -> None:
        """Send until nothing waits and nothing more can come; only one does this at a time."""
        while True:
            quiet = self._idle.is_set()
            parcel = self.persist(lambda: self.store.claim_parcel(now, LEASE))
            if parcel is not None:
                self._deliver(parcel, now)
            elif not quiet:
                time.sleep(0.001)
            elif self._troubled:
                self._troubled = False  # a claim may be durable that we were not told of
                self.persist(self.store.release_parcels)
            else:
                return

    def _deliver(self, parcel: Parcel, now: datetime) -> None:
        number = parcel.effect.number
        self.journal.on_the_wire(parcel.address, number, parcel.effect.urgency)
        with self.journal.doing(f"settle {parcel.address} {number}"):
            self.persist(partial(self.store.settle, parcel, Sent(f"m{number}"), now))
