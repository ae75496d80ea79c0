"""The second part of the plain-language summary, which comes when more is asked for.

All lines that are met, what else could be behind them, and everything that was recorded.
"""

from collections.abc import Iterator
from typing import Final

from bot.engine.effects import Param
from bot.findings.explanations import Cause, Effect, explained_by
from bot.findings.quality import quality
from bot.findings.result import Findings
from bot.protocol.circumstances import Medicine
from bot.protocol.definition import Position
from bot.protocol.record import Ending, SymptomReport, TestRecord
from bot.reports import headlines, summary
from bot.reports.formats import NONE, listing, pressures, whole
from bot.reports.glyphs import printable
from bot.reports.key import symptom_name
from bot.reports.rows import Row, Status, rows, since_zero
from bot.reports.sentences import Paragraph, Sentence, written
from bot.texts import render

_SYMPTOMS: Final = 24
_WORDS: Final = 40
"""Symptoms, and characters of the person's own words for one; the files have all."""


def detail(record: TestRecord, findings: Findings, locale: str) -> str:
    """Return the details: paragraphs and lists, parted by blank lines."""
    return written(compose(record, findings, locale), locale, between="\n")


def compose(record: TestRecord, findings: Findings, locale: str) -> tuple[Paragraph, ...]:
    """Return the sentences by paragraph; only numbers and lists are put in words already."""
    found = rows(record, findings)
    return (
        (Sentence("results.more.title", {"number": whole(record.number, locale)}),),
        tuple(_readings(record, found, locale)),
        (
            *headlines.rate_caveats(findings),
            *headlines.pressure_caveats(findings),
            *summary.notes(findings, locale),
        ),
        tuple(_explained(record, findings, locale)),
        tuple(_quality(record, findings)),
        tuple(_unmeasured(record, found, locale)),
        tuple(_symptoms(record, locale)),
        tuple(_told(record, locale)),
        tuple(_after(record)),
        (*summary.meaning(findings), Sentence("results.screening"), Sentence("results.medicine")),
    )


def _readings(record: TestRecord, found: tuple[Row, ...], locale: str) -> Iterator[Sentence]:
    taken = [row for row in found if row.reading is not None]
    if not taken:
        yield Sentence("results.no-readings")
        return
    yield Sentence("results.readings")
    for row in taken:
        offset = row.reading.offset if row.reading is not None else None
        rate = row.values.heart_rate
        params: dict[str, Param] = {
            "where": _where(row.position, {"time": offset or ""}, locale),
            "pressures": pressures(row.values, locale),
            "heart_rate": NONE if rate is None else whole(rate, locale),
        }
        yield Sentence("results.reading", params)
    for repeat in record.repeats:
        rate = repeat.values.heart_rate
        again: dict[str, Param] = {
            "time": repeat.given_at - (record.ended_at or record.began_at),
            "pressures": pressures(repeat.values, locale),
            "heart_rate": NONE if rate is None else whole(rate, locale),
        }
        yield Sentence("results.reading.again", again)


def _where(position: Position, params: dict[str, Param], locale: str) -> str:
    return render(f"results.slot.{position}", params, locale)


def _explained(record: TestRecord, findings: Findings, locale: str) -> Iterator[Sentence]:
    """Yield what could explain a finding, by what it can do; all medicines are one."""
    by_effect: dict[Effect, list[str]] = {}
    for finding in findings.findings:
        for explanation in explained_by(finding, record.circumstances):
            names = by_effect.setdefault(explanation.effect, [])
            if (name := render(_cause(explanation.cause), {}, locale)) not in names:
                names.append(name)
    for effect, names in by_effect.items():
        yield Sentence(f"results.explained.{effect}", {"list": listing(names, locale)})


def _cause(cause: Cause) -> str:
    return f"results.cause.{'medicine' if isinstance(cause, Medicine) else cause}"


def _quality(record: TestRecord, findings: Findings) -> Iterator[Sentence]:
    judged = quality(record, findings)
    yield Sentence(f"results.quality.{judged.grade}")
    for reason in judged.reasons:
        yield Sentence(f"results.shortfall.{reason.shortfall}")


def _unmeasured(record: TestRecord, found: tuple[Row, ...], locale: str) -> Iterator[Sentence]:
    if record.ending not in {None, Ending.COMPLETED, Ending.EMERGENCY}:
        yield Sentence(f"results.ending.{record.ending}")
    taken = [row for row in found if row.reading is not None]
    for key, chosen in (
        ("results.missed", [row for row in found if row.status is Status.MISSED]),
        ("results.late", [row for row in taken if row.status is Status.LATE]),
        ("results.incomplete", [row for row in taken if not row.values.complete]),
    ):
        names = [
            _where(row.position, {"time": row.slot.due}, locale)
            for row in chosen
            if row.slot is not None
        ]
        if names and taken:
            yield Sentence(key, {"list": listing(names, locale)})


def _symptoms(record: TestRecord, locale: str) -> Iterator[Sentence]:
    if not record.symptoms:
        return
    yield Sentence("results.told.symptoms")
    told = sorted(record.symptoms, key=lambda report: report.told_at)
    for report in told[:_SYMPTOMS]:
        yield _symptom(report, record, locale)
    if len(told) > _SYMPTOMS:
        yield Sentence("files.page.more-symptoms", {"count": len(told) - _SYMPTOMS})


def _symptom(report: SymptomReport, record: TestRecord, locale: str) -> Sentence:
    name = symptom_name(report, locale)
    if own := printable(report.words or "", _WORDS):
        name = f"{name} {render('files.quoted', {'words': own}, locale)}"
    if report.position is None or report.offset is None:
        time = since_zero(record, report.told_at)
        return Sentence("results.told.symptom-after", {"symptom": name, "time": time})
    where = _where(report.position, {"time": report.offset}, locale)
    return Sentence("results.told.symptom", {"symptom": name, "where": where})


def _told(record: TestRecord, locale: str) -> Iterator[Sentence]:
    told = record.circumstances
    if told is None:
        return
    if told.medicines:
        names = [render(f"medicine.{medicine}", {}, locale) for medicine in told.medicines]
        yield Sentence("results.told.medicines", {"list": listing(names, locale)})
    elif told.medicines is not None:
        yield Sentence("results.told.no-medicines")
    if told.departures:
        names = [render(f"departure.{departure}", {}, locale) for departure in told.departures]
        yield Sentence("results.told.departures", {"list": listing(names, locale)})
    elif told.audited:
        yield Sentence("results.told.prepared")


def _after(record: TestRecord) -> Iterator[Sentence]:
    if record.aftercare:
        yield Sentence("results.after")
    for told in record.aftercare:
        time = told.at - (record.ended_at or record.began_at)
        yield Sentence(f"results.after.{told.answer}", {"time": time})
