"""Finding one's way in a file that was read back."""

from collections.abc import Iterator
from typing import Any

import pytest

from tests.reports.fhir.cases import RECORDS, Json

every_record = pytest.mark.parametrize("record", RECORDS.values(), ids=RECORDS)
"""Runs a test on every example."""


def of(found: Json, kind: str) -> list[Json]:
    """Return the resources of a kind."""
    resources = [entry["resource"] for entry in found["entry"]]
    return [resource for resource in resources if resource["resourceType"] == kind]


def coded(found: Json, code: str) -> list[Json]:
    """Return the observations whose first code it is."""
    return [o for o in of(found, "Observation") if o["code"]["coding"][0]["code"] == code]


def in_system(found: Json, system: str) -> list[Json]:
    """Return the observations with a code of one of the project's systems."""
    name = f"urn:wallside:{system}"
    return [o for o in of(found, "Observation") if o["code"]["coding"][0]["system"] == name]


def value(part: Json) -> int | None:
    """Return a number, or that there is none."""
    number: int | None = part.get("valueQuantity", {}).get("value")
    return number


def items(found: Json, questionnaire: str) -> dict[str, list[Any]]:
    """Return the answers of a questionnaire by their link, those within groups too."""
    name = f"urn:wallside:questionnaire:{questionnaire}|1"
    answers: dict[str, list[Any]] = {}
    for response in of(found, "QuestionnaireResponse"):
        if response["questionnaire"] == name:
            for item in _flat(response["item"]):
                for answer in item.get("answer", ()):
                    ((kind, said),) = answer.items()
                    plain = said["code"] if kind == "valueCoding" else said
                    answers.setdefault(item["linkId"], []).append(plain)
    return answers


def _flat(nested: list[Json]) -> Iterator[Json]:
    for item in nested:
        yield item
        yield from _flat(item.get("item", []))


def leaves(found: Any, path: str = "") -> dict[str, Any]:
    """Return every plain value by its path."""
    if isinstance(found, dict):
        pairs = [(f"{path}.{key}", inner) for key, inner in found.items()]
    elif isinstance(found, list):
        pairs = [(f"{path}[{n}]", inner) for n, inner in enumerate(found)]
    else:
        return {path: found}
    return {key: leaf for at, inner in pairs for key, leaf in leaves(inner, at).items()}


def ids(found: Json) -> list[str]:
    """Return the address of every entry."""
    return [entry["fullUrl"] for entry in found["entry"]]
