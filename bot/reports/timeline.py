"""The time axis of the chart: real minutes since lying down, long empty stretches folded."""

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise
from math import ceil
from typing import Final

from bot.protocol.record import TestRecord
from bot.protocol.released import released
from bot.reports.rows import Row, since_zero

_FOLD_OVER: Final = 20.0
"""Minutes without anything in them after which a stretch is folded."""

_FOLDED: Final = 3.0
"""The minutes that a folded stretch is drawn as."""

_STEPS: Final = (1, 2, 5, 10, 15, 30, 60, 120, 240, 720, 1440)


@dataclass(frozen=True, slots=True, kw_only=True)
class Timeline:
    """From instants to places on the page.

    Attributes:
        record: The test.
        knots: Pairs of real minutes and minutes as drawn, both rising; straight in between.
        folds: Real minutes at which each folded stretch begins.
        left: Where minute 0 is drawn.
        right: Where the last minute is drawn.
    """

    record: TestRecord
    knots: tuple[tuple[float, float], ...]
    folds: tuple[float, ...]
    left: float
    right: float

    @property
    def last(self) -> float:
        """The last minute of the axis."""
        return self.knots[-1][0]

    def minute(self, at: datetime) -> float:
        """Return the real minutes since lying down."""
        return since_zero(self.record, at).total_seconds() / 60

    def place(self, minute: float) -> float:
        """Return where a real minute is drawn."""
        number = bisect_right(self.knots, (minute, float("inf"))) - 1
        number = min(max(number, 0), len(self.knots) - 2)
        (real, drawn), (real_after, drawn_after) = self.knots[number : number + 2]
        share = (minute - real) / (real_after - real)
        at = drawn + share * (drawn_after - drawn)
        return self.left + (self.right - self.left) * at / self.knots[-1][1]

    def x(self, at: datetime) -> float:
        """Return where an instant is drawn."""
        return self.place(self.minute(at))

    def fold_places(self) -> tuple[float, ...]:
        """Return where the middle of each fold is drawn."""
        return tuple((self.place(start) + self.place(end)) / 2 for start, end in self._folded())

    def ticks(self, apart: float) -> tuple[float, ...]:
        """Return the minutes to be labelled: round ones outside the folds, and each fold's end.

        Args:
            apart: The least distance on the page between two of them.
        """
        straight = (self.right - self.left) / self.knots[-1][1]
        step = next((step for step in _STEPS if step * straight >= apart), _STEPS[-1])
        kept: list[float] = []
        for end in (end for _, end in self._folded()):
            self._keep(kept, end, apart)
        for (start, _), (end, _) in pairwise(self.knots):
            if start not in self.folds:
                for minute in range(ceil(start / step) * step, int(end) + 1, step):
                    self._keep(kept, minute, apart)
        return tuple(sorted(kept))

    def _keep(self, kept: list[float], minute: float, apart: float) -> None:
        if all(abs(self.place(minute) - self.place(other)) >= apart for other in kept):
            kept.append(minute)

    def _folded(self) -> Iterable[tuple[float, float]]:
        for (start, _), (end, _) in pairwise(self.knots):
            if start in self.folds:
                yield start, end


def timeline(
    record: TestRecord, found: Iterable[Row], *, left: float, right: float, least: float = 0.0
) -> Timeline:
    """Return the time axis that holds all that was recorded, and the phases as planned.

    Args:
        record: The test.
        found: Its readings.
        left: Where minute 0 is drawn.
        right: Where the last minute is drawn.
        least: The minute that it reaches at the least.
    """
    planned = {phase.position: phase.length for phase in released(record.protocol).phases}
    instants = [start.started_at for start in record.phases]
    instants += [start.started_at + planned[start.position] for start in record.phases[-1:]]
    instants += [row.at for row in found if row.at is not None]
    instants += [report.told_at for report in record.symptoms]
    if record.ended_at is not None:
        instants.append(record.ended_at)
    marks = sorted({0.0, *(since_zero(record, at).total_seconds() / 60 for at in instants)})
    least = max(least, released(record.protocol).phases[0].length.total_seconds() / 60)
    if marks[-1] < least:
        marks.append(least)
    knots = [(0.0, 0.0)]
    folds = []
    for before, after in pairwise(marks):
        drawn = after - before
        if drawn > _FOLD_OVER:
            folds.append(before)
            drawn = _FOLDED
        knots.append((after, knots[-1][1] + drawn))
    return Timeline(record=record, knots=tuple(knots), folds=tuple(folds), left=left, right=right)
