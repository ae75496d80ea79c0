"""The constraints of the official StructureDefinitions, evaluated by fhirpathpy."""

import json
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any, Final

from fhirpathpy import apply_parsed_path
from fhirpathpy.models import models
from fhirpathpy.parser import parse

from tests.reports.fhir.judges.definitions import Json, claimed, elements, resources

_MODEL: Final = models["r4"]

LEFT_OUT: Final = {
    "txt-1": "htmlChecks() is not part of FHIRPath; a test reads the narratives as XML instead",
    "txt-2": "the same",
    "ref-1": "about contained resources, of which there are none; a test holds that",
    "dom-3": "the same",
    "ext-1": "about extensions, of which there are none; a test holds that",
    "dom-6": "a best practice: every resource is in the sections' narrative instead",
    "ele-1": "evaluated once for all elements, below",
}
"""Constraints that are not evaluated one by one, and why."""

NOT_EMPTY: Final = "descendants().all(hasValue() or (children().count() > id.count()))"
"""ele-1, for every element at once."""


def complaints(bundle: Json) -> Iterator[str]:
    """Yield the constraints of severity error that do not hold."""
    bare = [
        {
            key: {"resourceType": "Basic"} if key == "resource" else value
            for key, value in entry.items()
        }
        for entry in bundle.get("entry", [])
    ]
    if not _holds({**bundle, "entry": bare}, NOT_EMPTY, bundle):
        yield "ele-1"
    yield from _broken(bundle, bundle, _everything)
    for resource in resources(bundle):
        yield from _broken_alone(json.dumps(resource))
        yield from _broken(resource, bundle, _looks_around)


@cache
def _broken_alone(written: str) -> tuple[str, ...]:
    """Return what does not hold in a resource, whatever bundle it is in; remembered."""
    resource = json.loads(written)
    empty = () if _holds(resource, NOT_EMPTY, resource) else ("ele-1",)
    return (*empty, *_broken(resource, resource, lambda told: not _looks_around(told)))


def _broken(resource: Json, bundle: Json, which: Callable[[str], bool]) -> Iterator[str]:
    for name in claimed(resource):
        for key, expression in constraints(name):
            if which(expression) and not _holds(resource, expression, bundle):
                yield f"{name}: {key}"


def _everything(expression: str) -> bool:
    del expression
    return True


def _looks_around(expression: str) -> bool:
    """Whether a constraint speaks of the bundle around the resource."""
    return "rootResource" in expression or "resolve()" in expression


@cache
def constraints(name: str) -> tuple[tuple[str, str], ...]:
    """Return the constraints of a definition as expressions on a whole resource, by their key."""
    found: dict[tuple[str, str], None] = {}
    for element in elements(name):
        path = element["path"].replace("[x]", "")
        where = path.replace(f"{_NESTED}.item", f"{_NESTED}.repeat(item)")
        for place, constraint in _of(element, where):
            if constraint["severity"] == "error" and constraint["key"] not in LEFT_OUT:
                expression = f"{place}.all({constraint['expression']})"
                found[constraint["key"], expression] = None
    return tuple(found)


def _of(element: Json, where: str) -> Iterator[tuple[str, Json]]:
    """Yield the constraints on an element: its own, and those of its data types."""
    yield from ((where, constraint) for constraint in element.get("constraint", []))
    kinds = [kind["code"] for kind in element.get("type", [])]
    for kind in kinds:
        if kind in _DATA_TYPES:
            place = where if len(kinds) == 1 else f"{where}.ofType({kind})"
            yield from ((place, one) for one in elements(kind)[0].get("constraint", []))


_NESTED: Final = "QuestionnaireResponse"
"""Its items hold items."""

_DATA_TYPES: Final = ("Quantity", "Period", "Attachment", "Identifier")


def _has_value(found: list[Any]) -> list[bool]:
    """Return whether there is one value and it is a plain one (R4's `hasValue`)."""
    plain = [not isinstance(one, dict | list) for one in found]
    return [plain == [True]]


_OPTIONS: Final = {"userInvocationTable": {"hasValue": {"fn": _has_value, "arity": {0: []}}}}
"""FHIR's own addition to FHIRPath that the library leaves out."""


_parse: Final[Callable[[str], Any]] = parse
_evaluate: Final[Callable[..., list[Any]]] = apply_parsed_path


@cache
def _parsed(expression: str) -> Any:
    return _parse(expression)


def _holds(resource: Json, expression: str, bundle: Json) -> bool:
    context = {"resource": resource, "rootResource": bundle}
    found = _evaluate(resource, _parsed(expression), context, _MODEL, _OPTIONS)
    return found == [True]
