"""The outbox: what goes out next, and what becomes of it."""

from datetime import datetime
from typing import Any, Final

from sqlalchemy import (
    Connection,
    RowMapping,
    and_,
    bindparam,
    delete,
    func,
    or_,
    select,
    update,
)

from bot.engine.effects import (
    Effect,
    Outgoing,
    Revise,
    Urgency,
)
from bot.engine.state import Conversation
from bot.runtime.ports import (
    Parcel,
)
from bot.store.codec import (
    encode_outgoing,
)
from bot.store.columns import Instant
from bot.store.statements import CONVERSATION, DROPPED, OUTBOX, WAITING

# Built once: putting a statement together takes longer than running it.

_NOW: Final = bindparam("now", type_=Instant)
_FREE: Final = and_(
    OUTBOX.c.fate == WAITING,
    or_(OUTBOX.c.leased_until_at.is_(None), OUTBOX.c.leased_until_at < _NOW),
    or_(OUTBOX.c.not_before_at.is_(None), OUTBOX.c.not_before_at <= _NOW),
)
_WITH_ADDRESS: Final = select(OUTBOX, CONVERSATION.c.address).join(
    CONVERSATION, CONVERSATION.c.id == OUTBOX.c.conversation_id
)
_SAFETY: Final = (
    _WITH_ADDRESS.where(OUTBOX.c.urgency == int(Urgency.SAFETY), _FREE)
    .order_by(OUTBOX.c.id)
    .limit(1)
    .with_for_update(of=OUTBOX, skip_locked=True)
)
_HEADS: Final = (
    select(func.min(OUTBOX.c.id).label("head"), func.min(OUTBOX.c.urgency).label("most"))
    .where(OUTBOX.c.fate == WAITING)
    .group_by(OUTBOX.c.conversation_id)
    .subquery()
)
_HEAD: Final = (
    # Whether the row waits is asked again of the row itself: when somebody else settles it while
    # we look, PostgreSQL checks the row anew, but not the subquery.
    _WITH_ADDRESS.join(_HEADS, _HEADS.c.head == OUTBOX.c.id)
    .where(_FREE)
    .order_by(_HEADS.c.most, OUTBOX.c.id)
    .limit(1)
    .with_for_update(of=OUTBOX, skip_locked=True)
)
_REF: Final = select(OUTBOX.c.ref).where(
    OUTBOX.c.conversation_id == bindparam("whose"), OUTBOX.c.number == bindparam("which")
)
_STALE: Final = (
    select(OUTBOX.c.id)
    .where(OUTBOX.c.fate == WAITING, OUTBOX.c.until_at < _NOW)
    .with_for_update(skip_locked=True)
)
_DROP: Final = update(OUTBOX).where(OUTBOX.c.id.in_(_STALE)).values(fate=DROPPED, settled_at=_NOW)
_STILL_WAITING: Final = select(func.count()).where(
    OUTBOX.c.conversation_id == bindparam("whose"), OUTBOX.c.fate == WAITING
)


def row_for(conversation: Conversation, effect: Effect) -> dict[str, Any]:
    """Return the row of an outgoing effect."""
    assert isinstance(effect, Outgoing)
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


def may_be_given_up(parcel: Parcel) -> bool:
    """Words of safety are tried until they arrive."""
    return parcel.effect.urgency is not Urgency.SAFETY


def most_urgent(connection: Connection, now: datetime) -> RowMapping | None:
    """Safety first; else the head of the conversation whose waiting parcels are most urgent.

    A conversation's parcels leave in order, so an urgent one lends its urgency to those before it.
    The row is locked; rows that another process has locked are passed over.
    """
    at = {"now": now}
    row = connection.execute(_SAFETY, at).mappings().first()
    return connection.execute(_HEAD, at).mappings().first() if row is None else row


def target_ref(connection: Connection, row: RowMapping) -> str | None:
    """Return the channel's name of the message that a row changes, if it changes one."""
    if row["target"] is None:
        return None
    which = {"whose": row["conversation_id"], "which": row["target"]}
    return connection.execute(_REF, which).scalar()


def drop_stale(connection: Connection, now: datetime) -> None:
    """Drop what can no longer be of use; what somebody else is at work on is left to them."""
    connection.execute(_DROP, {"now": now})


def bury(connection: Connection, conversation_id: str) -> bool:
    """Delete what is left of a person who asked to be forgotten, once the last word is out.

    True if there was such a person; their conversation is locked by the caller.
    """
    if connection.execute(_STILL_WAITING, {"whose": conversation_id}).scalar():
        return False
    connection.execute(delete(OUTBOX).where(OUTBOX.c.conversation_id == conversation_id))
    connection.execute(delete(CONVERSATION).where(CONVERSATION.c.id == conversation_id))
    return True
