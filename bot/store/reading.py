"""From rows to what they mean."""

from sqlalchemy import (
    Connection,
    func,
    select,
)

from bot.protocol.record import TestRecord
from bot.runtime.ports import (
    History,
    Kept,
    Stored,
)
from bot.store.codec import (
    decode_conversation,
    decode_event,
    decode_record,
)
from bot.store.opening import opened_conversation
from bot.store.prepared import Row
from bot.store.statements import CONVERSATION, EVENT, INVITATION, LEAST_OF_ID, RESULTS_OF


def history_of(connection: Connection, conversation_id: str) -> History:
    """Return how a conversation began and all that happened in it."""
    beginning = select(CONVERSATION.c.beginning).where(CONVERSATION.c.id == conversation_id)
    events = (
        select(EVENT.c.event)
        .where(EVENT.c.conversation_id == conversation_id)
        .order_by(EVENT.c.position)
    )
    text = connection.execute(beginning).scalar()
    if text is None:
        raise KeyError(conversation_id)
    return History(
        beginning=decode_conversation(text),
        events=tuple(decode_event(event) for event in connection.execute(events).scalars()),
    )


def results_of(connection: Connection, conversation_id: str) -> tuple[TestRecord, ...]:
    """Return a person's tests that have ended, oldest first."""
    rows = RESULTS_OF.all(connection, {"whose": conversation_id})
    return tuple(decode_record(row["record"]) for row in rows)


def kept_of(connection: Connection, conversation_id: str) -> Kept:
    """Return all that is kept of a person."""
    state = select(CONVERSATION.c.state).where(CONVERSATION.c.id == conversation_id)
    return Kept(
        conversation=decode_conversation(connection.execute(state).scalar_one()),
        history=history_of(connection, conversation_id),
        results=results_of(connection, conversation_id),
    )


def named(connection: Connection, reference: str) -> str | None:
    """Return the conversation of a clinic's reference, or whose id begins so.

    A reference is found however it is written: HS-7 and hs-7 are one. Of one that somebody was
    invited by, nobody else is found whose id begins so, opened or not.
    """
    named_as = INVITATION.c.conversation_id, INVITATION.c.reference
    invited = select(*named_as).where(INVITATION.c.reference_mark == reference)
    row = connection.execute(invited).first()
    if row is not None:
        return None if row.conversation_id is None else str(row.conversation_id)
    wanted = reference.casefold()
    for row in connection.execute(select(*named_as)):
        if row.reference.casefold() == wanted:
            return None if row.conversation_id is None else str(row.conversation_id)
    if len(reference) < LEAST_OF_ID:
        return None
    begins = func.lower(CONVERSATION.c.id).startswith(wanted, autoescape=True)
    matches = connection.execute(select(CONVERSATION.c.id).where(begins)).scalars().all()
    return matches[0] if len(matches) == 1 else None


def stored_from(connection: Connection, row: Row | None) -> Stored | None:
    """Return the conversation that a row holds with its state sealed."""
    if row is None:
        return None
    return Stored(
        conversation=opened_conversation(connection, row["state"]),
        address=row["address"],
        revision=row["revision"],
        wake_at=row["wake_at"],
    )
