"""A booking that stands: called off, carried to another clock, or used up by a test."""

from dataclasses import replace
from datetime import datetime
from zoneinfo import ZoneInfo

from bot.booking.plan import Booking, ReminderKind, plan
from bot.booking.zones import Instant, settle
from bot.engine.buttons import part
from bot.engine.dialogues import planning
from bot.engine.dialogues.orientation import CHANGE_ROWS, orient
from bot.engine.effects import Moment
from bot.engine.state import Booked, Finished, Held, Idle, Planning, Stage
from bot.engine.turn import Turn


def booking_of(stage: Stage | None) -> Booking | None:
    """Return the booking that stands, also while it is being moved."""
    match stage:
        case Booked(booking=booking) | Planning(moving=Booking() as booking):
            return booking
        case _:
            return None


def cancel(turn: Turn, booking: Booking) -> None:
    """Call a booking off. No reminder of it will come any more."""
    turn.move(Idle())
    turn.say(part("cancelled", moment=Moment(booking.at, booking.zone)))
    take_out(turn, booking)


def take_out(turn: Turn, booking: Booking) -> None:
    """Send what takes a booking out of the person's calendar."""
    turn.hand_calendar(replace(booking, sequence=booking.sequence + 1), cancelled=True)


def settle_after_test(turn: Turn) -> None:
    """A test has ended that a booking was put aside for.

    With something measured the booking is used up, and that is said if its time is still to come;
    with nothing measured it stands. Words of safety are left alone: then it is said later.
    """
    booking = booking_of(turn.conversation.resumes)
    match turn.stage:
        case _ if booking is None:
            return
        case Finished(record=record) if not record.readings:
            turn.move(turn.take_resume())
            if not turn.urgent:
                orient(turn)
        case Finished() | Idle() | Held() | Planning() | Booked() if not turn.urgent:
            turn.clear_resume()
            if booking.at > turn.at:
                turn.say(part("booking.used", moment=Moment(booking.at, booking.zone)))
                take_out(turn, booking)
        case _:
            return


# -- travel


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
    if not isinstance(settled, Instant):
        planning.begin(turn, part("travel.no-such-time"))
        return
    if settled.at <= turn.at:
        planning.begin(turn, part("travel.choose-anew"))
        return
    carried_over = replace(booking, at=settled.at, zone=zone, sequence=booking.sequence + 1)
    kept = part("travel.kept", moment=Moment(carried_over.at, zone))
    sent = _still_sent(turn, stage.sent, carried_over, turn.at)
    match stage:
        case Booked():
            turn.move(Booked(booking=carried_over, sent=sent, looked_at=stage.looked_at))
            turn.say(kept, rows=CHANGE_ROWS)
        case Planning():
            turn.move(replace(stage, moving=carried_over, sent=sent, day=None, at=None))
            orient(turn, kept)
    turn.hand_calendar(carried_over)


def _still_sent(
    turn: Turn, sent: frozenset[ReminderKind], booking: Booking, now: datetime
) -> frozenset[ReminderKind]:
    """Return the reminders that need not come again; one whose time is again ahead does."""
    reminders = plan(booking, turn.context.reminders, turn.context.quiet)
    ahead = {r.kind for r in reminders if r.at > now and not r.at_once}
    return sent - (ahead - {ReminderKind.DAY_BEFORE})
