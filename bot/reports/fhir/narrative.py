"""The parts of the document as a person reads them: plain XHTML, no style, nothing that runs."""

from collections.abc import Iterable, Iterator, Sequence
from html import escape
from typing import Final

from bot.protocol.record import SymptomReport
from bot.reports import circumstances, wording
from bot.reports.fhir.case import Case
from bot.reports.fhir.plain import Json, one_line
from bot.reports.fhir.readings import measured_again
from bot.reports.fhir.report import conclusion
from bot.reports.formats import minutes, signed, whole
from bot.reports.key import symptom_name
from bot.reports.rows import Row, Status, rows, since_zero

_NONE: Final = "–"
_OPEN: Final = "under-way"
_HEADS: Final = (
    "position", "planned", "taken", "systolic", "diastolic", "heart-rate",
    "systolic-change", "diastolic-change", "heart-rate-change", "notes",
)  # fmt: skip


def findings_text(case: Case) -> Json:
    """Return the conclusion."""
    return _narrative(case, _paragraphs(conclusion(case)))


def readings_text(case: Case) -> Json:
    """Return the table of readings."""
    head = [case.say(f"files.head.{name}") for name in _HEADS]
    table = [_cells(case, row) for row in rows(case.record, case.findings)]
    return _narrative(case, _table(head, table))


def preparation_text(case: Case) -> Json:
    """Return what surrounded the test."""
    lines = circumstances.lines(case.record, case.locale)
    return _narrative(case, _paragraphs(lines or [case.say("files.circumstances.not-asked")]))


def course_text(case: Case) -> Json:
    """Return how it ended, and what was measured again after it."""
    ended = case.say(f"files.ending.{case.record.ending or _OPEN}")
    again = [measured_again(case, repeat) for repeat in case.record.repeats]
    return _narrative(case, _paragraphs([ended, *again]))


def symptoms_text(case: Case) -> Json:
    """Return the symptoms told, with the person's own words, or that none were."""
    told = sorted(case.record.symptoms, key=lambda report: report.told_at)
    if not told:
        return _narrative(case, _paragraphs([case.say("files.page.no-symptoms")]))
    head = [case.say(f"files.head.{name}") for name in ("when", "symptom", "words")]
    table = [
        [_when(case, report), symptom_name(report, case.locale), one_line(report.words or "")]
        for report in told
    ]
    return _narrative(case, _table(head, table))


def document_text(case: Case) -> Json:
    """Return what the document is, for a reader who sees only its head."""
    title = case.say("files.page.title", {"number": whole(case.record.number, case.locale)})
    return _narrative(case, _paragraphs([title, case.say("files.page.caution")]))


def _when(case: Case, report: SymptomReport) -> str:
    if not case.record.time_known(report):
        return case.say("files.when.not-told")
    if report.position is None or report.offset is None:
        time = minutes(since_zero(case.record, report.told_at), case.locale)
        return case.say("files.when.between", {"time": time})
    return wording.when(report.position, minutes(report.offset, case.locale), case.locale)


def _cells(case: Case, row: Row) -> list[str]:
    locale, change = case.locale, row.change
    values = (row.values.systolic, row.values.diastolic, row.values.heart_rate)
    changes = (
        (None, None, None)
        if change is None
        else (change.systolic, change.diastolic, change.heart_rate)
    )
    return [
        case.say(f"files.position.{row.position}"),
        _NONE if row.slot is None else minutes(row.slot.due, locale),
        _NONE if row.reading is None else minutes(row.reading.offset, locale),
        *(_NONE if value is None else whole(value, locale) for value in values),
        *(_NONE if value is None else signed(value, locale) for value in changes),
        "" if row.status is Status.TAKEN else case.say(f"files.note.{row.status}"),
    ]


def _narrative(case: Case, body: str) -> Json:
    """Return a narrative made of the codes beside it and of text that only a person gave."""
    div = f'<div xmlns="http://www.w3.org/1999/xhtml" lang="{case.locale}">{body}</div>'
    return {"status": "additional", "div": div}


def _paragraphs(lines: Iterable[str]) -> str:
    return "".join(f"<p>{escape(line)}</p>" for line in lines)


def _table(head: Sequence[str], table: Iterable[Sequence[str]]) -> str:
    heads = "".join(f"<th>{escape(cell)}</th>" for cell in head)
    return f"<table><thead><tr>{heads}</tr></thead><tbody>{''.join(_rows(table))}</tbody></table>"


def _rows(table: Iterable[Sequence[str]]) -> Iterator[str]:
    for row in table:
        cells = "".join(f"<td>{escape(cell)}</td>" for cell in row)
        yield f"<tr>{cells}</tr>"
