"""The weekly digest of a member: whether they want it, and when it comes next."""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"


def upgrade() -> None:
    """Go to this revision."""
    op.add_column("member", sa.Column("digest", sa.Boolean(), nullable=True))
    op.add_column("member", sa.Column("digest_at", sa.BigInteger(), nullable=True))
    op.create_index(op.f("ix_member_digest_at"), "member", ["digest_at"], unique=False)


def downgrade() -> None:
    """Go back to the revision before."""
    op.drop_index(op.f("ix_member_digest_at"), table_name="member")
    op.drop_column("member", "digest_at")
    op.drop_column("member", "digest")
