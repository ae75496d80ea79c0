"""The tables as Core sees them, and what their columns may say."""

from datetime import timedelta
from typing import Any, Final

from sqlalchemy import (
    Table,
    bindparam,
    select,
    update,
)

from bot.store.tables import (
    AuditRow,
    CompanionLinkRow,
    ConversationRow,
    EventRow,
    InboxRow,
    InvitationRow,
    ItemRow,
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

LEAST_OF_ID: Final = 6

WAITING: Final = "waiting"
SENT: Final = "sent"
REFUSED: Final = "refused"
UNKNOWN: Final = "unknown"
DROPPED: Final = "dropped"

PAUSES: Final = (timedelta(seconds=2), timedelta(seconds=10), timedelta(seconds=30))
"""How long to wait before trying again what may have arrived; after the last it is given up."""

_LOCKED: Final = select(CONVERSATION).with_for_update()
LOAD: Final = _LOCKED.where(CONVERSATION.c.address == bindparam("address"))
LOAD_BY_ID: Final = _LOCKED.where(CONVERSATION.c.id == bindparam("id"))
LOCK: Final = (
    select(CONVERSATION.c.id)
    .where(CONVERSATION.c.id.in_(bindparam("ids", expanding=True)))
    .order_by(CONVERSATION.c.id)
    .with_for_update()
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
