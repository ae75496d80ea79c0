"""The time axis of the chart, and the order of the readings on it."""

from datetime import timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings

from bot.findings import find
from bot.protocol.record import TestRecord
from bot.reports.rows import Status, rows, symptoms_by_row
from bot.reports.timeline import Timeline, timeline
from tests.reports.examples import (
    BEFORE_LYING,
    CLEAR_RISE,
    EARLY_FALL,
    HOURS_LATE,
    LYING_AT,
    NOTHING,
    STOPPED,
    any_record,
)


def axis_of(record: TestRecord) -> Timeline:
    """Return the axis of a record, from 0 to 100 on the page."""
    return timeline(record, rows(record, find(record)), left=0, right=100)


def test_minutes_are_real_and_straight() -> None:
    """Without a fold, places are in proportion to minutes since lying down."""
    axis = axis_of(CLEAR_RISE)
    assert axis.folds == ()
    assert axis.x(LYING_AT) == 0
    half = timedelta(minutes=axis.last / 2)
    assert axis.x(LYING_AT + half) == pytest.approx(50)


def test_a_planned_phase_is_shown_whole() -> None:
    """A test that ended in a phase shows that phase as planned, so the gap can be seen."""
    assert axis_of(NOTHING).last == 5
    assert axis_of(STOPPED).last == pytest.approx(12 + 40 / 60 + 10)


def test_a_test_without_a_phase_has_an_axis() -> None:
    """Before lying down there is still an axis of some length."""
    assert axis_of(BEFORE_LYING).last == 5


def test_folds_are_short_and_labelled() -> None:
    """A fold takes little room, and the minute after it is labelled."""
    axis = axis_of(HOURS_LATE)
    late = 12 + 40 / 60 + 300
    assert len(axis.folds) == 2
    assert axis.place(late) - axis.place(axis.folds[0]) < 15
    assert late in [pytest.approx(tick) for tick in axis.ticks(8)]


@settings(deadline=None)
@given(record=any_record())
def test_later_is_never_further_left(record: TestRecord) -> None:
    """Places rise with time and stay on the page; labels keep their distance."""
    axis = axis_of(record)
    places = [axis.place(minute) for minute, _ in axis.knots]
    assert places == sorted(places)
    assert places[0] == pytest.approx(0)
    assert places[-1] == pytest.approx(100)
    ticks = [axis.place(tick) for tick in axis.ticks(8)]
    assert all(b - a >= 8 - 1e-6 for a, b in pairwise(ticks))


def test_rows_tell_what_became_of_each_reading() -> None:
    """Planned readings are taken, late or missed; the phases not reached come last, untimed."""
    status = {row.slot.id: row.status for row in rows(EARLY_FALL, find(EARLY_FALL)) if row.slot}
    assert status["standing-5"] is Status.LATE
    assert status["standing-10"] is Status.TAKEN
    nothing = rows(NOTHING, find(NOTHING))
    assert {row.status for row in nothing} == {Status.MISSED}
    assert [row.at is None for row in nothing] == [False, True, True, True]


@settings(deadline=None)
@given(record=any_record())
def test_every_symptom_has_one_row(record: TestRecord) -> None:
    """Symptoms are spread over the rows without loss, in order of time."""
    told = [r for row in symptoms_by_row(record, rows(record, find(record))) for r in row]
    assert sorted(map(id, told)) == sorted(map(id, record.symptoms))
    assert told == sorted(told, key=lambda report: report.told_at)
