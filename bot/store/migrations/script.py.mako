"""${message}."""

import sqlalchemy as sa
import sqlmodel
from alembic import op

from bot.store.tables import Instant

revision = ${repr(up_revision)}
down_revision = ${repr(down_revision)}


def upgrade() -> None:
    """Go to this revision."""
    ${upgrades if upgrades else "pass"}
