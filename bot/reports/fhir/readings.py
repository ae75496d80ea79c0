"""Every reading, planned, extra or again, as a blood pressure panel and a heart rate."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from bot.findings.deltas import number
from bot.protocol.record import Measure, Origin, Repeat, Values
from bot.readings.saying import echo
from bot.reports import wording
from bot.reports.fhir.case import Case, identifier, reference
from bot.reports.fhir.codes import (
    OBSERVATION_CATEGORY,
    PANEL,
    PROFILE,
    UNITS,
    coding,
    concept,
    loinc,
    measured,
    not_performed,
    quantity,
    unknown,
)
from bot.reports.fhir.parties import pressure_source, rate_source
from bot.reports.fhir.plain import Json
from bot.reports.formats import minutes
from bot.reports.rows import Row, Status, rows

PRESSURES: Final = (Measure.SYSTOLIC, Measure.DIASTOLIC)


class Kind(StrEnum):
    """What one observation of a reading holds."""

    PRESSURE = "pressure"
    RATE = "heart-rate"


_PROFILES: Final = {Kind.PRESSURE: "bp", Kind.RATE: "heartrate"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Observed:
    """One observation of a reading.

    Attributes:
        number: The number of the reading; `None` when it was missed, or was none of the test.
        kind: What it holds.
        resource: The observation.
    """

    number: int | None
    kind: Kind
    resource: Json


def observe(case: Case) -> tuple[Observed, ...]:
    """Return the observations in order of time; what was not planned has only what was given."""
    of_the_test = (
        Observed(
            number=None if row.reading is None else row.reading.number,
            kind=kind,
            resource=_pressure(case, row) if kind is Kind.PRESSURE else _rate(case, row),
        )
        for row in rows(case.record, case.findings)
        for kind in _kinds(row.values, planned=row.slot is not None)
    )
    again = (
        Observed(number=None, kind=kind, resource=_repeat(case, repeat, count, kind))
        for count, repeat in enumerate(case.record.repeats, 1)
        for kind in _kinds(repeat.values, planned=False)
    )
    return (*of_the_test, *again)


def _kinds(values: Values, *, planned: bool) -> Iterator[Kind]:
    if planned or (values.systolic, values.diastolic) != (None, None):
        yield Kind.PRESSURE
    if planned or values.heart_rate is not None:
        yield Kind.RATE


def measured_again(case: Case, repeat: Repeat) -> str:
    """Return in words what was measured again after a very high pressure."""
    after = repeat.given_at - (case.record.ended_at or case.record.began_at)
    params = {"time": minutes(after, case.locale), "numbers": echo(repeat.values)}
    return case.say("files.ending.repeat", params)


def _repeat(case: Case, repeat: Repeat, count: int, kind: Kind) -> Json:
    """Return what was measured again: base codes alone, since it was in no position of the test."""
    vital = _profiled(
        case,
        case.name("again", count, kind),
        kind,
        when=case.time(repeat.given_at),
        status="final",
        note=measured_again(case, repeat),
    )
    if kind is Kind.RATE:
        value = _value(repeat.values, Measure.HEART_RATE, unknown())
        return {**vital, **rate_source(case), "code": measured(Measure.HEART_RATE, None), **value}
    return {
        **vital,
        **pressure_source(case),
        "code": concept(loinc(PANEL)),
        "component": [
            {"code": measured(measure, None), **_value(repeat.values, measure, unknown())}
            for measure in PRESSURES
        ],
    }


def _pressure(case: Case, row: Row) -> Json:
    return {
        **_vital(case, row, Kind.PRESSURE),
        **({} if row.reading is None else pressure_source(case)),
        "code": concept(loinc(PANEL), text=f"Blood pressure, {row.position}"),
        "component": [
            {"code": measured(measure, row.position), **_value(row.values, measure, _missing(row))}
            for measure in PRESSURES
        ],
    }


def _rate(case: Case, row: Row) -> Json:
    return {
        **_vital(case, row, Kind.RATE),
        **({} if row.reading is None else rate_source(case)),
        "code": measured(Measure.HEART_RATE, row.position),
        **_value(row.values, Measure.HEART_RATE, _missing(row)),
    }


def _vital(case: Case, row: Row, kind: Kind) -> Json:
    what = row.slot.id if row.slot is not None else row.reading.number if row.reading else ""
    name = case.name("reading", what, kind)
    return _profiled(
        case,
        name,
        kind,
        when=_when(case, row),
        status=_status(case, row),
        note="; ".join(_notes(case, row)),
    )


def _profiled(case: Case, name: str, kind: Kind, *, when: str, status: str, note: str) -> Json:
    return {
        "resourceType": "Observation",
        "id": name,
        "identifier": [identifier(name)],
        "meta": {"profile": [f"{PROFILE}{_PROFILES[kind]}"]},
        "status": status,
        "category": [concept(coding(OBSERVATION_CATEGORY, "vital-signs", "Vital Signs"))],
        "subject": reference(case.patient),
        "performer": [reference(case.patient)],
        "effectiveDateTime": when,
        "note": [{"text": note}],
    }


def _status(case: Case, row: Row) -> str:
    """Return `corrected` for numbers that a file before this one may have had otherwise."""
    return "corrected" if row.before is not None and case.record.revision > 1 else "final"


def _when(case: Case, row: Row) -> str:
    """Return when it was taken or due; the day alone when its phase never began."""
    if row.at is None:
        return case.time(case.record.began_at)[: len("2026-03-02")]
    return case.time(row.at)


def _value(values: Values, measure: Measure, missing: Json) -> Json:
    value = number(values, measure)
    if value is not None:
        return {"valueQuantity": quantity(value, UNITS[measure])}
    return {"dataAbsentReason": missing}


def _missing(row: Row) -> Json:
    return not_performed() if row.status is Status.MISSED else unknown()


def _notes(case: Case, row: Row) -> Iterator[str]:
    offset = row.reading.offset if row.reading is not None else row.slot.due if row.slot else None
    if offset is not None:
        yield wording.when(row.position, minutes(offset, case.locale), case.locale)
    if case.record.origin is Origin.PAPER:
        yield case.say("files.note.paper")
    if row.status is not Status.TAKEN:
        yield case.say(f"files.note.{row.status}")
    if row.reading is not None and not row.values.complete:
        yield case.say("files.note.incomplete")
    if row.before is not None:
        before = {
            str(measure): "–" if (value := number(row.before, measure)) is None else str(value)
            for measure in Measure
        }
        values = case.say("files.values", before)
        yield case.say("files.note.corrected", {"before": values})
