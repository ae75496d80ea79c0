"""When the engine next has something to do by itself. The timer is the state: nothing is set."""

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final, assert_never

from bot.booking.plan import Booking
from bot.engine.context import Context
from bot.engine.dialogues import reminding, watching
from bot.engine.dialogues.pacing import lost_at
from bot.engine.dialogues.silence import CHECKED, ladder
from bot.engine.state import (
    Auditing,
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    Booked,
    ChoosingPlace,
    ConfirmingStop,
    Conversation,
    Enrolling,
    Finished,
    Held,
    Idle,
    Planning,
    Resting,
)

STOP_MEANT_AFTER: Final = timedelta(minutes=1)
"""No answer to "did you mean stop?" counts as yes after this long (design choice)."""

LEFT_OPEN: Final = timedelta(hours=1)
"""Planning or preparing a test that is left open so long past the hour of the daily question gives
way to it (design choice)."""

_INSTANT: Final = timedelta(microseconds=1)

REASON_WAITS: Final = timedelta(minutes=5)
"""How long the reason of a stop is waited for before the results are sent (design choice)."""


def next_deadline(context: Context, conversation: Conversation) -> datetime | None:
    """Return the instant of the next deadline; `None` when only the person can go on."""
    if conversation.resumes is not None:
        # A question about the person does not hold up what was planned before it.
        held = replace(conversation, stage=conversation.resumes, resumes=None, aside=None)
        return next_deadline(context, held)
    due = _stage_deadline(context, conversation)
    match conversation.aside:
        case ConfirmingStop(asked_at=asked_at):
            meant = asked_at + STOP_MEANT_AFTER
            return meant if due is None else min(meant, due)
        case _:
            return due


def _stage_deadline(context: Context, conversation: Conversation) -> datetime | None:
    match conversation.stage:
        case Idle() | Finished():
            return watching.deadline(context, conversation.profile)
        case Booked() as stage:
            return reminding.deadline(context, conversation.profile, stage)
        case Planning(moving=Booking() as booking, sent=sent, looked_at=looked_at):
            held = Booked(booking=booking, sent=sent, looked_at=looked_at)
            return reminding.deadline(context, conversation.profile, held)
        case Planning() | Auditing() | AwaitingReady():
            # What is left open so long does not hold up the daily question.
            due = watching.deadline(context, conversation.profile)
            return None if due is None else due + LEFT_OPEN
        case AwaitingAgeBand() | Enrolling() | ChoosingPlace() | Held():
            return None
        case Resting() as stage:
            return _resting(stage)
        case AwaitingPosition() as stage:
            return _silence(stage)
        case AwaitingReading() as stage:
            following = next_slot_at(stage)
            due = min(_silence(stage), lost_at(stage) + _INSTANT)
            return due if following is None else min(due, following)
        case AwaitingStopReason(asked_at=asked_at):
            return asked_at + REASON_WAITS
        case _:
            assert_never(conversation.stage)


def next_slot_at(stage: AwaitingReading) -> datetime | None:
    """Return when the next planned reading of the same phase is due, if there is one."""
    slots = stage.phase.slots
    if stage.slot_index + 1 == len(slots):
        return None
    return stage.phase_started_at + slots[stage.slot_index + 1].due


def _resting(stage: Resting) -> datetime:
    times = [stage.due_at]
    if not stage.warned:
        times.append(stage.due_at - stage.protocol.heads_up)
    if stage.notes_shown < len(stage.phase.progress):
        times.append(stage.phase_started_at + stage.phase.progress[stage.notes_shown])
    return min(times)


def _silence(stage: AwaitingPosition | AwaitingReading) -> datetime:
    rungs = ladder(stage)
    if stage.rung == 0:
        return stage.silent_since + rungs.nudge_after
    if stage.rung < CHECKED:
        return stage.silent_since + rungs.check_after
    return stage.silent_since + rungs.close_after
