"""Three tests or more over time: points, and directions that claim no more than they may."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from random import Random
from typing import Any, Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.findings.alike import Doubt
from bot.findings.trend import CHANCE_99, KINDS, Course, Direction, TrendPoint, trend
from bot.protocol.circumstances import Circumstances, Cuff, DayKind, Medicine, RateSource
from bot.protocol.record import Ending, Measure, TestRecord
from tests.findings import reference
from tests.findings.records import BEGAN_AT, rates, record

KNOWN: Final = Circumstances(
    zone="UTC",
    cuff=Cuff.UPPER_ARM,
    rate_source=RateSource.CUFF,
    medicines=(),
    audited=True,
)


def taken(
    number: int,
    rise: int,
    *,
    days: float,
    day: DayKind | None = DayKind.GOOD,
    fall: tuple[int, int] = (0, 0),
    **facts: Any,
) -> TestRecord:
    """Return a whole test with one rise and one fall, some days after the first."""
    test = record(
        "supine-5@5:00 120/80 70",
        f"standing-5@5:00 {120 + fall[0]}/{80 + fall[1]} {70 + rise}",
    )
    return replace(
        test,
        number=number,
        began_at=BEGAN_AT + timedelta(days=days),
        ending=Ending.COMPLETED,
        circumstances=replace(KNOWN, **facts),
        day=day,
    )


def weekly(*rises: int, day: DayKind | None = DayKind.GOOD) -> list[TestRecord]:
    """Return tests a week apart."""
    return [taken(i + 1, rise, days=7 * i, day=day) for i, rise in enumerate(rises)]


def course(tests: Sequence[TestRecord], measure: Measure = Measure.HEART_RATE) -> Course:
    """Return the course on good days."""
    return trend(tests).course(DayKind.GOOD, measure)


def test_points_stand_in_order_of_time() -> None:
    """Each test with its changes and its kind of day, however the tests are given."""
    tests = [
        taken(2, 25, days=3, day=None, fall=(-8, -2)),
        taken(1, 31, days=0, day=DayKind.SYMPTOMATIC, fall=(-12, 4)),
    ]
    points = trend(tests).points
    assert points == trend(tests[::-1]).points
    assert points == (
        TrendPoint(
            test=1,
            began_at=BEGAN_AT,
            day=DayKind.SYMPTOMATIC,
            heart_rate=31,
            systolic=-12,
            diastolic=4,
        ),
        TrendPoint(
            test=2,
            began_at=BEGAN_AT + timedelta(days=3),
            day=None,
            heart_rate=25,
            systolic=-8,
            diastolic=-2,
        ),
    )
    assert [points[0].size(measure) for measure in Measure] == [-12, 4, 31]


def test_largest_changes_make_the_point() -> None:
    """Of several standing readings, the largest rise and the deepest falls count."""
    rows = (
        "supine-5@5:00 120/80 70",
        "standing-5@5:00 110/84 95",
        "standing-10@10:00 116/76 90",
    )
    (point,) = trend([record(*rows)]).points
    assert (point.heart_rate, point.systolic, point.diastolic) == (25, -10, -4)


def test_no_tests_at_all() -> None:
    """An empty series has no points, and too few tests for any course."""
    found = trend([])
    assert found.points == ()
    assert [(one.day, one.measure) for one in found.courses] == [
        (day, measure)
        for day in KINDS
        for measure in (Measure.HEART_RATE, Measure.SYSTOLIC, Measure.DIASTOLIC)
    ]
    assert {one.direction for one in found.courses} == {Direction.TOO_FEW}


@pytest.mark.parametrize(
    ("rises", "direction"),
    [
        # evenly spaced, three tests move by the last less the first: the middle one has no say.
        # by hand, 2.576 times 6.5 (Miwa 2023, data) times the square root of 2: 23.7
        ((10, 40, 33), Direction.NONE_CLEAR),
        ((10, 12, 34), Direction.HIGHER),
        ((34, 12, 10), Direction.LOWER),
        ((33, 40, 10), Direction.NONE_CLEAR),
        ((20, 20, 20), Direction.NONE_CLEAR),
        ((10, 50), Direction.TOO_FEW),
    ],
)
def test_the_direction_of_a_rise(rises: tuple[int, ...], direction: Direction) -> None:
    """It is claimed just past what chance does in 99 of 100 such series."""
    found = course(weekly(*rises))
    assert found.direction is direction
    if direction is not Direction.TOO_FEW:
        assert found.moved == pytest.approx(rises[-1] - rises[0])
        assert found.by_chance == pytest.approx(23.68, abs=0.01)
    else:
        assert (found.moved, found.by_chance) == (None, None)


def test_the_figure_for_99_of_100() -> None:
    """The usual 2.576 is the 99.5th centile: scipy.stats.norm."""
    assert pytest.approx(reference.quantile(0.995), abs=0.0005) == CHANCE_99


def test_a_line_through_uneven_times() -> None:
    """By hand: days 0, 1, 5 and rises 10, 20, 40; mean 2, spread 14, slope 80 / 14."""
    tests = [taken(1, 10, days=0), taken(2, 20, days=1), taken(3, 40, days=5)]
    found = course(tests)
    assert found.moved == pytest.approx(5 * 80 / 14)
    assert found.by_chance == pytest.approx(2.576 * 6.5 * 5 / 14**0.5)
    assert (found.tests, found.direction) == ((1, 2, 3), Direction.HIGHER)


@pytest.mark.parametrize("seed", range(4))
def test_any_line_is_that_of_another_library(seed: int) -> None:
    """The line by scipy.stats.linregress, its error by scipy.optimize.curve_fit with a known SD.

    The SDs are 6.5, 9.1 and 6.7 (Miwa 2023, CDISC pilot study: data), the 99 % by scipy.stats.norm.
    """
    chance = Random(seed)
    days = sorted(chance.sample(range(60), chance.randint(3, 8)))
    sizes = [(chance.randint(5, 45), chance.randint(-30, 5), chance.randint(-15, 8)) for _ in days]
    tests = [
        taken(number, rise, days=day, fall=(systolic, diastolic))
        for number, (day, (rise, systolic, diastolic)) in enumerate(
            zip(days, sizes, strict=True), start=1
        )
    ]
    spreads = {Measure.HEART_RATE: 6.5, Measure.SYSTOLIC: 9.1, Measure.DIASTOLIC: 6.7}
    for place, (measure, sd) in enumerate(spreads.items()):
        changes = [size[place] for size in sizes]
        found = course(tests, measure)
        slope, error = reference.line(days, changes, sd)
        over = days[-1] - days[0]
        assert found.moved == pytest.approx(slope * over, abs=1e-6)
        assert found.by_chance == pytest.approx(reference.quantile(0.995) * error * over, rel=1e-4)


def test_pressures_go_by_their_own_variation() -> None:
    """With SDs of 9.1 and 6.7 (CDISC pilot study: data) chance moves 33 and 24 mmHg."""
    falls = [(-40, -30), (-20, -18), (-6, -5)]
    tests = [taken(i + 1, 20, days=i, fall=fall) for i, fall in enumerate(falls)]
    systolic, diastolic = course(tests, Measure.SYSTOLIC), course(tests, Measure.DIASTOLIC)
    assert systolic.moved == pytest.approx(34)
    assert diastolic.moved == pytest.approx(25)
    assert systolic.by_chance == pytest.approx(33.15, abs=0.01)
    assert diastolic.by_chance == pytest.approx(24.41, abs=0.01)
    assert {systolic.direction, diastolic.direction} == {Direction.HIGHER}


def test_kinds_of_day_are_kept_apart() -> None:
    """Good days are not mixed with symptomatic ones, and days of unknown kind join neither."""
    kinds = (DayKind.GOOD, DayKind.SYMPTOMATIC, DayKind.UNSURE, None)
    tests = [
        taken(4 * i + j, 10 + 20 * i + j, days=4 * i + j, day=kind)
        for i in range(3)
        for j, kind in enumerate(kinds)
    ]
    found = trend(tests)
    assert found.course(DayKind.GOOD, Measure.HEART_RATE).tests == (0, 4, 8)
    assert found.course(DayKind.SYMPTOMATIC, Measure.HEART_RATE).tests == (1, 5, 9)
    assert {one.day for one in found.courses} == {DayKind.GOOD, DayKind.SYMPTOMATIC}
    unknown = [replace(test, day=DayKind.UNSURE) for test in tests]
    assert {one.direction for one in trend(unknown).courses} == {Direction.TOO_FEW}


@pytest.mark.parametrize(
    ("odd", "doubt"),
    [
        (taken(2, 12, days=7, cuff=Cuff.WRIST), Doubt.CUFF),
        (taken(2, 12, days=7, medicines=(Medicine.DIURETIC,)), Doubt.MEDICINES),
        (taken(2, 12, days=7.5), Doubt.HOUR),
    ],
)
def test_unlike_tests_have_no_direction(odd: TestRecord, doubt: Doubt) -> None:
    """Another cuff, other medicines or another hour at any one test: the numbers, but no claim."""
    first, _, last = weekly(10, 12, 40)
    found = course([first, odd, last])
    assert found.doubts == (doubt,)
    assert found.direction is Direction.NOT_ALIKE
    assert found.moved is not None


def test_what_was_not_told_stands_beside_the_direction() -> None:
    """Nothing known of the surroundings is no difference; it is said."""
    tests = [replace(test, circumstances=None) for test in weekly(10, 12, 40)]
    found = course(tests)
    assert (found.direction, found.doubts) == (Direction.HIGHER, (Doubt.NOT_TOLD,))


def test_a_missing_number_leaves_its_test_out() -> None:
    """A test without pressures counts for the heart rate alone."""
    tests = weekly(10, 12, 40)
    rate_only = replace(rates(70, ("5:00", 82)), number=2, began_at=tests[1].began_at)
    rate_only = replace(rate_only, day=DayKind.GOOD)
    found = trend([tests[0], rate_only, tests[2]])
    assert found.course(DayKind.GOOD, Measure.HEART_RATE).tests == (1, 2, 3)
    assert found.course(DayKind.GOOD, Measure.SYSTOLIC).tests == (1, 3)


def test_tests_at_one_time_go_nowhere() -> None:
    """With no time between them there is no line to draw."""
    found = course([replace(test, began_at=BEGAN_AT) for test in weekly(10, 30, 60)])
    assert (found.direction, found.moved, found.by_chance) == (Direction.TOO_FEW, None, None)


def test_chance_rarely_makes_a_direction() -> None:
    """Of 1,000 series of a person who does not change, about 1 in 100 goes somewhere.

    Drawn with the within-person SD of 6.5 (Miwa 2023, data); the SE of the share is 0.003.
    """
    random = Random(20260305)
    directions = [
        course(weekly(*(round(random.gauss(25, 6.5)) for _ in range(4)))).direction
        for _ in range(1000)
    ]
    assert 0 < directions.count(Direction.NONE_CLEAR) < 1000
    assert directions.count(Direction.NONE_CLEAR) / 1000 == pytest.approx(0.99, abs=0.009)


@given(rises=st.lists(st.integers(-10, 90), min_size=3, max_size=6), more=st.integers(-20, 20))
def test_turned_around_the_direction_turns(rises: list[int], more: int) -> None:
    """Backwards the line moves the other way; and a constant added to all rises moves nothing."""
    there, back = course(weekly(*rises)), course(weekly(*rises[::-1]))
    added = course(weekly(*(rise + more for rise in rises)))
    assert there.moved is not None
    assert back.moved == pytest.approx(-there.moved, abs=1e-6)
    assert added.moved == pytest.approx(there.moved, abs=1e-6)
    turned = {Direction.HIGHER: Direction.LOWER, Direction.LOWER: Direction.HIGHER}
    assert back.direction is turned.get(there.direction, there.direction)
    assert added.direction is there.direction


def test_no_course_for_a_day_of_unknown_kind() -> None:
    """Asking for one is a mistake."""
    with pytest.raises(KeyError, match="unsure"):
        trend(weekly(10, 20, 30)).course(DayKind.UNSURE, Measure.HEART_RATE)
