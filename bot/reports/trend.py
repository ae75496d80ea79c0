"""Three tests or more over time: a picture, a page with the numbers, and the words beside them."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from bot.findings import find
from bot.findings.quality import quality
from bot.findings.trend import Course, Direction, Trend, TrendPoint, trend
from bot.protocol.record import Measure, TestRecord
from bot.reports import appraisal, trend_chart
from bot.reports.circumstances import beside_local, brief_medicines
from bot.reports.formats import NONE, signed, whole
from bot.reports.imprint import Imprint
from bot.reports.sentences import Paragraph, Sentence, written
from bot.reports.typesetting import TooLongError, typeset_page, typeset_picture
from bot.texts import render

TEMPLATE: Final = "trend.typ"

_FITS: Final = ((8.0, 245), (7.5, 240), (7.0, 235), (6.5, 205), (6.0, 180), (5.5, 150))
"""Sizes of text, and widths of the picture, in points; tried in turn until all fits."""

_CHANGES: Final = {
    Measure.HEART_RATE: "heart-rate-change",
    Measure.SYSTOLIC: "systolic-change",
    Measure.DIASTOLIC: "diastolic-change",
}
_MOVES: Final = (Direction.HIGHER, Direction.LOWER)


def picture(records: Sequence[TestRecord], locale: str, pixels: int) -> bytes:
    """Return the picture as PNG, so many pixels across."""
    return typeset_picture(trend_chart.draw(records, trend(records), locale), pixels)


def tell_trend(records: Sequence[TestRecord], locale: str) -> str:
    """Return what goes with the picture, for the person.

    Args:
        records: The tests of one person, three or more.
        locale: A shipped language.

    Raises:
        KeyError: The protocol of one was never released.
    """
    return written(compose(records, locale), locale)


def compose(records: Sequence[TestRecord], locale: str) -> tuple[Paragraph, ...]:
    """Return the sentences by paragraph; none has words of its own."""
    moves = [
        Sentence(f"trend.{course.day}.{course.measure}.{course.direction}")
        for course in trend(records).courses
        if course.direction in _MOVES
    ]
    said: Paragraph = (Sentence("trend.still"),)
    if moves:
        said = (Sentence("trend.moves"), *moves, Sentence("trend.meaning"))
    return (
        (Sentence("trend.title", {"count": len(records)}),),
        said,
        (
            Sentence("comparison.screening"),
            Sentence("trend.next"),
            Sentence("results.medicine"),
        ),
    )


def typeset(records: Sequence[TestRecord], locale: str, imprint: Imprint) -> bytes:
    """Return the page as PDF/UA-1.

    Raises:
        KeyError: The protocol of one was never released.
        TooLongError: Not even the least of it fits; a bug.
    """
    found = trend(records)
    ordered = sorted(records, key=lambda record: (record.began_at, record.number))
    drawing = trend_chart.draw(ordered, found, locale)
    at = imprint.generated or found.points[-1].began_at
    facts = _facts(ordered, found, drawing, imprint, locale)
    for text, width in _FITS[:-1]:
        try:
            return typeset_page(TEMPLATE, _sized(facts, text, width), at)
        except TooLongError:
            continue
    return typeset_page(TEMPLATE, _sized(facts, *_FITS[-1]), at)


def _sized(facts: Mapping[str, object], text: float, width: float) -> Mapping[str, object]:
    chart = facts["chart"]
    assert isinstance(chart, dict)
    return {**facts, "text": text, "chart": {**chart, "width": width}}


def _facts(
    records: Sequence[TestRecord], found: Trend, drawing: str, imprint: Imprint, locale: str
) -> Mapping[str, object]:
    def say(key: str) -> str:
        return render(key, {}, locale)

    return {
        "language": locale,
        "title": say("files.trend.title"),
        "about": [say("files.page.caution")],
        "chart": {
            "title": say("files.page.chart"),
            "drawing": drawing,
            "alternative": say("files.trend.alternative"),
        },
        "courses": {
            "title": say("files.trend.courses"),
            "head": _head(("course", "day", "tests", "moved", "by-chance", "direction"), locale),
            "rows": [_course(course, locale) for course in found.courses],
            "notes": list(_course_notes(found.courses, locale)),
        },
        "table": {
            "title": say("files.trend.table"),
            "head": _head(
                (
                    "number", "begun", "day", "rise", "systolic-fall", "diastolic-fall", "quality",
                    "medicines",
                ),
                locale,
            ),
            "rows": [
                _test(record, point, locale)
                for record, point in zip(records, found.points, strict=True)
            ],
        },
        "context": {
            "title": say("files.page.context"),
            "words": " ".join((say("files.trend.note"), *appraisal.context(locale))),
        },
        "foot": " ".join(imprint.lines(locale)),
    }  # fmt: skip


def _head(names: Sequence[str], locale: str) -> list[str]:
    return [render(f"files.head.{name}", {}, locale) for name in names]


def _course(course: Course, locale: str) -> list[str]:
    tests = ", ".join(whole(number, locale) for number in course.tests)
    return [
        render(f"files.head.{_CHANGES[course.measure]}", {}, locale),
        render(f"files.trend.key.{course.day}", {}, locale),
        tests or NONE,
        NONE if course.moved is None else signed(course.moved, locale),
        NONE if course.by_chance is None else _plus_minus(course.by_chance, locale),
        render(f"files.direction.{course.direction}", {}, locale),
    ]


def _plus_minus(value: float, locale: str) -> str:
    return render("files.compare.plus-minus", {"value": whole(value, locale)}, locale)


def _course_notes(courses: Sequence[Course], locale: str) -> Iterator[str]:
    """Yield what tells the tests of a kind of day apart; the same for all that it measures."""
    told: dict[tuple[str, ...], None] = {}
    for course in courses:
        if course.measure is Measure.HEART_RATE and course.doubts:
            kind = render(f"files.trend.key.{course.day}", {}, locale)
            doubts = "; ".join(
                render(f"files.doubt.{doubt}", {}, locale) for doubt in course.doubts
            )
            told[(kind, doubts)] = None
    for kind, doubts in told:
        yield render("files.trend.doubts", {"day": kind, "list": doubts}, locale)


def _test(record: TestRecord, point: TrendPoint, locale: str) -> list[str]:
    kind = "files.circumstances.not-told" if point.day is None else f"files.day.{point.day}"
    grade = quality(record, find(record)).grade
    return [
        whole(point.test, locale),
        beside_local(point.began_at, record, locale),
        render(kind, {}, locale),
        *(
            NONE if (size := point.size(measure)) is None else signed(size, locale)
            for measure in (Measure.HEART_RATE, Measure.SYSTOLIC, Measure.DIASTOLIC)
        ),
        render(f"files.quality.{grade}", {}, locale),
        brief_medicines(record, locale),
    ]
