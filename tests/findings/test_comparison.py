"""Two tests side by side: differences, ordinary variation, lines, and reasons not to compare."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any, Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.findings import Line, State
from bot.findings.alike import Doubt
from bot.findings.comparison import REPEATABILITY, Meeting, Pair, Variation, compare
from bot.protocol.circumstances import (
    Circumstances,
    Cuff,
    Departure,
    LastDose,
    Medicine,
    RateSource,
)
from bot.protocol.record import AgeBand, Ending, Measure, Origin, TestRecord
from bot.protocol.released import FOUR_READINGS
from tests.findings.records import pressures, rates, record, three

KNOWN: Final = Circumstances(
    zone="Europe/Madrid",
    cuff=Cuff.UPPER_ARM,
    rate_source=RateSource.CUFF,
    medicines=(Medicine.STIMULANT, Medicine.DIURETIC),
    last_dose=LastDose.WITHIN_4_HOURS,
    departures=(Departure.CAFFEINE, Departure.POOR_SLEEP),
    audited=True,
)


def whole(test: TestRecord) -> TestRecord:
    """Return a completed test of which everything is known."""
    return replace(test, ending=Ending.COMPLETED, circumstances=KNOWN)


FIRST: Final = whole(three("118/74 68", "116/80 101", "112/70 106"))


def next_day(test: TestRecord) -> TestRecord:
    """Return a test as it would be a day later."""
    return replace(test, began_at=test.began_at + timedelta(days=1))


SECOND: Final = next_day(whole(three("120/76 70", "112/74 84", "104/68 88")))


def told(**facts: Any) -> TestRecord:
    """Return the second test with other circumstances."""
    return replace(SECOND, circumstances=replace(KNOWN, **facts))


def pair(measure: Measure, first: int | None, second: int | None) -> Pair:
    """Return the largest changes of one measure."""
    return Pair(measure=measure, slot=None, first=first, second=second)


def test_the_largest_changes_are_laid_side_by_side() -> None:
    """The largest rise and the deepest falls of each test, and the second minus the first."""
    found = compare(FIRST, SECOND)
    assert found.extremes == (
        pair(Measure.HEART_RATE, 38, 18),
        pair(Measure.SYSTOLIC, -6, -16),
        pair(Measure.DIASTOLIC, -4, -8),
    )
    assert [one.difference for one in found.extremes] == [-20, -10, -4]
    assert found.largest(Measure.SYSTOLIC).second == -16


def test_matching_readings_are_laid_side_by_side() -> None:
    """Changes at the same planned standing reading stand side by side, in order of time."""
    found = compare(FIRST, SECOND)
    heart = [(p.slot, p.first, p.second) for p in found.slots if p.measure is Measure.HEART_RATE]
    assert heart == [
        ("standing-1", 33, 14),
        ("standing-3", 38, 18),
        ("standing-5", None, None),
        ("standing-10", None, None),
    ]
    assert len(found.slots) == 4 * len(Measure)


def test_only_readings_planned_in_both_match() -> None:
    """Of two protocols, the standing readings that both plan at the same time are compared."""
    rows = ("supine-5@5:00 118/74 68", "standing-5@5:00 116/80 101", "standing-10@10:00 112/79 106")
    found = compare(record(*rows), record(*rows, protocol=FOUR_READINGS.ref))
    assert list(dict.fromkeys(p.slot for p in found.slots)) == ["standing-5", "standing-10"]
    assert {p.difference for p in found.slots} == {0}


@pytest.mark.parametrize(
    ("measure", "largest_ordinary"),
    [
        # 2.77 times 6.5 (Miwa 2023), 9.1 and 6.7 (CDISC pilot study): clinical table, data
        (Measure.HEART_RATE, 18),
        (Measure.SYSTOLIC, 25),
        (Measure.DIASTOLIC, 18),
    ],
)
def test_the_edge_of_ordinary_variation(measure: Measure, largest_ordinary: int) -> None:
    """A difference up to the repeatability is ordinary, one more is larger, in either direction."""
    for sign in (1, -1):
        within = pair(measure, 10, 10 + sign * largest_ordinary)
        larger = pair(measure, 10, 10 + sign * (largest_ordinary + 1))
        assert (within.variation, larger.variation) == (Variation.WITHIN, Variation.LARGER)


def test_repeatability_is_the_published_figures() -> None:
    """For the heart rate it lies where the data put it, at the top of 15 to 18 a minute."""
    assert REPEATABILITY[Measure.HEART_RATE] == pytest.approx(18.0, abs=0.05)
    assert REPEATABILITY[Measure.SYSTOLIC] == pytest.approx(25.2, abs=0.05)
    assert REPEATABILITY[Measure.DIASTOLIC] == pytest.approx(18.6, abs=0.05)


def test_a_missing_number_cannot_be_compared() -> None:
    """Without a number on either day there is no difference, and nothing is said of it."""
    found = compare(FIRST, whole(rates(70, ("1:00", 84), ("3:00", 88))))
    assert found.largest(Measure.HEART_RATE).variation is Variation.LARGER
    for measure in (Measure.SYSTOLIC, Measure.DIASTOLIC):
        missing = found.largest(measure)
        assert (missing.second, missing.difference) == (None, None)
        assert missing.variation is Variation.CANNOT_SAY


def test_without_any_heart_rate_there_is_no_rise() -> None:
    """Pressures alone have their falls, and no largest rise."""
    found = compare(FIRST, whole(pressures("120/76", ("1:00", "112/74"), ("3:00", "104/68"))))
    assert found.largest(Measure.HEART_RATE).second is None
    assert found.largest(Measure.SYSTOLIC).second == -16


def test_as_many_readings_at_other_times_raise_a_doubt() -> None:
    """It is not their number but their place in the plan that has to be the same."""
    one = whole(record("supine-5@5:00 118/74 68", "standing-1@1:00 116/80 101"))
    other = whole(record("supine-5@5:00 118/74 68", "standing-3@3:00 116/80 101"))
    assert compare(one, next_day(other)).doubts == (Doubt.READINGS,)


def test_lines_by_the_days_that_met_them() -> None:
    """A line met on both days, on one only, and on one while the other cannot tell."""
    low = three("115/69 72", "101/65 83", "85/61 84")
    lines = {one.line: one for one in compare(FIRST, low).lines}
    assert lines[Line.CLASSICAL_FALL].meeting is Meeting.SECOND
    assert lines[Line.CLASSICAL_FALL].judged
    # with a fall the rise of the other day cannot be held against its line
    assert lines[Line.HEART_RATE_RISE].meeting is Meeting.FIRST
    assert lines[Line.HEART_RATE_RISE].judged
    assert all(one.meeting is Meeting.BOTH for one in compare(FIRST, FIRST).lines)
    assert Line.BRADYCARDIA not in lines

    untold = replace(low, age_band=None)
    rise = next(x for x in compare(FIRST, untold).lines if x.line is Line.HEART_RATE_RISE)
    assert (rise.second, rise.judged) == (State.CANNOT_JUDGE, False)


def test_a_rise_seen_once_is_not_confirmed() -> None:
    """A line met once counts as met, and is told apart from one that is confirmed."""
    once = rates(70, ("5:00", 101), ("10:00", 80))
    twice = rates(70, ("5:00", 101), ("10:00", 104))
    (mixed,) = [x for x in compare(once, twice).lines if x.line is Line.HEART_RATE_RISE]
    assert (mixed.meeting, mixed.confirmed) == (Meeting.BOTH, False)
    (sure,) = [x for x in compare(twice, twice).lines if x.line is Line.HEART_RATE_RISE]
    assert sure.confirmed


def test_two_alike_tests_raise_no_doubt() -> None:
    """The same protocol, cuff, source, hour, medicines and preparation: nothing against it."""
    assert compare(FIRST, SECOND).doubts == ()


@pytest.mark.parametrize(
    ("second", "doubt"),
    [
        (replace(SECOND, ending=Ending.STOPPED), Doubt.ENDED_EARLY),
        (replace(SECOND, readings=SECOND.readings[:-1]), Doubt.READINGS),
        (told(cuff=Cuff.WRIST), Doubt.CUFF),
        (told(rate_source=RateSource.WATCH), Doubt.RATE_SOURCE),
        (told(medicines=(Medicine.STIMULANT,)), Doubt.MEDICINES),
        (told(last_dose=LastDose.LONGER_AGO), Doubt.LAST_DOSE),
        (told(departures=()), Doubt.DEPARTURES),
        (told(zone=None), Doubt.NOT_TOLD),
        (told(cuff=None), Doubt.NOT_TOLD),
        (told(rate_source=None), Doubt.NOT_TOLD),
        (told(last_dose=None), Doubt.NOT_TOLD),
        (told(audited=False), Doubt.NOT_TOLD),
        (told(medicines=None), Doubt.NOT_TOLD),
        (replace(SECOND, began_at=FIRST.began_at + timedelta(hours=1)), Doubt.SAME_DAY),
        (replace(SECOND, circumstances=None), Doubt.NOT_TOLD),
        (replace(SECOND, origin=Origin.PAPER), Doubt.FROM_PAPER),
    ],
)
def test_each_difference_raises_its_doubt(second: TestRecord, doubt: Doubt) -> None:
    """One thing that differs, or is not known of both days, raises just its doubt, either way."""
    assert compare(FIRST, second).doubts == (doubt,)
    assert compare(second, FIRST).doubts == (doubt,)


def test_another_protocol_raises_a_doubt() -> None:
    """Another definition of the test is named first."""
    rows = ("supine-5@5:00 118/74 68", "standing-5@5:00 116/80 101")
    one, other = whole(record(*rows)), whole(record(*rows, protocol=FOUR_READINGS.ref))
    assert compare(one, next_day(other)).doubts == (Doubt.PROTOCOL,)


@pytest.mark.parametrize(
    "second",
    [
        told(medicines=(Medicine.DIURETIC, Medicine.STIMULANT)),
        told(departures=KNOWN.departures[::-1]),
    ],
)
def test_the_order_in_which_things_were_told_does_not_matter(second: TestRecord) -> None:
    """The same medicines and departures in another order are the same."""
    assert compare(FIRST, second).doubts == ()


@pytest.mark.parametrize(
    ("first", "first_zone", "second", "second_zone", "doubted"),
    [
        # 09:00 in Madrid on both sides of the spring change
        ((3, 27, 8, 0), "Europe/Madrid", (3, 30, 7, 0), "Europe/Madrid", False),
        ((3, 27, 8, 0), "Europe/Madrid", (3, 30, 9, 0), "Europe/Madrid", False),
        ((3, 27, 8, 0), "Europe/Madrid", (3, 30, 9, 1), "Europe/Madrid", True),
        # the same clock time in two zones, and the same instant in two zones
        ((3, 2, 9, 0), "Europe/London", (3, 3, 0, 0), "Asia/Tokyo", False),
        ((3, 2, 9, 0), "Europe/London", (3, 2, 9, 0), "Asia/Tokyo", True),
        # 23:30 and 00:30 are one hour apart
        ((3, 2, 23, 30), "UTC", (3, 4, 0, 30), "UTC", False),
    ],
)
def test_the_hour_is_that_of_the_clock_on_the_wall(
    first: tuple[int, int, int, int],
    first_zone: str,
    second: tuple[int, int, int, int],
    second_zone: str,
    doubted: bool,
) -> None:
    """Up to 2 h apart by the person's own clock is the same time of day; more is doubted."""

    def at(test: TestRecord, when: tuple[int, int, int, int], zone: str) -> TestRecord:
        known = replace(KNOWN, zone=zone)
        return replace(test, began_at=datetime(2026, *when, tzinfo=UTC), circumstances=known)

    found = compare(at(FIRST, first, first_zone), at(SECOND, second, second_zone))
    assert (Doubt.HOUR in found.doubts) is doubted
    assert {*found.doubts} <= {Doubt.HOUR, Doubt.SAME_DAY}


@pytest.mark.parametrize(
    ("hour", "zone", "doubted"),
    [
        # the first was at 09:00 on March 2 in UTC
        (13, "UTC", True),
        (25, "UTC", False),
        # the same calendar day in UTC, and another one where the person is
        (16, "Asia/Tokyo", False),
        # in UTC another day, and the same one where the person is
        (26, "America/Los_Angeles", True),
    ],
)
def test_the_same_day_is_that_of_the_calendar_on_the_wall(
    hour: int, zone: str, doubted: bool
) -> None:
    """Two tests on one date of the person's calendar are doubted: the second follows the first."""
    day = datetime(2026, 3, 2, tzinfo=UTC)
    known = replace(KNOWN, zone=zone)
    first = replace(FIRST, began_at=day + timedelta(hours=9), circumstances=known)
    second = replace(SECOND, began_at=day + timedelta(hours=hour), circumstances=known)
    assert (Doubt.SAME_DAY in compare(first, second).doubts) is doubted
    assert (Doubt.SAME_DAY in compare(second, first).doubts) is doubted


def test_two_hours_are_counted_to_the_second() -> None:
    """One second more than 2 h apart is another time of day."""
    later = replace(SECOND, began_at=FIRST.began_at + timedelta(days=1, hours=2))
    assert compare(FIRST, later).doubts == ()
    later = replace(later, began_at=later.began_at + timedelta(seconds=1))
    assert compare(FIRST, later).doubts == (Doubt.HOUR,)


def test_no_medicines_need_no_last_dose() -> None:
    """Where no medicine is taken on either day, that no dose was told is no gap."""
    none: Mapping[str, Any] = {"medicines": (), "last_dose": None}
    one = replace(FIRST, circumstances=replace(KNOWN, **none))
    assert compare(one, told(**none)).doubts == ()


numbers = st.integers(min_value=40, max_value=220)
reads = st.tuples(numbers, numbers, numbers, st.sampled_from(AgeBand))


@given(one=reads, other=reads)
def test_turned_around_it_says_the_same(
    one: tuple[int, int, int, AgeBand], other: tuple[int, int, int, AgeBand]
) -> None:
    """With the tests changed over, differences change their sign and nothing else does."""

    def test(read: tuple[int, int, int, AgeBand]) -> TestRecord:
        lying, early, late, age = read
        return rates(lying, ("1:00", early), ("9:50", late), age=age)

    there, back = compare(test(one), test(other)), compare(test(other), test(one))
    forth, turned = there.largest(Measure.HEART_RATE), back.largest(Measure.HEART_RATE)
    assert (forth.first, forth.second) == (turned.second, turned.first)
    assert forth.difference is not None
    assert turned.difference == -forth.difference
    assert forth.variation is turned.variation
    assert there.doubts == back.doubts
    assert {x.line for x in there.lines} == {x.line for x in back.lines}
