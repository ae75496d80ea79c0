"""The picture of several tests: the largest rise and the deepest falls of each, by kind of day.

The tests stand side by side in order of time, evenly spaced; the table of the page has their days.
"""

from collections.abc import Sequence
from typing import Final

from bot.findings.lines import DIASTOLIC_FALL, SYSTOLIC_FALL, rise_limit
from bot.findings.result import Reason
from bot.findings.trend import Trend, TrendPoint
from bot.protocol.circumstances import DayKind
from bot.protocol.record import Measure, TestRecord
from bot.reports.canvas import FONT, Box, Canvas
from bot.reports.chart import PRESSURE_INK, RATE_INK, WIDTH
from bot.reports.formats import day, signed, whole
from bot.reports.frame import LEFT, RIGHT
from bot.reports.glyphs import face
from bot.reports.plot import Level, Mark, Plot, Point, Track
from bot.texts import render

_HEIGHTS: Final = {Measure.HEART_RATE: 120.0, Measure.SYSTOLIC: 110.0, Measure.DIASTOLIC: 110.0}
_INKS: Final = {
    Measure.HEART_RATE: RATE_INK,
    Measure.SYSTOLIC: PRESSURE_INK,
    Measure.DIASTOLIC: PRESSURE_INK,
}
_TOP: Final = 44.0
_BETWEEN: Final = 30.0
_SIDE: Final = 20.0
"""Left free beside the first and the last test, for their labels."""


def draw(records: Sequence[TestRecord], found: Trend, locale: str) -> str:
    """Return the picture as an SVG file, 360 wide.

    Args:
        records: The tests.
        found: What `trend` says of them.
        locale: The language.
    """
    canvas = Canvas(WIDTH)
    canvas.text(4, 14, render("files.trend.chart", {}, locale), bold=True)
    places = _places(len(found.points))
    top = _TOP
    for measure, height in _HEIGHTS.items():
        box = Box(left=LEFT, top=top, right=RIGHT, bottom=top + height)
        heading = render(f"files.compare.largest.{measure}", {}, locale)
        canvas.text(4, top - 9, heading, bold=True, ink=_INKS[measure])
        canvas.rect(box, fill="#f4f4f4")
        plot = Plot(
            box=box,
            tracks=_tracks(found.points, places, measure, locale),
            levels=_levels(records, measure, locale),
            reach=(0.0,),
            locale=locale,
        )
        plot.draw(canvas)
        top = box.bottom + _BETWEEN
    foot = top - _BETWEEN
    _draw_axis(canvas, found.points, places, foot, locale)
    bottom = _draw_key(canvas, foot + 68, locale)
    return canvas.svg(bottom + 8)


def _places(tests: int) -> list[float]:
    first, last = LEFT + _SIDE, RIGHT - _SIDE
    if tests == 1:
        return [(first + last) / 2]
    return [first + (last - first) * number / (tests - 1) for number in range(tests)]


def mark(kind: DayKind | None, ink: str, *, above: bool = True) -> Mark:
    """Return how the tests of a kind of day are drawn."""
    match kind:
        case DayKind.SYMPTOMATIC:
            return Mark(shape="circle", ink=ink, above=above)
        case DayKind.GOOD:
            return Mark(shape="circle", ink=ink, above=above, hollow=True, dashes="5 3")
        case _:
            return Mark(shape="square", ink=ink, above=above, joined=False)


def _tracks(
    points: Sequence[TrendPoint], places: Sequence[float], measure: Measure, locale: str
) -> list[Track]:
    """Return the numbers of one measure by kind of day, so that like is joined to like."""
    kinds: list[tuple[DayKind | None, ...]] = [
        (DayKind.SYMPTOMATIC,),
        (DayKind.GOOD,),
        (None, DayKind.UNSURE),
    ]
    return [
        Track(
            mark=mark(alike[0], _INKS[measure], above=measure is Measure.HEART_RATE),
            points=[
                Point(x=x, value=size, words=signed(size, locale))
                for point, x in zip(points, places, strict=True)
                if point.day in alike and (size := point.size(measure)) is not None
            ],
        )
        for alike in kinds
    ]


def _levels(records: Sequence[TestRecord], measure: Measure, locale: str) -> list[Level]:
    """Return the line that the changes are held against, if it is one for all tests."""
    limits: set[float | Reason]
    match measure:
        case Measure.HEART_RATE:
            found = {rise_limit(record.age_band) for record in records}
            limits = {one if isinstance(one, Reason) else one.value for one in found}
        case Measure.SYSTOLIC:
            limits = {SYSTOLIC_FALL.value}
        case Measure.DIASTOLIC:
            limits = {DIASTOLIC_FALL.value}
    (limit, *others) = limits
    if others or isinstance(limit, Reason):
        return []
    words = render("files.trend.line", {"value": signed(limit, locale)}, locale)
    return [Level(value=limit, words=words, dashed=True)]


def _draw_axis(
    canvas: Canvas, points: Sequence[TrendPoint], places: Sequence[float], foot: float, locale: str
) -> None:
    """Draw the number of each test, and its day where there is room."""
    canvas.line([(LEFT, foot), (RIGHT, foot)])
    free = 0.0
    last_words = day(points[-1].began_at, locale)
    held = min(places[-1], WIDTH - 4 - face().width(last_words, FONT) / 2)
    held -= face().width(last_words, FONT) / 2 + 6
    for number, (point, x) in enumerate(zip(points, places, strict=True)):
        canvas.line([(x, foot), (x, foot + 4)])
        canvas.text(x, foot + 17, whole(point.test, locale), anchor="middle", bold=True)
        words = day(point.began_at, locale)
        half = face().width(words, FONT) / 2
        middle = min(max(x, 4 + half), WIDTH - 4 - half)
        is_last = number == len(points) - 1
        if middle - half >= free and (is_last or middle + half <= held):
            canvas.text(middle, foot + 32, words, anchor="middle")
            free = middle + half + 6
    middle = (LEFT + RIGHT) / 2
    canvas.text(middle, foot + 48, render("files.trend.tests", {}, locale), anchor="middle")


def _draw_key(canvas: Canvas, y: float, locale: str) -> float:
    """Draw the marks of the kinds of day; returns the lowest baseline."""
    x = 10.0
    for kind, name in (
        (DayKind.SYMPTOMATIC, "symptomatic"),
        (DayKind.GOOD, "good"),
        (None, "unknown"),
    ):
        words = render(f"files.trend.key.{name}", {}, locale)
        if x > 10 and x + 12 + face().width(words, FONT) > WIDTH - 4:
            x, y = 10.0, y + 18
        look = mark(kind, "#111111")
        canvas.marker(x, y - 4, look.shape, ink=look.ink, hollow=look.hollow)
        x = canvas.text(x + 10, y, words).right + 18
    return y
