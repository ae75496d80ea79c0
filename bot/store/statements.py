"""The tables as Core sees them, and what their columns may say."""

from datetime import timedelta
from typing import Any, Final

from sqlalchemy import (
    Table,
    bindparam,
    func,
    insert,
    literal_column,
    or_,
    select,
    update,
)
from sqlalchemy.dialects import postgresql, sqlite

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

_COUNTED: Final = {"preserve_rowcount": True}

CLAIM: Final = {
    "sqlite": sqlite.insert(INBOX).on_conflict_do_nothing().execution_options(**_COUNTED),
    "postgresql": postgresql.insert(INBOX).on_conflict_do_nothing().execution_options(**_COUNTED),
}
"""By dialect: takes an arrival, or changes nothing. Another unit's claim is waited for."""

BEGIN: Final = {
    "sqlite": sqlite.insert(CONVERSATION).on_conflict_do_nothing().execution_options(**_COUNTED),
    "postgresql": postgresql.insert(CONVERSATION)
    .on_conflict_do_nothing()
    .execution_options(**_COUNTED),
}
"""By dialect: puts down a conversation, or changes nothing if there is one at that address."""

LOG: Final = insert(EVENT)
POST: Final = insert(OUTBOX)
_LOCKED: Final = select(
    CONVERSATION.c.id,
    CONVERSATION.c.address,
    CONVERSATION.c.revision,
    CONVERSATION.c.wake_at,
    CONVERSATION.c.state,
).with_for_update()
LOAD: Final = _LOCKED.where(CONVERSATION.c.address_mark == bindparam("address"))
LOAD_BY_ID: Final = _LOCKED.where(CONVERSATION.c.id == bindparam("id"))
LOCK: Final = (
    select(CONVERSATION.c.id, CONVERSATION.c.state)
    .where(CONVERSATION.c.id.in_(bindparam("ids", expanding=True)))
    .order_by(CONVERSATION.c.id)
    .with_for_update()
)
LOCK_ONE: Final = (
    select(CONVERSATION.c.forgotten, CONVERSATION.c.address)
    .where(CONVERSATION.c.id == bindparam("id"))
    .with_for_update()
)
LEASE: Final = (
    update(OUTBOX)
    .where(OUTBOX.c.id == bindparam("which"))
    .values(attempts=bindparam("count"), leased_until_at=bindparam("until"))
)
IS_WAITING: Final = OUTBOX.c.fate == literal_column(f"'{WAITING}'")
"""Written out, since an index on a part of the rows serves only who names that part so."""

SOONEST: Final = select(func.min(OUTBOX.c.not_before_at)).where(
    IS_WAITING, OUTBOX.c.not_before_at.is_not(None), OUTBOX.c.leased_until_at.is_(None)
)
STATE_NAMED: Final = select(CONVERSATION.c.state).where(
    or_(CONVERSATION.c.address_mark == bindparam("name"), CONVERSATION.c.id == bindparam("name_id"))
)
SAVE: Final = (
    update(CONVERSATION)
    .where(CONVERSATION.c.id == bindparam("the_id"))
    .where(CONVERSATION.c.revision == bindparam("loaded"))
    .values(
        revision=bindparam("new_revision"),
        wake_at=bindparam("new_wake"),
        state=bindparam("now"),
        forgotten=bindparam("gone"),
    )
)
