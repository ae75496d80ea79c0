"""What is worked out of the readings: changes from lying, where each line stands, the grade.

They are observations outside the vital-signs profile, those on numbers derived from the readings
they rest on, with codes of this project's own. They carry no interpretation.
"""

from collections.abc import Iterator, Sequence
from typing import Final

from bot.findings.certainty import Certainties, Certainty, ChangeCertainty
from bot.findings.result import Change, Finding, Line
from bot.protocol.record import Measure
from bot.reports import wording
from bot.reports.fhir.case import Case, display, identifier, reference
from bot.reports.fhir.codes import (
    MMHG,
    OBSERVATION_CATEGORY,
    PER_MINUTE_PER_MMHG,
    SECONDS,
    UNITS,
    Own,
    coding,
    concept,
    own,
    quantity,
)
from bot.reports.fhir.plain import Json
from bot.reports.fhir.readings import Kind, Observed
from bot.reports.fhir.sureness import graded, on_change, on_line
from bot.reports.formats import minutes

_CHANGES: Final = {
    Measure.HEART_RATE: "Change of heart rate, standing minus supine",
    Measure.SYSTOLIC: "Change of systolic pressure, standing minus supine",
    Measure.DIASTOLIC: "Change of diastolic pressure, standing minus supine",
}
_KIND: Final = {
    Measure.HEART_RATE: Kind.RATE,
    Measure.SYSTOLIC: Kind.PRESSURE,
    Measure.DIASTOLIC: Kind.PRESSURE,
}


def changes(case: Case, known: Certainties, observed: Sequence[Observed]) -> Iterator[Json]:
    """Return the changes of each standing reading that both numbers are there for."""
    sure = {(one.reading, one.measure): one for one in known.changes}
    for change in case.findings.changes:
        for measure in _CHANGES:
            if (one := sure.get((change.reading.number, measure))) is not None:
                yield _change(case, change, one, observed)


def judgements(case: Case, known: Certainties, observed: Sequence[Observed]) -> Iterator[Json]:
    """Return where the readings stand against each line, all lines, in their order."""
    for finding in case.findings.findings:
        yield _judgement(case, finding, known.on(finding.line), observed)


def grade(case: Case) -> Json:
    """Return how well the test was done."""
    return {**_derived(case, case.name("quality"), "preliminary"), **graded(case)}


def _change(
    case: Case, change: Change, sure: ChangeCertainty, observed: Sequence[Observed]
) -> Json:
    measure = sure.measure
    reading, lying = change.reading, case.findings.baseline
    assert lying is not None, "a change has something it is a change from"
    when = wording.when(reading.position, minutes(reading.offset, case.locale), case.locale)
    kinds = {_KIND[measure]}
    what = reading.slot or reading.number
    return {
        **_derived(case, case.name("change", what, measure), "final"),
        "code": concept(own(Own.CHANGE, measure, _CHANGES[measure])),
        "effectiveDateTime": case.time(reading.given_at),
        "valueQuantity": quantity(sure.size, UNITS[measure]),
        "component": [
            _number(
                "time-in-position", "Time in the position", round(reading.offset.total_seconds())
            ),
            *on_change(sure),
        ],
        "derivedFrom": _from(observed, (reading.number, lying.number), kinds),
        "note": [{"text": when}],
    }


def _judgement(
    case: Case, finding: Finding, sure: Certainty | None, observed: Sequence[Observed]
) -> Json:
    kinds = set(Kind) if finding.measure is None else {_KIND[finding.measure]}
    source = _from(observed, finding.evidence, kinds)
    parts = [*_parts(finding), *(() if sure is None else on_line(sure))]
    return {
        **_derived(case, case.name("finding", finding.line), "preliminary"),
        "code": concept(
            own(Own.LINE, finding.line, display(f"files.line.{finding.line}")),
            text=wording.name(finding, case.locale),
        ),
        "effectiveDateTime": case.time(case.ended),
        "valueCodeableConcept": concept(
            own(Own.STATE, finding.state, display(f"files.state.{finding.state}")),
            text=wording.state(finding, case.locale),
        ),
        "method": {"text": wording.rule(finding, case.locale)},
        "note": [{"text": wording.source(finding, case.locale)}],
        **({"component": parts} if parts else {}),
        **({"derivedFrom": source} if source else {}),
    }


def _derived(case: Case, name: str, status: str) -> Json:
    return {
        "resourceType": "Observation",
        "id": name,
        "identifier": [identifier(name)],
        "status": status,
        "category": [concept(coding(OBSERVATION_CATEGORY, "procedure", "Procedure"))],
        "subject": reference(case.patient),
        "device": reference(case.program),
    }


def _parts(finding: Finding) -> Iterator[Json]:
    unit = _unit(finding)
    for code, name, value in (
        ("deciding", "Deciding number", finding.size),
        ("limit", "Limit it was held against", finding.limit),
    ):
        if value is not None:
            yield _number(code, name, value, unit)
    for reason in finding.reasons:
        yield {
            "code": concept(own(Own.NUMBER, "reason", "Reason")),
            "valueCodeableConcept": concept(
                own(Own.REASON, reason, display(f"files.reason.{reason}"))
            ),
        }


def _unit(finding: Finding) -> str:
    if finding.measure is not None:
        return UNITS[finding.measure]
    return PER_MINUTE_PER_MMHG if finding.line is Line.NEUROGENIC_PATTERN else MMHG


def _number(code: str, name: str, value: float, unit: str = SECONDS) -> Json:
    """Return one number as a component; no more decimals than a ratio near its limit needs."""
    rounded = round(value, 4)
    plain = int(rounded) if rounded == int(rounded) else rounded
    return {
        "code": concept(own(Own.NUMBER, code, name)),
        "valueQuantity": quantity(plain, unit),
    }


def _from(observed: Sequence[Observed], numbers: Sequence[int], kinds: set[Kind]) -> list[Json]:
    """Return references to the observations that something rests on, in order of time."""
    return [
        reference(one.resource["id"])
        for one in observed
        if one.number in numbers and one.kind in kinds
    ]
