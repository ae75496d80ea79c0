"""The links by which people become companions: offered, opened, used up, forgotten."""

from datetime import datetime

from sqlalchemy import Connection, and_, delete, insert, or_, select, update

from bot.engine.profile import Share
from bot.runtime.ports import Link
from bot.store.marks import keep_marks
from bot.store.statements import COMPANION_LINK


def offer(connection: Connection, link: Link) -> None:
    """Put down a link."""
    keep_marks(connection)
    connection.execute(
        insert(COMPANION_LINK).values(
            code_mark=link.code,
            code=link.code,
            of=link.of,
            share=link.share.value,
            made_at=link.made_at,
            expires_at=link.expires_at,
        )
    )


def opened(connection: Connection, code: str, at: datetime, by: str) -> Link | None:
    """Return a good link and note who opened it; it stays good for them alone."""
    good = and_(
        COMPANION_LINK.c.code_mark == code,
        COMPANION_LINK.c.expires_at >= at,
        COMPANION_LINK.c.taken_at.is_(None),
        COMPANION_LINK.c.of != by,
        or_(COMPANION_LINK.c.opened_by.is_(None), COMPANION_LINK.c.opened_by == by),
    )
    row = (
        connection.execute(select(COMPANION_LINK).where(good).with_for_update()).mappings().first()
    )
    if row is None:
        return None
    connection.execute(
        update(COMPANION_LINK).where(COMPANION_LINK.c.code_mark == code).values(opened_by=by)
    )
    return Link(
        code=row["code"],
        of=row["of"],
        share=Share(row["share"]),
        made_at=row["made_at"],
        expires_at=row["expires_at"],
    )


def taken(connection: Connection, of: str, at: datetime, by: str) -> bool:
    """Use up the link of a person that somebody opened. False if there is no good one."""
    good = and_(
        COMPANION_LINK.c.of == of,
        COMPANION_LINK.c.opened_by == by,
        COMPANION_LINK.c.taken_at.is_(None),
        COMPANION_LINK.c.expires_at >= at,
    )
    used = connection.execute(update(COMPANION_LINK).where(good).values(taken_at=at))
    return used.rowcount > 0


def withdraw(connection: Connection, of: str, made_at: datetime) -> None:
    """Delete the link that a person was given at an instant, if nobody is linked by it."""
    unused = and_(
        COMPANION_LINK.c.of == of,
        COMPANION_LINK.c.made_at == made_at,
        COMPANION_LINK.c.taken_at.is_(None),
    )
    connection.execute(delete(COMPANION_LINK).where(unused))


def forget(connection: Connection, conversation_id: str) -> None:
    """Delete the links of a person, and that they ever opened one; an unused one is good again."""
    used = and_(
        COMPANION_LINK.c.opened_by == conversation_id, COMPANION_LINK.c.taken_at.is_not(None)
    )
    connection.execute(
        delete(COMPANION_LINK).where(or_(COMPANION_LINK.c.of == conversation_id, used))
    )
    connection.execute(
        update(COMPANION_LINK)
        .where(COMPANION_LINK.c.opened_by == conversation_id)
        .values(opened_by=None)
    )
