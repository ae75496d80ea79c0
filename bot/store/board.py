"""What the board is worked out from: invitations, conversations and items, in three queries."""

from collections import defaultdict
from dataclasses import replace

from sqlalchemy import Connection

from bot.care.board import PersonFacts
from bot.store.opening import opened_facts, opened_item
from bot.store.statements import INVITED, INVITED_AS, ITEMS, ITEMS_OF, KNOWN, KNOWN_AS


def people_of(connection: Connection, person: str | None = None) -> tuple[PersonFacts, ...]:
    """Return what says where each person of the clinic stands, the first to come first.

    Args:
        connection: The unit's.
        person: One conversation; `None` for everybody.
    """
    one = None if person is None else {"whose": person}
    items = defaultdict(list)
    for waits in (ITEMS if one is None else ITEMS_OF).all(connection, one):
        items[waits["person"]].append(opened_item(connection, waits))
    invitations = (INVITED if one is None else INVITED_AS).all(connection, one)
    by_conversation = {row["conversation_id"]: row for row in invitations if row["conversation_id"]}
    unopened = tuple(
        PersonFacts(reference=row["reference"], invited_at=row["made_at"])
        for row in invitations
        if row["conversation_id"] is None and row["opened_at"] is None and row["revoked_at"] is None
    )
    opened = []
    for row in (KNOWN if one is None else KNOWN_AS).all(connection, one):
        facts, invitation = opened_facts(connection, row), by_conversation.get(row["id"])
        if invitation is not None:
            facts = replace(
                facts,
                reference=invitation["reference"] or facts.reference,
                invited_at=invitation["made_at"],
            )
        if facts.is_on_board:
            opened.append(replace(facts, items=tuple(items[row["id"]])))
    return (*opened, *unopened)
