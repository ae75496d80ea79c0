"""New keys for a database that may be in use: everything is sealed anew, marks are made anew.

Why nothing is lost meanwhile. Whoever seals something has first opened something that belongs to
it, in the same transaction and under its lock; and what cannot be opened makes the program read
its keys again. Here the keys of the marks come first, then the conversations, then the rest. So
a transaction that still seals with the old key holds a conversation that was not sealed anew yet,
and what it puts down is there when its table has its turn.
"""

from collections.abc import Callable, Sequence
from typing import Any, Final

from sqlalchemy import (
    Connection,
    Engine,
    MetaData,
    Table,
    bindparam,
    select,
    tuple_,
    update,
)

from bot.store.columns import Marked, Sealed, SealedName
from bot.store.marks import read_mark_keys
from bot.store.statements import (
    AUDIT,
    COMPANION_LINK,
    CONVERSATION,
    EVENT,
    INVITATION,
    ITEM,
    MARK_KEY,
    MEMBER,
    MEMBER_CODE,
    OUTBOX,
    RESULT,
    WRONG_CODE,
)
from bot.store.transaction import transaction
from bot.store.vault import Mark, Vault, new_mark_keys, vault_of

_AT_A_TIME: Final = 200
_MARKED: Final = (CONVERSATION, INVITATION, COMPANION_LINK, WRONG_CODE)
_SEALED: Final = (
    CONVERSATION,
    EVENT,
    OUTBOX,
    RESULT,
    INVITATION,
    COMPANION_LINK,
    MEMBER,
    MEMBER_CODE,
    WRONG_CODE,
    ITEM,
    AUDIT,
)
"""The conversations first; see above."""


def rows_to_seal(engine: Engine) -> int:
    """Return how many rows there are to be sealed anew."""
    with transaction(engine) as connection:
        return sum(len(_names(connection, table)) for table in _SEALED)


def rotate(engine: Engine, *, progress: Callable[[int], None] = lambda _: None) -> int:
    """Seal everything with the newest key; returns how many rows that was.

    Args:
        engine: The database, whose vault has the new key in front of the old ones.
        progress: Told how many rows more are done.

    Raises:
        DatabaseError: Something cannot be opened by any of the keys.
    """
    _mark_anew(engine)
    done = 0
    for table in _SEALED:
        with transaction(engine) as connection:
            names = _names(connection, table)
        for start in range(0, len(names), _AT_A_TIME):
            some = names[start : start + _AT_A_TIME]
            with transaction(engine) as connection:
                _seal_anew(connection, table, some)
            done += len(some)
            progress(len(some))
    return done


def _mark_anew(engine: Engine) -> None:
    """Make all marks with new keys, but for those of arrivals: of these, no text is kept."""
    vault = vault_of(engine.dialect)
    with transaction(engine) as connection:
        keys = select(MARK_KEY.c.kind, MARK_KEY.c.key).with_for_update()
        old = {kind: vault.unseal(key) for kind, key in connection.execute(keys)}
        new = {**new_mark_keys(), Mark.ARRIVAL: old[Mark.ARRIVAL]}
        for kind, key in new.items():
            sealed = {"key": vault.seal(key)}
            connection.execute(update(MARK_KEY).where(MARK_KEY.c.kind == kind).values(sealed))
        for table in _MARKED:
            _mark_rows(connection, table, vault, new)
    with transaction(engine) as connection:
        read_mark_keys(connection, vault)


def _mark_rows(connection: Connection, table: Table, vault: Vault, keys: dict[Mark, str]) -> None:
    """Put new marks into a table, made from the texts beside them."""
    marks = {c.name: c.type for c in table.columns if isinstance(c.type, Marked)}
    plain = _plain(table)
    name = next(iter(table.primary_key.columns)).name
    texts = [column.removesuffix("_mark") for column in marks]
    for start in _chunks(connection, table):
        rows = connection.execute(
            select(plain.c[name].label("old"), *(plain.c[text] for text in texts))
            .where(plain.c[name].in_([key for (key,) in start]))
            .with_for_update()
        ).mappings()
        changes: list[dict[str, Any]] = []
        with vault.marking_with(keys):
            for row in rows:
                change: dict[str, Any] = {"old": row["old"]}
                for column, kind in marks.items():
                    text = vault.unseal(row[column.removesuffix("_mark")])
                    change[f"new_{column}"] = vault.mark(kind.kind, text)
                changes.append(change)
        values: dict[str, Any] = {column: bindparam(f"new_{column}") for column in marks}
        connection.execute(
            update(plain).where(plain.c[name] == bindparam("old")).values(values), changes
        )


def _chunks(connection: Connection, table: Table) -> list[Sequence[tuple[Any, ...]]]:
    names = _names(connection, table)
    return [names[start : start + _AT_A_TIME] for start in range(0, len(names), _AT_A_TIME)]


def _seal_anew(connection: Connection, table: Table, names: Sequence[tuple[Any, ...]]) -> None:
    vault = vault_of(connection.dialect)
    plain = _plain(table)
    key = [plain.c[column.name] for column in table.primary_key.columns]
    sealed = [c.name for c in table.columns if isinstance(c.type, Sealed | SealedName)]
    rows = connection.execute(
        select(*key, *(plain.c[name] for name in sealed))
        .where(tuple_(*key).in_(names))
        .order_by(*key)
        .with_for_update()
    ).mappings()
    changes = [
        {
            **{f"old_{column.name}": row[column.name] for column in key},
            **{f"new_{c}": None if row[c] is None else vault.reseal(row[c]) for c in sealed},
        }
        for row in rows
    ]
    if changes:
        connection.execute(
            update(plain)
            .where(*(column == bindparam(f"old_{column.name}") for column in key))
            .values({c: bindparam(f"new_{c}") for c in sealed}),
            changes,
        )


def _names(connection: Connection, table: Table) -> list[tuple[Any, ...]]:
    plain = _plain(table)
    key = [plain.c[column.name] for column in table.primary_key.columns]
    return [tuple(row) for row in connection.execute(select(*key).order_by(*key))]


def _plain(table: Table) -> Table:
    """Return a table whose sealed texts and marks come and go as they stand."""
    copy = table.to_metadata(MetaData())
    for column in copy.columns:
        if isinstance(column.type, Sealed | SealedName | Marked):
            column.type = column.type.impl_instance
    return copy
