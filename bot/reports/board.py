"""The board as a picture: a row for every place, with how many are there and how many have come.

A dark bar is who stands there now, a light one who has come so far; the numbers stand beside both,
so nothing hangs on the shade.
"""

from collections.abc import Mapping
from datetime import datetime
from typing import Final
from zoneinfo import ZoneInfo

from bot.care.board import Count, Place
from bot.care.overview import length
from bot.engine.effects import ClockTime, Day, HandBoard, Param
from bot.reports.canvas import INK, Box, Canvas
from bot.reports.file import File
from bot.reports.formats import whole
from bot.reports.typesetting import typeset_picture
from bot.texts import render

_WIDTH: Final = 360.0
_LEFT: Final = 118.0
_RIGHT: Final = 250.0
_NUMBERS: Final = (_RIGHT + 26, _RIGHT + 58, _WIDTH - 4)
"""Where the columns of numbers end: now, so far, the longest wait."""

_TOP: Final = 56.0
_ROW: Final = 24.0
_NOW: Final = "#1d4f7c"
_SO_FAR: Final = "#c9d3dc"


def draw_board(counts: Mapping[Place, Count], at: datetime, zone: str, locale: str) -> str:
    """Return the board as an SVG file, 360 wide.

    Args:
        counts: What `bot.care.board.counts` gives.
        at: When it was looked at.
        zone: The clinic's, an IANA name.
        locale: A shipped language.
    """
    there = at.astimezone(ZoneInfo(zone))
    said: dict[str, Param] = {"day": Day(there.date()), "time": ClockTime(there.time())}
    canvas = Canvas(_WIDTH)
    canvas.text(4, 14, render("board.title", said, locale), bold=True)
    for key, x in zip(("now", "so-far", "longest"), _NUMBERS, strict=True):
        canvas.text(x, _TOP - 14, render(f"board.{key}", {}, locale), anchor="end")
    _draw_key(canvas, locale)
    most = max((count.reached for count in counts.values()), default=0)
    for row, (place, count) in enumerate(counts.items()):
        _draw_row(canvas, _TOP + row * _ROW, place, count, most=most, locale=locale)
    return canvas.svg(_TOP + len(counts) * _ROW + 4)


def board_picture(
    counts: Mapping[Place, Count], at: datetime, zone: str, locale: str, pixels: int = 1080
) -> bytes:
    """Return the board as a PNG file of that width; the same arguments give the same bytes."""
    return typeset_picture(draw_board(counts, at, zone, locale), pixels)


def board_file(effect: HandBoard, locale: str) -> File:
    """Return the board that a member asked for, as a PNG file named by the day."""
    found = {
        Place(line.place): Count(here=line.here, reached=line.reached, longest=line.longest)
        for line in effect.lines
    }
    day = effect.at.astimezone(ZoneInfo(effect.zone)).date()
    content = board_picture(found, effect.at, effect.zone, locale)
    return File(name=f"wallside-board-{day}.png", media_type="image/png", content=content)


def _draw_key(canvas: Canvas, locale: str) -> None:
    """Say what the two shades are, above the bars."""
    x = _LEFT
    for key, fill in (("now", _NOW), ("so-far", _SO_FAR)):
        canvas.rect(Box(left=x, top=_TOP - 24, right=x + 10, bottom=_TOP - 14), fill=fill)
        said = canvas.text(x + 14, _TOP - 14, render(f"board.{key}", {}, locale))
        x = said.right + 10


def _draw_row(
    canvas: Canvas, top: float, place: Place, count: Count, *, most: int, locale: str
) -> None:
    baseline = top + 13
    canvas.text(4, baseline, render(f"care.place.{place}", {}, locale))
    canvas.rect(_bar(top, count.reached, most), fill=_SO_FAR)
    canvas.rect(_bar(top + 4, count.here, most, high=10), fill=_NOW)
    canvas.line([(_LEFT, top), (_LEFT, top + 18)], ink=INK)
    waits = "–" if count.longest is None else length(count.longest)
    values = (whole(count.here, locale), whole(count.reached, locale), waits)
    for words, x in zip(values, _NUMBERS, strict=True):
        canvas.text(x, baseline, words, anchor="end")


def _bar(top: float, count: int, most: int, *, high: float = 18) -> Box:
    share = count / most if most else 0.0
    return Box(left=_LEFT, top=top, right=_LEFT + share * (_RIGHT - _LEFT), bottom=top + high)
