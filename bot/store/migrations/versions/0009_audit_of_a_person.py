"""An index by which a person's lines of the audit log are found, however long it is."""

from alembic import op

revision = "0009"
down_revision = "0008"


def upgrade() -> None:
    """Go to this revision."""
    op.create_index(op.f("ix_audit_person"), "audit", ["person"], unique=False)


def downgrade() -> None:
    """Go back to the revision before."""
    op.drop_index(op.f("ix_audit_person"), table_name="audit")
