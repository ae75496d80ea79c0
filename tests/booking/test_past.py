"""Days and hours that are past: as people say them, in two languages."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.booking.outcome import Reason, Unclear, When
from bot.booking.past import read_past
from bot.booking.phrases import read_when

NOW = datetime(2026, 3, 4, 14, 0, tzinfo=ZoneInfo("Europe/Madrid"))  # a Wednesday


@pytest.mark.parametrize(
    ("text", "day", "clock"),
    [
        ("yesterday at 9", date(2026, 3, 3), time(9)),
        ("ayer a las 9 de la mañana", date(2026, 3, 3), time(9)),
        ("today 9:00", date(2026, 3, 4), time(9)),
        ("hoy a las 9", date(2026, 3, 4), time(9)),
        ("this morning at 8", date(2026, 3, 4), time(8)),
        ("last night at 10", date(2026, 3, 3), time(22)),
        ("anoche a las 10", date(2026, 3, 3), time(22)),
        ("Sunday 8:30", date(2026, 3, 1), time(8, 30)),
        ("last Sunday at half past eight in the morning", date(2026, 3, 1), time(8, 30)),
        ("el domingo pasado a las 8", date(2026, 3, 1), time(8)),
        ("Thursday 9:30", date(2026, 2, 26), time(9, 30)),
        ("Sunday the 22nd, 9:00", date(2026, 2, 22), time(9)),
        ("the 28th at 9:00", date(2026, 2, 28), time(9)),
        ("el 2 a las 9", date(2026, 3, 2), time(9)),
        ("2 days ago at 10", date(2026, 3, 2), time(10)),
        ("two weeks ago", date(2026, 2, 18), None),
        ("hace dos días a las 10", date(2026, 3, 2), time(10)),
        ("antier 9:00", date(2026, 3, 2), time(9)),
        ("27 February 9 am", date(2026, 2, 27), time(9)),
        ("el 27 de febrero", date(2026, 2, 27), None),
        ("2026-03-01 08:30", date(2026, 3, 1), time(8, 30)),
        ("9:30", None, time(9, 30)),
    ],
)
def test_past_days_are_read(text: str, day: date | None, clock: time | None) -> None:
    """A weekday or a day's number is the latest such day; an hour of today one that has been."""
    assert read_past(text, NOW) == When(day=day, time=clock)


@pytest.mark.parametrize(
    ("text", "day"),
    [("tomorrow at 9", date(2026, 3, 5)), ("8 March 9:00", date(2026, 3, 8)),
     ("mañana a las 9", date(2026, 3, 5))],
)  # fmt: skip
def test_what_is_ahead_stays_ahead(text: str, day: date) -> None:
    """What can only be ahead is not turned into the past, so that it can be said."""
    assert read_past(text, NOW) == When(day=day, time=time(9))


def test_the_weekday_of_today_is_asked_about() -> None:
    """Said on a Wednesday, Wednesday is today or a week ago; if today's hour is to come, not."""
    outcome = read_past("Wednesday 9:00", NOW)
    assert isinstance(outcome, Unclear)
    assert outcome.reason is Reason.WHICH_DAY
    assert [option.day for option in outcome.options] == [date(2026, 2, 25), date(2026, 3, 4)]
    assert read_past("Wednesday 16:00", NOW) == When(day=date(2026, 2, 25), time=time(16))


def test_a_bare_small_hour_is_asked_about() -> None:
    """3 can be both halves of yesterday, and only one of today that has been."""
    outcome = read_past("yesterday at 3", NOW)
    assert isinstance(outcome, Unclear)
    assert outcome.reason is Reason.WHICH_HALF
    assert read_past("today at 3", NOW) == When(day=date(2026, 3, 4), time=time(3))


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 400), st.integers(7, 12), st.sampled_from(["{} days ago", "hace {} días"]))
def test_days_ago_are_counted(days: int, hour: int, said: str) -> None:
    """So many days ago is today minus so many days."""
    noon = datetime(2026, 3, 4, 23, tzinfo=UTC)
    found = read_past(f"{said.format(days)} {hour}:00", noon)
    assert found == When(day=date(2026, 3, 4) - timedelta(days=days), time=time(hour))


@settings(max_examples=40, deadline=None)
@given(st.dates(date(2024, 1, 1), date(2028, 12, 31)), st.integers(0, 60))
def test_a_weekday_is_the_mirror_of_the_next(today: date, ahead: int) -> None:
    """The name of a day of the last week is that day; for a booking it is a week later."""
    now = datetime.combine(today, time(12), tzinfo=UTC)
    day = today - timedelta(days=ahead % 6 + 1)
    past = read_past(f"{day:%A} 9:00", now)
    assert past == When(day=day, time=time(9))
    assert read_when(f"{day:%A} 9:00", now) == When(day=day + timedelta(days=7), time=time(9))


@settings(max_examples=40, deadline=None)
@given(st.text(max_size=60))
def test_no_text_is_too_odd(text: str) -> None:
    """Anything can be typed."""
    read_past(text, NOW)
