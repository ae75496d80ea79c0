"""The columns of the CSV and what each holds: the header, and its dictionary for people."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Final

from bot.findings.certainty import Band
from bot.findings.quality import Grade, Shortfall
from bot.findings.result import Line, State
from bot.protocol.circumstances import Cuff, DayKind, Departure, LastDose, Medicine, RateSource
from bot.protocol.definition import Position
from bot.protocol.record import AgeBand, Answer, Ending, Origin, Symptom
from bot.reports.rows import Status


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column.

    Attributes:
        name: As it stands in the header, the unit at its end.
        holds: What its cells hold, in Markdown.
    """

    name: str
    holds: str


AGAIN: Final = "again"
"""What stands for the status of numbers measured again after the test."""

PERSON: Final = Column(
    name="person",
    holds="The clinic's reference of the person, or else the conversation's id. Only in a file of "
    "many people.",
)

ON_CHANGES: Final = (
    Line.HEART_RATE_RISE,
    Line.CLASSICAL_FALL,
    Line.LATER_FALL,
    Line.LARGE_FALL,
    Line.PRESSURE_RISE,
    Line.PRESSOR_RESPONSE,
)
"""The lines that a change is held against, and that have a certainty."""


def stem(line: Line) -> str:
    """Return how the columns of a line begin: `heart_rate_rise`."""
    return line.replace("-", "_")


def _codes(codes: Iterable[str]) -> str:
    return ", ".join(f"`{code}`" for code in codes)


def _several(codes: type[StrEnum]) -> str:
    return f"Parted by ` \\| `: {_codes(codes)}; `none` when asked and none was named."


_ON_A_LINE: Final = (
    Column(name="{line}_state", holds=f"Where the test stands against the line: {_codes(State)}."),
    Column(
        name="{line}_probability",
        holds="That the true change is at or past the line, given the error of the device; 0 to 1, "
        "rounded, so 1 is no certainty; empty when the line is not judged.",
    ),
    Column(
        name="{line}_band",
        holds=f"How sure that is: {_codes(Band)}; empty when the line is not judged.",
    ),
)
"""What there is of each line on a change."""

_PLAIN: Final = (
    Column(name="test", holds="Counts this person's tests from 1."),
    Column(name="revision", holds="Of the result; goes up with each correction after the end."),
    Column(name="protocol_id", holds="Name of the protocol."),
    Column(name="protocol_version", holds="Its version."),
    Column(name="age_band", holds=f"Decides the heart-rate line: {_codes(AgeBand)}."),
    Column(name="ending", holds=f"{_codes(Ending)}; empty while the test is under way."),
    Column(
        name="reading",
        holds="Number of the reading in the test, in the order given; empty when it was missed or "
        "is none of the test.",
    ),
    Column(name="slot", holds="Id of the planned reading; empty when it was not planned."),
    Column(name="position", holds=f"{_codes(Position)}; empty for numbers measured again."),
    Column(
        name="status",
        holds=f"{_codes(Status)} or `{AGAIN}`: late is after its window, extra is not planned, "
        "again was measured once more after the test, since a pressure was very high: no reading "
        "of the test, in its last rows.",
    ),
    Column(name="corrected", holds="`yes` when its numbers were changed after they were given."),
    Column(name="taken_at_utc", holds="When it was given, ISO 8601; empty when it was missed."),
    Column(name="planned_s", holds="Seconds from the start of the position to the planned time."),
    Column(
        name="offset_s", holds="Seconds from the start of the position to the time it was given."
    ),
    Column(name="since_lying_down_s", holds="Seconds from lying down to the time it was given."),
    Column(
        name="systolic_mmHg", holds="The number that counts: after a correction, the corrected one."
    ),
    Column(name="diastolic_mmHg", holds="The same."),
    Column(name="heart_rate_per_min", holds="The same."),
    Column(
        name="systolic_change_mmHg",
        holds="Minus that of the supine reading that counts; empty for supine readings.",
    ),
    Column(name="diastolic_change_mmHg", holds="The same."),
    Column(name="heart_rate_change_per_min", holds="The same."),
    Column(
        name="systolic_change_sd_mmHg",
        holds="SD of the error of that change, from the device alone; for standing readings.",
    ),
    Column(name="diastolic_change_sd_mmHg", holds="The same."),
    Column(name="heart_rate_change_sd_per_min", holds="The same."),
    Column(
        name="symptoms",
        holds="Those told since the row above and up to this one, parted by ` \\| `: code, "
        "strength of 10, seconds from lying down, own words (in which \" is ' and \\| is /). The "
        "first row without a time, or else the last row, has those told later: "
        f'`other, 6/10, 1400 s, "legs buzz"`. Codes: {_codes(Symptom)}.',
    ),
    Column(name="day", holds=f"Kind of day, if told: {_codes(DayKind)}."),
    Column(name="cuff", holds=f"If told: {_codes(Cuff)}."),
    Column(
        name="rate_source",
        holds=f"What the heart rate was read from, if told: {_codes(RateSource)}.",
    ),
    Column(name="medicines", holds=f"Classes that move the numbers. {_several(Medicine)}"),
    Column(name="last_dose", holds=f"Of one of those, before the test: {_codes(LastDose)}."),
    Column(name="departures", holds=f"From the preparation. {_several(Departure)}"),
    Column(
        name="origin",
        holds=f"{_codes(Origin)}: watched in the chat, or typed in from paper. Then only "
        "the beginning was told, and all other times are those of the plan.",
    ),
    Column(name="quality", holds=f"How well the test was done: {_codes(Grade)}."),
    Column(
        name="shortfalls",
        holds=f"What it lacks or what to mind about it, the weightiest first, parted by ` \\| `: "
        f"{_codes(Shortfall)}.",
    ),
    Column(
        name="aftercare",
        holds="What was answered, or not, while the person was looked after once it had ended, "
        "parted by ` \\| `, each with its seconds from lying down: `better, 1520 s`. Codes: "
        f"{_codes(Answer)}.",
    ),
)

COLUMNS: Final = (
    *_PLAIN,
    *(
        replace(column, name=column.name.format(line=stem(line)))
        for line in ON_CHANGES
        for column in _ON_A_LINE
    ),
)
"""The header, in order."""


def dictionary() -> str:
    """Return what every column holds, as a table in Markdown."""
    lines = ["| column | holds |", "|---|---|"]
    columns = (PERSON, *_PLAIN, *_ON_A_LINE)
    lines += [f"| `{column.name}` | {column.holds} |" for column in columns]
    stems = _codes(stem(line) for line in ON_CHANGES)
    return "\n".join([*lines, "", f"The lines on changes, in this order: {stems}."])
