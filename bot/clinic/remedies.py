"""What a setting may be, in plain words, where the one that was written cannot be used."""

import re
from collections.abc import Mapping
from typing import Any, Final

_PLAIN: Final[Mapping[str, str]] = {
    "bool_parsing": "write true or false",
    "bool_type": "write true or false",
    "int_parsing": "write a whole number",
    "int_type": "write a whole number",
    "int_from_float": "write a whole number",
    "float_parsing": "write a number",
    "float_type": "write a number",
    "string_type": 'write words between quotation marks, such as "Harbour Street Clinic"',
    "time_parsing": "write a time of day like 08:30",
    "time_type": "write a time of day like 08:30",
    "path_type": "write the name of a file or a folder",
    "tuple_type": 'write a list in brackets, such as ["en", "es"]',
    "list_type": 'write a list in brackets, such as ["en", "es"]',
    "dict_type": 'write a line for each language, such as en = "…", under its own heading',
    "model_type": "write its settings below, under a heading in brackets",
    "missing": "this has to be set",
    "missing_argument": "this has to be set",
}
"""By the kinds of faults that pydantic names (its documentation, "Validation Errors")."""


_DAYS: Final = re.compile(r"datetime\.timedelta\(days=(\d+)\)")
_PATTERNS: Final[Mapping[str, str]] = {
    "emergency_number": "write digits, with spaces, - or / between them and perhaps a + before",
}
"""What is to be written for a setting that has a pattern."""


def plainly(
    kind: str, message: str, limits: Mapping[str, Any] | None = None, *, name: str = ""
) -> str:
    """Return what to write instead, as half a sentence without a full stop.

    Args:
        kind: Of the fault, as pydantic names it.
        message: Its own words, kept where they are ours, or where we have none.
        limits: What the fault's kind goes with, such as the least that may be.
        name: The setting's own.
    """
    if kind in _PLAIN:
        return _PLAIN[kind]
    limits = limits or {}
    match kind:
        case "greater_than_equal":
            return f"the least is {_shown(limits['ge'])}"
        case "greater_than":
            return f"write more than {_shown(limits['gt'])}"
        case "less_than_equal":
            return f"the most is {_shown(limits['le'])}"
        case "string_too_short" | "too_short":
            return "this may not be empty"
        case "string_pattern_mismatch":
            return _PATTERNS.get(name, "use small letters, digits and -, at most 24")
        case "string_too_long":
            return f"write at most {limits['max_length']} letters"
        case "too_long":
            return f"write at most {limits['max_length']}"
        case "literal_error" | "enum":
            return f"use {limits['expected']}"
        case _:
            return message.removeprefix("Value error, ")


def _shown(limit: object) -> str:
    """Return a limit as a clinic would write it; behind a validator of ours it comes as its code.

    Lengths of time are limited by whole days.
    """
    days = _DAYS.fullmatch(str(limit) if isinstance(limit, str) else repr(limit))
    if days is not None:
        return "1 day" if days[1] == "1" else f"{days[1]} days"
    return f"{limit:g}" if isinstance(limit, float) else str(limit)
