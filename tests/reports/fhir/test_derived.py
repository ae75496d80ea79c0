"""Changes and findings are those of the record, in pattern words, and no vital signs."""

import re
from dataclasses import replace

import pytest

from bot.findings import find
from bot.protocol.record import TestRecord
from tests.reports import examples
from tests.reports.examples import CLEAR_RISE
from tests.reports.fhir.cases import FULL, document
from tests.reports.fhir.looking import coded, every_record, in_system, leaves, of, value


@every_record
def test_changes_are_differences_of_what_they_derive_from(record: TestRecord) -> None:
    """Each change is the standing number minus the lying one of the two it derives from."""
    found = document(record)
    by_url = {entry["fullUrl"]: entry["resource"] for entry in found["entry"]}
    place = {"heart_rate": None, "systolic": 0, "diastolic": 1}
    changes = in_system(found, "change")
    for change in changes:
        index = place[change["code"]["coding"][0]["code"]]
        lying, standing = (by_url[one["reference"]] for one in change["derivedFrom"])
        assert lying["code"]["text"].endswith("supine")
        assert standing["code"]["text"].endswith("standing")
        before, after = (
            value(one if index is None else one["component"][index]) for one in (lying, standing)
        )
        assert before is not None
        assert after is not None
        assert value(change) == after - before
        assert change["effectiveDateTime"] == standing["effectiveDateTime"]
    expected = [
        number
        for change in find(record).changes
        for number in (change.heart_rate, change.systolic, change.diastolic)
        if number is not None
    ]
    assert [value(change) for change in changes] == expected


@every_record
def test_every_finding_is_there(record: TestRecord) -> None:
    """Each line has one observation with its state and reasons, and they are no vital signs."""
    found = document(record)
    judged = in_system(found, "line")
    assert [
        (
            o["code"]["coding"][0]["code"],
            o["valueCodeableConcept"]["coding"][0]["code"],
            tuple(
                part["valueCodeableConcept"]["coding"][0]["code"]
                for part in o.get("component", ())
                if part["code"]["coding"][0]["code"] == "reason"
            ),
            len(o.get("derivedFrom", ())) > 0,
        )
        for o in judged
    ] == [
        (f.line, f.state, tuple(map(str, f.reasons)), len(f.evidence) > 0)
        for f in find(record).findings
    ]
    for o in (*judged, *in_system(found, "change"), *in_system(found, "quality")):
        assert [c["coding"][0]["code"] for c in o["category"]] == ["procedure"]


def test_the_ratio_comes_with_its_unit() -> None:
    """The ratio of the neurogenic pattern is a number of beats a minute for each mmHg.

    Lying 178 and 51, standing 153 and 53, CDISC pilot study: 2 beats over 25 mmHg is 0.08.
    """
    record = replace(FULL, readings=FULL.readings[:2], circumstances=None)
    (neurogenic,) = coded(document(record), "neurogenic-pattern")
    deciding = neurogenic["component"][0]["valueQuantity"]
    assert (deciding["value"], deciding["code"]) == (0.08, "min-1.mm[Hg]-1")


@every_record
def test_nothing_is_interpreted_or_extended(record: TestRecord) -> None:
    """There is no interpretation, no body-position extension or any other, nothing contained."""
    keys = {part for path in leaves(document(record)) for part in re.findall(r"\w+", path)}
    forbidden = {"interpretation", "extension", "modifierExtension", "contained", "bodySite"}
    assert keys & forbidden == set()


@every_record
@pytest.mark.parametrize("locale", ["en", "es"])
def test_the_conclusion_is_pattern_words(record: TestRecord, locale: str) -> None:
    """The report is preliminary, begins with what it is not, and names no condition."""
    (report,) = of(document(record, locale), "DiagnosticReport")
    first, *lines = report["conclusion"].split("\n")
    caution = {
        "en": "Screening, not a diagnosis.",
        "es": "Prueba de detección, no es un diagnóstico.",
    }
    assert report["status"] == "preliminary"
    assert first.startswith(caution[locale])
    assert len(lines) >= 1
    named = r"POTS|syndrome|disease|hypotension|tachycardia|síndrome|enfermedad|hipotensión|taqui"
    assert re.findall(named, " ".join(lines), re.IGNORECASE) == []


def test_lines_that_are_reached_are_coded_with_their_state() -> None:
    """A line goes into the conclusion's codes only with its state, and only when it is reached."""
    met, once, quiet = (
        of(document(record), "DiagnosticReport")[0].get("conclusionCode", [])
        for record in (CLEAR_RISE, examples.RISE_ONCE, examples.QUIET_FOUR)
    )
    assert [one["coding"][0]["code"] for one in met] == ["heart-rate-rise.met"]
    assert [one["coding"][0]["code"] for one in once] == ["heart-rate-rise.met-once"]
    assert quiet == []


@every_record
def test_numbers_that_decide_come_with_limit_and_unit(record: TestRecord) -> None:
    """Each finding carries its deciding number and its limit, in the unit of what was measured."""
    units = {"heart_rate": "/min", "systolic": "mm[Hg]", "diastolic": "mm[Hg]"}
    composite = {"neurogenic-pattern": "min-1.mm[Hg]-1", "narrow-pulse-pressure": "mm[Hg]"}
    for o, finding in zip(in_system(document(record), "line"), find(record).findings, strict=True):
        told = {
            part["code"]["coding"][0]["code"]: part["valueQuantity"]
            for part in o.get("component", ())
            if part["code"]["coding"][0]["system"] == "urn:wallside:number"
            and "valueQuantity" in part
        }
        numbers = {"deciding": finding.size, "limit": finding.limit}
        assert {name: quantity["value"] for name, quantity in told.items()} == {
            name: round(number, 4) for name, number in numbers.items() if number is not None
        }
        unit = composite.get(finding.line) or units[finding.measure or "heart_rate"]
        assert {quantity["code"] for quantity in told.values()} <= {unit}
