"""What stands under the chart: the symptoms on the time axis, and the key to its marks."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from bot.protocol.record import Symptom, SymptomReport, TestRecord
from bot.reports.canvas import FONT, Box, Canvas
from bot.reports.formats import whole
from bot.reports.glyphs import face, printable
from bot.reports.timeline import Timeline
from bot.texts import render

_LEFT: Final = 4.0
_LINE: Final = 18.0
_APART: Final = 21.0
_WORDS: Final = 22
_MARK: Final = "#4a2a6a"

Mark = Literal["hollow", "cross", "end", "fold"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One entry of the key.

    Attributes:
        words: What it says.
        mark: The mark it explains; for a symptom, `None`.
        number: The number of a symptom's mark.
        x: Where the symptom stands on the time axis.
    """

    words: str
    mark: Mark | None = None
    number: int = 0
    x: float = 0.0


def symptom_entries(record: TestRecord, axis: Timeline, locale: str) -> list[Entry]:
    """Return the symptoms in order of time; those told close together share a number.

    One whose time is not known has no place on the axis.
    """
    entries: list[Entry] = []
    first = 0.0
    timed = [report for report in record.symptoms if record.time_known(report)]
    for report in sorted(timed, key=lambda report: report.told_at):
        x = axis.x(report.told_at)
        number = entries[-1].number if entries else 0
        if not entries or x - first >= _APART:
            number, first = number + 1, x
        entries.append(Entry(words=_shortest(report, locale), number=number, x=x))
    return entries


def symptom_name(report: SymptomReport, locale: str) -> str:
    """Return the name of a symptom with its strength: `Dizzy 6/10`."""
    return _with_strength(render(f"symptom.{report.symptom}", {}, locale), report, locale)


def _shortest(report: SymptomReport, locale: str) -> str:
    """Return a symptom with its strength; one that has no name, in the person's own words."""
    own = printable(report.words or "", _WORDS)
    if report.symptom is not Symptom.OTHER or not own:
        return symptom_name(report, locale)
    return _with_strength(render("files.quoted", {"words": own}, locale), report, locale)


def _with_strength(name: str, report: SymptomReport, locale: str) -> str:
    if report.strength is None:
        return name
    strength = whole(report.strength, locale)
    return render("files.strength", {"symptom": name, "strength": strength}, locale)


def draw_symptoms(canvas: Canvas, axis_left: float, top: float, entries: Sequence[Entry]) -> None:
    """Draw a tick at the time of each symptom, and under it the number of its group."""
    for number in sorted({entry.number for entry in entries}):
        group = [entry.x for entry in entries if entry.number == number]
        for x in group:
            canvas.line([(x, top), (x, top + 6)], ink=_MARK, wide=2)
        _draw_number(canvas, max(group[0], axis_left + 8), top + 5, number)


def _draw_number(canvas: Canvas, middle: float, top: float, number: int) -> float:
    """Draw a numbered box; returns its right edge."""
    half = max(8.0, face(bold=True).width(str(number), FONT) / 2 + 3)
    box = Box(left=middle - half, top=top, right=middle + half, bottom=top + 15)
    canvas.rect(box, fill=_MARK, corner=3)
    canvas.text(middle, top + 12, str(number), anchor="middle", bold=True, ink="#ffffff")
    return box.right


def draw_key(canvas: Canvas, y: float, entries: Sequence[Entry], lines: int, locale: str) -> float:
    """Write entries line by line, as many as fit; returns the baseline after the last line.

    Args:
        canvas: Where.
        y: The baseline of the first line.
        entries: What; what finds no room is counted.
        lines: The greatest number of lines.
        locale: The language of that count.
    """
    if not entries:
        return y
    rows = _broken(entries, canvas.width - 2 * _LEFT)
    if len(rows) > lines:
        rows = rows[: lines - 1]
    for row in rows:
        x = _LEFT
        for entry in row:
            x = _draw_entry(canvas, x, y, entry) + 10
        y += _LINE
    if left_out := len(entries) - sum(map(len, rows)):
        words = render("files.chart.more", {"count": left_out}, locale)
        canvas.text(_LEFT, y, words)
        y += _LINE
    return y


def _broken(entries: Sequence[Entry], width: float) -> list[list[Entry]]:
    rows: list[list[Entry]] = [[]]
    used = 0.0
    for entry in entries:
        needed = 26 + face().width(entry.words, FONT) + 10
        if rows[-1] and used + needed > width + 10:
            rows.append([])
            used = 0.0
        rows[-1].append(entry)
        used += needed
    return rows


def _draw_entry(canvas: Canvas, x: float, y: float, entry: Entry) -> float:
    middle = x + 9
    match entry.mark:
        case None:
            _draw_number(canvas, middle, y - 12, entry.number)
        case "hollow":
            canvas.marker(middle, y - 4, "circle", ink="#111111", hollow=True)
        case "cross":
            canvas.cross(middle, y - 4)
        case "end":
            canvas.line([(middle, y - 11), (middle, y + 2)], wide=2.5)
        case "fold":
            canvas.line([(middle - 4, y + 1), (middle, y - 9)], wide=1.5)
            canvas.line([(middle, y + 1), (middle + 4, y - 9)], wide=1.5)
    return canvas.text(x + 22, y, entry.words).right
