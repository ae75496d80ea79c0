"""The conversation as it changes within one step of the machine."""

from dataclasses import replace
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from bot.engine.asides import Aside, ConfirmingDistress, ConfirmingStop, Question
from bot.engine.context import Context, Pinned
from bot.engine.recovery import Recovery
from bot.engine.state import (
    AwaitingPosition,
    AwaitingReading,
    AwaitingStopReason,
    ChoosingPlace,
    Conversation,
    Enrolling,
    Finished,
    Idle,
    Resting,
    Stage,
)
from bot.protocol.definition import ProtocolRef
from bot.protocol.record import AgeBand, TestRecord


class Changes:
    """The conversation within one step: what is known of it, and how it is changed.

    `was_checked` is whether "are you all right?" was open when the event came.
    """

    def __init__(self, context: Context, conversation: Conversation, at: datetime) -> None:
        self.context = context
        self.conversation = conversation
        self.at = at
        self.was_checked = False

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
        """The definition for the next test: that of the last one, so that they can be compared.

        What the care team has set goes before.
        """
        profile = self.conversation.profile
        if profile.protocol_by_team and profile.protocol is not None:
            return profile.protocol
        if profile.tests:
            return profile.tests[-1].protocol
        return profile.protocol or self.context.protocol

    @property
    def consent_outdated(self) -> bool:
        """Whether the text they agreed to is not the one in force, or told of no care team."""
        profile = self.conversation.profile
        without_team = self.context.team and profile.team_since is None
        return profile.consent_version < self.context.consent_version or without_team

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
    def today(self) -> date:
        """The date on the person's calendar."""
        return self.at.astimezone(self.zone_info).date()

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

    def pin(self, now: Pinned | None) -> None:
        """Keep what a test began with until it is over; nothing is kept when there is none."""
        kept = None if now is None else self.conversation.pinned or now
        if kept != self.conversation.pinned:
            self.conversation = replace(self.conversation, pinned=kept)

    def move(self, stage: Stage) -> None:
        """Go to another stage; a question put in between is dropped, but see `drop`."""
        last = self.record if isinstance(self.stage, Finished) else self.conversation.last
        if isinstance(stage, AwaitingPosition | Finished):
            last = None
        self.conversation = replace(self.conversation, stage=stage, last=last)
        self.drop()

    def drop(self) -> None:
        """Drop the question put in between; one about stopping or help stays until answered."""
        if self.aside is None:
            return
        held = self.running is not None and isinstance(self.aside, ConfirmingStop)
        if not held and not isinstance(self.aside, ConfirmingDistress):
            self.conversation = replace(self.conversation, aside=None)

    def reopen(self, aside: Aside) -> None:
        """Leave a question open that was open before the stage changed."""
        self.conversation = replace(self.conversation, aside=aside)

    def settle(self) -> None:
        """Close the question put in between, whatever it is: it has been answered."""
        self.conversation = replace(self.conversation, aside=None)

    def stay(self, stage: Stage) -> None:
        """Update the facts of the stage; a question put in between stays open."""
        self.conversation = replace(self.conversation, stage=stage)

    def put(self, aside: Aside) -> None:
        """Put a question in between. Nothing but a graver one takes the place of "stop?"."""
        graver = isinstance(aside, ConfirmingDistress)
        if graver or not isinstance(self.aside, ConfirmingStop | ConfirmingDistress):
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

    def hold(self, stage: Stage) -> None:
        """Put another stage in the place of the one that is remembered."""
        self.conversation = replace(self.conversation, resumes=stage)

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

    def act(self) -> None:
        """Remember that the person did something just now, once they agreed to be remembered."""
        if self.conversation.profile.consented_at is not None:
            self.conversation = replace(self.conversation, active_at=self.at)

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

    def recover(self, recovery: Recovery | None) -> None:
        """Look after the person from now on, after a test that was stopped, or no more."""
        self.conversation = replace(self.conversation, recovery=recovery)
