"""One unit of work on the store in memory, and what that store holds."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime

from bot.care.invitation import Invitation
from bot.engine.effects import (
    Amend,
    Effect,
    Forget,
    Keep,
    Outgoing,
    Retract,
    Revise,
    Urgency,
    Withdraw,
)
from bot.engine.events import Event
from bot.engine.state import Conversation
from bot.errors import ConflictError
from bot.protocol.record import TestRecord
from bot.runtime.ports import Link, Stored
from bot.store.statements import DROPPED, LEAST_OF_ID, WAITING
from bot.testing.memory_care import ShelfCare, TeamShelves


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A conversation as it stands, and how it began."""

    conversation: Conversation
    address: str
    began_at: datetime
    beginning: Conversation
    revision: int = 0
    wake_at: datetime | None = None
    forgotten: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Posted:
    """One message to send, or sent."""

    conversation_id: str
    locale: str
    effect: Outgoing
    target: int | None
    until_at: datetime | None
    fate: str = WAITING
    attempts: int = 0
    not_before_at: datetime | None = None
    leased_until_at: datetime | None = None
    ref: str | None = None
    settled_at: datetime | None = None

    def free(self, now: datetime) -> bool:
        """Whether it may be sent at an instant."""
        return (self.leased_until_at is None or self.leased_until_at < now) and (
            self.not_before_at is None or self.not_before_at <= now
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """A link, and what became of it."""

    link: Link
    opened_by: str | None = None
    taken: bool = False


@dataclass(slots=True, kw_only=True)
class Shelves:
    """All that is held. What stands on a shelf is never changed, only replaced."""

    conversations: dict[str, Standing] = field(default_factory=dict)
    inbox: dict[str, datetime] = field(default_factory=dict)
    events: dict[str, tuple[Event, ...]] = field(default_factory=dict)
    outbox: dict[int, Posted] = field(default_factory=dict)
    results: dict[tuple[str, int], TestRecord] = field(default_factory=dict)
    invitations: dict[str, Invitation] = field(default_factory=dict)
    links: dict[str, Offered] = field(default_factory=dict)
    team: TeamShelves = field(default_factory=TeamShelves)
    last_id: int = 0

    def named(self, reference: str) -> str | None:
        """Return the conversation of a clinic's reference, or whose id begins so."""
        every, wanted = tuple(self.invitations.values()), reference.casefold()
        found = [one for one in every if one.reference == reference]
        found += [one for one in every if one.reference.casefold() == wanted]
        if found:
            return found[0].opened_by
        names = [name for name in self.conversations if name.casefold().startswith(wanted)]
        return names[0] if len(names) == 1 and len(reference) >= LEAST_OF_ID else None

    def copy(self) -> "Shelves":
        """Return the same things on shelves of their own."""
        return Shelves(
            conversations=dict(self.conversations),
            inbox=dict(self.inbox),
            events=dict(self.events),
            outbox=dict(self.outbox),
            results=dict(self.results),
            invitations=dict(self.invitations),
            links=dict(self.links),
            team=self.team.copy(),
            last_id=self.last_id,
        )


class ShelfUnit:
    """A unit of work; the store undoes it as a whole if it fails."""

    def __init__(self, shelves: Shelves) -> None:
        self._all = shelves
        self.care = ShelfCare(self)

    def claim(self, key: str, at: datetime) -> bool:
        """Take an arrival; False when it was taken before."""
        _aware(at)
        if key in self._all.inbox:
            return False
        self._all.inbox[key] = at
        return True

    @property
    def team(self) -> TeamShelves:
        """What is held of the care team."""
        return self._all.team

    @property
    def records(self) -> Mapping[tuple[str, int], TestRecord]:
        """The tests that are kept, by whose they are and their number."""
        return self._all.results

    @property
    def begun(self) -> Mapping[str, tuple[Conversation, datetime]]:
        """Every conversation that is not forgotten, and when it began."""
        standing = sorted(self._all.conversations.items(), key=lambda found: found[1].began_at)
        return {name: (s.conversation, s.began_at) for name, s in standing if not s.forgotten}

    def named(self, reference: str) -> str | None:
        """Return the conversation of a clinic's reference, or whose id begins so."""
        return self._all.named(reference)

    def drop(self, name: str, at: datetime) -> None:
        """Let nothing go out to a conversation that still waits."""
        self._drop(name, at, lambda _: True)

    def hold(self, name: str) -> None:
        """Nothing else is at work meanwhile."""

    def load(self, address: str) -> Stored | None:
        """Return the conversation at an address."""
        return next(
            (_stored(s) for s in self._all.conversations.values() if s.address == address), None
        )

    def load_by_id(self, conversation_id: str) -> Stored | None:
        """Return a conversation by its id."""
        standing = self._all.conversations.get(conversation_id)
        return None if standing is None else _stored(standing)

    def add(self, conversation: Conversation, address: str, at: datetime) -> Stored:
        """Put down a new conversation.

        Raises:
            ConflictError: There is one at that address.
        """
        if conversation.id in self._all.conversations or self.load(address) is not None:
            raise ConflictError(conversation.id)
        standing = Standing(
            conversation=conversation, address=address, began_at=_aware(at), beginning=conversation
        )
        self._all.conversations[conversation.id] = standing
        return _stored(standing)

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
        """Put down one step.

        Raises:
            ConflictError: The conversation has changed since it was loaded.
        """
        name = conversation.id
        standing = self._all.conversations.get(name)
        if standing is None or standing.revision != stored.revision:
            raise ConflictError(name)
        gone = any(isinstance(effect, Forget) for effect in effects)
        self._all.conversations[name] = replace(
            standing,
            conversation=conversation,
            revision=standing.revision + 1,
            wake_at=None if wake_at is None else _aware(wake_at),
            forgotten=gone,
            beginning=standing.beginning if logged and not gone else conversation,
        )
        if gone:
            self._forget(name)
        elif logged:
            self._all.events[name] = (*self._all.events.get(name, ()), event)
        for effect in effects:
            self._follow(name, effect, event.at)
        for effect in effects:
            if isinstance(effect, Outgoing):
                self._post(conversation, effect)

    def _follow(self, name: str, effect: Effect, at: datetime) -> None:
        """Change what is kept, as an effect says."""
        match effect:
            case Withdraw():
                self._drop(name, at, lambda p: p.effect.urgency is not Urgency.SAFETY)
            case Retract(numbers=numbers):
                self._drop(name, at, lambda p: p.effect.number in numbers)
            case Keep(record=record):
                self._all.results[name, record.number] = record
            case Amend(test=test, day=day) if (name, test) in self._all.results:
                amended = replace(self._all.results[name, test], day=day)
                self._all.results[name, test] = amended
            case _:
                pass

    def _drop(self, name: str, at: datetime, which: Callable[[Posted], bool]) -> None:
        for id_, posted in self._all.outbox.items():
            if posted.conversation_id == name and posted.fate == WAITING and which(posted):
                self._all.outbox[id_] = replace(posted, fate=DROPPED, settled_at=at)

    def _post(self, conversation: Conversation, effect: Outgoing) -> None:
        self._all.last_id += 1
        self._all.outbox[self._all.last_id] = Posted(
            conversation_id=conversation.id,
            locale=conversation.locale,
            effect=effect,
            target=effect.target if isinstance(effect, Revise) else None,
            until_at=getattr(effect, "until", None),
        )

    def _forget(self, name: str) -> None:
        """Delete all that is held of a person; what this step still says is put down after this."""
        shelves = self._all
        shelves.events.pop(name, None)
        shelves.outbox = {i: p for i, p in shelves.outbox.items() if p.conversation_id != name}
        shelves.results = {k: r for k, r in shelves.results.items() if k[0] != name}
        shelves.invitations = {
            code: replace(i, opened_by=None, opened_at=i.made_at, note=None)
            if i.opened_by == name
            else i
            for code, i in shelves.invitations.items()
        }
        kept = {
            code: replace(offered, opened_by=None) if offered.opened_by == name else offered
            for code, offered in shelves.links.items()
            if offered.link.of != name and not (offered.taken and offered.opened_by == name)
        }
        shelves.links = kept

    def invitation(self, code: str, at: datetime, address: str) -> Invitation | None:
        """Return a good invitation and note who opened it; `None` for any other code."""
        mine = self.load(address)
        name = None if mine is None else mine.conversation.id
        invitation = self._all.invitations.get(code)
        if invitation is None or not invitation.opens_for(name, at):
            return None
        others = (i for i in self._all.invitations.values() if i.code != code)
        if name is not None and any(i.opened_by == name for i in others):
            return None
        if invitation.opened_by is None and name is not None:
            invitation = replace(invitation, opened_by=name, opened_at=at)
            self._all.invitations[code] = invitation
        return invitation

    def invited(self) -> dict[str, Invitation]:
        """Return the shelf of invitations, by their codes."""
        return self._all.invitations

    def offer_link(self, link: Link) -> None:
        """Put down a link that a person gives to somebody else."""
        self._all.links[link.code] = Offered(link=link)

    def open_link(self, code: str, at: datetime, by: str) -> Link | None:
        """Return a good link and note which conversation opened it; `None` for any other code."""
        offered = self._all.links.get(code)
        if offered is None or offered.taken or offered.link.expires_at < at:
            return None
        if offered.link.of == by or offered.opened_by not in (None, by):
            return None
        self._all.links[code] = replace(offered, opened_by=by)
        return offered.link

    def take_link(self, of: str, at: datetime, by: str) -> bool:
        """Use up the link of a person that a conversation opened. False if there is no good one."""
        good = {
            code: replace(offered, taken=True)
            for code, offered in self._all.links.items()
            if (offered.link.of, offered.opened_by, offered.taken) == (of, by, False)
            and offered.link.expires_at >= at
        }
        self._all.links.update(good)
        return bool(good)


def _stored(standing: Standing) -> Stored:
    return Stored(
        conversation=standing.conversation,
        address=standing.address,
        revision=standing.revision,
        wake_at=standing.wake_at,
    )


def _aware(at: datetime) -> datetime:
    if at.tzinfo is None:
        raise ValueError("an instant without a zone cannot be stored")
    return at
