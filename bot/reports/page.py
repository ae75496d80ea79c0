"""The one-page PDF for the care team: findings first, then the numbers they rest on."""

import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Any, Final

from bot.findings.certainty import Certainties, certainty
from bot.findings.quality import quality
from bot.findings.result import Finding, Findings, State
from bot.protocol.record import TestRecord, Values
from bot.reports import appraisal, circumstances, happenings, wording
from bot.reports.chart import draw
from bot.reports.formats import NONE, minutes, signed, whole
from bot.reports.imprint import Imprint
from bot.reports.rows import Row, Status, rows
from bot.reports.typesetting import TooLongError, typeset_page
from bot.texts import render

TEMPLATE: Final = "page.typ"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fit:
    """How much goes on the page.

    Attributes:
        symptoms: The greatest number of symptoms; the rest are counted.
        extras: The greatest number of unplanned readings; the rest are counted.
        words: The greatest number of characters of the person's own words.
        answers: The greatest number of answers since the end, the latest ones.
        chart: The width of the chart in points.
        text: The size of text in points.
        holds: The amount of text past which it has never been seen to suffice, so that it is not
            tried: setting a page in vain takes as long as setting it well.
        brief: Whether lines that are not met are named without their numbers.
    """

    symptoms: int
    extras: int
    words: int
    answers: int
    chart: float
    text: float
    holds: int = sys.maxsize
    brief: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """What the page is made of."""

    record: TestRecord
    findings: Findings
    known: Certainties
    drawing: str
    imprint: Imprint
    locale: str


_FITS: Final = (
    _Fit(symptoms=14, extras=8, words=160, answers=8, chart=255, text=8, holds=5250),
    _Fit(symptoms=14, extras=8, words=120, answers=8, chart=240, text=7.5, holds=5900),
    _Fit(symptoms=12, extras=6, words=80, answers=6, chart=225, text=7, holds=6550),
    _Fit(symptoms=10, extras=4, words=40, answers=6, chart=205, text=6.8, holds=6950),
    _Fit(symptoms=6, extras=2, words=24, answers=4, chart=185, text=6.5),
    _Fit(symptoms=4, extras=1, words=24, answers=3, chart=155, text=6.4, brief=True),
    _Fit(symptoms=4, extras=1, words=24, answers=3, chart=145, text=6, brief=True),
    _Fit(symptoms=3, extras=1, words=24, answers=3, chart=135, text=5.5, brief=True),
)
"""Tried in turn until all fits on one page."""


def typeset(
    record: TestRecord, findings: Findings, locale: str, imprint: Imprint | None = None
) -> bytes:
    """Return the page as PDF/UA-1.

    Args:
        record: The facts.
        findings: What they show.
        locale: The language.
        imprint: What the page says of itself.

    Raises:
        TooLongError: Not even the least of it fits; a bug.
    """
    page = _Page(
        record=record,
        findings=findings,
        known=certainty(record, findings),
        drawing=draw(record, findings, locale),
        imprint=imprint or Imprint(),
        locale=locale,
    )
    at = page.imprint.generated or record.ended_at or record.began_at
    for fit in _FITS[:-1]:
        facts = _facts(page, fit)
        if _amount(facts) <= fit.holds:
            with suppress(TooLongError):
                return typeset_page(TEMPLATE, facts, at)
    return typeset_page(TEMPLATE, _facts(page, _FITS[-1]), at)


def _facts(page: _Page, fit: _Fit) -> Mapping[str, object]:
    record, findings, locale = page.record, page.findings, page.locale
    found = rows(record, findings)
    number = {"number": whole(record.number, locale)}
    return {
        "language": locale,
        "text": fit.text,
        "title": render("files.page.title", number, locale),
        "about": list(_about(record, locale)),
        "alerts": list(happenings.alerts(record, locale)),
        "quality": list(appraisal.quality_lines(quality(record, findings), locale)),
        "findings": _findings(page, fit),
        "readings": _readings(found, fit, locale),
        "circumstances": {
            "title": render("files.page.circumstances", {}, locale),
            "lines": [
                *circumstances.lines(record, locale),
                *appraisal.explanations(record, findings, locale),
            ],
        },
        "chart": {
            "title": render("files.page.chart", {}, locale),
            "width": fit.chart,
            "drawing": page.drawing,
            "alternative": render("files.chart.alternative", {}, locale),
        },
        "unmeasured": {
            "title": render("files.page.unmeasured", {}, locale),
            "lines": list(happenings.unmeasured(found, findings, locale)),
        },
        "ending": {
            "title": render("files.page.ending", {}, locale),
            "lines": list(happenings.ending(record, locale, words=fit.words, answers=fit.answers)),
        },
        "symptoms": _symptoms(record, fit, locale),
        "context": {
            "title": render("files.page.context", {}, locale),
            "words": " ".join(
                (*appraisal.certainty_notes(page.known, locale), *appraisal.context(locale))
            ),
        },
        "foot": " ".join(page.imprint.lines(locale)),
    }


_ROW: Final = {"findings": 200, "readings": 100, "symptoms": 30}
"""What a row of a table takes besides its characters, in characters; found on the pages of 200
people of the synthetic cohort and of the tests, in both languages."""


def _amount(facts: Mapping[str, Any]) -> int:
    """Return how much there is to set: characters, and rows."""
    rows = sum(weight * len(facts[table]["rows"]) for table, weight in _ROW.items())
    return _characters(facts) + rows


def _characters(facts: object) -> int:
    """Return how much text there is; the chart's is not counted."""
    match facts:
        case str():
            return len(facts)
        case Mapping():
            return sum(_characters(value) for key, value in facts.items() if key != "chart")
        case Sequence():
            return sum(map(_characters, facts))
        case _:
            return 0


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
    }
    yield render("files.page.protocol", protocol, locale)


def _findings(page: _Page, fit: _Fit) -> Mapping[str, object]:
    locale, known = page.locale, page.known
    weighty, others = wording.ranked(page.findings.findings)
    return {
        "title": render("files.page.findings", {}, locale),
        "head": _head(("finding", "state", "measured", "certainty", "limit", "source"), locale),
        "strong": sum(finding.state in {State.MET, State.MET_ONCE} for finding in weighty),
        "rows": [
            [
                wording.name(finding, locale),
                wording.state(finding, locale),
                wording.size(finding, page.record, locale, appraisal.margin(finding, known))
                or NONE,
                appraisal.certainty(finding, known, locale) or NONE,
                wording.rule(finding, locale),
                wording.source(finding, locale),
            ]
            for finding in weighty
        ],
        "others": list(_grouped(others, page.record, fit, locale)),
    }


def _grouped(
    others: Sequence[Finding], record: TestRecord, fit: _Fit, locale: str
) -> Iterator[str]:
    groups: dict[str, list[str]] = {}
    for finding in others:
        words = (
            wording.name(finding, locale) if fit.brief else wording.brief(finding, record, locale)
        )
        groups.setdefault(wording.state(finding, locale), []).append(words)
    for state, lines in groups.items():
        yield render("files.group", {"state": state, "lines": "; ".join(lines)}, locale)


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
        NONE if row.slot is None else minutes(row.slot.due, locale),
        NONE if row.reading is None else minutes(row.reading.offset, locale),
        *(NONE if number is None else whole(number, locale) for number in _numbers(row.values)),
        *(NONE if number is None else signed(number, locale) for number in _numbers(change)),
        "; ".join(_notes(row, locale)),
    ]


def _notes(row: Row, locale: str) -> Iterator[str]:
    if row.status is not Status.TAKEN:
        yield render(f"files.note.{row.status}", {}, locale)
    if row.reading is not None and not row.values.complete:
        yield render("files.note.incomplete", {}, locale)
    if row.before is not None:
        systolic, diastolic, rate = (
            NONE if number is None else whole(number, locale) for number in _numbers(row.before)
        )
        numbers = {"systolic": systolic, "diastolic": diastolic, "heart_rate": rate}
        before = render("files.values", numbers, locale)
        yield render("files.note.corrected", {"before": before}, locale)


def _numbers(values: Values) -> tuple[int | None, int | None, int | None]:
    return values.systolic, values.diastolic, values.heart_rate


def _symptoms(record: TestRecord, fit: _Fit, locale: str) -> Mapping[str, object]:
    notes = [] if record.symptoms else [render("files.page.no-symptoms", {}, locale)]
    if (left_out := len(record.symptoms) - fit.symptoms) > 0:
        notes.append(render("files.page.more-symptoms", {"count": left_out}, locale))
    return {
        "title": render("files.page.symptoms", {}, locale),
        "head": _head(("when", "symptom", "words"), locale),
        "rows": happenings.symptoms(record, locale, most=fit.symptoms, words=fit.words),
        "notes": notes,
    }


def _head(names: Sequence[str], locale: str) -> list[str]:
    return [render(f"files.head.{name}", {}, locale) for name in names]
