"""The first tables."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Go to this revision."""
    op.create_table(
        "conversation",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("address", sa.String(), nullable=False),
        sa.Column("began_at", sa.BigInteger(), nullable=False),
        sa.Column("beginning", sa.Text(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("wake_at", sa.BigInteger(), nullable=True),
        sa.Column("state", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_conversation")),
        sa.UniqueConstraint("address", name=op.f("uq_conversation_address")),
    )
    with op.batch_alter_table("conversation", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_conversation_wake_at"), ["wake_at"], unique=False)

    op.create_table(
        "inbox",
        sa.Column("key", sa.String(), nullable=False),
        sa.Column("taken_at", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_inbox")),
    )
    op.create_table(
        "event",
        sa.Column("conversation_id", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("event", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["conversation_id"], ["conversation.id"], name=op.f("fk_event_conversation_id")
        ),
        sa.PrimaryKeyConstraint("conversation_id", "position", name=op.f("pk_event")),
    )
    op.create_table(
        "outbox",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("conversation_id", sa.String(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("urgency", sa.Integer(), nullable=False),
        sa.Column("locale", sa.String(), nullable=False),
        sa.Column("effect", sa.Text(), nullable=False),
        sa.Column("target", sa.Integer(), nullable=True),
        sa.Column("until_at", sa.BigInteger(), nullable=True),
        sa.Column("fate", sa.String(), nullable=False),
        sa.Column("attempts", sa.Integer(), nullable=False),
        sa.Column("not_before_at", sa.BigInteger(), nullable=True),
        sa.Column("leased_until_at", sa.BigInteger(), nullable=True),
        sa.Column("ref", sa.String(), nullable=True),
        sa.Column("settled_at", sa.BigInteger(), nullable=True),
        sa.ForeignKeyConstraint(
            ["conversation_id"], ["conversation.id"], name=op.f("fk_outbox_conversation_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_outbox")),
    )
    with op.batch_alter_table("outbox", schema=None) as batch_op:
        batch_op.create_index(
            "ix_outbox_waiting",
            ["urgency", "id"],
            unique=False,
            sqlite_where=sa.text("fate = 'waiting'"),
            postgresql_where=sa.text("fate = 'waiting'"),
        )
        batch_op.create_index(
            "uq_outbox_conversation_number", ["conversation_id", "number"], unique=True
        )

    op.create_table(
        "result",
        sa.Column("conversation_id", sa.String(), nullable=False),
        sa.Column("test_number", sa.Integer(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("record", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["conversation_id"], ["conversation.id"], name=op.f("fk_result_conversation_id")
        ),
        sa.PrimaryKeyConstraint("conversation_id", "test_number", name=op.f("pk_result")),
    )
