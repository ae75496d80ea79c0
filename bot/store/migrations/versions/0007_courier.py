"""Who leads, and indexes by which the next parcel is found however many wait."""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0005"

_INDEXES = {
    "ix_outbox_heads": (["conversation_id", "id"], "fate = 'waiting'"),
    "ix_outbox_until": (["until_at"], "fate = 'waiting' AND until_at IS NOT NULL"),
    "ix_outbox_later": (["not_before_at"], "fate = 'waiting' AND not_before_at IS NOT NULL"),
}


def upgrade() -> None:
    """Go to this revision."""
    op.create_table(
        "lead",
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("epoch", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_lead")),
    )
    for name, (columns, which) in _INDEXES.items():
        op.create_index(
            name,
            "outbox",
            columns,
            unique=False,
            sqlite_where=sa.text(which),
            postgresql_where=sa.text(which),
        )
