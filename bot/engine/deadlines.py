"""When the engine next has something to do by itself. The timer is the state: nothing is set."""

from datetime import datetime, timedelta
from typing import Final, assert_never

from bot.booking.plan import Booking
from bot.engine.asides import ConfirmingDistress, ConfirmingStop
from bot.engine.context import Context
from bot.engine.dialogues import clearing, recovering, reminding, team, waiting, watching
from bot.engine.dialogues.pacing import lost_at
from bot.engine.dialogues.silence import CHECKED, Silent, ladder
from bot.engine.paper import CopyingPaper, DatingPaper
from bot.engine.profile import Profile
from bot.engine.state import (
    Auditing,
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    Booked,
    ChoosingPlace,
    Conversation,
    Enrolling,
    Finished,
    Held,
    Idle,
    Planning,
    Resting,
)

STOP_MEANT_AFTER: Final = timedelta(minutes=1)
"""No answer to whether stop, or help, was meant counts as yes after this long (design choice)."""

_INSTANT: Final = timedelta(microseconds=1)

REASON_WAITS: Final = timedelta(minutes=5)
"""How long the reason of a stop is waited for before the results are sent (design choice)."""


def next_deadline(context: Context, conversation: Conversation) -> datetime | None:
    """Return the instant of the next deadline; `None` when only the person can go on."""
    context = context.under(conversation.pinned)
    due = (
        _planned(context, conversation),
        recovering.deadline(context, conversation),
        team.told_at(context, conversation),
    )
    return min((at for at in due if at is not None), default=None)


def _planned(context: Context, conversation: Conversation) -> datetime | None:
    due = _stage_deadline(context, conversation)
    match conversation.aside:
        case ConfirmingStop(asked_at=asked_at) | ConfirmingDistress(asked_at=asked_at):
            meant = asked_at + STOP_MEANT_AFTER
            return meant if due is None else min(meant, due)
        case _:
            return due


def _stage_deadline(context: Context, conversation: Conversation) -> datetime | None:
    match conversation.stage:
        case Idle() | Finished():
            return watching.deadline(context, conversation.profile)
        case Booked() as stage:
            return _booked(context, conversation.profile, stage)
        case Planning(moving=Booking() as booking, sent=sent, looked_at=looked_at):
            held = Booked(booking=booking, sent=sent, looked_at=looked_at)
            return reminding.deadline(context, conversation.profile, held)
        case Planning() | Auditing() | AwaitingReady():
            return waiting.preparing(context, conversation)
        case Enrolling() | ChoosingPlace() | DatingPaper() | CopyingPaper():
            return waiting.questioned(context, conversation)
        case Held():
            return clearing.told_at(context, conversation.profile)
        case AwaitingAgeBand():
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


def _booked(context: Context, profile: Profile, stage: Booked) -> datetime | None:
    reminder = reminding.deadline(context, profile, stage)
    question = watching.deadline_before(context, profile, stage.booking)
    return min((at for at in (reminder, question) if at is not None), default=None)


def next_slot_at(stage: AwaitingReading) -> datetime | None:
    """Return when the next planned reading of the same phase is due, if there is one."""
    slots = stage.phase.slots
    if stage.slot_index + 1 == len(slots):
        return None
    return stage.phase_started_at + slots[stage.slot_index + 1].due


def _resting(stage: Resting) -> datetime:
    times = [stage.due_at]
    if stage.silent_since is not None:
        times.append(_silence(stage))
    if stage.checks_put < len(stage.phase.checks):
        check = stage.phase_started_at + stage.phase.checks[stage.checks_put]
        times.append(check)
    if not stage.warned:
        times.append(stage.due_at - stage.protocol.heads_up)
    if stage.notes_shown < len(stage.phase.progress):
        times.append(stage.phase_started_at + stage.phase.progress[stage.notes_shown])
    return min(times)


def _silence(stage: Silent) -> datetime:
    rungs, since = ladder(stage), stage.silent_since
    assert since is not None
    if stage.rung == 0:
        return since + rungs.nudge_after
    if stage.rung < CHECKED:
        return since + rungs.check_after
    return since + rungs.close_after
