"""The store on a relational database: Core statements on the SQLModel tables."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import datetime, timedelta
from typing import Any, Final, assert_never

from sqlalchemy import (
    Connection,
    Engine,
    RowMapping,
    Table,
    and_,
    bindparam,
    delete,
    func,
    insert,
    or_,
    select,
    update,
)
from sqlalchemy.exc import IntegrityError

from bot.engine.effects import Effect, Keep, Revise, Urgency
from bot.engine.events import Event
from bot.engine.state import Conversation
from bot.errors import ConflictError
from bot.protocol.record import TestRecord
from bot.runtime.ports import (
    Delivery,
    History,
    Later,
    Parcel,
    Refused,
    Sent,
    Stored,
    Unknown,
)
from bot.store.codec import (
    decode_conversation,
    decode_event,
    decode_outgoing,
    decode_record,
    encode_conversation,
    encode_event,
    encode_outgoing,
    encode_record,
)
from bot.store.tables import ConversationRow, EventRow, InboxRow, OutboxRow, ResultRow


def _table(model: Any) -> Table:
    table: Table = model.__table__
    return table


CONVERSATION: Final = _table(ConversationRow)
INBOX: Final = _table(InboxRow)
EVENT: Final = _table(EventRow)
OUTBOX: Final = _table(OutboxRow)
RESULT: Final = _table(ResultRow)

WAITING: Final = "waiting"
SENT: Final = "sent"
REFUSED: Final = "refused"
UNKNOWN: Final = "unknown"
DROPPED: Final = "dropped"

PAUSES: Final = (timedelta(seconds=2), timedelta(seconds=10), timedelta(seconds=30))
"""How long to wait before trying again what may have arrived; after the last it is given up."""

_LOCKED: Final = select(CONVERSATION).with_for_update()
_LOAD: Final = _LOCKED.where(CONVERSATION.c.address == bindparam("address"))
_LOAD_BY_ID: Final = _LOCKED.where(CONVERSATION.c.id == bindparam("id"))
_SAVE: Final = (
    update(CONVERSATION)
    .where(CONVERSATION.c.id == bindparam("the_id"))
    .where(CONVERSATION.c.revision == bindparam("loaded"))
    .values(
        revision=bindparam("new_revision"), wake_at=bindparam("new_wake"), state=bindparam("now")
    )
)


class SqlUnit:
    """A unit of work on one connection, inside one transaction."""

    def __init__(self, connection: Connection) -> None:
        self._db = connection

    def claim(self, key: str, at: datetime) -> bool:
        """Take an arrival; False when it was taken before."""
        savepoint = self._db.begin_nested()
        try:
            self._db.execute(insert(INBOX).values(key=key, taken_at=at))
        except IntegrityError:
            savepoint.rollback()
            return False
        savepoint.commit()
        return True

    def load(self, address: str) -> Stored | None:
        """Return the conversation at an address."""
        return _stored(self._db.execute(_LOAD, {"address": address}).mappings().first())

    def load_by_id(self, conversation_id: str) -> Stored | None:
        """Return a conversation by its id."""
        return _stored(self._db.execute(_LOAD_BY_ID, {"id": conversation_id}).mappings().first())

    def add(self, conversation: Conversation, address: str, at: datetime) -> Stored:
        """Put down a new conversation."""
        state = encode_conversation(conversation)
        self._db.execute(
            insert(CONVERSATION).values(
                id=conversation.id,
                address=address,
                began_at=at,
                beginning=state,
                revision=0,
                wake_at=None,
                state=state,
            )
        )
        return Stored(conversation=conversation, address=address, revision=0, wake_at=None)

    def save(
        self,
        stored: Stored,
        conversation: Conversation,
        *,
        event: Event,
        effects: Sequence[Effect],
        wake_at: datetime | None,
    ) -> None:
        """Put down one step.

        Raises:
            ConflictError: The conversation has changed since it was loaded.
        """
        revision = stored.revision + 1
        saved = self._db.execute(
            _SAVE,
            {
                "the_id": conversation.id,
                "loaded": stored.revision,
                "new_revision": revision,
                "new_wake": wake_at,
                "now": encode_conversation(conversation),
            },
        )
        if saved.rowcount != 1:
            raise ConflictError(conversation.id)
        self._db.execute(
            insert(EVENT).values(
                conversation_id=conversation.id,
                position=revision,
                at=event.at,
                event=encode_event(event),
            )
        )
        outgoing = [_outgoing(conversation, e) for e in effects if not isinstance(e, Keep)]
        if outgoing:
            self._db.execute(insert(OUTBOX), outgoing)
        for effect in effects:
            if isinstance(effect, Keep):
                self._keep(conversation.id, effect.record)

    def _keep(self, conversation_id: str, record: TestRecord) -> None:
        mine = and_(
            RESULT.c.conversation_id == conversation_id, RESULT.c.test_number == record.number
        )
        self._db.execute(delete(RESULT).where(mine))
        self._db.execute(
            insert(RESULT).values(
                conversation_id=conversation_id,
                test_number=record.number,
                revision=record.revision,
                record=encode_record(record),
            )
        )


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
        with self.engine.begin() as connection:
            yield SqlUnit(connection)

    def sleepers(self, until: datetime) -> list[tuple[str, datetime]]:
        """Return the conversations to be woken up to an instant, soonest first."""
        wanted = (
            select(CONVERSATION.c.id, CONVERSATION.c.wake_at)
            .where(CONVERSATION.c.wake_at <= until)
            .order_by(CONVERSATION.c.wake_at)
        )
        with self.engine.begin() as connection:
            return [(row.id, row.wake_at) for row in connection.execute(wanted)]

    def claim_parcel(self, now: datetime, lease: timedelta) -> Parcel | None:
        """Take the next parcel to send; parcels of no use any more are dropped on the way."""
        with self.engine.begin() as connection:
            connection.execute(
                update(OUTBOX)
                .where(OUTBOX.c.fate == WAITING, OUTBOX.c.until_at < now)
                .values(fate=DROPPED, settled_at=now)
            )
            row = _most_urgent(connection, now)
            if row is None:
                return None
            attempt = row["attempts"] + 1
            connection.execute(
                update(OUTBOX)
                .where(OUTBOX.c.id == row["id"])
                .values(attempts=attempt, leased_until_at=now + lease)
            )
            return Parcel(
                id=row["id"],
                conversation_id=row["conversation_id"],
                address=row["address"],
                locale=row["locale"],
                effect=decode_outgoing(row["effect"]),
                attempt=attempt,
                target=_target_ref(connection, row),
            )

    def settle(self, parcel: Parcel, delivery: Delivery, now: datetime) -> bool:
        """Put down what became of a parcel; True when it is given up."""
        values: dict[str, Any]
        match delivery:
            case Sent(ref):
                values = {"fate": SENT, "ref": ref, "settled_at": now}
            case Later(wait):
                values = {"not_before_at": now + wait, "attempts": parcel.attempt - 1}
            case Refused():
                values = {"fate": REFUSED, "settled_at": now}
            case Unknown() if parcel.attempt > len(PAUSES):
                values = {"fate": UNKNOWN, "settled_at": now}
            case Unknown():
                values = {"not_before_at": now + PAUSES[parcel.attempt - 1]}
            case _:
                assert_never(delivery)
        values["leased_until_at"] = None
        with self.engine.begin() as connection:
            connection.execute(update(OUTBOX).where(OUTBOX.c.id == parcel.id).values(**values))
        return values.get("fate") in (REFUSED, UNKNOWN)

    def release_parcels(self) -> int:
        """Let go of what was being sent when the process ended; returns how many there were."""
        held = and_(OUTBOX.c.fate == WAITING, OUTBOX.c.leased_until_at.is_not(None))
        with self.engine.begin() as connection:
            released = connection.execute(update(OUTBOX).where(held).values(leased_until_at=None))
            return released.rowcount

    def next_parcel_at(self) -> datetime | None:
        """Return when the next parcel that has to wait may be sent."""
        soonest = select(func.min(OUTBOX.c.not_before_at)).where(OUTBOX.c.fate == WAITING)
        with self.engine.begin() as connection:
            return connection.execute(soonest).scalar()

    def history(self, conversation_id: str) -> History:
        """Return a conversation's history.

        Raises:
            KeyError: There is no such conversation.
        """
        beginning = select(CONVERSATION.c.beginning).where(CONVERSATION.c.id == conversation_id)
        events = (
            select(EVENT.c.event)
            .where(EVENT.c.conversation_id == conversation_id)
            .order_by(EVENT.c.position)
        )
        with self.engine.begin() as connection:
            text = connection.execute(beginning).scalar()
            if text is None:
                raise KeyError(conversation_id)
            return History(
                beginning=decode_conversation(text),
                events=tuple(decode_event(e) for e in connection.execute(events).scalars()),
            )

    def results(self, conversation_id: str) -> tuple[TestRecord, ...]:
        """Return a person's tests that have ended, oldest first."""
        wanted = (
            select(RESULT.c.record)
            .where(RESULT.c.conversation_id == conversation_id)
            .order_by(RESULT.c.test_number)
        )
        with self.engine.begin() as connection:
            return tuple(decode_record(text) for text in connection.execute(wanted).scalars())


def _stored(row: RowMapping | None) -> Stored | None:
    if row is None:
        return None
    return Stored(
        conversation=decode_conversation(row["state"]),
        address=row["address"],
        revision=row["revision"],
        wake_at=row["wake_at"],
    )


def _outgoing(conversation: Conversation, effect: Effect) -> dict[str, Any]:
    assert not isinstance(effect, Keep)
    return {
        "conversation_id": conversation.id,
        "number": effect.number,
        "urgency": int(effect.urgency),
        "locale": conversation.locale,
        "effect": encode_outgoing(effect),
        "target": effect.target if isinstance(effect, Revise) else None,
        "until_at": getattr(effect, "until", None),
        "fate": WAITING,
        "attempts": 0,
    }


def _most_urgent(connection: Connection, now: datetime) -> RowMapping | None:
    """Safety first; else the head of the conversation whose waiting parcels are most urgent.

    A conversation's parcels leave in order, so an urgent one lends its urgency to those before it.
    """
    free = and_(
        or_(OUTBOX.c.leased_until_at.is_(None), OUTBOX.c.leased_until_at < now),
        or_(OUTBOX.c.not_before_at.is_(None), OUTBOX.c.not_before_at <= now),
    )
    with_address = select(OUTBOX, CONVERSATION.c.address).join(
        CONVERSATION, CONVERSATION.c.id == OUTBOX.c.conversation_id
    )
    safety = (
        with_address.where(OUTBOX.c.fate == WAITING, OUTBOX.c.urgency == int(Urgency.SAFETY), free)
        .order_by(OUTBOX.c.id)
        .limit(1)
    )
    row = connection.execute(safety).mappings().first()
    if row is not None:
        return row
    heads = (
        select(func.min(OUTBOX.c.id).label("head"), func.min(OUTBOX.c.urgency).label("most"))
        .where(OUTBOX.c.fate == WAITING)
        .group_by(OUTBOX.c.conversation_id)
        .subquery()
    )
    head = (
        with_address.join(heads, heads.c.head == OUTBOX.c.id)
        .where(free)
        .order_by(heads.c.most, OUTBOX.c.id)
        .limit(1)
    )
    return connection.execute(head).mappings().first()


def _target_ref(connection: Connection, row: RowMapping) -> str | None:
    if row["target"] is None:
        return None
    sent = select(OUTBOX.c.ref).where(
        OUTBOX.c.conversation_id == row["conversation_id"], OUTBOX.c.number == row["target"]
    )
    return connection.execute(sent).scalar()
