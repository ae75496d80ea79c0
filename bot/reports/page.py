"""The one-page PDF for the care team: findings first, then the numbers they rest on."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from importlib.metadata import version
from typing import Final

from bot.findings.result import Finding, Findings, Line, Reason, State
from bot.protocol.record import Ending, SymptomReport, TestRecord, Values
from bot.readings import echo
from bot.reports import circumstances, wording
from bot.reports.chart import draw
from bot.reports.formats import listing, minutes, signed, whole
from bot.reports.glyphs import printable
from bot.reports.key import symptom_name
from bot.reports.rows import Row, Status, rows, since_zero
from bot.reports.typesetting import TooLongError, typeset_page
from bot.texts import render

TEMPLATE: Final = "page.typ"

_NONE: Final = "–"
"""Stands for a number that there is not."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fit:
    """How much goes on the page.

    Attributes:
        symptoms: The greatest number of symptoms; the rest are counted.
        extras: The greatest number of unplanned readings; the rest are counted.
        words: The greatest number of characters of the person's own words.
        chart: The width of the chart in points.
        text: The size of text in points.
    """

    symptoms: int
    extras: int
    words: int
    chart: float
    text: float


_FITS: Final = (
    _Fit(symptoms=14, extras=8, words=160, chart=255, text=8),
    _Fit(symptoms=14, extras=8, words=120, chart=240, text=7.5),
    _Fit(symptoms=12, extras=6, words=80, chart=225, text=7),
    _Fit(symptoms=10, extras=4, words=40, chart=205, text=6.8),
    _Fit(symptoms=6, extras=2, words=24, chart=185, text=6.5),
    _Fit(symptoms=4, extras=1, words=24, chart=155, text=6.4),
)
"""Tried in turn until all fits on one page."""


def typeset(record: TestRecord, findings: Findings, locale: str) -> bytes:
    """Return the page as PDF/UA-1.

    Raises:
        TooLongError: Not even the least of it fits; a bug.
    """
    drawing = draw(record, findings, locale)
    at = record.ended_at or record.began_at
    for fit in _FITS[:-1]:
        try:
            return typeset_page(TEMPLATE, _facts(record, findings, drawing, fit, locale), at)
        except TooLongError:
            continue
    return typeset_page(TEMPLATE, _facts(record, findings, drawing, _FITS[-1], locale), at)


def _facts(
    record: TestRecord, findings: Findings, drawing: str, fit: _Fit, locale: str
) -> Mapping[str, object]:
    found = rows(record, findings)
    number = {"number": whole(record.number, locale)}
    return {
        "language": locale,
        "text": fit.text,
        "title": render("files.page.title", number, locale),
        "about": list(_about(record, locale)),
        "findings": _findings(record, findings, locale),
        "readings": _readings(found, fit, locale),
        "circumstances": {
            "title": render("files.page.circumstances", {}, locale),
            "lines": circumstances.lines(record, locale),
        },
        "chart": {
            "title": render("files.page.chart", {}, locale),
            "width": fit.chart,
            "drawing": drawing,
            "alternative": render("files.chart.alternative", {}, locale),
        },
        "unmeasured": {
            "title": render("files.page.unmeasured", {}, locale),
            "lines": list(_unmeasured(found, findings, locale)),
        },
        "ending": {
            "title": render("files.page.ending", {}, locale),
            "lines": list(_ending(record, fit, locale)),
        },
        "symptoms": _symptoms(record, fit, locale),
    }


def _about(record: TestRecord, locale: str) -> Iterator[str]:
    yield render("files.page.caution", {}, locale)
    start = circumstances.beside_local(record.began_at, record, locale)
    if record.ended_at is None:
        yield render("files.page.under-way", {"start": start}, locale)
    else:
        end = circumstances.beside_local(record.ended_at, record, locale)
        yield render("files.page.times", {"start": start, "end": end}, locale)
    yield from circumstances.typed_in(record, locale)
    age = "files.page.age-not-told" if record.age_band is None else f"age.{record.age_band}"
    protocol = {
        "protocol": record.protocol.id,
        "version": whole(record.protocol.version, locale),
        "age": render(age, {}, locale),
        "revision": whole(record.revision, locale),
        "software": version("wallside"),
    }
    yield render("files.page.protocol", protocol, locale)


def _findings(record: TestRecord, findings: Findings, locale: str) -> Mapping[str, object]:
    weighty, others = wording.ranked(findings.findings)
    return {
        "title": render("files.page.findings", {}, locale),
        "head": _head(("finding", "state", "measured", "limit", "source"), locale),
        "strong": sum(finding.state in {State.MET, State.MET_ONCE} for finding in weighty),
        "rows": [
            [
                wording.name(finding, locale),
                wording.state(finding, locale),
                wording.size(finding, record, locale) or _NONE,
                wording.rule(finding, locale),
                wording.source(finding, locale),
            ]
            for finding in weighty
        ],
        "others": list(_grouped(others, locale)),
    }


def _grouped(others: Sequence[Finding], locale: str) -> Iterator[str]:
    groups: dict[str, list[str]] = {}
    for finding in others:
        groups.setdefault(wording.state(finding, locale), []).append(wording.name(finding, locale))
    for state, names in groups.items():
        yield render("files.group", {"state": state, "lines": "; ".join(names)}, locale)


def _readings(found: Sequence[Row], fit: _Fit, locale: str) -> Mapping[str, object]:
    extras = [row for row in found if row.status is Status.EXTRA]
    left_out = extras[fit.extras :]
    notes = [render("files.page.reading-times", {}, locale)]
    if left_out:
        notes.append(render("files.page.more-readings", {"count": len(left_out)}, locale))
    heads = (
        "position", "planned", "taken", "systolic", "diastolic", "heart-rate",
        "systolic-change", "diastolic-change", "heart-rate-change", "notes",
    )  # fmt: skip
    return {
        "title": render("files.page.readings", {}, locale),
        "head": _head(heads, locale),
        "rows": [_reading(row, locale) for row in found if row not in left_out],
        "notes": notes,
    }


def _reading(row: Row, locale: str) -> list[str]:
    change = row.change or Values()
    return [
        render(f"files.position.{row.position}", {}, locale),
        _NONE if row.slot is None else minutes(row.slot.due, locale),
        _NONE if row.reading is None else minutes(row.reading.offset, locale),
        *(_NONE if number is None else whole(number, locale) for number in _numbers(row.values)),
        *(_NONE if number is None else signed(number, locale) for number in _numbers(change)),
        "; ".join(_notes(row, locale)),
    ]


def _notes(row: Row, locale: str) -> Iterator[str]:
    if row.status is not Status.TAKEN:
        yield render(f"files.note.{row.status}", {}, locale)
    if row.reading is not None and not row.values.complete:
        yield render("files.note.incomplete", {}, locale)
    if row.before is not None:
        systolic, diastolic, rate = (
            _NONE if number is None else whole(number, locale) for number in _numbers(row.before)
        )
        numbers = {"systolic": systolic, "diastolic": diastolic, "heart_rate": rate}
        before = render("files.values", numbers, locale)
        yield render("files.note.corrected", {"before": before}, locale)


def _numbers(values: Values) -> tuple[int | None, int | None, int | None]:
    return values.systolic, values.diastolic, values.heart_rate


def _unmeasured(found: Sequence[Row], findings: Findings, locale: str) -> Iterator[str]:
    missed = [row for row in found if row.status is Status.MISSED]
    incomplete = [row for row in found if row.reading is not None and not row.values.complete]
    for key, chosen in (("missed", missed), ("incomplete", incomplete)):
        if chosen:
            names = listing([_planned(row, locale) for row in chosen], locale)
            yield render(f"files.unmeasured.{key}", {"list": names}, locale)
    if not missed and not incomplete:
        yield render("files.unmeasured.nothing", {}, locale)
    if Reason.NOTHING_WITHIN_3_MINUTES in findings.on(Line.CLASSICAL_FALL).reasons:
        yield render("files.unmeasured.start", {}, locale)


def _planned(row: Row, locale: str) -> str:
    if row.slot is not None:
        return wording.when(row.position, minutes(row.slot.due, locale), locale)
    offset = row.reading.offset if row.reading is not None else None
    if offset is None:
        raise ValueError("a row is planned, or taken, or both")
    return wording.when(row.position, minutes(offset, locale), locale)


def _ending(record: TestRecord, fit: _Fit, locale: str) -> Iterator[str]:
    yield render(f"files.ending.{record.ending or 'under-way'}", {}, locale)
    if record.ended_at is not None and record.ending is not Ending.COMPLETED and record.phases:
        last = record.phases[-1]
        time = minutes(record.ended_at - last.started_at, locale)
        during = wording.when(last.position, time, locale)
        yield render("files.ending.during", {"when": during}, locale)
    for repeat in record.repeats:
        after = minutes(repeat.given_at - (record.ended_at or record.began_at), locale)
        params = {"time": after, "numbers": echo(repeat.values)}
        yield render("files.ending.repeat", params, locale)
    if record.stop_reason is not None:
        reason = render(f"reason.{record.stop_reason}", {}, locale)
        yield render("files.ending.reason", {"reason": reason}, locale)
    if record.stop_words and (words := printable(record.stop_words, fit.words)):
        yield render("files.ending.words", {"words": words}, locale)


def _symptoms(record: TestRecord, fit: _Fit, locale: str) -> Mapping[str, object]:
    told = sorted(record.symptoms, key=lambda report: report.told_at)
    notes = [] if told else [render("files.page.no-symptoms", {}, locale)]
    if len(told) > fit.symptoms:
        left_out = len(told) - fit.symptoms
        notes.append(render("files.page.more-symptoms", {"count": left_out}, locale))
    return {
        "title": render("files.page.symptoms", {}, locale),
        "head": _head(("when", "symptom", "words"), locale),
        "rows": [
            [
                _when(report, record, locale),
                symptom_name(report, locale),
                printable(report.words or "", fit.words) or _NONE,
            ]
            for report in told[: fit.symptoms]
        ],
        "notes": notes,
    }


def _when(report: SymptomReport, record: TestRecord, locale: str) -> str:
    if not record.time_known(report):
        return render("files.when.not-told", {}, locale)
    if report.position is None or report.offset is None:
        time = minutes(since_zero(record, report.told_at), locale)
        return render("files.when.between", {"time": time}, locale)
    return wording.when(report.position, minutes(report.offset, locale), locale)


def _head(names: Sequence[str], locale: str) -> list[str]:
    return [render(f"files.head.{name}", {}, locale) for name in names]
