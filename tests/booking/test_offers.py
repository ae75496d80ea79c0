"""Days and times that are offered, and what speaks against one."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.booking.plan import Objection, Quiet, days, mornings, objections
from tests.booking.changes import changes, shown

MADRID = ZoneInfo("Europe/Madrid")
NOW = datetime(2027, 2, 10, 9, 30, tzinfo=MADRID)
DAY = timedelta(days=1)


def madrid(text: str) -> datetime:
    """Return the instant of a local time."""
    return datetime.fromisoformat(text).replace(tzinfo=MADRID).astimezone(UTC)


@pytest.mark.parametrize(
    ("at", "objection"),
    [
        ("2027-02-10T09:30", Objection.IN_THE_PAST),
        ("2027-02-09T09:00", Objection.IN_THE_PAST),
        ("2027-02-10T09:31", None),
        ("2027-02-11T06:00", None),
        ("2027-02-11T05:59", Objection.IN_THE_NIGHT),
        ("2027-02-11T21:59", None),
        ("2027-02-11T22:00", Objection.IN_THE_NIGHT),
        ("2027-02-11T00:00", Objection.IN_THE_NIGHT),
        ("2027-02-13T08:00", Objection.ALREADY_BOOKED),
        ("2027-02-13T21:00", Objection.ALREADY_BOOKED),
        ("2027-02-14T08:00", None),
        ("2027-02-13T23:00", Objection.IN_THE_NIGHT),
        ("2027-04-11T10:29", None),
        ("2027-04-11T10:31", Objection.TOO_FAR),
        ("2028-02-10T03:00", Objection.TOO_FAR),
        ("2027-02-09T03:00", Objection.IN_THE_PAST),
    ],
)
def test_what_speaks_against_a_time(at: str, objection: Objection | None) -> None:
    """In the past, too far, in the night, or a day that is taken: each has its answer."""
    taken = [madrid("2027-02-13T09:00")]
    assert objections(madrid(at), NOW, "Europe/Madrid", Quiet(), taken) is objection


def test_taken_days_are_the_persons_days() -> None:
    """The day of a booked test is that of the person's zone, not of the booking's instant."""
    taken = [datetime(2027, 2, 13, 22, 0, tzinfo=UTC)]
    at = datetime(2027, 2, 14, 12, 0, tzinfo=UTC)
    assert objections(at, NOW, "Australia/Sydney", Quiet(), taken) is not None
    assert objections(at, NOW, "Europe/Lisbon", Quiet(), taken) is None


def test_night_follows_the_quiet_hours() -> None:
    """The night for tests moves with the clinic's quiet hours, and there is none without them."""
    early = Quiet(starts=time(20, 0), ends=time(6, 0))
    assert objections(madrid("2027-02-11T04:30"), NOW, "Europe/Madrid", early, ()) is None
    late = objections(madrid("2027-02-11T20:30"), NOW, "Europe/Madrid", early, ())
    assert late is Objection.IN_THE_NIGHT
    for short in (Quiet(starts=time(0), ends=time(0)), Quiet(starts=time(2), ends=time(4))):
        for hour in range(24):
            at = madrid(f"2027-02-11T{hour:02}:00")
            assert objections(at, NOW, "Europe/Madrid", short, ()) is None


@settings(deadline=None)
@given(st.sampled_from(sorted(changes())), st.integers(0, 60 * 24 * 60))
def test_night_is_seen_on_the_clock(zone: str, minutes: int) -> None:
    """In every zone, just the clock times from six to ten in the evening are allowed."""
    at = NOW + timedelta(minutes=minutes + 1)
    objection = objections(at, NOW, zone, Quiet(), ())
    allowed = time(6) <= shown(at, zone).time() < time(22)
    assert objection is (
        Objection.TOO_FAR if at - NOW > 60 * DAY else None if allowed else Objection.IN_THE_NIGHT
    )


def test_days_begin_today_while_it_has_a_time_left() -> None:
    """Seven days, the first of them today unless its last offered time is over."""
    assert days(NOW) == tuple(date(2027, 2, 10 + ahead) for ahead in range(7))
    evening = NOW.replace(hour=16, minute=0)
    assert days(evening)[0] == date(2027, 2, 11)
    assert len(days(evening)) == 7
    assert days(evening, 3) == (date(2027, 2, 11), date(2027, 2, 12), date(2027, 2, 13))


def test_times_come_morning_first_and_past_ones_not_at_all() -> None:
    """The offered times of a day; of today only those to come, of yesterday none."""
    every = mornings(date(2027, 2, 12))
    assert every == (time(8), time(9), time(10), time(11), time(14), time(16))
    assert mornings(date(2027, 2, 12), NOW) == every
    assert mornings(NOW.date(), NOW) == (time(10), time(11), time(14), time(16))
    assert mornings(NOW.date(), NOW.replace(hour=10, minute=0))[0] == time(11)
    assert mornings(date(2027, 2, 9), NOW) == ()


@settings(deadline=None)
@given(st.integers(0, 60 * 24 * 800))
def test_what_is_offered_is_never_objected_to(minutes: int) -> None:
    """No offered time is past, in the night or too far, whenever it is offered."""
    now = (NOW.astimezone(UTC) + timedelta(minutes=minutes)).astimezone(MADRID)
    for day in days(now):
        assert mornings(day, now)
        for clock in mornings(day, now):
            at = datetime.combine(day, clock, tzinfo=MADRID).astimezone(UTC)
            assert objections(at, now, "Europe/Madrid", Quiet(), ()) is None
