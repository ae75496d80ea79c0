"""Summaries of many tests: those of the cohort, and those of any record at all."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from random import Random
from typing import Final

from bot.cohort.devices import draw_kit
from bot.cohort.people import draw_day, draw_person
from bot.cohort.preparation import prepare
from bot.cohort.taking import Test, take
from bot.protocol.circumstances import Circumstances, Cuff, Medicine, RateSource
from bot.protocol.definition import Position
from bot.protocol.record import (
    AgeBand,
    Ending,
    PhaseStart,
    Reading,
    StopReason,
    Symptom,
    SymptomReport,
    TestRecord,
    Values,
)
from bot.protocol.released import FOUR_READINGS, SIX_READINGS, released

PROTOCOLS: Final = (FOUR_READINGS.ref, SIX_READINGS.ref)
_BEGAN_AT: Final = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


def of_cohort(people: int, seed: int) -> Iterator[TestRecord]:
    """Yield the tests of people of the synthetic cohort, each by both protocols."""
    chance = Random(seed)
    for number in range(people):
        person, preparation, kit = draw_person(chance), prepare(chance), draw_kit(chance)
        day = draw_day(person, preparation, chance)
        for protocol in PROTOCOLS:
            test = Test(person=person, day=day, kit=kit, preparation=preparation, protocol=protocol)
            yield replace(take(test, chance).record, number=number + 1)


def of_anything(count: int, seed: int) -> Iterator[TestRecord]:
    """Yield records of any shape: numbers far apart, missing, late, given in between, broken off.

    They reach combinations of findings that no body has.
    """
    chance = Random(seed)
    for number in range(count):
        yield _anything(number + 1, chance)


def _anything(number: int, chance: Random) -> TestRecord:
    protocol = released(chance.choice(PROTOCOLS))
    spread, base = chance.choice((5, 15, 40)), (chance.randint(95, 175), chance.randint(60, 105))
    rate = chance.randint(42, 115)
    keep = chance.choice((0.2, 0.6, 0.95, 1.0))
    whole = chance.choice((0.5, 0.9, 1.0))
    readings: list[Reading] = []
    phases: list[PhaseStart] = []
    start = _BEGAN_AT
    for phase in protocol.phases:
        if phases and chance.random() < 0.05:
            break
        phases.append(PhaseStart(position=phase.position, started_at=start))
        for slot in phase.slots:
            if chance.random() > keep:
                continue
            planned = chance.random() < 0.9
            late = planned and chance.random() < 0.1
            offset = slot.due + timedelta(seconds=chance.choice((-120, 0, 20, 45)))
            offset += slot.window * late
            reading = Reading(
                number=len(readings) + 1,
                position=phase.position,
                slot=slot.id if planned else None,
                values=_values(base, rate, spread, whole, chance),
                offset=offset,
                given_at=start + offset,
                late=late,
            )
            if not reading.values.empty:
                readings.append(reading)
        start += phase.length + timedelta(minutes=2)
    ending = chance.choice((Ending.COMPLETED, Ending.COMPLETED, *Ending))
    return TestRecord(
        number=number,
        protocol=protocol.ref,
        age_band=chance.choice((*AgeBand, AgeBand.FROM_20, None)),
        began_at=_BEGAN_AT,
        phases=tuple(phases),
        readings=tuple(readings),
        symptoms=_symptoms(start, chance),
        ended_at=start,
        ending=ending,
        stop_reason=chance.choice(list(StopReason)) if ending is Ending.STOPPED else None,
        circumstances=_circumstances(chance),
    )


def _values(base: tuple[int, int], rate: int, spread: int, whole: float, chance: Random) -> Values:
    systolic = base[0] + chance.randint(-spread, spread)
    values = Values(
        systolic=systolic,
        diastolic=min(base[1] + chance.randint(-spread, spread), systolic - 12),
        heart_rate=max(38, rate + chance.randint(-10, 2 * spread)),
    )
    if chance.random() < whole:
        return values
    missing = chance.choice(("systolic", "diastolic", "heart_rate"))
    return replace(values, **{missing: None})


def _symptoms(at: datetime, chance: Random) -> tuple[SymptomReport, ...]:
    return tuple(
        SymptomReport(
            symptom=chance.choice(list(Symptom)),
            words=None,
            strength=chance.randint(0, 10),
            told_at=at,
            position=Position.STANDING,
            offset=timedelta(minutes=4),
        )
        for _ in range(chance.choice((0, 0, 1, 3)))
    )


def _circumstances(chance: Random) -> Circumstances | None:
    if chance.random() < 0.2:
        return None
    medicines = (chance.choice(list(Medicine)),) if chance.random() < 0.3 else ()
    return Circumstances(
        zone="UTC",
        cuff=chance.choice(list(Cuff)),
        rate_source=chance.choice(list(RateSource)),
        medicines=medicines,
        audited=True,
    )
