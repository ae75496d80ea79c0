"""What one command, or one thing that happened, leads to on the team's side."""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from datetime import datetime
from enum import StrEnum

from bot.care.board import PersonFacts
from bot.care.invitation import Invitation, InvitationWanted
from bot.care.items import Item
from bot.care.member import Member
from bot.care.roles import Role
from bot.care.rules import CareRules
from bot.engine.context import Context
from bot.engine.effects import Choice, Form, HandBoard, HandHandout, HandInvitation, Part, Urgency
from bot.engine.events import Cleared
from bot.engine.state import Conversation
from bot.engine.team import TeamEvent
from bot.protocol.record import TestRecord

Letter = TeamEvent | Cleared
Rows = tuple[tuple[Choice, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Message:
    """Something said to a member.

    Attributes:
        to: Their number.
        parts: Its paragraphs.
        rows: Rows of buttons.
        urgency: What it may overtake.
        item: The item it is about: it is remembered as the newest message about it.
        changes: Whether it is put in the place of the newest message about that item; where
            there is none, nothing is sent.
    """

    to: int
    parts: tuple[Part, ...]
    rows: Rows = ()
    urgency: Urgency = Urgency.REPLY
    item: int | None = None
    changes: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A result sent to a member in one of its forms.

    Attributes:
        to: Their number.
        form: Which form.
        record: The facts.
        item: The item it is for, if there is one.
        reference: What the person is known as; opaque.
        at: When it was asked for, which a page says.
    """

    to: int
    form: Form
    record: TestRecord
    item: int | None
    reference: str
    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A picture or paper that stands by itself, sent to a member; it gets its number on the way."""

    to: int
    effect: HandInvitation | HandHandout | HandBoard
    item: None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class InvitationAsked:
    """A member asks for an invitation; where chance is, it is made and handed to them.

    Attributes:
        to: The member.
        what: What they want; or an invitation that is to have another code.
    """

    to: int
    what: InvitationWanted | Invitation


@dataclass(frozen=True, slots=True, kw_only=True)
class Papers:
    """Several results of one person sent to a member together: side by side, or over time."""

    to: int
    form: Form
    records: tuple[TestRecord, ...]
    reference: str
    at: datetime
    item: int


@dataclass(frozen=True, slots=True, kw_only=True)
class TicketWanted:
    """Somebody is to be given a code; where chance is, it is made and said.

    Attributes:
        to: The member who is told the code.
        role: The role that it gives.
        label: What the others will call the new member.
    """

    to: int
    role: Role
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Spoken:
    """A member goes on in another language."""

    member: int
    locale: str


class Did(StrEnum):
    """What the audit log says of who did what."""

    JOINED = "joined"
    LEFT = "left"
    REMOVED_MEMBER = "removed-member"
    MADE_CODE = "made-code"
    WRONG_CODES = "wrong-codes"
    ON_DUTY = "on-duty"
    OFF_DUTY = "off-duty"
    SAW_INBOX = "saw-inbox"
    SAW_TEAM = "saw-team"
    OPENED_RESULT = "opened-result"
    TOOK_ITEM = "took-item"
    LET_GO_ITEM = "let-go-item"
    HANDED_OVER_ITEM = "handed-over-item"
    CLOSED_ITEM = "closed-item"
    CLEARED_PERSON = "cleared-person"
    REFUSED = "refused"
    # what happened by itself, or by the person
    RESULT_SENT = "result-sent"
    RESULT_TAKEN_BACK = "result-taken-back"
    PERSON_FORGOTTEN = "person-forgotten"
    ALARM_RAISED = "alarm-raised"
    ALARM_SENT = "alarm-sent"
    ALARM_UNREACHED = "alarm-unreached"
    ALARM_UNANSWERED = "alarm-unanswered"
    READ_AUDIT = "read-audit"
    # inviting
    INVITED = "invited"
    SENT_INVITATION_AGAIN = "sent-invitation-again"
    REVOKED_INVITATION = "revoked-invitation"
    SAW_INVITATIONS = "saw-invitations"
    # people, and what is sent to them
    SAW_BOARD = "saw-board"
    SAW_PERSON = "saw-person"
    NUDGED = "nudged"
    WROTE = "wrote"
    ASKED_REPEAT = "asked-repeat"
    SET_PROTOCOL = "set-protocol"
    SET_PLAN = "set-plan"
    CLOSED_PERSON = "closed-person"
    DIGEST_ON = "digest-on"
    DIGEST_OFF = "digest-off"
    DIGEST_SENT = "digest-sent"
    EXPORTED = "exported"
    # people who have blocked the bot
    NOT_REACHED = "not-reached"
    LOST_TOUCH = "lost-touch"


@dataclass(frozen=True, slots=True, kw_only=True)
class Audit:
    """One line of the audit log. No reading stands in it, and no words of anybody.

    Attributes:
        who: The number of the member; `OPERATOR`, or `ITSELF` for the program and the person.
        did: What.
        person: The conversation of the person it concerns.
        item: The item it concerns.
        detail: A word or number more: a test, a priority, a member, an action, a reference.
    """

    who: int
    did: Did
    person: str | None = None
    item: int | None = None
    detail: str | None = None


OPERATOR = 0
ITSELF = -1
"""Who did it, where it was no member."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What the store knows that a command needs.

    Attributes:
        rules: What the clinic has set.
        at: When it happens.
        members: The team as it stands, in the order in which they joined.
        names: What everybody who ever was in it is called, by number.
        items: The items in the inbox, if the command is about the inbox; those of the person, if
            it is about all that they have sent.
        item: The item it names, if there is such.
        record: The test of that item, if it is kept and shared.
        person: The person it names.
        blocked: Who of those whom items are about has blocked the bot, by conversation.
        invitations: All invitations, if the command is about them.
        context: What it has set for its patients, if the command is about one of them.
        people: Where they stand: everybody for the board, or the one whom the command names.
        records: The tests of that one that are kept, or that they have sent, the oldest first.
        done: What the audit log has of that one, the oldest first.
        locale: The language of the member who asks, for what the clinic wrote.
    """

    rules: CareRules
    at: datetime
    members: tuple[Member, ...]
    names: Mapping[int, str] = field(default_factory=dict)
    items: tuple[Item, ...] = ()
    item: Item | None = None
    record: TestRecord | None = None
    person: Conversation | None = None
    blocked: frozenset[str] = frozenset()
    invitations: tuple[Invitation, ...] = ()
    context: Context | None = None
    people: tuple[PersonFacts, ...] = ()
    records: tuple[TestRecord, ...] = ()
    done: tuple[tuple[datetime, Audit], ...] = ()
    locale: str = "en"

    def label(self, number: int | None) -> str:
        """Return what a member is called, or was; a dash for nobody."""
        return "–" if number is None else self.names.get(number, "–")

    def is_blocked(self, who: str) -> bool:
        """Whether a person has blocked the bot, as far as it was loaded: nothing reaches them."""
        person = self.person
        named = person is not None and person.id == who and person.blocked_at is not None
        return named or who in self.blocked

    def on_duty(self, member: Member) -> bool:
        """Whether alarms come to a member first."""
        return self.rules.on_duty(member, self.at)


@dataclass(frozen=True, slots=True, kw_only=True)
class CareStep:
    """What follows. All of it is put down in one unit of work.

    Attributes:
        messages: What is said to members, in order.
        items: Items as they now stand.
        members: Members as they now stand.
        letters: What happens in the conversations of people, each by its id.
        audits: Lines of the audit log.
        tickets: Codes to be made.
        spoken: Languages that were chosen.
        withdrawn: Items about which nothing goes out any more that still waits.
        invitations_asked: Invitations to be made, or to have another code.
        invitations: Invitations as they now stand.
    """

    messages: tuple[Message | Paper | Papers | Sheet, ...] = ()
    items: tuple[Item, ...] = ()
    members: tuple[Member, ...] = ()
    letters: tuple[tuple[str, Letter], ...] = ()
    audits: tuple[Audit, ...] = ()
    tickets: tuple[TicketWanted, ...] = ()
    spoken: tuple[Spoken, ...] = ()
    withdrawn: tuple[Item, ...] = ()
    invitations_asked: tuple[InvitationAsked, ...] = ()
    invitations: tuple[Invitation, ...] = ()

    def and_then(self, other: "CareStep") -> "CareStep":
        """Return this step with all of another after it."""
        return CareStep(
            **{f.name: (*getattr(self, f.name), *getattr(other, f.name)) for f in fields(self)}
        )
