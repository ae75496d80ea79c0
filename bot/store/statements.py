"""The tables as Core sees them, and what their columns may say."""

from datetime import timedelta
from typing import Any, Final

from sqlalchemy import (
    Table,
    Text,
    bindparam,
    delete,
    func,
    insert,
    literal_column,
    or_,
    select,
    type_coerce,
    update,
)
from sqlalchemy.dialects import postgresql, sqlite

from bot.store.prepared import Prepared
from bot.store.tables import (
    AuditRow,
    CompanionLinkRow,
    ConversationRow,
    EventRow,
    InboxRow,
    InvitationRow,
    ItemRow,
    LeadRow,
    MarkKeyRow,
    MemberCodeRow,
    MemberRow,
    OutboxRow,
    ResultRow,
    WrongCodeRow,
)


def _table(model: Any) -> Table:
    table: Table = model.__table__
    return table


CONVERSATION: Final = _table(ConversationRow)
INBOX: Final = _table(InboxRow)
EVENT: Final = _table(EventRow)
OUTBOX: Final = _table(OutboxRow)
INVITATION: Final = _table(InvitationRow)
COMPANION_LINK: Final = _table(CompanionLinkRow)
RESULT: Final = _table(ResultRow)
MEMBER: Final = _table(MemberRow)
MEMBER_CODE: Final = _table(MemberCodeRow)
WRONG_CODE: Final = _table(WrongCodeRow)
ITEM: Final = _table(ItemRow)
AUDIT: Final = _table(AuditRow)
MARK_KEY: Final = _table(MarkKeyRow)
LEAD: Final = _table(LeadRow)

LEAST_OF_ID: Final = 6

WAITING: Final = "waiting"
SENT: Final = "sent"
REFUSED: Final = "refused"
UNKNOWN: Final = "unknown"
DROPPED: Final = "dropped"

PAUSES: Final = (timedelta(seconds=2), timedelta(seconds=10), timedelta(seconds=30))
"""How long to wait before trying again what may have arrived; after the last it is given up."""

IS_WAITING: Final = OUTBOX.c.fate == literal_column(f"'{WAITING}'")
"""Written out, since an index on a part of the rows serves only who names that part so."""

CLAIM: Final = Prepared(
    {
        "sqlite": sqlite.insert(INBOX).on_conflict_do_nothing(),
        "postgresql": postgresql.insert(INBOX).on_conflict_do_nothing(),
    },
    "key",
    "taken_at",
)
"""By dialect: takes an arrival, or changes nothing. Another unit's claim is waited for."""

BEGIN: Final = Prepared(
    {
        "sqlite": sqlite.insert(CONVERSATION).on_conflict_do_nothing(),
        "postgresql": postgresql.insert(CONVERSATION).on_conflict_do_nothing(),
    },
    "id",
    "address_mark",
    "address",
    "began_at",
    "beginning",
    "revision",
    "wake_at",
    "state",
)
"""By dialect: puts down a conversation, or changes nothing if there is one at that address."""

LOG: Final = Prepared(insert(EVENT), "conversation_id", "position", "at", "event")
POST: Final = Prepared(
    insert(OUTBOX),
    "conversation_id",
    "number",
    "urgency",
    "locale",
    "effect",
    "target",
    "until_at",
    "fate",
    "attempts",
)
SEALED_STATE: Final = type_coerce(CONVERSATION.c.state, Text).label("state")
"""A conversation as it stands, still sealed: what it holds is perhaps known (`opening.py`)."""

_LOCKED: Final = select(
    SEALED_STATE, CONVERSATION.c.address, CONVERSATION.c.revision, CONVERSATION.c.wake_at
).with_for_update()
LOAD: Final = Prepared(_LOCKED.where(CONVERSATION.c.address_mark == bindparam("address")))
LOAD_BY_ID: Final = Prepared(_LOCKED.where(CONVERSATION.c.id == bindparam("id")))
LOCK: Final = (
    select(CONVERSATION.c.id, SEALED_STATE)
    .where(CONVERSATION.c.id.in_(bindparam("ids", expanding=True)))
    .order_by(CONVERSATION.c.id)
    .with_for_update()
)
LOCK_ONE: Final = Prepared(
    select(CONVERSATION.c.forgotten, CONVERSATION.c.address)
    .where(CONVERSATION.c.id == bindparam("id"))
    .with_for_update()
)
SLEEPERS: Final = Prepared(
    select(CONVERSATION.c.id, CONVERSATION.c.wake_at).where(
        CONVERSATION.c.wake_at <= bindparam("until")
    )
)
ITEMS_DUE: Final = Prepared(
    select(ITEM.c.number, ITEM.c.wake_at).where(ITEM.c.wake_at <= bindparam("until"))
)
DIGESTS_DUE: Final = Prepared(
    select(MEMBER.c.number, MEMBER.c.digest_at).where(MEMBER.c.digest_at <= bindparam("until"))
)
STATE_NAMED: Final = select(SEALED_STATE).where(
    or_(CONVERSATION.c.address_mark == bindparam("name"), CONVERSATION.c.id == bindparam("name_id"))
)
_SAVE: Final = (
    update(CONVERSATION)
    .where(CONVERSATION.c.id == bindparam("the_id"))
    .where(CONVERSATION.c.revision == bindparam("loaded"))
    .values(
        revision=bindparam("new_revision"),
        wake_at=bindparam("new_wake"),
        state=bindparam("now", type_=Text),  # it comes sealed
        forgotten=bindparam("gone"),
    )
)
SAVE: Final = Prepared(_SAVE)
SAVE_ANEW: Final = Prepared(_SAVE.values(beginning=bindparam("new_beginning")))
"""The same, for a conversation of which nothing that came before is kept."""

WITHDRAW: Final = Prepared(
    update(OUTBOX)
    .where(OUTBOX.c.conversation_id == bindparam("whose"), IS_WAITING)
    .where(OUTBOX.c.urgency != bindparam("but"))
    .values(fate=DROPPED, settled_at=bindparam("at"))
)
WRONG_CODES: Final = Prepared(
    select(func.count().label("wrong")).where(
        WRONG_CODE.c.address_mark == bindparam("address"), WRONG_CODE.c.at >= bindparam("since")
    )
)
MEMBER_AT: Final = Prepared(
    select(MEMBER)
    .select_from(MEMBER.join(CONVERSATION, CONVERSATION.c.id == MEMBER.c.conversation_id))
    .where(MEMBER.c.removed_at.is_(None), CONVERSATION.c.address_mark == bindparam("address"))
)
MEMBER_OF: Final = Prepared(
    select(MEMBER).where(
        MEMBER.c.removed_at.is_(None), MEMBER.c.conversation_id == bindparam("name")
    )
)
EVERYONE: Final = Prepared(select(MEMBER).order_by(MEMBER.c.number))
_ITEM: Final = select(
    ITEM.c.number, ITEM.c.person, ITEM.c.revision, type_coerce(ITEM.c.state, Text).label("state")
).order_by(ITEM.c.number)
ITEM_NUMBERED: Final = Prepared(_ITEM.where(ITEM.c.number == bindparam("which")))
OPEN_ITEMS: Final = Prepared(_ITEM.where(ITEM.c.closed_at.is_(None)))
ITEMS: Final = Prepared(_ITEM)
ITEMS_OF: Final = Prepared(_ITEM.where(ITEM.c.person == bindparam("whose")))
SAVE_ITEM: Final = Prepared(
    update(ITEM)
    .where(ITEM.c.number == bindparam("which"), ITEM.c.revision == bindparam("loaded"))
    .values(
        person=bindparam("whose"),
        test=bindparam("of_test"),
        revision=bindparam("new_revision"),
        taken_by=bindparam("by"),
        closed_at=bindparam("closed"),
        wake_at=bindparam("new_wake"),
        state=bindparam("now"),
    )
)
NOTE: Final = Prepared(insert(AUDIT), "at", "who", "did", "person", "item", "detail")
NOTED_OF: Final = Prepared(
    select(AUDIT).where(AUDIT.c.person == bindparam("whose")).order_by(AUDIT.c.id)
)
MARK_KEYS: Final = Prepared(select(MARK_KEY.c.kind, MARK_KEY.c.key).with_for_update(read=True))
_INVITED: Final = select(
    INVITATION.c.conversation_id,
    INVITATION.c.reference,
    INVITATION.c.made_at,
    INVITATION.c.opened_at,
    INVITATION.c.revoked_at,
).order_by(INVITATION.c.made_at, INVITATION.c.reference_mark)
INVITED: Final = Prepared(_INVITED)
INVITED_AS: Final = Prepared(_INVITED.where(INVITATION.c.conversation_id == bindparam("whose")))
_KNOWN: Final = (
    select(CONVERSATION.c.id, SEALED_STATE, CONVERSATION.c.began_at)
    .where(
        CONVERSATION.c.forgotten.is_(False),
        CONVERSATION.c.id.not_in(select(MEMBER.c.conversation_id)),
    )
    .order_by(CONVERSATION.c.began_at, CONVERSATION.c.id)
)
KNOWN: Final = Prepared(_KNOWN)
KNOWN_AS: Final = Prepared(_KNOWN.where(CONVERSATION.c.id == bindparam("whose")))
DROP_RESULT: Final = Prepared(
    delete(RESULT).where(
        RESULT.c.conversation_id == bindparam("whose"), RESULT.c.test_number == bindparam("which")
    )
)
KEEP_RESULT: Final = Prepared(
    insert(RESULT), "conversation_id", "test_number", "revision", "record"
)
RESULT_OF: Final = Prepared(
    select(RESULT.c.record).where(
        RESULT.c.conversation_id == bindparam("whose"), RESULT.c.test_number == bindparam("which")
    )
)
RESULTS_OF: Final = Prepared(
    select(RESULT.c.record)
    .where(RESULT.c.conversation_id == bindparam("whose"))
    .order_by(RESULT.c.test_number)
)
INVITATION_CODED: Final = Prepared(
    select(INVITATION).where(INVITATION.c.code_mark == bindparam("code")).with_for_update()
)
"""Asked of whatever somebody types who came without an invitation: it may be the code of one."""
