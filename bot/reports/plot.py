"""One plot of a chart: its scale, level lines, points and their labels."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, floor
from typing import Final

from bot.reports.canvas import FONT, Box, Canvas, Shape, Spot
from bot.reports.formats import whole
from bot.texts import render

_GRID: Final = "#c4c4c4"
_NOTHING: Final = (60.0, 100.0)
_ROOM: Final = FONT + 8
"""Left free above the highest and below the lowest value, for a label."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """How the points of a track look.

    Attributes:
        shape: The shape of its points.
        ink: Their colour.
        above: Whether labels go above the points rather than below.
        dashes: Of the line that joins them; empty for an unbroken one.
        joined: Whether a line joins them.
        hollow: Whether its points are hollow.
    """

    shape: Shape
    ink: str
    above: bool
    dashes: str = ""
    joined: bool = True
    hollow: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One number on the page.

    Attributes:
        x: Where it is drawn.
        value: The number.
        words: Its label.
        hollow: Whether its mark is hollow.
        weight: The least finds room for its label first.
    """

    x: float
    value: float
    words: str
    hollow: bool = False
    weight: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Track:
    """Numbers of one kind in order, joined by a line.

    Attributes:
        mark: How they look.
        points: The numbers; `None` is one that is missing and leaves a gap in the line.
    """

    mark: Mark
    points: Sequence[Point | None]


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
class Scale:
    """The vertical scale of a plot."""

    box: Box
    low: int
    high: int

    def y(self, value: float) -> float:
        """Return where a number is drawn."""
        share = (value - self.low) / (self.high - self.low)
        return self.box.bottom - share * (self.box.bottom - self.box.top)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plot:
    """A plot on the page.

    Attributes:
        box: Its place.
        tracks: The numbers to be drawn.
        levels: The lines across it.
        missed: Where a number is missing that was to be read.
        reach: Numbers that the scale holds in any case.
        locale: The language.
    """

    box: Box
    tracks: Sequence[Track]
    levels: Sequence[Level]
    missed: Sequence[float] = ()
    reach: Sequence[float] = ()
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
        for track in self.tracks:
            _draw_track(canvas, track, scale)
        for x in self.missed:
            canvas.cross(x, self.box.bottom - 7)
        for level in self.levels:
            canvas.label(level.words, self._along(scale.y(level.value)), inside=inside)
        for track in self.tracks:
            known = [point for point in track.points if point is not None]
            for point in sorted(known, key=lambda point: point.weight):
                place = point.x, scale.y(point.value)
                canvas.label(
                    point.words,
                    _around(*place, above=track.mark.above),
                    inside=inside,
                    owner=place,
                    ink=track.mark.ink,
                )
        if not any(point for track in self.tracks for point in track.points):
            words = render("files.chart.empty", {}, self.locale)
            canvas.label(words, self._along(scale.y(sum(_NOTHING) / 2)), inside=inside)

    def _scale(self) -> Scale:
        values = [
            point.value for track in self.tracks for point in track.points if point is not None
        ]
        values += [level.value for level in self.levels]
        values += self.reach
        low, high = (min(values), max(values)) if values else _NOTHING
        height = self.box.bottom - self.box.top
        room = max(high - low, 30) * _ROOM / (height - 2 * _ROOM)
        return Scale(
            box=self.box, low=floor((low - room) / 5) * 5, high=ceil((high + room) / 5) * 5
        )

    def _draw_grid(self, canvas: Canvas, scale: Scale) -> None:
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

    def _along(self, y: float) -> Iterator[Spot]:
        """Yield places beside a level line, above it before below it."""
        left, right = self.box.left, self.box.right
        for height in (-4, 13):
            yield left + 4, y + height, "start"
            yield right - 2, y + height, "end"
            for share in (0.25, 0.5, 0.75):
                yield left + share * (right - left), y + height, "middle"


def _draw_track(canvas: Canvas, track: Track, scale: Scale) -> None:
    """Draw points and join neighbours; a missing number leaves a gap in the line."""
    mark = track.mark
    placed = [None if p is None else (p, p.x, scale.y(p.value)) for p in track.points]
    for before, after in pairwise(placed):
        if mark.joined and before is not None and after is not None:
            ends = before[1:], after[1:]
            canvas.line(ends, ink=mark.ink, wide=2, dashes=mark.dashes)
            canvas.avoid(*ends)
    for point, x, y in filter(None, placed):
        canvas.marker(x, y, mark.shape, ink=mark.ink, hollow=point.hollow or mark.hollow)


def _around(x: float, y: float, *, above: bool) -> Iterator[Spot]:
    """Yield places around a point, the preferred side first."""
    over, under = (-9, -7), (16, 14)
    sides = (over, under) if above else (under, over)
    for straight, _ in sides:
        yield x, y + straight, "middle"
    for height in (sides[0][1], sides[1][1], 4):
        yield x + 8, y + height, "start"
        yield x - 8, y + height, "end"
