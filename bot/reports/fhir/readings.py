"""Every reading, planned or extra, as a blood pressure panel and a heart rate."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from bot.findings.deltas import number
from bot.protocol.record import Measure, Origin
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Observed:
    """One observation of a reading.

    Attributes:
        number: The number of the reading; `None` when it was missed.
        kind: What it holds.
        resource: The observation.
    """

    number: int | None
    kind: Kind
    resource: Json


def observe(case: Case) -> tuple[Observed, ...]:
    """Return the observations in order of time; an extra reading has only what was given."""
    return tuple(
        Observed(
            number=None if row.reading is None else row.reading.number,
            kind=kind,
            resource=_pressure(case, row) if kind is Kind.PRESSURE else _rate(case, row),
        )
        for row in rows(case.record, case.findings)
        for kind in _kinds(row)
    )


def _kinds(row: Row) -> Iterator[Kind]:
    values = row.values
    if row.slot is not None or (values.systolic, values.diastolic) != (None, None):
        yield Kind.PRESSURE
    if row.slot is not None or values.heart_rate is not None:
        yield Kind.RATE


def _pressure(case: Case, row: Row) -> Json:
    return {
        **_vital(case, row, Kind.PRESSURE, "bp"),
        **({} if row.reading is None else pressure_source(case)),
        "code": concept(loinc(PANEL), text=f"Blood pressure, {row.position}"),
        "component": [
            {"code": measured(measure, row.position), **_value(row, measure)}
            for measure in PRESSURES
        ],
    }


def _rate(case: Case, row: Row) -> Json:
    return {
        **_vital(case, row, Kind.RATE, "heartrate"),
        **({} if row.reading is None else rate_source(case)),
        "code": measured(Measure.HEART_RATE, row.position),
        **_value(row, Measure.HEART_RATE),
    }


def _vital(case: Case, row: Row, kind: Kind, profile: str) -> Json:
    what = row.slot.id if row.slot is not None else row.reading.number if row.reading else ""
    name = case.name("reading", what, kind)
    return {
        "resourceType": "Observation",
        "id": name,
        "identifier": [identifier(name)],
        "meta": {"profile": [f"{PROFILE}{profile}"]},
        "status": _status(case, row),
        "category": [concept(coding(OBSERVATION_CATEGORY, "vital-signs", "Vital Signs"))],
        "subject": reference(case.patient),
        "performer": [reference(case.patient)],
        "effectiveDateTime": _when(case, row),
        "note": [{"text": "; ".join(_notes(case, row))}],
    }


def _status(case: Case, row: Row) -> str:
    """Return `corrected` for numbers that a file before this one may have had otherwise."""
    return "corrected" if row.before is not None and case.record.revision > 1 else "final"


def _when(case: Case, row: Row) -> str:
    """Return when it was taken or due; the day alone when its phase never began."""
    if row.at is None:
        return case.time(case.record.began_at)[: len("2026-03-02")]
    return case.time(row.at)


def _value(row: Row, measure: Measure) -> Json:
    value = number(row.values, measure)
    if value is not None:
        return {"valueQuantity": quantity(value, UNITS[measure])}
    missing = not_performed() if row.status is Status.MISSED else unknown()
    return {"dataAbsentReason": missing}


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
