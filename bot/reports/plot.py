"""One of the chart's two plots: its scale, level lines, points and their labels."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, floor
from typing import Final, assert_never

from bot.findings.result import Findings
from bot.protocol.record import Measure
from bot.reports.canvas import FONT, Box, Canvas, Shape, Spot
from bot.reports.formats import whole
from bot.reports.rows import Row, Status
from bot.reports.timeline import Timeline
from bot.texts import render

_GRID: Final = "#c4c4c4"
_NOTHING: Final = (60.0, 100.0)
_ROOM: Final = FONT + 8
"""Left free above the highest and below the lowest value, for a label."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """One number of the readings, and the mark it is drawn with.

    Attributes:
        measure: Which number.
        shape: The shape of its points.
        ink: Their colour.
        above: Whether labels go above the points rather than below.
    """

    measure: Measure
    shape: Shape
    ink: str
    above: bool

    def of(self, row: Row) -> int | None:
        """Return its value in one reading."""
        match self.measure:
            case Measure.HEART_RATE:
                return row.values.heart_rate
            case Measure.SYSTOLIC:
                return row.values.systolic
            case Measure.DIASTOLIC:
                return row.values.diastolic
            case _:
                assert_never(self.measure)


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """A line across a plot.

    Attributes:
        value: Where.
        words: Its label.
        dashed: Whether readings are held against it; else it is the supine value, dotted.
    """

    value: float
    words: str
    dashed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scale:
    """The vertical scale of a plot."""

    box: Box
    low: int
    high: int

    def y(self, value: float) -> float:
        share = (value - self.low) / (self.high - self.low)
        return self.box.bottom - share * (self.box.bottom - self.box.top)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Point:
    """One number of one reading on the page."""

    row: Row
    value: int
    x: float
    y: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Plot:
    """A plot on the page.

    Attributes:
        box: Its place.
        axis: Its time axis.
        found: The readings.
        shown: The numbers to be drawn.
        levels: The lines across it.
        findings: What the readings show.
        locale: The language.
    """

    box: Box
    axis: Timeline
    found: Sequence[Row]
    shown: Sequence[Series]
    levels: Sequence[Level]
    findings: Findings
    locale: str

    def draw(self, canvas: Canvas) -> None:
        """Draw it. Marks come before labels, so that labels find their way between them."""
        scale = self._scale()
        inside = Box(
            left=self.box.left + 2,
            top=self.box.top - 1,
            right=self.box.right,
            bottom=self.box.bottom + 1,
        )
        self._draw_grid(canvas, scale)
        placed = [(series, self._points(series, scale)) for series in self.shown]
        for series, points in placed:
            self._draw_points(canvas, series, points)
        for row in self.found:
            if row.at is not None and any(series.of(row) is None for series in self.shown):
                canvas.cross(self.axis.x(row.at), self.box.bottom - 7)
        for level in self.levels:
            canvas.label(level.words, self._along(scale.y(level.value)), inside=inside)
        for series, points in placed:
            for point in self._by_weight(series, points):
                canvas.label(
                    whole(point.value, self.locale),
                    _around(point.x, point.y, above=series.above),
                    inside=inside,
                    owner=(point.x, point.y),
                    ink=series.ink,
                )
        if not any(point for _, points in placed for point in points):
            words = render("files.chart.empty", {}, self.locale)
            canvas.label(words, self._along(scale.y(sum(_NOTHING) / 2)), inside=inside)

    def _scale(self) -> _Scale:
        values = [
            float(value)
            for row in self.found
            for series in self.shown
            if row.at is not None and (value := series.of(row)) is not None
        ]
        values += [level.value for level in self.levels]
        low, high = (min(values), max(values)) if values else _NOTHING
        height = self.box.bottom - self.box.top
        room = max(high - low, 30) * _ROOM / (height - 2 * _ROOM)
        return _Scale(
            box=self.box, low=floor((low - room) / 5) * 5, high=ceil((high + room) / 5) * 5
        )

    def _draw_grid(self, canvas: Canvas, scale: _Scale) -> None:
        left, right = self.box.left, self.box.right
        step = next((s for s in (10, 20, 50, 100) if scale.y(0) - scale.y(s) >= FONT * 1.6), 200)
        for tick in range(ceil(scale.low / step) * step, scale.high + 1, step):
            y = scale.y(tick)
            canvas.line([(left, y), (right, y)], ink=_GRID, wide=0.6)
            canvas.text(left - 4, y + 4, whole(tick, self.locale), anchor="end")
        canvas.line([(left, self.box.top), (left, self.box.bottom)])
        for level in self.levels:
            ends = (left, scale.y(level.value)), (right, scale.y(level.value))
            wide, dashes = (1.4, "6 4") if level.dashed else (0.9, "1.5 2.5")
            canvas.line(ends, wide=wide, dashes=dashes)
            canvas.avoid(*ends)

    def _points(self, series: Series, scale: _Scale) -> list[_Point | None]:
        """Return the points in order of time; `None` where a number is missing."""
        return [
            None
            if (value := series.of(row)) is None
            else _Point(row=row, value=value, x=self.axis.x(row.at), y=scale.y(value))
            for row in self.found
            if row.at is not None
        ]

    @staticmethod
    def _draw_points(canvas: Canvas, series: Series, points: Sequence[_Point | None]) -> None:
        """Draw points and join neighbours; a missing number leaves a gap in the line."""
        for before, after in pairwise(points):
            if before is not None and after is not None:
                ends = (before.x, before.y), (after.x, after.y)
                canvas.line(ends, ink=series.ink, wide=2)
                canvas.avoid(*ends)
        for point in points:
            if point is not None:
                hollow = point.row.status is Status.LATE
                canvas.marker(point.x, point.y, series.shape, ink=series.ink, hollow=hollow)

    def _by_weight(self, series: Series, points: Sequence[_Point | None]) -> list[_Point]:
        """Return the points, those that matter most first: their labels find room first."""
        known = [point for point in points if point is not None]
        rising = series.measure is Measure.HEART_RATE
        extreme = (max if rising else min)((point.value for point in known), default=0)

        def weight(point: _Point) -> int:
            if point.row.reading == self.findings.baseline:
                return 0
            return 1 if point.value == extreme else 2

        return sorted(known, key=weight)

    def _along(self, y: float) -> Iterator[Spot]:
        """Yield places beside a level line, above it before below it."""
        left, right = self.box.left, self.box.right
        for height in (-4, 13):
            yield left + 4, y + height, "start"
            yield right - 2, y + height, "end"
            for share in (0.25, 0.5, 0.75):
                yield left + share * (right - left), y + height, "middle"


def _around(x: float, y: float, *, above: bool) -> Iterator[Spot]:
    """Yield places around a point, the preferred side first."""
    over, under = (-9, -7), (16, 14)
    sides = (over, under) if above else (under, over)
    for straight, _ in sides:
        yield x, y + straight, "middle"
    for height in (sides[0][1], sides[1][1], 4):
        yield x + 8, y + height, "start"
        yield x - 8, y + height, "end"
