"""A store in memory, for trying things out: it keeps the promises of the others but one.

What it holds is lost with the process. A unit of work still happens as a whole or not at all.
"""

import threading
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager
from dataclasses import replace
from datetime import datetime, timedelta
from typing import assert_never

from bot.care.invitation import Invitation
from bot.engine.effects import Compare, HandCopy, Recall, Urgency
from bot.engine.state import Conversation
from bot.errors import SupersededError
from bot.protocol.record import TestRecord
from bot.runtime.care_ports import name_of_alarm, name_of_digest
from bot.runtime.ports import (
    Delivery,
    History,
    Kept,
    Later,
    Parcel,
    Refused,
    Sent,
    Unknown,
)
from bot.store.outbox import may_be_given_up
from bot.store.statements import DROPPED, PAUSES, REFUSED, SENT, UNKNOWN, WAITING
from bot.testing.memory_unit import Posted, ShelfUnit, Shelves


class MemoryStore:
    """A store in memory."""

    def __init__(self) -> None:
        self.shelves = Shelves()
        self._one_at_a_time = threading.RLock()
        self._epoch = 0

    def close(self) -> None:
        """Nothing has to be let go of."""

    @contextmanager
    def unit(self) -> Iterator[ShelfUnit]:
        """Open a unit of work: kept on leaving, undone on an exception."""
        with self._one_at_a_time:
            before = self.shelves.copy()
            try:
                yield ShelfUnit(self.shelves)
            except BaseException:
                self.shelves = before
                raise

    @contextmanager
    def together(self) -> Iterator[Callable[[], AbstractContextManager[ShelfUnit]]]:
        """Open several units of work; here each is kept on leaving it."""
        yield self.unit

    def sleepers(self, until: datetime) -> list[tuple[str, datetime]]:
        """Return the conversations and alarms to be woken up to an instant, soonest first."""
        with self._one_at_a_time:
            asleep = [(n, s.wake_at) for n, s in self.shelves.conversations.items()]
            items = self.shelves.team.items
            asleep += [(name_of_alarm(number), item.wake_at) for number, item in items.items()]
            members = self.shelves.team.members.items()
            asleep += [(name_of_digest(number), member.digest_at) for number, member in members]
        due = [(name, at) for name, at in asleep if at is not None and at <= until]
        return sorted(due, key=lambda sleeper: sleeper[1])

    def claim_parcel(
        self,
        now: datetime,
        lease: timedelta,
        *,
        least: Urgency = Urgency.BULK,
        epoch: int | None = None,
    ) -> Parcel | None:
        """Take the next parcel to send; parcels of no use any more are dropped on the way."""
        with self._one_at_a_time:
            if epoch not in (None, self._epoch):
                raise SupersededError
            outbox = self.shelves.outbox
            for id_, posted in outbox.items():
                if posted.fate == WAITING and posted.until_at and posted.until_at < now:
                    outbox[id_] = replace(posted, fate=DROPPED, settled_at=now)
            next_id = self._most_urgent(now, least)
            if next_id is None:
                return None
            waiting = outbox[next_id]
            posted = replace(waiting, attempts=waiting.attempts + 1, leased_until_at=now + lease)
            outbox[next_id] = posted
            name, effect = posted.conversation_id, posted.effect
            return Parcel(
                id=next_id,
                conversation_id=name,
                address=self.shelves.conversations[name].address,
                locale=posted.locale,
                effect=effect,
                attempt=posted.attempts,
                target=self._ref_of(name, posted.target),
                kept=self._kept(name) if isinstance(effect, Recall | Compare | HandCopy) else None,
            )

    def _most_urgent(self, now: datetime, least: Urgency) -> int | None:
        waiting = {i: p for i, p in self.shelves.outbox.items() if p.fate == WAITING}
        for id_, posted in waiting.items():
            if posted.effect.urgency is Urgency.SAFETY and posted.free(now):
                return id_
        heads: dict[str, int] = {}
        for id_, posted in waiting.items():
            heads.setdefault(posted.conversation_id, id_)
        lenders = sorted((p.effect.urgency, id_) for id_, p in waiting.items())
        turns = ((urgency, heads[waiting[id_].conversation_id]) for urgency, id_ in lenders)
        return next((h for u, h in turns if u <= least and waiting[h].free(now)), None)

    def _ref_of(self, conversation_id: str, number: int | None) -> str | None:
        for posted in self.shelves.outbox.values():
            if (posted.conversation_id, posted.effect.number) == (conversation_id, number):
                return posted.ref
        return None

    def _kept(self, conversation_id: str) -> Kept:
        return Kept(
            conversation=self.shelves.conversations[conversation_id].conversation,
            history=self.history(conversation_id),
            results=self.results(conversation_id),
        )

    def settle(self, parcel: Parcel, delivery: Delivery, now: datetime) -> bool:
        """Put down what became of a parcel; True when it is given up."""
        with self._one_at_a_time:
            posted = self.shelves.outbox.get(parcel.id)
            arrived = isinstance(delivery, Sent)
            if posted is not None and posted.fate in (WAITING, *((DROPPED,) if arrived else ())):
                after = replace(_settled(posted, parcel, delivery, now), leased_until_at=None)
                self.shelves.outbox[parcel.id] = after
            if posted is not None:
                self._bury(parcel.conversation_id)
        return isinstance(delivery, Refused) or (
            isinstance(delivery, Unknown) and _is_last_try(parcel)
        )

    def _bury(self, name: str) -> None:
        """Delete what is left of a person who asked to be forgotten, once the last word is out."""
        shelves = self.shelves
        mine = {i: p for i, p in shelves.outbox.items() if p.conversation_id == name}
        standing = shelves.conversations.get(name)
        if standing is None or not standing.forgotten:
            return
        if any(posted.fate == WAITING for posted in mine.values()):
            return
        for id_ in mine:
            del shelves.outbox[id_]
        del shelves.conversations[name]

    def release_parcels(self) -> int:
        """Let go of what was being sent; returns how many there were."""
        with self._one_at_a_time:
            outbox = self.shelves.outbox
            held = [
                i for i, p in outbox.items() if p.fate == WAITING and p.leased_until_at is not None
            ]
            for id_ in held:
                outbox[id_] = replace(outbox[id_], leased_until_at=None)
            return len(held)

    def take_over(self) -> tuple[int, int]:
        """Take the lead; returns the count that shows it, and how many parcels were let go of."""
        with self._one_at_a_time:
            self._epoch += 1
            return self._epoch, self.release_parcels()

    def waiting(self) -> dict[Urgency, int]:
        """Return how many messages wait to be sent, by urgency."""
        with self._one_at_a_time:
            held = Counter(
                p.effect.urgency for p in self.shelves.outbox.values() if p.fate == WAITING
            )
        return dict(held)

    def next_parcel_at(self) -> datetime | None:
        """Return when the next parcel that has to wait may be sent."""
        with self._one_at_a_time:
            waiting = [p for p in self.shelves.outbox.values() if p.fate == WAITING]
        free = (p for p in waiting if p.leased_until_at is None)
        return min((p.not_before_at for p in free if p.not_before_at), default=None)

    def history(self, conversation_id: str) -> History:
        """Return a conversation's history.

        Raises:
            KeyError: There is no such conversation.
        """
        with self._one_at_a_time:
            return History(
                beginning=self.shelves.conversations[conversation_id].beginning,
                events=self.shelves.events.get(conversation_id, ()),
            )

    def conversations(self) -> Sequence[Conversation]:
        """Return every conversation as it stands, the oldest first."""
        with self._one_at_a_time:
            standing = [s for s in self.shelves.conversations.values() if not s.forgotten]
        return [s.conversation for s in sorted(standing, key=lambda s: s.began_at)]

    def results(self, conversation_id: str) -> tuple[TestRecord, ...]:
        """Return a person's tests that have ended, oldest first."""
        with self._one_at_a_time:
            records = self.shelves.results.items()
            return tuple(
                r for (name, _), r in sorted(records, key=_place) if name == conversation_id
            )

    def invite(self, invitation: Invitation) -> None:
        """Put down an invitation.

        Raises:
            DatabaseError: The reference was invited before.
        """
        with self.unit() as unit:
            unit.care.add_invitation(invitation)

    def find(self, reference: str) -> str | None:
        """Return the conversation of a clinic's reference, or whose id begins so."""
        with self._one_at_a_time:
            return self.shelves.named(reference)


def _place(kept: tuple[tuple[str, int], TestRecord]) -> tuple[str, int]:
    return kept[0]


def _is_last_try(parcel: Parcel) -> bool:
    return parcel.attempt > len(PAUSES) and may_be_given_up(parcel)


def _settled(posted: Posted, parcel: Parcel, delivery: Delivery, now: datetime) -> Posted:
    match delivery:
        case Sent(ref):
            return replace(posted, fate=SENT, ref=ref, settled_at=now)
        case Later(wait):
            return replace(posted, not_before_at=now + wait, attempts=parcel.attempt - 1)
        case Refused():
            return replace(posted, fate=REFUSED, settled_at=now)
        case Unknown() if _is_last_try(parcel):
            return replace(posted, fate=UNKNOWN, settled_at=now)
        case Unknown():
            pause = PAUSES[min(parcel.attempt, len(PAUSES)) - 1]
            return replace(posted, not_before_at=now + pause)
        case _:
            assert_never(delivery)
