"""What was planned, while something else is asked: it is not held up, and takes nothing away.

A question about the person, or about a test on paper, stays open while a reminder comes, and is
put again after it. Somebody
who prepares a test is not reminded of that test. What is left open for long gives way.
"""

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final

from bot.engine.context import Context
from bot.engine.dialogues import reminding, standing, watching
from bot.engine.paper import CopyingPaper, DatingPaper
from bot.engine.state import (
    Auditing,
    AwaitingReady,
    Booked,
    ChoosingPlace,
    Conversation,
    Enrolling,
    Planning,
)
from bot.engine.turn import Turn

LEFT_OPEN: Final = timedelta(hours=1)
"""Planning or preparing a test, left alone for so long, gives way to what is due (design
choice)."""

Open = Planning | Auditing | AwaitingReady
Asked = Enrolling | ChoosingPlace | DatingPaper | CopyingPaper


def left_open_at(conversation: Conversation, due: datetime | None) -> datetime | None:
    """Return when what is due may take the place of what is open; `None` if nothing is due."""
    if due is None:
        return None
    active_at = conversation.active_at
    return (due if active_at is None else max(due, active_at)) + LEFT_OPEN


def preparing(context: Context, conversation: Conversation) -> datetime | None:
    """Return when planning or preparing a test is next interrupted, if it is."""
    booking = standing.booking_of(conversation.resumes)
    if booking is None:
        return left_open_at(conversation, watching.deadline(context, conversation.profile))
    due = _reminder(context, conversation)
    active_at = conversation.active_at
    return due if due is None or active_at is None else max(due, active_at + LEFT_OPEN)


def questioned(context: Context, conversation: Conversation) -> datetime | None:
    """Return when something is due behind questions about the person, or a test on paper."""
    if conversation.resumes is None:
        return None
    if standing.booking_of(conversation.resumes) is None:
        return left_open_at(conversation, watching.deadline(context, conversation.profile))
    return _reminder(context, conversation)


def _reminder(context: Context, conversation: Conversation) -> datetime | None:
    stage = conversation.resumes
    booking = standing.booking_of(stage)
    if booking is None or not isinstance(stage, Booked | Planning):
        return None
    held = Booked(booking=booking, sent=stage.sent, looked_at=stage.looked_at)
    return reminding.deadline(context, conversation.profile, held)


def pass_time(turn: Turn, stage: Open | Asked) -> None:
    """Let what is due come. The time for it has come."""
    match stage:
        case Enrolling() | ChoosingPlace() | DatingPaper() | CopyingPaper():
            if standing.booking_of(turn.conversation.resumes) is None:
                watching.pass_over(turn)
            else:
                reminding.pass_time_behind(turn)
        case Planning() | Auditing() | AwaitingReady():
            _interrupt(turn)


def _interrupt(turn: Turn) -> None:
    """Let a reminder, or the daily question, take the place of what was left open.

    What has no words of its own takes nothing away.
    """
    back = turn.conversation.resumes
    booking = standing.booking_of(back)
    if booking is None or not isinstance(back, Booked | Planning):
        watching.pass_over(turn)
    elif reminding.speaks(turn, back, booking):
        turn.move(turn.take_resume())
        reminding.pass_time(turn, back, booking)
    else:
        turn.hold(replace(back, looked_at=turn.at))
