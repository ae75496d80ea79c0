"""A test typed in from paper says so in every form of its result."""

import csv
import io
from datetime import UTC, datetime

import page as validator
import pytest

from bot.engine.effects import Form
from bot.engine.state import Finished
from bot.findings import find
from bot.findings.quality import Shortfall, quality
from bot.protocol.record import TestRecord
from bot.reports import make, summarise
from bot.reports.chart import draw
from bot.testing.playbook import Playbook
from bot.texts import LANGUAGES, render
from tests.reports.examples import CLEAR_RISE
from tests.reports.fhir.cases import document
from tests.reports.fhir.judges import Judge, complaints
from tests.reports.fhir.looking import items, of
from tests.reports.test_page import squeezed, words_of

IN_EACH = pytest.mark.parametrize("locale", LANGUAGES)


def on_paper() -> TestRecord:
    """Return a test typed in from paper: one reading not taken, one symptom without a time."""
    book = Playbook().types("paper").types("yesterday 9:00").taps("yes").taps("good")
    book.types("120/76 70").types("skip").types("98/64 120 dizzy 6").types("96/64 122")
    stage = book.types("headache 3").taps("nothing").conversation.stage
    assert isinstance(stage, Finished)
    return stage.record


RECORD = on_paper()


@IN_EACH
def test_the_summary_says_so_first(locale: str) -> None:
    """Right under its title; that of a watched test does not say it."""
    said = render("results.paper", {}, locale)
    assert summarise(RECORD, locale).split("\n\n")[1] == said
    assert said not in summarise(CLEAR_RISE, locale)


@IN_EACH
def test_the_page_says_so_and_when(locale: str) -> None:
    """The page says that nobody watched the times, gives no unknown time, and is sound."""
    content = make(Form.PDF, RECORD, locale).content
    page = words_of(content)
    typed_in = ("Mar 2, 2026, 09:00 UTC", "2 mar 2026, 09:00 UTC")
    said = {squeezed(render("files.page.paper", {"start": at}, locale)) for at in typed_in}
    assert any(words in page for words in said)
    assert squeezed(render("files.when.not-told", {}, locale)) in page
    report = validator.validate_pdf_bytes(content, profile=validator.ValidationProfile.PDF_UA_1)
    assert report.is_compliant


def test_the_chart_shows_no_unknown_time() -> None:
    """A symptom whose time was not told has no mark on the axis and no number."""
    drawn = draw(RECORD, find(RECORD), "en")
    assert "Dizzy 6/10" in drawn
    assert "Headache" not in drawn


def test_the_table_says_so() -> None:
    """Each row has the origin; a symptom of no known time has none."""
    rows = list(csv.DictReader(io.StringIO(make(Form.CSV, RECORD, "en").content.decode())))
    assert {row["origin"] for row in rows} == {"paper"}
    told = [part for row in rows for part in row["symptoms"].split(" | ") if part]
    assert told == ['dizzy, 6/10, 900 s, "dizzy 6"', 'headache, 3/10, "headache 3"']
    watched = csv.DictReader(io.StringIO(make(Form.CSV, CLEAR_RISE, "en").content.decode()))
    assert {row["origin"] for row in watched} == {"watched"}


def test_the_document_says_so() -> None:
    """FHIR: a coded answer, a note on each observation, the conclusion; no position was seen."""
    found = document(RECORD)
    assert {judge: complaints(judge, found) for judge in Judge} == {judge: [] for judge in Judge}
    course = items(found, "course")
    assert course["origin"] == ["paper"]
    assert course["typed-in"] == ["2026-03-02T09:00:00+00:00"]
    assert not any(link.endswith("-since") for link in course)
    assert items(found, "symptoms")["symptom.told"] == ["2026-03-01T09:15:00+00:00"]
    (report,) = of(found, "DiagnosticReport")
    assert "Typed in from paper Mar 2, 2026, 09:00 UTC" in report["conclusion"]
    vitals = [o for o in of(found, "Observation") if "meta" in o]  # those of a profile
    assert all("not watched" in one["note"][0]["text"] for one in vitals)
    assert len(vitals) == 8  # a pressure and a rate for each planned reading


def test_its_quality_says_so_and_nothing_is_called_late() -> None:
    """That times were not watched is a reason; positions, rests and lateness are not guessed at."""
    found = {reason.shortfall for reason in quality(RECORD, find(RECORD)).reasons}
    assert Shortfall.TIMES_NOT_WATCHED in found
    assert not found & {
        Shortfall.POSITION_NOT_CONFIRMED, Shortfall.READING_LATE, Shortfall.REST_TOO_SHORT,
    }  # fmt: skip
    assert RECORD.typed_in_at == datetime(2026, 3, 2, 9, tzinfo=UTC)
