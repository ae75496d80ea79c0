"""Invented tests of invented people, from the plainest to the oddest."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Final

from hypothesis import strategies as st

from bot.protocol.definition import Position, Protocol
from bot.protocol.record import (
    AgeBand,
    Ending,
    PhaseStart,
    Reading,
    StopReason,
    Symptom,
    SymptomReport,
    TestRecord,
    Values,
)
from bot.protocol.released import FOUR_READINGS, SIX_READINGS

LYING_AT: Final = datetime(2026, 3, 2, 9, 15, tzinfo=UTC)
STARTS: Final = {
    Position.SUPINE: LYING_AT,
    Position.SEATED: LYING_AT + timedelta(minutes=6, seconds=20),
    Position.STANDING: LYING_AT + timedelta(minutes=12, seconds=40),
}
TYPED_AFTER: Final = timedelta(seconds=20)

Numbers = tuple[int | None, int | None, int | None]


def record(
    protocol: Protocol,
    numbers: Mapping[str, Numbers],
    *,
    late: tuple[str, ...] = (),
    symptoms: tuple[SymptomReport, ...] = (),
    ended_after: timedelta = timedelta(minutes=24),
    ending: Ending | None = Ending.COMPLETED,
    age_band: AgeBand | None = AgeBand.FROM_20,
) -> TestRecord:
    """Return a test with a systolic, diastolic and heart rate for each planned reading taken."""
    ended_at = LYING_AT + ended_after
    readings: list[Reading] = []
    for slot in protocol.slots:
        if slot.id in numbers:
            position = protocol.phase_of(slot.id).position
            delay = slot.window + timedelta(minutes=1) if slot.id in late else TYPED_AFTER
            readings.append(
                reading(
                    len(readings) + 1,
                    position,
                    slot.due + delay,
                    numbers[slot.id],
                    slot=slot.id,
                    late=slot.id in late,
                )
            )
    return TestRecord(
        number=1,
        protocol=protocol.ref,
        age_band=age_band,
        began_at=LYING_AT - timedelta(minutes=1),
        phases=tuple(
            PhaseStart(position=position, started_at=at)
            for position, at in STARTS.items()
            if at < ended_at
        ),
        readings=tuple(readings),
        symptoms=symptoms,
        ended_at=ended_at,
        ending=ending,
    )


def reading(
    number: int,
    position: Position,
    offset: timedelta,
    numbers: Numbers,
    *,
    slot: str | None = None,
    late: bool = False,
) -> Reading:
    """Return one reading; without a slot it was not planned."""
    systolic, diastolic, heart_rate = numbers
    return Reading(
        number=number,
        position=position,
        slot=slot,
        values=Values(systolic=systolic, diastolic=diastolic, heart_rate=heart_rate),
        offset=offset,
        given_at=STARTS[position] + offset,
        late=late,
    )


def symptom(
    kind: Symptom,
    minutes: float,
    *,
    strength: int | None = None,
    words: str | None = None,
    position: Position | None = Position.STANDING,
) -> SymptomReport:
    """Return a symptom told so many minutes into a position (or after lying down)."""
    offset = timedelta(minutes=minutes)
    return SymptomReport(
        symptom=kind,
        words=words,
        strength=strength,
        told_at=STARTS[position or Position.SUPINE] + offset,
        position=position,
        offset=offset if position else None,
    )


CLEAR_RISE: Final = record(
    FOUR_READINGS,
    {
        "supine-5": (118, 74, 68),
        "seated-5": (121, 78, 80),
        "standing-5": (116, 80, 101),
        "standing-10": (112, 79, 106),
    },
    symptoms=(
        symptom(Symptom.DIZZY, 2, strength=6),
        symptom(Symptom.OTHER, 9, words="my legs buzz"),
    ),
)
NO_CHANGE: Final = record(
    SIX_READINGS,
    {
        "supine-5": (124, 76, 72),
        "seated-5": (122, 77, 75),
        "standing-1": (120, 78, 84),
        "standing-3": (121, 79, 83),
        "standing-5": (122, 79, 82),
        "standing-10": (123, 80, 84),
    },
)
QUIET_FOUR: Final = record(
    FOUR_READINGS,
    {
        "supine-5": (124, 76, 72),
        "seated-5": (122, 77, 75),
        "standing-5": (122, 79, 82),
        "standing-10": (123, 80, 84),
    },
)
SLOWER: Final = record(
    FOUR_READINGS,
    {"supine-5": (124, 76, 90), "standing-5": (122, 79, 82), "standing-10": (123, 80, 84)},
)
RISE_ONCE: Final = record(
    FOUR_READINGS,
    {
        "supine-5": (118, 74, 68),
        "seated-5": (121, 78, 80),
        "standing-5": (116, 80, 101),
        "standing-10": (112, 79, 90),
    },
)
EARLY_FALL: Final = record(
    SIX_READINGS,
    {
        "supine-5": (142, 92, 92),
        "seated-5": (140, 90, 99),
        "standing-1": (118, 80, 120),
        "standing-3": (110, 78, 122),
        "standing-5": (116, 80, 119),
        "standing-10": (121, 84, 120),
    },
    late=("standing-5",),
)
LATER_FALL: Final = record(
    FOUR_READINGS,
    {
        "supine-5": (128, 82, 64),
        "seated-5": (126, 82, 66),
        "standing-5": (104, 78, 70),
        "standing-10": (102, 76, 71),
    },
)
DIASTOLIC_FALL: Final = record(
    SIX_READINGS,
    {
        "supine-5": (138, 85, 62),
        "standing-1": (145, 76, 62),
        "standing-3": (139, 75, 66),
        "standing-5": (138, 76, 65),
        "standing-10": (139, 76, 66),
    },
)
VERY_HIGH: Final = record(
    SIX_READINGS,
    {
        "supine-5": (178, 118, 104),
        "seated-5": (180, 119, 106),
        "standing-1": (186, 121, 126),
        "standing-3": (210, 124, 140),
    },
    ended_after=timedelta(minutes=16),
    ending=Ending.UNSAFE_READING,
)
STOPPED: Final = replace(
    record(
        SIX_READINGS,
        {"supine-5": (110, 60, 88), "standing-1": (84, 50, 80), "standing-3": (80, 48, None)},
        symptoms=(symptom(Symptom.FAINT, 3.5, strength=9),),
        ended_after=timedelta(minutes=17),
        ending=Ending.STOPPED,
    ),
    stop_reason=StopReason.FELT_FAINT,
    stop_words="everything went grey",
)
EMERGENCY: Final = record(
    FOUR_READINGS,
    {"supine-5": (118, 74, 68)},
    ended_after=timedelta(minutes=14),
    ending=Ending.EMERGENCY,
)
NOTHING: Final = record(
    FOUR_READINGS, {}, ended_after=timedelta(minutes=2), ending=Ending.SILENT, age_band=None
)
BEFORE_LYING: Final = replace(NOTHING, phases=(), ended_at=LYING_AT, ending=Ending.STOPPED)
ONLY_LYING: Final = record(
    FOUR_READINGS,
    {"supine-5": (118, 74, 68)},
    ended_after=timedelta(minutes=6),
    ending=Ending.STOPPED,
)
NO_LYING: Final = record(SIX_READINGS, {"standing-1": (118, 74, 98), "standing-10": (112, 70, 104)})
HALF: Final = record(
    SIX_READINGS,
    {"supine-5": (None, 74, 68), "standing-1": (118, None, 98), "standing-10": (112, 70, None)},
)
CORRECTED: Final = replace(
    CLEAR_RISE.with_reading(replace(CLEAR_RISE.readings[2], values=Values(heart_rate=97))),
    revision=2,
)
TEENAGER: Final = replace(CLEAR_RISE, age_band=AgeBand.FROM_12_TO_19)
CHILD: Final = replace(CLEAR_RISE, age_band=AgeBand.UNDER_12)
AGE_NOT_TOLD: Final = replace(CLEAR_RISE, age_band=None)
UNDER_WAY: Final = replace(ONLY_LYING, ended_at=None, ending=None)
HOURS_LATE: Final = replace(
    CLEAR_RISE,
    readings=(
        *CLEAR_RISE.readings,
        reading(5, Position.STANDING, timedelta(hours=5), (120, 80, 77)),
    ),
    ended_at=LYING_AT + timedelta(hours=7),
)
CROWDED: Final = replace(
    EARLY_FALL,
    number=12,
    readings=(
        *EARLY_FALL.readings,
        *(
            reading(
                7 + n, Position.STANDING, timedelta(seconds=30 + 45 * n), (115 - n, 80, 100 + n)
            )
            for n in range(12)
        ),
    ),
    symptoms=tuple(
        symptom(kind, 0.5 * n, strength=10, words="Wort und noch ein Wort " * 13)
        for n, kind in enumerate((*Symptom, *Symptom))
    ),
    ending=Ending.STOPPED,
    stop_reason=StopReason.OTHER,
    stop_words="because of one thing and another " * 10,
)
AT_ONCE: Final = replace(
    CLEAR_RISE, symptoms=tuple(symptom(kind, 3, strength=5) for kind in Symptom)
)

EXAMPLES: Final[Mapping[str, TestRecord]] = {
    name.lower().replace("_", "-"): value
    for name, value in list(globals().items())
    if isinstance(value, TestRecord)
}
"""All of the above by name."""

HOSTILE: Final = (
    '#eval("1")',
    "*bold* _it_ `code` $x^2$ <label> @ref // no",
    "<script>alert(1)</script> & ]]> &amp; \"'",
    "left \u202e right \u2066 turned",
    "smile \U0001f635\u200d\U0001f4ab \U0001f1ea\U0001f1f8 \u2764\ufe0f",
    "عندي دوخة 头晕 めまい",
    "\x00\x07\x1b[31m\r\n\t\ud800 e\u0301 \u0301",
    "=HYPERLINK(\"http://x\") | 'quote'",
    "w" * 300,
    "word " * 60,
    "\N{REPLACEMENT CHARACTER}\ufeff\uffff\U0010ffff",
    "   ",
)
"""Words that try to be something else."""


@st.composite
def any_record(draw: st.DrawFn) -> TestRecord:
    """Any test at all: readings missed, late, in between, half given; any words."""
    protocol = draw(st.sampled_from([FOUR_READINGS, SIX_READINGS]))
    pressures = st.none() | st.integers(min_value=40, max_value=260)
    rates = st.none() | st.integers(min_value=25, max_value=220)
    triple = st.tuples(pressures, pressures, rates)
    slots = draw(st.sets(st.sampled_from([slot.id for slot in protocol.slots])))
    ended_after = timedelta(seconds=draw(st.integers(min_value=0, max_value=1600)))
    base = record(
        protocol,
        {slot: draw(triple) for slot in slots},
        late=tuple(draw(st.sets(st.sampled_from(sorted(slots))))) if slots else (),
        ended_after=ended_after,
        ending=draw(st.sampled_from(Ending)),
        age_band=draw(st.none() | st.sampled_from(AgeBand)),
    )
    extras = draw(
        st.lists(st.tuples(st.integers(min_value=0, max_value=20_000), triple), max_size=8)
    )
    told = draw(
        st.lists(
            st.tuples(
                st.sampled_from(Symptom),
                st.floats(min_value=0, max_value=30),
                st.none() | st.integers(min_value=0, max_value=10),
                st.none() | st.text(max_size=60) | st.sampled_from(HOSTILE),
            ),
            max_size=20,
        )
    )
    return replace(
        base,
        readings=(
            *base.readings,
            *(
                reading(
                    len(base.readings) + 1 + n, Position.STANDING, timedelta(seconds=offset), given
                )
                for n, (offset, given) in enumerate(extras)
            ),
        ),
        symptoms=tuple(
            symptom(kind, at, strength=strength, words=words) for kind, at, strength, words in told
        ),
        stop_words=draw(st.none() | st.text(max_size=60) | st.sampled_from(HOSTILE)),
    )
