"""Faults to plant in a sound bundle: what a judge has to see, and which of the four do.

The judges were never asked what to expect of them: the sets below are what each says, and a test
holds both that every fault is seen and that the sets are right, so that a judge who goes blind
(a library that checks less than it did) does not go unnoticed.
"""

from collections.abc import Callable, Iterator
from typing import Any, Final

from tests.reports.fhir.judges import Judge

Json = dict[str, Any]

MODELS, SCHEMA, INVARIANTS, PROFILES = Judge


def of(bundle: Json, kind: str) -> Iterator[Json]:
    """Yield the resources of a kind."""
    yield from (
        entry["resource"] for entry in bundle["entry"] if entry["resource"]["resourceType"] == kind
    )


def first(bundle: Json, kind: str) -> Json:
    """Return the first resource of a kind."""
    return next(of(bundle, kind))


def coded(bundle: Json, code: str) -> Json:
    """Return the first observation with a code."""
    return next(
        resource
        for resource in of(bundle, "Observation")
        if any(coding["code"] == code for coding in resource["code"]["coding"])
    )


def pressure(bundle: Json) -> Json:
    """Return the first blood pressure."""
    return coded(bundle, "85354-9")


def rate(bundle: Json) -> Json:
    """Return the first heart rate."""
    return coded(bundle, "8867-4")


def change(bundle: Json) -> Json:
    """Return the first change of heart rate."""
    return coded(bundle, "heart_rate")


def systolic(bundle: Json) -> Json:
    """Return the systolic component of the first blood pressure."""
    found: Json = pressure(bundle)["component"][0]
    return found


def without(where: Callable[[Json], Json], name: str) -> Callable[[Json], object]:
    """Return a fault: something is missing."""
    return lambda bundle: where(bundle).pop(name)


def set_to(where: Callable[[Json], Json], **values: Any) -> Callable[[Json], object]:
    """Return a fault: something says something else."""
    return lambda bundle: where(bundle).update(values)


def at(kind: str) -> Callable[[Json], Json]:
    """Return where the first resource of a kind is."""
    return lambda bundle: first(bundle, kind)


def _second_systolic(bundle: Json) -> None:
    pressure(bundle)["component"].append(systolic(bundle))


def _drop_patient(bundle: Json) -> None:
    bundle["entry"] = [
        entry for entry in bundle["entry"] if entry["resource"]["resourceType"] != "Patient"
    ]


def _twice(bundle: Json) -> None:
    bundle["entry"].append(bundle["entry"][3])


def _composition_last(bundle: Json) -> None:
    bundle["entry"].append(bundle["entry"].pop(0))


def _stray(bundle: Json) -> None:
    name = "11111111-2222-4333-8444-555555555555"
    stray = {"resourceType": "Patient", "id": name}
    bundle["entry"].append({"fullUrl": f"urn:uuid:{name}", "resource": stray})


def _answer(bundle: Json) -> Json:
    items: list[Json] = first(bundle, "QuestionnaireResponse")["item"][0]["item"]
    found: Json = items[0]
    return found


def _panel_code(bundle: Json) -> Json:
    found: Json = pressure(bundle)["code"]["coding"][0]
    return found


def _quantity(bundle: Json) -> Json:
    found: Json = systolic(bundle)["valueQuantity"]
    return found


def _rate_quantity(bundle: Json) -> Json:
    found: Json = rate(bundle)["valueQuantity"]
    return found


def _change_quantity(bundle: Json) -> Json:
    found: Json = change(bundle)["valueQuantity"]
    return found


def _category(bundle: Json) -> Json:
    found: Json = rate(bundle)["category"][0]["coding"][0]
    return found


def _section(bundle: Json) -> Json:
    found: Json = first(bundle, "Composition")["section"][0]
    return found


def _form(bundle: Json) -> Json:
    found: Json = first(bundle, "DiagnosticReport")["presentedForm"][0]
    return found


def _program(bundle: Json) -> Json:
    return first(bundle, "Device")


def _whole(bundle: Json) -> Json:
    return bundle


def _period(bundle: Json) -> Json:
    found: Json = first(bundle, "DiagnosticReport")["effectivePeriod"]
    return found


ELSEWHERE: Final = {"reference": "urn:uuid:99999999-2222-4333-8444-555555555555"}

PLANTED: Final[dict[str, Callable[[Json], object]]] = {
    "unit-bpm": set_to(_rate_quantity, code="bpm"),
    "unit-mmHg": set_to(_quantity, code="mmHg"),
    "unit-of-another-system": set_to(_quantity, system="http://example.org/units"),
    "unit-without-system": without(_change_quantity, "system"),
    "number-without-unit": without(_rate_quantity, "unit"),
    "number-as-text": set_to(_quantity, value="120"),
    "diastolic-missing": lambda bundle: pressure(bundle)["component"].pop(),
    "two-systolics": _second_systolic,
    "component-without-value": without(systolic, "valueQuantity"),
    "component-without-code": without(systolic, "code"),
    "panel-with-a-value": set_to(
        pressure,
        valueQuantity={
            "value": 120,
            "unit": "mm[Hg]",
            "code": "mm[Hg]",
            "system": "http://unitsofmeasure.org",
        },
    ),
    "panel-of-another-system": set_to(_panel_code, system="http://snomed.info/sct"),
    "base-code-missing": lambda bundle: systolic(bundle)["code"]["coding"].pop(0),
    "no-category": without(pressure, "category"),
    "another-category": set_to(_category, code="laboratory"),
    "category-of-another-system": set_to(_category, system="http://example.org"),
    "no-subject": without(rate, "subject"),
    "no-status": without(rate, "status"),
    "status-done": set_to(rate, status="done"),
    "report-status-draft": set_to(at("DiagnosticReport"), status="draft"),
    "answers-status-final": set_to(at("QuestionnaireResponse"), status="final"),
    "no-effective-time": without(rate, "effectiveDateTime"),
    "effective-time-to-the-year": set_to(rate, effectiveDateTime="2026"),
    "effective-time-without-zone": set_to(rate, effectiveDateTime="2026-03-02T09:20:00"),
    "effective-day-not-there": set_to(rate, effectiveDateTime="2026-02-30"),
    "effective-day-upside-down": set_to(rate, effectiveDateTime="02.03.2026"),
    "two-effective-times": set_to(rate, effectivePeriod={"start": "2026-03-02"}),
    "value-and-absent": set_to(rate, dataAbsentReason={"coding": [{"code": "unknown"}]}),
    "neither-value-nor-absent": without(rate, "valueQuantity"),
    "value-of-two-kinds": set_to(rate, valueString="72"),
    "broken-reference": set_to(rate, subject=ELSEWHERE),
    "derived-from-elsewhere": set_to(change, derivedFrom=[ELSEWHERE]),
    "derived-from-a-patient": lambda bundle: change(bundle).update(
        derivedFrom=[rate(bundle)["subject"]]
    ),
    "patient-missing": _drop_patient,
    "entry-twice": _twice,
    "resource-that-nothing-leads-to": _stray,
    "composition-last": _composition_last,
    "no-document-identifier": without(_whole, "identifier"),
    "no-timestamp": without(_whole, "timestamp"),
    "timestamp-to-the-day": set_to(_whole, timestamp="2026-03-02"),
    "type-of-bundle-unknown": set_to(_whole, type="file"),
    "no-author": without(at("Composition"), "author"),
    "no-title": without(at("Composition"), "title"),
    "section-without-anything": lambda bundle: [
        _section(bundle).pop(name) for name in ("text", "entry")
    ],
    "narrative-without-status": lambda bundle: _section(bundle)["text"].pop("status"),
    "question-without-link": without(_answer, "linkId"),
    "answer-and-items": set_to(_answer, item=[{"linkId": "more"}]),
    "device-name-of-no-kind": lambda bundle: _program(bundle)["deviceName"][0].update(type="nick"),
    "page-without-type": without(_form, "contentType"),
    "page-not-base64": set_to(_form, data="?"),
    "period-backwards": set_to(_period, end="2026-03-01T09:00:00+00:00"),
    "property-unknown": set_to(rate, bodyPosition="standing"),
    "empty-list": set_to(rate, note=[]),
    "empty-object": set_to(rate, method={}),
    "empty-text": set_to(at("DiagnosticReport"), conclusion=""),
    "id-too-long": set_to(rate, id="x" * 65),
}
"""Every fault by name."""

SEEN_BY: Final[dict[str, tuple[Judge, ...]]] = {
    "unit-bpm": (PROFILES,),
    "unit-mmHg": (PROFILES,),
    "unit-of-another-system": (PROFILES,),
    "unit-without-system": (INVARIANTS,),
    "number-without-unit": (PROFILES,),
    "number-as-text": (SCHEMA,),
    "diastolic-missing": (PROFILES,),
    "two-systolics": (PROFILES,),
    "component-without-value": (INVARIANTS,),
    "component-without-code": (MODELS, SCHEMA, PROFILES),
    "panel-with-a-value": (PROFILES,),
    "panel-of-another-system": (PROFILES,),
    "base-code-missing": (PROFILES,),
    "no-category": (PROFILES,),
    "another-category": (PROFILES,),
    "category-of-another-system": (PROFILES,),
    "no-subject": (PROFILES,),
    "no-status": (MODELS, PROFILES),
    "status-done": (SCHEMA, PROFILES),
    "report-status-draft": (SCHEMA, PROFILES),
    "answers-status-final": (SCHEMA, PROFILES),
    "no-effective-time": (PROFILES,),
    "effective-time-to-the-year": (INVARIANTS,),
    "effective-time-without-zone": (MODELS, SCHEMA, PROFILES),
    "effective-day-not-there": (MODELS,),
    "effective-day-upside-down": (MODELS, SCHEMA, PROFILES),
    "two-effective-times": (MODELS, PROFILES),
    "value-and-absent": (INVARIANTS,),
    "neither-value-nor-absent": (INVARIANTS,),
    "value-of-two-kinds": (MODELS, PROFILES),
    "broken-reference": (PROFILES,),
    "derived-from-elsewhere": (PROFILES,),
    "derived-from-a-patient": (PROFILES,),
    "patient-missing": (PROFILES,),
    "entry-twice": (INVARIANTS, PROFILES),
    "resource-that-nothing-leads-to": (PROFILES,),
    "composition-last": (INVARIANTS, PROFILES),
    "no-document-identifier": (INVARIANTS,),
    "no-timestamp": (INVARIANTS,),
    "timestamp-to-the-day": (MODELS, SCHEMA, PROFILES),
    "type-of-bundle-unknown": (SCHEMA, PROFILES),
    "no-author": (MODELS, SCHEMA, PROFILES),
    "no-title": (MODELS, PROFILES),
    "section-without-anything": (INVARIANTS, PROFILES),
    "narrative-without-status": (MODELS, PROFILES),
    "question-without-link": (MODELS, PROFILES),
    "answer-and-items": (INVARIANTS,),
    "device-name-of-no-kind": (SCHEMA, PROFILES),
    "page-without-type": (INVARIANTS,),
    "page-not-base64": (PROFILES,),
    "period-backwards": (INVARIANTS,),
    "property-unknown": (MODELS, SCHEMA, PROFILES),
    "empty-list": (PROFILES,),
    "empty-object": (INVARIANTS,),
    "empty-text": (MODELS, SCHEMA, PROFILES),
    "id-too-long": (SCHEMA, PROFILES),
}
"""The judges that see each fault."""
