"""Published and open-data figures come out as their sources have them."""

import pytest

from bot.findings import Finding, Line, Reason, State, find
from bot.protocol.record import AgeBand, Measure
from tests.findings.records import rates, record, three

# Miwa 2023 (Circ Rep 5:55): active 10-min stand, lying -> highest heart rate; adults; no pressures.
# The author's rule has a second arm, a standing rate of 120 or more.
MIWA_POSITIVE = [
    (79, 113),
    (72, 102),
    (63, 104),
    (73, 110),
    (71, 105),
    (69, 102),
    (62, 92),
    (45, 84),
    (64, 102),
    (50, 81),
    (75, 108),
]
MIWA_BY_120_ALONE = [(92, 120, 28), (98, 121, 23), (101, 126, 25)]
MIWA_NEGATIVE = [
    (76, 105, 29),
    (73, 100, 27),
    (58, 76, 18),
    (71, 99, 28),
    (69, 98, 29),
    (62, 81, 19),
    (73, 99, 26),
    (66, 90, 24),
    (40, 62, 22),
    (52, 78, 26),
    (83, 107, 24),
    (93, 112, 19),
]


def sustained(lying: int, highest: int) -> dict[Line, Finding]:
    """Return the findings on a pair whose highest rate was read at 5 and at 10 min."""
    found = find(rates(lying, ("5:00", highest), ("10:00", highest)))
    return {finding.line: finding for finding in found.findings}


@pytest.mark.parametrize(("lying", "highest"), MIWA_POSITIVE)
def test_miwa_positive_pairs_meet_the_rise(lying: int, highest: int) -> None:
    """Every pair that Miwa labels positive by its size meets the line of 30."""
    rise = sustained(lying, highest)[Line.HEART_RATE_RISE]
    assert (rise.state, rise.size, rise.limit) == (State.MET, highest - lying, 30)


@pytest.mark.parametrize(("lying", "highest", "size"), MIWA_NEGATIVE)
def test_miwa_negative_pairs_do_not_meet_the_rise(lying: int, highest: int, size: int) -> None:
    """Every pair that Miwa labels negative stays under the line, and under 120."""
    found = sustained(lying, highest)
    rise = found[Line.HEART_RATE_RISE]
    assert (rise.state, rise.size, rise.limit) == (State.NOT_MET, size, 30)
    assert found[Line.STANDING_RATE_120].state is State.NOT_MET


@pytest.mark.parametrize(("lying", "highest", "size"), MIWA_BY_120_ALONE)
def test_miwa_pairs_by_120_alone_are_not_flagged(lying: int, highest: int, size: int) -> None:
    """Pairs that are positive by the older arm alone are an observation, never a rise."""
    found = sustained(lying, highest)
    rise = found[Line.HEART_RATE_RISE]
    assert rise.size == size
    assert rise.state is (State.CANNOT_JUDGE if lying > 100 else State.NOT_MET)
    assert found[Line.STANDING_RATE_120].state is State.MET


def test_miwa_pair_from_above_100_is_another_pattern() -> None:
    """101 -> 126 starts above 100: the line does not apply, and the reason says so."""
    found = sustained(101, 126)
    assert found[Line.HEART_RATE_RISE].reasons == (Reason.SUPINE_RATE_HIGH,)
    assert found[Line.SUPINE_RATE_HIGH].state is State.MET


@pytest.mark.parametrize(("lying", "highest"), [(45, 84), (50, 81)])
def test_miwa_pairs_from_below_60_carry_the_note(lying: int, highest: int) -> None:
    """A rise from below 60 stays met, with the Canadian statement's note beside it."""
    found = sustained(lying, highest)
    assert Reason.SUPINE_RATE_BELOW_60 in found[Line.HEART_RATE_RISE].reasons
    assert found[Line.SUPINE_RATE_BELOW_60].state is State.MET


# CDISC pilot study (open clinical-trial sample data, elderly adults; CDISC SDTM/ADaM pilot
# project): lying 5 min | standing 1 min | standing 3 min, and the lines with their deciding sizes.
CDISC = [
    pytest.param(
        ("132/86 86", "133/98 133", "134/98 134"),
        {
            Line.HEART_RATE_RISE: (State.MET, 48),
            Line.CLASSICAL_FALL: (State.NOT_MET, 1),
            Line.STANDING_RATE_120: (State.MET, 134),
        },
        id="sustained, no fall",
    ),
    pytest.param(
        ("126/60 51", "122/72 84", "107/64 83"),
        {
            Line.HEART_RATE_RISE: (State.MET, 33),
            Line.CLASSICAL_FALL: (State.NOT_MET, -19),
            Line.SUPINE_RATE_BELOW_60: (State.MET, 51),
            Line.NEUROGENIC_PATTERN: (State.CANNOT_JUDGE, None),
        },
        id="sustained, -19 is no fall, lying below 60",
    ),
    pytest.param(
        ("142/92 92", "132/100 120", "154/100 120"),
        {
            Line.HEART_RATE_RISE: (State.NOT_MET, 28),
            Line.STANDING_RATE_120: (State.MET, 120),
            Line.SUPINE_HYPERTENSION: (State.MET, 142),
            Line.CLASSICAL_FALL: (State.NOT_MET, -10),
        },
        id="28 is not met, 120 noted, lying hypertension",
    ),
    pytest.param(
        ("115/69 72", "101/65 83", "95/61 84"),
        {
            Line.CLASSICAL_FALL: (State.MET, -20),
            Line.NEUROGENIC_PATTERN: (State.NOT_MET, 0.60),
            Line.LARGE_FALL: (State.NOT_MET, -20),
        },
        id="-20 exactly is a fall, ratio 0.60",
    ),
    pytest.param(
        ("138/85 62", "145/76 62", "139/75 66"),
        {
            Line.CLASSICAL_FALL: (State.MET, -10),
            Line.NEUROGENIC_PATTERN: (State.CANNOT_JUDGE, None),
        },
        id="-10 exactly by diastolic alone",
    ),
    pytest.param(
        ("178/87 51", "153/68 53", "138/58 51"),
        {
            Line.CLASSICAL_FALL: (State.MET, -40),
            Line.LARGE_FALL: (State.MET, -40),
            Line.NEUROGENIC_PATTERN: (State.MET, 0.0),
            Line.SUPINE_HYPERTENSION: (State.MET, 178),
            Line.HEART_RATE_RISE: (State.NOT_MET, 2),
        },
        id="neurogenic pattern, lying hypertension, large fall",
    ),
    pytest.param(
        ("170/74 68", "130/82 80", "170/90 90"),
        {Line.CLASSICAL_FALL: (State.MET, -40), Line.LATER_FALL: (State.NOT_MEASURED, None)},
        id="a fall at 1 min only",
    ),
    pytest.param(
        ("113/80 60", "160/88 68", "170/90 68"),
        {
            Line.PRESSURE_RISE: (State.MET, 57),
            Line.PRESSOR_RESPONSE: (State.MET, 57),
            Line.CLASSICAL_FALL: (State.NOT_MET, 8),
        },
        id="orthostatic hypertension",
    ),
    pytest.param(
        ("110/60 88", "70/50 80", "78/56 68"),
        {
            Line.CLASSICAL_FALL: (State.MET, -40),
            Line.STANDING_SYSTOLIC_LOW: (State.MET, 70),
            Line.NEUROGENIC_PATTERN: (State.CANNOT_JUDGE, None),
            Line.HEART_RATE_RISE: (State.NOT_MET, -8),
        },
        id="reflex pattern, systolic below 90",
    ),
    pytest.param(
        ("100/60 60", "80/60 90", "78/60 75"),
        {
            Line.HEART_RATE_RISE: (State.CANNOT_JUDGE, 30),
            Line.CLASSICAL_FALL: (State.MET, -22),
            Line.SUPINE_RATE_BELOW_60: (State.NOT_MET, 60),
        },
        id="+30 once with a fall is not the postural pattern",
    ),
]


@pytest.mark.parametrize(("rows", "expected"), CDISC)
def test_cdisc_rows(
    rows: tuple[str, str, str], expected: dict[Line, tuple[State, float | None]]
) -> None:
    """Each row of the CDISC pilot study gives the lines it must give, with their sizes."""
    found = find(three(*rows))
    assert {line: (found.on(line).state, found.on(line).size) for line in expected} == expected


@pytest.mark.parametrize(
    ("rows", "changes"),
    [
        # the table's own figures where it has them (ΔHR 47, 48; 33, 32; 28, 28; -40/-29 ...), the
        # rest by hand
        (("132/86 86", "133/98 133", "134/98 134"), [(47, 1, 12), (48, 2, 12)]),
        (("126/60 51", "122/72 84", "107/64 83"), [(33, -4, 12), (32, -19, 4)]),
        (("142/92 92", "132/100 120", "154/100 120"), [(28, -10, 8), (28, 12, 8)]),
        (("115/69 72", "101/65 83", "95/61 84"), [(11, -14, -4), (12, -20, -8)]),
        (("138/85 62", "145/76 62", "139/75 66"), [(0, 7, -9), (4, 1, -10)]),
        (("178/87 51", "153/68 53", "138/58 51"), [(2, -25, -19), (0, -40, -29)]),
        (("170/74 68", "130/82 80", "170/90 90"), [(12, -40, 8), (22, 0, 16)]),
        (("113/80 60", "160/88 68", "170/90 68"), [(8, 47, 8), (8, 57, 10)]),
        (("110/60 88", "70/50 80", "78/56 68"), [(-8, -40, -10), (-20, -32, -4)]),
        (("100/60 60", "80/60 90", "78/60 75"), [(30, -20, 0), (15, -22, 0)]),
    ],
)
def test_cdisc_changes(rows: tuple[str, str, str], changes: list[tuple[int, int, int]]) -> None:
    """The changes are standing minus lying, at both readings of each row."""
    found = find(three(*rows))
    assert [(c.heart_rate, c.systolic, c.diastolic) for c in found.changes] == changes


def test_every_check_value_is_here() -> None:
    """26 pairs of Miwa 2023 and ten rows of the CDISC pilot study, none twice."""
    pairs = [*MIWA_POSITIVE, *((a, b) for a, b, _ in MIWA_BY_120_ALONE + MIWA_NEGATIVE)]
    assert (len(pairs), len(set(pairs))) == (26, 26)
    rows = [row.values[0] for row in CDISC]
    assert (len(rows), len(set(rows))) == (10, 10)


def test_cdisc_sustained_rise_from_below_60_carries_the_note() -> None:
    """126/60 51: both rises of 33 and 32 count, and the lying rate below 60 is noted."""
    rise = find(three("126/60 51", "122/72 84", "107/64 83")).on(Line.HEART_RATE_RISE)
    assert rise.evidence == (1, 2, 3)
    assert rise.reasons == (Reason.SUPINE_RATE_BELOW_60,)


def test_cdisc_fall_with_a_high_lying_pressure_names_the_apter_line() -> None:
    """178/87 lying: the fall is met, and the line of 30 may be the apter one (Freeman 2011)."""
    fall = find(three("178/87 51", "153/68 53", "138/58 51")).on(Line.CLASSICAL_FALL)
    assert fall.reasons == (Reason.SUPINE_PRESSURE_HIGH,)


def test_cdisc_fall_by_diastolic_alone_names_its_measure() -> None:
    """Where the diastolic pressure alone fell, the finding says which number decided and when."""
    fall = find(three("138/85 62", "145/76 62", "139/75 66")).on(Line.CLASSICAL_FALL)
    assert (fall.measure, fall.limit, fall.evidence) == (Measure.DIASTOLIC, -10, (1, 3))


def test_cdisc_reflex_row_says_that_the_heart_rate_fell() -> None:
    """A fall in pressure and heart rate together is a reflex pattern, not a neurogenic one."""
    pattern = find(three("110/60 88", "70/50 80", "78/56 68")).on(Line.NEUROGENIC_PATTERN)
    assert pattern.reasons == (Reason.HEART_RATE_FELL,)


def test_cdisc_rise_with_a_fall_says_that_the_pressure_fell() -> None:
    """A rise that comes with orthostatic hypotension carries that reason."""
    rise = find(three("100/60 60", "80/60 90", "78/60 75")).on(Line.HEART_RATE_RISE)
    assert rise.reasons == (Reason.PRESSURE_FELL,)


def test_cdisc_fall_at_1_min_is_lost_without_early_readings() -> None:
    """Read at 5 and 10 min alone, the row with a fall at 1 min only says that it cannot know."""
    found = find(
        record(
            "supine-5@5:00 170/74 68", "standing-5@5:00 170/90 90", "standing-10@10:00 170/90 90"
        )
    )
    fall = found.on(Line.CLASSICAL_FALL)
    assert (fall.state, fall.reasons) == (State.NOT_MEASURED, (Reason.NOTHING_WITHIN_3_MINUTES,))
    assert found.on(Line.LARGE_FALL).state is State.CANNOT_JUDGE


@pytest.mark.parametrize(
    ("rows", "state", "ratio"),
    [
        # Norcliffe-Kaufmann 2018 (Ann Neurol 83:522), group means: neurogenic -43 and +8.
        (("150/80 70", "140/80 74", "107/80 78"), State.MET, 0.19),
        # The same, other causes: -21 and +25.
        (("130/80 70", "120/80 80", "109/80 95"), State.NOT_MET, 1.19),
    ],
)
def test_group_means_of_the_neurogenic_ratio(
    rows: tuple[str, str, str], state: State, ratio: float
) -> None:
    """The published group means fall on their own sides of the ratio."""
    pattern = find(three(*rows)).on(Line.NEUROGENIC_PATTERN)
    assert pattern.state is state
    assert pattern.size == pytest.approx(ratio, abs=0.005)


def test_group_mean_of_healthy_adolescents() -> None:
    """Zhao 2015 (BMJ Open 5:e007356), healthy 13 to 18: 79 -> 101 is below the line of 40."""
    found = find(rates(79, ("5:00", 101), ("10:00", 101), age=AgeBand.FROM_12_TO_19))
    rise = found.on(Line.HEART_RATE_RISE)
    assert (rise.state, rise.size, rise.limit) == (State.NOT_MET, 22, 40)
