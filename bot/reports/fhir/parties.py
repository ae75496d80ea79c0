"""The person, opaquely, and what was used: cuff, source of the heart rate, this program."""

from collections.abc import Iterator, Mapping
from typing import Final

from bot.protocol.circumstances import Circumstances, Cuff, RateSource
from bot.reports.fhir.case import Case, identifier, reference
from bot.reports.fhir.codes import NAMES, Own, concept, own
from bot.reports.fhir.plain import Json

_CUFFS: Final[Mapping[Cuff | RateSource, str]] = {
    Cuff.UPPER_ARM: "Blood pressure cuff, upper arm",
    Cuff.WRIST: "Blood pressure cuff, wrist",
    RateSource.CUFF: "Blood pressure cuff",
}
"""The cuff by where it sits; when only the heart rate is known to come from it, without that."""

_SOURCES: Final = {RateSource.OXIMETER: "Pulse oximeter", RateSource.WATCH: "Watch"}
"""Sources of the heart rate that are devices besides the cuff."""


def patient(case: Case) -> Json:
    """Return the person: the clinic's reference and nothing else."""
    return {
        "resourceType": "Patient",
        "id": case.patient,
        "identifier": [{"system": f"{NAMES}:person", "value": case.person}],
    }


def devices(case: Case) -> Iterator[Json]:
    """Return the devices: this program, then those of the person that are known."""
    yield {
        "resourceType": "Device",
        "id": case.program,
        "identifier": [identifier(case.program)],
        "deviceName": [{"name": "Wallside", "type": "user-friendly-name"}],
        "type": concept(own(Own.DEVICE, "software", "Software that paces the test")),
        "version": [{"value": case.software}],
    }
    told = case.record.circumstances or Circumstances()
    if (cuff := _cuff(told)) is not None:
        yield _device(case, "cuff", cuff, _CUFFS[cuff])
    if told.rate_source in _SOURCES:
        yield _device(case, "rate-source", told.rate_source, _SOURCES[told.rate_source])


def pressure_source(case: Case) -> Json:
    """Return what a pressure was measured with, as far as it is known."""
    if _cuff(case.record.circumstances or Circumstances()) is None:
        return {}
    return {"device": reference(case.name("device", "cuff"))}


def rate_source(case: Case) -> Json:
    """Return what a heart rate was read from: a device, or how it was counted."""
    told = case.record.circumstances or Circumstances()
    match told.rate_source:
        case RateSource.OXIMETER | RateSource.WATCH:
            return {"device": reference(case.name("device", "rate-source"))}
        case RateSource.CUFF:
            return pressure_source(case)
        case RateSource.FINGERS:
            return {"method": concept(own(Own.METHOD, "fingers", "Pulse counted with fingers"))}
        case None:
            return {}


def _cuff(told: Circumstances) -> Cuff | RateSource | None:
    if told.cuff is not None:
        return told.cuff
    return RateSource.CUFF if told.rate_source is RateSource.CUFF else None


def _device(case: Case, part: str, code: str, display: str) -> Json:
    name = case.name("device", part)
    return {
        "resourceType": "Device",
        "id": name,
        "identifier": [identifier(name)],
        "type": concept(own(Own.DEVICE, code, display)),
        "patient": reference(case.patient),
    }
