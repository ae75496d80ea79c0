"""The keys that marks are made with, which the database holds sealed."""

from collections.abc import Iterable
from typing import Any, Final

from sqlalchemy import Connection, select

from bot.errors import ConflictError
from bot.store.statements import MARK_KEY, MARK_KEYS
from bot.store.vault import Mark, Vault, vault_of

_KEYS: Final = select(MARK_KEY.c.kind, MARK_KEY.c.key)


def read_mark_keys(connection: Connection, vault: Vault) -> bool:
    """Let a vault make marks with the keys that the database holds; True if they are others.

    Raises:
        DatabaseError: The vault's keys are not those of the database.
    """
    return _use(connection.execute(_KEYS).all(), vault)


def _use(rows: Iterable[Any], vault: Vault) -> bool:
    return vault.use_marks({Mark(kind): vault.unseal(key) for kind, key in rows})


def keep_marks(connection: Connection) -> None:
    """Make sure that our marks are still those of the database, before a new one is put down.

    Somebody may have had other keys made while this program ran. What is there already is then
    not found by our marks, and a person would get a second conversation.

    Raises:
        ConflictError: They were changed; from now on the new ones are used.
    """
    # Locked, so that whoever makes others waits for what we are about to put down, and we for them.
    rows = MARK_KEYS.all(connection)
    if _use(((row["kind"], row["key"]) for row in rows), vault_of(connection.dialect)):
        raise ConflictError("the keys of the database were changed")
