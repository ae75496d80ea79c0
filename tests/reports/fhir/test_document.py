"""The document as a whole: all that belongs to it is in it, and the person is not."""

import re
from base64 import b64decode
from datetime import datetime

from bot.protocol.record import Reading, TestRecord
from tests.reports import examples
from tests.reports.fhir.cases import PDF, PERSON, document
from tests.reports.fhir.looking import every_record, in_system, of


@every_record
def test_every_observation_is_a_result(record: TestRecord) -> None:
    """The report refers to every observation, and the composition to every one and the answers."""
    found = document(record)
    (report,), (composition,) = of(found, "DiagnosticReport"), of(found, "Composition")
    observations = [f"urn:uuid:{o['id']}" for o in of(found, "Observation")]
    answers = [f"urn:uuid:{o['id']}" for o in of(found, "QuestionnaireResponse")]
    assert [one["reference"] for one in report["result"]] == observations
    entries = [e["reference"] for s in composition["section"] for e in s.get("entry", ())]
    assert {*observations, *answers} <= set(entries)
    assert composition["title"] == "Home orthostatic vitals"


def test_the_page_is_inside() -> None:
    """The page for the care team comes back byte for byte."""
    (report,) = of(document(), "DiagnosticReport")
    (form,) = report["presentedForm"]
    assert (form["contentType"], form["size"]) == ("application/pdf", len(PDF))
    assert b64decode(form["data"], validate=True) == PDF


def test_the_person_is_a_reference_and_nothing_more() -> None:
    """Of the person there is the clinic's reference: no name, no date of birth, no sex."""
    (patient,) = of(document(), "Patient")
    assert patient.keys() == {"resourceType", "id", "identifier"}
    assert patient["identifier"] == [{"system": "urn:wallside:person", "value": PERSON}]


def test_a_test_under_way_is_in_progress() -> None:
    """Without an end there is no end to its period, and its answers are not complete."""
    found = document(examples.UNDER_WAY)
    (report,) = of(found, "DiagnosticReport")
    last: Reading = examples.UNDER_WAY.readings[-1]
    assert report["effectivePeriod"].keys() == {"start"}
    assert {r["status"] for r in of(found, "QuestionnaireResponse")} == {"in-progress"}
    times = {datetime.fromisoformat(o["effectiveDateTime"]) for o in in_system(found, "line")}
    assert times == {last.given_at}


def test_the_narrative_shows_the_readings() -> None:
    """The section of readings has a row for each, with numbers and changes as on the page."""
    (composition,) = of(document(examples.CLEAR_RISE), "Composition")
    sections = {section["title"]: section["text"]["div"] for section in composition["section"]}
    lines = sections["Readings"].split("<tr>")[2:]
    cells = [re.findall("<td>(.*?)</td>", row) for row in lines]
    assert cells == [
        ["Lying", "5:00", "5:20", "118", "74", "68", "–", "–", "–", ""],
        ["Sitting", "5:00", "5:20", "121", "78", "80", "+3", "+4", "+12", ""],
        ["Standing", "5:00", "5:20", "116", "80", "101", "-2", "+6", "+33", ""],
        ["Standing", "10:00", "10:20", "112", "79", "106", "-6", "+5", "+38", ""],
    ]
