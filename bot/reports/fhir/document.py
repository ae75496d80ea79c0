"""The document: a composition, and all that it refers to."""

from collections.abc import Sequence

from bot.findings.certainty import certainty
from bot.reports.fhir.answers import course, preparation, symptoms
from bot.reports.fhir.case import Case, identifier, reference, url
from bot.reports.fhir.codes import VITALS_SECTION, Own, concept, loinc, own
from bot.reports.fhir.derived import changes, grade, judgements
from bot.reports.fhir.narrative import (
    course_text,
    document_text,
    findings_text,
    preparation_text,
    readings_text,
    symptoms_text,
)
from bot.reports.fhir.parties import devices, patient
from bot.reports.fhir.plain import Json, canonical
from bot.reports.fhir.readings import observe
from bot.reports.fhir.report import TITLE, diagnostic_report, kind, period


def bundle(case: Case) -> bytes:
    """Return one test as a FHIR R4 document in canonical JSON.

    Ids are lasting: the same person, test and part give the same id in every file, so a second
    file says the same again, or better, and never something more. Each revision is a document of
    its own, which says which one it replaces. Only `Bundle.timestamp`, `Composition.date` and
    `DiagnosticReport.issued` come from `generated`; all other times are those of the record.

    Raises:
        KeyError: The record's protocol was never released.
    """
    observed = observe(case)
    readings = [one.resource for one in observed]
    known = certainty(case.record, case.findings)
    changed = list(changes(case, known, observed))
    judged = [*judgements(case, known, observed), grade(case)]
    report = diagnostic_report(case, [*readings, *changed, *judged])
    kit = list(devices(case))
    prepared, felt = _given(preparation(case)), _given(symptoms(case))
    went = course(case)
    sections = [
        _section(case, "findings", findings_text(case), [report, *judged]),
        _section(case, "readings", readings_text(case), [*readings, *changed]),
        _section(case, "symptoms", symptoms_text(case), felt),
        _section(case, "circumstances", preparation_text(case), [*prepared, *kit]),
        _section(case, "ending", course_text(case), [went]),
    ]
    resources = [
        _composition(case, sections),
        patient(case),
        *kit,
        report,
        *readings,
        *changed,
        *judged,
        *felt,
        *prepared,
        went,
    ]
    return canonical(
        {
            "resourceType": "Bundle",
            "id": _document(case),
            "language": case.locale,
            "identifier": identifier(_document(case)),
            "type": "document",
            "timestamp": case.time(case.generated),
            "entry": [
                {"fullUrl": url(resource["id"]), "resource": resource} for resource in resources
            ],
        }
    )


def _composition(case: Case, sections: Sequence[Json]) -> Json:
    name = case.name("composition")
    return {
        "resourceType": "Composition",
        "id": name,
        "language": case.locale,
        "identifier": identifier(name),
        "text": document_text(case),
        "status": "preliminary",
        "type": kind(),
        "subject": reference(case.patient),
        "date": case.time(case.generated),
        "author": [reference(case.program)],
        "title": TITLE,
        "event": [{"code": [kind()], "period": period(case)}],
        "section": list(sections),
        **_replaces(case),
    }


def _section(case: Case, part: str, text: Json, entries: Sequence[Json]) -> Json:
    code = concept(own(Own.SECTION, part, part.capitalize()))
    if part == "readings":
        code = concept(loinc(VITALS_SECTION))
    return {
        "title": case.say(f"files.page.{part}"),
        "code": code,
        "text": text,
        **({"entry": [reference(entry["id"]) for entry in entries]} if entries else {}),
    }


def _replaces(case: Case) -> Json:
    """Return which document this one replaces, if it holds a correction."""
    before = case.record.revision - 1
    if before < 1:
        return {}
    target = identifier(case.name("document", before))
    return {"relatesTo": [{"code": "replaces", "targetIdentifier": target}]}


def _given(resource: Json | None) -> list[Json]:
    return [] if resource is None else [resource]


def _document(case: Case) -> str:
    return case.name("document", case.record.revision)
