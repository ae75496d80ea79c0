"""The plain-language summary: which sentences of the catalogue a record comes to."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, assert_never

from bot.engine.effects import Param
from bot.findings.result import Finding, Findings, Line, Reason, State
from bot.protocol.record import Ending, Measure, Origin, TestRecord
from bot.reports.formats import listing, whole
from bot.reports.rows import Row, Status, rows
from bot.texts import render

_SEEN: Final = (State.MET, State.MET_ONCE)
_MAIN: Final = (Line.HEART_RATE_RISE, Line.CLASSICAL_FALL, Line.LATER_FALL)
_NOTES: Final = 2
"""Notes in words; a very high pressure takes the room of both."""

_BY_WEIGHT: Final = (
    Line.VERY_HIGH_PRESSURE,
    Line.STANDING_SYSTOLIC_LOW,
    Line.SUPINE_RATE_HIGH,
    Line.BRADYCARDIA,
    Line.SUPINE_HYPERTENSION,
    Line.PRESSURE_RISE,
    Line.LARGE_FALL,
    Line.NEUROGENIC_PATTERN,
    Line.STANDING_RATE_120,
    Line.PRESSOR_RESPONSE,
    Line.NARROW_PULSE_PRESSURE,
)
"""The other lines; the first that are met get a note, the rest are counted."""

_SAID_BY: Final[Mapping[Line, Line]] = {
    Line.PRESSOR_RESPONSE: Line.PRESSURE_RISE,
    Line.SUPINE_RATE_BELOW_60: Line.BRADYCARDIA,
}
"""A line that needs no note of its own when the other is met."""

_RATE_REASONS: Final = frozenset(
    {
        Reason.UNDER_12,
        Reason.AGE_NOT_TOLD,
        Reason.PRESSURE_FELL,
        Reason.SUPINE_RATE_HIGH,
        Reason.ONE_STANDING_READING,
        Reason.READINGS_TOO_CLOSE,
        Reason.NO_SUPINE_READING,
        Reason.SUPINE_NUMBER_MISSING,
        Reason.NO_STANDING_READING,
        Reason.STANDING_NUMBER_MISSING,
        Reason.AFTER_10_MINUTES,
    }
)
"""Reasons why a rise is not judged that have a sentence of their own."""


@dataclass(frozen=True, slots=True)
class Sentence:
    """One message of the catalogue with its values."""

    key: str
    params: Mapping[str, Param] = field(default_factory=dict)


Paragraph = tuple[Sentence, ...]


def summarise(record: TestRecord, findings: Findings, locale: str) -> str:
    """Return the summary: short paragraphs, parted by blank lines."""
    return "\n\n".join(
        " ".join(render(sentence.key, sentence.params, locale) for sentence in paragraph)
        for paragraph in compose(record, findings, locale)
        if paragraph
    )


def compose(record: TestRecord, findings: Findings, locale: str) -> tuple[Paragraph, ...]:
    """Return the sentences by paragraph; only numbers and lists are put in words already."""
    found = rows(record, findings)
    title = Sentence("results.title", {"number": whole(record.number, locale)})
    if all(row.reading is None for row in found):
        numbers: tuple[Paragraph, ...] = ((Sentence("results.no-readings"),),)
    else:
        numbers = (
            tuple(_rate(findings, locale)),
            tuple(_pressure(findings, locale)),
            tuple(_notes(findings, locale)),
        )
    return (
        (title,),
        (Sentence("results.ending.emergency"),) if record.ending is Ending.EMERGENCY else (),
        (Sentence("results.paper"),) if record.origin is Origin.PAPER else (),
        *numbers,
        (*_meaning(findings), Sentence("results.screening")),
        tuple(_unmeasured(record, found, locale)),
        (Sentence("results.next"), Sentence("results.medicine")),
        (Sentence("results.danger"),),
    )


def _rate(findings: Findings, locale: str) -> Iterator[Sentence]:
    finding = findings.on(Line.HEART_RATE_RISE)
    yield from _rate_numbers(findings, locale)
    limit = {} if finding.limit is None else {"limit": whole(finding.limit, locale)}
    match finding.state:
        case State.MET:
            yield Sentence("results.rate.met", limit)
        case State.MET_ONCE:
            close = Reason.READINGS_TOO_CLOSE in finding.reasons
            yield Sentence(f"results.rate.met-{'close' if close else 'once'}", limit)
        case State.NOT_MET:
            yield Sentence("results.rate.not-met", limit)
        case State.CANNOT_JUDGE | State.NOT_MEASURED:
            yield from (
                Sentence(f"results.rate.{reason}")
                for reason in finding.reasons[:1]
                if reason in _RATE_REASONS
            )
        case _:
            assert_never(finding.state)
    for reason, key in (
        (Reason.FALL_NOT_EXCLUDED, "results.rate.fall-not-excluded"),
        (Reason.SUPINE_RATE_BELOW_60, "results.rate.slow-start"),
        (Reason.SHORT_STAND, "results.rate.short-stand"),
    ):
        if reason in finding.reasons:
            yield Sentence(key)


def _rate_numbers(findings: Findings, locale: str) -> Iterator[Sentence]:
    lying = None if findings.baseline is None else findings.baseline.values.heart_rate
    changes = [c.heart_rate for c in findings.changes if c.heart_rate is not None]
    if lying is None or not changes:
        return
    change = max(changes)
    kind = "same" if change == 0 else "rose" if change > 0 else "fell"
    numbers = {"lying": whole(lying, locale), "highest": whole(lying + change, locale)}
    yield Sentence(f"results.rate.{kind}", {**numbers, "change": whole(abs(change), locale)})


def _pressure(findings: Findings, locale: str) -> Iterator[Sentence]:
    early, later = findings.on(Line.CLASSICAL_FALL), findings.on(Line.LATER_FALL)
    if State.MET in {early.state, later.state}:
        yield from _fall(findings, early, later, locale)
    elif early.state is State.NOT_MET:
        judged = later.state is State.NOT_MET
        yield Sentence(f"results.pressure.none-{'seen' if judged else 'early'}")
        if Reason.ONE_READING_WITHIN_3_MINUTES in early.reasons:
            yield Sentence("results.pressure.one-early")
    else:
        yield Sentence(f"results.pressure.{_why_unknown(early)}")
        if later.state is State.NOT_MET:
            yield Sentence("results.pressure.later-not-met")


def _fall(findings: Findings, early: Finding, later: Finding, locale: str) -> Iterator[Sentence]:
    lying = None if findings.baseline is None else findings.baseline.values.systolic
    changes = [c.systolic for c in findings.changes if c.systolic is not None]
    if lying is not None and changes:
        lowest = whole(lying + min(changes), locale)
        params = {"lying": whole(lying, locale), "lowest": lowest}
        yield Sentence("results.pressure.numbers", params)
    finding, when = (early, "early") if early.state is State.MET else (later, "later")
    if finding.size is None or finding.at is None:
        raise ValueError(f"{finding.line} is met without a size or a time")
    side = "diastolic" if finding.measure is Measure.DIASTOLIC else "systolic"
    values: dict[str, Param] = {"change": whole(abs(finding.size), locale), "time": finding.at}
    yield Sentence(f"results.pressure.{when}-{side}", values)
    if when == "later" and Reason.PERSISTING_OR_LATER in finding.reasons:
        yield Sentence("results.pressure.start-unknown")


def _why_unknown(early: Finding) -> str:
    match early.reasons[:1]:
        case (Reason.NOTHING_WITHIN_3_MINUTES,):
            return "early-unknown"
        case (Reason.NO_SUPINE_READING,):
            return "no-supine-reading"
        case (Reason.NO_STANDING_READING,):
            return "no-standing-reading"
        case _:
            return "number-missing"


def _notes(findings: Findings, locale: str) -> Iterator[Sentence]:
    met = {finding.line for finding in findings.findings if finding.state in _SEEN}
    said_already = Reason.SUPINE_RATE_HIGH in findings.on(Line.HEART_RATE_RISE).reasons
    lines = [
        line
        for line in _BY_WEIGHT
        if line in met
        and _SAID_BY.get(line) not in met
        and not (said_already and line is Line.SUPINE_RATE_HIGH)
    ]
    told = 1 if Line.VERY_HIGH_PRESSURE in lines else _NOTES
    for line in lines[:told]:
        size = findings.on(line).size
        yield Sentence(
            f"results.note.{line}", {"value": "" if size is None else whole(size, locale)}
        )
    if len(lines) > told:
        yield Sentence("results.note.more", {"count": len(lines) - told})


def _meaning(findings: Findings) -> Iterator[Sentence]:
    if any(findings.on(line).state in _SEEN for line in (*_MAIN, *_BY_WEIGHT)):
        yield Sentence("results.meaning.pattern")
    elif all(findings.on(line).state is State.NOT_MET for line in _MAIN):
        yield Sentence("results.meaning.no-line")
    else:
        yield Sentence("results.meaning.partial")


def _unmeasured(record: TestRecord, found: Sequence[Row], locale: str) -> Iterator[Sentence]:
    if record.ending not in {None, Ending.COMPLETED, Ending.EMERGENCY}:
        yield Sentence(f"results.ending.{record.ending}")
    taken = [row for row in found if row.reading is not None]
    for key, chosen in (
        ("results.missed", [row for row in found if row.status is Status.MISSED]),
        ("results.late", [row for row in taken if row.status is Status.LATE]),
        ("results.incomplete", [row for row in taken if not row.values.complete]),
    ):
        names = [
            render(f"results.slot.{row.position}", {"time": row.slot.due}, locale)
            for row in chosen
            if row.slot is not None
        ]
        if names and taken:
            yield Sentence(key, {"list": listing(names, locale)})
    if record.symptoms:
        yield Sentence("results.symptoms", {"count": len(record.symptoms)})
