"""What the person told, as answered questionnaires: preparation, course of the test, symptoms.

The questionnaires go by a name of their own (a canonical URN with a version), the same in every
file, so answers of many tests can be laid side by side. They are not put inside: each would then
be another questionnaire. Every question has its text beside the answer, so nothing has to be
looked up. A question that was not asked, or not answered, is left out.

Free words: only those told of a symptom, as in the CSV.
"""

from collections.abc import Iterator
from datetime import datetime
from typing import Final

from bot.protocol.circumstances import Circumstances
from bot.protocol.record import Origin, SymptomReport
from bot.reports.fhir.case import Case, display, identifier, reference
from bot.reports.fhir.codes import NAMES, Own, own
from bot.reports.fhir.plain import Json, one_line

VERSION: Final = 1
"""Of all three questionnaires; goes up when a question changes its meaning."""


def preparation(case: Case) -> Json | None:
    """Return what was told about the day, medicines and preparation; `None` if nothing was."""
    items = list(_preparation(case))
    if not items:
        return None
    return {**_response(case, "preparation", case.record.began_at), "item": items}


def course(case: Case) -> Json:
    """Return how the test went: protocol, positions and ending, as told."""
    return {**_response(case, "course", case.ended), "item": list(_course(case))}


def symptoms(case: Case) -> Json | None:
    """Return the symptoms in the order they were told; `None` if none was."""
    told = sorted(case.record.symptoms, key=lambda report: report.told_at)
    if not told:
        return None
    items = [{"linkId": "symptom", "text": "Symptom", "item": _symptom(case, one)} for one in told]
    return {**_response(case, "symptoms", told[-1].told_at), "item": items}


def _response(case: Case, questionnaire: str, authored: datetime) -> Json:
    name = case.name("answers", questionnaire)
    return {
        "resourceType": "QuestionnaireResponse",
        "id": name,
        "identifier": identifier(name),
        "questionnaire": f"{NAMES}:questionnaire:{questionnaire}|{VERSION}",
        "status": "completed" if case.record.ended_at is not None else "in-progress",
        "subject": reference(case.patient),
        "authored": case.time(authored),
        "author": reference(case.program),
        "source": reference(case.patient),
    }


def _preparation(case: Case) -> Iterator[Json]:
    record = case.record
    told = record.circumstances or Circumstances()
    if record.age_band is not None:
        band = own(Own.AGE_BAND, record.age_band, display(f"age.{record.age_band}"))
        yield _coded("age-band", "Age band", band)
    if record.day is not None:
        yield _coded("day", "Kind of day", _term(Own.DAY, record.day))
    yield from _several("medicines", "Medicines that move the numbers", Own.MEDICINE, told)
    if told.last_dose is not None:
        dose = _term(Own.LAST_DOSE, told.last_dose)
        yield _coded("last-dose", "Last dose of one of them", dose)
    yield from _several("departures", "Departures from the preparation", Own.DEPARTURE, told)


def _several(link: str, text: str, system: Own, told: Circumstances) -> Iterator[Json]:
    """Return all that was named; `none` when it was asked and none was."""
    named = told.medicines if system is Own.MEDICINE else told.departures
    if named:
        yield _coded(link, text, *(_term(system, one) for one in named))
    elif told.audited and named is not None:
        yield _coded(link, text, own(system, "none", "None told"))


def _course(case: Case) -> Iterator[Json]:
    record = case.record
    yield _item("protocol", "Protocol and its version", {"valueString": str(record.protocol)})
    yield _item("number", "Number of the test", {"valueInteger": record.number})
    yield _item("revision", "Revision of the result", {"valueInteger": record.revision})
    yield from _paper(case)
    yield _item("began", "Said to be ready", {"valueDateTime": case.time(record.began_at)})
    for phase in record.phases if record.origin is Origin.WATCHED else ():
        yield _item(
            f"{phase.position}-since",
            f"Said to be in position, {phase.position}",
            {"valueDateTime": case.time(phase.started_at)},
        )
    if record.ended_at is not None:
        ended = {"valueDateTime": case.time(record.ended_at)}
        yield _item("ended", "Ended", ended)
    if record.ending is not None:
        yield _coded("ending", "How it ended", _term(Own.ENDING, record.ending))
    if record.stop_reason is not None:
        reason = own(Own.STOP_REASON, record.stop_reason, display(f"reason.{record.stop_reason}"))
        yield _coded("stop-reason", "Reason told for stopping", reason)
    for one in record.aftercare:
        answer = own(Own.AFTERCARE, one.answer, display(f"files.after.{one.answer}"))
        told = _item("aftercare.at", "When", {"valueDateTime": case.time(one.at)})
        kind = _coded("aftercare.answer", "What was answered", answer)
        yield {"linkId": "aftercare", "text": "Asked afterwards", "item": [kind, told]}


def _paper(case: Case) -> Iterator[Json]:
    """Yield that the test was typed in from paper: nobody was watched taking a position then."""
    if case.record.origin is Origin.PAPER:
        yield _coded("origin", "How the record came about", _term(Own.ORIGIN, Origin.PAPER))
    if case.record.typed_in_at is not None:
        typed = {"valueDateTime": case.time(case.record.typed_in_at)}
        yield _item("typed-in", "Typed in from paper", typed)


def _symptom(case: Case, report: SymptomReport) -> list[Json]:
    kind = own(Own.SYMPTOM, report.symptom, display(f"symptom.{report.symptom}"))
    items = [_coded("symptom.kind", "What", kind)]
    if report.strength is not None:
        strength = {"valueInteger": report.strength}
        items.append(_item("symptom.strength", "How strong, from 0 to 10", strength))
    if case.record.time_known(report):
        told = {"valueDateTime": case.time(report.told_at)}
        items.append(_item("symptom.told", "When it was told", told))
    if report.position is not None:
        position = own(Own.POSITION, report.position, report.position.capitalize())
        items.append(_coded("symptom.position", "Position", position))
    if words := one_line(report.words or ""):
        items.append(_item("symptom.words", "In the person's own words", {"valueString": words}))
    return items


def _term(system: Own, code: str) -> Json:
    return own(system, code, display(f"files.{system}.{code}"))


def _coded(link: str, text: str, *codings: Json) -> Json:
    return _item(link, text, *({"valueCoding": coding} for coding in codings))


def _item(link: str, text: str, *answers: Json) -> Json:
    return {"linkId": link, "text": text, "answer": list(answers)}
