"""The files of an export, one after the other, and last what they are."""

import hashlib
import json
import re
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from importlib.metadata import version
from typing import Any, Final

from bot.engine.effects import Form
from bot.errors import ExportError
from bot.exporting.choosing import Sent, Wanted
from bot.exporting.disguise import LONGEST_MOVE, Disguise
from bot.exporting.readme import readme
from bot.protocol.record import TestRecord
from bot.reports import File, Imprint, make, people_table

FORMS: Final = (Form.CSV, Form.PDF, Form.FHIR)
"""The forms in which tests go out."""

FORMAT: Final = "wallside-export"
FORMAT_VERSION: Final = 1
"""Of the manifest; goes up when a program that reads it would have to change."""

README: Final = "README.txt"
TABLE: Final = "tests.csv"
MANIFEST: Final = "manifest.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """How an export is made.

    Attributes:
        forms: The forms that go into it.
        language: A shipped language, for what people read.
        wanted: What was asked for.
        disguise: What makes it fit for research; `None` for the clinic's own files.
    """

    forms: tuple[Form, ...] = FORMS
    language: str = "en"
    wanted: Wanted = field(default_factory=Wanted)
    disguise: Disguise | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One file of an export."""

    name: str
    content: bytes


def steps(people: Sequence[Sent], plan: Plan) -> int:
    """Return how many steps `entries` tells of."""
    tests = sum(len(person.records) for person in people)
    return tests * sum(form is not Form.CSV for form in plan.forms) + 1


def entries(
    people: Sequence[Sent], plan: Plan, progress: Callable[[int], None] = lambda _: None
) -> Iterator[Entry]:
    """Make the files, one at a time, so that many people's need no more room than one's.

    Args:
        people: What goes out.
        plan: How.
        progress: Told how many steps more are done.

    Raises:
        ExportError: Two people cannot be told apart.
    """
    if plan.disguise is not None:
        people = [plan.disguise.of(person) for person in people]
    people = sorted(people, key=lambda person: person.name)
    if len({person.name for person in people}) < len(people):
        raise ExportError("Two people are known by the same reference, so nothing was written.")
    written: list[dict[str, Any]] = []
    for entry in _files(people, plan, progress):
        yield entry
        digest = hashlib.sha256(entry.content).hexdigest()
        written.append({"name": entry.name, "bytes": len(entry.content), "sha256": digest})
    yield Entry(name=MANIFEST, content=_manifest(people, plan, written))


def _files(people: Sequence[Sent], plan: Plan, progress: Callable[[int], None]) -> Iterator[Entry]:
    tests = sum(len(person.records) for person in people)
    words = readme(
        plan.forms,
        plan.language,
        people=len(people),
        tests=tests,
        research=plan.disguise is not None,
    )
    yield Entry(name=README, content=words)
    if Form.CSV in plan.forms:
        table = people_table({person.name: person.records for person in people})
        yield Entry(name=TABLE, content=table.content)
    progress(1)
    for person, folder in zip(people, folders(people), strict=True):
        for record in person.records:
            for form in plan.forms:
                if form is not Form.CSV:
                    file = _file(form, record, plan.language, person.name)
                    yield Entry(name=f"{folder}/{file.name}", content=file.content)
                    progress(1)


def _file(form: Form, record: TestRecord, language: str, name: str) -> File:
    """Return one test in a form; no clock goes into it, so that it is the same each time."""
    return make(form, record, language, Imprint(reference=name))


def folders(people: Sequence[Sent]) -> list[str]:
    """Return a folder for each: named as they are known, and apart on every file system."""
    plain = [re.sub(r"[^A-Za-z0-9_-]", "_", person.name)[:64] or "_" for person in people]
    often = Counter(name.casefold() for name in plain)
    return [
        f"people/{name}"
        if often[name.casefold()] == 1
        else f"people/{name}-{hashlib.sha256(person.name.encode()).hexdigest()[:8]}"
        for name, person in zip(plain, people, strict=True)
    ]


def _manifest(people: Sequence[Sent], plan: Plan, written: Sequence[dict[str, Any]]) -> bytes:
    records = [record for person in people for record in person.records]
    protocols = Counter(str(record.protocol) for record in records)
    facts: dict[str, Any] = {
        "format": FORMAT,
        "format_version": FORMAT_VERSION,
        "software": f"wallside {version('wallside')}",
        "language": plan.language,
        "forms": [str(form) for form in plan.forms],
        "holds": "tests that people have sent to their care team and have not taken back",
        "research": _research(plan),
        "asked_for": _asked_for(plan),
        "counts": {"people": len(people), "tests": len(records), "files": len(written)},
        "protocols": [
            {"protocol": name, "tests": count} for name, count in sorted(protocols.items())
        ],
        "people": [
            {
                "person": person.name,
                "folder": folder,
                "tests": [{"test": r.number, "revision": r.revision} for r in person.records],
            }
            for person, folder in zip(people, folders(people), strict=True)
        ],
        "files": list(written),
    }
    return f"{json.dumps(facts, ensure_ascii=False, indent=1)}\n".encode()


def _research(plan: Plan) -> dict[str, Any] | None:
    if plan.disguise is None:
        return None
    return {
        "references": "replaced: HMAC-SHA256 of the reference, with a key that is not in here",
        "dates": f"moved back by 1 to {LONGEST_MOVE} whole days, the same for all of a person",
        "words": "what people typed, and their time zone, are left out",
    }


def _asked_for(plan: Plan) -> dict[str, Any] | None:
    """Return what was asked for; of research it would tell references and true days."""
    if plan.disguise is not None:
        return None
    wanted = plan.wanted
    return {
        "references": list(wanted.references) or None,
        "from": None if wanted.since is None else wanted.since.isoformat(),
        "to": None if wanted.until is None else wanted.until.isoformat(),
        "zone": wanted.zone,
    }
