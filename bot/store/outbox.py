"""The outbox: what goes out next, and what becomes of it."""

from datetime import datetime
from typing import Any, Final, assert_never

from sqlalchemy import (
    ColumnElement,
    Connection,
    and_,
    bindparam,
    delete,
    func,
    literal_column,
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
    Delivery,
    Later,
    Parcel,
    Refused,
    Sent,
    Unknown,
)
from bot.store.codec import (
    encode_outgoing,
)
from bot.store.columns import Instant
from bot.store.prepared import Prepared, Row
from bot.store.statements import (
    CONVERSATION,
    DROPPED,
    IS_WAITING,
    OUTBOX,
    PAUSES,
    REFUSED,
    SENT,
    UNKNOWN,
    WAITING,
)

# Built once: putting a statement together takes longer than running it.

_NOW: Final = bindparam("now", type_=Instant)


def _free(row: Any) -> ColumnElement[bool]:
    return and_(
        row.c.fate == literal_column(f"'{WAITING}'"),
        or_(row.c.leased_until_at.is_(None), row.c.leased_until_at < _NOW),
        or_(row.c.not_before_at.is_(None), row.c.not_before_at <= _NOW),
    )


_SAFETY: Final = Prepared(
    select(OUTBOX, CONVERSATION.c.address)
    .join(CONVERSATION, CONVERSATION.c.id == OUTBOX.c.conversation_id)
    .where(OUTBOX.c.urgency == literal_column(str(int(Urgency.SAFETY))), _free(OUTBOX))
    .order_by(OUTBOX.c.id)
    .limit(1)
    .with_for_update(of=OUTBOX, skip_locked=True)
)
_LENDER: Final = OUTBOX.alias("lender")
_EARLIER: Final = OUTBOX.alias("earlier")
_HEAD: Final = Prepared(
    # Rows are gone through by urgency, and the first whose conversation can go on is the end of
    # it: so many as are under way are looked at in vain, not as many as wait.
    # Whether the head waits is asked of the row itself: when somebody else settles it while we
    # look, PostgreSQL checks the row anew, but not the subquery.
    select(OUTBOX, CONVERSATION.c.address)
    .select_from(_LENDER)
    .join(
        OUTBOX,
        OUTBOX.c.id
        == select(func.min(_EARLIER.c.id))
        .where(
            _EARLIER.c.conversation_id == _LENDER.c.conversation_id,
            _EARLIER.c.fate == literal_column(f"'{WAITING}'"),
        )
        .scalar_subquery(),
    )
    .join(CONVERSATION, CONVERSATION.c.id == OUTBOX.c.conversation_id)
    .where(
        _LENDER.c.fate == literal_column(f"'{WAITING}'"),
        _LENDER.c.urgency <= bindparam("least"),
        _free(OUTBOX),
    )
    .order_by(_LENDER.c.urgency, _LENDER.c.id)
    .limit(1)
    .with_for_update(of=OUTBOX, skip_locked=True)
)
_IN_ORDER: Final = "SET LOCAL enable_sort = off"
"""PostgreSQL has the rows in order from an index; with old statistics, from before so many waited,
it would take few for granted, and read and sort all of them for the first (measured: 95 ms instead
of 2 with 10,000 waiting)."""

_REF: Final = Prepared(
    select(OUTBOX.c.ref).where(
        OUTBOX.c.conversation_id == bindparam("whose"), OUTBOX.c.number == bindparam("which")
    )
)
_STALE: Final = (
    select(OUTBOX.c.id)
    .where(IS_WAITING, OUTBOX.c.until_at < _NOW)
    .with_for_update(skip_locked=True)
)
_DROP: Final = Prepared(
    update(OUTBOX).where(OUTBOX.c.id.in_(_STALE)).values(fate=DROPPED, settled_at=_NOW)
)
_STILL_WAITING: Final = Prepared(
    select(func.count().label("left")).where(
        OUTBOX.c.conversation_id == bindparam("whose"), IS_WAITING
    )
)
_LEASE: Final = Prepared(
    update(OUTBOX)
    .where(OUTBOX.c.id == bindparam("which"))
    .values(attempts=bindparam("tried"), leased_until_at=bindparam("until"))
)
_SOONEST: Final = Prepared(
    select(func.min(OUTBOX.c.not_before_at).label("at")).where(
        IS_WAITING, OUTBOX.c.not_before_at.is_not(None), OUTBOX.c.leased_until_at.is_(None)
    )
)
_LET_GO: Final = (
    update(OUTBOX).where(OUTBOX.c.id == bindparam("which")).values(leased_until_at=None)
)
# What somebody else has settled since stays so; what was dropped may have arrived.
_ARRIVED: Final = Prepared(
    _LET_GO.where(or_(IS_WAITING, OUTBOX.c.fate == literal_column(f"'{DROPPED}'"))).values(
        fate=SENT, ref=bindparam("name"), settled_at=_NOW
    )
)
_GIVEN_UP: Final = Prepared(
    _LET_GO.where(IS_WAITING).values(fate=bindparam("outcome"), settled_at=_NOW)
)
_PUT_OFF: Final = Prepared(_LET_GO.where(IS_WAITING).values(not_before_at=bindparam("until")))
_PUT_BACK: Final = Prepared(
    _LET_GO.where(IS_WAITING).values(not_before_at=bindparam("until"), attempts=bindparam("tried"))
)
"""Put off, and not counted as a try."""


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


def most_urgent(connection: Connection, now: datetime, least: Urgency) -> Row | None:
    """Safety first; else the head of the conversation whose waiting parcels are most urgent.

    A conversation's parcels leave in order, so an urgent one lends its urgency to those before it.
    What is less urgent than `least` is left. The row is locked; rows that another process has
    locked are passed over.
    """
    row = _SAFETY.first(connection, {"now": now})
    if row is not None or least is Urgency.SAFETY:
        return row
    if connection.dialect.name == "postgresql":
        connection.exec_driver_sql(_IN_ORDER)
    return _HEAD.first(connection, {"now": now, "least": int(least)})


def lease(connection: Connection, row: Row, attempt: int, until: datetime) -> None:
    """Hold a parcel for a try."""
    _LEASE.change(connection, {"which": row["id"], "tried": attempt, "until": until})


def soonest(connection: Connection) -> datetime | None:
    """Return when the first of those may be sent that have to wait."""
    row = _SOONEST.first(connection)
    assert row is not None  # there is always a least, if only of nothing
    at: datetime | None = row["at"]
    return at


def settled(connection: Connection, parcel: Parcel, delivery: Delivery, now: datetime) -> bool:
    """Put down what became of a parcel whose conversation is locked; True when it is given up."""
    which = {"which": parcel.id}
    match delivery:
        case Sent(ref):
            _ARRIVED.change(connection, {**which, "name": ref, "now": now})
        case Later(wait):
            again = {**which, "until": now + wait, "tried": parcel.attempt - 1}
            _PUT_BACK.change(connection, again)
        case Refused():
            _GIVEN_UP.change(connection, {**which, "outcome": REFUSED, "now": now})
            return True
        case Unknown() if parcel.attempt > len(PAUSES) and may_be_given_up(parcel):
            _GIVEN_UP.change(connection, {**which, "outcome": UNKNOWN, "now": now})
            return True
        case Unknown():
            pause = PAUSES[min(parcel.attempt, len(PAUSES)) - 1]
            _PUT_OFF.change(connection, {**which, "until": now + pause})
        case _:
            assert_never(delivery)
    return False


def target_ref(connection: Connection, row: Row) -> str | None:
    """Return the channel's name of the message that a row changes, if it changes one."""
    if row["target"] is None:
        return None
    which = {"whose": row["conversation_id"], "which": row["target"]}
    found = _REF.first(connection, which)
    return None if found is None else found["ref"]


def drop_stale(connection: Connection, now: datetime) -> None:
    """Drop what can no longer be of use; what somebody else is at work on is left to them."""
    _DROP.change(connection, {"now": now})


def bury(connection: Connection, conversation_id: str) -> bool:
    """Delete what is left of a person who asked to be forgotten, once the last word is out.

    True if there was such a person; their conversation is locked by the caller.
    """
    waiting = _STILL_WAITING.first(connection, {"whose": conversation_id})
    if waiting is not None and waiting["left"]:
        return False
    connection.execute(delete(OUTBOX).where(OUTBOX.c.conversation_id == conversation_id))
    connection.execute(delete(CONVERSATION).where(CONVERSATION.c.id == conversation_id))
    return True
