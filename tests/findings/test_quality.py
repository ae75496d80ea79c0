"""How well a test was done: each reason by itself, the grade, and what must hold of any test."""

from dataclasses import replace
from typing import Any, Final

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.findings import Line, State, find
from bot.findings.quality import (
    WEIGHTS,
    Grade,
    Quality,
    QualityReason,
    Shortfall,
    Weight,
    grade,
    quality,
)
from bot.protocol.circumstances import (
    Circumstances,
    Cuff,
    Departure,
    LastDose,
    Medicine,
    RateSource,
)
from bot.protocol.definition import Position
from bot.protocol.record import Ending, Origin, TestRecord
from bot.protocol.released import FOUR_READINGS
from tests.findings.records import record
from tests.findings.test_properties import records

ROWS: Final = (
    "supine-5@5:00 118/74 68",
    "seated-5@5:10 118/76 74",
    "standing-1@1:10 116/80 90",
    "standing-3@3:10 114/78 92",
    "standing-5@5:10 116/80 93",
    "standing-10@10:10 116/80 95",
)
TOLD: Final = Circumstances(
    zone="Europe/Madrid",
    cuff=Cuff.UPPER_ARM,
    rate_source=RateSource.CUFF,
    medicines=(),
    audited=True,
)


def ended(test: TestRecord, told: Circumstances | None = TOLD) -> TestRecord:
    """Return a completed test with its circumstances."""
    return replace(test, ending=Ending.COMPLETED, circumstances=told)


WHOLE: Final = ended(record(*ROWS))


def told(**facts: Any) -> TestRecord:
    """Return the whole test with other circumstances."""
    return replace(WHOLE, circumstances=replace(TOLD, **facts))


def judged(test: TestRecord) -> Quality:
    """Return how well a test was done."""
    return quality(test, find(test))


def without(*rows: int) -> TestRecord:
    """Return the whole test without some of its readings, counted from 1."""
    kept = tuple(r for r in WHOLE.readings if r.number not in rows)
    return replace(WHOLE, readings=kept)


def test_a_test_done_as_planned_is_good() -> None:
    """All read in time, all confirmed, all told, nothing else: good, and no reason."""
    assert judged(WHOLE) == Quality(grade=Grade.GOOD, reasons=())


@pytest.mark.parametrize(
    ("test", "reason", "expected"),
    [
        (
            replace(WHOLE, phases=WHOLE.phases[:2]),
            QualityReason(
                shortfall=Shortfall.POSITION_NOT_CONFIRMED, positions=(Position.STANDING,)
            ),
            Grade.POOR,
        ),
        (
            replace(WHOLE, phases=()),
            QualityReason(shortfall=Shortfall.POSITION_NOT_CONFIRMED, positions=tuple(Position)),
            Grade.POOR,
        ),
        (
            told(departures=(Departure.ILLNESS,)),
            QualityReason(shortfall=Shortfall.ILLNESS, departures=(Departure.ILLNESS,)),
            Grade.POOR,
        ),
        (
            replace(WHOLE, ending=Ending.STOPPED),
            QualityReason(shortfall=Shortfall.ENDED_EARLY, ending=Ending.STOPPED),
            Grade.FAIR,
        ),
        (
            replace(WHOLE, origin=Origin.PAPER),
            QualityReason(shortfall=Shortfall.TIMES_NOT_WATCHED),
            Grade.FAIR,
        ),
        (replace(WHOLE, ending=None), QualityReason(shortfall=Shortfall.NOT_ENDED), Grade.FAIR),
        (
            without(2, 4),
            QualityReason(shortfall=Shortfall.READING_MISSED, slots=("seated-5", "standing-3")),
            Grade.FAIR,
        ),
        (
            ended(record(*ROWS[:-2], "standing-5@5:00 116/80 -", ROWS[-1])),
            QualityReason(shortfall=Shortfall.NUMBER_MISSING, readings=(5,)),
            Grade.FAIR,
        ),
        (
            ended(record(*ROWS[:-1], "standing-10@12:30! 116/80 95")),
            QualityReason(shortfall=Shortfall.READING_LATE, readings=(6,)),
            Grade.FAIR,
        ),
        (
            ended(record(ROWS[0], "seated-5@4:29 118/76 74", *ROWS[2:])),
            QualityReason(shortfall=Shortfall.REST_TOO_SHORT, readings=(2,)),
            Grade.FAIR,
        ),
        (
            told(departures=(Departure.CAFFEINE, Departure.GARMENTS)),
            QualityReason(
                shortfall=Shortfall.DEPARTURE, departures=(Departure.CAFFEINE, Departure.GARMENTS)
            ),
            Grade.FAIR,
        ),
        (told(cuff=Cuff.WRIST), QualityReason(shortfall=Shortfall.WRIST_CUFF), Grade.FAIR),
        (told(cuff=None), QualityReason(shortfall=Shortfall.CUFF_NOT_TOLD), Grade.FAIR),
        (
            told(rate_source=None),
            QualityReason(shortfall=Shortfall.RATE_SOURCE_NOT_TOLD),
            Grade.FAIR,
        ),
        (told(audited=False), QualityReason(shortfall=Shortfall.PREPARATION_NOT_TOLD), Grade.FAIR),
        (
            told(medicines=(Medicine.DIURETIC,), last_dose=LastDose.WITHIN_4_HOURS),
            QualityReason(
                shortfall=Shortfall.MEDICINE,
                medicines=(Medicine.DIURETIC,),
                last_dose=LastDose.WITHIN_4_HOURS,
            ),
            Grade.GOOD,
        ),
        (
            told(departures=(Departure.POOR_SLEEP,)),
            QualityReason(shortfall=Shortfall.POOR_SLEEP, departures=(Departure.POOR_SLEEP,)),
            Grade.GOOD,
        ),
    ],
)
def test_each_reason_by_itself(test: TestRecord, reason: QualityReason, expected: Grade) -> None:
    """One thing that is not as planned gives just its reason, and the grade that it makes."""
    assert judged(test) == Quality(grade=expected, reasons=(reason,))


def test_a_planned_reading_at_the_heads_up_is_rest_enough() -> None:
    """Half a minute before its time a reading stands for its time; design choice."""
    assert judged(ended(record(ROWS[0], "seated-5@4:30 118/76 74", *ROWS[2:]))).reasons == ()


def test_no_baseline_is_serious() -> None:
    """Without a supine reading after enough rest no change can be had."""
    found = judged(without(1))
    assert [reason.shortfall for reason in found.reasons] == [
        Shortfall.NO_BASELINE,
        Shortfall.READING_MISSED,
    ]
    assert found.grade is Grade.POOR


def test_no_standing_reading_is_serious() -> None:
    """Without one there is nothing to compare; how long the person stood goes without saying."""
    found = judged(without(3, 4, 5, 6))
    assert [reason.shortfall for reason in found.reasons] == [
        Shortfall.NO_STANDING_READING,
        Shortfall.READING_MISSED,
    ]
    assert found.grade is Grade.POOR


def test_one_short_stand() -> None:
    """One standing reading at 3 min: a rise cannot be confirmed, and a later one not be seen."""
    found = judged(without(3, 5, 6))
    assert [reason.shortfall for reason in found.reasons] == [
        Shortfall.READING_MISSED,
        Shortfall.ONE_STANDING_READING,
        Shortfall.STOOD_SHORT,
    ]
    assert found.grade is Grade.FAIR


@pytest.mark.parametrize("first", ["standing@3:01 116/80 90", "standing@3:00 -/- 90"])
def test_the_first_3_minutes_are_a_note(first: str) -> None:
    """No pressure within 3 min of standing is said, and costs nothing: some plans have none."""
    rows = (*ROWS[:2], first, "standing-5@5:10 116/80 93", "standing-10@10:10 116/80 95")
    found = judged(ended(record(*rows, protocol=FOUR_READINGS.ref)))
    assert found == Quality(
        grade=Grade.GOOD, reasons=(QualityReason(shortfall=Shortfall.FIRST_3_MINUTES),)
    )


@pytest.mark.parametrize("pressure", ["116/-", "-/80"])
def test_one_pressure_measures_the_first_3_minutes(pressure: str) -> None:
    """Either pressure within them is a number there."""
    rows = (*ROWS[:2], f"standing@2:00 {pressure} 90", *ROWS[4:])
    found = judged(ended(record(*rows, protocol=FOUR_READINGS.ref)))
    assert found.reasons == ()


def test_nothing_told_is_not_good() -> None:
    """Where nothing was asked, the test may be as good as any; it is not known to be."""
    found = judged(replace(WHOLE, circumstances=None))
    assert [reason.shortfall for reason in found.reasons] == [
        Shortfall.CUFF_NOT_TOLD,
        Shortfall.RATE_SOURCE_NOT_TOLD,
        Shortfall.PREPARATION_NOT_TOLD,
        Shortfall.MEDICINES_NOT_TOLD,
    ]
    assert found.grade is Grade.FAIR


def test_a_last_dose_that_was_not_told() -> None:
    """It is missed where a medicine is taken, and only there."""
    found = judged(told(medicines=(Medicine.BETA_BLOCKER,)))
    assert [reason.shortfall for reason in found.reasons] == [
        Shortfall.LAST_DOSE_NOT_TOLD,
        Shortfall.MEDICINE,
    ]
    assert judged(told(medicines=())).reasons == ()


def test_departures_go_by_what_they_do() -> None:
    """Illness is serious, poor sleep a note, all others limit the test."""
    found = judged(told(departures=tuple(Departure)))
    assert {reason.shortfall: set(reason.departures) for reason in found.reasons} == {
        Shortfall.ILLNESS: {Departure.ILLNESS},
        Shortfall.DEPARTURE: set(Departure) - {Departure.ILLNESS, Departure.POOR_SLEEP},
        Shortfall.POOR_SLEEP: {Departure.POOR_SLEEP},
    }


def test_every_shortfall_has_a_weight_and_they_stand_in_its_order() -> None:
    """The order of shortfalls is that of weight; a medicine as prescribed is never more than one.

    Nobody's test gets a worse grade for taking what was prescribed.
    """
    assert list(WEIGHTS) == list(Shortfall)
    weights = list(Weight)
    ranks = [weights.index(WEIGHTS[shortfall]) for shortfall in Shortfall]
    assert ranks == sorted(ranks)
    assert WEIGHTS[Shortfall.MEDICINE] is Weight.NOTE


@pytest.mark.parametrize(
    ("shortfalls", "expected"),
    [
        ([], Grade.GOOD),
        ([Shortfall.MEDICINE, Shortfall.FIRST_3_MINUTES], Grade.GOOD),
        ([Shortfall.MEDICINE, Shortfall.WRIST_CUFF], Grade.FAIR),
        ([Shortfall.READING_LATE, Shortfall.READING_MISSED, Shortfall.STOOD_SHORT], Grade.FAIR),
        ([Shortfall.WRIST_CUFF, Shortfall.NO_BASELINE, Shortfall.MEDICINE], Grade.POOR),
    ],
)
def test_the_weightiest_reason_makes_the_grade(
    shortfalls: list[Shortfall], expected: Grade
) -> None:
    """One serious reason makes it poor, any number of limiting ones fair, notes nothing."""
    assert grade([QualityReason(shortfall=one) for one in shortfalls]) is expected


GRADES = list(Grade)  # best first
departures = st.lists(st.sampled_from(Departure), unique=True).map(tuple)


@given(taken=records(), some=departures, more=st.sampled_from(Departure))
@settings(deadline=None)
def test_a_departure_never_improves_the_grade(
    taken: TestRecord, some: tuple[Departure, ...], more: Departure
) -> None:
    """One more departure leaves the grade or lowers it, and takes no reason away."""
    before = judged(ended(taken, replace(TOLD, departures=some)))
    after = judged(ended(taken, replace(TOLD, departures=(*some, more))))
    assert GRADES.index(after.grade) >= GRADES.index(before.grade)
    kinds = {reason.shortfall for reason in before.reasons}
    assert kinds <= {reason.shortfall for reason in after.reasons}


@given(taken=records(), ending=st.sampled_from([None, *Ending]))
@settings(deadline=None)
def test_reasons_are_told_once_and_in_order(taken: TestRecord, ending: Ending | None) -> None:
    """Each shortfall stands once, in order, and the first makes the grade."""
    found = judged(replace(taken, ending=ending))
    order = [list(Shortfall).index(reason.shortfall) for reason in found.reasons]
    assert order == sorted(set(order))
    heaviest = found.reasons[0].weight if found.reasons else Weight.NOTE
    assert (
        found.grade
        is {Weight.SERIOUS: Grade.POOR, Weight.LIMITING: Grade.FAIR, Weight.NOTE: Grade.GOOD}[
            heaviest
        ]
    )


def test_a_poor_test_keeps_its_findings() -> None:
    """A rise that is met stays met whatever the grade."""
    rows = ("supine-5@5:00 118/74 68", "standing@5:00 116/80 105", "standing@9:50 116/80 106")
    poor = ended(record(*rows), replace(TOLD, departures=(Departure.ILLNESS,)))
    found = find(poor)
    assert quality(poor, found).grade is Grade.POOR
    assert found.on(Line.HEART_RATE_RISE).state is State.MET
