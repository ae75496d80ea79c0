"""Which lines true numbers reach, by hand and against the findings on numbers without error."""

from dataclasses import replace
from random import Random

import pytest

from bot.cohort.courses import Body
from bot.cohort.tallies import Said, Subject, what_is_said
from bot.cohort.truth import Stood, Truth, lines_reached, reached, rose_once, rose_twice
from bot.findings import Line, State, find
from bot.protocol.record import AgeBand, TestRecord, Values
from bot.protocol.released import SIX_READINGS
from tests.findings.records import record, three


def truth(lying: str, *standing: str, age: AgeBand | None = AgeBand.FROM_20) -> Truth:
    """Return true numbers from rows like `120/80 70` and `3 110/76 95`."""
    rows = [row.split(" ", 1) for row in standing]
    return Truth(
        age_band=age,
        lying=body(lying),
        seated=None,
        standing=tuple(Stood(minute=float(minute), body=body(row)) for minute, row in rows),
    )


def body(row: str) -> Body:
    """Return numbers from a row like `120/80 70`."""
    pressures, rate = row.split()
    systolic, diastolic = pressures.split("/")
    return Body(float(rate), float(systolic), float(diastolic))


def test_a_rise_takes_two_a_minute_apart() -> None:
    """29.9 is no rise, 30 is; two in one minute are one; after 10 min there is none."""
    assert rose_twice(truth("120/80 70", "5 120/80 100", "10 120/80 100"))
    assert not rose_twice(truth("120/80 70", "5 120/80 99.9", "10 120/80 100"))
    assert not rose_twice(truth("120/80 70", "5 120/80 100", "5.9 120/80 100"))
    assert not rose_twice(truth("120/80 70", "10 120/80 100", "12 120/80 100"))
    assert rose_once(truth("120/80 70", "5 120/80 99.9", "10 120/80 100"))
    assert not rose_once(truth("120/80 70", "5 120/80 100", age=None))


@pytest.mark.parametrize(
    ("numbers", "expected"),
    [
        (truth("120/80 70", "1 120/80 105", "5 120/80 105"), {Line.HEART_RATE_RISE}),
        (
            truth("120/80 70", "1 100/72 105", "5 118/80 105"),
            {Line.CLASSICAL_FALL},
        ),
        (truth("120/80 70", "3 102/72 85", "3.5 100/71 85"), {Line.LATER_FALL}),
        (
            truth("130/80 70", "1 95/70 75"),
            {Line.CLASSICAL_FALL, Line.LARGE_FALL, Line.NEUROGENIC_PATTERN},
        ),
        (truth("130/80 70", "1 109/75 80.5"), {Line.CLASSICAL_FALL}),
        (
            truth("110/60 88", "1 89/55 80"),
            {Line.CLASSICAL_FALL, Line.STANDING_SYSTOLIC_LOW},
        ),
        (truth("118/70 59", "1 138/70 62"), {Line.PRESSOR_RESPONSE, Line.SUPINE_RATE_BELOW_60}),
        (
            truth("139.9/90 49", "1 160/90 62"),
            {
                Line.PRESSOR_RESPONSE,
                Line.PRESSURE_RISE,
                Line.SUPINE_HYPERTENSION,
                Line.SUPINE_RATE_BELOW_60,
                Line.BRADYCARDIA,
            },
        ),
        (
            truth("120/80 101", "1 120/91 140", "5 120/80 140"),
            {Line.SUPINE_RATE_HIGH, Line.STANDING_RATE_120, Line.NARROW_PULSE_PRESSURE},
        ),
        (truth("178/80 70", "1 180/85 75"), {Line.SUPINE_HYPERTENSION, Line.VERY_HIGH_PRESSURE}),
    ],
)
def test_lines_by_hand(numbers: Truth, expected: set[Line]) -> None:
    """Each line at its edge, by the rule of the clinical table."""
    assert lines_reached(numbers) == expected


def test_a_medicine_that_slows_the_heart_takes_the_ratio_away() -> None:
    """Norcliffe-Kaufmann 2018: the ratio does not hold on a beta-blocker."""
    numbers = truth("130/80 70", "1 95/70 75")
    assert not reached(Line.NEUROGENIC_PATTERN, replace(numbers, slowed=True))


def test_numbers_not_read_say_nothing() -> None:
    """A reading without pressures shows no fall, one without a heart rate no rise."""
    numbers = truth("120/80 70", "1 90/60 105", "5 90/60 105")
    blind = replace(
        numbers, standing=tuple(replace(s, pressures_read=False) for s in numbers.standing)
    )
    assert lines_reached(blind) == {Line.HEART_RATE_RISE}
    deaf = replace(numbers, standing=tuple(replace(s, rate_read=False) for s in numbers.standing))
    assert lines_reached(deaf) == {Line.CLASSICAL_FALL, Line.LATER_FALL, Line.LARGE_FALL}


SURE = frozenset({State.MET, State.NOT_MET})


def drawn(chance: Random) -> tuple[TestRecord, Truth]:
    """Return a whole test of whole numbers, and the same numbers as the truth."""

    def numbers() -> Values:
        return Values(
            systolic=chance.randint(100, 150),
            diastolic=chance.randint(60, 95),
            heart_rate=chance.randint(48, 130),
        )

    lying, standing = numbers(), [numbers() for _ in range(4)]
    minutes = (1, 3, 5, 10)
    rows = [
        f"standing-{minute}@{minute}:00 {v.systolic}/{v.diastolic} {v.heart_rate}"
        for minute, v in zip(minutes, standing, strict=True)
    ]
    supine = f"supine-5@5:00 {lying.systolic}/{lying.diastolic} {lying.heart_rate}"
    taken = record(supine, *rows, protocol=SIX_READINGS.ref)
    return taken, truth(
        supine.split(" ", 1)[1],
        *(f"{m} {row.split(' ', 1)[1]}" for m, row in zip(minutes, rows, strict=True)),
    )


def test_on_numbers_without_error_the_findings_are_the_truth() -> None:
    """What a finding says is met is reached, and what it says is not met is not: two programs."""
    chance = Random(20260320)
    for _ in range(150):
        taken, numbers = drawn(chance)
        findings = find(taken)
        for finding in findings.findings:
            if finding.state in SURE:
                assert (finding.state is State.MET) == reached(finding.line, numbers)


def test_a_fall_from_the_start_counts_as_found_later_too() -> None:
    """A later fall that is not judged since it was there early is found; any fall is either."""
    both = find(
        record("supine-5@5:00 120/80 70", "standing-1@1:00 95/70 80", "standing-5@5:00 95/70 80")
    )
    assert both.on(Line.LATER_FALL).state is State.CANNOT_JUDGE
    assert what_is_said(Subject.LATER_FALL, both) is Said.FOUND
    early = find(three("120/80 70", "95/70 80", "118/80 80"))
    assert what_is_said(Subject.LATER_FALL, early) is Said.NOTHING
    assert what_is_said(Subject.ANY_FALL, early) is Said.FOUND
    unread = find(record("supine-5@5:00 120/80 70", "standing-5@5:00 118/80 80"))
    assert what_is_said(Subject.ANY_FALL, unread) is Said.NOTHING
