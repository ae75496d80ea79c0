"""Seal what tells of people, and find it by keyed marks."""

from collections.abc import Callable, Mapping

import sqlalchemy as sa
from alembic import context, op

from bot.store.vault import Mark, Vault, new_mark_keys

revision = "0004"
down_revision = "0003"

_AT_A_TIME = 500


def upgrade() -> None:
    """Go to this revision."""
    vault: Vault = context.config.attributes["vault"]
    op.create_table(
        "mark_key",
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("kind", name=op.f("pk_mark_key")),
    )
    keys = new_mark_keys()
    vault.use_marks(keys)
    mark_key = sa.table("mark_key", sa.column("kind"), sa.column("key"))
    op.bulk_insert(mark_key, [{"kind": k.value, "key": vault.seal(v)} for k, v in keys.items()])

    # Plain statements: a table made anew, as batches do, would lose what refers to it.
    for table, columns in (
        ("conversation", ("address",)),
        ("invitation", ("code", "reference")),
        ("companion_link", ("code",)),
    ):
        for column in columns:
            op.execute(f"ALTER TABLE {table} RENAME COLUMN {column} TO {column}_mark")
            op.add_column(table, sa.Column(column, sa.Text(), nullable=False, server_default=""))

    def marked(column: str, kind: Mark) -> Mapping[str, Callable[[str], str]]:
        return {column: lambda text: vault.mark(kind, text)}

    _rewrite(
        "conversation",
        ("id",),
        sealed={"address": "address_mark", "beginning": "beginning", "state": "state"},
        marked=marked("address_mark", Mark.ADDRESS),
    )
    _rewrite("inbox", ("key",), marked=marked("key", Mark.ARRIVAL))
    _rewrite("event", ("conversation_id", "position"), sealed={"event": "event"})
    _rewrite("outbox", ("id",), sealed={"effect": "effect", "ref": "ref"})
    _rewrite("result", ("conversation_id", "test_number"), sealed={"record": "record"})
    _rewrite(
        "invitation",
        ("code_mark",),
        sealed={"code": "code_mark", "reference": "reference_mark"},
        marked={
            **marked("code_mark", Mark.CODE),
            **marked("reference_mark", Mark.REFERENCE),
        },
    )
    _rewrite(
        "companion_link",
        ("code_mark",),
        sealed={"code": "code_mark"},
        marked=marked("code_mark", Mark.CODE),
    )


def _rewrite(
    name: str,
    names: tuple[str, ...],
    *,
    sealed: Mapping[str, str] | None = None,
    marked: Mapping[str, Callable[[str], str]] | None = None,
) -> None:
    """Put sealed texts and marks in the place of plain ones.

    Args:
        name: The table.
        names: The columns that name a row.
        sealed: Column to be sealed -> column that holds its text.
        marked: Column that holds a text -> what makes its mark.
    """
    vault: Vault = context.config.attributes["vault"]
    connection = op.get_bind()
    sealed, marked = sealed or {}, marked or {}
    columns = dict.fromkeys((*names, *sealed, *sealed.values(), *marked))
    table = sa.table(name, *(sa.column(column) for column in columns))
    change = (
        sa.update(table)
        .where(*(table.c[column] == sa.bindparam(f"old_{column}") for column in names))
        .values({c: sa.bindparam(f"new_{c}") for c in dict.fromkeys((*sealed, *marked))})
    )

    def changed(row: sa.RowMapping) -> dict[str, object]:
        texts = {c: row[source] for c, source in sealed.items()}
        return {
            **{f"old_{c}": row[c] for c in names},
            **{f"new_{c}": None if t is None else vault.seal(t) for c, t in texts.items()},
            **{f"new_{c}": mark(row[c]) for c, mark in marked.items()},
        }

    keys = connection.execute(sa.select(*(table.c[column] for column in names))).all()
    for start in range(0, len(keys), _AT_A_TIME):
        some = keys[start : start + _AT_A_TIME]
        mine = sa.tuple_(*(table.c[column] for column in names)).in_([tuple(k) for k in some])
        rows = connection.execute(sa.select(table).where(mine)).mappings().all()
        connection.execute(change, [changed(row) for row in rows])
