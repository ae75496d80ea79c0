"""The last look before an export goes out: may it still, and who is told of it."""

from collections.abc import Sequence
from datetime import datetime

from bot.care.sent import sent_tests
from bot.care.step import OPERATOR, Audit, Did
from bot.errors import ExportError
from bot.exporting.choosing import Sent
from bot.runtime.ports import Store, UnitOfWork


def release(store: Store, people: Sequence[Sent], at: datetime, *, research: bool) -> None:
    """Put a line into the audit log for each person, if all of it may still go out.

    Making the files takes a while; what is taken back meanwhile must not go out with them.

    Raises:
        ExportError: Somebody has taken something back, or is gone.
        DatabaseError: The database cannot be used.
    """
    with store.unit() as unit:
        if not all(_may(unit, person) for person in people):
            raise ExportError(
                "Somebody has taken a result back while the files were made, so nothing was "
                "written. Run it again."
            )
        unit.care.note([_line(person, research=research) for person in people], at)


def _may(unit: UnitOfWork, person: Sent) -> bool:
    stored = unit.load_by_id(person.id)
    sent = () if stored is None else sent_tests(stored.conversation)
    return all(record.number in sent for record in person.records)


def _line(person: Sent, *, research: bool) -> Audit:
    tests = " ".join(str(record.number) for record in person.records)
    detail = f"{tests}; research" if research else tests
    return Audit(who=OPERATOR, did=Did.EXPORTED, person=person.id, detail=detail)
