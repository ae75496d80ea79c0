"""Whether two tests of one person are alike enough to be compared, and why they may not be."""

from collections.abc import Iterator
from datetime import UTC, date, timedelta
from enum import StrEnum
from typing import Final
from zoneinfo import ZoneInfo

from bot.findings.result import Findings
from bot.protocol.circumstances import Circumstances
from bot.protocol.record import Ending, Origin, TestRecord

# Of people with the syndrome 82.6 % met the heart-rate line in the morning and 52.2 % in the
# afternoon: Moon 2016 (J Am Soc Hypertens 10:263): found. How far apart two clock times still
# count as the same: design choice.
SAME_HOUR_WITHIN: Final = timedelta(hours=2)

_DAY: Final = timedelta(days=1)


class Doubt(StrEnum):
    """Why two tests may not be alike enough to compare, in order of weight."""

    PROTOCOL = "protocol"
    ENDED_EARLY = "ended-early"  # at least one of them
    READINGS = "readings"  # not the same standing readings were taken
    FROM_PAPER = "from-paper"  # at least one was typed in from paper: nobody watched its times
    SAME_DAY = "same-day"  # both on one date: the second follows on the first
    HOUR = "hour"  # clock times too far apart
    MEDICINES = "medicines"
    LAST_DOSE = "last-dose"
    CUFF = "cuff"
    RATE_SOURCE = "rate-source"
    DEPARTURES = "departures"  # from the preparation
    NOT_TOLD = "not-told"  # something of the above is not known of both days


def doubts(
    first: TestRecord, second: TestRecord, one: Findings, other: Findings
) -> tuple[Doubt, ...]:
    """Return why two tests may not be alike enough to compare, in order of weight.

    Args:
        first: One test.
        second: Another of the same person.
        one: What `find` says of the first.
        other: What it says of the second.
    """
    doubted = {*_test_doubts(first, second, one, other), *_day_doubts(first, second)}
    return tuple(doubt for doubt in Doubt if doubt in doubted)


def _test_doubts(
    first: TestRecord, second: TestRecord, one: Findings, other: Findings
) -> Iterator[Doubt]:
    if first.protocol != second.protocol:
        yield Doubt.PROTOCOL
    if not first.ending is second.ending is Ending.COMPLETED:
        yield Doubt.ENDED_EARLY
    # A test with more standing readings has more chances of a large change.
    if _measured(one) != _measured(other):
        yield Doubt.READINGS
    if Origin.PAPER in {first.origin, second.origin}:
        yield Doubt.FROM_PAPER


def _measured(findings: Findings) -> list[tuple[str, bool, bool, bool]]:
    """Return which standing readings have which changes; unplanned ones have no name."""
    return sorted(
        (
            change.reading.slot or "",
            change.heart_rate is not None,
            change.systolic is not None,
            change.diastolic is not None,
        )
        for change in findings.changes
    )


def _day_doubts(first: TestRecord, second: TestRecord) -> Iterator[Doubt]:
    one, other = first.circumstances or Circumstances(), second.circumstances or Circumstances()
    if _date(first, one.zone) == _date(second, other.zone):
        yield Doubt.SAME_DAY
    if one.medicines is None or other.medicines is None:
        yield Doubt.NOT_TOLD
    elif set(one.medicines) != set(other.medicines):
        yield Doubt.MEDICINES
    elif one.medicines:
        yield from _unlike(one.last_dose, other.last_dose, Doubt.LAST_DOSE)
    yield from _unlike(one.cuff, other.cuff, Doubt.CUFF)
    yield from _unlike(one.rate_source, other.rate_source, Doubt.RATE_SOURCE)
    yield from _unlike(_departures(one), _departures(other), Doubt.DEPARTURES)
    if one.zone is None or other.zone is None:
        yield Doubt.NOT_TOLD
    elif _apart(_clock(first, one.zone), _clock(second, other.zone)) > SAME_HOUR_WITHIN:
        yield Doubt.HOUR


def _unlike(one: object | None, other: object | None, doubt: Doubt) -> Iterator[Doubt]:
    if one is None or other is None:
        yield Doubt.NOT_TOLD
    elif one != other:
        yield doubt


def _departures(told: Circumstances) -> frozenset[str] | None:
    return frozenset(told.departures) if told.audited else None


def _date(record: TestRecord, zone: str | None) -> date:
    """Return the date on which a test began, on the person's calendar; in UTC if not known."""
    return record.began_at.astimezone(ZoneInfo(zone) if zone else UTC).date()


def _clock(record: TestRecord, zone: str) -> timedelta:
    """Return the time of day at which a test began, on the person's clock then."""
    local = record.began_at.astimezone(ZoneInfo(zone))
    return timedelta(hours=local.hour, minutes=local.minute, seconds=local.second)


def _apart(one: timedelta, other: timedelta) -> timedelta:
    """Return how far apart two times of day are, the short way round."""
    apart = abs(one - other)
    return min(apart, _DAY - apart)
