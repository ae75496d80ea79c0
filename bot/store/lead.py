"""The fence round the outbox: who takes the lead counts it up, and whoever led before is out.

A leader may be stopped between two of its steps and wake up long after another has followed. It
cannot be trusted to notice at once, so the database tells it: a parcel is claimed only in a
transaction in which the count is still the claimer's own, and the count stays locked to its end.
"""

from typing import Final

from sqlalchemy import Connection, select, update
from sqlalchemy.dialects import postgresql, sqlite

from bot.errors import SupersededError
from bot.store.prepared import Prepared
from bot.store.statements import IS_WAITING, LEAD, OUTBOX

_NAME: Final = "outbox"
_EPOCH: Final = Prepared(
    select(LEAD.c.epoch).where(LEAD.c.name == _NAME).with_for_update(read=True, of=LEAD)
)
_COUNTED: Final = {"name": _NAME, "epoch": 1}
_UP: Final = {"epoch": LEAD.c.epoch + 1}
_COUNT_UP: Final = {
    "sqlite": sqlite.insert(LEAD)
    .values(**_COUNTED)
    .on_conflict_do_update(index_elements=["name"], set_=_UP)
    .returning(LEAD.c.epoch),
    "postgresql": postgresql.insert(LEAD)
    .values(**_COUNTED)
    .on_conflict_do_update(index_elements=["name"], set_=_UP)
    .returning(LEAD.c.epoch),
}
_LET_GO: Final = (
    update(OUTBOX)
    .where(IS_WAITING, OUTBOX.c.leased_until_at.is_not(None))
    .values(leased_until_at=None)
)


def count_up(connection: Connection) -> int:
    """Take the lead, and return the count that shows it."""
    epoch: int = connection.execute(_COUNT_UP[connection.dialect.name]).scalar_one()
    return epoch


def let_go(connection: Connection) -> int:
    """Let go of the parcels that were being sent; returns how many there were."""
    return connection.execute(_LET_GO).rowcount


def check(connection: Connection, epoch: int) -> None:
    """Make sure until the end of the transaction that nobody has taken the lead since.

    Raises:
        SupersededError: Somebody has.
    """
    found = _EPOCH.first(connection)
    if found is None or found["epoch"] != epoch:
        raise SupersededError
