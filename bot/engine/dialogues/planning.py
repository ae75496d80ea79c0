"""Choosing day and time of a test: by buttons or in words, always said back before it counts."""

from dataclasses import replace
from datetime import date, datetime, time
from zoneinfo import ZoneInfo

from bot.booking.outcome import Unclear
from bot.booking.phrases import read_when
from bot.booking.plan import Booking, ReminderKind, carried, objections, plan
from bot.booking.zones import Instant, Skipped, settle
from bot.engine.dialogues.offers import now_there, offered_days, offered_times
from bot.engine.dialogues.orientation import CHANGE_ROWS, orient
from bot.engine.dialogues.questionnaire import NO, YES
from bot.engine.effects import ClockTime, Day, Moment, Part
from bot.engine.state import Booked, Idle, Planning
from bot.engine.turn import Turn, part


def begin(turn: Turn, *first: Part) -> None:
    """Ask for the day of a test; a booking that stands is moved."""
    match turn.stage:
        case Booked() as stage:
            turn.move(Planning(moving=stage.booking, sent=stage.sent, looked_at=stage.looked_at))
        case Planning() as stage:
            turn.move(replace(stage, day=None, at=None))
        case _:
            turn.move(Planning())
    orient(turn, *first)


def take_choice(turn: Turn, stage: Planning, choice: str) -> bool:
    """Take a day, a time, or the answer to whether both are right."""
    if stage.at is not None:
        if choice == YES:
            _book(turn, stage, stage.at)
            return True
        if choice == NO:
            turn.move(replace(stage, day=None, at=None))
            orient(turn)
            return True
        return False
    if not (choice.isascii() and choice.isdigit()):
        return False
    index = int(choice[:3])
    if stage.day is None:
        offered = offered_days(turn)
        if index >= len(offered):
            return False
        turn.move(replace(stage, day=offered[index]))
        orient(turn)
        return True
    times = offered_times(turn, stage.day)
    if index >= len(times):
        return False
    propose(turn, stage, stage.day, times[index])
    return True


def begin_with_words(turn: Turn, text: str) -> bool:
    """Take a day or a time that was typed before it was asked for. False if it says neither."""
    if isinstance(read_when(text, now_there(turn)), Unclear):
        return False
    match turn.stage:
        case Booked() as stage:
            turn.move(Planning(moving=stage.booking, sent=stage.sent, looked_at=stage.looked_at))
        case _:
            turn.move(Planning())
    assert isinstance(turn.stage, Planning)
    return take_words(turn, turn.stage, text)


def take_words(turn: Turn, stage: Planning, text: str) -> bool:
    """Take a day, a time, or both, as typed. Returns False when the words say neither."""
    outcome = read_when(text, now_there(turn))
    if isinstance(outcome, Unclear):
        key = f"when.{outcome.reason}"
        if outcome.reason == "nothing":
            return False
        orient(turn, part(key))
        return True
    day, clock = outcome.day or stage.day, outcome.time
    if clock is None:
        turn.move(replace(stage, day=day, at=None))
        orient(turn)
    elif day is None:
        orient(turn, part("when.which-day"))
    else:
        propose(turn, stage, day, clock)
    return True


def propose(turn: Turn, stage: Planning, day: date, clock: time) -> None:
    """Say day and time back to be confirmed, or why they will not do."""
    zone = turn.zone
    settled = settle(datetime.combine(day, clock), zone)
    back = replace(stage, day=None, at=None)
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
    turn.move(replace(stage, day=day, at=settled.at))
    orient(turn)


def _book(turn: Turn, stage: Planning, at: datetime) -> None:
    """The time is right: book it, unless it has passed while it was being confirmed."""
    if at <= turn.at:
        turn.move(replace(stage, day=None, at=None))
        orient(turn, part("objection.in-the-past"))
        return
    profile = turn.conversation.profile
    zone = turn.zone
    if stage.moving is not None:
        booking = replace(
            stage.moving,
            at=at,
            zone=zone,
            booked_at=turn.at,
            sequence=stage.moving.sequence + 1,
            put_off=False,
        )
    else:
        turn.know(bookings=profile.bookings + 1)
        booking = Booking(number=profile.bookings + 1, at=at, zone=zone, booked_at=turn.at)
    reminders = plan(booking, turn.context.reminders, turn.context.quiet)
    put_down(turn, booking, carried(reminders, stage.sent))


def put_down(turn: Turn, booking: Booking, sent: frozenset[ReminderKind]) -> None:
    """Let a booking stand: say so, and send the calendar file."""
    turn.move(Booked(booking=booking, sent=sent))
    moment = Moment(booking.at, booking.zone)
    turn.say(part("booked", moment=moment), *paused_note(turn), rows=CHANGE_ROWS)
    turn.hand_calendar(booking)


def paused_note(turn: Turn) -> tuple[Part, ...]:
    """Return the words that reminders are on, or that they are paused."""
    return (part("paused.still" if turn.conversation.profile.paused else "booked.reminding"),)


def leave(turn: Turn, stage: Planning) -> None:
    """Leave planning; a booking that was being moved still stands."""
    if stage.moving is None:
        turn.move(Idle())
    else:
        turn.move(Booked(booking=stage.moving, sent=stage.sent))
    orient(turn, part("left"))


def cancel(turn: Turn, booking: Booking) -> None:
    """Call a booking off. No reminder of it will come any more."""
    turn.move(Idle())
    turn.say(part("cancelled", moment=Moment(booking.at, booking.zone)))
    turn.hand_calendar(replace(booking, sequence=booking.sequence + 1), cancelled=True)


def travel(turn: Turn, zone: str) -> None:
    """The person's clock has changed: a booking keeps its time of day on the new clock."""
    stage = turn.take_resume()
    turn.move(stage)
    match stage:
        case Booked(booking=booking) | Planning(moving=Booking() as booking):
            _carry(turn, stage, booking, zone)
        case _:
            orient(turn)


def _carry(turn: Turn, stage: Booked | Planning, booking: Booking, zone: str) -> None:
    local = booking.at.astimezone(ZoneInfo(booking.zone)).replace(tzinfo=None)
    settled = settle(local, zone)
    if not isinstance(settled, Instant) or settled.at <= turn.at:
        begin(turn, part("travel.choose-anew"))
        return
    carried_over = replace(booking, at=settled.at, zone=zone, sequence=booking.sequence + 1)
    kept = part("travel.kept", moment=Moment(carried_over.at, zone))
    match stage:
        case Booked(sent=sent):
            turn.move(Booked(booking=carried_over, sent=sent))
            turn.say(kept)
        case Planning():
            turn.move(replace(stage, moving=carried_over, day=None, at=None))
            orient(turn, kept)
    turn.hand_calendar(carried_over)
