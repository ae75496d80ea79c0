"""What happened in a test besides its readings: what was missed, how it ended, the symptoms."""

from collections.abc import Iterator, Sequence

from bot.findings.result import Findings, Line, Reason
from bot.protocol.record import Answer, Ending, SymptomReport, TestRecord
from bot.readings import echo
from bot.reports import appraisal, wording
from bot.reports.formats import NONE, listing, minutes
from bot.reports.glyphs import printable
from bot.reports.key import symptom_name
from bot.reports.rows import Row, Status, since_zero
from bot.texts import render


def alerts(record: TestRecord, locale: str) -> Iterator[str]:
    """Yield what a reader must not miss: a call for help, and signs of danger."""
    answers = {told.answer for told in record.aftercare}
    if record.ending is Ending.EMERGENCY:
        yield render("files.alert.emergency", {}, locale)
    for answer in (Answer.SIGNS, Answer.SIGNS_SILENT):
        if answer in answers:
            yield render(f"files.alert.{answer}", {}, locale)


def unmeasured(found: Sequence[Row], findings: Findings, locale: str) -> Iterator[str]:
    """Yield which readings and numbers are missing, and what cannot be said for it."""
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


def ending(record: TestRecord, locale: str, *, words: int, answers: int) -> Iterator[str]:
    """Yield how it ended, and what came after.

    Args:
        record: The test.
        locale: The language.
        words: The greatest number of characters of the person's own words.
        answers: The greatest number of answers since the end, the latest ones.
    """
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
    yield from appraisal.aftercare(record, locale, answers)
    if record.stop_reason is not None:
        reason = render(f"reason.{record.stop_reason}", {}, locale)
        yield render("files.ending.reason", {"reason": reason}, locale)
    if record.stop_words and (own := printable(record.stop_words, words)):
        yield render("files.ending.words", {"words": own}, locale)


def symptoms(record: TestRecord, locale: str, *, most: int, words: int) -> list[list[str]]:
    """Return when each of the first symptoms was told, its name, and the person's own words."""
    told = sorted(record.symptoms, key=lambda report: report.told_at)
    return [
        [
            _when(report, record, locale),
            symptom_name(report, locale),
            printable(report.words or "", words) or NONE,
        ]
        for report in told[:most]
    ]


def _when(report: SymptomReport, record: TestRecord, locale: str) -> str:
    if not record.time_known(report):
        return render("files.when.not-told", {}, locale)
    if report.position is None or report.offset is None:
        time = minutes(since_zero(record, report.told_at), locale)
        return render("files.when.between", {"time": time}, locale)
    return wording.when(report.position, minutes(report.offset, locale), locale)
