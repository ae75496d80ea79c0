"""One step of the machine: the conversation as it changes, and the effects as they gather.

A `Turn` lives within one call of `advance` and is seen by nobody else, so `advance` stays pure.
"""

from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

from bot.engine.effects import (
    Choice,
    Effect,
    Form,
    Hand,
    Keep,
    Param,
    Part,
    Revise,
    Say,
    Urgency,
)
from bot.engine.questions import asked_by_aside, asked_by_stage
from bot.engine.state import (
    Aside,
    AwaitingPosition,
    AwaitingReading,
    AwaitingStopReason,
    Context,
    Conversation,
    Finished,
    Resting,
    Stage,
)
from bot.protocol.record import AgeBand, TestRecord


@dataclass(frozen=True, slots=True)
class Transition:
    """What one event led to."""

    conversation: Conversation
    effects: tuple[Effect, ...]


@dataclass(frozen=True, slots=True)
class Answer:
    """A button that answers the open question, and is stale once that has passed."""

    label: str
    choice: str


@dataclass(frozen=True, slots=True)
class Always:
    """A button that means the same at any time."""

    label: str
    token: str


Button = Answer | Always
Rows = tuple[tuple[Button, ...], ...]

STOP: Final = Always("button.stop", "stop")
SYMPTOM: Final = Always("button.symptom", "symptom")
WHERE: Final = Always("button.where", "where")
RESULTS: Final = Always("button.results", "results")
NEW_TEST: Final = Always("button.new-test", "start")

_WHILE_RUNNING: Final = tuple(Choice(b.label, b.token) for b in (STOP, SYMPTOM, WHERE))


def part(key: str, **params: Param) -> Part:
    """Return a paragraph of the catalogue with its values."""
    return Part(key, params)


class Turn:
    """Collects what one event changes and causes."""

    def __init__(self, context: Context, conversation: Conversation, at: datetime) -> None:
        self.context = context
        self.conversation = conversation
        self.at = at
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
    def held_record(self) -> TestRecord:
        """The record, where the stage is known to hold one."""
        record = self.record
        assert record is not None
        return record

    def move(self, stage: Stage) -> None:
        """Go to another stage; a question put in between is dropped."""
        self.conversation = replace(self.conversation, stage=stage, aside=None)

    def stay(self, stage: Stage) -> None:
        """Update the facts of the stage; a question put in between stays open."""
        self.conversation = replace(self.conversation, stage=stage)

    def put(self, aside: Aside | None) -> None:
        """Put a question in between, or close it with `None`."""
        self.conversation = replace(self.conversation, aside=aside)

    def know_age(self, band: AgeBand) -> None:
        """Keep the age band."""
        self.conversation = replace(self.conversation, age_band=band)

    def speak(self, locale: str) -> None:
        """Go on in another language."""
        self.conversation = replace(self.conversation, locale=locale)

    def answer_taken(self, token: str) -> None:
        """Remember the last answer tapped, so that a double tap is not told off."""
        self.conversation = replace(self.conversation, answered=token)

    def count_test(self) -> int:
        """Count one more test and return its number."""
        self.conversation = replace(self.conversation, tests=self.conversation.tests + 1)
        return self.conversation.tests

    def update(self, record: TestRecord) -> None:
        """Put a changed record into the stage, which must hold one."""
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
                raise AssertionError("this stage holds no record")

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

    def revise(self, target: int, *parts: Part, until: datetime | None = None) -> None:
        """Change a message sent earlier."""
        self._effects.append(
            Revise(number=self._next_number(), target=target, parts=parts, until=until)
        )

    def hand(self, form: Form, record: TestRecord, rows: Rows = ()) -> None:
        """Send a result in one of its forms."""
        self._effects.append(
            Hand(number=self._next_number(), form=form, record=record, choices=self._choices(rows))
        )

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
        question = asked_by_aside(self.conversation) or asked_by_stage(self.conversation)
        return tuple(tuple(_choice(button, question) for button in row) for row in rows)


def _choice(button: Button, question: str | None) -> Choice:
    match button:
        case Always(label, token):
            return Choice(label, token)
        case Answer(label, choice):
            return Choice(label, f"{question}:{choice}")
