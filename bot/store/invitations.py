"""The clinic's invitations: put down, opened, changed, found. A reference has one."""

from datetime import datetime
from typing import Any

from sqlalchemy import Connection, RowMapping, and_, exists, insert, select, update
from sqlalchemy.exc import IntegrityError

from bot.care.invitation import Invitation
from bot.errors import ConflictError, DatabaseError
from bot.store.marks import keep_marks
from bot.store.prepared import Row
from bot.store.statements import CONVERSATION, INVITATION, INVITATION_CODED


def put_down(connection: Connection, invitation: Invitation) -> None:
    """Put down a new invitation.

    Raises:
        DatabaseError: The reference was invited before.
        ConflictError: The keys of the database were changed.
    """
    keep_marks(connection)
    try:
        connection.execute(insert(INVITATION).values(**_values(invitation)))
    except IntegrityError as error:
        raise DatabaseError(
            f"The reference {invitation.reference!r} was invited before; choose another."
        ) from error


def change(connection: Connection, invitation: Invitation) -> None:
    """Put down an invitation as it stands now, by its reference.

    Raises:
        ConflictError: Somebody has opened it meanwhile, or the keys of the database were changed.
    """
    keep_marks(connection)
    mine = and_(
        INVITATION.c.reference_mark == invitation.reference,
        INVITATION.c.conversation_id.is_not_distinct_from(invitation.opened_by),
    )
    changed = connection.execute(update(INVITATION).where(mine).values(**_values(invitation)))
    if changed.rowcount != 1:
        raise ConflictError(f"invitation of {invitation.reference}")


def opened(connection: Connection, code: str, at: datetime, address: str) -> Invitation | None:
    """Return a good invitation and note who opened it; `None` for any other code.

    A chat opens one: what two people measure must not stand under one reference.
    """
    row = INVITATION_CODED.first(connection, {"code": code})
    if row is None:
        return None
    mine = select(CONVERSATION.c.id).where(CONVERSATION.c.address_mark == address)
    by = connection.execute(mine).scalar()
    if not _invitation(row).opens_for(by, at):
        return None
    another = exists().where(INVITATION.c.conversation_id == by, INVITATION.c.code_mark != code)
    if by is not None and connection.execute(select(another)).scalar():
        return None
    if row["conversation_id"] is None and by is not None:
        noted = {"conversation_id": by, "opened_at": at}
        this = update(INVITATION).where(INVITATION.c.code_mark == code)
        connection.execute(this.values(**noted))
        row = {**row, **noted}
    return _invitation(row)


def every(connection: Connection) -> tuple[Invitation, ...]:
    """Return all invitations, the oldest first."""
    rows = connection.execute(select(INVITATION).order_by(INVITATION.c.made_at)).mappings()
    return tuple(_invitation(row) for row in rows)


def _values(invitation: Invitation) -> dict[str, Any]:
    return {
        "code_mark": invitation.code,
        "code": invitation.code,
        "reference_mark": invitation.reference,
        "reference": invitation.reference,
        "protocol": invitation.protocol,
        "language": invitation.language,
        "made_at": invitation.made_at,
        "expires_at": invitation.expires_at,
        "note": invitation.note,
        "made_by": invitation.made_by,
        "opened_at": invitation.opened_at,
        "conversation_id": invitation.opened_by,
        "revoked_at": invitation.revoked_at,
    }


def _invitation(row: Row | RowMapping) -> Invitation:
    return Invitation(
        code=row["code"],
        reference=row["reference"],
        protocol=row["protocol"],
        language=row["language"],
        made_at=row["made_at"],
        expires_at=row["expires_at"],
        note=row["note"],
        made_by=row["made_by"],
        opened_at=row["opened_at"],
        opened_by=row["conversation_id"],
        revoked_at=row["revoked_at"],
    )
