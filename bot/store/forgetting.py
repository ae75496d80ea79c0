"""Deleting a person: every row of theirs, and every mention of them in the rows of others."""

from sqlalchemy import Connection, delete, update

from bot.store import links
from bot.store.statements import CONVERSATION, EVENT, INVITATION, ITEM, OUTBOX, RESULT
from bot.store.vault import vault_of


def erase_rows(connection: Connection, conversation_id: str) -> None:
    """Delete all rows of a person but the conversation itself, which the caller has locked.

    What waits of theirs with the care team is taken back by the team's conductor, who has to let
    its members know.
    """
    vault_of(connection.dialect).forget()
    for table in (EVENT, RESULT, OUTBOX):
        connection.execute(delete(table).where(table.c.conversation_id == conversation_id))
    # The invitation is the clinic's: it forgets who opened it, when, and what was noted of them,
    # and can be opened again. That it was opened stays, or they would be called about it.
    connection.execute(
        update(INVITATION)
        .where(INVITATION.c.conversation_id == conversation_id)
        .values(conversation_id=None, opened_at=INVITATION.c.made_at, note=None)
    )
    links.forget(connection, conversation_id)


def erase(connection: Connection, conversation_id: str) -> None:
    """Delete a person, whose conversation the caller has locked.

    The log of what the care team did keeps the conversation's id, which then names nobody.
    """
    erase_rows(connection, conversation_id)
    connection.execute(delete(ITEM).where(ITEM.c.person == conversation_id))
    connection.execute(delete(CONVERSATION).where(CONVERSATION.c.id == conversation_id))
