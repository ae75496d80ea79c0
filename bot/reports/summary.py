"""The plain-language summary, at most one screen: the headline findings, and what to do next.

Whatever the test shows, it ends in the caution and the next step. `details` has the rest.
"""

from collections.abc import Iterator, Mapping
from typing import Final

from bot.findings.certainty import certainty
from bot.findings.lines import DIASTOLIC_VERY_HIGH, SYSTOLIC_VERY_HIGH
from bot.findings.quality import Weight, quality
from bot.findings.result import Findings, Line, State
from bot.protocol.record import Answer, Ending, Origin, TestRecord, Values
from bot.reports import headlines
from bot.reports.formats import pressures, whole
from bot.reports.rows import rows
from bot.reports.sentences import Paragraph, Sentence, written

_SEEN: Final = (State.MET, State.MET_ONCE)
_MAIN: Final = (Line.HEART_RATE_RISE, Line.CLASSICAL_FALL, Line.LATER_FALL)

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
"""The other lines, the weightiest first. A very high pressure is said in full; of the rest the
first that is met gets a note, and the details have all."""

_SAID_BY: Final[Mapping[Line, Line]] = {
    Line.PRESSOR_RESPONSE: Line.PRESSURE_RISE,
    Line.SUPINE_RATE_BELOW_60: Line.BRADYCARDIA,
}
"""A line that needs no note of its own when the other is met."""


def summarise(record: TestRecord, findings: Findings, locale: str) -> str:
    """Return the summary: short paragraphs, parted by blank lines."""
    return written(compose(record, findings, locale), locale)


def compose(record: TestRecord, findings: Findings, locale: str) -> tuple[Paragraph, ...]:
    """Return the sentences by paragraph; only numbers and lists are put in words already."""
    title = Sentence("results.title", {"number": whole(record.number, locale)})
    known = certainty(record, findings)
    very_high = findings.on(Line.VERY_HIGH_PRESSURE).state in _SEEN
    if all(row.reading is None for row in rows(record, findings)):
        numbers: tuple[Paragraph, ...] = ((Sentence("results.no-readings"),),)
    else:
        numbers = (
            tuple(_very_high(record, findings, locale)) if very_high else (),
            tuple(headlines.rate(findings, known, locale)),
            tuple(headlines.pressure(findings, known, locale)),
            tuple(notes(findings, locale))[:1] if not very_high else (),
        )
    return (
        (title,),
        tuple(_help(record)),
        (Sentence("results.paper"),) if record.origin is Origin.PAPER else (),
        *numbers,
        tuple(_quality(record, findings)),
        (*meaning(findings), Sentence("results.screening")),
        (Sentence("results.next"), Sentence("results.medicine")),
        (Sentence(f"results.danger{'.very-high' if very_high else ''}"),),
    )


def _help(record: TestRecord) -> Iterator[Sentence]:
    """Yield the call to get help, where there was reason for it and it may not have been heard."""
    answers = {told.answer for told in record.aftercare}
    if record.ending is Ending.EMERGENCY:
        yield Sentence("results.ending.emergency")
    elif Answer.SIGNS in answers:
        yield Sentence("results.signs")
    elif Answer.SIGNS_SILENT in answers:
        yield Sentence("results.signs-silent")


def _very_high(record: TestRecord, findings: Findings, locale: str) -> Iterator[Sentence]:
    """Yield a very high pressure, and what it was when it was measured again."""
    size = findings.on(Line.VERY_HIGH_PRESSURE).size
    params = {"value": "" if size is None else whole(size, locale)}
    yield Sentence("results.note.very-high-pressure", params)
    if not record.repeats:
        yield Sentence("results.very-high.again")
        return
    last = record.repeats[-1].values
    kind = "still" if _still_high(last) else "lower"
    yield Sentence(f"results.very-high.{kind}", {"numbers": pressures(last, locale)})


def _still_high(values: Values) -> bool:
    held = ((values.systolic, SYSTOLIC_VERY_HIGH), (values.diastolic, DIASTOLIC_VERY_HIGH))
    return any(value is not None and limit.past(value) >= 0 for value, limit in held)


def notes(findings: Findings, locale: str) -> Iterator[Sentence]:
    """Yield a note on each other line that is met, but a very high pressure; weightiest first."""
    met = {finding.line for finding in findings.findings if finding.state in _SEEN}
    said_already = headlines.starts_high(findings)
    for line in _BY_WEIGHT[1:]:
        if line not in met or _SAID_BY.get(line) in met:
            continue
        if said_already and line is Line.SUPINE_RATE_HIGH:
            continue
        size = findings.on(line).size
        value = "" if size is None else whole(size, locale)
        yield Sentence(f"results.note.{line}", {"value": value})


def _quality(record: TestRecord, findings: Findings) -> Iterator[Sentence]:
    """Yield how good the test was, and the main reason against it."""
    judged = quality(record, findings)
    yield Sentence(f"results.quality.{judged.grade}")
    against = [reason for reason in judged.reasons if reason.weight is not Weight.NOTE]
    for reason in against[:1]:
        yield Sentence(f"results.shortfall.{reason.shortfall}")


def meaning(findings: Findings) -> Iterator[Sentence]:
    """Yield what it may mean, and what it cannot."""
    if any(findings.on(line).state in _SEEN for line in (*_MAIN, *_BY_WEIGHT)):
        yield Sentence("results.meaning.pattern")
    elif all(findings.on(line).state is State.NOT_MET for line in _MAIN):
        yield Sentence("results.meaning.no-line")
    else:
        yield Sentence("results.meaning.partial")
