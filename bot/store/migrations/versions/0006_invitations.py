"""What is known of invitations: a note, who made them, when they were opened or revoked."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"


def upgrade() -> None:
    """Go to this revision."""
    for column in (
        sa.Column("note", sa.String(), nullable=True),
        sa.Column("made_by", sa.Integer(), nullable=True),
        sa.Column("opened_at", sa.BigInteger(), nullable=True),
        sa.Column("revoked_at", sa.BigInteger(), nullable=True),
    ):
        op.add_column("invitation", column)
    # When an earlier one was opened was not kept; it was not before it was made.
    op.execute("UPDATE invitation SET opened_at = made_at WHERE conversation_id IS NOT NULL")
