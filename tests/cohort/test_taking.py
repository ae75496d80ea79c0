"""Tests taken by the cohort: sound records, with every imperfection among them."""

from collections import Counter
from functools import cache
from random import Random

from bot.cohort.devices import draw_kit
from bot.cohort.people import draw_day, draw_person
from bot.cohort.preparation import prepare
from bot.cohort.taking import Taken, Test, take
from bot.protocol.definition import Position
from bot.protocol.record import Ending
from bot.protocol.released import FOUR_READINGS, SIX_READINGS, released


@cache
def sample() -> tuple[Taken, ...]:
    """Return some tests by both protocols."""
    chance = Random(20260321)
    taken = []
    for number in range(240):
        person, preparation = draw_person(chance), prepare(chance)
        test = Test(
            person=person,
            day=draw_day(person, preparation, chance),
            kit=draw_kit(chance),
            preparation=preparation,
            protocol=(FOUR_READINGS if number % 2 else SIX_READINGS).ref,
        )
        taken.append(take(test, chance))
    return tuple(taken)


def test_records_are_sound() -> None:
    """Readings are numbered in order of time, answer slots of their phase, and end the record."""
    for taken in sample():
        record = taken.record
        protocol = released(record.protocol)
        assert [reading.number for reading in record.readings] == list(
            range(1, len(record.readings) + 1)
        )
        times = [reading.given_at for reading in record.readings]
        assert times == sorted(times)
        assert record.ended_at is not None
        assert all(at <= record.ended_at for at in times)
        for reading in record.readings:
            assert reading.slot is not None
            assert protocol.phase_of(reading.slot).position is reading.position
            slot = protocol.slot(reading.slot)
            assert reading.late == (reading.offset > slot.due + slot.window)
            start = record.phase_start(reading.position)
            assert start is not None
            assert reading.given_at == start + reading.offset
            assert not reading.values.empty


def test_the_truth_is_of_the_readings_taken() -> None:
    """There is one true moment for each standing reading, and none without a lying one."""
    for taken in sample():
        lying = [r for r in taken.record.readings if r.position is Position.SUPINE]
        standing = [r for r in taken.record.readings if r.position is Position.STANDING]
        if taken.truth is None:
            assert lying == []
        else:
            assert len(taken.truth.standing) == len(standing)
            assert [s.rate_read for s in taken.truth.standing] == [
                r.values.heart_rate is not None for r in standing
            ]


def test_every_imperfection_happens() -> None:
    """Missed, late, hurried and partial readings, stops and typed words are all among them."""
    seen: Counter[str] = Counter()
    for taken in sample():
        record = taken.record
        seen[record.ending or ""] += 1
        planned = released(record.protocol).slots
        seen["missed"] += len(record.readings) < len(planned)
        for reading in record.readings:
            seen["late"] += reading.late
            seen["partial"] += not reading.values.complete
            seen["typed"] += bool(reading.words)
            seen["hurried"] += (
                reading.position is Position.SUPINE and reading.offset.total_seconds() < 270
            )
        seen["symptoms"] += bool(record.symptoms)
        assert record.circumstances is not None
        seen["departed"] += bool(record.circumstances.departures)
    imperfect = {"missed", "late", "partial", "typed", "hurried", "symptoms", "departed"}
    assert all(seen[name] for name in imperfect)
    assert {Ending.COMPLETED, Ending.UNSAFE_READING, Ending.STOPPED} <= set(seen)
    assert seen[Ending.COMPLETED] > 170
