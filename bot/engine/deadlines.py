"""When the engine next has something to do by itself. The timer is the state: nothing is set."""

from datetime import datetime, timedelta
from typing import Final, assert_never

from bot.engine.dialogues.silence import CHECKED, ladder
from bot.engine.state import (
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    ConfirmingStop,
    Conversation,
    Finished,
    Idle,
    Resting,
)

STOP_MEANT_AFTER: Final = timedelta(minutes=1)
"""No answer to "did you mean stop?" counts as yes after this long (design choice)."""

REASON_WAITS: Final = timedelta(minutes=5)
"""How long the reason of a stop is waited for before the results are sent (design choice)."""


def next_deadline(conversation: Conversation) -> datetime | None:
    """Return the instant of the next deadline; `None` when only the person can go on."""
    due = _stage_deadline(conversation)
    match conversation.aside:
        case ConfirmingStop(asked_at=asked_at):
            meant = asked_at + STOP_MEANT_AFTER
            return meant if due is None else min(meant, due)
        case _:
            return due


def _stage_deadline(conversation: Conversation) -> datetime | None:
    match conversation.stage:
        case Idle() | AwaitingAgeBand() | AwaitingReady() | Finished():
            return None
        case Resting() as stage:
            return _resting(stage)
        case AwaitingPosition() as stage:
            return _silence(stage)
        case AwaitingReading() as stage:
            following = next_slot_at(stage)
            silence = _silence(stage)
            return silence if following is None else min(silence, following)
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
