"""What the board is worked out from: invitations, conversations and items, in three queries."""

from collections import defaultdict

from sqlalchemy import Connection, select

from bot.care.board import PersonFacts, facts_of, is_on_board
from bot.store.codec import decode_conversation, decode_item
from bot.store.statements import CONVERSATION, INVITATION, ITEM, MEMBER


def people_of(connection: Connection, person: str | None = None) -> tuple[PersonFacts, ...]:
    """Return what says where each person of the clinic stands, the first to come first.

    Args:
        connection: The unit's.
        person: One conversation; `None` for everybody.
    """
    invited = select(
        INVITATION.c.conversation_id,
        INVITATION.c.reference,
        INVITATION.c.made_at,
        INVITATION.c.revoked_at,
    ).order_by(INVITATION.c.made_at, INVITATION.c.reference_mark)
    members = select(MEMBER.c.conversation_id)
    known = (
        select(CONVERSATION.c.id, CONVERSATION.c.state, CONVERSATION.c.began_at)
        .where(CONVERSATION.c.forgotten.is_(False), CONVERSATION.c.id.not_in(members))
        .order_by(CONVERSATION.c.began_at, CONVERSATION.c.id)
    )
    kept = select(ITEM).order_by(ITEM.c.number)
    if person is not None:
        invited = invited.where(INVITATION.c.conversation_id == person)
        known = known.where(CONVERSATION.c.id == person)
        kept = kept.where(ITEM.c.person == person)
    items = defaultdict(list)
    for waits in connection.execute(kept).mappings():
        item = decode_item(waits["state"], number=waits["number"], revision=waits["revision"])
        items[waits["person"]].append(item)
    invitations = connection.execute(invited).all()
    by_conversation = {row.conversation_id: row for row in invitations if row.conversation_id}
    unopened = tuple(
        PersonFacts(reference=row.reference, invited_at=row.made_at)
        for row in invitations
        if row.conversation_id is None and row.revoked_at is None
    )
    opened = []
    for row in connection.execute(known):
        invitation = by_conversation.get(row.id)
        conversation = decode_conversation(row.state)
        if is_on_board(conversation, invited=invitation is not None):
            opened.append(
                facts_of(
                    conversation,
                    tuple(items[row.id]),
                    opened_at=row.began_at,
                    reference=None if invitation is None else invitation.reference,
                    invited_at=None if invitation is None else invitation.made_at,
                )
            )
    return (*opened, *unopened)
