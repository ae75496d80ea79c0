"""One unit of work on a relational database."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from sqlalchemy import (
    Connection,
    and_,
    delete,
    insert,
    or_,
    select,
    update,
)
from sqlalchemy.exc import IntegrityError

from bot.engine.effects import (
    Amend,
    Effect,
    Forget,
    Keep,
    Outgoing,
    Retract,
    Urgency,
    Withdraw,
)
from bot.engine.events import Event
from bot.engine.post import related
from bot.engine.state import Conversation
from bot.errors import ConflictError
from bot.protocol.record import TestRecord
from bot.runtime.ports import (
    Invitation,
    Link,
    Stored,
)
from bot.store import links
from bot.store.care import SqlCare
from bot.store.codec import (
    decode_conversation,
    decode_record,
    encode_conversation,
    encode_event,
    encode_record,
)
from bot.store.outbox import row_for
from bot.store.reading import stored_from
from bot.store.statements import (
    CONVERSATION,
    DROPPED,
    EVENT,
    INBOX,
    INVITATION,
    LOAD,
    LOAD_BY_ID,
    LOCK,
    OUTBOX,
    RESULT,
    SAVE,
    WAITING,
)


class SqlUnit:
    """A unit of work on one connection, inside one transaction."""

    def __init__(self, connection: Connection) -> None:
        self._db = connection
        self.care = SqlCare(connection)

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

    def hold(self, name: str) -> None:
        """Lock a conversation, named by address or id, and all that a step of it may reach."""
        named = or_(CONVERSATION.c.address == name, CONVERSATION.c.id == name)
        state = self._db.execute(select(CONVERSATION.c.state).where(named)).scalar()
        if state is None:
            return
        conversation = decode_conversation(state)
        reach = related(conversation)
        if reach:
            self._db.execute(LOCK, {"ids": sorted({conversation.id, *reach})})

    def load(self, address: str) -> Stored | None:
        """Return the conversation at an address."""
        return stored_from(self._db.execute(LOAD, {"address": address}).mappings().first())

    def load_by_id(self, conversation_id: str) -> Stored | None:
        """Return a conversation by its id."""
        return stored_from(self._db.execute(LOAD_BY_ID, {"id": conversation_id}).mappings().first())

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
        logged: bool = True,
    ) -> None:
        """Put down one step.

        Raises:
            ConflictError: The conversation has changed since it was loaded.
        """
        revision = stored.revision + 1
        saved = self._db.execute(
            SAVE,
            {
                "the_id": conversation.id,
                "loaded": stored.revision,
                "new_revision": revision,
                "new_wake": wake_at,
                "now": encode_conversation(conversation),
                "gone": any(isinstance(effect, Forget) for effect in effects),
            },
        )
        if saved.rowcount != 1:
            raise ConflictError(conversation.id)
        if any(isinstance(effect, Forget) for effect in effects):
            self._forget(conversation)
        elif logged:
            self._db.execute(
                insert(EVENT).values(
                    conversation_id=conversation.id,
                    position=revision,
                    at=event.at,
                    event=encode_event(event),
                )
            )
        else:
            self._begin_anew(conversation)
        if any(isinstance(effect, Withdraw) for effect in effects):
            self._withdraw(conversation.id, event.at)
        for effect in effects:
            if isinstance(effect, Retract):
                self._retract(conversation.id, effect.numbers, event.at)
        outgoing = [row_for(conversation, e) for e in effects if isinstance(e, Outgoing)]
        if outgoing:
            self._db.execute(insert(OUTBOX), outgoing)
        for effect in effects:
            if isinstance(effect, Keep):
                self._keep(conversation.id, effect.record)
            elif isinstance(effect, Amend):
                self._amend(conversation.id, effect)

    def _withdraw(self, conversation_id: str, at: datetime) -> None:
        """Drop what waits of a test that is over: "measure now" must not follow "lie down now"."""
        self._db.execute(
            update(OUTBOX)
            .where(OUTBOX.c.conversation_id == conversation_id, OUTBOX.c.fate == WAITING)
            .where(OUTBOX.c.urgency != int(Urgency.SAFETY))
            .values(fate=DROPPED, settled_at=at)
        )

    def _retract(self, conversation_id: str, numbers: tuple[int, ...], at: datetime) -> None:
        """Drop these messages if they still wait: what they tell of is no longer theirs to know."""
        self._db.execute(
            update(OUTBOX)
            .where(OUTBOX.c.conversation_id == conversation_id, OUTBOX.c.fate == WAITING)
            .where(OUTBOX.c.number.in_(numbers))
            .values(fate=DROPPED, settled_at=at)
        )

    def _begin_anew(self, conversation: Conversation) -> None:
        self._db.execute(
            update(CONVERSATION)
            .where(CONVERSATION.c.id == conversation.id)
            .values(beginning=encode_conversation(conversation))
        )

    def _forget(self, conversation: Conversation) -> None:
        """Delete all rows of a person; what this step still says is put down after this."""
        for table in (EVENT, RESULT, OUTBOX):
            self._db.execute(delete(table).where(table.c.conversation_id == conversation.id))
        # The invitation is the clinic's: it only forgets who opened it, and can be opened again.
        self._db.execute(
            update(INVITATION)
            .where(INVITATION.c.conversation_id == conversation.id)
            .values(conversation_id=None)
        )
        links.forget(self._db, conversation.id)
        self._begin_anew(conversation)

    def offer_link(self, link: Link) -> None:
        """Put down a link that a person gives to somebody else."""
        links.offer(self._db, link)

    def open_link(self, code: str, at: datetime, by: str) -> Link | None:
        """Return a good link and note which conversation opened it; `None` for any other code."""
        return links.opened(self._db, code, at, by)

    def take_link(self, of: str, at: datetime, by: str) -> bool:
        """Use up the link of a person that a conversation opened. False if there is no good one."""
        return links.taken(self._db, of, at, by)

    def invitation(self, code: str, at: datetime, address: str) -> Invitation | None:
        """Return a good invitation and note who opened it."""
        found = select(INVITATION).where(INVITATION.c.code == code)
        row = self._db.execute(found).mappings().first()
        mine = select(CONVERSATION.c.id).where(CONVERSATION.c.address == address)
        conversation_id = self._db.execute(mine).scalar()
        if row is None or row["expires_at"] < at:
            return None
        if row["conversation_id"] not in (None, conversation_id):
            return None  # somebody else has opened it
        self._db.execute(
            update(INVITATION)
            .where(INVITATION.c.code == code)
            .values(conversation_id=conversation_id)
        )
        return Invitation(
            code=row["code"],
            reference=row["reference"],
            protocol=row["protocol"],
            language=row["language"],
            made_at=row["made_at"],
            expires_at=row["expires_at"],
        )

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

    def _amend(self, conversation_id: str, effect: Amend) -> None:
        """Put the kind of day into a test that was kept before; one not kept stays so."""
        mine = and_(
            RESULT.c.conversation_id == conversation_id, RESULT.c.test_number == effect.test
        )
        text = self._db.execute(select(RESULT.c.record).where(mine)).scalar()
        if text is not None:
            amended = replace(decode_record(text), day=effect.day)
            self._db.execute(update(RESULT).where(mine).values(record=encode_record(amended)))
