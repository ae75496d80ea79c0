"""The team's facts on a relational database: members, codes, items, and the audit log."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any, Final

from sqlalchemy import (
    Connection,
    RowMapping,
    and_,
    delete,
    insert,
    select,
    update,
)

from bot.care.board import PersonFacts
from bot.care.invitation import Invitation
from bot.care.items import Item
from bot.care.member import Member, Ticket
from bot.care.roles import Role
from bot.care.step import Audit, Did
from bot.errors import ConflictError
from bot.protocol.record import TestRecord
from bot.runtime.care_ports import Logged
from bot.store import invitations
from bot.store.board import people_of
from bot.store.codec import decode_record, encode_item
from bot.store.marks import keep_marks
from bot.store.opening import opened_item
from bot.store.prepared import Prepared, Row
from bot.store.reading import named, results_of
from bot.store.sqlite import locks_whole
from bot.store.statements import (
    AUDIT,
    DROPPED,
    EVERYONE,
    IS_WAITING,
    ITEM,
    ITEM_NUMBERED,
    ITEMS_OF,
    MEMBER,
    MEMBER_AT,
    MEMBER_CODE,
    MEMBER_OF,
    NOTE,
    NOTED_OF,
    OPEN_ITEMS,
    OUTBOX,
    RESULT_OF,
    SAVE_ITEM,
    WRONG_CODE,
    WRONG_CODES,
)

_PRESENT = MEMBER.c.removed_at.is_(None)

# Made once: they are asked at every event, and to put a statement together takes longer than to run
# it.
_HOLD: Final = Prepared(
    select(MEMBER.c.number).where(_PRESENT).order_by(MEMBER.c.number).with_for_update()
)


class SqlCare:
    """The team's part of a unit of work, on its connection."""

    def __init__(self, connection: Connection) -> None:
        self._db = connection

    def hold(self) -> None:
        """Lock the team before anything else."""
        if not locks_whole(self._db):
            _HOLD.all(self._db)

    # -- members

    def member(self, address: str) -> Member | None:
        """Return the member whose chat is at an address."""
        return _one(MEMBER_AT.first(self._db, {"address": address}))

    def member_of(self, conversation_id: str) -> Member | None:
        """Return the member whose conversation it is."""
        return _one(MEMBER_OF.first(self._db, {"name": conversation_id}))

    def members(self) -> tuple[Member, ...]:
        """Return the team as it stands, in the order in which they joined."""
        return tuple(m for m in self.everyone() if m.removed_at is None)

    def everyone(self) -> tuple[Member, ...]:
        """Return all who ever were in the team."""
        return tuple(_member(row) for row in EVERYONE.all(self._db))

    def add_member(self, member: Member) -> Member:
        """Put down a new member; returns it with its number."""
        values = _values(member)
        del values["number"]
        key = self._db.execute(insert(MEMBER).values(**values)).inserted_primary_key
        assert key is not None
        return _member({**values, "number": key[0]})

    def save_member(self, member: Member) -> None:
        """Put down a member as it stands now."""
        self._db.execute(
            update(MEMBER).where(MEMBER.c.number == member.number).values(**_values(member))
        )

    def silence(self, conversation_id: str, at: datetime) -> None:
        """Let nothing go out to a conversation that still waits."""
        self._db.execute(
            update(OUTBOX)
            .where(OUTBOX.c.conversation_id == conversation_id, IS_WAITING)
            .values(fate=DROPPED, settled_at=at, leased_until_at=None)
        )

    # -- codes

    def add_ticket(self, ticket: Ticket) -> None:
        """Put down what a new code stands for.

        Raises:
            ConflictError: The keys of the database were changed.
        """
        keep_marks(self._db)  # what was sealed with a key that is gone could not be read
        self._db.execute(
            insert(MEMBER_CODE).values(
                digest=ticket.digest,
                role=ticket.role.value,
                label=ticket.label,
                made_at=ticket.made_at,
                made_by=ticket.made_by,
                expires_at=ticket.expires_at,
            )
        )

    def tickets(self, at: datetime) -> tuple[Ticket, ...]:
        """Return what every code stands for that is still good."""
        good = and_(MEMBER_CODE.c.used_at.is_(None), MEMBER_CODE.c.expires_at >= at)
        rows = self._db.execute(select(MEMBER_CODE).where(good).order_by(MEMBER_CODE.c.digest))
        return tuple(
            Ticket(
                digest=row["digest"],
                role=Role(row["role"]),
                label=row["label"],
                made_at=row["made_at"],
                made_by=row["made_by"],
                expires_at=row["expires_at"],
            )
            for row in rows.mappings()
        )

    def use_ticket(self, digest: str, at: datetime) -> None:
        """Let a code be no good any more."""
        self._db.execute(
            update(MEMBER_CODE).where(MEMBER_CODE.c.digest == digest).values(used_at=at)
        )

    def wrong_codes(self, address: str, since: datetime) -> int:
        """Return how many codes that were no good came from an address since then."""
        found = WRONG_CODES.first(self._db, {"address": address, "since": since})
        return 0 if found is None else int(found["wrong"])

    def note_wrong_code(self, address: str, at: datetime, since: datetime) -> None:
        """Note a code that was no good, and forget those from before `since`.

        Raises:
            ConflictError: The keys of the database were changed.
        """
        self._db.execute(delete(WRONG_CODE).where(WRONG_CODE.c.at < since))
        keep_marks(self._db)
        wrong = {"address_mark": address, "address": address, "at": at}
        self._db.execute(insert(WRONG_CODE).values(wrong))

    # -- items

    def item(self, number: int) -> Item | None:
        """Return an item, open or not."""
        row = ITEM_NUMBERED.first(self._db, {"which": number})
        return None if row is None else opened_item(self._db, row)

    def open_items(self) -> tuple[Item, ...]:
        """Return what is in the inbox."""
        return tuple(opened_item(self._db, row) for row in OPEN_ITEMS.all(self._db))

    def items_of(self, person: str) -> tuple[Item, ...]:
        """Return all items of a person, the oldest first."""
        rows = ITEMS_OF.all(self._db, {"whose": person})
        return tuple(opened_item(self._db, row) for row in rows)

    def add_item(self, item: Item) -> Item:
        """Put down a new item; returns it with its number."""
        key = self._db.execute(insert(ITEM).values(**_columns(item))).inserted_primary_key
        assert key is not None
        found = self.item(key[0])
        assert found is not None
        return found

    def save_item(self, item: Item) -> None:
        """Put down an item as it stands now.

        Raises:
            ConflictError: It has changed since it was loaded.
        """
        values = {
            "which": item.number,
            "loaded": item.revision,
            "whose": item.person,
            "of_test": item.test,
            "new_revision": item.revision + 1,
            "by": item.taken_by,
            "closed": item.closed_at,
            "new_wake": item.wake_at,
            "now": encode_item(item),
        }
        if SAVE_ITEM.change(self._db, values) != 1:
            raise ConflictError(f"item {item.number}")

    def forget_items(self, person: str) -> None:
        """Delete all items of a person."""
        self._db.execute(delete(ITEM).where(ITEM.c.person == person))

    # -- people

    def person(self, reference: str) -> str | None:
        """Return the conversation of a clinic's reference, or whose id begins so."""
        return named(self._db, reference)

    def result(self, person: str, test: int) -> TestRecord | None:
        """Return a test that is kept."""
        row = RESULT_OF.first(self._db, {"whose": person, "which": test})
        return None if row is None else decode_record(row["record"])

    # -- invitations

    def invitations(self) -> tuple[Invitation, ...]:
        """Return all invitations, the oldest first."""
        return invitations.every(self._db)

    def add_invitation(self, invitation: Invitation) -> None:
        """Put down a new invitation.

        Raises:
            DatabaseError: The reference was invited before.
        """
        invitations.put_down(self._db, invitation)

    def save_invitation(self, invitation: Invitation) -> None:
        """Put down an invitation as it stands now, by its reference.

        Raises:
            ConflictError: Somebody has opened it meanwhile.
        """
        invitations.change(self._db, invitation)

    def people(self, person: str | None = None) -> tuple[PersonFacts, ...]:
        """Return what says where each person of the clinic stands, or one of them."""
        return people_of(self._db, person)

    def results(self, person: str) -> tuple[TestRecord, ...]:
        """Return the tests of a person that are kept, oldest first."""
        return results_of(self._db, person)

    # -- the log

    def note(self, audits: Sequence[Audit], at: datetime) -> None:
        """Add lines to the audit log.

        Raises:
            ConflictError: The keys of the database were changed.
        """
        if audits:
            keep_marks(self._db)
            lines = [
                {
                    "at": at,
                    "who": a.who,
                    "did": a.did.value,
                    "person": a.person,
                    "item": a.item,
                    "detail": a.detail,
                }
                for a in audits
            ]
            NOTE.change_each(self._db, lines)

    def log(self, since: datetime | None = None, last: int | None = None) -> tuple[Logged, ...]:
        """Return lines of the audit log, the oldest first."""
        wanted = select(AUDIT).order_by(AUDIT.c.id.desc())
        if since is not None:
            wanted = wanted.where(AUDIT.c.at >= since)
        if last is not None:
            wanted = wanted.limit(last)
        lines = [_logged(row) for row in self._db.execute(wanted).mappings()]
        return tuple(reversed(lines))

    def log_of(self, person: str) -> tuple[Logged, ...]:
        """Return the lines of the audit log about a person, the oldest first."""
        return tuple(_logged(row) for row in NOTED_OF.all(self._db, {"whose": person}))


def _values(member: Member) -> dict[str, Any]:
    return {
        "number": member.number,
        "conversation_id": member.id,
        "role": member.role.value,
        "label": member.label,
        "joined_at": member.joined_at,
        "added_by": member.added_by,
        "room": member.room,
        "on_duty": member.on_duty,
        "removed_at": member.removed_at,
        "asked": member.asked,
        "digest": member.digest,
        "digest_at": member.digest_at,
    }


def _member(row: Row) -> Member:
    return Member(
        number=row["number"],
        id=row["conversation_id"],
        role=Role(row["role"]),
        label=row["label"],
        joined_at=row["joined_at"],
        added_by=row["added_by"],
        room=row["room"],
        on_duty=row["on_duty"],
        removed_at=row["removed_at"],
        asked=row["asked"],
        digest=row["digest"],
        digest_at=row["digest_at"],
    )


def _one(row: Row | None) -> Member | None:
    return None if row is None else _member(row)


def _columns(item: Item) -> dict[str, Any]:
    return {
        "person": item.person,
        "test": item.test,
        "revision": item.revision,
        "taken_by": item.taken_by,
        "closed_at": item.closed_at,
        "wake_at": item.wake_at,
        "state": encode_item(item),
    }


def _logged(row: Row | RowMapping) -> Logged:
    audit = Audit(
        who=row["who"],
        did=Did(row["did"]),
        person=row["person"],
        item=row["item"],
        detail=row["detail"],
    )
    return Logged(id=row["id"], at=row["at"], audit=audit)
