"""The chart: heart rate above, pressures below, against real minutes since lying down.

Drawn as SVG for a phone held upright; the PDF shows the same drawing.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from bot.findings.deltas import number
from bot.findings.lines import SYSTOLIC_FALL, rise_limit
from bot.findings.result import Findings, Reason
from bot.protocol.definition import Position
from bot.protocol.record import Measure, TestRecord
from bot.reports.canvas import FONT, Box, Canvas
from bot.reports.formats import day, whole
from bot.reports.frame import (
    LEFT,
    RIGHT,
    ROW,
    TOP,
    band_names,
    draw_axis,
    draw_bands,
    draw_end,
    ended_early,
)
from bot.reports.key import Entry, draw_key, draw_symptoms, symptom_entries
from bot.reports.plot import Level, Mark, Plot, Point, Track
from bot.reports.rows import Row, Status, rows
from bot.reports.timeline import Timeline, timeline
from bot.texts import render

WIDTH: Final = 360.0
"""Of the drawing: one unit is one CSS pixel on a phone 360 px wide."""

_RATE_HEIGHT: Final = 125.0
_PRESSURE_HEIGHT: Final = 150.0
_BETWEEN: Final = 32.0
RATE_INK: Final = "#8a1538"
PRESSURE_INK: Final = "#0b3f78"
MARKS: Final = {
    Measure.HEART_RATE: Mark(shape="circle", ink=RATE_INK, above=True),
    Measure.SYSTOLIC: Mark(shape="up", ink=PRESSURE_INK, above=True),
    Measure.DIASTOLIC: Mark(shape="down", ink=PRESSURE_INK, above=False),
}
_PRESSURES: Final = (Measure.SYSTOLIC, Measure.DIASTOLIC)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """What the scales of a chart hold in any case, so that two charts can be laid side by side.

    Attributes:
        rates: Heart rates, in beats a minute.
        pressures: In mmHg.
        minutes: Since lying down.
    """

    rates: tuple[float, ...] = ()
    pressures: tuple[float, ...] = ()
    minutes: float = 0.0

    def joined(self, other: "Reach") -> "Reach":
        """Return what holds both."""
        return Reach(
            rates=self.rates + other.rates,
            pressures=self.pressures + other.pressures,
            minutes=max(self.minutes, other.minutes),
        )


def reach(record: TestRecord, findings: Findings, locale: str) -> Reach:
    """Return what the scales of a record's chart hold."""
    found = rows(record, findings)
    return Reach(
        rates=(
            *_numbers(found, (Measure.HEART_RATE,)),
            *(level.value for level in _rate_levels(record, findings, locale)),
        ),
        pressures=(
            *_numbers(found, _PRESSURES),
            *(level.value for level in _pressure_levels(record, findings, locale)),
        ),
        minutes=timeline(record, found, left=0, right=1).last,
    )


def _numbers(found: Sequence[Row], measures: Sequence[Measure]) -> Iterator[float]:
    for row in found:
        for measure in measures:
            if row.at is not None and (value := number(row.values, measure)) is not None:
                yield value


def draw(record: TestRecord, findings: Findings, locale: str, holding: Reach | None = None) -> str:
    """Return the chart as an SVG file, 360 wide and as high as it needs to be.

    Args:
        record: The facts.
        findings: What they show.
        locale: The language.
        holding: What its scales hold besides its own numbers.
    """
    return _drawn(record, findings, locale, holding or Reach())


@lru_cache(maxsize=4)
def _drawn(record: TestRecord, findings: Findings, locale: str, held: Reach) -> str:
    """Draw once: the picture and the page show the same chart."""
    found = rows(record, findings)
    axis = timeline(record, found, left=LEFT + 6, right=RIGHT - 14, least=held.minutes)
    names = band_names(record, axis, locale)
    entries = symptom_entries(record, axis, locale)
    top = TOP + ROW * (1 + max((name.row for name in names), default=0)) + 4
    rate = Box(left=LEFT, top=top, right=RIGHT, bottom=top + _RATE_HEIGHT)
    top = rate.bottom + _BETWEEN
    pressure = Box(left=LEFT, top=top, right=RIGHT, bottom=top + _PRESSURE_HEIGHT)
    foot = pressure.bottom + (26 if entries else 0)

    canvas = Canvas(WIDTH)
    title = {"number": whole(record.number, locale), "day": day(record.began_at, locale)}
    canvas.text(4, 14, render("files.chart.title", title, locale), bold=True)
    _draw_headings(canvas, TOP - 6, pressure.top - 11, locale)
    draw_bands(canvas, record, axis, ((TOP, rate.bottom), (pressure.top, foot)))
    for name in names:
        canvas.text(name.x, TOP + 14 + name.row * ROW, name.words, bold=True)
    draw_end(canvas, record, axis, ((rate.top, rate.bottom), (pressure.top, foot)))
    draw_axis(canvas, axis, foot, locale)
    for box, measures, levels, reached in (
        (rate, (Measure.HEART_RATE,), _rate_levels(record, findings, locale), held.rates),
        (pressure, _PRESSURES, _pressure_levels(record, findings, locale), held.pressures),
    ):
        plot = Plot(
            box=box,
            tracks=[_track(measure, found, axis, findings, locale) for measure in measures],
            levels=levels,
            missed=[
                axis.x(row.at)
                for row in found
                if row.at is not None and any(number(row.values, m) is None for m in measures)
            ],
            reach=reached,
            locale=locale,
        )
        plot.draw(canvas)
    draw_symptoms(canvas, LEFT, pressure.bottom + 3, entries)
    bottom = draw_key(canvas, foot + 52, [*_key(record, found, axis, locale)], 2, locale)
    bottom = draw_key(canvas, bottom, entries, 5, locale)
    return canvas.svg(bottom - FONT + 4)


def _track(
    measure: Measure, found: Sequence[Row], axis: Timeline, findings: Findings, locale: str
) -> Track:
    """Return one number of the readings in order of time.

    The labels that matter most find room first: that of the supine reading, then the extreme one.
    """
    taken = [(row, row.at, number(row.values, measure)) for row in found if row.at is not None]
    values = [value for _, _, value in taken if value is not None]
    extreme = (max if measure is Measure.HEART_RATE else min)(values, default=0)

    def weight(row: Row, value: int) -> int:
        if row.reading == findings.baseline:
            return 0
        return 1 if value == extreme else 2

    return Track(
        mark=MARKS[measure],
        points=[
            None
            if value is None
            else Point(
                x=axis.x(at),
                value=value,
                words=whole(value, locale),
                hollow=row.status is Status.LATE,
                weight=weight(row, value),
            )
            for row, at, value in taken
        ],
    )


def _stood(record: TestRecord) -> bool:
    """Whether anybody stood: lines for standing have no place on a chart of lying alone."""
    began = record.phase_start(Position.STANDING) is not None
    return began or any(r.position is Position.STANDING for r in record.readings)


def _rate_levels(record: TestRecord, findings: Findings, locale: str) -> list[Level]:
    lying = None if findings.baseline is None else findings.baseline.values.heart_rate
    if lying is None:
        return []
    limit = rise_limit(record.age_band)
    if isinstance(limit, Reason) or not _stood(record):
        return [_supine(lying, locale)]
    return [_supine(lying, locale), _limit("files.chart.rise-line", lying, limit.value, locale)]


def _pressure_levels(record: TestRecord, findings: Findings, locale: str) -> list[Level]:
    lying = None if findings.baseline is None else findings.baseline.values.systolic
    if lying is None:
        return []
    if not _stood(record):
        return [_supine(lying, locale)]
    fall = _limit("files.chart.fall-line", lying, SYSTOLIC_FALL.value, locale)
    return [_supine(lying, locale), fall]


def _supine(value: int, locale: str) -> Level:
    words = render("files.chart.level", {"value": whole(value, locale)}, locale)
    return Level(value=value, words=words, dashed=False)


def _limit(key: str, lying: int, limit: float, locale: str) -> Level:
    values = {"limit": whole(abs(limit), locale), "value": whole(lying + limit, locale)}
    return Level(value=lying + limit, words=render(key, values, locale), dashed=True)


def _draw_headings(canvas: Canvas, rate_y: float, pressure_y: float, locale: str) -> None:
    rate = MARKS[Measure.HEART_RATE]
    canvas.marker(9, rate_y - 4, rate.shape, ink=rate.ink)
    canvas.text(18, rate_y, render("files.chart.heart-rate", {}, locale), bold=True)
    heading = render("files.chart.pressure", {}, locale)
    x = canvas.text(4, pressure_y, heading, bold=True).right + 12
    for measure in _PRESSURES:
        canvas.marker(x, pressure_y - 4, MARKS[measure].shape, ink=MARKS[measure].ink)
        name = render(f"files.chart.{measure}", {}, locale)
        x = canvas.text(x + 8, pressure_y, name).right + 14


def _key(record: TestRecord, found: Sequence[Row], axis: Timeline, locale: str) -> Iterator[Entry]:
    if any(row.status is Status.LATE for row in found):
        yield Entry(mark="hollow", words=render("files.chart.late", {}, locale))
    if any(row.at is not None and not row.values.complete for row in found):
        yield Entry(mark="cross", words=render("files.chart.missed", {}, locale))
    if ended_early(record):
        yield Entry(mark="end", words=render("files.chart.ended", {}, locale))
    if axis.folds:
        yield Entry(mark="fold", words=render("files.chart.fold", {}, locale))
