"""Several tests of one person as pages and pictures: side by side, and over time."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Final
from xml.etree import ElementTree as ET

import pypdfium2
import pytest
from hypothesis import HealthCheck, given, settings

from bot.engine.effects import Compare, Form, Trace
from bot.engine.state import Conversation
from bot.findings import find
from bot.findings.alike import Doubt
from bot.findings.trend import trend
from bot.protocol.circumstances import (
    Circumstances,
    Cuff,
    DayKind,
    Departure,
    LastDose,
    Medicine,
    RateSource,
)
from bot.protocol.record import TestRecord
from bot.reports import Imprint, comparison_file, trend_file
from bot.reports.canvas import Box
from bot.reports.chart import WIDTH, draw, reach
from bot.reports.presenting import present
from bot.reports.trend import tell_trend
from bot.reports.trend_chart import draw as draw_trend
from bot.runtime.ports import History, Kept
from bot.texts import LANGUAGES, render
from tests.reports.examples import (
    CLEAR_RISE,
    CROWDED,
    EARLY_FALL,
    LATER_FALL,
    NO_CHANGE,
    NOTHING,
    ONLY_LYING,
    VERY_HIGH,
    any_record,
)
from tests.reports.test_chart import text_boxes
from tests.reports.test_page import assert_accessible, squeezed

IMPRINT: Final = Imprint(reference="HSC-0417", generated=datetime(2026, 4, 9, 10, tzinfo=UTC))
EVERYTHING: Final = Circumstances(
    zone="America/Argentina/ComodRivadavia",
    cuff=Cuff.WRIST,
    rate_source=RateSource.OXIMETER,
    medicines=tuple(Medicine),
    last_dose=LastDose.WITHIN_12_HOURS,
    departures=tuple(Departure),
    audited=True,
)
PLAIN: Final = Circumstances(
    zone="Europe/Madrid",
    cuff=Cuff.UPPER_ARM,
    rate_source=RateSource.CUFF,
    medicines=(),
    audited=True,
)

languages = pytest.mark.parametrize("locale", LANGUAGES)


def on(
    record: TestRecord,
    number: int,
    days: int,
    day: DayKind | None = DayKind.SYMPTOMATIC,
    known: Circumstances | None = PLAIN,
) -> TestRecord:
    """Return a record as a test some days later, on a kind of day."""
    at = record.began_at + timedelta(days=days)
    return replace(record, number=number, began_at=at, day=day, circumstances=known)


GOOD: Final = on(LATER_FALL, 1, 0, DayKind.GOOD)
BAD: Final = on(CLEAR_RISE, 2, 9, known=replace(PLAIN, cuff=Cuff.WRIST))


def pages(content: bytes) -> list[str]:
    """Return the words of each page, squeezed; every letter lies within the margins."""
    document = pypdfium2.PdfDocument(content)
    said = []
    for page in document:
        width, height = page.get_size()
        words = page.get_textpage()
        for number in range(words.count_chars()):
            left, bottom, right, top = words.get_charbox(number)
            assert left >= 30
            assert right <= width - 30
            assert bottom >= 24
            assert top <= height - 24
        said.append(squeezed(words.get_text_range()))
    document.close()
    return said


@languages
@pytest.mark.parametrize(
    ("first", "second"),
    [
        (GOOD, BAD),
        (on(CROWDED, 11, 0, known=EVERYTHING), on(CROWDED, 12, 7, known=EVERYTHING)),
        (on(NOTHING, 1, 0, None, None), on(ONLY_LYING, 2, 0, None, None)),
        (on(VERY_HIGH, 1, 0), on(NO_CHANGE, 2, 40)),
    ],
    ids=["two-days", "crowded", "nothing", "other-protocol"],
)
def test_a_comparison_is_two_accessible_pages(
    first: TestRecord, second: TestRecord, locale: str
) -> None:
    """Two tests make two pages that pass PDF/UA-1, with nothing cut off."""
    content = comparison_file(first, second, IMPRINT, locale).content
    assert_accessible(content)
    assert len(pages(content)) == 2


def test_a_comparison_holds_the_facts() -> None:
    """Each change on both days with its repeatability, who met what, and why not to compare."""
    numbers, drawn = pages(comparison_file(GOOD, BAD, IMPRINT, "en").content)
    for words in (
        # 1.96 times the square root of 2 times 6.5, 9.1 and 6.7: by hand 18.0, 25.2 and 18.6
        "Heart rate, largest change, /min +7 +38 +31 ± 18 larger than the ordinary difference",
        "Systolic, lowest change, mmHg -26 -6 +20 ± 25 within the ordinary difference",
        "Diastolic, lowest change, mmHg -6 +5 +11 ± 19 within the ordinary difference",
        "Test 1 only (a good day): Pressure fall after 3 min.",
        "Test 2 only (a symptomatic day): Heart-rate rise.",
        "Take care: another cuff.",
        "Screening, not a diagnosis",
    ):
        assert squeezed(words) in numbers
    assert squeezed("Charts on the same scale") in drawn
    assert squeezed("Reference: HSC-0417. Generated Apr 9, 2026, 10:00 UTC.") in drawn


@pytest.mark.parametrize("doubt", Doubt)
@languages
def test_every_doubt_has_words(doubt: Doubt, locale: str) -> None:
    """Each reason not to compare can be said, to the person and to the clinician."""
    assert render(f"files.doubt.{doubt}", {}, locale)
    assert render(f"comparison.doubt.{doubt}", {}, locale)


def test_both_charts_have_one_scale() -> None:
    """Drawn to hold each other, the ticks of two charts lie at the same heights and times."""
    one, other = find(GOOD), find(BAD)
    held = reach(GOOD, one, "en").joined(reach(BAD, other, "en"))

    def ticks(drawing: str) -> list[tuple[str, str]]:
        found = ET.fromstring(drawing).iter("{http://www.w3.org/2000/svg}text")
        return [
            (text.text or "", text.attrib["y"])
            for text in found
            if (text.text or "").isdigit() and "font-weight" not in text.attrib
        ]

    quiet = replace(GOOD, symptoms=BAD.symptoms)  # symptoms take room under the axis
    assert ticks(draw(quiet, one, "en", held)) == ticks(draw(BAD, other, "en", held))
    assert ticks(draw(quiet, one, "en")) != ticks(draw(BAD, other, "en"))


SERIES: Final = (
    on(CLEAR_RISE, 1, 0),
    on(NO_CHANGE, 2, 7, DayKind.GOOD),
    on(EARLY_FALL, 3, 14, None),
    on(CLEAR_RISE, 4, 21),
    on(ONLY_LYING, 5, 28, DayKind.UNSURE),
    on(CLEAR_RISE, 6, 35),
)
MOST: Final = tuple(on(CROWDED, 20 + n, n, DayKind.GOOD, EVERYTHING) for n in range(12))


@languages
@pytest.mark.parametrize("records", [SERIES, SERIES[:3], MOST], ids=["six", "three", "most"])
def test_a_trend_is_one_accessible_page(records: tuple[TestRecord, ...], locale: str) -> None:
    """Three tests, and the most there can be, make one page that passes PDF/UA-1."""
    content = trend_file(Form.PDF, records, IMPRINT, locale).content
    assert_accessible(content)
    assert len(pages(content)) == 1


def test_a_trend_holds_the_facts() -> None:
    """The changes of each test with its day and quality, and where they go on each kind of day."""
    (said,) = pages(trend_file(Form.PDF, SERIES, IMPRINT, "en").content)
    for words in (
        "4 Mar 23, 2026, 09:14 UTC (10:14 local time) a symptomatic day +38 -6 +5 good none told",
        "5 Mar 30, 2026",
        # 2.576 times 6.5 times the length over the root of the spread; alike, so no direction
        "Heart rate change bad day 1, 4, 6 0",
        "none clear",
        "HSC-0417",
    ):
        assert squeezed(words) in said


@languages
@pytest.mark.parametrize("records", [SERIES, MOST], ids=["six", "most"])
def test_words_on_the_picture_keep_clear(records: tuple[TestRecord, ...], locale: str) -> None:
    """The words of the picture stay on it, and none covers another."""
    drawing = ET.fromstring(draw_trend(records, trend(records), locale))
    boxes = text_boxes(drawing)
    page = Box(left=0, top=0, right=WIDTH, bottom=float(drawing.attrib["height"]))
    assert [words for words, box in boxes if not box.within(page)] == []
    met = [(a, b) for i, (a, one) in enumerate(boxes) for b, two in boxes[:i] if one.meets(two)]
    assert met == []


def test_the_trend_is_told_in_words() -> None:
    """A direction is said in plain words, with what it does not say; else that none is clear."""
    rising = [
        on(
            replace(
                NO_CHANGE,
                readings=tuple(
                    r
                    if r.slot == "supine-5"
                    else replace(r, values=replace(r.values, heart_rate=80 + 15 * n))
                    for r in NO_CHANGE.readings
                ),
            ),
            n + 1,
            7 * n,
        )
        for n in range(3)
    ]
    text = tell_trend(rising, "en")
    assert "On bad days your heart-rate rise got larger." in text
    assert "This does not say why, or if you are better or worse." in text
    still = tell_trend(SERIES, "en")
    assert "No change goes clearly up or down" in still
    for words in (text, still):
        assert "These are screening tests. They are not a diagnosis." in words
        assert "Do not stop or change any medicine" in words
        assert len(words) <= 1024  # the messenger's limit under a picture


def test_names_sort_by_day_and_name_nobody() -> None:
    """A name tells the day of the last test, the numbers and what it is; never the reference."""
    names = [
        comparison_file(GOOD, BAD, IMPRINT, "en").name,
        trend_file(Form.CHART, SERIES, IMPRINT, "en").name,
        trend_file(Form.PDF, SERIES, IMPRINT, "en").name,
    ]
    assert names == [
        "wallside-2026-03-11-tests-1-and-2-comparison.pdf",
        "wallside-2026-04-06-tests-1-to-6-trend.png",
        "wallside-2026-04-06-tests-1-to-6-trend.pdf",
    ]


def test_they_are_handed_out_from_what_is_kept() -> None:
    """The effects become files with the person's reference, the same bytes each time."""
    conversation = Conversation(id="c1", locale="en")
    kept = Kept(conversation=conversation, history=History(beginning=conversation), results=SERIES)
    at = datetime(2026, 4, 9, 10, tzinfo=UTC)
    for effect in (
        Compare(number=1, first=1, second=4, form=Form.PDF, at=at),
        Trace(number=2, tests=(1, 2, 4), form=Form.PDF, at=at),
        Trace(number=3, tests=(1, 2, 4), form=Form.CHART, at=at),
    ):
        bubble = present(effect, "en", kept)
        assert bubble.attachment is not None
        assert bubble == present(effect, "en", kept)
        if effect.form is Form.PDF:
            assert "Reference:c1.Generated" in "".join(pages(bubble.attachment.content))
    with pytest.raises(KeyError):
        present(Trace(number=4, tests=(1, 2, 9), form=Form.PDF, at=at), "en", kept)


@settings(deadline=None, max_examples=4, suppress_health_check=[HealthCheck.too_slow])
@given(one=any_record(), other=any_record())
def test_any_tests_make_their_pages(one: TestRecord, other: TestRecord) -> None:
    """However odd the records, there are two pages of two, and one of three."""
    first, second = on(one, 1, 0), on(other, 2, 3, None, None)
    third = on(one, 3, 5, DayKind.GOOD)
    assert len(pages(comparison_file(first, second, IMPRINT, "en").content)) == 2
    assert len(pages(trend_file(Form.PDF, [first, second, third], IMPRINT, "en").content)) == 1
