"""The care team: its members, their codes, what waits for them, and the log of what they do."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"

_REFUSAL = "the audit log is only ever added to"
_STAYS = ("id", "at", "who", "did", "person", "item")


def upgrade() -> None:
    """Go to this revision."""
    op.create_table(
        "member",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("conversation_id", sa.String(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("label", sa.String(), nullable=False),
        sa.Column("joined_at", sa.BigInteger(), nullable=False),
        sa.Column("added_by", sa.Integer(), nullable=True),
        sa.Column("room", sa.Boolean(), nullable=False),
        sa.Column("on_duty", sa.Boolean(), nullable=False),
        sa.Column("removed_at", sa.BigInteger(), nullable=True),
        sa.Column("asked", sa.String(), nullable=True),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_member")),
    )
    op.create_index(
        "uq_member_present",
        "member",
        ["conversation_id"],
        unique=True,
        sqlite_where=sa.text("removed_at IS NULL"),
        postgresql_where=sa.text("removed_at IS NULL"),
    )
    op.create_table(
        "member_code",
        sa.Column("digest", sa.String(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("label", sa.String(), nullable=False),
        sa.Column("made_at", sa.BigInteger(), nullable=False),
        sa.Column("made_by", sa.Integer(), nullable=True),
        sa.Column("expires_at", sa.BigInteger(), nullable=False),
        sa.Column("used_at", sa.BigInteger(), nullable=True),
        sa.PrimaryKeyConstraint("digest", name=op.f("pk_member_code")),
    )
    op.create_table(
        "wrong_code",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("address_mark", sa.String(), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_wrong_code")),
    )
    op.create_index("ix_wrong_code_address", "wrong_code", ["address_mark"], unique=False)
    op.create_table(
        "item",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("test", sa.Integer(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("taken_by", sa.Integer(), nullable=True),
        sa.Column("closed_at", sa.BigInteger(), nullable=True),
        sa.Column("wake_at", sa.BigInteger(), nullable=True),
        sa.Column("state", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_item")),
    )
    op.create_index(op.f("ix_item_person"), "item", ["person"], unique=False)
    op.create_index(op.f("ix_item_wake_at"), "item", ["wake_at"], unique=False)
    op.create_index(
        "uq_item_open",
        "item",
        ["person", "test"],
        unique=True,
        sqlite_where=sa.text("closed_at IS NULL"),
        postgresql_where=sa.text("closed_at IS NULL"),
    )
    op.create_table(
        "audit",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("who", sa.Integer(), nullable=False),
        sa.Column("did", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=True),
        sa.Column("item", sa.Integer(), nullable=True),
        sa.Column("detail", sa.String(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_audit")),
    )
    for statement in _only_ever_added_to(op.get_bind().dialect.name):
        op.execute(statement)


def _only_ever_added_to(dialect: str) -> tuple[str, ...]:
    """Return what makes the database itself refuse to change or delete a line of the log.

    Its sealed word can be put down anew, as new keys need it; nothing else of it can.
    """
    changed = f"UPDATE OF {', '.join(_STAYS)}"
    if dialect == "postgresql":
        function = (
            "CREATE FUNCTION refuse_audit() RETURNS trigger AS $$ "
            f"BEGIN RAISE EXCEPTION '{_REFUSAL}'; END $$ LANGUAGE plpgsql"
        )
        rows = (
            f"CREATE TRIGGER audit_stays BEFORE {changed} OR DELETE ON audit "
            "FOR EACH ROW EXECUTE FUNCTION refuse_audit()"
        )
        whole = (
            "CREATE TRIGGER audit_stays_whole BEFORE TRUNCATE ON audit "
            "FOR EACH STATEMENT EXECUTE FUNCTION refuse_audit()"
        )
        return function, rows, whole
    return tuple(
        f"CREATE TRIGGER audit_no_{what.split()[0].lower()} BEFORE {what} ON audit "
        f"BEGIN SELECT RAISE(ABORT, '{_REFUSAL}'); END"
        for what in (changed, "DELETE")
    )
