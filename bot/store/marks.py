"""The keys that marks are made with, which the database holds sealed."""

from sqlalchemy import Connection, select

from bot.store.statements import MARK_KEY
from bot.store.vault import Mark, Vault


def read_mark_keys(connection: Connection, vault: Vault) -> bool:
    """Let a vault make marks with the keys that the database holds; True if they are others.

    Raises:
        DatabaseError: The vault's keys are not those of the database.
    """
    rows = connection.execute(select(MARK_KEY.c.kind, MARK_KEY.c.key)).all()
    return vault.use_marks({Mark(kind): vault.unseal(key) for kind, key in rows})
