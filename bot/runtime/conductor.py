"""One event, one unit of work: claim it, advance the conversation, put down all that follows."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from bot.engine.context import Context, Opening
from bot.engine.deadlines import next_deadline
from bot.engine.events import (
    Cleared,
    DeadlineReached,
    DeliveryFailed,
    Event,
    Failure,
    Invited,
    Opened,
    WordsGiven,
)
from bot.engine.machine import advance
from bot.engine.state import Conversation
from bot.protocol.released import latest
from bot.runtime.ports import Inbound, Store, Stored, UnitOfWork


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """What handling an event came to.

    Attributes:
        conversation_id: Whose.
        wake_at: When the conversation next wants to be woken.
        fresh: False when the event had been taken before.
    """

    conversation_id: str
    wake_at: datetime | None
    fresh: bool


class Conductor:
    """Carries events to conversations. Plain and synchronous; call it from a worker thread."""

    def __init__(
        self,
        store: Store,
        context: Context,
        *,
        new_id: Callable[[], str],
        language_for: Callable[[str | None], str],
    ) -> None:
        self._store = store
        self._context = context
        self._new_id = new_id
        self._language_for = language_for

    def handle(self, inbound: Inbound) -> Step:
        """Take in one arrival. When this returns, everything that follows from it is durable.

        Raises:
            ConflictError: Another writer was faster; nothing was changed, try again.
        """
        at = inbound.event.at
        with self._store.unit() as unit:
            fresh = unit.claim(inbound.key, at)
            stored = unit.load(inbound.address)
            if stored is None:
                beginning = Conversation(
                    id=self._new_id(), locale=self._language_for(inbound.language)
                )
                stored = unit.add(beginning, inbound.address, at)
            if not fresh:
                return Step(
                    conversation_id=stored.conversation.id, wake_at=stored.wake_at, fresh=False
                )
            event = self._invited(unit, inbound, stored.conversation)
            return self._advance(unit, stored, event)

    def _invited(self, unit: UnitOfWork, inbound: Inbound, before: Conversation) -> Event:
        """Turn an invitation's code, carried by a link or typed, into what it means."""
        match inbound.event:
            case Opened(at=at, code=str(code)):
                pass
            case WordsGiven(at=at, text=text) if before.profile.reference is None:
                code = text.strip()
            case event:
                return event
        invitation = unit.invitation(code, at, inbound.address)
        if invitation is None:
            return inbound.event
        protocol = latest(invitation.protocol) if invitation.protocol else None
        return Invited(at=at, reference=invitation.reference, protocol=protocol)

    def clear(self, reference: str, by: str, at: datetime) -> Step | None:
        """Put down that somebody of the care team cleared a person; `None` if there is no such."""
        conversation_id = self._store.find(reference)
        if conversation_id is None:
            return None
        with self._store.unit() as unit:
            stored = unit.load_by_id(conversation_id)
            return None if stored is None else self._advance(unit, stored, Cleared(at=at, by=by))

    def wake(self, conversation_id: str, at: datetime) -> Step | None:
        """Answer an alarm. Early, late and double alarms do no harm."""
        with self._store.unit() as unit:
            stored = unit.load_by_id(conversation_id)
            if stored is None:
                return None
            if stored.wake_at is None or at < stored.wake_at:
                return Step(conversation_id=conversation_id, wake_at=stored.wake_at, fresh=False)
            return self._advance(unit, stored, DeadlineReached(at=at))

    def delivery_failed(
        self, conversation_id: str, number: int, failure: Failure, at: datetime
    ) -> Step | None:
        """Tell a conversation that one of its messages was given up."""
        with self._store.unit() as unit:
            stored = unit.load_by_id(conversation_id)
            if stored is None:
                return None
            return self._advance(
                unit, stored, DeliveryFailed(at=at, number=number, failure=failure)
            )

    def _logged(self, before: Conversation) -> bool:
        """Whether an event may be kept: nothing that a person says is, before they agree."""
        agreed = before.profile.consented_at is not None
        return agreed or self._context.opening is Opening.SHORT

    def _advance(self, unit: UnitOfWork, stored: Stored, event: Event) -> Step:
        transition = advance(self._context, stored.conversation, event)
        wake_at = next_deadline(self._context, transition.conversation)
        unit.save(
            stored,
            transition.conversation,
            event=event,
            effects=transition.effects,
            wake_at=wake_at,
            logged=self._logged(stored.conversation),
        )
        return Step(conversation_id=stored.conversation.id, wake_at=wake_at, fresh=True)
