"""Resources as plain JSON values, and the one way they become bytes."""

import json
import unicodedata
from typing import Any

Json = dict[str, Any]
"""An object of JSON: a resource or a part of one."""


def canonical(resource: Json) -> bytes:
    """Return a resource in FHIR's canonical JSON: properties in order, no white space, UTF-8."""
    text = json.dumps(
        resource, ensure_ascii=False, allow_nan=False, sort_keys=True, separators=(",", ":")
    )
    return text.encode()


def one_line(text: str) -> str:
    """Return text without controls, halves of pairs and runs of white space; perhaps empty."""
    visible = "".join(
        " " if character.isspace() else character
        for character in text
        if character.isspace() or not unicodedata.category(character).startswith("C")
    )
    return " ".join(visible.split())
