"""The chart: heart rate above, pressures below, against real minutes since lying down.

Drawn as SVG for a phone held upright; the PDF shows the same drawing.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bot.findings.lines import SYSTOLIC_FALL, rise_limit
from bot.findings.result import Findings, Reason
from bot.protocol.definition import Position
from bot.protocol.record import Ending, Measure, TestRecord
from bot.reports.canvas import FONT, Box, Canvas
from bot.reports.formats import day, whole
from bot.reports.glyphs import face
from bot.reports.key import Entry, draw_key, draw_symptoms, symptom_entries
from bot.reports.plot import Level, Plot, Series
from bot.reports.rows import Row, Status, rows
from bot.reports.timeline import Timeline, timeline
from bot.texts import render

WIDTH: Final = 360.0
"""Of the drawing: one unit is one CSS pixel on a phone 360 px wide."""

_LEFT: Final = 30.0
_RIGHT: Final = WIDTH - 2
_TOP: Final = 40.0
_ROW: Final = 15.0
_RATE_HEIGHT: Final = 125.0
_PRESSURE_HEIGHT: Final = 150.0
_BETWEEN: Final = 32.0
_GREY: Final = "#505050"
_BANDS: Final = {
    Position.SUPINE: "#ececec",
    Position.SEATED: "#fafafa",
    Position.STANDING: "#e0e0e0",
}
_RATE: Final = Series(measure=Measure.HEART_RATE, shape="circle", ink="#8a1538", above=True)
_SYSTOLIC: Final = Series(measure=Measure.SYSTOLIC, shape="up", ink="#0b3f78", above=True)
_DIASTOLIC: Final = Series(measure=Measure.DIASTOLIC, shape="down", ink="#0b3f78", above=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Name:
    """The name of a band; `row` 1 is below row 0 and keeps two names apart."""

    words: str
    x: float
    row: int


def draw(record: TestRecord, findings: Findings, locale: str) -> str:
    """Return the chart as an SVG file, 360 wide and as high as it needs to be."""
    found = rows(record, findings)
    axis = timeline(record, found, left=_LEFT + 6, right=_RIGHT - 14)
    names = _names(record, axis, locale)
    entries = symptom_entries(record, axis, locale)
    top = _TOP + _ROW * (1 + max((name.row for name in names), default=0)) + 4
    rate = Box(left=_LEFT, top=top, right=_RIGHT, bottom=top + _RATE_HEIGHT)
    top = rate.bottom + _BETWEEN
    pressure = Box(left=_LEFT, top=top, right=_RIGHT, bottom=top + _PRESSURE_HEIGHT)
    foot = pressure.bottom + (26 if entries else 0)

    canvas = Canvas(WIDTH)
    title = {"number": whole(record.number, locale), "day": day(record.began_at, locale)}
    canvas.text(4, 14, render("files.chart.title", title, locale), bold=True)
    _draw_headings(canvas, _TOP - 6, pressure.top - 11, locale)
    _draw_bands(canvas, record, axis, ((_TOP, rate.bottom), (pressure.top, foot)))
    for name in names:
        canvas.text(name.x, _TOP + 14 + name.row * _ROW, name.words, bold=True)
    _draw_end(canvas, record, axis, ((rate.top, rate.bottom), (pressure.top, foot)))
    _draw_axis(canvas, axis, foot, locale)
    for box, shown, levels in (
        (rate, (_RATE,), _rate_levels(record, findings, locale)),
        (pressure, (_SYSTOLIC, _DIASTOLIC), _pressure_levels(findings, locale)),
    ):
        plot = Plot(
            box=box,
            axis=axis,
            found=found,
            shown=shown,
            levels=levels,
            findings=findings,
            locale=locale,
        )
        plot.draw(canvas)
    draw_symptoms(canvas, _LEFT, pressure.bottom + 3, entries)
    bottom = draw_key(canvas, foot + 52, [*_key(record, found, axis, locale)], 2, locale)
    bottom = draw_key(canvas, bottom, entries, 5, locale)
    return canvas.svg(bottom - FONT + 4)


def _rate_levels(record: TestRecord, findings: Findings, locale: str) -> list[Level]:
    lying = None if findings.baseline is None else findings.baseline.values.heart_rate
    if lying is None:
        return []
    limit = rise_limit(record.age_band)
    if isinstance(limit, Reason):
        return [_supine(lying, locale)]
    return [_supine(lying, locale), _limit("files.chart.rise-line", lying, limit.value, locale)]


def _pressure_levels(findings: Findings, locale: str) -> list[Level]:
    lying = None if findings.baseline is None else findings.baseline.values.systolic
    if lying is None:
        return []
    fall = _limit("files.chart.fall-line", lying, SYSTOLIC_FALL.value, locale)
    return [_supine(lying, locale), fall]


def _supine(value: int, locale: str) -> Level:
    words = render("files.chart.level", {"value": whole(value, locale)}, locale)
    return Level(value=value, words=words, dashed=False)


def _limit(key: str, lying: int, limit: float, locale: str) -> Level:
    values = {"limit": whole(abs(limit), locale), "value": whole(lying + limit, locale)}
    return Level(value=lying + limit, words=render(key, values, locale), dashed=True)


def _names(record: TestRecord, axis: Timeline, locale: str) -> list[_Name]:
    names: list[_Name] = []
    ends: dict[int, float] = {}
    for start in record.phases:
        words = render(f"files.position.{start.position}", {}, locale)
        width = face(bold=True).width(words, FONT)
        first = _LEFT if not names else axis.x(start.started_at)
        x = min(first + 4, _RIGHT - 2 - width)
        row = next(n for n in range(len(record.phases)) if ends.get(n, 0) <= x)
        ends[row] = x + width + 4
        names.append(_Name(words=words, x=x, row=row))
    return names


def _draw_headings(canvas: Canvas, rate_y: float, pressure_y: float, locale: str) -> None:
    canvas.marker(9, rate_y - 4, _RATE.shape, ink=_RATE.ink)
    canvas.text(18, rate_y, render("files.chart.heart-rate", {}, locale), bold=True)
    heading = render("files.chart.pressure", {}, locale)
    x = canvas.text(4, pressure_y, heading, bold=True).right + 12
    for series in (_SYSTOLIC, _DIASTOLIC):
        canvas.marker(x, pressure_y - 4, series.shape, ink=series.ink)
        name = render(f"files.chart.{series.measure}", {}, locale)
        x = canvas.text(x + 8, pressure_y, name).right + 14


def _draw_bands(
    canvas: Canvas,
    record: TestRecord,
    axis: Timeline,
    stretches: Sequence[tuple[float, float]],
) -> None:
    starts = [_LEFT, *(axis.x(start.started_at) for start in record.phases[1:]), _RIGHT]
    for number, start in enumerate(record.phases):
        left, right = starts[number : number + 2]
        for top, bottom in stretches:
            band = Box(left=left, top=top, right=right, bottom=bottom)
            canvas.rect(band, fill=_BANDS[start.position])
            if number:
                canvas.line([(left, top), (left, bottom)], ink=_GREY)


def _draw_end(
    canvas: Canvas,
    record: TestRecord,
    axis: Timeline,
    stretches: Sequence[tuple[float, float]],
) -> None:
    if _ended_early(record) and record.ended_at is not None:
        x = axis.x(record.ended_at)
        for top, bottom in stretches:
            canvas.line([(x, top), (x, bottom)], wide=2.5)
            canvas.avoid((x, top), (x, bottom))


def _draw_axis(canvas: Canvas, axis: Timeline, foot: float, locale: str) -> None:
    canvas.line([(_LEFT, foot), (_RIGHT, foot)])
    for minute in axis.ticks(30):
        x = axis.place(minute)
        canvas.line([(x, foot), (x, foot + 4)])
        canvas.text(x, foot + 16, whole(minute, locale), anchor="middle")
    for x in axis.fold_places():
        for shift in (-2, 2):
            ends = (x + shift - 2, foot + 5), (x + shift + 2, foot - 5)
            canvas.line(ends, wide=1.5)
    middle = (_LEFT + _RIGHT) / 2
    canvas.text(middle, foot + 31, render("files.chart.minutes", {}, locale), anchor="middle")


def _ended_early(record: TestRecord) -> bool:
    return record.ending not in {None, Ending.COMPLETED}


def _key(record: TestRecord, found: Sequence[Row], axis: Timeline, locale: str) -> Iterator[Entry]:
    if any(row.status is Status.LATE for row in found):
        yield Entry(mark="hollow", words=render("files.chart.late", {}, locale))
    if any(row.at is not None and not row.values.complete for row in found):
        yield Entry(mark="cross", words=render("files.chart.missed", {}, locale))
    if _ended_early(record):
        yield Entry(mark="end", words=render("files.chart.ended", {}, locale))
    if axis.folds:
        yield Entry(mark="fold", words=render("files.chart.fold", {}, locale))
