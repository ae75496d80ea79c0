"""What the readings of a chart are drawn into: bands of positions, their names, the time axis."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bot.protocol.definition import Position
from bot.protocol.record import Ending, TestRecord
from bot.reports.canvas import FONT, Box, Canvas
from bot.reports.formats import whole
from bot.reports.glyphs import face
from bot.reports.timeline import Timeline
from bot.texts import render

LEFT: Final = 30.0
RIGHT: Final = 358.0
"""Where the plots begin and end, on a drawing 360 wide."""

TOP: Final = 40.0
ROW: Final = 15.0
"""Of the names of the bands."""

_GREY: Final = "#505050"
_BANDS: Final = {
    Position.SUPINE: "#ececec",
    Position.SEATED: "#fafafa",
    Position.STANDING: "#e0e0e0",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Name:
    """The name of a band; `row` 1 is below row 0 and keeps two names apart."""

    words: str
    x: float
    row: int


def band_names(record: TestRecord, axis: Timeline, locale: str) -> list[Name]:
    """Return the names of the bands, kept apart from one another."""
    names: list[Name] = []
    ends: dict[int, float] = {}
    for start in record.phases:
        words = render(f"files.position.{start.position}", {}, locale)
        width = face(bold=True).width(words, FONT)
        first = LEFT if not names else axis.x(start.started_at)
        x = min(first + 4, RIGHT - 2 - width)
        row = next(n for n in range(len(record.phases)) if ends.get(n, 0) <= x)
        ends[row] = x + width + 4
        names.append(Name(words=words, x=x, row=row))
    return names


def draw_bands(
    canvas: Canvas,
    record: TestRecord,
    axis: Timeline,
    stretches: Sequence[tuple[float, float]],
) -> None:
    """Draw a band for each position, over each stretch of the height."""
    starts = [LEFT, *(axis.x(start.started_at) for start in record.phases[1:]), RIGHT]
    for place, start in enumerate(record.phases):
        left, right = starts[place : place + 2]
        for top, bottom in stretches:
            band = Box(left=left, top=top, right=right, bottom=bottom)
            canvas.rect(band, fill=_BANDS[start.position])
            if place:
                canvas.line([(left, top), (left, bottom)], ink=_GREY)


def draw_end(
    canvas: Canvas,
    record: TestRecord,
    axis: Timeline,
    stretches: Sequence[tuple[float, float]],
) -> None:
    """Draw where a test ended that ended early."""
    if ended_early(record) and record.ended_at is not None:
        x = axis.x(record.ended_at)
        for top, bottom in stretches:
            canvas.line([(x, top), (x, bottom)], wide=2.5)
            canvas.avoid((x, top), (x, bottom))


def draw_axis(canvas: Canvas, axis: Timeline, foot: float, locale: str) -> None:
    """Draw the time axis with its ticks and folds."""
    canvas.line([(LEFT, foot), (RIGHT, foot)])
    for minute in axis.ticks(30):
        x = axis.place(minute)
        canvas.line([(x, foot), (x, foot + 4)])
        canvas.text(x, foot + 16, whole(minute, locale), anchor="middle")
    for x in axis.fold_places():
        for shift in (-2, 2):
            ends = (x + shift - 2, foot + 5), (x + shift + 2, foot - 5)
            canvas.line(ends, wide=1.5)
    middle = (LEFT + RIGHT) / 2
    canvas.text(middle, foot + 31, render("files.chart.minutes", {}, locale), anchor="middle")


def ended_early(record: TestRecord) -> bool:
    """Whether the test ended before its time."""
    return record.ending not in {None, Ending.COMPLETED}
