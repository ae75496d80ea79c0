"""Codes and units are those of LOINC and UCUM."""

import re
from collections.abc import Iterator
from typing import Any

import pytest

from tests.reports.fhir.cases import RECORDS, document
from tests.reports.fhir.judges.definitions import codes

POSITIONS = {"supine": 0, "seated": 1, "standing": 2}
HEART_RATES = ("68999-2", "69000-8", "69001-6")
SYSTOLICS = ("8461-6", "8459-0", "8460-8")
DIASTOLICS = ("8455-8", "8453-3", "8454-1")
"""By position: supine, sitting, standing. HL7's value sets of vital signs."""


def codings(value: Any) -> Iterator[dict[str, str]]:
    """Yield every coding and quantity in a value."""
    if isinstance(value, list):
        for one in value:
            yield from codings(one)
    elif isinstance(value, dict):
        if "code" in value and "system" in value:
            yield value
        for one in value.values():
            yield from codings(one)


USED = [coding for record in RECORDS.values() for coding in codings(document(record))]
LOINC = sorted({coding["code"] for coding in USED if coding["system"] == "http://loinc.org"})
UNITS = sorted({coding["code"] for coding in USED if coding["system"].endswith("measure.org")})


def check_digit(number: str) -> int:
    """Return the check digit of a LOINC number (mod 10, LOINC Users' Guide, appendix C)."""
    doubled = "".join(str(2 * int(digit)) for digit in number[::-2])
    rest = number[-2::-2]
    return -sum(int(digit) for digit in doubled + rest) % 10


@pytest.mark.parametrize("code", LOINC)
def test_loinc_check_digits(code: str) -> None:
    """Every LOINC code carries the check digit that LOINC's rule gives its number."""
    number, _, digit = code.partition("-")
    assert check_digit(number) == int(digit)


def test_the_check_bites() -> None:
    """LOINC's own example is right, and neighbours of a code are not."""
    assert check_digit("12345") == 5  # LOINC Users' Guide: 12345-5, from memory
    assert check_digit("8867") == 4
    assert check_digit("8876") != 4
    assert check_digit("8868") != 4


def test_the_loinc_codes_are_these() -> None:
    """The codes in use are the table's, the panel, and the section of vital signs."""
    table = (*HEART_RATES, *SYSTOLICS, *DIASTOLICS, "8867-4", "8480-6", "8462-4")
    assert sorted((*table, "85354-9", "8716-3")) == LOINC
    sections = codes("http://hl7.org/fhir/ValueSet/doc-section-codes") or {}
    assert "8716-3" in sections["http://loinc.org"]
    vitals = codes("http://hl7.org/fhir/ValueSet/observation-vitalsignresult") or {}
    assert {"8867-4", "8480-6", "8462-4", "85354-9"} <= vitals["http://loinc.org"]


@pytest.mark.parametrize(
    ("position", "rate", "systolic", "diastolic"),
    list(zip(POSITIONS, HEART_RATES, SYSTOLICS, DIASTOLICS, strict=True)),
)
def test_base_code_first_and_position_beside_it(
    position: str, rate: str, systolic: str, diastolic: str
) -> None:
    """Each number has the base code first, and then the one for the position it was taken in."""
    found: dict[str, set[tuple[str, ...]]] = {}
    for entry in document(RECORDS["early-fall"])["entry"]:
        resource = entry["resource"]
        if resource.get("code", {}).get("text", "").endswith(f", {position}"):
            for one in (resource, *resource.get("component", ())):
                said = tuple(coding["code"] for coding in one["code"]["coding"])
                found.setdefault(said[0], set()).add(said)
    assert found == {
        "8867-4": {("8867-4", rate)},
        "85354-9": {("85354-9",)},
        "8480-6": {("8480-6", systolic)},
        "8462-4": {("8462-4", diastolic)},
    }


@pytest.mark.parametrize("unit", UNITS)
def test_units_are_ucum(unit: str) -> None:
    """Each unit is one that R4 lists as UCUM, or such ones to a power, joined by dots.

    That is as much of UCUM's grammar (section 2.2 of its specification) as is used.
    """
    common = (codes("http://hl7.org/fhir/ValueSet/ucum-common") or {})["http://unitsofmeasure.org"]
    parts = [unit] if unit in common else [re.sub(r"-?\d+$", "", p) for p in unit.split(".")]
    assert [part for part in parts if part not in common] == []


def test_the_units_are_these() -> None:
    """Shares, rates, their ratio, pressures and seconds; the everyday forms are not UCUM."""
    common = (codes("http://hl7.org/fhir/ValueSet/ucum-common") or {})["http://unitsofmeasure.org"]
    assert UNITS == ["%", "/min", "min-1.mm[Hg]-1", "mm[Hg]", "s"]
    assert {"bpm", "mmHg"} & common == set()


def test_own_codes_do_not_look_like_others() -> None:
    """Every other system is HL7's, or a URN of this project's own."""
    others = {coding["system"] for coding in USED} - {
        "http://loinc.org",
        "http://unitsofmeasure.org",
    }
    assert {system for system in others if not system.startswith("urn:wallside:")} == {
        "http://terminology.hl7.org/CodeSystem/data-absent-reason",
        "http://terminology.hl7.org/CodeSystem/observation-category",
    }
