"""Reminders of a booked test. What is due is worked out from the booking, so none is ever stale."""

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final

from bot.booking.plan import (
    Booking,
    Reminder,
    ReminderKind,
    due,
    next_at,
    objections,
    plan,
)
from bot.booking.quiet import quiet_span
from bot.engine.asides import Asking, Question
from bot.engine.buttons import BOOK, part
from bot.engine.context import Context
from bot.engine.dialogues import auditing, between, planning, standing
from bot.engine.dialogues.daybook import stopped_today
from bot.engine.dialogues.medicines import words_for
from bot.engine.dialogues.orientation import CHANGE_ROWS, SOON_ROWS, orient
from bot.engine.effects import Moment, Part, Urgency
from bot.engine.hearing import normalised
from bot.engine.options import OPTIONS
from bot.engine.profile import Profile
from bot.engine.state import Booked, Finished, Idle, Planning
from bot.engine.turn import Turn
from bot.engine.vocabulary import Word

SNOOZE: Final = timedelta(minutes=15)
CHOICES: Final = ("start", "later", "move", "cancel")
"""What can be done with a booking."""

_NEAR: Final = (ReminderKind.SOON, ReminderKind.FOLLOW_UP)
_BEFORE: Final = (ReminderKind.HOURS_BEFORE, *_NEAR)


def deadline(context: Context, profile: Profile, stage: Booked) -> datetime | None:
    """Return when the next reminder is due, or, after the last, when the booking is over.

    `None` while reminders are paused.
    """
    if profile.paused:
        return None
    reminders = plan(stage.booking, context.reminders, context.quiet)
    following = next_at(reminders, stage.sent, stage.looked_at)
    return _over_at(context, stage.booking, reminders) if following is None else following


def _over_at(context: Context, booking: Booking, reminders: tuple[Reminder, ...]) -> datetime:
    """Return when the last reminder is of no use any more; never in the quiet hours."""
    spans = reminders[-1].spans
    ends = spans[-1][1] if spans else reminders[-1].at
    span = quiet_span(context.quiet, booking.zone, ends)
    return ends if span is None else span[1]


def _look(turn: Turn, stage: Booked | Planning, booking: Booking) -> Reminder | None:
    """Return the reminder that is due, which is noted as sent."""
    reminders = plan(booking, turn.context.reminders, turn.context.quiet)
    reminder = due(reminders, stage.sent, turn.at)
    sent = stage.sent if reminder is None else stage.sent | {reminder.kind}
    looked: Booked | Planning
    match stage:
        case Booked():
            looked = replace(stage, sent=sent, looked_at=turn.at)
        case Planning():
            looked = replace(stage, sent=sent, looked_at=turn.at)
    if turn.conversation.resumes is stage:
        turn.hold(looked)
    else:
        turn.stay(looked)
    return reminder


def _is_over(turn: Turn, stage: Booked | Planning, booking: Booking) -> bool:
    reminders = plan(booking, turn.context.reminders, turn.context.quiet)
    return turn.at >= _over_at(turn.context, booking, reminders) and (
        next_at(reminders, stage.sent, turn.at) is None
    )


def speaks(turn: Turn, stage: Booked | Planning, booking: Booking) -> bool:
    """Whether a reminder is due, or the end of the booking is to be said."""
    reminders = plan(booking, turn.context.reminders, turn.context.quiet)
    return due(reminders, stage.sent, turn.at) is not None or _is_over(turn, stage, booking)


def pass_time(turn: Turn, stage: Booked | Planning, booking: Booking) -> None:
    """Send the reminder that is due. One that has been overtaken by the next is not sent.

    While the booking is being moved, what was chosen so far stays, and is asked again after it.
    After the last one the booking is over; a question that it put off is put again then.
    """
    over = _is_over(turn, stage, booking)
    reminder = _look(turn, stage, booking)
    if reminder is None and not over:
        return
    moment = Moment(booking.at, booking.zone)
    if reminder is None or reminder.kind is ReminderKind.OFFER:
        if isinstance(stage, Planning):
            turn.stay(replace(stage, moving=None, sent=frozenset(), looked_at=None))
            orient(turn, part("booking.missed", moment=moment), urgency=Urgency.REMINDER)
        else:
            _close(turn, moment)
        return
    parts = _words(turn, reminder, moment)
    if isinstance(stage, Planning):
        orient(turn, *parts, urgency=Urgency.REMINDER)
        return
    rows = SOON_ROWS if reminder.kind in _NEAR else CHANGE_ROWS
    turn.say(*parts, rows=rows, urgency=Urgency.REMINDER)


def _close(turn: Turn, moment: Moment) -> None:
    turn.move(Idle())
    turn.say(
        part("reminder.offer", moment=moment),
        rows=((BOOK,),),
        urgency=Urgency.REMINDER,
    )
    between.ask_owed(turn)


def pass_time_behind(turn: Turn) -> None:
    """Send the reminder of a booking behind a question that is open, and put that again."""
    stage = turn.conversation.resumes
    booking = standing.booking_of(stage)
    assert isinstance(stage, Booked | Planning)
    assert booking is not None
    over = _is_over(turn, stage, booking)
    reminder = _look(turn, stage, booking)
    moment = Moment(booking.at, booking.zone)
    if (reminder is None and over) or (
        reminder is not None and reminder.kind is ReminderKind.OFFER
    ):
        turn.hold(Idle())
        orient(turn, part("booking.missed", moment=moment), urgency=Urgency.REMINDER)
    elif reminder is not None:
        orient(turn, *_words(turn, reminder, moment), urgency=Urgency.REMINDER)


def _words(turn: Turn, reminder: Reminder, moment: Moment) -> tuple[Part, ...]:
    said = part(f"reminder.{reminder.kind}", moment=moment)
    if reminder.kind is ReminderKind.DAY_BEFORE:
        conversation = turn.conversation
        return (said, words_for(turn.context, conversation.profile, conversation.locale))
    if reminder.kind in _BEFORE and stopped_today(turn):
        return (part("repeat.rest-first"), said)
    return (said,)


# -- answers


def named(text: str) -> str | None:
    """Return the button under a reminder that was typed, if it is just that."""
    plain = normalised(text)
    return next((choice for choice in CHOICES if plain in OPTIONS[f"booked.{choice}"]), None)


def take_words(turn: Turn, stage: Booked, text: str, heard: Word | None) -> bool:
    """Take what a button under a reminder would do, as typed, or another day or time.

    "Later" means a quarter of an hour only when the test is near.
    """
    near = turn.at >= stage.booking.at - turn.context.reminders.soon
    match named(text):
        case "later" if not near:
            planning.begin(turn)
            return True
        case str(choice):
            return take_choice(turn, stage, choice)
        case None:
            pass
    match heard:
        case Word.YES | Word.READY if near:
            auditing.begin(turn)
        case Word.NO | Word.YES | Word.FINE:
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
            _put_off(turn, stage)
        case "move":
            planning.begin(turn)
        case "cancel":
            standing.cancel(turn, stage.booking)
        case _:
            return False
    return True


def _put_off(turn: Turn, stage: Booked) -> None:
    """Put the test off for a moment; into the night it is not, as it is not booked there."""
    later = max(stage.booking.at, turn.at) + SNOOZE
    objection = objections(later, turn.at, turn.zone, turn.context.quiet, ())
    if objection is not None:
        planning.begin(turn, part(f"objection.{objection}"))
        return
    moved = replace(
        stage.booking,
        at=later,
        sequence=stage.booking.sequence + 1,
        put_off=stage.booking.at <= turn.at,
    )
    sent = frozenset({ReminderKind.DAY_BEFORE, ReminderKind.HOURS_BEFORE})
    turn.move(Booked(booking=moved, sent=sent))
    turn.say(part("reminder.later", moment=Moment(later, stage.booking.zone)), rows=CHANGE_ROWS)
    turn.hand_calendar(moved)


def pause(turn: Turn, *, paused: bool) -> None:
    """Pause or resume all reminders and daily questions.

    Once paused, the daily question itself is not put again. A booking that ended meanwhile is
    closed in words.
    """
    turn.know(paused=paused)
    match turn.aside:
        case Asking(question=Question.DAY_SCORE) if paused:
            turn.drop()
        case _:
            pass
    if paused and turn.aside is None and isinstance(turn.stage, Idle | Finished):
        turn.say(part("paused"))
        return
    match turn.stage:
        case Booked(booking=booking) as stage if not paused and _is_over(turn, stage, booking):
            turn.say(part("resumed"))
            _close(turn, Moment(booking.at, booking.zone))
        case _:
            orient(turn, part("paused" if paused else "resumed"))
