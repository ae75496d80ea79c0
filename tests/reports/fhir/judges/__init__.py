"""Four judges of a FHIR bundle that know nothing of each other, nor of the code under test."""

import json
from collections.abc import Iterator
from enum import StrEnum
from functools import cache
from typing import assert_never

import jsonschema_rs
from fhir.resources.R4B.bundle import Bundle
from pydantic import ValidationError

from tests.reports.fhir.judges import checker, invariants
from tests.reports.fhir.judges.definitions import Json, read


class Judge(StrEnum):
    """Who looks at a bundle."""

    MODELS = "models"  # fhir.resources, R4B
    SCHEMA = "schema"  # the official JSON schema
    INVARIANTS = "invariants"  # the official constraints, by fhirpathpy
    PROFILES = "profiles"  # the official snapshots, by a small checker


def complaints(judge: Judge, bundle: Json) -> list[str]:
    """Return what a judge has against a bundle; nothing when it is sound."""
    match judge:
        case Judge.MODELS:
            return list(_models(bundle))
        case Judge.SCHEMA:
            return [
                f"{'/'.join(map(str, error.instance_path))}: {error.message[:200]}"
                for error in _schema().iter_errors(bundle)
            ]
        case Judge.INVARIANTS:
            return list(invariants.complaints(bundle))
        case Judge.PROFILES:
            return list(checker.complaints(bundle))
        case _:
            assert_never(judge)


def _models(bundle: Json) -> Iterator[str]:
    try:
        Bundle.model_validate_json(json.dumps(bundle))
    except ValidationError as error:
        yield from (str(one["loc"]) + ": " + one["msg"] for one in error.errors())


@cache
def _schema() -> jsonschema_rs.Draft6Validator:
    """Return the official schema at a bundle."""
    schema = {key: value for key, value in read("schema").items() if key != "oneOf"}
    return jsonschema_rs.Draft6Validator({**schema, "$ref": "#/definitions/Bundle"})
