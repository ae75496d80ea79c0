"""The shapes by which the team's conductor talks to the store, within a unit of work."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Final, Protocol

from bot.care.board import PersonFacts
from bot.care.invitation import Invitation
from bot.care.items import Item
from bot.care.member import Member, Ticket
from bot.care.step import Audit
from bot.protocol.record import TestRecord

_ALARM: Final = "item:"


def name_of_alarm(number: int) -> str:
    """Return what an item's alarm is called among all that sleeps; no conversation is called so."""
    return f"{_ALARM}{number}"


def alarm_named(name: str) -> int | None:
    """Return the number of the item whose alarm is called so; `None` for a conversation."""
    return int(name.removeprefix(_ALARM)) if name.startswith(_ALARM) else None


_DIGEST: Final = "digest:"


def name_of_digest(member: int) -> str:
    """Return what the alarm of a member's weekly digest is called."""
    return f"{_DIGEST}{member}"


def digest_named(name: str) -> int | None:
    """Return the member whose digest's alarm is called so; `None` for anything else."""
    return int(name.removeprefix(_DIGEST)) if name.startswith(_DIGEST) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Logged:
    """A line of the audit log as it is kept.

    Attributes:
        id: Counts the lines.
        at: When.
        audit: What it says.
    """

    id: int
    at: datetime
    audit: Audit


class CareUnit(Protocol):
    """The team's facts, all inside one transaction; see `UnitOfWork.care`."""

    def hold(self) -> None:
        """Lock the team before anything else, so that two units never wait for each other."""
        ...

    # -- members

    def member(self, address: str) -> Member | None:
        """Return the member whose chat is at an address."""
        ...

    def member_of(self, conversation_id: str) -> Member | None:
        """Return the member whose conversation it is."""
        ...

    def members(self) -> tuple[Member, ...]:
        """Return the team as it stands, in the order in which they joined."""
        ...

    def everyone(self) -> tuple[Member, ...]:
        """Return all who ever were in the team, those who have gone included."""
        ...

    def add_member(self, member: Member) -> Member:
        """Put down a new member; returns it with its number."""
        ...

    def save_member(self, member: Member) -> None:
        """Put down a member as it stands now."""
        ...

    def silence(self, conversation_id: str, at: datetime) -> None:
        """Let nothing go out to a conversation that still waits, words of safety included."""
        ...

    # -- codes

    def add_ticket(self, ticket: Ticket) -> None:
        """Put down what a new code stands for."""
        ...

    def tickets(self, at: datetime) -> tuple[Ticket, ...]:
        """Return what every code stands for that is still good."""
        ...

    def use_ticket(self, digest: str, at: datetime) -> None:
        """Let a code be no good any more."""
        ...

    def wrong_codes(self, address: str, since: datetime) -> int:
        """Return how many codes that were no good came from an address since then."""
        ...

    def note_wrong_code(self, address: str, at: datetime, since: datetime) -> None:
        """Note a code that was no good, and forget those from before `since`."""
        ...

    # -- items

    def item(self, number: int) -> Item | None:
        """Return an item, open or not."""
        ...

    def open_items(self) -> tuple[Item, ...]:
        """Return what is in the inbox."""
        ...

    def items_of(self, person: str) -> tuple[Item, ...]:
        """Return all items of a person, the oldest first."""
        ...

    def add_item(self, item: Item) -> Item:
        """Put down a new item; returns it with its number."""
        ...

    def save_item(self, item: Item) -> None:
        """Put down an item as it stands now.

        Raises:
            ConflictError: It has changed since it was loaded.
        """
        ...

    def forget_items(self, person: str) -> None:
        """Delete all items of a person."""
        ...

    # -- people

    def person(self, reference: str) -> str | None:
        """Return the conversation of a clinic's reference, or whose id begins so, if one does."""
        ...

    def result(self, person: str, test: int) -> TestRecord | None:
        """Return a test that is kept."""
        ...

    # -- invitations

    def invitations(self) -> tuple[Invitation, ...]:
        """Return all invitations, the oldest first."""
        ...

    def add_invitation(self, invitation: Invitation) -> None:
        """Put down a new invitation.

        Raises:
            DatabaseError: The reference was invited before.
        """
        ...

    def save_invitation(self, invitation: Invitation) -> None:
        """Put down an invitation as it stands now, by its reference.

        Raises:
            ConflictError: Somebody has opened it meanwhile.
        """
        ...

    # -- all of a person

    def people(self, person: str | None = None) -> tuple[PersonFacts, ...]:
        """Return what says where each person of the clinic stands, the first to come first.

        Args:
            person: One conversation; `None` for everybody.
        """
        ...

    def results(self, person: str) -> tuple[TestRecord, ...]:
        """Return the tests of a person that are kept, oldest first."""
        ...

    # -- the log

    def note(self, audits: Sequence[Audit], at: datetime) -> None:
        """Add lines to the audit log."""
        ...

    def log(self, since: datetime | None = None, last: int | None = None) -> tuple[Logged, ...]:
        """Return lines of the audit log, the oldest first.

        Args:
            since: From when on; `None` for all.
            last: How many at most, counted from the end; `None` for all.
        """
        ...

    def log_of(self, person: str) -> tuple[Logged, ...]:
        """Return the lines of the audit log about a person, the oldest first."""
        ...
