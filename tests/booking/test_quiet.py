"""The quiet hours, also in the nights when the clocks change."""

from datetime import time, timedelta

import pytest

from bot.booking.quiet import Quiet, awake, quiet_span, quiet_spans
from tests.booking.changes import changes, shown

MINUTE = timedelta(minutes=1)
HOUR = timedelta(hours=1)
CLOCKS = [time(0), time(1, 30), time(2, 15), time(3), time(21, 30)]
QUIETS = [
    Quiet(starts=starts, ends=ends)
    for starts in CLOCKS
    for ends in [*CLOCKS, time(7, 30), time(12)]
    if (ends.hour - starts.hour) % 24 < 20
]
ZONES = ["Europe/Madrid", "Australia/Lord_Howe", "America/Santiago", "Antarctica/Troll"]


@pytest.mark.parametrize("quiet", QUIETS, ids=lambda q: f"{q.starts:%H%M}-{q.ends:%H%M}")
@pytest.mark.parametrize("zone", ZONES)
def test_every_minute_is_quiet_that_the_clock_says_is(quiet: Quiet, zone: str) -> None:
    """Around a change, all minutes with a quiet clock time are quiet, and few others."""
    starts, ends = quiet.starts, quiet.ends
    for change in changes()[zone][:2]:
        first, last = change - 5 * HOUR, change + 5 * HOUR
        spans = awake(quiet, zone, first, last)
        spared = 0
        for ahead in range(0, 600, 5):
            at = first + ahead * MINUTE
            clock = shown(at, zone).time()
            inside = starts <= clock < ends
            by_clock = inside if starts <= ends else clock >= starts or clock < ends
            is_awake = any(begins <= at < over for begins, over in spans)
            assert is_awake == (quiet_span(quiet, zone, at) is None)
            assert not (is_awake and by_clock)
            spared += 5 * (not is_awake and not by_clock)
        # A quiet hour that the clocks skip or double may cost as much again.
        assert spared <= 240


def test_a_night_as_long_as_usual() -> None:
    """In a night without a change, the quiet hours are just those set."""
    at = changes()["Europe/Madrid"][0] + timedelta(days=10, hours=9)
    spans = quiet_spans(Quiet(), "Europe/Madrid", at, at + timedelta(days=3))
    assert len(spans) == 3
    for starts, ends in spans:
        assert shown(starts, "Europe/Madrid").time() == time(21, 30)
        assert ends - starts == 10 * HOUR


def test_equal_ends_are_no_quiet_hours() -> None:
    """Quiet hours that end as they begin leave every minute free."""
    at = changes()["Europe/Madrid"][0]
    none = Quiet(starts=time(3), ends=time(3))
    assert quiet_spans(none, "Europe/Madrid", at, at + timedelta(days=3)) == ()
    assert awake(none, "Europe/Madrid", at, at + HOUR) == ((at, at + HOUR),)


def test_quiet_hours_leave_time_for_reminders() -> None:
    """Quiet hours that leave less than four hours of the day are refused."""
    assert Quiet(starts=time(12), ends=time(8)).lasts == 20 * HOUR
    with pytest.raises(ValueError, match="quiet"):
        Quiet(starts=time(12), ends=time(8, 1))
