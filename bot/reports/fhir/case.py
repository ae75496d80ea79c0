"""One test as the file needs it: its facts, and the names of all that is said about it."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Final
from uuid import UUID, uuid5
from zoneinfo import ZoneInfo

from bot.engine.effects import Param
from bot.findings.result import Findings
from bot.protocol.record import TestRecord
from bot.reports.fhir.codes import URI
from bot.reports.fhir.plain import Json, one_line
from bot.texts import render

NAMESPACE: Final = UUID("6f1a4a0e-5a53-5c57-9f6b-2f7f5a3f6d10")
"""The namespace of all names made here; it never changes, or all names would. Chosen freely."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One test and how it is to be handed over.

    Attributes:
        record: The facts.
        findings: What they show.
        person: The clinic's opaque reference of the person; never a name.
        locale: A shipped language, for what people read.
        generated: When the document was put together; aware.
        software: The version of this program.
        pdf: The page for the care team.

    Raises:
        ValueError: The reference is empty or not on one line, or the time has no zone.
    """

    record: TestRecord
    findings: Findings
    person: str
    locale: str
    generated: datetime
    software: str
    pdf: bytes

    def __post_init__(self) -> None:
        if not self.person or one_line(self.person) != self.person:
            raise ValueError("the person's reference is empty, or not on one line")
        if self.generated.tzinfo is None:
            raise ValueError("the time has no zone")

    def name(self, *part: str | int) -> str:
        """Return the lasting id of a part of this test: a UUID of version 5.

        It is made of the reference, the number of the test and the part, so a second file of the
        same test, corrected or not, speaks of the same things.
        """
        return _name(self.person, self.record.number, *part)

    @property
    def patient(self) -> str:
        """The lasting id of the person, the same in all their tests."""
        return _name(self.person)

    @property
    def program(self) -> str:
        """The lasting id of this version of the program, the same for everybody."""
        return _name("software", self.software)

    def time(self, at: datetime) -> str:
        """Return an instant with its offset: on the person's clock if it is known, else in UTC."""
        told = self.record.circumstances
        zone = UTC if told is None or told.zone is None else ZoneInfo(told.zone)
        return at.astimezone(zone).isoformat(timespec="seconds")

    @property
    def ended(self) -> datetime:
        """When it ended or, while it is under way, the last instant known of it."""
        record = self.record
        if record.ended_at is not None:
            return record.ended_at
        return max(
            (
                record.began_at,
                *(phase.started_at for phase in record.phases),
                *(reading.given_at for reading in record.readings),
                *(symptom.told_at for symptom in record.symptoms),
            )
        )

    def say(self, key: str, params: Mapping[str, Param] | None = None) -> str:
        """Return a sentence of the catalogue for people to read."""
        return render(key, params or {}, self.locale)


def display(key: str) -> str:
    """Return a term of the catalogue as the name of a code, which is English everywhere."""
    return render(key, {}, "en")


def url(name: str) -> str:
    """Return the address of a resource within the document, and its value as an identifier."""
    return f"urn:uuid:{name}"


def reference(name: str) -> Json:
    """Return a reference to a resource of the document."""
    return {"reference": url(name)}


def identifier(name: str) -> Json:
    """Return a business identifier, which a receiver keeps even when it gives ids of its own."""
    return {"system": URI, "value": url(name)}


def _name(*parts: str | int) -> str:
    return str(uuid5(NAMESPACE, json.dumps(parts)))
