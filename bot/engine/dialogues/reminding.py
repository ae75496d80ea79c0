"""Reminders of a booked test. What is due is worked out from the booking, so none is ever stale."""

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final

from bot.booking.plan import Booking, ReminderKind, due, next_at, plan
from bot.engine.context import Context
from bot.engine.dialogues import auditing, planning
from bot.engine.dialogues.orientation import CHANGE_ROWS, SOON_ROWS, orient
from bot.engine.effects import Moment, Urgency
from bot.engine.hearing import normalised
from bot.engine.options import OPTIONS
from bot.engine.profile import Profile
from bot.engine.state import Booked, Idle, Planning
from bot.engine.turn import BOOK, Turn, part
from bot.engine.vocabulary import Word

SNOOZE: Final = timedelta(minutes=15)
CHOICES: Final = ("start", "later", "move", "cancel")
"""What can be done with a booking."""


def deadline(context: Context, profile: Profile, stage: Booked) -> datetime | None:
    """Return when the next reminder is due; `None` while paused, or after the last."""
    if profile.paused:
        return None
    reminders = plan(stage.booking, context.reminders, context.quiet)
    return next_at(reminders, stage.sent, stage.looked_at)


def pass_time(turn: Turn, stage: Booked | Planning, booking: Booking) -> None:
    """Send the reminder that is due. One that has been overtaken by the next is not sent.

    While the booking is being moved, what was chosen so far stays, and is asked again after it.
    """
    reminders = plan(booking, turn.context.reminders, turn.context.quiet)
    reminder = due(reminders, stage.sent, turn.at)
    sent = stage.sent if reminder is None else stage.sent | {reminder.kind}
    match stage:
        case Booked():
            turn.stay(replace(stage, sent=sent, looked_at=turn.at))
        case Planning():
            turn.stay(replace(stage, sent=sent, looked_at=turn.at))
    if reminder is None:
        return
    moment = Moment(booking.at, booking.zone)
    if reminder.kind is ReminderKind.OFFER:
        turn.move(Idle())
        turn.say(
            part("reminder.offer", moment=moment),
            rows=((BOOK,),),
            urgency=Urgency.REMINDER,
        )
        return
    parts = [part(f"reminder.{reminder.kind}", moment=moment)]
    if reminder.kind is ReminderKind.DAY_BEFORE:
        written = turn.context.medicine_plan
        parts.append(
            part("medicines.plan", plan=written) if written else part("medicines.as-prescribed")
        )
    if isinstance(stage, Planning):
        orient(turn, *parts, urgency=Urgency.REMINDER)
        return
    near = reminder.kind in (ReminderKind.SOON, ReminderKind.FOLLOW_UP)
    turn.say(*parts, rows=SOON_ROWS if near else CHANGE_ROWS, urgency=Urgency.REMINDER)


def take_words(turn: Turn, stage: Booked, text: str, heard: Word | None) -> bool:
    """Take what a button under a reminder would do, as typed, or another day or time."""
    named = [choice for choice in CHOICES if normalised(text) in OPTIONS[f"booked.{choice}"]]
    if named:
        return take_choice(turn, stage, named[0])
    near = turn.at >= stage.booking.at - turn.context.reminders.soon
    match heard:
        case Word.YES | Word.READY if near:
            auditing.begin(turn)
        case Word.NO:
            orient(turn)
        case None:
            return planning.begin_with_words(turn, text)
        case _:
            return False
    return True


def take_choice(turn: Turn, stage: Booked, choice: str) -> bool:
    """Take one of the buttons under a reminder."""
    match choice:
        case "start":
            auditing.begin(turn)
        case "later":
            later = max(stage.booking.at, turn.at) + SNOOZE
            moved = replace(
                stage.booking,
                at=later,
                sequence=stage.booking.sequence + 1,
                put_off=stage.booking.at <= turn.at,
            )
            sent = frozenset({ReminderKind.DAY_BEFORE, ReminderKind.HOURS_BEFORE})
            turn.move(Booked(booking=moved, sent=sent))
            turn.say(part("reminder.later", moment=Moment(later, stage.booking.zone)))
            turn.hand_calendar(moved)
        case "move":
            planning.begin(turn)
        case "cancel":
            planning.cancel(turn, stage.booking)
        case _:
            return False
    return True


def pause(turn: Turn, *, paused: bool) -> None:
    """Pause or resume all reminders and daily questions."""
    turn.know(paused=paused)
    orient(turn, part("paused" if paused else "resumed"))
