"""Links by which somebody can become a person's companion."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Go to this revision."""
    op.create_table(
        "companion_link",
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("of", sa.String(), nullable=False),
        sa.Column("share", sa.String(), nullable=False),
        sa.Column("made_at", sa.BigInteger(), nullable=False),
        sa.Column("expires_at", sa.BigInteger(), nullable=False),
        sa.Column("opened_by", sa.String(), nullable=True),
        sa.Column("taken_at", sa.BigInteger(), nullable=True),
        sa.PrimaryKeyConstraint("code", name=op.f("pk_companion_link")),
    )
    with op.batch_alter_table("companion_link") as batch_op:
        batch_op.create_index(batch_op.f("ix_companion_link_of"), ["of"], unique=False)
