"""The store on a relational database: Core statements on the SQLModel tables."""

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from sqlalchemy import (
    Engine,
    func,
    select,
)

from bot.care.invitation import Invitation
from bot.engine.effects import (
    Compare,
    HandCopy,
    Recall,
    Trace,
    Urgency,
)
from bot.engine.state import Conversation
from bot.protocol.record import TestRecord
from bot.runtime.care_ports import name_of_alarm, name_of_digest
from bot.runtime.ports import (
    Delivery,
    History,
    Parcel,
)
from bot.store import invitations, lead, outbox
from bot.store.codec import (
    decode_conversation,
    decode_outgoing,
)
from bot.store.reading import history_of, kept_of, named, results_of
from bot.store.sqlite import leave_no_trace
from bot.store.statements import (
    CONVERSATION,
    DIGESTS_DUE,
    IS_WAITING,
    ITEMS_DUE,
    LOCK_ONE,
    OUTBOX,
    SLEEPERS,
)
from bot.store.transaction import part, transaction
from bot.store.unit import SqlUnit

if TYPE_CHECKING:
    from sqlalchemy.exc import DBAPIError


class SqlStore:
    """A store on a database. One writer at a time on SQLite; call it from a worker thread."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine

    def close(self) -> None:
        """Let go of the database."""
        self.engine.dispose()

    @contextmanager
    def unit(self) -> Iterator[SqlUnit]:
        """Open a unit of work: committed on leaving, rolled back on an exception."""
        with transaction(self.engine) as connection:
            yield SqlUnit(connection)

    @contextmanager
    def together(self) -> Iterator[Callable[[], AbstractContextManager[SqlUnit]]]:
        """Open several units of work that are committed at once, on leaving.

        On PostgreSQL each is committed by itself: a unit that kept its locks until others are done
        could stand in the way of another process that comes by the same conversations.
        """
        if self.engine.dialect.name != "sqlite":
            yield self.unit
            return
        faults: list[DBAPIError] = []

        @contextmanager
        def one() -> Iterator[SqlUnit]:
            with part(connection, faults):
                yield SqlUnit(connection)

        with transaction(self.engine) as connection:
            yield one
            if faults:
                raise faults[0]

    def sleepers(self, until: datetime) -> list[tuple[str, datetime]]:
        """Return the conversations and alarms to be woken up to an instant, soonest first."""
        by = {"until": until}
        with transaction(self.engine) as connection:
            people = SLEEPERS.all(connection, by)
            items = ITEMS_DUE.all(connection, by)
            weekly = DIGESTS_DUE.all(connection, by)
        found = [(row["id"], row["wake_at"]) for row in people]
        found += [(name_of_alarm(row["number"]), row["wake_at"]) for row in items]
        found += [(name_of_digest(row["number"]), row["digest_at"]) for row in weekly]
        return sorted(found, key=lambda sleeper: sleeper[1])

    def claim_parcel(
        self,
        now: datetime,
        lease: timedelta,
        *,
        least: Urgency = Urgency.BULK,
        epoch: int | None = None,
    ) -> Parcel | None:
        """Take the next parcel to send; parcels of no use any more are dropped on the way."""
        with transaction(self.engine) as connection:
            if epoch is not None:
                lead.check(connection, epoch)
            outbox.drop_stale(connection, now)
            row = outbox.most_urgent(connection, now, least)
            if row is None:
                return None
            attempt = row["attempts"] + 1
            outbox.lease(connection, row, attempt, now + lease)
            effect = decode_outgoing(row["effect"])
            speaks_of_kept = isinstance(effect, Recall | Compare | Trace | HandCopy)
            return Parcel(
                id=row["id"],
                conversation_id=row["conversation_id"],
                address=row["address"],
                locale=row["locale"],
                effect=effect,
                attempt=attempt,
                target=outbox.target_ref(connection, row),
                kept=kept_of(connection, row["conversation_id"]) if speaks_of_kept else None,
            )

    def settle(self, parcel: Parcel, delivery: Delivery, now: datetime) -> bool:
        """Put down what became of a parcel; True when it is given up."""
        with transaction(self.engine) as connection:
            # First the conversation, then its rows: the order in which a unit of work locks them.
            # It is opened as well, so that whoever has new keys made is noticed before we seal.
            whose = LOCK_ONE.first(connection, {"id": parcel.conversation_id})
            given_up = outbox.settled(connection, parcel, delivery, now)
            buried = (
                whose is not None
                and whose["forgotten"]
                and outbox.bury(connection, parcel.conversation_id)
            )
        if buried and self.engine.dialect.name == "sqlite":
            leave_no_trace(self.engine)
        return given_up

    def release_parcels(self) -> int:
        """Let go of what was being sent when the process ended; returns how many there were."""
        with transaction(self.engine) as connection:
            return lead.let_go(connection)

    def take_over(self) -> tuple[int, int]:
        """Take the lead; returns the count that shows it, and how many parcels were let go of."""
        with transaction(self.engine) as connection:
            return lead.count_up(connection), lead.let_go(connection)

    def waiting(self) -> dict[Urgency, int]:
        """Return how many messages wait to be sent, by urgency."""
        counted = (
            select(OUTBOX.c.urgency, func.count()).where(IS_WAITING).group_by(OUTBOX.c.urgency)
        )
        with transaction(self.engine) as connection:
            return {Urgency(row[0]): row[1] for row in connection.execute(counted)}

    def next_parcel_at(self) -> datetime | None:
        """Return when the next parcel that has to wait may be sent."""
        with transaction(self.engine) as connection:
            return outbox.soonest(connection)

    def history(self, conversation_id: str) -> History:
        """Return a conversation's history.

        Raises:
            KeyError: There is no such conversation.
        """
        with transaction(self.engine) as connection:
            return history_of(connection, conversation_id)

    def conversations(self) -> list[Conversation]:
        """Return every conversation as it stands, the oldest first."""
        wanted = (
            select(CONVERSATION.c.state)
            .where(CONVERSATION.c.forgotten.is_(False))
            .order_by(CONVERSATION.c.began_at)
        )
        with transaction(self.engine) as connection:
            return [decode_conversation(text) for text in connection.execute(wanted).scalars()]

    def results(self, conversation_id: str) -> tuple[TestRecord, ...]:
        """Return a person's tests that have ended, oldest first."""
        with transaction(self.engine) as connection:
            return results_of(connection, conversation_id)

    def invite(self, invitation: Invitation) -> None:
        """Put down an invitation.

        Raises:
            DatabaseError: The reference was invited before.
        """
        with transaction(self.engine) as connection:
            invitations.put_down(connection, invitation)

    def find(self, reference: str) -> str | None:
        """Return the conversation of a clinic's reference, or whose id begins so."""
        with transaction(self.engine) as connection:
            return named(connection, reference)
