"""One event, one unit of work: claim it, advance the conversation, put down all that follows."""

import secrets
from collections import deque
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime

from bot.care.roles import Role
from bot.care.rules import CareRules
from bot.care.step import OPERATOR, Audit, Did
from bot.engine.context import Context, Opening
from bot.engine.deadlines import next_deadline
from bot.engine.dialogues import reaching
from bot.engine.effects import Effect, OfferLink
from bot.engine.events import (
    Blocked,
    Cleared,
    DeadlineReached,
    DeliveryFailed,
    Event,
    Failure,
    Unblocked,
)
from bot.engine.letters import Agree
from bot.engine.linked import LinkEnded
from bot.engine.machine import advance
from bot.engine.post import LINK, LINK_LASTS, posted
from bot.engine.state import Conversation
from bot.runtime.admission import Admission
from bot.runtime.care_ports import alarm_named, digest_named
from bot.runtime.inviting import Inviting
from bot.runtime.ledger import TeamStep
from bot.runtime.ports import Inbound, Link, Store, Stored, UnitOfWork
from bot.runtime.team import TeamConductor
from bot.runtime.understanding import understood


def new_code() -> str:
    """Return what makes a companion's link unguessable."""
    return secrets.token_urlsafe(24)


def bare_code(address: str, code: str) -> str:
    """Return a code as its own link: where a channel has no links, it is typed."""
    del address
    return code


def to_the_moment(context: Context, conversation: Conversation, wake_at: datetime) -> datetime:
    """Return the instant at which a conversation wants to be woken, as it is."""
    del context, conversation
    return wake_at


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """What handling an event came to.

    Attributes:
        conversation_id: Whose.
        wake_at: When the conversation next wants to be woken.
        fresh: False when the event had been taken before.
        others: Other conversations that it reached, with when each next wants to be woken.
    """

    conversation_id: str
    wake_at: datetime | None
    fresh: bool
    others: tuple[tuple[str, datetime | None], ...] = ()


class Conductor:
    """Carries events to conversations. Plain and synchronous; call it from a worker thread."""

    def __init__(
        self,
        store: Store,
        context: Context | Callable[[], Context],
        *,
        new_id: Callable[[], str],
        language_for: Callable[[str | None], str],
        new_code: Callable[[], str] = new_code,
        link_for: Callable[[str, str], str] = bare_code,
        rules: Callable[[], CareRules] = CareRules,
        ease: Callable[[Context, Conversation, datetime], datetime] = to_the_moment,
    ) -> None:
        """Take what decides, and what only chance or a channel can give.

        Args:
            store: Where everything is kept.
            context: What the clinic has set; or what says so anew at each event.
            new_id: Makes the name of a conversation.
            language_for: Returns the language for a client's language tag.
            new_code: Makes the code of a companion's link.
            link_for: Returns the link that carries a code, for the channel of an address.
            rules: Says, at each event, what the clinic has set for its team.
            ease: Returns when to wake a conversation that wants to be woken at an instant.
        """
        self._ease = ease
        self._admission = Admission(rules, new_code)
        self._store = store
        self._context_now = context if callable(context) else lambda: context
        self._team = TeamConductor(
            rules,
            self._context_now,
            self._admission,
            link_for=link_for,
            inviting=Inviting(rules, new_code),
        )
        self._new_id = new_id
        self._language_for = language_for
        self._new_code = new_code
        self._link_for = link_for

    def handle(self, inbound: Inbound) -> Step:
        """Take in one arrival. When this returns, everything that follows from it is durable.

        Raises:
            ConflictError: Another writer was faster; nothing was changed, try again.
        """
        with self._store.unit() as unit:
            return self.handle_in(unit, inbound)

    def handle_in(self, unit: UnitOfWork, inbound: Inbound) -> Step:
        """Take in one arrival in a unit of work that is open; durable once that is committed.

        Raises:
            ConflictError: Another writer was faster; undo the unit and try again.
        """
        at = inbound.event.at
        unit.care.hold()
        if inbound.group and not self._team.concerns(unit, inbound):
            return Step(conversation_id="", wake_at=None, fresh=False)
        fresh = unit.claim(inbound.key, at)
        unit.hold(inbound.address)
        if fresh and (step := self._team.handle(unit, inbound)) is not None:
            return self._team_stepped(unit, step)
        stored = unit.load(inbound.address)
        if stored is None and isinstance(inbound.event, Blocked | Unblocked):
            return Step(conversation_id="", wake_at=None, fresh=fresh)  # nobody whom we know
        if stored is None:
            beginning = Conversation(id=self._new_id(), locale=self._language_for(inbound.language))
            stored = unit.add(beginning, inbound.address, at)
        if not fresh:
            return Step(conversation_id=stored.conversation.id, wake_at=stored.wake_at, fresh=False)
        if (step := self._team.join(unit, inbound, stored)) is not None:
            return self._team_stepped(unit, step)
        return self._advance(unit, stored, understood(unit, inbound, stored, self._admission))

    def _team_stepped(self, unit: UnitOfWork, step: TeamStep) -> Step:
        """Carry what a step of the team leads to in people's conversations."""
        woken = dict(step.wakes)
        for person, event in step.letters:
            there = unit.load_by_id(person)
            if there is not None:
                reached = self._advance(unit, there, event)
                woken |= {reached.conversation_id: reached.wake_at, **dict(reached.others)}
        return Step(
            conversation_id=step.conversation_id,
            wake_at=woken.pop(step.conversation_id, None),
            fresh=True,
            others=tuple(woken.items()),
        )

    def admit(self, role: Role, label: str, at: datetime) -> str:
        """Make a code by which somebody joins the team, as the operator, and return it."""
        with self._store.unit() as unit:
            unit.care.hold()
            return self._team.admit(unit, role, label, at)

    def remove(self, member: int, at: datetime) -> Step | None:
        """Take somebody out of the team, as the operator; `None` if there is no such member.

        It holds at once: nothing that waits for them goes out any more.
        """
        with self._store.unit() as unit:
            unit.care.hold()
            step = self._team.remove(unit, member, at)
            return None if step is None else self._team_stepped(unit, step)

    def clear(self, reference: str, by: str, at: datetime) -> Step | None:
        """Put down that somebody of the care team cleared a person; `None` if there is no such."""
        conversation_id = self._store.find(reference)
        if conversation_id is None:
            return None
        with self._store.unit() as unit:
            unit.care.hold()
            unit.hold(conversation_id)
            stored = unit.load_by_id(conversation_id)
            if stored is None:
                return None
            cleared = Audit(who=OPERATOR, did=Did.CLEARED_PERSON, person=conversation_id)
            unit.care.note((cleared,), at)
            return self._advance(unit, stored, Cleared(at=at, by=by))

    def wake(self, conversation_id: str, at: datetime) -> Step | None:
        """Answer an alarm. Early, late and double alarms do no harm."""
        with self._store.unit() as unit:
            return self.wake_in(unit, conversation_id, at)

    def wake_in(self, unit: UnitOfWork, conversation_id: str, at: datetime) -> Step | None:
        """Answer an alarm in a unit of work that is open."""
        item, digest = alarm_named(conversation_id), digest_named(conversation_id)
        unit.care.hold()
        if item is not None:
            step = self._team.wake(unit, item, at)
            return None if step is None else self._team_stepped(unit, step)
        if digest is not None:
            step = self._team.wake_digest(unit, digest, at)
            return None if step is None else self._team_stepped(unit, step)
        unit.hold(conversation_id)
        stored = unit.load_by_id(conversation_id)
        if stored is None:
            return None
        if stored.wake_at is None or at < stored.wake_at:
            return Step(conversation_id=conversation_id, wake_at=stored.wake_at, fresh=False)
        return self._advance(unit, stored, DeadlineReached(at=at))

    def delivery_failed(
        self, conversation_id: str, number: int, failure: Failure, at: datetime
    ) -> Step | None:
        """Tell a conversation that one of its messages was given up, if that is news to it."""
        with self._store.unit() as unit:
            unit.care.hold()
            step = self._team.failed(unit, conversation_id, number, at)
            if step is not None:
                return self._team_stepped(unit, step)
            unit.hold(conversation_id)
            stored = unit.load_by_id(conversation_id)
            if stored is None or not reaching.heeds(stored.conversation, number, failure):
                return None
            return self._advance(
                unit, stored, DeliveryFailed(at=at, number=number, failure=failure)
            )

    def knows(self, address: str) -> bool:
        """Whether somebody at an address has agreed to something, or is of the team."""
        with self._store.unit() as unit:
            if unit.care.member(address) is not None:
                return True
            stored = unit.load(address)
            return stored is not None and self._logged(stored.conversation)

    def _logged(self, before: Conversation) -> bool:
        """Whether an event may be kept: nothing that a person says is, before they agree."""
        profile = before.profile
        agreed = profile.consented_at is not None or bool(profile.accompanies)
        return agreed or self._context_now().opening is Opening.SHORT

    def _advance(self, unit: UnitOfWork, stored: Stored, event: Event) -> Step:
        """Take one event, and all that it leads to in the conversations of those linked."""
        woken: dict[str, datetime | None] = {}
        ringing: dict[str, datetime | None] = {}
        waiting: deque[tuple[str, Event]] = deque([(stored.conversation.id, event)])
        while waiting:
            name, following = waiting.popleft()
            there = stored if not woken else unit.load_by_id(name)
            if there is not None:
                woken[name], letters, alarms = self._step(unit, there, following)
                waiting.extend(letters)
                ringing |= alarms
        name, *others = woken
        return Step(
            conversation_id=name,
            wake_at=woken[name],
            fresh=True,
            others=(*((other, woken[other]) for other in others), *ringing.items()),
        )

    def _step(
        self, unit: UnitOfWork, stored: Stored, event: Event
    ) -> tuple[datetime | None, list[tuple[str, Event]], dict[str, datetime | None]]:
        """Take one event in one conversation.

        Returns:
            Its alarm, what it has to say to others, and the alarms that it leaves to the team.

        Raises:
            ConflictError: Another writer was faster.
        """
        context = self._context_now()
        transition = advance(context, stored.conversation, event)
        wake_at = next_deadline(context, transition.conversation)
        if wake_at is not None:
            wake_at = self._ease(context, transition.conversation, wake_at)
        unit.save(
            stored,
            transition.conversation,
            event=event,
            effects=[
                self._linked(unit, stored, effect, event.at)
                for effect in transition.effects
                if reaching.goes_out(transition.conversation, effect)
            ],
            wake_at=wake_at,
            logged=self._logged(stored.conversation),
        )
        letters = [
            letter
            for effect in transition.effects
            for letter in self._posted(unit, transition.conversation, effect, event.at)
        ]
        alarms = self._team.follow(unit, transition.conversation, transition.effects, event.at)
        return wake_at, letters, dict(alarms)

    def _linked(self, unit: UnitOfWork, stored: Stored, effect: Effect, at: datetime) -> Effect:
        """Give the link that is offered its code; every other effect stays as it is."""
        if not isinstance(effect, OfferLink):
            return effect
        link = Link(
            code=LINK + self._new_code(),
            of=stored.conversation.id,
            share=effect.share,
            made_at=at,
            expires_at=at + LINK_LASTS,
        )
        unit.offer_link(link)
        return replace(effect, link=self._link_for(stored.address, link.code))

    def _posted(
        self, unit: UnitOfWork, sender: Conversation, effect: Effect, at: datetime
    ) -> Iterator[tuple[str, Event]]:
        """Yield what an effect leads to elsewhere; to agree, the link must still be good."""
        if isinstance(effect, Agree) and not unit.take_link(effect.to, at, sender.id):
            yield sender.id, LinkEnded(at=at, of=effect.to)
        else:
            yield from posted(sender, effect, at)
