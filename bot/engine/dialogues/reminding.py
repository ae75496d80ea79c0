"""Reminders of a booked test. What is due is worked out from the booking, so none is ever stale."""

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final

from bot.booking.plan import ReminderKind, due, next_at, plan
from bot.engine.context import Context
from bot.engine.dialogues import auditing, planning
from bot.engine.dialogues.orientation import CHANGE_ROWS, SOON_ROWS, orient
from bot.engine.effects import Moment, Urgency
from bot.engine.profile import Profile
from bot.engine.state import Booked, Idle
from bot.engine.turn import BOOK, Turn, part

SNOOZE: Final = timedelta(minutes=15)


def deadline(context: Context, profile: Profile, stage: Booked) -> datetime | None:
    """Return when the next reminder is due; `None` while paused, or after the last."""
    if profile.paused:
        return None
    reminders = plan(stage.booking, context.reminders, context.quiet)
    return next_at(reminders, stage.sent, stage.looked_at)


def pass_time(turn: Turn, stage: Booked) -> None:
    """Send the reminder that is due. One that has been overtaken by the next is not sent."""
    reminders = plan(stage.booking, turn.context.reminders, turn.context.quiet)
    reminder = due(reminders, stage.sent, turn.at)
    sent = stage.sent if reminder is None else stage.sent | {reminder.kind}
    turn.stay(replace(stage, sent=sent, looked_at=turn.at))
    if reminder is None:
        return
    moment = Moment(stage.booking.at, stage.booking.zone)
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
    near = reminder.kind in (ReminderKind.SOON, ReminderKind.FOLLOW_UP)
    turn.say(*parts, rows=SOON_ROWS if near else CHANGE_ROWS, urgency=Urgency.REMINDER)


def take_choice(turn: Turn, stage: Booked, choice: str) -> bool:
    """Take one of the buttons under a reminder."""
    match choice:
        case "start":
            auditing.begin(turn)
        case "later":
            later = max(stage.booking.at, turn.at) + SNOOZE
            moved = replace(stage.booking, at=later, sequence=stage.booking.sequence + 1)
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
