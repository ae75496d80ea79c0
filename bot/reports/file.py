"""A result as a file, by its form."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC
from functools import lru_cache
from typing import Final, assert_never

from bot.engine.effects import Form
from bot.engine.state import Conversation
from bot.findings import find
from bot.protocol.record import TestRecord
from bot.reports import chart, details, page, pair, sheet, summary, trend
from bot.reports.fhir import Case, bundle
from bot.reports.fhir.plain import one_line
from bot.reports.imprint import Imprint, software
from bot.reports.typesetting import typeset_picture

PIXELS: Final = 720
"""The width of the chart as a picture: two pixels for each of a narrow phone's 360. So
its height stays as a rule below the 1280 that a messenger makes photos smaller to (from memory,
not verified), and it is shown as it was drawn."""

_CSV: Final = "text/csv; charset=utf-8"
_PNG: Final = "image/png"
_PDF: Final = "application/pdf"
_TEXT: Final = "text/plain; charset=utf-8"


@dataclass(frozen=True, slots=True, kw_only=True)
class File:
    """A file to be handed out.

    Attributes:
        name: Sorts by test and day, and names nobody.
        media_type: What it holds.
        content: The bytes.
    """

    name: str
    media_type: str
    content: bytes


def make(form: Form, record: TestRecord, locale: str, imprint: Imprint | None = None) -> File:
    """Return a result as a file. It takes up to some 100 ms; call it off the event loop.

    Args:
        form: Which form.
        record: The facts.
        locale: A shipped language.
        imprint: What a page says of itself; the file for records systems needs the reference.

    Raises:
        KeyError: The record's protocol was never released.
        ValueError: A file for records systems without the person.
    """
    findings = find(record)
    known = imprint or Imprint()
    match form:
        case Form.SUMMARY:
            words = summary.summarise(record, findings, locale)
            return _file(record, "summary.txt", _TEXT, f"{words}\n".encode())
        case Form.DETAILS:
            words = details.detail(record, findings, locale)
            return _file(record, "details.txt", _TEXT, f"{words}\n".encode())
        case Form.CHART:
            drawing = chart.draw(record, findings, locale)
            return _file(record, "png", _PNG, typeset_picture(drawing, PIXELS))
        case Form.PDF:
            return _file(record, "pdf", _PDF, _page(record, locale, known))
        case Form.CSV:
            content = sheet.tabulate([record])
            return _file(record, "csv", _CSV, content)
        case Form.FHIR:
            content = bundle(
                Case(
                    record=record,
                    findings=findings,
                    person=one_line(known.reference),
                    locale=locale,
                    generated=record.ended_at or record.began_at,
                    software=software(),
                    pdf=_page(record, locale, known),
                )
            )
            return _file(record, "fhir.json", "application/fhir+json", content)
        case _:
            assert_never(form)


def person_table(records: Sequence[TestRecord]) -> File:
    """Return all tests of one person in one CSV."""
    return File(name="wallside-tests.csv", media_type=_CSV, content=sheet.tabulate(records))


def people_table(people: Mapping[str, Sequence[TestRecord]]) -> File:
    """Return the tests of many people in one CSV, by what each is known as."""
    content = sheet.tabulate_people(people)
    return File(name="wallside-people.csv", media_type=_CSV, content=content)


def known_as(conversation: Conversation) -> str:
    """Return the clinic's reference of a person, or else the conversation's id; opaque both."""
    return one_line(conversation.profile.reference or "") or conversation.id


def summarise(record: TestRecord, locale: str) -> str:
    """Return the plain-language summary: short paragraphs, parted by blank lines.

    Args:
        record: The facts.
        locale: A shipped language.

    Raises:
        KeyError: The record's protocol was never released.
    """
    return summary.summarise(record, find(record), locale)


@lru_cache(maxsize=1)
def _page(record: TestRecord, locale: str, imprint: Imprint) -> bytes:
    """Return the page; it goes out by itself, and then within the document."""
    return page.typeset(record, find(record), locale, imprint)


def detail(record: TestRecord, locale: str) -> str:
    """Return what the summary leaves out: paragraphs and lists, parted by blank lines.

    Args:
        record: The facts.
        locale: A shipped language.

    Raises:
        KeyError: The record's protocol was never released.
    """
    return details.detail(record, find(record), locale)


def comparison_file(first: TestRecord, second: TestRecord, imprint: Imprint, locale: str) -> File:
    """Return two tests of one person side by side, as two pages.

    Raises:
        KeyError: The protocol of one was never released.
    """
    content = pair.typeset(first, second, locale, imprint)
    name = _name((first, second), "comparison", "pdf")
    return File(name=name, media_type=_PDF, content=content)


def trend_file(form: Form, records: Sequence[TestRecord], imprint: Imprint, locale: str) -> File:
    """Return three tests or more of one person over time: a picture, or a page.

    Raises:
        KeyError: The protocol of one was never released.
    """
    if form is Form.CHART:
        content = trend.picture(records, locale, PIXELS)
        return File(name=_name(records, "trend", "png"), media_type=_PNG, content=content)
    content = trend.typeset(records, locale, imprint)
    return File(name=_name(records, "trend", "pdf"), media_type=_PDF, content=content)


def _file(record: TestRecord, ending: str, media_type: str, content: bytes) -> File:
    """Name a file by day and test; a correction after the end makes another name."""
    revision = "" if record.revision == 1 else f"-revision-{record.revision}"
    name = f"wallside-{_day(record)}-test-{record.number}{revision}.{ending}"
    return File(name=name, media_type=media_type, content=content)


def _name(records: Sequence[TestRecord], what: str, ending: str) -> str:
    """Name a file of several tests by the day of the last, their numbers and what it is."""
    last = max(records, key=lambda record: (record.began_at, record.number))
    numbers = [record.number for record in records]
    joint = "and" if len(numbers) == 2 else "to"
    return f"wallside-{_day(last)}-tests-{min(numbers)}-{joint}-{max(numbers)}-{what}.{ending}"


def _day(record: TestRecord) -> str:
    """Return the day by which a file is named, in UTC, so that names sort by it."""
    return record.began_at.astimezone(UTC).date().isoformat()
