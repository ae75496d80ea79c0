"""A care team in a store: two members, a code, a wrong code, two items and a log."""

from dataclasses import replace
from datetime import timedelta
from typing import Final

from bot.care.items import Item
from bot.care.member import Member, Ticket
from bot.care.roles import Role
from bot.care.step import Audit, Did
from bot.care.triage import Cause, Priority
from bot.engine.events import Opened
from bot.engine.state import Conversation
from bot.runtime.ports import Store
from tests.store.chat import NOW

STRANGER: Final = "telegram:555000111"
DAY: Final = timedelta(days=1)

TICKET: Final = Ticket(
    digest="d" * 64, role=Role.CLINICIAN, label="Nora-siskin", made_at=NOW, expires_at=NOW + DAY
)
AUDIT: Final = Audit(who=1, did=Did.ALARM_RAISED, person="ada", item=1, detail="near-faint")


def member(name: str) -> Member:
    """Return somebody who joins in the conversation of that name."""
    return Member(number=0, id=name, role=Role.COORDINATOR, label=f"{name}-siskin", joined_at=NOW)


def item(person: str, test: int = 1) -> Item:
    """Return what waits of somebody's test, an alarm that rings in a minute."""
    return Item(
        person=person,
        reference=f"HS-77-siskin-{person}",
        test=test,
        priority=Priority.ALARM,
        cause=Cause.NEAR_FAINT,
        opened_at=NOW,
        alarmed_at=NOW,
        wake_at=NOW + timedelta(minutes=1),
    )


def here(store: Store, *names: str) -> None:
    """Let conversations be there in which nothing was said."""
    with store.unit() as unit:
        for name in names:
            blank = Conversation(id=name, locale="en")
            stored = unit.add(blank, f"test:{name}", NOW)
            unit.save(stored, blank, event=Opened(at=NOW), effects=(), wake_at=None, logged=False)


def staffed(store: Store) -> None:
    """Let there be Marta, Luis, who has gone, and Ada, whose two tests wait."""
    here(store, "marta", "luis", "ada")
    with store.unit() as unit:
        care = unit.care
        care.add_member(member("marta"))
        luis = care.add_member(member("luis"))
        care.save_member(replace(luis, removed_at=NOW))
        care.add_ticket(TICKET)
        care.note_wrong_code(STRANGER, NOW, NOW - DAY)
        care.add_item(item("ada", 1))
        care.add_item(item("ada", 2))
        care.note((AUDIT, Audit(who=0, did=Did.MADE_CODE, detail="clinician")), NOW)
