"""Spreads what many people are due at the same minute over the minutes after it. Pure.

Bookings are made for full hours, so that reminders and starts of many fall on one instant, and the
messenger takes about thirty messages a second. Who comes when is decided by the name of the
conversation, so that it is the same after a restart. Nothing of a test under way is ever moved,
nor what somebody asked to be told again "in 15 minutes".
"""

import hashlib
from datetime import datetime, timedelta
from typing import Final

from bot.booking.plan import due, plan
from bot.booking.quiet import quiet_span
from bot.engine.context import Context
from bot.engine.dialogues import watching
from bot.engine.state import Booked, Conversation, Finished, Idle

SPREAD: Final = timedelta(minutes=2)
"""How far a reminder may be moved (design choice: 3,000 messages leave in that time, and nobody
waits for a reminder to the minute)."""


def spread(context: Context, conversation: Conversation, wake_at: datetime) -> datetime:
    """Return when to wake a conversation: then, or a little later if it is for a reminder.

    Args:
        context: What the clinic has set.
        conversation: Whose reminder it is.
        wake_at: When the engine wants to be woken.
    """
    later = wake_at + share_of(conversation.id)
    nothing_else = conversation.recovery is None and conversation.aside is None
    return later if nothing_else and _can_wait(context, conversation, wake_at, later) else wake_at


def share_of(name: str) -> timedelta:
    """Return a part of the spread, evenly over all names."""
    digest = int.from_bytes(hashlib.sha256(name.encode()).digest()[:4])
    return SPREAD * (digest / 2**32)


def _can_wait(
    context: Context, conversation: Conversation, wake_at: datetime, later: datetime
) -> bool:
    context = context.under(conversation.pinned)
    match conversation.stage:
        case Booked(booking=booking, sent=sent) if not booking.put_off:
            reminders = plan(booking, context.reminders, context.quiet)
            reminder = due(reminders, sent, wake_at)
            return reminder is not None and due(reminders, sent, later) == reminder
        case Idle() | Finished() if watching.deadline(context, conversation.profile) == wake_at:
            zone = conversation.profile.zone or "UTC"
            return quiet_span(context.quiet, zone, later) is None
        case _:
            return False
