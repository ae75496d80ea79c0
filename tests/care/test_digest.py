"""The weekly digest: on Monday morning on the clinic's clock, once, to whoever wants it."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from bot.care.digest import next_at
from bot.care.roles import Role
from bot.care.rules import CareRules
from tests.care.clinic import Clinic

MADRID = CareRules(zone="Europe/Madrid")


def test_it_is_due_on_monday_morning_at_the_clinic_also_when_the_clocks_change() -> None:
    """Eight in Madrid is 7:00 UTC in winter and 6:00 in summer (tzdata, 29 March 2026)."""
    monday = datetime(2026, 3, 23, 7, 0, tzinfo=UTC)
    assert next_at(MADRID, monday - timedelta(minutes=1)) == monday
    assert next_at(MADRID, monday) == datetime(2026, 3, 30, 6, 0, tzinfo=UTC)


def test_coordinators_get_it_and_clinicians_on_request(clinic: Clinic) -> None:
    """Counts, what is new, who waits longest, and whose second test is missing."""
    clinic.rules = replace(clinic.rules, zone="Europe/Madrid")
    marta = clinic.member("Marta")
    lind = clinic.member("Lind", Role.CLINICIAN)
    clinic.measured("ada").taps("yes").taps("good").taps("none")
    clinic.patient("bea")
    marta.new()
    lind.new()
    clinic.waits(7 * 24 * 60)
    assert [key for key in marta.new() if key.startswith("care.digest")] == [
        "care.digest", "care.digest.fresh", "care.digest.inbox", "care.digest.longest",
        "care.digest.waits", "care.digest.waits", "care.digest.second", "care.digest.end",
    ]  # fmt: skip
    assert lind.new() == []
    lind.types("digest on")
    marta.types("digest off")
    marta.new()
    lind.new()
    clinic.waits(7 * 24 * 60)
    assert marta.new() == []
    assert lind.new()[:1] == ["care.digest"]


def test_it_is_sent_once_however_often_the_alarm_rings(clinic: Clinic) -> None:
    """Early, double and late alarms do no harm; after weeks of silence there is one, not many."""
    marta = clinic.member("Marta")
    number = clinic.number_of("Marta")
    clinic.conductor.wake(f"digest:{number}", clinic.now)
    clinic.now += timedelta(days=22)
    for _ in range(2):
        clinic.conductor.wake(f"digest:{number}", clinic.now)
    clinic.deliver()
    assert marta.new().count("care.digest") == 1
    assert clinic.did().count("digest-sent") == 1


def test_whoever_has_left_gets_none(clinic: Clinic) -> None:
    """The alarm of a member who was removed is gone with them."""
    marta = clinic.member("Marta")
    clinic.conductor.remove(clinic.number_of("Marta"), clinic.now)
    assert clinic.store.sleepers(clinic.now + timedelta(days=30)) == []
    clinic.waits(8 * 24 * 60)
    assert marta.new() == []


def test_the_digest_can_be_seen_at_any_time(clinic: Clinic) -> None:
    """Asked for, it says the same as on Monday, and Monday's comes all the same."""
    marta = clinic.member("Marta")
    clinic.measured("ada").taps("yes").taps("good").taps("none")
    before = clinic.team()[0].digest_at
    marta.new()
    marta.types("digest")
    asked = marta.new()
    assert (asked[0], asked[-1]) == ("care.digest", "care.digest.end")
    assert clinic.team()[0].digest_at == before
    marta.types("digest off").types("resumen")
    assert marta.new()[-1] == "care.digest.none"
