"""The pressure lines: falls, rises, the neurogenic ratio, and single pressures."""

from dataclasses import replace

import pytest

from bot.findings import Finding, Line, Reason, State, find
from bot.protocol.circumstances import Circumstances, Medicine
from bot.protocol.record import Measure
from tests.findings.records import at, pressures, record, three

LYING = "130/80"
LATE_ROWS = ("standing-5@5:00 130/80 -", "standing-10@10:00 130/80 -")


def on(line: Line, *rows: str) -> Finding:
    """Return the finding on one line of a record."""
    return find(record(*rows)).on(line)


@pytest.mark.parametrize(
    ("standing", "state", "size", "measure"),
    [
        ("111/80", State.NOT_MET, -19, Measure.SYSTOLIC),
        ("110/80", State.MET, -20, Measure.SYSTOLIC),
        ("130/71", State.NOT_MET, -9, Measure.DIASTOLIC),
        ("130/70", State.MET, -10, Measure.DIASTOLIC),
        ("111/70", State.MET, -10, Measure.DIASTOLIC),
        ("110/70", State.MET, -20, Measure.SYSTOLIC),  # on a tie the systolic one decides
        ("110/60", State.MET, -20, Measure.DIASTOLIC),
    ],
)
def test_the_edges_of_a_fall(standing: str, state: State, size: int, measure: Measure) -> None:
    """-20 systolic or -10 diastolic is a fall, early or later; -19 and -9 are not."""
    early = find(pressures(LYING, ("1:00", standing), ("3:00", standing))).on(Line.CLASSICAL_FALL)
    later = find(pressures(LYING, ("1:00", "130/80"), ("2:00", "130/80"), ("10:00", standing))).on(
        Line.LATER_FALL
    )
    for finding in (early, later):
        assert (finding.state, finding.size, finding.measure) == (state, size, measure)
        assert finding.reasons == ()


@pytest.mark.parametrize(
    ("row", "within"),
    [
        ("standing@2:59 110/80 -", True),
        ("standing@3:00 110/80 -", True),
        ("standing@3:01 110/80 -", False),
        ("standing-3@3:00 110/80 -", True),
        ("standing-3@4:00 110/80 -", True),  # answers the prompt at 3:00 within its window
        ("standing-3@4:10! 110/80 -", False),
        ("standing-1@2:30! 110/80 -", True),  # late for 1:00, and still within 3 min
        ("standing-1@3:30! 110/80 -", False),
        ("standing-5@2:50 110/80 -", True),  # whatever its name, it was given at 2:50
        ("standing-5@5:00 110/80 -", False),
        ("standing-99@3:30 110/80 -", False),  # a name that the protocol does not have
    ],
)
def test_within_3_min_goes_by_the_real_offset_or_the_prompt(row: str, within: bool) -> None:
    """A fall counts as classical up to 3:00, or in answer to a prompt up to 3:00 on time."""
    found = find(record("supine-5@5:00 130/80 -", row))
    states = (found.on(Line.CLASSICAL_FALL).state, found.on(Line.LATER_FALL).state)
    early, late = (State.MET, State.NOT_MEASURED), (State.NOT_MEASURED, State.MET)
    assert states == (early if within else late)


def test_a_fall_first_seen_at_5_min_may_have_been_there_before() -> None:
    """Without a reading in the first 3 min, a fall is "persisting or later", and no more."""
    found = find(record("supine-5@5:00 130/80 -", "standing-5@5:00 105/78 -"))
    classical, later = found.on(Line.CLASSICAL_FALL), found.on(Line.LATER_FALL)
    assert classical.state is State.NOT_MEASURED
    assert classical.reasons == (Reason.NOTHING_WITHIN_3_MINUTES,)
    assert (later.state, later.reasons) == (State.MET, (Reason.PERSISTING_OR_LATER,))
    assert (later.size, later.at, later.evidence) == (-25, at("5:00"), (1, 2))


def test_a_fall_after_measured_first_minutes_is_a_later_one() -> None:
    """With early readings and no fall in them, a fall at 5 min is first seen later."""
    rows = ("supine-5@5:00 130/80 -", "standing-1@1:00 128/80 -", "standing-3@3:00 128/80 -")
    later = on(Line.LATER_FALL, *rows, "standing-5@5:00 105/78 -")
    assert (later.state, later.reasons, later.evidence) == (State.MET, (), (1, 4))


def test_a_fall_seen_early_and_later_is_not_a_later_one() -> None:
    """A fall within 3 min that is still there at 5 min was not first seen later."""
    rows = ("supine-5@5:00 130/80 -", "standing-1@1:00 100/70 -", "standing-5@5:00 105/72 -")
    later = on(Line.LATER_FALL, *rows)
    assert later.state is State.CANNOT_JUDGE
    assert later.reasons == (Reason.FALL_WITHIN_3_MINUTES,)
    assert later.size == -25


def test_a_fall_seen_early_alone_leaves_no_later_one() -> None:
    """A fall within 3 min that is gone by 10 min leaves the later line not met."""
    rows = ("supine-5@5:00 130/80 -", "standing-1@1:00 100/70 -", "standing-10@10:00 130/80 -")
    assert on(Line.LATER_FALL, *rows).state is State.NOT_MET
    assert on(Line.CLASSICAL_FALL, *rows).evidence == (1, 2)


def test_no_classical_fall_is_never_said_without_early_readings() -> None:
    """Readings at 5 and 10 min alone say "not measured" of the first 3, never "not met"."""
    found = find(record("supine-5@5:00 130/80 -", *LATE_ROWS))
    assert found.on(Line.CLASSICAL_FALL).state is State.NOT_MEASURED
    for line in (Line.LARGE_FALL, Line.STANDING_SYSTOLIC_LOW):
        finding = found.on(line)
        assert finding.state is State.CANNOT_JUDGE
        assert finding.reasons == (Reason.NOTHING_WITHIN_3_MINUTES,)


def test_not_met_on_one_early_reading_says_so() -> None:
    """One reading in the first 3 min can miss a brief fall, so a "not met" is marked."""
    fall = on(Line.CLASSICAL_FALL, "supine-5@5:00 130/80 -", "standing-3@3:00 130/80 -")
    assert (fall.state, fall.reasons) == (State.NOT_MET, (Reason.ONE_READING_WITHIN_3_MINUTES,))


@pytest.mark.parametrize(("last", "short"), [("9:29", True), ("9:30", False)])
def test_no_later_fall_on_a_short_stand_says_so(last: str, short: bool) -> None:
    """A later fall may come near 10 min, so a "not met" that ends before is marked."""
    later = find(pressures(LYING, ("1:00", LYING), (last, LYING))).on(Line.LATER_FALL)
    assert (later.state, later.reasons) == (State.NOT_MET, (Reason.SHORT_STAND,) if short else ())


def test_without_later_readings_a_later_fall_was_not_measured() -> None:
    """Readings in the first 3 min alone say nothing about later."""
    later = find(pressures(LYING, ("1:00", LYING), ("3:00", LYING))).on(Line.LATER_FALL)
    assert later.state is State.NOT_MEASURED
    assert later.reasons == (Reason.NOTHING_AFTER_3_MINUTES,)


@pytest.mark.parametrize(
    ("lying", "standing", "state", "reasons"),
    [
        ("130/80", "125/-", State.CANNOT_JUDGE, (Reason.STANDING_NUMBER_MISSING,)),
        ("130/80", "-/78", State.CANNOT_JUDGE, (Reason.STANDING_NUMBER_MISSING,)),
        ("130/-", "125/60", State.CANNOT_JUDGE, (Reason.SUPINE_NUMBER_MISSING,)),
        ("-/80", "90/78", State.CANNOT_JUDGE, (Reason.SUPINE_NUMBER_MISSING,)),
        ("130/80", "110/-", State.MET, ()),
        ("130/80", "-/70", State.MET, ()),
    ],
)
def test_one_pressure_can_show_a_fall_and_not_exclude_it(
    lying: str, standing: str, state: State, reasons: tuple[Reason, ...]
) -> None:
    """Either pressure is enough for a fall; it takes both to say that there was none."""
    early = find(pressures(lying, ("1:00", standing))).on(Line.CLASSICAL_FALL)
    assert (early.state, early.reasons) == (state, reasons)
    later = find(pressures(lying, ("10:00", standing))).on(Line.LATER_FALL)
    assert later.state is state


def test_the_two_pressures_may_come_from_two_early_readings() -> None:
    """A systolic at 1 min and a diastolic at 3 min together carry a "not met"."""
    fall = find(pressures(LYING, ("1:00", "128/-"), ("3:00", "-/80"))).on(Line.CLASSICAL_FALL)
    assert (fall.state, fall.reasons) == (State.NOT_MET, ())


@pytest.mark.parametrize("line", [Line.CLASSICAL_FALL, Line.LATER_FALL])
@pytest.mark.parametrize(
    ("rows", "reason"),
    [
        (["standing@1:00 90/60 -", "standing@5:00 90/60 -"], Reason.NO_SUPINE_READING),
        (["supine-5@5:00 -/- 70", "standing@1:00 90/60 -"], Reason.SUPINE_NUMBER_MISSING),
        (["supine-5@5:00 130/80 70"], Reason.NO_STANDING_READING),
        (["supine-5@5:00 130/80 70", "seated-5@5:00 100/60 70"], Reason.NO_STANDING_READING),
        (["supine-5@5:00 130/80 -", "standing@1:00 -/- 70"], Reason.STANDING_NUMBER_MISSING),
        (["supine-5@5:00 130/- -", "standing@1:00 -/60 -"], Reason.STANDING_NUMBER_MISSING),
    ],
)
def test_a_fall_that_was_not_measured_says_what_was_missing(
    line: Line, rows: list[str], reason: Reason
) -> None:
    """Each thing that a fall needs is named when it is missing."""
    finding = on(line, *rows)
    assert (finding.state, finding.reasons) == (State.NOT_MEASURED, (reason,))
    assert (finding.size, finding.limit, finding.evidence) == (None, None, ())


def test_early_heart_rates_are_no_early_pressures() -> None:
    """With only heart rates in the first 3 min, their pressures were not measured."""
    rows = ("supine-5@5:00 130/80 70", "standing-1@1:00 -/- 80", "standing-5@5:00 130/80 80")
    fall = on(Line.CLASSICAL_FALL, *rows)
    assert (fall.state, fall.reasons) == (State.NOT_MEASURED, (Reason.NOTHING_WITHIN_3_MINUTES,))


def test_a_fall_that_rests_on_a_late_reading_says_so() -> None:
    """A fall read after the reading's window carries the note, after the weightier one."""
    later = on(Line.LATER_FALL, "supine-5@5:00 130/80 -", "standing-5@8:00! 100/80 -")
    assert later.reasons == (Reason.PERSISTING_OR_LATER, Reason.LATE_READING)


@pytest.mark.parametrize("when", ["1:00", "5:00"])
@pytest.mark.parametrize(("lying", "noted"), [("140/80", True), ("139/80", False)])
def test_with_high_supine_pressure_a_fall_points_to_the_apter_line(
    when: str, lying: str, noted: bool
) -> None:
    """A fall from a supine pressure of 140 up says that 30 may be the apter line."""
    found = find(pressures(lying, (when, "119/79")))
    fall = found.on(Line.CLASSICAL_FALL if when == "1:00" else Line.LATER_FALL)
    assert fall.state is State.MET
    assert (Reason.SUPINE_PRESSURE_HIGH in fall.reasons) is noted


@pytest.mark.parametrize(("standing", "state"), [("101/80", State.NOT_MET), ("100/80", State.MET)])
@pytest.mark.parametrize("early", ["1:00", "3:00"])
def test_the_edge_of_a_large_fall(early: str, standing: str, state: State) -> None:
    """-30 systolic is a large fall and -29 is not."""
    finding = find(pressures(LYING, (early, standing))).on(Line.LARGE_FALL)
    assert (finding.state, finding.limit, finding.reasons) == (state, -30, ())


@pytest.mark.parametrize(("systolic", "state"), [(90, State.NOT_MET), (89, State.MET)])
def test_the_edge_of_a_low_standing_systolic(systolic: int, state: State) -> None:
    """Below 90 standing is low and 90 is not; no supine reading is needed."""
    finding = on(Line.STANDING_SYSTOLIC_LOW, f"standing@1:00 {systolic}/60 -")
    assert (finding.state, finding.size, finding.evidence) == (state, systolic, (1,))


@pytest.mark.parametrize(
    ("rows", "reason"),
    [
        (["supine-5@5:00 85/60 -", "seated-5@5:00 85/60 -"], Reason.NO_STANDING_READING),
        (["standing@1:00 -/60 80"], Reason.STANDING_NUMBER_MISSING),
    ],
)
def test_a_standing_systolic_that_was_not_measured(rows: list[str], reason: Reason) -> None:
    """Only a standing systolic pressure can be low; without one, it says what was missing."""
    finding = on(Line.STANDING_SYSTOLIC_LOW, *rows)
    assert (finding.state, finding.reasons) == (State.NOT_MEASURED, (reason,))


@pytest.mark.parametrize("line", [Line.LARGE_FALL, Line.STANDING_SYSTOLIC_LOW])
def test_a_low_pressure_is_excluded_on_early_and_later_readings(line: Line) -> None:
    """With early readings among them, pressures that hold are not met."""
    finding = on(line, "supine-5@5:00 130/80 -", "standing-1@1:00 130/80 -", *LATE_ROWS)
    assert (finding.state, finding.reasons) == (State.NOT_MET, ())


@pytest.mark.parametrize("line", [Line.LARGE_FALL, Line.STANDING_SYSTOLIC_LOW])
def test_a_low_pressure_seen_later_counts_without_early_readings(line: Line) -> None:
    """What was seen was there, whether or not the first 3 min were measured."""
    finding = on(line, "supine-5@5:00 130/80 -", "standing@5:00 85/60 -")
    assert (finding.state, finding.reasons) == (State.MET, ())


@pytest.mark.parametrize(
    ("standing", "rise", "response", "size"),
    [
        ("139/80", State.NOT_MET, State.NOT_MET, 19),
        ("140/80", State.MET, State.MET, 20),
    ],
)
def test_the_edge_of_a_pressure_rise(
    standing: str, rise: State, response: State, size: int
) -> None:
    """+20 to 140 is orthostatic hypertension; +19 is neither that nor a pressor response."""
    found = find(pressures("120/80", ("5:00", standing)))
    assert (found.on(Line.PRESSURE_RISE).state, found.on(Line.PRESSURE_RISE).size) == (rise, size)
    assert found.on(Line.PRESSOR_RESPONSE).state is response


@pytest.mark.parametrize(
    ("lying", "standing", "rise"),
    [
        ("120/80", "140/80", State.MET),
        ("119/80", "139/80", State.NOT_MET),
    ],
)
def test_a_rise_of_20_needs_140_standing(lying: str, standing: str, rise: State) -> None:
    """With the same rise of 20, a standing 140 is hypertension and 139 the response alone."""
    found = find(pressures(lying, ("5:00", standing)))
    assert found.on(Line.PRESSURE_RISE).state is rise
    assert found.on(Line.PRESSOR_RESPONSE).state is State.MET


def test_a_rise_short_of_140_is_decided_by_the_standing_pressure() -> None:
    """The number shown is the one that fell short."""
    finding = find(pressures("110/80", ("5:00", "139/80"))).on(Line.PRESSURE_RISE)
    assert (finding.size, finding.limit) == (139, 140)


def test_the_rise_and_the_high_pressure_belong_to_one_reading() -> None:
    """Only a reading that has both is evidence: 144 is high, and from 125 it is no rise of 20."""
    found = find(pressures("125/80", ("3:00", "144/80"), ("5:00", "145/80"), ("10:00", "130/80")))
    finding = found.on(Line.PRESSURE_RISE)
    assert (finding.state, finding.size, finding.evidence) == (State.MET, 20, (1, 3))


@pytest.mark.parametrize(
    ("rate", "state", "size"),
    [
        (79, State.MET, 0.45),
        (80, State.NOT_MET, 0.5),
        (70, State.MET, 0.0),
        (69, State.CANNOT_JUDGE, None),
    ],
)
def test_the_edges_of_the_neurogenic_ratio(rate: int, state: State, size: float | None) -> None:
    """Below 0.5 is the pattern and 0.5 is not; a heart rate that fell is another pattern."""
    finding = find(three("120/80 70", "118/80 70", f"100/75 {rate}")).on(Line.NEUROGENIC_PATTERN)
    assert (finding.state, finding.size) == (state, size)
    assert finding.evidence == (1, 3)
    expected = {
        State.MET: (Reason.MEDICINES_NOT_TOLD,),
        State.NOT_MET: (),
        State.CANNOT_JUDGE: (Reason.HEART_RATE_FELL,),
    }
    assert finding.reasons == expected[state]


@pytest.mark.parametrize(
    ("medicine", "state", "reasons"),
    [
        # Not on a beta-blocker: Norcliffe-Kaufmann 2018. The other class: from memory.
        (Medicine.BETA_BLOCKER, State.CANNOT_JUDGE, (Reason.SLOWING_MEDICINE,)),
        (Medicine.HEART_SLOWING, State.CANNOT_JUDGE, (Reason.SLOWING_MEDICINE,)),
        (Medicine.STIMULANT, State.MET, ()),
    ],
)
def test_the_ratio_does_not_hold_on_a_medicine_that_slows_the_heart(
    medicine: Medicine, state: State, reasons: tuple[Reason, ...]
) -> None:
    """The ratio is shown on such a medicine and not judged; on another it is, without a note."""
    taken = Circumstances(medicines=(medicine,))
    test = replace(three("120/80 70", "118/80 70", "100/75 72"), circumstances=taken)
    finding = find(test).on(Line.NEUROGENIC_PATTERN)
    assert (finding.state, finding.reasons) == (state, reasons)
    assert (finding.size, finding.limit, finding.evidence) == (0.1, 0.5, (1, 3))


def test_what_is_not_judged_still_rests_on_the_lying_reading() -> None:
    """A later fall after an early one, and a rise to a normal pressure, name what they rest on."""
    fallen = find(pressures(LYING, ("1:00", "100/70"), ("5:00", "105/70"))).on(Line.LATER_FALL)
    assert (fallen.state, fallen.evidence) == (State.CANNOT_JUDGE, (1, 3))
    raised = find(pressures("110/70", ("1:00", "112/70"), ("3:00", "135/75")))
    normal = raised.on(Line.PRESSURE_RISE)
    assert (normal.state, normal.evidence) == (State.NOT_MET, (1, 3))


@pytest.mark.parametrize(
    ("standing", "state"), [("101/75 72", State.CANNOT_JUDGE), ("100/75 72", State.MET)]
)
def test_the_ratio_needs_a_systolic_fall_of_20(standing: str, state: State) -> None:
    """At -19 the ratio is not formed, whatever the diastolic pressure did."""
    finding = find(three("120/90 70", "119/80 72", standing)).on(Line.NEUROGENIC_PATTERN)
    assert finding.state is state
    if state is State.CANNOT_JUDGE:
        assert finding.reasons == (Reason.SYSTOLIC_FALL_UNDER_20,)
        assert (finding.size, finding.limit, finding.measure, finding.at) == (None,) * 4
        assert finding.evidence == (1, 2, 3)
    else:
        assert (finding.measure, finding.at, finding.limit) == (None, at("3:00"), 0.5)


def test_the_ratio_is_formed_at_the_deepest_fall_with_a_heart_rate() -> None:
    """A deeper fall without a heart rate gives way to the next one that has it."""
    rows = ("supine-5@5:00 150/80 70", "standing@1:00 125/80 95", "standing@3:00 120/80 76")
    assert on(Line.NEUROGENIC_PATTERN, *rows).size == pytest.approx(6 / 30)
    deeper = on(Line.NEUROGENIC_PATTERN, *rows, "standing@5:00 100/80 -")
    assert deeper.size == pytest.approx(6 / 30)


@pytest.mark.parametrize(
    ("rows", "reason"),
    [
        (["supine-5@5:00 150/80 -", "standing@1:00 120/80 80"], Reason.SUPINE_NUMBER_MISSING),
        (["supine-5@5:00 150/80 70", "standing@1:00 120/80 -"], Reason.STANDING_NUMBER_MISSING),
        # A heart rate at another reading is no help.
        (
            [
                "supine-5@5:00 150/80 70",
                "standing@1:00 120/80 -",
                "standing@3:00 145/80 75",
            ],
            Reason.STANDING_NUMBER_MISSING,
        ),
    ],
)
def test_a_fall_without_a_heart_rate_has_no_ratio(rows: list[str], reason: Reason) -> None:
    """Without both heart rates, the ratio was not measured."""
    finding = on(Line.NEUROGENIC_PATTERN, *rows)
    assert (finding.state, finding.reasons) == (State.NOT_MEASURED, (reason,))


@pytest.mark.parametrize(
    "line",
    [Line.LARGE_FALL, Line.PRESSURE_RISE, Line.PRESSOR_RESPONSE, Line.NEUROGENIC_PATTERN],
)
@pytest.mark.parametrize(
    ("rows", "reason"),
    [
        (["standing@1:00 90/60 80"], Reason.NO_SUPINE_READING),
        (["supine-5@5:00 -/80 70", "standing@1:00 90/60 80"], Reason.SUPINE_NUMBER_MISSING),
        (["supine-5@5:00 130/80 70"], Reason.NO_STANDING_READING),
        (["supine-5@5:00 130/80 70", "standing@1:00 -/60 80"], Reason.STANDING_NUMBER_MISSING),
    ],
)
def test_a_systolic_change_that_was_not_measured_says_what_was_missing(
    line: Line, rows: list[str], reason: Reason
) -> None:
    """Every line on the systolic change needs both systolic numbers and says which was missing."""
    finding = on(line, *rows)
    assert (finding.state, finding.reasons) == (State.NOT_MEASURED, (reason,))


@pytest.mark.parametrize(
    ("lying", "state"),
    [
        ("139/89", State.NOT_MET),
        ("140/89", State.MET),
        ("139/90", State.MET),
        ("140/-", State.MET),
        ("-/90", State.MET),
        ("139/-", State.CANNOT_JUDGE),
        ("-/89", State.CANNOT_JUDGE),
        ("-/-", State.NOT_MEASURED),
    ],
)
def test_the_edges_of_supine_hypertension(lying: str, state: State) -> None:
    """140 or 90 lying is met by either; it takes both to say that it is not."""
    finding = on(Line.SUPINE_HYPERTENSION, f"supine-5@5:00 {lying} 70")
    assert finding.state is state
    missing = state in {State.CANNOT_JUDGE, State.NOT_MEASURED}
    assert finding.reasons == ((Reason.SUPINE_NUMBER_MISSING,) if missing else ())


def test_supine_hypertension_needs_rest() -> None:
    """A high pressure read early or sitting is no supine hypertension."""
    finding = on(Line.SUPINE_HYPERTENSION, "supine@2:00 160/95 70", "seated-5@5:00 160/95 70")
    assert (finding.state, finding.reasons) == (State.NOT_MEASURED, (Reason.NO_SUPINE_READING,))


@pytest.mark.parametrize(
    ("standing", "state"),
    [("100/75", State.NOT_MET), ("100/76", State.MET), ("104/79", State.MET)],
)
def test_the_edge_of_a_narrow_pulse_pressure(standing: str, state: State) -> None:
    """Under a quarter of the systolic pressure is narrow; a quarter is not."""
    finding = on(Line.NARROW_PULSE_PRESSURE, f"standing@5:00 {standing} -")
    systolic, diastolic = (int(number) for number in standing.split("/"))
    assert finding.state is state
    assert (finding.size, finding.limit) == (systolic - diastolic, systolic / 4)
    assert finding.measure is None


def test_a_pulse_pressure_needs_both_pressures_standing() -> None:
    """Lying and seated readings, and halves of a reading, give no standing pulse pressure."""
    lying = on(Line.NARROW_PULSE_PRESSURE, "supine-5@5:00 100/90 -", "seated-5@5:00 100/90 -")
    assert (lying.state, lying.reasons) == (State.NOT_MEASURED, (Reason.NO_STANDING_READING,))
    half = on(Line.NARROW_PULSE_PRESSURE, "standing@1:00 100/- -", "standing@2:00 -/90 -")
    assert (half.state, half.reasons) == (State.NOT_MEASURED, (Reason.STANDING_NUMBER_MISSING,))


@pytest.mark.parametrize(
    ("pressure", "state"),
    [
        ("179/119", State.NOT_MET),
        ("180/119", State.MET),
        ("179/120", State.MET),
        ("180/-", State.MET),
        ("-/120", State.MET),
        ("179/-", State.CANNOT_JUDGE),
        ("-/119", State.CANNOT_JUDGE),
        ("-/-", State.NOT_MEASURED),
    ],
)
@pytest.mark.parametrize(
    "place", ["supine@1:00", "supine-5@5:00", "seated-5@5:00", "standing@9:00"]
)
def test_the_edges_of_a_very_high_pressure(place: str, pressure: str, state: State) -> None:
    """180 or 120 counts in any position and at any time, by either pressure."""
    finding = on(Line.VERY_HIGH_PRESSURE, f"{place} {pressure} 70")
    assert finding.state is state
    missing = state in {State.CANNOT_JUDGE, State.NOT_MEASURED}
    assert finding.reasons == ((Reason.PRESSURE_MISSING,) if missing else ())


def test_every_very_high_pressure_is_evidence() -> None:
    """All the readings that reach the line are named, so that a second one can be seen."""
    finding = on(
        Line.VERY_HIGH_PRESSURE,
        "supine-5@5:00 185/100 70",
        "seated-5@5:00 150/100 70",
        "standing@1:00 190/125 70",
    )
    assert (finding.size, finding.measure, finding.evidence) == (190, Measure.SYSTOLIC, (1, 3))
