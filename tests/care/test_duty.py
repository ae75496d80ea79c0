"""Who is on duty: by their own word, or by the clinic's plan on the clinic's clock."""

from datetime import UTC, datetime, time
from typing import Final

import pytest

from bot.care.rules import CareRules, Hours
from tests.care.clinic import Clinic
from tests.care.test_alarms import alarms

WEEKDAYS: Final = frozenset(range(5))
NIGHTS: Final = Hours(who=("Marta",), days=WEEKDAYS, starts=time(22), ends=time(6))
OFFICE: Final = Hours(who=("marta", "Luis"), days=WEEKDAYS, starts=time(8), ends=time(16))


@pytest.mark.parametrize(
    ("hours", "written", "covered"),
    [
        (OFFICE, "2026-03-02 07:59", False),  # a Monday
        (OFFICE, "2026-03-02 08:00", True),
        (OFFICE, "2026-03-02 15:59", True),
        (OFFICE, "2026-03-02 16:00", False),
        (OFFICE, "2026-03-07 09:00", False),  # a Saturday
        (NIGHTS, "2026-03-06 22:00", True),  # Friday's night
        (NIGHTS, "2026-03-07 05:59", True),
        (NIGHTS, "2026-03-07 06:00", False),
        (NIGHTS, "2026-03-07 22:00", False),
        (NIGHTS, "2026-03-02 05:00", False),  # would be Sunday's night
        (Hours(who=("Marta",)), "2026-03-01 00:00", True),
    ],
)
def test_hours_cover_what_they_say(hours: Hours, written: str, covered: bool) -> None:
    """The end is not among them; a night belongs to the day on which it begins."""
    assert hours.cover(datetime.fromisoformat(written)) is covered


def test_the_plan_goes_by_the_clinics_clock(clinic: Clinic) -> None:
    """8:30 in Madrid is 7:30 in UTC in winter and 6:30 in summer; a label is told in any case."""
    clinic.member("Marta")
    (marta,) = clinic.team()
    rules = CareRules(zone="Europe/Madrid", duty=(OFFICE,))
    for month, hour in ((3, 7), (7, 6)):
        assert rules.on_duty(marta, datetime(2026, month, 2, hour, 30, tzinfo=UTC))
        assert not rules.on_duty(marta, datetime(2026, month, 2, hour - 1, 30, tzinfo=UTC))


def test_an_alarm_goes_first_to_who_is_on_duty_by_the_plan(clinic: Clinic) -> None:
    """They need not say so, and cannot say that they are not; the next is told after the time."""
    clinic.rules = CareRules(duty=(Hours(who=("Luis",)),))
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    luis.types("off duty")
    assert luis.new() == ["care.duty.off.set"]
    clinic.standing("ada").types("stop").taps("equipment")
    assert (alarms(marta), alarms(luis)) == ([], ["care.alarm.duty"])
    clinic.waits(5)
    assert (alarms(marta), alarms(luis)) == (["care.alarm.next"], [])
