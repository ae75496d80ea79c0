"""A booked test as a calendar entry (RFC 5545) that a phone takes up, moves and takes off.

METHOD is PUBLISH for a booking and for a move, CANCEL for its end. REQUEST is a meeting request
(RFC 5546, 3.2.2): it asks for an organizer and attendees with mail addresses, and a phone then
asks whether to accept and tries to answer by mail. A published entry simply becomes the person's
own. For the same reason there is no ORGANIZER: RFC 5545, 3.8.4.3 forbids it where nobody else
takes part, though RFC 5546 wants one for these methods; with one, phones take the entry for
somebody else's. A calendar knows the entry by its UID and takes the higher SEQUENCE. One that
does not carry out CANCEL on import still shows the new title, and no alarm goes off.
"""

from datetime import UTC, timedelta
from typing import Final
from uuid import UUID, uuid5

from icalendar import Alarm, Calendar, Event

from bot.booking.plan import Booking, Quiet, ReminderKind, ReminderTimes, plan
from bot.reports.file import File
from bot.texts import render

LENGTH: Final = timedelta(minutes=45)
"""About 25 minutes of test, and time to get ready and to rest after it. Design choice."""

_NAMES: Final = UUID("6f1d2c0e-52a7-4b8e-9a53-0c6a7e1f4d28")
"""The namespace of entries' names; it never changes, or moves would not be recognised."""

_ALARMS: Final = (ReminderKind.DAY_BEFORE, ReminderKind.HOURS_BEFORE, ReminderKind.SOON)


def calendar_file(booking: Booking, locale: str, *, cancelled: bool, owner: str) -> File:
    """Return the calendar entry of a booking; the same booking gives the same bytes.

    Args:
        booking: As it now stands; after a move or at its end with a higher `sequence`.
        locale: A shipped language.
        cancelled: Whether it is off.
        owner: The conversation's id; it goes into the entry's name and cannot be read from it.
    """
    method = "CANCEL" if cancelled else "PUBLISH"
    calendar = Calendar()
    calendar.add("prodid", "-//Wallside//Bookings//EN")
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("method", method)
    calendar.add_component(_event(booking, locale, cancelled=cancelled, owner=owner))
    ending = "-cancelled" if cancelled else ""
    return File(
        name=f"wallside-booking-{booking.number}{ending}.ics",
        media_type=f"text/calendar; charset=utf-8; method={method}",
        content=calendar.to_ical(),
    )


def _event(booking: Booking, locale: str, *, cancelled: bool, owner: str) -> Event:
    event = Event()
    event.add("uid", str(uuid5(_NAMES, f"{owner}/{booking.number}")))
    event.add("sequence", booking.sequence)
    event.add("dtstamp", booking.booked_at.astimezone(UTC))
    event.add("dtstart", booking.at.astimezone(UTC))
    event.add("dtend", (booking.at + LENGTH).astimezone(UTC))
    event.add("status", "CANCELLED" if cancelled else "CONFIRMED")
    event.add("class", "PRIVATE")
    event.add("summary", render(f"calendar.{'cancelled' if cancelled else 'summary'}", {}, locale))
    words = "calendar.off" if cancelled else "calendar.preparation"
    event.add("description", render(words, {}, locale))
    if not cancelled:
        for alarm in _alarms(booking, locale):
            event.add_component(alarm)
    return event


def _alarms(booking: Booking, locale: str) -> list[Alarm]:
    """Return alarms for when the chat reminds too: 24 h, 4 h and 15 min before.

    As in the chat, one that would ring in the quiet hours comes before they begin (a test in the
    morning would else ring at night), and one whose time was past at the booking is left out.
    """
    alarms: list[Alarm] = []
    for reminder in plan(booking, ReminderTimes(), Quiet()):
        if reminder.kind in _ALARMS and not reminder.at_once:
            alarm = Alarm()
            alarm.add("action", "DISPLAY")
            alarm.add("trigger", reminder.at - booking.at)
            alarm.add("description", render(f"calendar.alarm.{reminder.kind}", {}, locale))
            alarms.append(alarm)
    return alarms
