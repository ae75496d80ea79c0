"""Choosing day and time of a test: by buttons or in words, always said back before it counts."""

import re
from dataclasses import replace
from datetime import date, datetime, time
from typing import Final

from bot.booking.outcome import Unclear, When
from bot.booking.phrases import read_when
from bot.booking.plan import Booking, ReminderKind, carried, objections, plan
from bot.booking.zones import Instant, Skipped, settle
from bot.engine.buttons import Rows, part
from bot.engine.dialogues.offers import now_there
from bot.engine.dialogues.orientation import CHANGE_ROWS, orient
from bot.engine.dialogues.questionnaire import NO, YES
from bot.engine.effects import ClockTime, Day, Moment, Part
from bot.engine.state import Booked, Idle, Planning
from bot.engine.turn import Turn

_DAY_TOKEN: Final = re.compile(r"\d{4}-\d\d-\d\d", re.ASCII)
_TIME_TOKEN: Final = re.compile(r"([01]\d|2[0-3])([0-5]\d)", re.ASCII)


def begin(turn: Turn, *first: Part, more: Rows = ()) -> None:
    """Ask for the day of a test; a booking that stands is moved.

    Args:
        turn: The step.
        first: Words to say before.
        more: Buttons besides those of the question.
    """
    _enter(turn)
    orient(turn, *first, more=more)


def _enter(turn: Turn) -> Planning:
    """Go to choosing a day; a booking that stands is moved."""
    match turn.stage:
        case Booked() as stage:
            planning = Planning(moving=stage.booking, sent=stage.sent, looked_at=stage.looked_at)
        case Planning() as stage:
            planning = _anew(stage)
        case _:
            planning = Planning()
    turn.move(planning)
    return planning


def _anew(stage: Planning) -> Planning:
    return replace(stage, day=None, clock=None, at=None)


def take_choice(turn: Turn, stage: Planning, choice: str) -> bool:
    """Take a day, a time, or the answer to whether both are right."""
    if stage.at is not None:
        if choice == YES:
            _book(turn, stage, stage.at)
            return True
        if choice == NO:
            turn.move(_anew(stage))
            orient(turn)
            return True
        return False
    if stage.day is None:
        day = _day_of(choice)
        if day is None:
            return False
        _take_day(turn, stage, day)
        return True
    clock = _TIME_TOKEN.fullmatch(choice)
    if clock is None:
        return False
    propose(turn, stage, stage.day, time(int(clock[1]), int(clock[2])))
    return True


def _day_of(choice: str) -> date | None:
    if _DAY_TOKEN.fullmatch(choice) is None:
        return None
    try:
        return date.fromisoformat(choice)
    except ValueError:
        return None


def _take_day(turn: Turn, stage: Planning, day: date) -> None:
    """Take a day; a time that was said before it is taken with it."""
    if day < turn.today:
        turn.move(replace(stage, day=None, at=None))
        orient(turn, part("objection.in-the-past"))
    elif stage.clock is not None:
        propose(turn, stage, day, stage.clock)
    else:
        turn.move(replace(stage, day=day, at=None))
        orient(turn)


def says_when(turn: Turn, text: str) -> bool:
    """Whether the text says a day or a time, if perhaps not yet which."""
    return _told(read_when(text, now_there(turn)))


def says_day(turn: Turn, text: str) -> bool:
    """Whether the text says a day, so that it cannot be the answer to anything else."""
    outcome = read_when(text, now_there(turn))
    return isinstance(outcome, When) and outcome.day is not None


def _told(outcome: When | Unclear) -> bool:
    return isinstance(outcome, When) or bool(outcome.options)


def begin_with_words(turn: Turn, text: str, *, today: bool = False) -> bool:
    """Take a day or a time that was typed before it was asked for. False if it says neither.

    Args:
        turn: The step.
        text: What was typed.
        today: Whether a time alone is meant for this day.
    """
    if not says_when(turn, text):
        return False
    stage = _enter(turn)
    if today:
        stage = replace(stage, day=turn.today)
    return take_words(turn, stage, text)


def take_words(turn: Turn, stage: Planning, text: str) -> bool:
    """Take a day, a time, or both, as typed. Returns False when the words say neither.

    What is clear of an unclear answer is kept: the day, while the half of the day is asked.
    """
    outcome = read_when(text, now_there(turn))
    if isinstance(outcome, Unclear):
        if outcome.reason == "nothing":
            return False
        days = {option.day for option in outcome.options}
        day = days.pop() if len(days) == 1 else None
        turn.move(replace(stage, day=day or stage.day, at=None))
        orient(turn, part(f"when.{outcome.reason}"))
        return True
    day, clock = outcome.day or stage.day, outcome.time or stage.clock
    if clock is None:
        turn.move(replace(stage, day=day, at=None))
        orient(turn)
    elif day is None:
        turn.move(replace(stage, clock=clock, at=None))
        orient(turn, part("when.which-day"))
    elif outcome.time is None:
        _take_day(turn, stage, day)
    else:
        propose(turn, stage, day, clock)
    return True


def propose(turn: Turn, stage: Planning, day: date, clock: time) -> None:
    """Say day and time back to be confirmed, or why they will not do."""
    zone = turn.zone
    settled = settle(datetime.combine(day, clock), zone)
    back = _anew(stage)
    if not isinstance(settled, Instant):
        turn.move(back)
        key = "when.skipped" if isinstance(settled, Skipped) else "when.doubled"
        orient(turn, part(key, day=Day(day), time=ClockTime(clock)))
        return
    if stage.moving is not None and settled.at == stage.moving.at:
        turn.move(back)
        orient(turn, part("objection.already-booked"))
        return
    objection = objections(settled.at, turn.at, zone, turn.context.quiet, ())
    if objection is not None:
        turn.move(back)
        orient(turn, part(f"objection.{objection}"))
        return
    turn.move(replace(stage, day=day, clock=None, at=settled.at))
    orient(turn)


def _book(turn: Turn, stage: Planning, at: datetime) -> None:
    """The time is right: book it, unless it has passed while it was being confirmed."""
    if at <= turn.at:
        turn.move(_anew(stage))
        orient(turn, part("objection.in-the-past"))
        return
    booking = book(turn, stage.moving, at)
    reminders = plan(booking, turn.context.reminders, turn.context.quiet)
    put_down(turn, booking, carried(reminders, stage.sent))


def book(turn: Turn, moving: Booking | None, at: datetime) -> Booking:
    """Return a booking at that time: a new one, or the one that stands, moved."""
    if moving is not None:
        return replace(
            moving,
            at=at,
            zone=turn.zone,
            booked_at=turn.at,
            sequence=moving.sequence + 1,
            put_off=False,
        )
    number = turn.conversation.profile.bookings + 1
    turn.know(bookings=number)
    return Booking(number=number, at=at, zone=turn.zone, booked_at=turn.at)


def put_down(turn: Turn, booking: Booking, sent: frozenset[ReminderKind], *first: Part) -> None:
    """Let a booking stand: say so, and send the calendar file."""
    turn.know(repeat_offered_at=None, done_at=None)
    turn.move(Booked(booking=booking, sent=sent))
    moment = Moment(booking.at, booking.zone)
    turn.say(*first, part("booked", moment=moment), *paused_note(turn), rows=CHANGE_ROWS)
    turn.hand_calendar(booking)


def paused_note(turn: Turn) -> tuple[Part, ...]:
    """Return the words that reminders are on, or that they are paused."""
    return (part("paused.still" if turn.conversation.profile.paused else "booked.reminding"),)


def leave(turn: Turn, stage: Planning) -> None:
    """Leave planning; a booking that was being moved still stands."""
    if stage.moving is None:
        turn.move(Idle())
    else:
        turn.move(Booked(booking=stage.moving, sent=stage.sent, looked_at=stage.looked_at))
    orient(turn, part("left"))
