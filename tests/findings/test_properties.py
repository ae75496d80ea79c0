"""What holds of the findings on any record at all."""

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.findings import Line, Reason, State, find
from bot.protocol.definition import Position
from bot.protocol.record import AgeBand, PhaseStart, Reading, TestRecord, Values
from bot.protocol.released import RELEASED
from tests.findings.records import BEGAN_AT, STARTS_AFTER

CHANGE_LINES = {
    Line.HEART_RATE_RISE,
    Line.CLASSICAL_FALL,
    Line.LATER_FALL,
    Line.LARGE_FALL,
    Line.PRESSURE_RISE,
    Line.PRESSOR_RESPONSE,
    Line.NEUROGENIC_PATTERN,
}
JUDGED = {State.MET, State.MET_ONCE, State.NOT_MET}
CLOSE_TO_LINES = st.sampled_from([1, 60, 70, 80, 89, 90, 100, 110, 120, 140, 180, 300])
NUMBERS = st.one_of(st.none(), CLOSE_TO_LINES, st.integers(1, 300))


@st.composite
def records(draw: st.DrawFn) -> TestRecord:
    """Draw a record with any readings, at any offsets, with any numbers missing."""
    protocol = RELEASED[draw(st.sampled_from(sorted(RELEASED)))]
    readings = []
    for number in range(1, draw(st.integers(0, 7)) + 1):
        position = draw(st.sampled_from([Position.SUPINE, *Position, Position.STANDING]))
        slots = [
            slot.id for slot in protocol.slots if protocol.phase_of(slot.id).position is position
        ]
        offset = timedelta(
            seconds=draw(
                st.one_of(st.sampled_from([60, 180, 181, 270, 300, 600, 601]), st.integers(0, 900))
            )
        )
        slot = draw(st.sampled_from([None, *slots]))
        readings.append(
            Reading(
                number=number,
                position=position,
                slot=slot,
                values=Values(
                    systolic=draw(NUMBERS), diastolic=draw(NUMBERS), heart_rate=draw(NUMBERS)
                ),
                offset=offset,
                given_at=BEGAN_AT + STARTS_AFTER[position] + offset,
                late=slot is not None and draw(st.booleans()),
            )
        )
    return TestRecord(
        number=1,
        protocol=protocol.ref,
        age_band=draw(st.sampled_from([None, *AgeBand])),
        began_at=BEGAN_AT,
        phases=tuple(
            PhaseStart(position=position, started_at=BEGAN_AT + after)
            for position, after in STARTS_AFTER.items()
        ),
        readings=tuple(readings),
    )


def property_of(test: Callable[[TestRecord], None]) -> Callable[[], None]:
    """Run a test on many records, however slow the machine."""
    return settings(deadline=None)(given(taken=records())(test))


@property_of
def test_every_line_gets_one_finding_in_order(taken: TestRecord) -> None:
    """Whatever is missing, nothing raises, and each line is answered once."""
    found = find(taken)
    assert [finding.line for finding in found.findings] == list(Line)
    assert all(found.on(line).line is line for line in Line)


@property_of
def test_every_finding_holds_together(taken: TestRecord) -> None:
    """A judged line has a size, a limit and evidence, an unmeasured one none, the rest a reason."""
    for finding in find(taken).findings:
        assert len(set(finding.reasons)) == len(finding.reasons)
        if finding.state in JUDGED:
            assert None not in (finding.size, finding.limit, finding.at)
            assert finding.evidence
        else:
            assert finding.reasons
        if finding.state is State.NOT_MEASURED:
            assert (finding.size, finding.limit, finding.at) == (None, None, None)
            assert finding.evidence == ()
        assert set(finding.evidence) <= {reading.number for reading in taken.readings}


@property_of
def test_every_change_rests_on_the_baseline(taken: TestRecord) -> None:
    """A finding on a change names the supine reading and at least one standing reading."""
    found = find(taken)
    standing = {change.reading.number for change in found.changes}
    for line in CHANGE_LINES:
        evidence = set(found.on(line).evidence)
        if evidence:
            assert found.baseline is not None
            assert found.baseline.number in evidence
            assert evidence - {found.baseline.number} <= standing
            assert len(evidence) > 1


@property_of
def test_the_size_is_on_the_side_that_the_state_says(taken: TestRecord) -> None:
    """A rise or a fall is met just where its size reaches its limit."""
    found = find(taken)
    for line in (Line.HEART_RATE_RISE, Line.PRESSOR_RESPONSE):
        finding = found.on(line)
        if finding.state in JUDGED:
            assert finding.size is not None
            assert finding.limit is not None
            assert (finding.size >= finding.limit) is (finding.state is not State.NOT_MET)
    for line in (Line.CLASSICAL_FALL, Line.LATER_FALL, Line.LARGE_FALL):
        finding = found.on(line)
        if finding.state in JUDGED:
            assert finding.size is not None
            assert finding.limit is not None
            assert (finding.size <= finding.limit) is (finding.state is State.MET)


@given(taken=records(), random=st.randoms(use_true_random=False))
@settings(deadline=None)
def test_the_order_of_readings_does_not_matter(taken: TestRecord, random: Random) -> None:
    """The findings are of what was measured, however the record lists it."""
    shuffled = list(taken.readings)
    random.shuffle(shuffled)
    assert find(replace(taken, readings=tuple(shuffled))) == find(taken)


@property_of
def test_without_a_baseline_no_change_is_judged(taken: TestRecord) -> None:
    """With no supine reading, no line on a change is met or not met, and none has a change."""
    upright = tuple(r for r in taken.readings if r.position is not Position.SUPINE)
    found = find(replace(taken, readings=upright))
    assert (found.baseline, found.changes) == (None, ())
    for line in CHANGE_LINES:
        assert found.on(line).state is State.NOT_MEASURED
        assert found.on(line).reasons == (Reason.NO_SUPINE_READING,)


@property_of
def test_seated_readings_change_no_line_but_very_high_pressure(taken: TestRecord) -> None:
    """Sitting is neither lying nor standing: its readings have no say in any other line."""
    rest = tuple(r for r in taken.readings if r.position is not Position.SEATED)
    found, without = find(taken), find(replace(taken, readings=rest))
    for line in set(Line) - {Line.VERY_HIGH_PRESSURE}:
        assert found.on(line) == without.on(line)


@given(taken=records(), more=st.integers(1, 40))
@settings(deadline=None)
def test_a_constant_added_to_all_rates_changes_no_change(taken: TestRecord, more: int) -> None:
    """Changes are differences: what is added to every heart rate drops out."""
    shifted = replace(taken, readings=tuple(_faster(reading, more) for reading in taken.readings))
    assert [change.heart_rate for change in find(shifted).changes] == [
        change.heart_rate for change in find(taken).changes
    ]


@property_of
def test_no_classical_fall_is_said_without_early_pressures(taken: TestRecord) -> None:
    """A "not met" of the first 3 min has a standing pressure asked for or given within them."""
    found = find(taken)
    fall = found.on(Line.CLASSICAL_FALL)
    if fall.state is not State.NOT_MET:
        return
    planned = {slot.id: slot.due for slot in RELEASED[taken.protocol].slots}
    limit = timedelta(minutes=3)
    assert any(
        reading.position is Position.STANDING
        and (reading.values.systolic, reading.values.diastolic) != (None, None)
        and (
            reading.offset <= limit
            or (reading.slot is not None and not reading.late and planned[reading.slot] <= limit)
        )
        for reading in taken.readings
    )
    for change in found.changes:
        if change.reading.offset <= limit:
            assert change.systolic is None or change.systolic > -20
            assert change.diastolic is None or change.diastolic > -10


@property_of
def test_a_rise_is_met_just_as_the_rule_is_written(taken: TestRecord) -> None:
    """The published rule, written out once more by brute force, agrees on what is met."""
    found = find(taken)
    planned = {slot.id: slot.due for slot in RELEASED[taken.protocol].slots}
    line = {AgeBand.FROM_20: 30, AgeBand.FROM_12_TO_19: 40}.get(taken.age_band or AgeBand.UNDER_12)
    over = [
        change.reading.offset
        for change in found.changes
        if line is not None
        and change.heart_rate is not None
        and change.heart_rate >= line
        and (
            change.reading.offset <= timedelta(minutes=10)
            or (
                change.reading.slot is not None
                and not change.reading.late
                and planned[change.reading.slot] <= timedelta(minutes=10)
            )
        )
    ]
    sustained = any(abs(a - b) >= timedelta(minutes=1) for a in over for b in over)
    fell = any(
        (change.systolic is not None and change.systolic <= -20)
        or (change.diastolic is not None and change.diastolic <= -10)
        for change in found.changes
    )
    resting = found.baseline.values.heart_rate if found.baseline else None
    postural = resting is not None and resting <= 100 and not fell
    expected = (postural and sustained, postural and bool(over) and not sustained)
    state = found.on(Line.HEART_RATE_RISE).state
    assert (state is State.MET, state is State.MET_ONCE) == expected


@property_of
def test_a_finding_on_a_late_reading_says_so(taken: TestRecord) -> None:
    """The note is there just when the evidence holds a reading taken after its window."""
    found = find(taken)
    for finding in found.findings:
        rests_on_late = bool(set(finding.evidence) & set(found.late))
        assert (Reason.LATE_READING in finding.reasons) is rests_on_late


@given(taken=records(), deeper=st.integers(1, 60))
@settings(deadline=None)
def test_a_deeper_fall_never_undoes_a_fall(taken: TestRecord, deeper: int) -> None:
    """Lower standing pressures leave every fall met, and never make a rise of the heart rate so."""
    lower = tuple(
        _lower(reading, deeper) if reading.position is Position.STANDING else reading
        for reading in taken.readings
    )
    before, after = find(taken), find(replace(taken, readings=lower))
    for line in (Line.CLASSICAL_FALL, Line.LARGE_FALL, Line.STANDING_SYSTOLIC_LOW):
        if before.on(line).state is State.MET:
            assert after.on(line).state is State.MET
    if before.on(Line.HEART_RATE_RISE).state is not State.MET:
        assert after.on(Line.HEART_RATE_RISE).state is not State.MET


def _faster(reading: Reading, more: int) -> Reading:
    rate = reading.values.heart_rate
    if rate is None:
        return reading
    return replace(reading, values=replace(reading.values, heart_rate=rate + more))


def _lower(reading: Reading, by: int) -> Reading:
    systolic, diastolic = reading.values.systolic, reading.values.diastolic
    return replace(
        reading,
        values=replace(
            reading.values,
            systolic=None if systolic is None else systolic - by,
            diastolic=None if diastolic is None else diastolic - by,
        ),
    )
