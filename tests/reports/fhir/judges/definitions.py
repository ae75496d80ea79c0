"""The official R4 definitions, read once."""

import json
import lzma
from functools import cache
from pathlib import Path
from typing import Any, Final

DATA: Final = Path(__file__).parent.parent / "data"

Json = dict[str, Any]


@cache
def read(name: str) -> Json:
    """Return one file of definitions."""
    content: Json = json.loads(lzma.decompress((DATA / f"{name}.json.xz").read_bytes()))
    return content


def profile(name: str) -> Json:
    """Return a StructureDefinition by its id."""
    found: Json = read("profiles")[name]
    return found


def elements(name: str) -> list[Json]:
    """Return the snapshot of a StructureDefinition."""
    found: list[Json] = profile(name)["element"]
    return found


def codes(value_set: str) -> dict[str, set[str]] | None:
    """Return the codes of a value set by system; `None` when they are not in the definitions."""
    found = read("valuesets").get(value_set.partition("|")[0])
    return None if found is None else {system: set(within) for system, within in found.items()}


def resources(bundle: Json) -> list[Json]:
    """Return the resources of a bundle, as far as they are there."""
    return [entry["resource"] for entry in bundle.get("entry", []) if "resource" in entry]


def claimed(resource: Json) -> list[str]:
    """Return the ids of the definitions that a resource has to keep: its type's and profiles'.

    An observation is held to the vital-signs profiles by its LOINC code too, whether it claims
    them or not: R4 says "any Observation with one of the codes in scope".
    """
    names = [resource["resourceType"]]
    names += [url.rpartition("/")[2] for url in resource.get("meta", {}).get("profile", [])]
    if resource["resourceType"] == "Observation":
        coded = {coding.get("code") for coding in resource.get("code", {}).get("coding", [])}
        names += [name for name, code in _BY_CODE.items() if code in coded]
    return list(dict.fromkeys(names))


_BY_CODE: Final = {"bp": "85354-9", "heartrate": "8867-4"}
