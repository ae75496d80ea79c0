"""The calendar entry: read back by a parser of its own, and held against RFC 5545 and 5546."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Final

import pytest
from icalendar import Calendar, Component

from bot.booking.plan import Booking
from bot.reports import File
from bot.reports.calendar import LENGTH, calendar_file

BOOKING: Final = Booking(
    number=1,
    at=datetime(2026, 3, 7, 14, 30, tzinfo=UTC),
    zone="Europe/Madrid",
    booked_at=datetime(2026, 3, 2, 9, 0, 12, tzinfo=UTC),
)
MOVED: Final = replace(
    BOOKING,
    at=datetime(2026, 3, 8, 13, 0, tzinfo=UTC),
    booked_at=datetime(2026, 3, 5, 18, 0, tzinfo=UTC),
    sequence=1,
)
OFF: Final = replace(MOVED, sequence=2)
OWNER: Final = "c-5f0d"


def made(booking: Booking = BOOKING, *, cancelled: bool = False, owner: str = OWNER) -> File:
    """Return the file in English."""
    return calendar_file(booking, "en", cancelled=cancelled, owner=owner)


def read(file: File) -> tuple[Component, Component]:
    """Return the calendar and its only event, parsed."""
    calendar = Calendar.from_ical(file.content)
    (event,) = calendar.walk("VEVENT")
    return calendar, event


def triggers(booking: Booking) -> list[timedelta]:
    """Return when the alarms go off, from the start."""
    _, event = read(made(booking))
    return [alarm.decoded("TRIGGER") for alarm in event.walk("VALARM")]


def test_required_properties_are_there_once() -> None:
    """PRODID and VERSION (3.6), METHOD (3.7.2); UID, DTSTAMP, DTSTART (3.6.1): each just once."""
    unfolded = made().content.replace(b"\r\n ", b"").decode().split("\r\n")
    names = [line.split(":")[0].split(";")[0] for line in unfolded]
    for name in ("PRODID", "VERSION", "CALSCALE", "METHOD", "UID", "DTSTAMP", "DTSTART", "DTEND",
                 "SEQUENCE", "STATUS", "SUMMARY", "CLASS"):  # fmt: skip
        assert names.count(name) == 1, name
    calendar, event = read(made())
    assert calendar["VERSION"] == "2.0"
    assert "Wallside" in str(calendar["PRODID"])
    assert event["STATUS"] == "CONFIRMED"
    assert event["CLASS"] == "PRIVATE"
    assert not event.errors


def test_a_booking_is_published_and_nobody_is_invited() -> None:
    """PUBLISH without attendees (RFC 5546, 3.2.1); no organizer where none takes part (3.8.4.3)."""
    calendar, event = read(made())
    assert calendar["METHOD"] == "PUBLISH"
    assert "ATTENDEE" not in event
    assert "ORGANIZER" not in event
    assert made().media_type == "text/calendar; charset=utf-8; method=PUBLISH"


def test_times_are_in_utc() -> None:
    """Start, end and stamp are in the form with Z (3.3.5 form 2, 3.8.7.2), 45 minutes apart."""
    content = made().content.decode()
    assert "\r\nDTSTART:20260307T143000Z\r\n" in content
    assert "\r\nDTEND:20260307T151500Z\r\n" in content
    assert "\r\nDTSTAMP:20260302T090012Z\r\n" in content
    _, event = read(made())
    assert event.decoded("DTEND") - event.decoded("DTSTART") == LENGTH == timedelta(minutes=45)


def test_a_move_is_the_same_entry_with_a_higher_sequence() -> None:
    """The UID stays (3.8.4.7), the SEQUENCE goes up (3.8.7.4), the start is the new one."""
    (_, before), (_, after) = read(made()), read(made(MOVED))
    assert before["UID"] == after["UID"]
    assert (before["SEQUENCE"], after["SEQUENCE"]) == (0, 1)
    assert after.decoded("DTSTART") == MOVED.at


def test_a_cancelled_one_is_taken_off_and_rings_no_more() -> None:
    """CANCEL with the same UID, a higher SEQUENCE, STATUS:CANCELLED (RFC 5546, 3.2.5), no alarm."""
    (_, before), (calendar, after) = read(made(MOVED)), read(made(OFF, cancelled=True))
    assert calendar["METHOD"] == "CANCEL"
    assert after["UID"] == before["UID"]
    assert (before["SEQUENCE"], after["SEQUENCE"]) == (1, 2)
    assert after["STATUS"] == "CANCELLED"
    assert str(after["SUMMARY"]).startswith("Cancelled")
    assert after.walk("VALARM") == []


def test_each_booking_and_each_person_has_an_entry_of_its_own() -> None:
    """Another booking or another owner makes another UID, which tells neither."""
    others = [made(), made(replace(BOOKING, number=2)), made(owner="c-5f0e")]
    uids = {str(read(file)[1]["UID"]) for file in others}
    assert len(uids) == 3
    assert all(OWNER not in uid for uid in uids)
    assert OWNER.encode() not in made().content


def test_alarms_ring_a_day_four_hours_and_a_quarter_before() -> None:
    """Three alarms that show words (3.6.6: ACTION, TRIGGER, DESCRIPTION), before the start."""
    assert triggers(BOOKING) == [timedelta(hours=-24), timedelta(hours=-4), timedelta(minutes=-15)]
    _, event = read(made())
    for alarm in event.walk("VALARM"):
        assert alarm["ACTION"] == "DISPLAY"
        assert alarm["DESCRIPTION"]
        assert alarm.get("TRIGGER").params.get("RELATED", "START") == "START"


def test_no_alarm_rings_at_night() -> None:
    """Of a test at 9 in the morning, the alarm of 5 in the morning comes the evening before."""
    early = replace(BOOKING, at=datetime(2026, 3, 7, 8, 0, tzinfo=UTC))
    evening = datetime(2026, 3, 6, 20, 29, tzinfo=UTC)  # 21:29 in Madrid
    assert triggers(early) == [timedelta(hours=-24), evening - early.at, timedelta(minutes=-15)]


def test_the_day_before_is_the_same_time_of_day() -> None:
    """Over a night in which the clocks go forward, the alarm comes 23 hours before."""
    sunday = replace(BOOKING, at=datetime(2026, 3, 29, 12, 0, tzinfo=UTC))
    assert triggers(sunday)[0] == timedelta(hours=-23)


def test_no_alarm_lies_before_the_booking() -> None:
    """Booked two hours ahead, only the alarm that can still ring is there."""
    soon = replace(BOOKING, booked_at=BOOKING.at - timedelta(hours=2))
    assert triggers(soon) == [timedelta(minutes=-15)]


def test_it_says_what_to_do_and_not_what_for() -> None:
    """The title is neutral; the preparation is there; no illness and no symptom is named."""
    _, event = read(made())
    assert event["SUMMARY"] == "Lie, sit and stand test"
    description = str(event["DESCRIPTION"])
    for words in ("no extra water, no extra salt", "no caffeine, no nicotine", "garments",
                  "as prescribed", "someone near"):  # fmt: skip
        assert words in description
    content = made().content.decode().lower()
    for word in ("covid", "faint", "dizzy", "symptom", "ill ", "patient", "heart", "blood"):
        assert word not in content


@pytest.mark.parametrize("cancelled", [False, True])
@pytest.mark.parametrize("locale", ["en", "es"])
def test_lines_are_folded_and_end_as_they_must(locale: str, cancelled: bool) -> None:
    """Lines end in CRLF and have at most 75 octets (3.1), and the text comes back unbroken."""
    content = calendar_file(BOOKING, locale, cancelled=cancelled, owner=OWNER).content
    assert content.endswith(b"END:VCALENDAR\r\n")
    assert content.count(b"\n") == content.count(b"\r\n") == content.count(b"\r")
    lines = content.split(b"\r\n")
    assert max(map(len, lines)) <= 75
    assert cancelled or any(line.startswith(b" ") for line in lines)
    assert content.decode()


def test_same_booking_same_bytes() -> None:
    """The same booking makes the same file, and names it by the booking alone."""
    assert made() == made()
    assert made().name == "wallside-booking-1.ics"
    assert made(OFF, cancelled=True).name == "wallside-booking-1-cancelled.ics"
