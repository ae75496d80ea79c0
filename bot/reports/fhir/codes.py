"""Code systems, the LOINC codes in use, and UCUM units.

LOINC codes: base ones are those of the R4 profiles vital-signs, bp and heartrate; the
position-specific ones are from HL7 value sets (found). Their names: heart rate found in an HL7
value set, pressures from memory. LOINC's notice is in `NOTICE.md` beside this module.
"""

from enum import StrEnum
from typing import Final

from bot.protocol.definition import Position
from bot.protocol.record import Measure
from bot.reports.fhir.plain import Json

LOINC: Final = "http://loinc.org"
UCUM: Final = "http://unitsofmeasure.org"
URI: Final = "urn:ietf:rfc3986"
"""The system of an identifier whose value is itself a URI."""

OBSERVATION_CATEGORY: Final = "http://terminology.hl7.org/CodeSystem/observation-category"
ABSENT: Final = "http://terminology.hl7.org/CodeSystem/data-absent-reason"
PROFILE: Final = "http://hl7.org/fhir/StructureDefinition/"

PER_MINUTE: Final = "/min"
MMHG: Final = "mm[Hg]"
SECONDS: Final = "s"
PERCENT: Final = "%"
PER_MINUTE_PER_MMHG: Final = "min-1.mm[Hg]-1"
"""Not `/min/mm[Hg]`: by UCUM's grammar the leading slash turns the whole of what follows."""

PANEL: Final = ("85354-9", "Blood pressure panel with all children optional")
VITALS_SECTION: Final = ("8716-3", "Vital signs")
"""The LOINC code of a section with vital signs, from R4's value set of section codes."""

_BASE: Final = {
    Measure.HEART_RATE: ("8867-4", "Heart rate"),
    Measure.SYSTOLIC: ("8480-6", "Systolic blood pressure"),
    Measure.DIASTOLIC: ("8462-4", "Diastolic blood pressure"),
}
_IN_POSITION: Final = {
    Measure.HEART_RATE: {
        Position.SUPINE: ("68999-2", "Heart rate --supine"),
        Position.SEATED: ("69000-8", "Heart rate --sitting"),
        Position.STANDING: ("69001-6", "Heart rate --standing"),
    },
    Measure.SYSTOLIC: {
        Position.SUPINE: ("8461-6", "Systolic blood pressure--supine"),
        Position.SEATED: ("8459-0", "Systolic blood pressure--sitting"),
        Position.STANDING: ("8460-8", "Systolic blood pressure--standing"),
    },
    Measure.DIASTOLIC: {
        Position.SUPINE: ("8455-8", "Diastolic blood pressure--supine"),
        Position.SEATED: ("8453-3", "Diastolic blood pressure--sitting"),
        Position.STANDING: ("8454-1", "Diastolic blood pressure--standing"),
    },
}

UNITS: Final = {
    Measure.HEART_RATE: PER_MINUTE,
    Measure.SYSTOLIC: MMHG,
    Measure.DIASTOLIC: MMHG,
}


class Own(StrEnum):
    """A code system of this project, for what no published one says without a licence."""

    DOCUMENT = "document"
    SECTION = "section"
    DEVICE = "device"
    METHOD = "method"
    CHANGE = "change"
    LINE = "line"
    STATE = "state"
    REASON = "reason"
    FINDING = "finding"
    NUMBER = "number"
    CERTAINTY = "certainty"
    BAND = "band"
    RULE = "rule"
    QUALITY = "quality"
    GRADE = "grade"
    SHORTFALL = "shortfall"
    WEIGHT = "weight"
    AGE_BAND = "age-band"
    DAY = "day"
    MEDICINE = "medicine"
    LAST_DOSE = "last-dose"
    DEPARTURE = "departure"
    AFTERCARE = "aftercare"
    POSITION = "position"
    ENDING = "ending"
    STOP_REASON = "stop-reason"
    ORIGIN = "origin"
    SYMPTOM = "symptom"


NAMES: Final = "urn:wallside"
"""Where the project's own names begin: code systems, questionnaires and people's references."""


def own(system: Own, code: str, display: str) -> Json:
    """Return a coding in a system of the project's own."""
    return coding(f"{NAMES}:{system}", code, display)


def coding(system: str, code: str, display: str) -> Json:
    """Return a coding."""
    return {"system": system, "code": code, "display": display}


def concept(*codings: Json, text: str | None = None) -> Json:
    """Return a concept; its text is the first coding's display unless another is given."""
    return {"coding": list(codings), "text": codings[0]["display"] if text is None else text}


def loinc(code: tuple[str, str]) -> Json:
    """Return a LOINC coding from its code and name."""
    return coding(LOINC, *code)


def measured(measure: Measure, position: Position | None) -> Json:
    """Return what was measured: the base code first, the one for a known position beside it."""
    base = _BASE[measure]
    if position is None:
        return concept(loinc(base))
    return concept(
        loinc(base), loinc(_IN_POSITION[measure][position]), text=f"{base[1]}, {position}"
    )


def quantity(value: float, unit: str) -> Json:
    """Return a number with its unit in UCUM, which is also what a person is shown."""
    return {"value": value, "unit": unit, "system": UCUM, "code": unit}


def absent(reason: str, display: str) -> Json:
    """Return why a value is missing."""
    return concept(coding(ABSENT, reason, display))


def not_performed() -> Json:
    """Return that a planned reading was not taken."""
    return absent("not-performed", "Not Performed")


def unknown() -> Json:
    """Return that a number of a reading was never given."""
    return absent("unknown", "Unknown")
