"""One step of the machine: the conversation as it changes, and the effects as they gather.

A `Turn` lives within one call of `advance` and is seen by nobody else, so `advance` stays pure.
"""

from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

from bot.booking.plan import Booking
from bot.engine.buttons import STOP, SYMPTOM, WHERE, Answer, Rows, choice_of, part
from bot.engine.changes import Changes
from bot.engine.context import Context
from bot.engine.effects import (
    Amend,
    Choice,
    Compare,
    Effect,
    Forget,
    Form,
    Hand,
    HandCalendar,
    HandCopy,
    Keep,
    OfferLink,
    Part,
    Recall,
    Retract,
    Revise,
    Say,
    Trace,
    Urgency,
    Withdraw,
    WithdrawLink,
)
from bot.engine.letters import Letter
from bot.engine.notices import Notice, Tell
from bot.engine.profile import Offer, Share
from bot.engine.questions import asked_by_aside, asked_by_stage
from bot.engine.state import (
    AwaitingPosition,
    AwaitingReading,
    Conversation,
    Resting,
)
from bot.engine.team import LoseTouch, Submit, TakeBack, Unheard
from bot.protocol.circumstances import DayKind
from bot.protocol.record import TestRecord


@dataclass(frozen=True, slots=True)
class Transition:
    """What one event led to."""

    conversation: Conversation
    effects: tuple[Effect, ...]


_WHILE_RUNNING: Final = tuple(Choice(b.label, b.token) for b in (STOP, SYMPTOM, WHERE))


class Turn(Changes):
    """Collects what one event changes and causes."""

    def __init__(self, context: Context, conversation: Conversation, at: datetime) -> None:
        super().__init__(context, conversation, at)
        self._effects: list[Effect] = []

    @property
    def urgent(self) -> bool:
        """Whether words of safety were said: nothing is asked on top of them."""
        return any(
            isinstance(effect, Say) and effect.urgency is Urgency.SAFETY for effect in self._effects
        )

    def say(
        self,
        *parts: Part,
        rows: Rows = (),
        urgency: Urgency = Urgency.REPLY,
        until: datetime | None = None,
    ) -> int:
        """Send one message and return its number; safety words carry the clinic's own number."""
        number = self._next_number()
        to_call = self.context.emergency_number
        if to_call is not None and urgency is Urgency.SAFETY:
            parts = (*parts, part("emergency.number", number=to_call))
        self._effects.append(
            Say(
                number=number,
                parts=parts,
                choices=self._choices(rows),
                urgency=urgency,
                until=until,
            )
        )
        return number

    def revise(
        self,
        target: int,
        *parts: Part,
        rows: Rows = (),
        until: datetime | None = None,
        urgency: Urgency = Urgency.BULK,
    ) -> None:
        """Change a message sent earlier."""
        self._effects.append(
            Revise(
                number=self._next_number(),
                target=target,
                parts=parts,
                choices=self._choices(rows),
                until=until,
                urgency=urgency,
            )
        )

    def hand(self, form: Form, record: TestRecord, rows: Rows = ()) -> None:
        """Send a result in one of its forms."""
        self._effects.append(
            Hand(
                number=self._next_number(),
                form=form,
                record=record,
                choices=self._choices(rows),
                reference=self.conversation.profile.reference or self.conversation.id,
                at=self.at,
            )
        )

    def recall(self, form: Form, test: int, rows: Rows = ()) -> None:
        """Send an earlier result again."""
        number, choices = self._next_number(), self._choices(rows)
        self._effects.append(
            Recall(number=number, form=form, test=test, choices=choices, at=self.at)
        )

    def compare(self, first: int, second: int) -> None:
        """Lay two tests side by side, in words and as pages."""
        for form in (Form.SUMMARY, Form.PDF):
            number = self._next_number()
            self._effects.append(
                Compare(number=number, first=first, second=second, form=form, at=self.at)
            )

    def trace(self, tests: tuple[int, ...]) -> None:
        """Show how tests go over time, as a picture and as a page."""
        for form in (Form.CHART, Form.PDF):
            number = self._next_number()
            self._effects.append(Trace(number=number, tests=tests, form=form, at=self.at))

    def hand_calendar(self, booking: Booking, *, cancelled: bool = False) -> None:
        """Send the calendar file of a booking."""
        self._effects.append(
            HandCalendar(
                number=self._next_number(),
                owner=self.conversation.id,
                booking=booking,
                cancelled=cancelled,
            )
        )

    def hand_copy(self) -> None:
        """Send the person a copy of all that is kept of them."""
        self._effects.append(HandCopy(number=self._next_number()))

    def forget(self) -> None:
        """Delete all that is kept of the person, and begin as if they had never been here."""
        self.conversation = Conversation(
            id=self.conversation.id,
            locale=self.conversation.locale,
            said=self.conversation.said,
        )
        self._effects.append(Forget())

    def withdraw(self) -> None:
        """Let nothing of the test go out any more that is still waiting, but safety words."""
        self._effects.append(Withdraw())

    def tell(self, notice: Notice) -> None:
        """Tell the people whom the person has linked, and the care team, what is happening."""
        profile = self.conversation.profile
        to_team = self.context.team and profile.team_since is not None
        if not profile.companions and not to_team:
            return
        match self.stage:
            case Resting() | AwaitingReading() as stage:
                offset = self.at - stage.phase_started_at
                told = Tell(notice=notice, position=stage.phase.position, offset=offset)
            case AwaitingPosition() as stage:
                told = Tell(notice=notice, position=stage.phase.position)
            case _:
                told = Tell(notice=notice)
        self._effects.append(told)

    def offer_link(self, share: Share) -> int:
        """Send a link by which somebody else can become the person's companion; its number."""
        number = self._next_number()
        self._effects.append(OfferLink(number=number, share=share))
        return number

    def withdraw_link(self, offer: Offer) -> None:
        """Let a link that was offered be good no more, nor go out if it still waits."""
        self._effects.append(WithdrawLink(made_at=offer.since))
        self.retract((offer.number,))

    def submit(self, test: int) -> None:
        """Send the result of a test to the care team."""
        self._effects.append(Submit(test=test))

    def take_back(self) -> None:
        """Let the care team open nothing more of what was sent."""
        self._effects.append(TakeBack())

    def lose_touch(self, *, told: bool) -> None:
        """Let the care team's side know that nothing reaches the person any more."""
        self._effects.append(LoseTouch(told=told))

    def unheard(self, said_at: datetime) -> None:
        """Let the care team know that the person does not hear what it said at an instant."""
        self._effects.append(Unheard(said_at=said_at))

    def send(self, letter: Letter) -> None:
        """Say something to the conversation of somebody who is linked."""
        self._effects.append(letter)

    def retract(self, numbers: tuple[int, ...]) -> None:
        """Let these messages go out no more if they still wait."""
        self._effects.append(Retract(numbers=numbers))

    def keep(self, record: TestRecord) -> None:
        """Keep a test that has ended."""
        self._effects.append(Keep(record=record))

    def amend(self, test: int, day: DayKind) -> None:
        """Put the kind of day into an earlier test."""
        self._effects.append(Amend(test=test, day=day))

    def transition(self) -> Transition:
        """Return the outcome; while a test runs, every message carries the way to stop it."""
        effects = tuple(self._effects)
        if self.running is not None:
            effects = tuple(
                replace(effect, choices=(*effect.choices, _WHILE_RUNNING))
                if isinstance(effect, Say | Revise)
                else effect
                for effect in effects
            )
        return Transition(self.conversation, effects)

    def _next_number(self) -> int:
        self.conversation = replace(self.conversation, said=self.conversation.said + 1)
        return self.conversation.said

    def _choices(self, rows: Rows) -> tuple[tuple[Choice, ...], ...]:
        stage = asked_by_stage(self.conversation)
        question = asked_by_aside(self.conversation) or stage
        return tuple(
            tuple(
                choice_of(b, stage if isinstance(b, Answer) and b.of_stage else question)
                for b in row
            )
            for row in rows
        )
