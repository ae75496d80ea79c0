"""One unit of work on a relational database."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from sqlalchemy import (
    Connection,
    and_,
    select,
    update,
)

from bot.care.invitation import Invitation
from bot.engine.effects import (
    Amend,
    Effect,
    Forget,
    Keep,
    Outgoing,
    Retract,
    Urgency,
    Withdraw,
    WithdrawLink,
)
from bot.engine.events import Event
from bot.engine.post import related
from bot.engine.state import Conversation
from bot.errors import ConflictError
from bot.protocol.record import TestRecord
from bot.runtime.ports import Link, Stored
from bot.store import invitations, links
from bot.store.care import SqlCare
from bot.store.codec import (
    decode_record,
    encode_conversation,
    encode_event,
    encode_record,
)
from bot.store.forgetting import erase_rows
from bot.store.marks import keep_marks
from bot.store.opening import opened_conversation, sealed_conversation
from bot.store.outbox import row_for
from bot.store.reading import stored_from
from bot.store.sqlite import locks_whole
from bot.store.statements import (
    BEGIN,
    CLAIM,
    DROP_RESULT,
    DROPPED,
    IS_WAITING,
    KEEP_RESULT,
    LOAD,
    LOAD_BY_ID,
    LOCK,
    LOG,
    OUTBOX,
    POST,
    RESULT,
    SAVE,
    SAVE_ANEW,
    STATE_NAMED,
    WITHDRAW,
)


class SqlUnit:
    """A unit of work on one connection, inside one transaction."""

    def __init__(self, connection: Connection) -> None:
        self._db = connection
        self.care = SqlCare(connection)

    def claim(self, key: str, at: datetime) -> bool:
        """Take an arrival; False when it was taken before."""
        return CLAIM.change(self._db, {"key": key, "taken_at": at}) == 1

    def hold(self, name: str) -> None:
        """Lock a conversation, named by address or id, and all that a step of it may reach."""
        if locks_whole(self._db):
            return
        state = self._db.execute(STATE_NAMED, {"name": name, "name_id": name}).scalar()
        if state is None:
            return
        conversation = opened_conversation(self._db, state)
        reach = related(conversation)
        if not reach:
            return
        locked = self._db.execute(LOCK, {"ids": sorted({conversation.id, *reach})})
        states = {row.id: row.state for row in locked}
        now = states.get(conversation.id)
        if now is None or (now != state and related(opened_conversation(self._db, now)) != reach):
            raise ConflictError(conversation.id)  # others are linked with it since it was read

    def load(self, address: str) -> Stored | None:
        """Return the conversation at an address."""
        return stored_from(self._db, LOAD.first(self._db, {"address": address}))

    def load_by_id(self, conversation_id: str) -> Stored | None:
        """Return a conversation by its id."""
        return stored_from(self._db, LOAD_BY_ID.first(self._db, {"id": conversation_id}))

    def add(self, conversation: Conversation, address: str, at: datetime) -> Stored:
        """Put down a new conversation.

        Raises:
            ConflictError: Somebody else put one down for the same address, or changed the keys.
        """
        keep_marks(self._db)
        state = encode_conversation(conversation)
        row = {
            "id": conversation.id,
            "address_mark": address,
            "address": address,
            "began_at": at,
            "beginning": state,
            "revision": 0,
            "wake_at": None,
            "state": state,
        }
        if BEGIN.change(self._db, row) != 1:
            raise ConflictError(conversation.id)
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
        gone = any(isinstance(effect, Forget) for effect in effects)
        text = encode_conversation(conversation)
        saved = (SAVE if logged and not gone else SAVE_ANEW).change(
            self._db,
            {
                "the_id": conversation.id,
                "loaded": stored.revision,
                "new_revision": revision,
                "new_wake": wake_at,
                "now": sealed_conversation(self._db, conversation, text),
                "new_beginning": text,
                "gone": gone,
            },
        )
        if saved != 1:
            raise ConflictError(conversation.id)
        if gone:
            self._forget(conversation.id)
        elif logged:
            LOG.change(
                self._db,
                {
                    "conversation_id": conversation.id,
                    "position": revision,
                    "at": event.at,
                    "event": encode_event(event),
                },
            )
        if any(isinstance(effect, Withdraw) for effect in effects):
            self._withdraw(conversation.id, event.at)
        for effect in effects:
            if isinstance(effect, Retract):
                self._retract(conversation.id, effect.numbers, event.at)
            elif isinstance(effect, WithdrawLink):
                links.withdraw(self._db, conversation.id, effect.made_at)
        outgoing = [row_for(conversation, e) for e in effects if isinstance(e, Outgoing)]
        POST.change_each(self._db, outgoing)
        for effect in effects:
            if isinstance(effect, Keep):
                self._keep(conversation.id, effect.record)
            elif isinstance(effect, Amend):
                self._amend(conversation.id, effect)

    def _withdraw(self, conversation_id: str, at: datetime) -> None:
        """Drop what waits of a test that is over: "measure now" must not follow "lie down now"."""
        but = int(Urgency.SAFETY)
        WITHDRAW.change(self._db, {"whose": conversation_id, "but": but, "at": at})

    def _retract(self, conversation_id: str, numbers: tuple[int, ...], at: datetime) -> None:
        """Drop these messages if they still wait: what they tell of is no longer theirs to know."""
        self._db.execute(
            update(OUTBOX)
            .where(OUTBOX.c.conversation_id == conversation_id, IS_WAITING)
            .where(OUTBOX.c.number.in_(numbers))
            .values(fate=DROPPED, settled_at=at)
        )

    def _forget(self, conversation_id: str) -> None:
        """Delete all rows of a person; what this step still says is put down after this."""
        erase_rows(self._db, conversation_id)

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
        """Return a good invitation and note who opened it; `None` for any other code."""
        return invitations.opened(self._db, code, at, address)

    def _keep(self, conversation_id: str, record: TestRecord) -> None:
        DROP_RESULT.change(self._db, {"whose": conversation_id, "which": record.number})
        KEEP_RESULT.change(
            self._db,
            {
                "conversation_id": conversation_id,
                "test_number": record.number,
                "revision": record.revision,
                "record": encode_record(record),
            },
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
