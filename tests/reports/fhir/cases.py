"""Invented tests of invented people of Harbour Street Clinic, as cases for the file."""

import json
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any, Final

from bot.findings import find
from bot.protocol.circumstances import (
    Circumstances,
    Cuff,
    DayKind,
    Departure,
    LastDose,
    Medicine,
    RateSource,
)
from bot.protocol.definition import Position
from bot.protocol.record import (
    Aftercare,
    Answer,
    Ending,
    Repeat,
    StopReason,
    Symptom,
    TestRecord,
    Values,
)
from bot.protocol.released import SIX_READINGS
from bot.reports.fhir import Case, bundle
from tests.reports import examples
from tests.reports.examples import EXAMPLES, reading, record, symptom

PERSON: Final = "HSC-0042"
GENERATED: Final = datetime(2026, 3, 2, 9, 45, tzinfo=UTC)
PDF: Final = b"%PDF-1.7\n%%EOF\n"

KIT: Final = Circumstances(
    zone="America/St_Johns",
    cuff=Cuff.UPPER_ARM,
    rate_source=RateSource.OXIMETER,
    medicines=(Medicine.DIURETIC, Medicine.PRESSURE_RAISING),
    last_dose=LastDose.WITHIN_12_HOURS,
    departures=(Departure.CAFFEINE, Departure.POOR_SLEEP),
    audited=True,
)
_PLANNED: Final = replace(
    record(
        SIX_READINGS,
        {
            "supine-5": (178, 87, 51),
            "standing-1": (153, 68, 53),
            "standing-3": (138, None, 51),
        },
        late=("standing-3",),
        symptoms=(
            symptom(Symptom.DIZZY, 2, strength=6),
            symptom(Symptom.OTHER, 3.5, words="grey | \x07 <b>buzz</b>\nin my legs"),
        ),
        ended_after=timedelta(minutes=17),
        ending=Ending.STOPPED,
    ),
    stop_reason=StopReason.FELT_FAINT,
    stop_words="everything went grey",
    circumstances=KIT,
    day=DayKind.SYMPTOMATIC,
)
FULL: Final = replace(
    _PLANNED,
    readings=(
        *_PLANNED.readings,
        reading(9, Position.STANDING, timedelta(minutes=2), (140, 60, None)),
    ),
)
"""Missed, late, half given and extra readings, a fall with the ratio, symptoms and all that
surrounds a test. Its pressures: CDISC pilot study."""

AGAIN: Final = replace(
    examples.VERY_HIGH,
    repeats=(
        Repeat(
            values=Values(systolic=184, diastolic=None, heart_rate=81),
            given_at=FULL.began_at + timedelta(minutes=40),
        ),
    ),
    aftercare=(
        Aftercare(answer=Answer.SIGNS_SILENT, at=FULL.began_at + timedelta(minutes=42)),
        Aftercare(answer=Answer.BETTER, at=FULL.began_at + timedelta(minutes=44)),
    ),
    circumstances=KIT,
)
"""A very high pressure, measured again with one number missing; looked after since."""

RECORDS: Final = {
    **EXAMPLES,
    "full": FULL,
    "wrist": replace(
        examples.CLEAR_RISE,
        circumstances=replace(KIT, cuff=Cuff.WRIST, rate_source=RateSource.CUFF, zone=None),
    ),
    "again": AGAIN,
    "fingers": replace(
        examples.CLEAR_RISE,
        circumstances=Circumstances(rate_source=RateSource.FINGERS, zone="Asia/Kathmandu"),
    ),
    "watch": replace(
        examples.CLEAR_RISE,
        circumstances=Circumstances(rate_source=RateSource.WATCH, medicines=(), audited=True),
        day=DayKind.GOOD,
    ),
    "cuff-unknown": replace(
        examples.CLEAR_RISE, circumstances=Circumstances(rate_source=RateSource.CUFF)
    ),
}
"""All records there are examples of, by name."""

Json = dict[str, Any]


def case(
    test: TestRecord = FULL,
    *,
    locale: str = "en",
    person: str = PERSON,
    generated: datetime = GENERATED,
    software: str = "0.1.0",
    pdf: bytes = PDF,
) -> Case:
    """Return a case of a record."""
    return Case(
        record=test,
        findings=find(test),
        person=person,
        locale=locale,
        generated=generated,
        software=software,
        pdf=pdf,
    )


def document(test: TestRecord = FULL, locale: str = "en") -> Json:
    """Return the file, read back."""
    found: Json = json.loads(bundle(case(test, locale=locale)))
    return found
