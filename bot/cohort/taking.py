"""A person of the cohort takes a test: the record of it, and what was true at each reading."""

from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from random import Random
from typing import Final

from bot.cohort.courses import Body, Course
from bot.cohort.devices import Kit, measure
from bot.cohort.messages import Heard, type_in
from bot.cohort.people import Person
from bot.cohort.preparation import HANGING_ARM, Preparation
from bot.cohort.truth import Stood, Truth
from bot.engine.context import StopLines
from bot.engine.dialogues.crossing import crossed
from bot.protocol.circumstances import Circumstances, DayKind, Medicine
from bot.protocol.definition import Phase, Position, ProtocolRef, ReadingSlot
from bot.protocol.record import (
    Ending,
    PhaseStart,
    Reading,
    StopReason,
    Symptom,
    SymptomReport,
    TestRecord,
    Values,
)
from bot.protocol.released import released

TYPED: Final = 0.5
"""Share of readings that are typed and read again by the parser; the others are kept as shown."""

MISSED: Final = 0.015
LATE: Final = 0.02
HURRIED: Final = 0.01
PARTIAL: Final = 0.015
"""Shares of readings not taken, taken after their window, lying ones taken too soon, and without
one of the numbers. Design choice."""

TELLING: Final = 0.4
"""Share of people who stand badly and tell of a symptom, at each standing reading. Design
choice."""

STOPPING: Final = 0.1
"""Share of those who stop there. Design choice."""

_BEGAN_AT: Final = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
_BETWEEN: Final = timedelta(minutes=1.5)
_LINES: Final = StopLines()
_SLOWING: Final = frozenset({Medicine.BETA_BLOCKER, Medicine.HEART_SLOWING})


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """One test.

    Attributes:
        record: As the program would have it.
        truth: What was true at the readings that count; `None` without a lying one.
        heard: What became of each typed reading.
    """

    record: TestRecord
    truth: Truth | None
    heard: tuple[Heard, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Test:
    """What a test is taken with.

    Attributes:
        person: Who.
        day: Their course.
        kit: Their devices.
        preparation: What surrounds it.
        protocol: What is planned.
    """

    __test__ = False  # not a test class, whatever a test runner thinks of its name

    person: Person
    day: Course
    kit: Kit
    preparation: Preparation
    protocol: ProtocolRef


def take(test: Test, chance: Random) -> Taken:
    """Take a test: every reading as it is planned, missed, late, typed wrong or stopped at."""
    told = test.preparation
    kinds = (DayKind.GOOD, DayKind.SYMPTOMATIC, None)
    record = TestRecord(
        number=1,
        protocol=test.protocol,
        age_band=test.person.age_band,
        began_at=_BEGAN_AT,
        circumstances=Circumstances(
            zone="UTC",
            cuff=test.kit.cuff,
            rate_source=test.kit.rate_source,
            medicines=told.medicines,
            last_dose=told.last_dose,
            departures=told.departures if told.audited else (),
            audited=told.audited,
        ),
        day=chance.choice(kinds),
    )
    sitting = _Sitting(test=test, record=record, chance=chance)
    for phase in released(test.protocol).phases:
        if not sitting.go_through(phase):
            break
    return sitting.finished()


class _Sitting:
    """A test while it is being taken."""

    def __init__(self, *, test: Test, record: TestRecord, chance: Random) -> None:
        self._test = test
        self._record = record
        self._chance = chance
        self._now = record.began_at
        self._true: dict[int, tuple[float, Body]] = {}
        self._heard: list[Heard] = []

    def go_through(self, phase: Phase) -> bool:
        """Take a phase; return whether the test goes on."""
        record, start = self._record, self._now
        begun = PhaseStart(position=phase.position, started_at=start)
        self._record = replace(record, phases=(*record.phases, begun))
        for slot in phase.slots:
            if self._chance.random() < MISSED:
                continue
            reading = self._read(slot, phase.position, start)
            if reading is None:
                continue
            crossing = crossed(self._record, phase.position, reading.values, _LINES)
            self._record = self._record.with_reading(reading)
            self._now = reading.given_at
            if crossing is not None:
                self._end(Ending.UNSAFE_READING)
                return False
            if phase.position is Position.STANDING and self._feels(reading):
                return False
        self._now = max(self._now, start + phase.length) + _BETWEEN
        return True

    def finished(self) -> Taken:
        """Return the test as it ended."""
        if self._record.ending is None:
            self._end(Ending.COMPLETED)
        return Taken(record=self._record, truth=self._truth(), heard=tuple(self._heard))

    def _read(self, slot: ReadingSlot, position: Position, start: datetime) -> Reading | None:
        chance, due = self._chance, slot.due.total_seconds() / 60
        late = chance.random() < LATE
        hurried = position is Position.SUPINE and chance.random() < HURRIED
        if late:
            measured = due + slot.window.total_seconds() / 60 + chance.uniform(0.0, 0.5)
        else:
            measured = due - 1.5 if hurried else due + chance.uniform(0.0, 0.3)
        body = self._test.day.at(position, measured)
        shown = measure(self._as_held(body, position), self._test.kit, chance)
        number = self._record.next_number
        words: tuple[str, ...] = ()
        if chance.random() < TYPED:
            before = self._record.readings[-1].values if self._record.readings else None
            typed = type_in(shown, before, chance)
            self._heard.append(typed.heard)
            shown, words = typed.values, (typed.words,)
        shown = self._partial(shown)
        if shown.empty:
            return None
        offset = timedelta(minutes=round((measured + chance.uniform(0.2, 0.6)) * 60) / 60)
        late = offset > slot.due + slot.window
        minutes = offset.total_seconds() / 60
        self._true[number] = (minutes if late else min(minutes, due), body)
        return Reading(
            number=number,
            position=position,
            slot=slot.id,
            values=shown,
            offset=offset,
            given_at=start + offset,
            late=late,
            words=words,
        )

    def _as_held(self, body: Body, position: Position) -> Body:
        hangs = self._test.preparation.hanging_arm and position is Position.STANDING
        return body + HANGING_ARM if hangs else body

    def _partial(self, shown: Values) -> Values:
        drawn = self._chance.random()
        if drawn < PARTIAL * 2 / 3:
            return replace(shown, heart_rate=None)
        return replace(shown, systolic=None, diastolic=None) if drawn < PARTIAL else shown

    def _feels(self, reading: Reading) -> bool:
        """Tell of a symptom, as people do who stand badly; return whether they stop for it."""
        chance, (_, body) = self._chance, self._true[reading.number]
        lying = self._test.day.lying
        badly = body.systolic <= lying.systolic - 20 or body.rate >= lying.rate + 30
        if chance.random() >= (TELLING if badly else 0.02):
            return False
        symptom = chance.choice((Symptom.DIZZY, Symptom.PALPITATIONS, Symptom.WEAK, Symptom.TIRED))
        told = SymptomReport(
            symptom=symptom,
            words=None,
            strength=chance.randint(1, 9),
            told_at=reading.given_at + timedelta(seconds=10),
            position=Position.STANDING,
            offset=reading.offset + timedelta(seconds=10),
        )
        self._record = replace(self._record, symptoms=(*self._record.symptoms, told))
        if not badly or chance.random() >= STOPPING:
            return False
        self._end(Ending.STOPPED)
        self._record = replace(self._record, stop_reason=StopReason.UNWELL)
        return True

    def _end(self, ending: Ending) -> None:
        self._record = replace(self._record, ending=ending, ended_at=self._now)

    def _truth(self) -> Truth | None:
        by_position = {reading.position: reading for reading in self._record.readings}
        supine = by_position.get(Position.SUPINE)
        if supine is None:
            return None
        seated = by_position.get(Position.SEATED)
        return Truth(
            age_band=self._record.age_band,
            lying=self._true[supine.number][1],
            seated=None if seated is None else self._true[seated.number][1],
            standing=tuple(
                Stood(
                    minute=self._true[reading.number][0],
                    body=self._true[reading.number][1],
                    rate_read=reading.values.heart_rate is not None,
                    pressures_read=reading.values.systolic is not None,
                )
                for reading in self._record.readings
                if reading.position is Position.STANDING
            ),
            slowed=bool(_SLOWING & set(self._test.preparation.medicines)),
        )
