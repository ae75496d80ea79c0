"""Invitations, and conversations whose person asked to be forgotten."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Go to this revision."""
    with op.batch_alter_table("conversation") as batch_op:
        batch_op.add_column(
            sa.Column("forgotten", sa.Boolean(), nullable=False, server_default=sa.false())
        )
    op.create_table(
        "invitation",
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("reference", sa.String(), nullable=False),
        sa.Column("protocol", sa.String(), nullable=True),
        sa.Column("language", sa.String(), nullable=True),
        sa.Column("made_at", sa.BigInteger(), nullable=False),
        sa.Column("expires_at", sa.BigInteger(), nullable=False),
        sa.Column("conversation_id", sa.String(), nullable=True),
        sa.PrimaryKeyConstraint("code", name=op.f("pk_invitation")),
        sa.UniqueConstraint("reference", name=op.f("uq_invitation_reference")),
    )
