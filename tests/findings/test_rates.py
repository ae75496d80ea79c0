"""The heart-rate lines: the rise with its conditions, and single rates."""

from datetime import timedelta

import pytest

from bot.findings import Finding, Line, Reason, State, find
from bot.protocol.record import AgeBand, Measure
from tests.findings.records import at, rates, record, three


def rise_of(*standing: tuple[str, int], lying: int = 70, age: AgeBand = AgeBand.FROM_20) -> Finding:
    """Return the finding on the rise of heart rates alone."""
    return find(rates(lying, *standing, age=age)).on(Line.HEART_RATE_RISE)


@pytest.mark.parametrize(
    ("age", "rise", "state"),
    [
        (AgeBand.FROM_20, 29, State.NOT_MET),
        (AgeBand.FROM_20, 30, State.MET),
        (AgeBand.FROM_12_TO_19, 30, State.NOT_MET),
        (AgeBand.FROM_12_TO_19, 39, State.NOT_MET),
        (AgeBand.FROM_12_TO_19, 40, State.MET),
    ],
)
def test_the_edge_of_the_rise(age: AgeBand, rise: int, state: State) -> None:
    """The line itself is met and one under it is not: 30 from 20 years up, 40 from 12 to 19."""
    finding = rise_of(("5:00", 70 + rise), ("10:00", 70 + rise), age=age)
    assert (finding.state, finding.size) == (state, rise)
    assert finding.limit == (40 if age is AgeBand.FROM_12_TO_19 else 30)
    assert finding.evidence == (1, 2, 3)


@pytest.mark.parametrize(
    ("age", "reason"), [(AgeBand.UNDER_12, Reason.UNDER_12), (None, Reason.AGE_NOT_TOLD)]
)
def test_without_a_line_for_the_age_a_rise_is_not_classified(
    age: AgeBand | None, reason: Reason
) -> None:
    """However large, the rise is shown with no limit and with the reason."""
    finding = find(rates(70, ("5:00", 130), ("10:00", 125), age=age)).on(Line.HEART_RATE_RISE)
    assert (finding.state, finding.reasons) == (State.CANNOT_JUDGE, (reason,))
    assert (finding.size, finding.limit, finding.evidence) == (60, None, (1, 2, 3))


@pytest.mark.parametrize(
    ("second", "state", "reasons"),
    [
        ("6:00", State.MET, (Reason.FALL_NOT_EXCLUDED,)),
        ("5:59", State.MET_ONCE, (Reason.READINGS_TOO_CLOSE, Reason.FALL_NOT_EXCLUDED)),
    ],
)
def test_sustained_means_a_minute_apart(
    second: str, state: State, reasons: tuple[Reason, ...]
) -> None:
    """Two readings over the line confirm it exactly 1 min apart, and not at 59 s."""
    finding = rise_of(("5:00", 101), (second, 100))
    assert (finding.state, finding.reasons) == (state, reasons)
    assert (finding.size, finding.at, finding.measure) == (31, at("5:00"), Measure.HEART_RATE)
    assert finding.evidence == (1, 2, 3)


def test_a_reading_in_between_confirms_a_rise() -> None:
    """The rise rests on real offsets: a reading that nobody asked for counts as well."""
    planned = ("supine-5@5:00 120/80 70", "standing-5@5:10 120/80 101")
    assert find(record(*planned)).on(Line.HEART_RATE_RISE).state is State.MET_ONCE
    confirmed = record(*planned, "standing@7:00 120/80 102")
    assert find(confirmed).on(Line.HEART_RATE_RISE).state is State.MET


def test_over_the_line_once_is_not_confirmed() -> None:
    """One reading over the line and one under it is met once, on the one that was over."""
    finding = rise_of(("5:00", 101), ("10:00", 99))
    assert (finding.state, finding.reasons) == (State.MET_ONCE, (Reason.FALL_NOT_EXCLUDED,))
    assert (finding.size, finding.evidence) == (31, (1, 2))


def test_two_over_too_close_and_one_under() -> None:
    """Two readings over the line within a minute count as one, whatever came after."""
    finding = rise_of(("5:00", 101), ("5:30", 101), ("10:00", 80))
    assert finding.state is State.MET_ONCE
    assert finding.reasons[0] is Reason.READINGS_TOO_CLOSE


def test_any_two_of_several_sustain_a_rise() -> None:
    """Readings that follow within a minute do not spoil those further apart."""
    assert rise_of(("5:00", 101), ("5:30", 101), ("10:00", 101)).state is State.MET
    assert rise_of(("5:00", 101), ("9:30", 101), ("10:00", 101)).state is State.MET


def test_over_at_the_first_and_last_of_three_is_sustained() -> None:
    """Any two readings over the line, a minute apart, sustain it, as the rule has it."""
    finding = rise_of(("1:00", 100), ("3:00", 90), ("5:00", 100))
    assert (finding.state, finding.evidence) == (State.MET, (1, 2, 4))


def test_one_standing_reading_over_the_line() -> None:
    """A single reading over the line is met once, and says that there was only one."""
    finding = rise_of(("5:00", 101))
    assert finding.state is State.MET_ONCE
    assert finding.reasons == (Reason.ONE_STANDING_READING, Reason.FALL_NOT_EXCLUDED)


def test_one_standing_reading_under_the_line_cannot_be_judged() -> None:
    """A single reading under the line carries no "not met"."""
    finding = rise_of(("5:00", 80))
    assert (finding.state, finding.reasons) == (State.CANNOT_JUDGE, (Reason.ONE_STANDING_READING,))
    assert (finding.size, finding.limit) == (10, 30)


@pytest.mark.parametrize(
    ("second", "state"), [("5:59", State.CANNOT_JUDGE), ("6:00", State.NOT_MET)]
)
def test_two_readings_under_the_line_have_to_be_a_minute_apart(second: str, state: State) -> None:
    """Two readings under the line carry a "not met" from 1 min apart on."""
    finding = rise_of(("5:00", 80), (second, 80))
    assert finding.state is state
    assert (Reason.READINGS_TOO_CLOSE in finding.reasons) is (state is State.CANNOT_JUDGE)


@pytest.mark.parametrize(("last", "short"), [("9:29", True), ("9:30", False), ("10:00", False)])
def test_not_met_on_a_short_stand_says_so(last: str, short: bool) -> None:
    """Without a reading near 10 min, a "not met" is to be read with care."""
    finding = rise_of(("3:00", 80), (last, 80))
    assert finding.state is State.NOT_MET
    assert finding.reasons == ((Reason.SHORT_STAND,) if short else ())


def test_the_planned_reading_at_10_min_stands_for_10_min() -> None:
    """Typed on time after 10:00, it counts for the rise; given unasked after 10:00, it does not."""
    rows = ("supine-5@5:00 120/80 70", "standing-5@5:00 120/80 105")
    assert (
        find(record(*rows, "standing-10@11:50 120/80 105")).on(Line.HEART_RATE_RISE).state
        is State.MET
    )
    unasked = find(record(*rows, "standing@10:01 120/80 105")).on(Line.HEART_RATE_RISE)
    assert (unasked.state, unasked.evidence) == (State.MET_ONCE, (1, 2))
    assert unasked.reasons == (
        Reason.ONE_STANDING_READING,
        Reason.FALL_NOT_EXCLUDED,
        Reason.AFTER_10_MINUTES,
    )


def test_a_late_reading_after_10_min_does_not_count() -> None:
    """A "not met" is never carried by a reading after 10 min, nor a rise lost without a word."""
    finding = find(
        record("supine-5@5:00 -/- 70", "standing-5@5:00 -/- 80", "standing-10@12:30! -/- 120")
    ).on(Line.HEART_RATE_RISE)
    assert finding.state is State.CANNOT_JUDGE
    assert finding.reasons == (Reason.ONE_STANDING_READING, Reason.AFTER_10_MINUTES)


def test_not_met_mentions_a_reading_after_10_min() -> None:
    """Enough readings under the line are not met, and the one that did not count is named."""
    finding = rise_of(("1:00", 80), ("5:00", 80), ("12:00", 120))
    assert finding.state is State.NOT_MET
    assert finding.reasons == (Reason.AFTER_10_MINUTES, Reason.SHORT_STAND)


def test_only_readings_after_10_min_measure_no_rise() -> None:
    """With every standing reading after 10 min, the rise was not measured."""
    finding = rise_of(("11:00", 120), ("13:00", 120))
    assert (finding.state, finding.reasons) == (State.NOT_MEASURED, (Reason.AFTER_10_MINUTES,))
    assert (finding.size, finding.limit, finding.at, finding.evidence) == (None, None, None, ())


def test_a_rise_with_a_late_reading_carries_the_note() -> None:
    """A rise that rests on a reading taken after its window says so."""
    rows = ("supine-5@5:00 120/80 70", "standing-1@1:00 120/80 75", "standing-3@3:00 120/80 76")
    found = find(record(*rows, "standing-5@7:00! 120/80 105", "standing-10@10:00 120/80 105"))
    rise = found.on(Line.HEART_RATE_RISE)
    assert (rise.state, rise.reasons) == (State.MET, (Reason.LATE_READING,))
    assert found.late == (4,)


def test_a_late_reading_that_decides_nothing_leaves_no_note() -> None:
    """The note is for findings that rest on the late reading, not for all of them."""
    rows = ("supine-5@5:00 120/80 70", "standing-1@1:00 120/80 101", "standing-3@3:00 120/80 102")
    rise = find(record(*rows, "standing-5@7:00! 120/80 90")).on(Line.HEART_RATE_RISE)
    assert (rise.state, rise.reasons) == (State.MET, ())


def test_a_late_baseline_is_noted_on_every_change() -> None:
    """Changes rest on the supine reading too, so its lateness is told."""
    found = find(record("supine-5@9:00! 120/80 70", "standing-1@1:00 121/81 75"))
    assert Reason.LATE_READING in found.on(Line.CLASSICAL_FALL).reasons
    assert Reason.LATE_READING in found.on(Line.SUPINE_HYPERTENSION).reasons
    assert Reason.LATE_READING not in found.on(Line.STANDING_RATE_120).reasons


@pytest.mark.parametrize(
    "fall",
    [
        "standing@2:00 100/80 80",  # classical, systolic
        "standing@2:00 120/70 80",  # classical, diastolic
        "standing@8:00 100/80 80",  # later
        "standing@12:00 100/80 -",  # later, and after the rise's own 10 min
    ],
)
def test_a_rise_with_a_fall_is_never_the_postural_one(fall: str) -> None:
    """A pressure fall at any standing reading makes a sustained rise another pattern."""
    rows = ("supine-5@5:00 120/80 70", "standing-5@5:00 120/80 105", "standing-10@10:00 120/80 105")
    rise = find(record(*rows, fall)).on(Line.HEART_RATE_RISE)
    assert (rise.state, rise.reasons) == (State.CANNOT_JUDGE, (Reason.PRESSURE_FELL,))
    assert (rise.size, rise.limit) == (35, 30)


def test_a_fall_without_a_rise_leaves_the_rise_not_met() -> None:
    """Under the line, a fall changes nothing: there is no rise to explain."""
    rise = find(three("120/80 70", "95/70 80", "95/70 82")).on(Line.HEART_RATE_RISE)
    assert (rise.state, rise.reasons) == (State.NOT_MET, (Reason.SHORT_STAND,))


def test_a_rise_without_early_pressures_says_that_a_fall_is_not_excluded() -> None:
    """At 5 and 10 min alone, a fall in the first 3 min may have been there: the rise says so."""
    rows = ("supine-5@5:00 120/80 70", "standing-5@5:00 122/80 105", "standing-10@10:00 122/80 104")
    rise = find(record(*rows)).on(Line.HEART_RATE_RISE)
    assert (rise.state, rise.reasons) == (State.MET, (Reason.FALL_NOT_EXCLUDED,))
    whole = record(*rows, "standing@1:00 122/80 -", "standing@3:00 122/80 -")
    assert find(whole).on(Line.HEART_RATE_RISE).reasons == ()


def test_a_rise_read_without_its_pressure_says_that_a_fall_is_not_excluded() -> None:
    """Early pressures do not speak for a later reading that has a heart rate alone."""
    rows = ("supine-5@5:00 120/80 70", "standing-1@1:00 122/80 90", "standing-3@3:00 122/80 90")
    late_rates = ("standing-5@5:00 -/- 105", "standing-10@10:00 122/80 105")
    rise = find(record(*rows, *late_rates)).on(Line.HEART_RATE_RISE)
    assert (rise.state, rise.reasons) == (State.MET, (Reason.FALL_NOT_EXCLUDED,))


def test_a_reading_under_the_line_needs_no_pressure() -> None:
    """Whether a fall is excluded goes by the readings that show the rise, and the first 3 min."""
    rows = ("supine-5@5:00 120/80 70", "standing-1@1:00 122/80 90", "standing-3@3:00 -/- 90")
    risen = ("standing-5@5:00 122/80 105", "standing-10@10:00 122/80 105")
    assert find(record(*rows, *risen)).on(Line.HEART_RATE_RISE).reasons == ()


@pytest.mark.parametrize(("lying", "state"), [(100, State.MET), (101, State.CANNOT_JUDGE)])
def test_above_100_lying_a_rise_is_another_pattern(lying: int, state: State) -> None:
    """A supine rate of 100 leaves the rise standing; 101 makes it another pattern."""
    finding = rise_of(("5:00", lying + 35), ("10:00", lying + 35), lying=lying)
    assert finding.state is state
    assert (Reason.SUPINE_RATE_HIGH in finding.reasons) is (state is State.CANNOT_JUDGE)


def test_above_100_lying_no_rise_is_excluded_either() -> None:
    """The line does not apply there, so a small rise is not called "not met"."""
    finding = rise_of(("5:00", 110), ("10:00", 110), lying=105)
    assert (finding.state, finding.reasons) == (State.CANNOT_JUDGE, (Reason.SUPINE_RATE_HIGH,))


def test_a_fall_weighs_more_than_a_high_supine_rate() -> None:
    """Both reasons are given, the fall first."""
    finding = find(three("120/80 101", "95/70 135", "95/70 135")).on(Line.HEART_RATE_RISE)
    assert finding.reasons == (Reason.PRESSURE_FELL, Reason.SUPINE_RATE_HIGH)


@pytest.mark.parametrize(("lying", "noted"), [(59, True), (60, False)])
def test_below_60_lying_a_rise_stays_met_with_a_note(lying: int, noted: bool) -> None:
    """The Canadian statement's wish for 60 or more is a note; the rise stays."""
    for standing in ([("5:00", 95), ("10:00", 95)], [("5:00", 95), ("10:00", 70)]):
        finding = rise_of(*standing, lying=lying)
        assert finding.state in {State.MET, State.MET_ONCE}
        assert (Reason.SUPINE_RATE_BELOW_60 in finding.reasons) is noted


@pytest.mark.parametrize(
    ("rows", "reason"),
    [
        (["standing-5@5:00 120/80 99"], Reason.NO_SUPINE_READING),
        (["supine-5@5:00 120/80 -", "standing-5@5:00 120/80 99"], Reason.SUPINE_NUMBER_MISSING),
        (["supine-5@5:00 120/80 70"], Reason.NO_STANDING_READING),
        (["supine-5@5:00 120/80 70", "seated-5@5:00 120/80 75"], Reason.NO_STANDING_READING),
        (["supine-5@5:00 120/80 70", "standing-5@5:00 120/80 -"], Reason.STANDING_NUMBER_MISSING),
        ([], Reason.NO_SUPINE_READING),
    ],
)
def test_a_rise_that_was_not_measured_says_what_was_missing(
    rows: list[str], reason: Reason
) -> None:
    """Each number that the rise needs is named when it is missing."""
    finding = find(record(*rows)).on(Line.HEART_RATE_RISE)
    assert (finding.state, finding.reasons) == (State.NOT_MEASURED, (reason,))
    assert (finding.size, finding.limit, finding.evidence) == (None, None, ())


@pytest.mark.parametrize(
    ("line", "rate", "state"),
    [
        (Line.SUPINE_RATE_HIGH, 100, State.NOT_MET),
        (Line.SUPINE_RATE_HIGH, 101, State.MET),
        (Line.SUPINE_RATE_BELOW_60, 60, State.NOT_MET),
        (Line.SUPINE_RATE_BELOW_60, 59, State.MET),
        (Line.BRADYCARDIA, 50, State.NOT_MET),
        (Line.BRADYCARDIA, 49, State.MET),
    ],
)
def test_edges_of_the_supine_rate(line: Line, rate: int, state: State) -> None:
    """Above 100, below 60 and below 50 are lines; 100, 60 and 50 themselves are not over them."""
    finding = find(record(f"supine-5@5:00 -/- {rate}")).on(line)
    assert (finding.state, finding.size, finding.evidence) == (state, rate, (1,))


@pytest.mark.parametrize(
    "line", [Line.SUPINE_RATE_HIGH, Line.SUPINE_RATE_BELOW_60, Line.BRADYCARDIA]
)
def test_the_supine_rate_may_not_have_been_measured(line: Line) -> None:
    """Without a supine reading or without its rate, the lines on it are not measured."""
    none = find(record("standing@5:00 120/80 45")).on(line)
    assert (none.state, none.reasons) == (State.NOT_MEASURED, (Reason.NO_SUPINE_READING,))
    part = find(record("supine-5@5:00 120/80 -")).on(line)
    assert (part.state, part.reasons) == (State.NOT_MEASURED, (Reason.SUPINE_NUMBER_MISSING,))


@pytest.mark.parametrize(("rate", "state"), [(119, State.NOT_MET), (120, State.MET)])
def test_the_edge_of_the_standing_rate(rate: int, state: State) -> None:
    """A standing rate of 120 is noted and 119 is not, with or without a supine reading."""
    finding = find(record("standing@1:00 -/- 90", f"standing@5:00 -/- {rate}"))
    on = finding.on(Line.STANDING_RATE_120)
    assert (on.state, on.size, on.at) == (state, rate, timedelta(minutes=5))


def test_a_seated_or_supine_rate_of_120_is_not_a_standing_one() -> None:
    """Only standing readings are held against the line of 120."""
    found = find(record("supine-5@5:00 -/- 125", "seated-5@5:00 -/- 125"))
    on = found.on(Line.STANDING_RATE_120)
    assert (on.state, on.reasons) == (State.NOT_MEASURED, (Reason.NO_STANDING_READING,))
    without = find(record("standing-5@5:00 120/80 -")).on(Line.STANDING_RATE_120)
    assert without.reasons == (Reason.STANDING_NUMBER_MISSING,)


def test_a_rise_that_does_not_count_rests_on_the_lying_reading() -> None:
    """With a fall of pressure the rise is not judged, and names the readings it rests on."""
    finding = find(three("120/80 70", "100/70 90", "98/70 104")).on(Line.HEART_RATE_RISE)
    assert (finding.state, finding.reasons) == (State.CANNOT_JUDGE, (Reason.PRESSURE_FELL,))
    assert (finding.size, finding.evidence) == (34, (1, 3))
