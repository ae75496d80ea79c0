"""The team's part of a unit of work on the store in memory, and what that store holds of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Protocol

from bot.care.board import PersonFacts, facts_of
from bot.care.invitation import Invitation
from bot.care.items import Item
from bot.care.member import Member, Ticket
from bot.care.step import Audit
from bot.engine.state import Conversation
from bot.errors import ConflictError, DatabaseError
from bot.protocol.record import TestRecord
from bot.runtime.care_ports import Logged
from bot.runtime.ports import Stored


@dataclass(slots=True, kw_only=True)
class TeamShelves:
    """All that is held of the team. What stands on a shelf is never changed, only replaced."""

    members: dict[int, Member] = field(default_factory=dict)
    tickets: dict[str, Ticket] = field(default_factory=dict)
    wrong: tuple[tuple[str, datetime], ...] = ()
    items: dict[int, Item] = field(default_factory=dict)
    log: tuple[Logged, ...] = ()
    last_item: int = 0

    def copy(self) -> "TeamShelves":
        """Return the same things on shelves of their own."""
        return TeamShelves(
            members=dict(self.members),
            tickets=dict(self.tickets),
            wrong=self.wrong,
            items=dict(self.items),
            log=self.log,
            last_item=self.last_item,
        )


class _Unit(Protocol):
    """What the team's part needs of the unit of work that it belongs to."""

    @property
    def team(self) -> TeamShelves: ...
    @property
    def records(self) -> Mapping[tuple[str, int], TestRecord]: ...
    def load(self, address: str) -> Stored | None: ...
    @property
    def begun(self) -> Mapping[str, tuple[Conversation, datetime]]: ...
    def named(self, reference: str) -> str | None: ...
    def invited(self) -> dict[str, Invitation]: ...
    def drop(self, name: str, at: datetime) -> None: ...


class ShelfCare:
    """The team's part of a unit of work; the store undoes it as a whole if it fails."""

    def __init__(self, unit: _Unit) -> None:
        self._unit = unit

    @property
    def _team(self) -> TeamShelves:
        return self._unit.team

    def hold(self) -> None:
        """Nothing else is at work meanwhile."""

    # -- members

    def member(self, address: str) -> Member | None:
        """Return the member whose chat is at an address."""
        stored = self._unit.load(address)
        return None if stored is None else self.member_of(stored.conversation.id)

    def member_of(self, conversation_id: str) -> Member | None:
        """Return the member whose conversation it is."""
        return next((m for m in self.members() if m.id == conversation_id), None)

    def members(self) -> tuple[Member, ...]:
        """Return the team as it stands, in the order in which they joined."""
        return tuple(m for m in self.everyone() if m.removed_at is None)

    def everyone(self) -> tuple[Member, ...]:
        """Return all who ever were in the team."""
        return tuple(self._team.members.values())

    def add_member(self, member: Member) -> Member:
        """Put down a new member; returns it with its number."""
        numbered = replace(member, number=len(self._team.members) + 1)
        self._team.members[numbered.number] = numbered
        return numbered

    def save_member(self, member: Member) -> None:
        """Put down a member as it stands now."""
        self._team.members[member.number] = member

    def silence(self, conversation_id: str, at: datetime) -> None:
        """Let nothing go out to a conversation that still waits."""
        self._unit.drop(conversation_id, at)

    # -- codes

    def add_ticket(self, ticket: Ticket) -> None:
        """Put down what a new code stands for."""
        self._team.tickets[ticket.digest] = ticket

    def tickets(self, at: datetime) -> tuple[Ticket, ...]:
        """Return what every code stands for that is still good."""
        found = sorted(self._team.tickets.values(), key=lambda ticket: ticket.digest)
        return tuple(ticket for ticket in found if ticket.expires_at >= at)

    def use_ticket(self, digest: str, at: datetime) -> None:
        """Let a code be no good any more."""
        del at  # a code that was used is of no use to anybody
        del self._team.tickets[digest]

    def wrong_codes(self, address: str, since: datetime) -> int:
        """Return how many codes that were no good came from an address since then."""
        return sum(where == address and at >= since for where, at in self._team.wrong)

    def note_wrong_code(self, address: str, at: datetime, since: datetime) -> None:
        """Note a code that was no good, and forget those from before `since`."""
        lately = tuple(tried for tried in self._team.wrong if tried[1] >= since)
        self._team.wrong = (*lately, (address, at))

    # -- items

    def item(self, number: int) -> Item | None:
        """Return an item, open or not."""
        return self._team.items.get(number)

    def open_items(self) -> tuple[Item, ...]:
        """Return what is in the inbox."""
        return tuple(item for item in self._team.items.values() if item.is_open)

    def items_of(self, person: str) -> tuple[Item, ...]:
        """Return all items of a person, the oldest first."""
        return tuple(item for item in self._team.items.values() if item.person == person)

    def add_item(self, item: Item) -> Item:
        """Put down a new item; returns it with its number."""
        self._team.last_item += 1
        numbered = replace(item, number=self._team.last_item)
        self._team.items[numbered.number] = numbered
        return numbered

    def save_item(self, item: Item) -> None:
        """Put down an item as it stands now.

        Raises:
            ConflictError: It has changed since it was loaded.
        """
        before = self._team.items.get(item.number)
        if before is None or before.revision != item.revision:
            raise ConflictError(f"item {item.number}")
        self._team.items[item.number] = replace(item, revision=item.revision + 1)

    def forget_items(self, person: str) -> None:
        """Delete all items of a person."""
        kept = {n: item for n, item in self._team.items.items() if item.person != person}
        self._team.items = kept

    # -- people

    def person(self, reference: str) -> str | None:
        """Return the conversation of a clinic's reference, or whose id begins so."""
        return self._unit.named(reference)

    def result(self, person: str, test: int) -> TestRecord | None:
        """Return a test that is kept."""
        return self._unit.records.get((person, test))

    # -- invitations

    def invitations(self) -> tuple[Invitation, ...]:
        """Return all invitations, the oldest first."""
        return tuple(sorted(self._unit.invited().values(), key=lambda i: i.made_at))

    def add_invitation(self, invitation: Invitation) -> None:
        """Put down a new invitation.

        Raises:
            DatabaseError: The reference was invited before.
        """
        shelf = self._unit.invited()
        if invitation.code in shelf or self._coded(invitation.reference) is not None:
            raise DatabaseError(
                f"The reference {invitation.reference!r} was invited before; choose another."
            )
        shelf[invitation.code] = invitation

    def save_invitation(self, invitation: Invitation) -> None:
        """Put down an invitation as it stands now, by its reference.

        Raises:
            ConflictError: Somebody has opened it meanwhile.
        """
        shelf = self._unit.invited()
        code = self._coded(invitation.reference)
        if code is None or shelf[code].opened_by != invitation.opened_by:
            raise ConflictError(f"invitation of {invitation.reference}")
        del shelf[code]
        shelf[invitation.code] = invitation

    def _coded(self, reference: str) -> str | None:
        shelf = self._unit.invited()
        return next((code for code, i in shelf.items() if i.reference == reference), None)

    def people(self, person: str | None = None) -> tuple[PersonFacts, ...]:
        """Return what says where each person of the clinic stands, or one of them."""
        invited = {made.opened_by: made for made in self.invitations() if made.opened_by}
        members = {m.id for m in self.everyone()}
        opened = []
        for name, (conversation, began_at) in self._unit.begun.items():
            made = invited.get(name)
            facts = facts_of(
                conversation,
                self.items_of(name),
                opened_at=began_at,
                reference=None if made is None else made.reference,
                invited_at=None if made is None else made.made_at,
            )
            if name not in members and facts.is_on_board:
                opened.append(facts)
        unopened = [
            PersonFacts(reference=made.reference, invited_at=made.made_at)
            for made in self.invitations()
            if made.opened_at is None and made.revoked_at is None
        ]
        return tuple(f for f in (*opened, *unopened) if person in (None, f.id))

    def results(self, person: str) -> tuple[TestRecord, ...]:
        """Return the tests of a person that are kept, oldest first."""
        kept = sorted(self._unit.records.items(), key=lambda found: found[0])
        return tuple(record for (name, _), record in kept if name == person)

    # -- the log

    def note(self, audits: Sequence[Audit], at: datetime) -> None:
        """Add lines to the audit log."""
        first = len(self._team.log) + 1
        lines = (Logged(id=n, at=at, audit=audit) for n, audit in enumerate(audits, first))
        self._team.log = (*self._team.log, *lines)

    def log(self, since: datetime | None = None, last: int | None = None) -> tuple[Logged, ...]:
        """Return lines of the audit log, the oldest first."""
        lines = tuple(line for line in self._team.log if since is None or line.at >= since)
        return lines if last is None else lines[-last:]

    def log_of(self, person: str) -> tuple[Logged, ...]:
        """Return the lines of the audit log about a person, the oldest first."""
        return tuple(line for line in self._team.log if line.audit.person == person)
