"""The shapes by which the runtime talks to a store, a channel and a clock. No code of theirs."""

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Protocol

from bot.care.invitation import Invitation
from bot.engine.effects import Effect, Outgoing, Urgency
from bot.engine.events import Event
from bot.engine.profile import Share
from bot.engine.state import Conversation
from bot.protocol.record import TestRecord
from bot.runtime.care_ports import CareUnit

# -- the clock


class Clock(Protocol):
    """What time it is for the conversations, which may run faster than for the rest of us."""

    def now(self) -> datetime:
        """Return the present instant, aware, in UTC."""
        ...

    def wait(self, until: datetime) -> timedelta:
        """Return how long to wait, in ordinary time, until an instant of this clock; at least 0."""
        ...

    def ahead(self, wait: timedelta) -> datetime:
        """Return what this clock will show after a wait in ordinary time."""
        ...

    def shown_at(self, instant: datetime) -> datetime:
        """Return what this clock showed at an instant of ordinary time."""
        ...


# -- who sends


class Leadership(Protocol):
    """The right to send and to keep time for one outbox. Synchronous."""

    def acquire(self, hung_for: float = 0.0) -> bool:
        """Try to lead; True if we do. Never waits for the present leader to leave.

        Args:
            hung_for: For how many seconds our writer has not got on. Who hangs does not begin to
                lead where another could.
        """
        ...

    def held(self, hung_for: float = 0.0) -> bool:
        """Whether we lead; asks whoever knows. Call it every second.

        Once it is False, stop: another may be at work. `acquire` may be tried again.

        Args:
            hung_for: For how many seconds our writer has not got on. Who hangs for long lets
                another lead, if there can be one.
        """
        ...

    def trusted(self) -> bool:
        """Whether we may still act on the last answer. Takes no time: for right before a send."""
        ...

    def release(self) -> None:
        """Let another lead."""
        ...


Woken = tuple[tuple[str, datetime | None], ...]
"""Conversations that a step reached, each with when it next wants to be woken."""


class Bell(Protocol):
    """Tells the process that leads what another one has put down."""

    def ring(self, woken: Woken) -> None:
        """Say what was put down; nothing in particular means: look at everything. Synchronous."""
        ...

    def listen(self, heard: Callable[[Woken], None]) -> Callable[[], None]:
        """Call back, on another thread, whenever it rings; returns what ends that."""
        ...


# -- coming in


@dataclass(frozen=True, slots=True, kw_only=True)
class Inbound:
    """Something that reached us through a channel.

    Attributes:
        key: Names the arrival, so that it is taken once only.
        address: Where answers go: the channel's name, a colon, and its own address.
        event: What happened.
        language: The language tag that the person's client gives, if any.
        group: Whether it came from a chat of several people.
    """

    key: str
    address: str
    event: Event
    language: str | None = None
    group: bool = False


# -- going out


@dataclass(frozen=True, slots=True, kw_only=True)
class Attachment:
    """A file to send; a picture is shown as one."""

    name: str
    media_type: str
    content: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Bubble:
    """One message as a person sees it.

    Attributes:
        text: The words; the caption, when there is an attachment.
        rows: Rows of buttons: label and token; a token that is an address opens it.
        attachment: A file or picture.
    """

    text: str
    rows: tuple[tuple[tuple[str, str], ...], ...] = ()
    attachment: Attachment | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A link by which somebody can become a person's companion, once.

    Attributes:
        code: What the link carries; long and unguessable.
        of: The person's conversation.
        share: What the companion will be told.
        made_at: When it was made.
        expires_at: After this instant it is no good.
    """

    code: str
    of: str
    share: Share
    made_at: datetime
    expires_at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """All that is kept of one person.

    Attributes:
        conversation: As it stands.
        history: How it began and what happened.
        results: The tests that have ended, oldest first.
    """

    conversation: Conversation
    history: "History"
    results: tuple[TestRecord, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Parcel:
    """One row of the outbox, claimed for sending.

    Attributes:
        id: Names the row.
        conversation_id: Whose it is.
        address: Where it goes.
        locale: The language it is said in.
        effect: What to send.
        attempt: Counts from 1; from 2 on, an earlier try may have arrived.
        target: The channel's name of the message that a `Revise` changes.
        kept: What the store keeps of the person, for an effect that speaks of it.
    """

    id: int
    conversation_id: str
    address: str
    locale: str
    effect: Outgoing
    attempt: int
    target: str | None
    kept: Kept | None = None


@dataclass(frozen=True, slots=True)
class Sent:
    """It arrived; `ref` is the channel's name of the message."""

    ref: str


@dataclass(frozen=True, slots=True)
class Later:
    """It did not arrive, and should be tried again after a wait.

    Attributes:
        wait: How long.
        everybody: Whether the same holds of messages to anybody else.
    """

    wait: timedelta
    everybody: bool = False


@dataclass(frozen=True, slots=True)
class Refused:
    """The channel will never take it.

    Attributes:
        blocked: Whether the person wants nothing more from us.
    """

    blocked: bool = False


@dataclass(frozen=True, slots=True)
class Unknown:
    """It may or may not have arrived."""


Delivery = Sent | Later | Refused | Unknown


class Channel(Protocol):
    """One way to talk with people."""

    async def send(self, address: str, bubble: Bubble) -> Delivery:
        """Send a message; never raises for what the far side does."""
        ...

    async def revise(self, address: str, ref: str, bubble: Bubble) -> Delivery:
        """Change a message sent earlier."""
        ...


class Presenter(Protocol):
    """Puts an effect into words and pictures."""

    def __call__(self, effect: Outgoing, locale: str, kept: Kept | None) -> Bubble:
        """Return the message in that language. Slow for files; call it off the event loop.

        Args:
            effect: What to say.
            locale: The language.
            kept: What is kept of the person, for an effect that speaks of it.
        """
        ...


# -- the store


@dataclass(frozen=True, slots=True, kw_only=True)
class Stored:
    """A conversation as the store holds it; `revision` guards against a second writer."""

    conversation: Conversation
    address: str
    revision: int
    wake_at: datetime | None


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """How a conversation began and all that happened in it, for replay."""

    beginning: Conversation
    events: tuple[Event, ...] = field(default_factory=tuple)


class UnitOfWork(Protocol):
    """One transaction. Everything in it happens, or nothing does."""

    @property
    def care(self) -> CareUnit:
        """The care team's part of it."""
        ...

    def claim(self, key: str, at: datetime) -> bool:
        """Take an arrival; False when it was taken before."""
        ...

    def hold(self, name: str) -> None:
        """Lock a conversation, named by address or id, and all that a step of it may reach.

        Always in the order of their ids: two units never wait for each other.
        """
        ...

    def load(self, address: str) -> Stored | None:
        """Return the conversation at an address, locked until the unit ends."""
        ...

    def load_by_id(self, conversation_id: str) -> Stored | None:
        """Return a conversation by its id, locked until the unit ends."""
        ...

    def add(self, conversation: Conversation, address: str, at: datetime) -> Stored:
        """Put down a new conversation."""
        ...

    def save(
        self,
        stored: Stored,
        conversation: Conversation,
        *,
        event: Event,
        effects: Sequence[Effect],
        wake_at: datetime | None,
        logged: bool = True,
    ) -> None:
        """Put down one step: the event, the conversation, its alarm and what goes out.

        Args:
            stored: The conversation as it was loaded.
            conversation: As it stands now.
            event: What happened.
            effects: What follows.
            wake_at: When it wants to be woken.
            logged: Whether the event goes into the log. If not, the history begins after it.

        Raises:
            ConflictError: The conversation has changed since it was loaded.
        """
        ...

    def invitation(self, code: str, at: datetime, address: str) -> Invitation | None:
        """Return a good invitation and note who opened it; `None` for any other code.

        Whoever opened it keeps it; a chat that opened one opens no other.
        """
        ...

    def offer_link(self, link: Link) -> None:
        """Put down a link that a person gives to somebody else."""
        ...

    def open_link(self, code: str, at: datetime, by: str) -> Link | None:
        """Return a good link and note which conversation opened it; `None` for any other code.

        It is good until it runs out, for whoever opened it first, and not for its own person.
        """
        ...

    def take_link(self, of: str, at: datetime, by: str) -> bool:
        """Use up the link of a person that a conversation opened. False if there is no good one."""
        ...


class Store(Protocol):
    """Durable facts. Synchronous: call it from a worker thread."""

    def close(self) -> None:
        """Let go of it."""
        ...

    def unit(self) -> AbstractContextManager[UnitOfWork]:
        """Open a unit of work: committed on leaving, rolled back on an exception."""
        ...

    def together(
        self,
    ) -> AbstractContextManager[Callable[[], AbstractContextManager[UnitOfWork]]]:
        """Open several units of work that are committed at once, on leaving.

        What it gives opens them, one after the other. One that ends by an exception is undone
        alone. If leaving it raises, nothing of any of them has been kept.
        """
        ...

    def sleepers(self, until: datetime) -> list[tuple[str, datetime]]:
        """Return the conversations to be woken up to an instant, soonest first."""
        ...

    def claim_parcel(
        self,
        now: datetime,
        lease: timedelta,
        *,
        least: Urgency = Urgency.BULK,
        epoch: int | None = None,
    ) -> Parcel | None:
        """Take the next parcel to send: safety first, else in order per recipient.

        Parcels that are of no use any more are dropped on the way.

        Args:
            now: The present instant.
            lease: How long it is held for this try.
            least: What is less urgent is left where it is.
            epoch: The claimer's count of the lead, as `take_over` gave it.

        Raises:
            SupersededError: Somebody has taken the lead since; nothing was changed.
        """
        ...

    def settle(self, parcel: Parcel, delivery: Delivery, now: datetime) -> bool:
        """Put down what became of a parcel; True when it is given up."""
        ...

    def release_parcels(self) -> int:
        """Let parcels be sent again that were being sent when a process ended."""
        ...

    def take_over(self) -> tuple[int, int]:
        """Take the lead: who led before claims nothing more, and what they held is let go of.

        Returns:
            The count that shows it, and how many parcels were let go of.
        """
        ...

    def waiting(self) -> dict[Urgency, int]:
        """Return how many messages wait to be sent, by urgency."""
        ...

    def next_parcel_at(self) -> datetime | None:
        """Return when the next parcel may be sent, if one is waiting."""
        ...

    def invite(self, invitation: Invitation) -> None:
        """Put down an invitation.

        Raises:
            DatabaseError: The reference was invited before.
        """
        ...

    def find(self, reference: str) -> str | None:
        """Return the conversation of a clinic's reference, or whose id begins so."""
        ...

    def history(self, conversation_id: str) -> History:
        """Return a conversation's history."""
        ...

    def conversations(self) -> Sequence[Conversation]:
        """Return every conversation as it stands, the oldest first."""
        ...

    def results(self, conversation_id: str) -> tuple[TestRecord, ...]:
        """Return a person's tests that have ended, oldest first."""
        ...
