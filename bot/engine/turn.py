"""One step of the machine: the conversation as it changes, and the effects as they gather.

A `Turn` lives within one call of `advance` and is seen by nobody else, so `advance` stays pure.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from typing import Any, Final
from zoneinfo import ZoneInfo

from bot.booking.plan import Booking
from bot.engine.context import Context
from bot.engine.effects import (
    Choice,
    Compare,
    Effect,
    Forget,
    Form,
    Hand,
    HandCalendar,
    HandCopy,
    Keep,
    Notice,
    Param,
    Part,
    Recall,
    Revise,
    Say,
    Tell,
    Urgency,
    Withdraw,
)
from bot.engine.questions import asked_by_aside, asked_by_stage
from bot.engine.state import (
    Aside,
    AwaitingPosition,
    AwaitingReading,
    AwaitingStopReason,
    ChoosingPlace,
    ConfirmingStop,
    Conversation,
    Enrolling,
    Finished,
    Idle,
    Question,
    Resting,
    Stage,
)
from bot.protocol.definition import Position, ProtocolRef
from bot.protocol.record import AgeBand, TestRecord


@dataclass(frozen=True, slots=True)
class Transition:
    """What one event led to."""

    conversation: Conversation
    effects: tuple[Effect, ...]


@dataclass(frozen=True, slots=True)
class Answer:
    """A button that answers the open question, and is stale once that has passed.

    One `of_stage` answers the stage, whatever question is open in between.
    """

    label: str
    choice: str
    params: Mapping[str, Param] = field(default_factory=dict)
    ticked: bool = False
    of_stage: bool = False


@dataclass(frozen=True, slots=True)
class Always:
    """A button that means the same at any time."""

    label: str
    token: str
    params: Mapping[str, Param] = field(default_factory=dict)


Button = Answer | Always
Rows = tuple[tuple[Button, ...], ...]

STOP: Final = Always("button.stop", "stop")
SYMPTOM: Final = Always("button.symptom", "symptom")
WHERE: Final = Always("button.where", "where")
RESULTS: Final = Always("button.results", "results")
LANGUAGE: Final = Always("button.language", "language")
BOOK: Final = Always("button.book", "book")
NEW_TEST: Final = Always("button.new-test", "start")

_WHILE_RUNNING: Final = tuple(Choice(b.label, b.token) for b in (STOP, SYMPTOM, WHERE))


def part(key: str, **params: Param) -> Part:
    """Return a paragraph of the catalogue with its values."""
    return Part(key, params)


class Turn:
    """Collects what one event changes and causes.

    `was_checked` is whether "are you all right?" was open when the event came.
    """

    def __init__(self, context: Context, conversation: Conversation, at: datetime) -> None:
        self.context = context
        self.conversation = conversation
        self.at = at
        self.was_checked = False
        self._effects: list[Effect] = []

    @property
    def stage(self) -> Stage:
        """The stage as it stands now."""
        return self.conversation.stage

    @property
    def aside(self) -> Aside | None:
        """The question put in between, if one is open."""
        return self.conversation.aside

    @property
    def zone(self) -> str:
        """The person's time zone, as far as it is known."""
        return self.conversation.profile.zone or "UTC"

    @property
    def zone_info(self) -> ZoneInfo:
        """The rules of the person's time zone."""
        return ZoneInfo(self.zone)

    @property
    def protocol(self) -> ProtocolRef:
        """The definition for the next test: that of the last one, so that they can be compared."""
        profile = self.conversation.profile
        if profile.tests:
            return profile.tests[-1].protocol
        return profile.protocol or self.context.protocol

    @property
    def running(self) -> AwaitingPosition | Resting | AwaitingReading | None:
        """The stage, if a test is under way."""
        match self.stage:
            case AwaitingPosition() | Resting() | AwaitingReading() as stage:
                return stage
            case _:
                return None

    @property
    def record(self) -> TestRecord | None:
        """The record of the test under way or just ended, if there is one."""
        match self.stage:
            case (
                AwaitingPosition()
                | Resting()
                | AwaitingReading()
                | AwaitingStopReason()
                | Finished()
            ) as stage:
                return stage.record
            case _:
                return None

    @property
    def asked_about_zone(self) -> bool:
        """Whether the time zone is being asked for anew, with something to go back to."""
        match self.stage:
            case Enrolling(question=Question.LOCAL_TIME) | ChoosingPlace():
                return self.conversation.resumes is not None
            case _:
                return False

    @property
    def urgent(self) -> bool:
        """Whether words of safety were said: nothing is asked on top of them."""
        return any(
            isinstance(effect, Say) and effect.urgency is Urgency.SAFETY for effect in self._effects
        )

    @property
    def latest(self) -> TestRecord | None:
        """The test under way, or else the latest that has ended: the one that can be corrected."""
        return self.record or self.conversation.last

    @property
    def held_record(self) -> TestRecord:
        """The latest record, where there is known to be one."""
        record = self.latest
        assert record is not None
        return record

    def move(self, stage: Stage) -> None:
        """Go to another stage; a question put in between is dropped, but not "stop?"."""
        last = self.record if isinstance(self.stage, Finished) else self.conversation.last
        if isinstance(stage, AwaitingPosition | Finished):
            last = None
        self.conversation = replace(self.conversation, stage=stage, last=last)
        self.drop()

    def drop(self) -> None:
        """Drop the question put in between. "Stop?" stays open until it is answered."""
        if self.running is None or not isinstance(self.aside, ConfirmingStop):
            self.conversation = replace(self.conversation, aside=None)

    def reopen(self, aside: Aside) -> None:
        """Leave a question open that was open before the stage changed."""
        self.conversation = replace(self.conversation, aside=aside)

    def settle_stop(self) -> None:
        """Close the question whether stop was meant: it has been answered."""
        self.conversation = replace(self.conversation, aside=None)

    def stay(self, stage: Stage) -> None:
        """Update the facts of the stage; a question put in between stays open."""
        self.conversation = replace(self.conversation, stage=stage)

    def put(self, aside: Aside) -> None:
        """Put a question in between. Nothing takes the place of "stop?"."""
        if not isinstance(self.aside, ConfirmingStop):
            asides = self.conversation.asides + 1
            self.conversation = replace(self.conversation, aside=aside, asides=asides)

    def know_age(self, band: AgeBand) -> None:
        """Keep the age band."""
        self.conversation = replace(self.conversation, age_band=band)

    def know(self, **facts: Any) -> None:
        """Put facts into the profile, by the names of its fields."""
        profile = replace(self.conversation.profile, **facts)
        self.conversation = replace(self.conversation, profile=profile)

    def set_resume(self) -> None:
        """Remember the stage, to come back to it after a question about the person."""
        self.conversation = replace(self.conversation, resumes=self.stage)

    def clear_resume(self) -> None:
        """Forget the stage that was remembered: it is not gone back to."""
        self.conversation = replace(self.conversation, resumes=None)

    def take_resume(self) -> Stage:
        """Return the stage that was remembered, which must be there, and forget it."""
        stage = self.conversation.resumes
        assert stage is not None
        self.conversation = replace(self.conversation, resumes=None)
        return stage

    def go_back(self) -> None:
        """Leave what was begun; what was planned before it still stands."""
        self.move(Idle() if self.conversation.resumes is None else self.take_resume())

    def speak(self, locale: str) -> None:
        """Go on in another language."""
        self.conversation = replace(self.conversation, locale=locale)

    def answer_taken(self, token: str) -> None:
        """Remember the last answer tapped, so that a double tap is not told off."""
        self.conversation = replace(self.conversation, answered=token, answered_at=self.at)

    def count_test(self) -> int:
        """Count one more test and return its number."""
        self.conversation = replace(self.conversation, tests=self.conversation.tests + 1)
        return self.conversation.tests

    def update(self, record: TestRecord) -> None:
        """Put a changed record in the place of the latest one."""
        match self.stage:
            case (
                AwaitingPosition()
                | Resting()
                | AwaitingReading()
                | AwaitingStopReason()
                | Finished()
            ) as stage:
                self.stay(replace(stage, record=record))
            case _:
                self.conversation = replace(self.conversation, last=record)

    def say(
        self,
        *parts: Part,
        rows: Rows = (),
        urgency: Urgency = Urgency.REPLY,
        until: datetime | None = None,
    ) -> int:
        """Send one message and return its number."""
        number = self._next_number()
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
            Hand(number=self._next_number(), form=form, record=record, choices=self._choices(rows))
        )

    def recall(self, form: Form, test: int) -> None:
        """Send an earlier result again."""
        self._effects.append(Recall(number=self._next_number(), form=form, test=test))

    def compare(self, first: int, second: int) -> None:
        """Lay two tests side by side."""
        self._effects.append(Compare(number=self._next_number(), first=first, second=second))

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
        """Tell the people whom the person has linked what is happening, if there are any."""
        if not self.conversation.profile.companions:
            return
        position: Position | None = None
        offset: timedelta | None = None
        match self.stage:
            case Resting() | AwaitingReading() as stage:
                position, offset = stage.phase.position, self.at - stage.phase_started_at
            case AwaitingPosition() as stage:
                position = stage.phase.position
            case _:
                pass
        self._effects.append(Tell(notice=notice, position=position, offset=offset))

    def keep(self, record: TestRecord) -> None:
        """Keep a test that has ended."""
        self._effects.append(Keep(record=record))

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
                _choice(b, stage if isinstance(b, Answer) and b.of_stage else question) for b in row
            )
            for row in rows
        )


def _choice(button: Button, question: str | None) -> Choice:
    match button:
        case Always():
            return Choice(button.label, button.token, button.params)
        case Answer():
            token = f"{question}:{button.choice}"
            return Choice(button.label, token, button.params, button.ticked)
