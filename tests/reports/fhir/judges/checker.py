"""A small checker of StructureDefinitions: what a snapshot says of each element.

It knows cardinalities, fixed and pattern values, slices told apart by value, required bindings,
types of choices and the targets of references, and that there is no element that the snapshot
does not name. Constraints are another judge's. What it knows of R4 it reads from the snapshots.
"""

import json
import re
from collections.abc import Iterator
from functools import cache
from typing import Any, Final

from tests.reports.fhir.judges.definitions import (
    Json,
    claimed,
    codes,
    elements,
    read,
    resources,
)

_FORMS: Final[dict[str, str]] = read("profiles")["primitives"]
"""What the plain data types look like, as regular expressions."""


def complaints(bundle: Json) -> Iterator[str]:
    """Yield what is wrong with a bundle, its resources, and the links between them."""
    yield from _Check("Bundle", _kinds(bundle)).root(bundle)
    for resource in resources(bundle):
        yield from _alone(json.dumps(resource), json.dumps(_kinds(bundle)))
    yield from _links(bundle)


@cache
def _alone(resource: str, kinds: str) -> tuple[str, ...]:
    """Return what is wrong with a resource among others of these kinds; remembered."""
    found: Json = json.loads(resource)
    return tuple(
        one for name in claimed(found) for one in _Check(name, json.loads(kinds)).root(found)
    )


def _kinds(bundle: Json) -> dict[str, str]:
    """Return of what kind the resource at each address is."""
    return {
        entry.get("fullUrl"): entry.get("resource", {}).get("resourceType")
        for entry in bundle.get("entry", [])
    }


class _Check:
    """One definition."""

    def __init__(self, name: str, types: dict[str, str]) -> None:
        self.types = types
        self.all = {element["id"]: element for element in elements(name)}
        self.top = next(iter(self.all))

    def root(self, value: Json) -> Iterator[str]:
        """Yield what is wrong with a whole resource or a value of a data type."""
        yield from self._inside(self.top, value, ignore={"resourceType"})

    def _inside(self, parent: str, value: Json, ignore: frozenset[str] | set[str]) -> Iterator[str]:
        known = set(ignore)
        for identity in self._children(parent):
            element = self.all[identity]
            found = list(_occurrences(element, value))
            known |= {name for name, _ in found}
            values = [one for _, one in found]
            yield from self._count(element, len(values))
            for name, one in found:
                yield from self._one(identity, name, one)
            yield from self._slices(identity, found)
        yield from (f"{parent}: {name} is not defined" for name in value if name not in known)

    def _slices(self, identity: str, found: list[tuple[str, Any]]) -> Iterator[str]:
        """Yield what is wrong with slices: those of a choice by type, all others by value."""
        for sliced in self.all:
            if not sliced.startswith(f"{identity}:") or "." in sliced[len(identity) :]:
                continue
            if identity.endswith("[x]"):
                mine = [value for name, value in found if sliced == f"{identity}:{name}"]
            else:
                mine = [value for _, value in found if self._belongs(identity, sliced, value)]
            yield from self._count(self.all[sliced], len(mine))
            for one in mine:
                yield from self._one(sliced, "", one)

    def _belongs(self, identity: str, sliced: str, value: Any) -> bool:
        """Return whether a value has all that tells the slice apart from others."""
        paths = [one["path"] for one in self.all[identity]["slicing"]["discriminator"]]
        return all(self._has(sliced, path.split("."), value) for path in paths)

    def _has(self, identity: str, path: list[str], value: Any) -> bool:
        if not path:
            fixed = _fixed(self.all[identity])
            return fixed is not None and value == fixed
        if not isinstance(value, dict) or path[0] not in value:
            return False
        inner = value[path[0]]
        nexts = [
            key
            for key in self.all
            if key.partition(f"{identity}.")[2].partition(":")[0] == path[0]
            and key.startswith(f"{identity}.")
        ]
        return any(
            self._has(key, path[1:], one)
            for key in nexts
            for one in (inner if isinstance(inner, list) else [inner])
        )

    def _one(self, identity: str, name: str, value: Any) -> Iterator[str]:
        element = self.all[identity]
        fixed = _fixed(element)
        if fixed is not None and value != fixed:
            yield f"{identity}: {value!r} is not {fixed!r}"
        yield from self._bound(element, value)
        yield from self._targets(element, value)
        if not isinstance(value, dict):
            yield from _form(element, name, value)
            return
        if "resourceType" in value:
            return
        if "contentReference" in element:
            yield from self._inside(element["contentReference"].removeprefix("#"), value, set())
        elif any(self._children(identity)):
            yield from self._inside(identity, value, set())
        else:
            kind = _type(element, name)
            if kind in read("profiles"):
                yield from _Check(kind, self.types).root(value)

    def _count(self, element: Json, count: int) -> Iterator[str]:
        least, most = element["min"], element["max"]
        if count < least or (most != "*" and count > int(most)):
            yield f"{element['id']}: {count} of {least}..{most}"

    def _bound(self, element: Json, value: Any) -> Iterator[str]:
        binding = element.get("binding", {})
        allowed = codes(binding["valueSet"]) if binding.get("strength") == "required" else None
        if allowed is None:
            return
        found: set[tuple[str | None, str | None]]
        if isinstance(value, str):
            found = {(None, value)}
        elif isinstance(value, dict):
            codings = value.get("coding", [value])
            found = {(one.get("system"), one.get("code")) for one in codings}
            if found == {(None, None)}:
                return  # no quantity, no code: nothing that could be bound
        else:
            return
        if not any(
            code in within and system in {None, name}
            for system, code in found
            for name, within in allowed.items()
        ):
            yield f"{element['id']}: {found} is none of {binding['valueSet']}"

    def _targets(self, element: Json, value: Any) -> Iterator[str]:
        if not isinstance(value, dict) or "reference" not in value:
            return
        targets = {
            target.rpartition("/")[2]
            for kind in element.get("type", [])
            for target in kind.get("targetProfile", [])
        }
        kind = self.types.get(value["reference"])
        if targets and "Resource" not in targets and kind is not None and kind not in targets:
            yield f"{element['id']}: refers to a {kind}, not to one of {sorted(targets)}"

    def _children(self, parent: str) -> Iterator[str]:
        for identity in self.all:
            head, _, last = identity.rpartition(".")
            if head == parent and ":" not in last:
                yield identity


def _occurrences(element: Json, value: Json) -> Iterator[tuple[str, Any]]:
    """Yield the property and each value of an element, a choice by the type in its name."""
    name = element["path"].rpartition(".")[2]
    names = [name]
    if name.endswith("[x]"):
        kinds = [kind["code"] for kind in element["type"]]
        names = [f"{name[:-3]}{kind[0].upper()}{kind[1:]}" for kind in kinds]
    for one in names:
        if one in value:
            inner = value[one]
            yield from ((one, part) for part in (inner if isinstance(inner, list) else [inner]))


def _type(element: Json, name: str) -> str:
    kinds = [kind["code"] for kind in element.get("type", [])]
    chosen = [kind for kind in kinds if name.endswith(f"{kind[0].upper()}{kind[1:]}")]
    found: str = (chosen or kinds or [""])[0]
    return found


def _form(element: Json, name: str, value: Any) -> Iterator[str]:
    """Yield that a plain value does not look as its data type does."""
    form = _FORMS.get(_type(element, name))
    text = json.dumps(value) if isinstance(value, bool | int | float) else value
    if form is not None and not (isinstance(text, str) and re.fullmatch(form, text)):
        yield f"{element['id']}: {value!r} is no {_type(element, name)}"


def _fixed(element: Json) -> Any:
    return next(
        (value for key, value in element.items() if key.startswith(("fixed", "pattern"))), None
    )


def _links(bundle: Json) -> Iterator[str]:
    """Yield broken references, and what of a document its composition does not lead to.

    R4, documents: all resources that the composition refers to, directly or not, are in the
    bundle; and nothing is in it without a reason of that kind.
    """
    entries = bundle.get("entry", [])
    urls = [entry.get("fullUrl") for entry in entries]
    yield from (f"fullUrl {url} stands twice" for url in set(urls) if urls.count(url) > 1)
    by_url = {entry.get("fullUrl"): entry.get("resource", {}) for entry in entries}
    for url, resource in by_url.items():
        if url != f"urn:uuid:{resource.get('id')}":
            yield f"{url} is not the address of {resource.get('id')}"
        yield from (
            f"{resource.get('resourceType')}: {target} is not in the bundle"
            for target in _references(resource)
            if target not in by_url
        )
    reached: set[str] = set()
    waiting = urls[:1]
    while waiting:
        url = waiting.pop()
        if url in by_url and url not in reached:
            reached.add(url)
            waiting += _references(by_url[url])
    yield from (f"{url} is led to by nothing" for url in urls if url not in reached)


def _references(value: Any) -> Iterator[str]:
    if isinstance(value, list):
        for one in value:
            yield from _references(one)
    elif isinstance(value, dict):
        if isinstance(value.get("reference"), str):
            yield value["reference"]
        for one in value.values():
            yield from _references(one)
