"""How sure a change is and how good a test was go along in codes of the project's own."""

from statistics import NormalDist
from typing import Any

import pytest

from bot.findings import find
from bot.findings.certainty import certainty
from bot.findings.quality import quality
from bot.protocol.record import TestRecord
from tests.reports.examples import RISE_ONCE
from tests.reports.fhir.cases import FULL, Json, document
from tests.reports.fhir.looking import coded, every_record, in_system, of


def parts(observation: Json, system: str = "certainty") -> dict[str, Any]:
    """Return the components of a system by their code: a number, or the code of a value."""
    found = {}
    for part in observation.get("component", ()):
        (code,) = part["code"]["coding"]
        if code["system"] == f"urn:wallside:{system}":
            plain = part.get("valueQuantity", {}).get("value")
            found[code["code"]] = plain
            if plain is None:
                (found[code["code"]],) = (c["code"] for c in part["valueCodeableConcept"]["coding"])
    return found


def test_a_change_carries_its_error() -> None:
    """SD and interval stand beside a change, in its unit.

    An oximeter's SD of 3 and the rounding of a whole number, twice: the root of 2 (9 + 1/12) is
    4.262; and 1.96 times that about the change from 51 to 53 leads from -6.4 to 10.4.
    """
    first = coded(document(FULL), "heart_rate")[0]
    assert first["valueQuantity"]["value"] == 2
    assert parts(first) == {"sd": 4.3, "low": -6.4, "high": 10.4}
    units = {p["valueQuantity"]["code"] for p in first["component"] if parts({"component": [p]})}
    assert units == {"/min"}


def test_a_line_carries_its_probability() -> None:
    """Percent and band stand beside the line.

    A fall of 40 against a line of 30, with the cuff's error of a quarter of 8 squared and the
    rounding, twice: SD 5.672, so it is past the line by 1.763 SD; the normal distribution is
    the standard library's.
    """
    (large,) = coded(document(FULL), "large-fall")
    sd = (2 * (0.25 * 64 + 1 / 12)) ** 0.5
    told = parts(large)
    assert told["probability"] == pytest.approx(100 * NormalDist().cdf(10 / sd), abs=0.05)
    assert (told["band"], told["rule"]) == ("clear", "one-change")
    assert told["at-least"] <= told["probability"] <= told["at-most"]


@every_record
def test_certainties_are_those_of_the_findings(record: TestRecord) -> None:
    """What is judged on a change has its certainty, and no other line has one."""
    found = document(record)
    known = certainty(record, find(record))
    assert {
        o["code"]["coding"][0]["code"]: parts(o)["band"]
        for o in in_system(found, "line")
        if parts(o)
    } == {str(one.line): str(one.band) for one in known.lines}
    spread = [parts(o)["sd"] for o in in_system(found, "change")]
    assert sorted(spread) == sorted(round(one.sd, 1) for one in known.changes)


@every_record
def test_the_grade_stands_beside_the_findings(record: TestRecord) -> None:
    """One observation holds the grade, and each of its reasons with its weight; none is a vital."""
    (graded,) = in_system(document(record), "quality")
    known = quality(record, find(record))
    (grade,) = graded["valueCodeableConcept"]["coding"]
    assert grade["code"] == known.grade
    assert parts(graded, "shortfall") == {
        str(reason.shortfall): str(reason.weight) for reason in known.reasons
    }
    assert "derivedFrom" not in graded


def test_the_grade_by_hand() -> None:
    """Stopped early, with a late, a half and missed readings, caffeine and medicines: fair."""
    (graded,) = in_system(document(FULL), "quality")
    assert graded["valueCodeableConcept"]["coding"][0]["code"] == "fair"
    assert {"ended-early", "reading-late", "number-missing", "departure"} <= {
        code for code, weight in parts(graded, "shortfall").items() if weight == "limiting"
    }
    assert {"medicine", "poor-sleep"} == {
        code for code, weight in parts(graded, "shortfall").items() if weight == "note"
    }


def test_certainty_changes_no_conclusion() -> None:
    """The report's conclusion and codes are the findings' alone."""
    (report,) = of(document(RISE_ONCE), "DiagnosticReport")
    assert [one["coding"][0]["code"] for one in report["conclusionCode"]] == [
        "heart-rate-rise.met-once"
    ]
